//! The program: hands its arguments to the library and ends with its exit code.

fn main() {}
