//! The program as a shell meets it.

use std::io::{BufRead, BufReader, Write};
use std::net::SocketAddr;
use std::path::PathBuf;
use std::process::{Child, Command, Output, Stdio};

use serde_json::Value;

use crate::client::{get, post};
use crate::running::HERON;

pub fn program() -> Command {
    let mut program = Command::new(env!("CARGO_BIN_EXE_wainwright"));
    program.env_remove("WAINWRIGHT_LISTEN").env_remove("WAINWRIGHT_WEATHER_FOLDER");
    program
}

fn demo(name: &str) -> PathBuf {
    [env!("CARGO_MANIFEST_DIR"), "../../tests/builds", name].iter().collect()
}

fn evaluate(build: &str, flags: &[&str]) -> Output {
    let mut child = program()
        .args(["evaluate", "-"])
        .args(flags)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    child.stdin.take().unwrap().write_all(build.as_bytes()).unwrap();
    child.wait_with_output().unwrap()
}

pub fn text(bytes: &[u8]) -> &str {
    std::str::from_utf8(bytes).unwrap()
}

#[test]
fn the_demonstration_builds_are_evaluated() {
    for name in ["heron.json", "pika.json", "bison.json"] {
        let output = program().arg("evaluate").arg(demo(name)).output().unwrap();
        assert!(matches!(output.status.code(), Some(0 | 1)), "{name}");
        assert!(text(&output.stdout).starts_with("WHOLE BUILD\n") && output.stderr.is_empty(), "{name}");

        let as_json = program().arg("evaluate").arg(demo(name)).arg("--json").output().unwrap();
        let report: Value = serde_json::from_slice(&as_json.stdout).unwrap();
        let findings = report["findings"].as_array().unwrap();
        let violated = findings.iter().any(|finding| finding["severity"] == "violation");
        assert_eq!(as_json.status.code(), Some(i32::from(violated)), "{name}");
        assert_eq!(output.status.code(), as_json.status.code());
    }
}

#[test]
fn the_exit_status_tells_a_violation() {
    let light = evaluate(r#"{"trailer": {"gvwr_lb": 7000, "bare": {"mass_lb": 2180}}}"#, &[]);
    let heavy = evaluate(r#"{"trailer": {"gvwr_lb": 2000, "bare": {"mass_lb": 2180}}}"#, &[]);
    assert!(text(&heavy.stdout).contains("violation: "));
    assert_eq!(heavy.status.code(), Some(1));
    // Questions that lack a section do not count against a build.
    assert_eq!(light.status.code(), Some(0), "{}", text(&light.stdout));
}

#[test]
fn a_question_without_its_section_says_so() {
    let output = evaluate("{}", &["--json"]);
    let report: Value = serde_json::from_slice(&output.stdout).unwrap();
    for name in ["payload", "axle_load", "circuit_load", "energy_budget", "cooling_load"] {
        assert!(report[name].is_null(), "{name}");
    }
    let output = evaluate("{}", &[]);
    assert!(text(&output.stdout).contains("/trailer is missing"), "{}", text(&output.stdout));
    assert_eq!(output.status.code(), Some(0));
}

#[test]
fn a_refused_file_is_explained() {
    let output = evaluate(r#"{"parts": {"bed": {"mass_lb": -1, "x": 2}}}"#, &[]);
    assert_eq!(output.status.code(), Some(2));
    assert!(output.stdout.is_empty());
    let told = text(&output.stderr);
    assert!(
        told.contains("/parts/bed/mass_lb must be 0 or more; got -1")
            && told.contains("/parts/bed/x is not a field"),
        "{told}"
    );

    let output = evaluate("oops", &["--json"]);
    assert_eq!((output.status.code(), text(&output.stderr).contains("line 1")), (Some(2), true));

    let output = program().args(["evaluate", "no-such.json"]).output().unwrap();
    assert_eq!(
        (output.status.code(), text(&output.stderr).contains("no-such.json cannot be read")),
        (Some(2), true)
    );
}

#[test]
fn the_contract_is_printed_as_it_is_committed() {
    let output = program().arg("openapi").output().unwrap();
    assert!(text(&output.stdout) == include_str!("../../openapi/v1.json"));
}

#[test]
fn a_reader_that_has_read_enough_is_no_fault() {
    let mut child = program().arg("openapi").stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    let mut line = String::new();
    BufReader::with_capacity(16, child.stdout.take().unwrap()).read_line(&mut line).unwrap();
    let output = child.wait_with_output().unwrap();
    assert_eq!((output.status.code(), text(&output.stderr)), (Some(0), ""));
}

#[test]
fn every_setting_is_a_flag_and_a_variable() {
    let help = program().args(["serve", "--help"]).output().unwrap();
    let help = text(&help.stdout);
    let flags = help.lines().filter(|line| line.trim_start().starts_with("--")).count();
    assert_eq!(help.matches("[env: WAINWRIGHT_").count(), flags, "{help}");
    assert!(flags > 10);
    assert_eq!(
        program().args(["serve", "--receive-limit-s", "soon"]).output().unwrap().status.code(),
        Some(2)
    );
    let taken = program().args(["serve", "--listen", "192.0.2.1:1"]).output().unwrap();
    assert_eq!(taken.status.code(), Some(2));
    assert!(text(&taken.stderr).contains("cannot listen at 192.0.2.1:1"), "{}", text(&taken.stderr));
}

struct Serving {
    child: Child,
    at: SocketAddr,
}

impl Serving {
    fn start(variables: &[(&str, &str)]) -> Self {
        let mut child = program()
            .arg("serve")
            .env("WAINWRIGHT_LISTEN", "127.0.0.1:0")
            .envs(variables.iter().copied())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        let mut line = String::new();
        BufReader::new(child.stdout.take().unwrap()).read_line(&mut line).unwrap();
        let at = line.trim().strip_prefix("listening on http://").unwrap().parse().unwrap();
        Self { child, at }
    }

    fn signal(&self, name: &str) {
        let kill = format!("kill -s {name} {}", self.child.id());
        assert!(Command::new("sh").args(["-c", &kill]).status().unwrap().success());
    }
}

impl Drop for Serving {
    fn drop(&mut self) {
        _ = self.child.kill();
        _ = self.child.wait();
    }
}

#[cfg(unix)]
#[test]
fn on_a_signal_it_announces_the_end_then_ends_well() {
    use std::io::Read;
    use std::time::{Duration, Instant};

    for name in ["TERM", "INT"] {
        let mut serving = Serving::start(&[("WAINWRIGHT_DRAIN_S", "1"), ("WAINWRIGHT_LOG_FORMAT", "json")]);
        let deadline = Instant::now() + Duration::from_secs(10);
        while get("/health/ready").to(serving.at).status != 200 {
            assert!(Instant::now() < deadline, "it never gets ready");
        }
        serving.signal(name);
        while get("/health/ready").to(serving.at).status == 200 {
            assert!(Instant::now() < deadline, "it never stops being ready");
        }
        assert_eq!(get("/health/live").to(serving.at).status, 200);
        assert_eq!(post("/v1/payload", HERON).to(serving.at).status, 200);
        assert_eq!(serving.child.wait().unwrap().code(), Some(0));

        let mut log = String::new();
        serving.child.stderr.take().unwrap().read_to_string(&mut log).unwrap();
        let events: Vec<Value> = log.lines().map(|line| serde_json::from_str(line).unwrap()).collect();
        let messages: Vec<&str> = events.iter().map(|event| event["message"].as_str().unwrap()).collect();
        assert_eq!(messages, ["started", "shutting down", "stopped"], "no line for each request: {log}");
    }
}

#[cfg(unix)]
#[test]
fn each_request_is_logged_where_that_is_asked_for_and_no_body_ever() {
    use std::io::Read;

    let mut serving = Serving::start(&[
        ("WAINWRIGHT_DRAIN_S", "0"),
        ("WAINWRIGHT_LOG_FORMAT", "json"),
        ("WAINWRIGHT_LOG", "wainwright_service=debug"),
        ("WAINWRIGHT_BODY_LIMIT_BYTES", "20000"),
    ]);
    post("/v1/payload", HERON).field("X-Request-Id", "first").to(serving.at);
    post("/v1/payload", vec![b' '; 20_001]).field("X-Request-Id", "second").to(serving.at).problem(413);
    serving.signal("TERM");
    serving.child.wait().unwrap();
    let mut log = String::new();
    serving.child.stderr.take().unwrap().read_to_string(&mut log).unwrap();
    let events: Vec<Value> = log.lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    let answered: Vec<&Value> = events.iter().filter(|event| event["message"] == "answered").collect();
    assert_eq!((&answered[0]["id"], &answered[0]["status"]), (&"first".into(), &200.into()));
    assert!(answered[0]["ms"].is_number() && answered[0]["path"] == "/v1/payload");
    let refused = events.iter().find(|event| event["level"] == "WARN").unwrap();
    assert_eq!((&refused["id"], &refused["kind"]), (&"second".into(), &"/problems/content-too-large".into()));
    assert!(!log.contains("floor_rubber"), "a body in the log");
}
