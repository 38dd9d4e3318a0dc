//! Files made by a program: written, or checked against what would be written.

use std::fs;

use crate::workspace;

/// Writes `text` to the file, or, to check, says at which line the file differs from it.
pub fn write_or_check(file: &str, text: &str, check: bool, command: &str) -> Result<(), String> {
    let path = workspace::root().join(file);
    if !check {
        return fs::write(&path, text).map_err(|error| format!("{file} cannot be written: {error}"));
    }
    let there = fs::read_to_string(&path).map_err(|error| format!("{file} cannot be read: {error}"))?;
    if there == text {
        return Ok(());
    }
    let same = there.lines().zip(text.lines()).take_while(|(a, b)| a == b).count();
    Err(format!("{file} is out of date from line {} on; run `{command}`", same + 1))
}
