//! `cargo xtask test`: every check there is.

use crate::counts::{cargo_test, pytest};
use crate::process::{captured, cargo};
use crate::steps::{Count, Run};
use crate::venv::Venv;
use crate::{openapi, python_types, workspace};

/// Runs every check; says whether all passed.
pub fn run(fail_fast: bool) -> bool {
    let mut run = Run::new(fail_fast);
    rust(&mut run);
    python(&mut run);
    http(&mut run);
    run.finish()
}

const ENVIRONMENT: &str = "python environment";
const SERVICE: &str = "service";
/// With the tests' features, so that nothing is compiled a second time after them.
const SERVICE_BUILD: &[&str] = &["build", "--quiet", "--workspace", "--bins", "--tests"];
const MODULE: &str = "python module";
const FUZZER: &str = "fuzzer environment";

fn rust(run: &mut Run) {
    let plain = |arguments: &'static [&str]| move || captured(&mut cargo(arguments));
    run.step("rust format", &[], Count::One, plain(&["fmt", "--all", "--check"]));
    let clippy = &["clippy", "--quiet", "--workspace", "--all-targets", "--", "-D", "warnings"];
    run.step("rust lints", &[], Count::One, plain(clippy));
    run.step(
        "rust tests",
        &[],
        Count::Tests(cargo_test),
        plain(&["test", "--quiet", "--workspace", "--no-fail-fast"]),
    );
    run.step(SERVICE, &[], Count::One, plain(SERVICE_BUILD));
    run.step("openapi document", &[SERVICE], Count::One, || openapi::write_or_check(true).into());
    run.step("python types", &[], Count::One, || python_types::run(true).into());
}

fn environment() -> Venv {
    Venv::new("venv", "requirements-dev.txt")
}

fn python(run: &mut Run) {
    let venv = environment();
    run.step(ENVIRONMENT, &[], Count::One, || venv.prepare());
    run.step(MODULE, &[ENVIRONMENT], Count::One, || {
        // In a target folder of its own: with maturin's settings cargo would build everything again each time.
        let target = workspace::target().join("python");
        captured(venv.command("maturin", &["develop", "--quiet"]).env("CARGO_TARGET_DIR", target))
    });
    let interpreter = venv.program("python").display().to_string();
    let checks: [(&'static str, &'static str, &[&str]); 5] = [
        ("python format", "ruff", &["format", "--check", "."]),
        ("python lints", "ruff", &["check", "."]),
        ("mypy", "mypy", &["."]),
        ("pyright", "pyright", &["--pythonpath", &interpreter]),
        ("stubs", "python", &["-m", "mypy.stubtest", "wainwright._wainwright"]),
    ];
    for (name, program, arguments) in checks {
        run.step(name, &[MODULE], Count::One, || captured(&mut venv.command(program, arguments)));
    }
    run.step("python tests", &[MODULE, SERVICE], Count::Tests(pytest), || {
        let mut command =
            venv.command("python", &["-m", "pytest", "--ignore", "tests/test_contract_fuzz.py"]);
        command.args(["--ignore", "tests/test_print.py"]);
        captured(command.env("WAINWRIGHT_BINARY", workspace::service()))
    });
    run.step("notebooks", &[MODULE], Count::Tests(pytest), || {
        // Without a screen.
        let mut command = venv.command("python", &["-m", "pytest", "--nbmake", "notebooks"]);
        captured(command.env("MPLBACKEND", "agg"))
    });
    printed(run, &venv);
}

/// The hand-over papers, printed by headless Chromium.
fn printed(run: &mut Run, venv: &Venv) {
    if std::env::var_os("WAINWRIGHT_NO_CHROMIUM").is_some_and(|left_out| left_out == "1") {
        println!("printed papers are left out: WAINWRIGHT_NO_CHROMIUM asks for it");
        return;
    }
    run.step("printed papers", &[MODULE], Count::Tests(pytest), || {
        captured(&mut venv.command("python", &["-m", "pytest", "tests/test_print.py"]))
    });
}

fn http(run: &mut Run) {
    let venv = environment();
    let fuzzer = Venv::new("venv-schemathesis", "requirements-schemathesis.txt");
    run.step("openapi validity", &[ENVIRONMENT], Count::One, || {
        captured(venv.command("openapi-spec-validator", &[]).arg(workspace::root().join(openapi::FILE)))
    });
    run.step(FUZZER, &[], Count::One, || fuzzer.prepare());
    run.step("contract fuzzing", &[MODULE, SERVICE, FUZZER], Count::Tests(pytest), || {
        let mut command = venv.command("python", &["-m", "pytest", "tests/test_contract_fuzz.py"]);
        command.env("WAINWRIGHT_BINARY", workspace::service());
        captured(command.env("WAINWRIGHT_SCHEMATHESIS", fuzzer.program("schemathesis")))
    });
}
