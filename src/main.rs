//! The program: hands its arguments to the library and ends with its exit code.

use std::process::ExitCode;

fn main() -> ExitCode {
    faceside::cli::run(std::env::args_os())
}
