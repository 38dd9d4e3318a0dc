//! `cargo xtask bench`: the times of the calculation and the service, and the same year by other means.

use crate::process::{captured, cargo, shown};
use crate::venv::Venv;

/// What of the energy's benchmark the other means do too.
const SAME_YEAR: &[&str] =
    &["bench", "-p", "wainwright", "--bench", "energy", "--", "year_of_a_configuration"];

/// Runs every benchmark, and last a year in Python beside the same year here.
pub fn run() -> Result<(), String> {
    shown(&mut cargo(&["bench", "-p", "wainwright", "-p", "wainwright-service"]))?;
    let venv = Venv::new("venv-bench", "requirements-bench.txt");
    let prepared = venv.prepare();
    if !prepared.success {
        return Err(prepared.text);
    }
    let ours = captured(&mut cargo(SAME_YEAR));
    if !ours.success {
        return Err(ours.text);
    }
    shown(&mut venv.command("python", &["benchmarks/energy_peer.py", &ours.text]))
}
