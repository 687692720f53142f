//! The command line: one file a command, each opens the shop, calls one library function, renders
//! and prints.
//!
//! Exit codes: 0 done, 1 findings or a refusal, 2 usage.

mod args;
mod check;
mod check_files;
mod clock;
mod figure;
mod figure_cutters;
mod figure_name;
mod figure_rows;
mod figure_values;
mod fit;
mod fit_plan;
mod fit_words;
mod input;
mod jobs;
mod open;
mod output;
mod print;
mod record;
mod record_list;
mod report;
mod screen;
mod screen_keys;
mod search;
mod site;
mod site_examples;
mod site_record;
mod site_watch;
mod start;
mod table;
mod train;
mod train_lesson;
mod train_roll;
mod train_sign;
mod watch;

use std::ffi::OsString;
use std::process::ExitCode;

use clap::Parser;

use crate::diag::{Fault, Faults};
use args::{Command, Typed};
use output::Output;
pub use site::pages as site_pages;

/// How a command ended.
enum End {
    /// All done.
    Done,
    /// Done, with findings that were told.
    Findings,
    /// Done but for what could not be read, which was told.
    Unread,
}

/// Why a command did not end.
enum Stop {
    /// What was typed cannot be meant.
    Usage(Fault),
    /// Something stands in the way.
    Faults(Faults),
}

impl From<Faults> for Stop {
    fn from(faults: Faults) -> Self {
        Self::Faults(faults)
    }
}

impl From<Fault> for Stop {
    fn from(fault: Fault) -> Self {
        Self::Faults(fault.into())
    }
}

/// Runs one command; gives the exit code of the program.
pub fn run(arguments: impl IntoIterator<Item = OsString>) -> ExitCode {
    let typed = match Typed::try_parse_from(arguments) {
        Ok(typed) => typed,
        Err(error) => {
            // Help and version go to standard output; a closed pipe leaves nobody to tell.
            let _ = error.print();
            return ExitCode::from(if error.use_stderr() { 2 } else { 0 });
        }
    };
    let common = &typed.common;
    let mut out = Output::new(common);
    let end = match &typed.command {
        Command::Search(search) => search::search(search, common, &mut out),
        Command::Print(print) => print::print(print, common, &mut out),
        Command::Train(train) => train::train(train, common, &mut out),
        Command::Fit(fit) => fit::fit(fit, common, &mut out),
        Command::Record(record) => record::record(record, common, &mut out),
        Command::Figure(figure) => figure::figure(figure, common, &mut out),
        Command::Check(check) => check::check(check, common, &mut out),
        Command::Site(site) => site::site(site, common, &mut out),
        Command::Start(start) => start::start(start, common, &mut out),
    };
    match end {
        Ok(End::Done) => ExitCode::SUCCESS,
        Ok(End::Findings) => ExitCode::from(1),
        Ok(End::Unread) => ExitCode::from(2),
        Err(Stop::Faults(faults)) => {
            out.report(faults.iter());
            ExitCode::from(1)
        }
        Err(Stop::Usage(fault)) => {
            out.report([&fault]);
            ExitCode::from(2)
        }
    }
}
