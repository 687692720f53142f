//! The command line: one file a command.

pub(crate) mod report;
