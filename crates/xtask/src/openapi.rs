//! `cargo xtask openapi`: the published contract, as the service prints it.

use std::process::Command;

use crate::process::{captured, cargo};
use crate::{generated, workspace};

/// Where the contract stands.
pub const FILE: &str = "openapi/v1.json";

/// Builds the service and writes the contract, or checks that it is what would be written.
pub fn run(check: bool) -> Result<(), String> {
    let built = captured(&mut cargo(&["build", "-p", "wainwright-service"]));
    if !built.success {
        return Err(built.text);
    }
    write_or_check(check)
}

/// The same with the service as it was last built.
pub fn write_or_check(check: bool) -> Result<(), String> {
    let service = workspace::service();
    let printed = Command::new(&service).arg("openapi").output();
    let printed = printed.map_err(|error| format!("{} cannot be run: {error}", service.display()))?;
    if !printed.status.success() {
        return Err(String::from_utf8_lossy(&printed.stderr).into_owned());
    }
    let text =
        String::from_utf8(printed.stdout).map_err(|error| format!("the contract is no UTF-8: {error}"))?;
    generated::write_or_check(FILE, &text, check, "cargo xtask openapi")
}
