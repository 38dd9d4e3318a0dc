//! What the caller accepts, and what it has already.

use std::io::Read;

use crate::client::{get, post};
use crate::running::{HERON, run};

#[test]
fn an_answer_comes_in_the_coding_that_is_asked_for() {
    let running = run();
    let plain = post("/v1/payload", HERON).to(running.at);
    assert_eq!(plain.field("content-encoding"), None);
    let asked = |codings: &str| post("/v1/payload", HERON).field("Accept-Encoding", codings).to(running.at);

    let answer = asked("gzip, deflate, br");
    assert_eq!(answer.field("content-encoding"), Some("gzip"));
    assert_eq!(answer.field("vary"), Some("Accept-Encoding"));
    assert!(answer.body.len() < plain.body.len() / 2);
    let mut text = Vec::new();
    flate2::read::GzDecoder::new(&answer.body[..]).read_to_end(&mut text).unwrap();
    assert_eq!(text, plain.body);

    let answer = asked("gzip;q=0.5, zstd");
    assert_eq!(answer.field("content-encoding"), Some("zstd"));
    assert_eq!(zstd::decode_all(&answer.body[..]).unwrap(), plain.body);

    for codings in ["identity", "br", "", "gzip;q=0", "*;q=0, identity"] {
        let answer = asked(codings);
        assert_eq!(answer.field("content-encoding"), None, "{codings}");
        assert_eq!(answer.body, plain.body);
    }
    let problem = asked("identity;q=0, br").problem(406);
    assert_eq!(problem["available"][1], "gzip");
}

#[test]
fn errors_and_small_answers_are_not_compressed() {
    let running = run();
    for path in ["/health/live", "/nope"] {
        let answer = get(path).field("Accept-Encoding", "gzip").to(running.at);
        assert_eq!(answer.field("content-encoding"), None, "{path}");
    }
}

#[test]
fn who_takes_no_json_gets_none() {
    let running = run();
    let asked = |accept: &str| post("/v1/payload", HERON).field("Accept", accept).to(running.at);
    for accept in ["application/json", "*/*", "text/html, application/*;q=0.5"] {
        assert_eq!(asked(accept).status, 200, "{accept}");
    }
    for accept in ["text/html", "application/json;q=0", "image/*"] {
        assert_eq!(asked(accept).problem(406)["available"][0], "application/json", "{accept}");
    }
    get("/openapi.json").field("Accept", "text/csv").to(running.at).problem(406);
}

#[test]
fn what_the_caller_has_already_is_not_sent_again() {
    let running = run();
    for path in ["/openapi.json", "/v1/findings", "/problems", "/problems/invalid-build", "/docs/"] {
        let mut tags = Vec::new();
        for coding in ["identity", "gzip", "zstd"] {
            let first = get(path).field("Accept-Encoding", coding).to(running.at);
            let tag = first.field("etag").unwrap().to_owned();
            assert_eq!(first.field("cache-control"), Some("public, max-age=300"));
            assert_eq!(first.field("vary"), Some("Accept-Encoding"));
            for known in [tag.clone(), format!("W/{tag}"), format!("\"other\", {tag}"), "*".to_owned()] {
                let again =
                    get(path).field("Accept-Encoding", coding).field("If-None-Match", &known).to(running.at);
                assert_eq!(again.status, 304, "{path} {known}");
                assert_eq!(again.field("etag"), Some(tag.as_str()));
            }
            let other =
                get(path).field("Accept-Encoding", coding).field("If-None-Match", "\"other\"").to(running.at);
            assert_eq!(other.status, 200);
            if first.field("content-encoding").is_some() {
                assert!(!tags.contains(&tag), "{path}: each coding has a tag of its own");
            }
            tags.push(tag);
        }
    }
}
