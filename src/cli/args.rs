//! What can be typed: types only, nothing looked up yet.

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};

/// Knowledge base and procedure checklists of a small furniture shop.
#[derive(Debug, Parser)]
#[command(name = "faceside", version, about, arg_required_else_help = true)]
pub(super) struct Typed {
    #[command(flatten)]
    pub(super) common: Common,
    #[command(subcommand)]
    pub(super) command: Command,
}

/// What every command takes.
#[derive(Debug, Args)]
pub(super) struct Common {
    /// Folder of the shop (default: the one here or above that holds shop.yaml, else the
    /// built-in demo)
    #[arg(long, global = true, value_name = "DIR", env = "FACESIDE_SHOP")]
    pub(super) shop: Option<PathBuf>,
    /// Unit of bare numbers and of what is shown (default: the shop's)
    #[arg(long, global = true, value_enum)]
    pub(super) units: Option<UnitWord>,
    /// Answer as JSON
    #[arg(long, global = true)]
    pub(super) json: bool,
    /// Colours: only in a terminal, always, or never
    #[arg(long, global = true, value_enum, default_value_t = ColorWord::Auto)]
    pub(super) color: ColorWord,
}

/// A unit as typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum UnitWord {
    /// Millimetres
    Mm,
    /// Inches
    In,
}

/// When to colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum ColorWord {
    /// In a terminal only
    Auto,
    /// Always
    Always,
    /// Never
    Never,
}

/// A paper size as typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum PaperWord {
    /// 210 x 297 mm
    #[value(name = "A4", alias = "a4")]
    A4,
    /// 8 1/2 x 11 in
    #[value(name = "Letter", alias = "letter")]
    Letter,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub(super) enum Command {
    /// Find procedures, cautions, notes, terms and calculators
    Search(Search),
    /// Print a job's filled checklists (no job: the demo, or the shop's only one)
    Print(Print),
    /// Lead a lesson through a procedure, in the terminal
    Train(Train),
    /// Work out one calculation (no name: the list; no values: what it takes)
    Figure(Figure),
    /// Check the library, a shop or single files, and tell every fault with its place
    Check(Check),
    /// Build the static site
    Site(Site),
    /// Make a new shop folder, with a first procedure to change
    Start(Start),
}

/// `faceside search`
#[derive(Debug, Args)]
pub(super) struct Search {
    /// What to look for
    #[arg(required = true, value_name = "WORDS")]
    pub(super) words: Vec<String>,
    /// At most so many answers
    #[arg(long, default_value_t = 8, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=100))]
    pub(super) most: u32,
}

/// `faceside print`
#[derive(Debug, Args)]
pub(super) struct Print {
    /// Id or file of the job
    #[arg(value_name = "JOB")]
    pub(super) job: Option<String>,
    /// Print to the terminal only, write no files
    #[arg(long)]
    pub(super) plain: bool,
    /// Folder for the HTML (default: out/JOB)
    #[arg(long, value_name = "DIR")]
    pub(super) out: Option<PathBuf>,
    /// Paper (default: the shop's)
    #[arg(long, value_enum)]
    pub(super) paper: Option<PaperWord>,
}

/// `faceside train`
#[derive(Debug, Args)]
pub(super) struct Train {
    /// Id of the procedure
    #[arg(value_name = "PROCEDURE")]
    pub(super) procedure: String,
    /// Who learns: an id or initials
    #[arg(long, value_name = "ID")]
    pub(super) person: Option<String>,
    /// Who teaches: an id or initials
    #[arg(long, value_name = "ID")]
    pub(super) by: Option<String>,
    /// Fill the lesson's numbers from this job instead of the worked example
    #[arg(long, value_name = "JOB")]
    pub(super) job: Option<String>,
    /// Print the lesson sheet instead
    #[arg(long)]
    pub(super) sheet: bool,
    /// Go on at this place of the lesson, as told at the pause
    #[arg(long, default_value_t = 1, value_name = "N")]
    pub(super) from: usize,
}

/// `faceside figure`
#[derive(Debug, Args)]
#[command(after_help = FIGURE_EXAMPLES)]
pub(super) struct Figure {
    /// Name of the calculator
    #[arg(value_name = "CALCULATOR")]
    pub(super) calculator: Option<String>,
    /// Inputs, such as stock=19mm, width="3/4 in" or width=19,5mm; a bare number has the shop's
    /// unit
    #[arg(value_name = "NAME=VALUE")]
    pub(super) values: Vec<String>,
    /// Work out every row of a CSV on standard input; its head names the inputs, and `part` or
    /// `label` what a row is called
    #[arg(long, requires = "calculator")]
    pub(super) rows: bool,
    /// Tell which cutters of the drawer can make the cut, best first; also done where the cutter
    /// that must be given is left out
    #[arg(long, requires = "calculator", conflicts_with = "rows")]
    pub(super) cutters: bool,
}

const FIGURE_EXAMPLES: &str = "\
Examples:
  faceside figure
  faceside figure housing
  faceside figure housing width=17.7mm depth=6mm
  faceside figure housing width=17.7mm depth=6mm from=100mm cutter=12mm
  faceside figure housing width=17.7mm depth=6mm from=100mm cutter=straight-12
  faceside figure housing width=\"3/4 in\" cutter=0.5in --units in
  faceside figure sliding-dovetail stock=19mm cutter=12.7mm angle=14deg depth=9.5mm --json
  faceside figure housing cutter=12mm --rows < lockers.csv

Rows: `lockers.csv` may read
  part,width,depth
  bench end,17.7 mm,6 mm
  locker side,\"19,5 mm\",6 mm

Exit code 0: worked out; 1: refused; 2: something cannot be read.";

/// `faceside check`
#[derive(Debug, Args)]
pub(super) struct Check {
    /// Files to check (default: the shop, or the built-in library)
    #[arg(value_name = "PATH")]
    pub(super) paths: Vec<PathBuf>,
    /// Explain a fault's code
    #[arg(long, value_name = "CODE")]
    pub(super) explain: Option<String>,
    /// Check again at each change of the files, until Ctrl-C
    #[arg(long, conflicts_with = "explain")]
    pub(super) watch: bool,
}

/// `faceside site`
#[derive(Debug, Args)]
pub(super) struct Site {
    /// Folder for the pages (default: out/site)
    #[arg(long, value_name = "DIR")]
    pub(super) out: Option<PathBuf>,
    /// Build again at each change of the files, and serve the pages on this machine, where an open
    /// one follows; until Ctrl-C
    #[arg(long)]
    pub(super) watch: bool,
    /// Port for the served pages (default: one that is free)
    #[arg(long, requires = "watch", value_name = "PORT", value_parser = clap::value_parser!(u16).range(1..))]
    pub(super) port: Option<u16>,
}

/// `faceside start`
#[derive(Debug, Args)]
pub(super) struct Start {
    /// Folder of the new shop; made when it is not there, and nothing in it is written over
    #[arg(value_name = "DIR", default_value = ".")]
    pub(super) folder: PathBuf,
}
