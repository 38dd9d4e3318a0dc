//! What is counted.

use crate::client::{get, post, request};
use crate::running::{HERON, run};

#[test]
fn requests_are_counted_by_path_method_and_status() {
    let running = run();
    for _ in 0..3 {
        post("/v1/payload", HERON).to(running.at);
    }
    post("/v1/payload", "{}").to(running.at);
    post("/v1/payload", HERON).field("Content-Length", "99999999999").to(running.at);
    request("BREW", "/v1/payload").to(running.at);
    get("/problems/no-such").to(running.at);
    get("/my-own-words").to(running.at);
    let answer = get("/metrics").to(running.at);
    assert_eq!(answer.field("content-type"), Some("text/plain; version=0.0.4; charset=utf-8"));
    for line in [
        r#"wainwright_requests_total{path="/v1/payload",method="POST",status="200"} 3"#,
        r#"wainwright_requests_total{path="/v1/payload",method="POST",status="422"} 1"#,
        r#"wainwright_requests_total{path="/v1/payload",method="POST",status="413"} 1"#,
        r#"wainwright_requests_total{path="/v1/payload",method="other",status="405"} 1"#,
        r#"wainwright_requests_total{path="/problems/{slug}",method="GET",status="404"} 1"#,
        r#"wainwright_requests_total{path="unknown",method="GET",status="404"} 1"#,
        r#"wainwright_refused_total{limit="body_bytes"} 1"#,
        r#"wainwright_request_duration_seconds_count{path="/v1/payload"} 6"#,
    ] {
        assert!(answer.text().lines().any(|known| known == line), "{line}\n{}", answer.text());
    }
    assert!(!answer.text().contains("my-own-words"));
}

#[test]
fn the_text_is_what_prometheus_reads() {
    let running = run();
    post("/v1/payload", HERON).to(running.at);
    let answer = get("/metrics").to(running.at);
    assert!(answer.text().ends_with('\n'));
    for line in answer.text().lines().filter(|line| !line.starts_with('#')) {
        let (name, value) = line.rsplit_once(' ').unwrap();
        assert!(value.parse::<f64>().is_ok(), "{line}");
        let (name, labels) = name.split_once('{').unwrap();
        assert!(name.starts_with("wainwright_") && labels.ends_with('}'), "{line}");
        let family = name.trim_end_matches("_bucket").trim_end_matches("_sum").trim_end_matches("_count");
        assert!(answer.text().contains(&format!("# TYPE {family} ")), "{line}");
    }
}
