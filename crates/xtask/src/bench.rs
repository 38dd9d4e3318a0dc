//! `cargo xtask bench`: the times of the calculation and the service, and the same work by other means.

use crate::process::{captured, cargo, shown};
use crate::venv::Venv;

/// What other means do too: the program, and what of our benchmarks it is held against.
const PEERS: [(&str, &[&str]); 2] = [
    ("benchmarks/energy_peer.py", &["energy", "--", "year_of_a_configuration"]),
    (
        "benchmarks/cooling_peer.py",
        &["cooling", "--", "network", "design_day", "year_of_hours", "light_of_a_year"],
    ),
];

/// Runs every benchmark, and last what Python does beside the same here.
pub fn run() -> Result<(), String> {
    shown(&mut cargo(&["bench", "-p", "wainwright", "-p", "wainwright-service"]))?;
    let venv = Venv::new("venv-bench", "requirements-bench.txt");
    let prepared = venv.prepare();
    if !prepared.success {
        return Err(prepared.text);
    }
    for (program, benchmark) in PEERS {
        let ours = captured(cargo(&["bench", "-p", "wainwright", "--bench"]).args(benchmark));
        if !ours.success {
            return Err(ours.text);
        }
        // Its matrices are small: threads would only wait for one another.
        shown(venv.command("python", &[program, &ours.text]).env("OPENBLAS_NUM_THREADS", "1"))?;
    }
    let module = captured(&mut venv.command("maturin", &["develop", "--release", "--quiet"]));
    if !module.success {
        return Err(module.text);
    }
    shown(venv.command("python", &["benchmarks/batch_peer.py"]).env("OPENBLAS_NUM_THREADS", "1"))
}
