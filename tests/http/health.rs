//! Live, ready, and shutting down.

use serde_json::json;

use crate::client::{get, post};
use crate::running::{HERON, run};

#[test]
fn it_is_live_at_once_and_ready_after_its_trial() {
    let running = run();
    let live = get("/health/live").to(running.at);
    assert_eq!(live.json(), json!({"status": "pass", "version": env!("CARGO_PKG_VERSION")}));
    assert_eq!(live.field("cache-control"), Some("no-store"));

    get("/health/ready").to(running.at).problem(503);
    running.service.try_out().unwrap();
    assert_eq!(get("/health/ready").to(running.at).json()["status"], "pass");
}

#[test]
fn while_it_shuts_down_it_answers_but_is_not_ready() {
    let running = run();
    running.service.try_out().unwrap();
    running.service.health.stopping();
    let ready = get("/health/ready").to(running.at);
    assert_eq!(ready.problem(503)["detail"], "The service is shutting down.");
    assert_eq!(ready.field("retry-after"), Some("1"));
    assert_eq!(get("/health/live").to(running.at).status, 200);
    let answer = post("/v1/payload", HERON).to(running.at);
    assert_eq!((answer.status, answer.field("connection")), (200, Some("close")));
}
