//! The hand-over papers over HTTP and from the command line.

use std::path::PathBuf;

use crate::client::{post, request};
use crate::program::{program, text};
use crate::running::{HERON, run};

#[test]
fn the_papers_come_in_the_form_that_is_asked_for() {
    let running = run();
    let asked = |accept: &str| post("/v1/papers", HERON).field("Accept", accept).to(running.at);
    for accept in ["*/*", "text/html", "text/*, application/json"] {
        let answer = asked(accept);
        assert_eq!(answer.status, 200, "{accept}");
        assert_eq!(answer.field("content-type"), Some("text/html; charset=utf-8"));
        assert!(answer.text().starts_with("<!doctype html>"), "{accept}");
    }
    for accept in ["text/markdown", "text/markdown, text/html;q=0.5"] {
        let answer = asked(accept);
        assert_eq!(answer.field("content-type"), Some("text/markdown; charset=utf-8"), "{accept}");
        assert!(answer.text().starts_with("# Heron (invented demonstration build)\n"));
    }
    for accept in ["application/json", "text/html;q=0, text/markdown;q=0", "image/png"] {
        let problem = asked(accept).problem(406);
        assert_eq!(problem["available"], serde_json::json!(["text/html", "text/markdown"]), "{accept}");
    }
}

#[test]
fn the_page_may_neither_run_nor_load_anything() {
    let running = run();
    let answer = post("/v1/papers", HERON).to(running.at);
    let policy = answer.field("content-security-policy").unwrap();
    assert!(policy.starts_with("default-src 'none'; style-src 'unsafe-inline';"), "{policy}");
    assert_eq!(answer.field("x-content-type-options"), Some("nosniff"));
    assert_eq!(answer.field("cache-control"), Some("no-store"));
    for part in ["<script", "<link", "<img", "src=", "href", "url("] {
        assert!(!answer.text().contains(part), "{part}");
    }
}

#[test]
fn a_build_that_lacks_everything_has_papers_and_one_that_is_refused_has_none() {
    let running = run();
    let answer = post("/v1/papers", "{}").to(running.at);
    assert_eq!(answer.status, 200);
    assert!(answer.text().contains("Not worked out"));
    let problem = post("/v1/papers", r#"{"parts": {"bed": {"mass_lb": -1}}}"#).to(running.at).problem(422);
    assert_eq!(problem["errors"][0]["pointer"], "/parts/bed/mass_lb");
    post("/v1/papers", "{").to(running.at).problem(400);
    let refused = request("GET", "/v1/papers").to(running.at);
    assert_eq!(refused.field("allow"), Some("POST, OPTIONS"));
    refused.problem(405);
}

#[test]
fn the_program_writes_what_the_service_sends() {
    let file: PathBuf = [env!("CARGO_MANIFEST_DIR"), "../../tests/builds/heron.json"].iter().collect();
    let running = run();
    for (flags, accept) in [(&[][..], "text/html"), (&["--markdown"][..], "text/markdown")] {
        let output = program().arg("papers").arg(&file).args(flags).output().unwrap();
        assert_eq!((output.status.code(), text(&output.stderr)), (Some(0), ""));
        assert!(
            text(&output.stdout) == post("/v1/papers", HERON).field("Accept", accept).to(running.at).text()
        );
    }
    // The same exit statuses as for `evaluate`.
    let heavy: PathBuf = [env!("CARGO_MANIFEST_DIR"), "../../tests/builds/bison.json"].iter().collect();
    let output = program().arg("papers").arg(&heavy).output().unwrap();
    assert_eq!(output.status.code(), Some(1));
    let output = program().args(["papers", "no-such.json"]).output().unwrap();
    assert_eq!((output.status.code(), output.stdout.is_empty()), (Some(2), true));
}
