//! Running other programs.

use std::io::{Read as _, pipe};
use std::process::{Command, Stdio};

/// What a program said and whether it succeeded.
pub struct Output {
    /// Standard output and standard error, in the order they were written.
    pub text: String,
    /// Did it succeed?
    pub success: bool,
}

impl From<Result<(), String>> for Output {
    fn from(result: Result<(), String>) -> Self {
        Self { success: result.is_ok(), text: result.err().unwrap_or_default() }
    }
}

/// Cargo, the same one that runs this program, at the workspace's root.
pub fn cargo(arguments: &[&str]) -> Command {
    let mut command = Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    command.args(arguments).current_dir(crate::workspace::root());
    command
}

/// Runs a program to its end and keeps all that it says.
pub fn captured(command: &mut Command) -> Output {
    run(command).unwrap_or_else(|error| {
        let program = command.get_program().display();
        Output { text: format!("{program} cannot be run: {error}"), success: false }
    })
}

fn run(command: &mut Command) -> std::io::Result<Output> {
    let (mut reader, writer) = pipe()?;
    command.stdin(Stdio::null()).stdout(writer.try_clone()?).stderr(writer);
    let mut child = command.spawn()?;
    // The command holds the writing ends until then, and the reading would never end.
    command.stdout(Stdio::null()).stderr(Stdio::null());
    let mut said = Vec::new();
    reader.read_to_end(&mut said)?;
    Ok(Output { success: child.wait()?.success(), text: String::from_utf8_lossy(&said).into_owned() })
}

/// Runs a program that speaks to the person at the terminal.
pub fn shown(command: &mut Command) -> Result<(), String> {
    let program = command.get_program().display().to_string();
    match command.status() {
        Ok(status) if status.success() => Ok(()),
        Ok(status) => Err(format!("{program}: {status}")),
        Err(error) => Err(format!("{program} cannot be run: {error}")),
    }
}
