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
    /// After a test cut: the next move of fence, height or stop; without a reading, a first setting
    /// that leaves wood on, from the record of this machine and cutter where it says enough
    Fit(Fit),
    /// Write down a run, a test cut, a reading, a cutter's size, a near miss, a note, a fault in a
    /// sheet; list, count, export and correct them
    Record(Record),
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
#[command(after_help = TRAIN_EXAMPLES)]
pub(super) struct Train {
    /// Id of the procedure
    #[arg(value_name = "PROCEDURE")]
    pub(super) procedure: Option<String>,
    /// Who learns: an id or initials; without a procedure, this person's own record
    #[arg(long, value_name = "ID")]
    pub(super) person: Option<String>,
    /// Who teaches, watches or signs: an id or initials
    #[arg(long, value_name = "ID")]
    pub(super) by: Option<String>,
    /// Fill the lesson's numbers from this job instead of the worked example
    #[arg(long, value_name = "JOB")]
    pub(super) job: Option<String>,
    /// Print the lesson sheet instead, or with --timetable the timetable
    #[arg(long)]
    pub(super) sheet: bool,
    /// Folder for the sheet as HTML for paper; other sheets in it stay
    #[arg(long, value_name = "DIR", requires = "sheet")]
    pub(super) out: Option<PathBuf>,
    /// Who may do what, and how far everybody is
    #[arg(long, conflicts_with_all = ["procedure", "person"])]
    pub(super) timetable: bool,
    /// Sign what was watched; what is needed is asked
    #[arg(long, value_enum, value_name = "WHAT", requires = "procedure", conflicts_with_all = ["sheet", "questions"])]
    pub(super) sign: Option<SignWord>,
    /// Questions about the procedure, without a lesson
    #[arg(long, requires = "procedure", conflicts_with = "sheet")]
    pub(super) questions: bool,
    /// Begin a new lesson at this step
    #[arg(long, value_name = "N")]
    pub(super) from: Option<u32>,
    /// Ask in plain lines, not in screens; so it is without a terminal
    #[arg(long)]
    pub(super) lines: bool,
}

/// What is signed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum SignWord {
    /// Every step was taught in lessons
    Taught,
    /// A practice run was watched
    Run,
    /// The test was watched
    Tested,
    /// The learner may work alone: machines, limits, last day
    Allowed,
}

const TRAIN_EXAMPLES: &str = "\
Examples:
  faceside train stopped-housing --person A07 --by I02
  faceside train stopped-housing --sheet --out lesson
  faceside train stopped-housing --person A07 --by I02 --questions
  faceside train stopped-housing --person A07 --by I02 --sign run
  faceside train stopped-housing --person A07 --by I05 --sign tested
  faceside train stopped-housing --person A07 --by I05 --sign allowed
  faceside train --timetable
  faceside train --person A07

A lesson is led in screens, one step each; the keys that work stand at the foot. It may stop anywhere
(q, Ctrl-C, a closed terminal): the same command offers to go on there.

In order: a lesson that ends with the signature as taught; three clean watched runs in a row, on two
days; the test, watched by another than who taught; the authority, which ends with its day, rests
when it is not used, and is suspended by a near miss. Nobody signs for himself. Who signs for others may
work alone in it, or is named in people.yaml.

Exit code 0: done; 1: refused, or the record cannot be written; 2: an answer is missing.";

/// `faceside fit`
#[derive(Debug, Args)]
#[command(after_help = FIT_EXAMPLES)]
pub(super) struct Fit {
    /// Id of the procedure, then sheet, check, value, feel, set, by, confidence as NAME=VALUE; or,
    /// where it was not printed, all that the procedure measures and its cutter
    #[arg(value_name = "PROCEDURE | NAME=VALUE")]
    pub(super) values: Vec<String>,
}

const FIT_EXAMPLES: &str = "\
Examples:
  faceside fit
  faceside fit through-housing value=11.65
  faceside fit sheet=7 check=1 value=\"11.65 mm\" set=\"fence 87.9 mm\"
  faceside fit sheet=7 check=1 feel=\"starts and binds\"
  faceside fit sheet=7 check=1 value=11.65 by=BK
  faceside fit sheet=7 check=1 confidence=0.99
  faceside fit through-housing shelf=11.7 side=18.3 side_width=320 side_length=1100 \\
    from_end=80 inside_width=620 cutter=straight-8 check=4 value=11.65

Everything is taken from the last `faceside print`; without a name, the values that a setting moves
are listed. What was not printed is planned from the values of the procedure, a bare number in the
shop's unit; check=... then counts all values that a setting moves. set=... says what was set where it
is not as planned. With by=... the test cut is also written down. feel is one of: will not start, starts and binds, hand press, slides, drops in.

Exit code 0: answered; 1: the values are refused, or the record cannot be written; 2: an answer
cannot be meant, or is missing.";

/// `faceside record`
#[derive(Debug, Args)]
#[command(after_help = RECORD_EXAMPLES)]
pub(super) struct Record {
    /// What to write down or to show (none: what is asked for each)
    #[arg(value_enum, value_name = "WHAT")]
    pub(super) what: Option<RecordWord>,
    /// Answers, such as by=BK or value="17.7 mm"; what is needed and not given is asked
    #[arg(value_name = "NAME=VALUE")]
    pub(super) values: Vec<String>,
    /// The line that this one corrects, such as 2026-7; it stays in the file
    #[arg(long, value_name = "MARK", requires = "why")]
    pub(super) corrects: Option<String>,
    /// Why it is corrected
    #[arg(long, value_name = "TEXT", requires = "corrects")]
    pub(super) why: Option<String>,
    /// One entry a line of standard input, as a JSON object of texts
    #[arg(long, conflicts_with_all = ["what", "corrects"])]
    pub(super) lines: bool,
}

/// What `faceside record` does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum RecordWord {
    /// Pieces were cut
    Run,
    /// A test piece was cut
    TestCut,
    /// A value was measured
    Reading,
    /// A cutter was measured
    Cutter,
    /// It nearly went wrong
    NearMiss,
    /// Anything worth keeping
    Note,
    /// A sheet was wrong or unclear
    SheetFault,
    /// Strike out a line; it stays in the file
    Strike,
    /// One line an entry
    List,
    /// CSV, lengths in millimetres
    Export,
    /// Counts by procedure, machine and cutter
    Summary,
}

const RECORD_EXAMPLES: &str = "\
Examples:
  faceside record
  faceside record run
  faceside record test-cut sheet=3 by=BK check=1 value=\"17.65 mm\"
  faceside record test-cut sheet=3 by=BK feel=\"starts and binds\" set=\"fence 60.2 mm\"
  faceside record cutter by=BK cutter=straight-12 size=\"11.9 mm\" state=sharpened
  faceside record note by=BK about=stopped-housing text=\"the fence creeps when it is warm\"
  faceside record note by=BK text=\"other words\" --corrects 2026-7 --why \"wrong machine\"
  faceside record strike mark=2026-7 by=BK why=\"typed twice\"
  faceside record list procedure=stopped-housing last=5
  faceside record export since=2026-01-01

sheet=N is a checklist of the last `faceside print`: procedure, set-up, machine, cutter, stock,
settings and limits are then known.

Exit code 0: written down; 1: it cannot be written, or a line of --lines cannot be read; 2: an
answer cannot be meant, or is missing.";

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
    /// Add a page of who may do what, people by id or initials; left out unless asked for
    #[arg(long, conflicts_with = "watch")]
    pub(super) with_people: bool,
    /// Add how each joint was last cut here, from the record: day, wood, settings, test cuts, notes;
    /// who cut it only with --with-people as well
    #[arg(long)]
    pub(super) with_record: bool,
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
