//! How many requests one client may make.

use wainwright_service::Config;

use crate::client::{get, post};
use crate::running::{HERON, config, run, run_with, seconds};

#[test]
fn without_a_limit_no_field_speaks_of_one() {
    let answer = post("/v1/payload", HERON).to(run().at);
    assert_eq!((answer.field("ratelimit"), answer.field("ratelimit-policy")), (None, None));
}

#[test]
fn a_client_is_told_where_it_stands_and_refused_beyond() {
    let running = run_with(Config { rate_limit: Some(3), rate_window_s: seconds(30.0), ..config() });
    for left in [2, 1, 0] {
        let answer = post("/v1/payload", HERON).to(running.at);
        assert_eq!(answer.status, 200);
        assert_eq!(answer.field("ratelimit-policy"), Some("\"calls\";q=3;w=30"));
        assert!(answer.field("ratelimit").unwrap().starts_with(&format!("\"calls\";r={left};t=")));
    }
    let refused = post("/v1/payload", HERON).to(running.at);
    let problem = refused.problem(429);
    assert_eq!(problem["type"], "https://iana.org/assignments/http-problem-types#quota-exceeded");
    assert_eq!(problem["violated-policies"][0], "calls");
    let wait: u64 = refused.field("retry-after").unwrap().parse().unwrap();
    assert!((1..=10).contains(&wait), "{wait}");
    assert_eq!(refused.field("ratelimit"), Some(format!("\"calls\";r=0;t={wait}").as_str()));
    // What is nowhere counts as well; health and metrics do not.
    get("/nope").to(running.at).problem(429);
    for path in ["/health/live", "/metrics"] {
        assert_eq!(get(path).to(running.at).status, 200, "{path}");
    }
}

#[test]
fn a_quota_comes_back() {
    let running = run_with(Config { rate_limit: Some(1), rate_window_s: seconds(0.2), ..config() });
    assert_eq!(get("/v1/limits").to(running.at).status, 200);
    std::thread::sleep(std::time::Duration::from_millis(250));
    assert_eq!(get("/v1/limits").to(running.at).status, 200);
}
