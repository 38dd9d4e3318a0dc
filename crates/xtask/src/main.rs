//! Developer commands: `cargo xtask COMMAND`.
#![expect(clippy::print_stdout, clippy::print_stderr, reason = "a program for people at a terminal")]

mod bench;
mod counts;
mod generated;
mod openapi;
mod process;
mod python_types;
mod sizes;
mod steps;
mod test;
mod venv;
mod workspace;

use std::process::ExitCode;

const HELP: &str = "\
cargo xtask COMMAND

  test [--fail-fast]      run every check and count the tests
  openapi [--check]       write, or check, openapi/v1.json
  python-types [--check]  write, or check, python/wainwright/reports.py
  bench                   measure the calculation and the service, and the same in Python beside it
  sizes                   the longest files and functions
";

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let arguments: Vec<&str> = arguments.iter().map(String::as_str).collect();
    let result = match *arguments {
        ["test"] => return exit_code(test::run(false)),
        ["test", "--fail-fast"] => return exit_code(test::run(true)),
        ["openapi"] => openapi::run(false),
        ["openapi", "--check"] => openapi::run(true),
        ["python-types"] => python_types::run(false),
        ["python-types", "--check"] => python_types::run(true),
        ["bench"] => bench::run(),
        ["sizes"] => sizes::run(),
        [] | ["help" | "--help" | "-h"] => {
            print!("{HELP}");
            Ok(())
        }
        _ => Err(format!("there is no such command\n\n{HELP}")),
    };
    if let Err(message) = &result {
        eprintln!("{message}");
    }
    exit_code(result.is_ok())
}

fn exit_code(success: bool) -> ExitCode {
    if success { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}
