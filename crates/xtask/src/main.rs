//! Developer commands: `cargo xtask COMMAND`.
#![expect(clippy::print_stdout, clippy::print_stderr, reason = "a program for people at a terminal")]

mod generated;
mod python_types;
mod workspace;

use std::process::ExitCode;

const HELP: &str = "\
cargo xtask COMMAND

  python-types [--check]  write, or check, python/wainwright/reports.py
";

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let arguments: Vec<&str> = arguments.iter().map(String::as_str).collect();
    let result = match *arguments {
        ["python-types"] => python_types::run(false),
        ["python-types", "--check"] => python_types::run(true),
        _ => {
            print!("{HELP}");
            Ok(())
        }
    };
    match result {
        Ok(()) => ExitCode::SUCCESS,
        Err(message) => {
            eprintln!("{message}");
            ExitCode::FAILURE
        }
    }
}
