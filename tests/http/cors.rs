//! Which web pages may call.

use wainwright_service::Config;

use crate::client::{get, post, request};
use crate::running::{HERON, config, run, run_with};

const SHOP: &str = "https://shop.example";

fn shop() -> Config {
    Config { cors_origins: vec![SHOP.to_owned()], ..config() }
}

#[test]
fn by_default_no_page_may_call() {
    let running = run();
    let asking = request("OPTIONS", "/v1/payload")
        .field("Origin", SHOP)
        .field("Access-Control-Request-Method", "POST");
    let answer = asking.to(running.at);
    assert_eq!((answer.status, answer.field("access-control-allow-origin")), (204, None));
    let answer = post("/v1/payload", HERON).field("Origin", SHOP).to(running.at);
    assert_eq!(answer.field("access-control-allow-origin"), None);
}

#[test]
fn a_page_of_a_listed_origin_may_call() {
    let running = run_with(shop());
    let asking = request("OPTIONS", "/v1/payload")
        .field("Origin", SHOP)
        .field("Access-Control-Request-Method", "POST")
        .field("Access-Control-Request-Headers", "content-type");
    let answer = asking.to(running.at);
    assert_eq!(answer.status, 204);
    assert_eq!(answer.field("access-control-allow-origin"), Some(SHOP));
    assert!(answer.field("access-control-allow-methods").unwrap().contains("POST"));
    assert!(answer.field("access-control-allow-headers").unwrap().contains("Content-Type"));
    assert_eq!(answer.field("access-control-max-age"), Some("3600"));

    let answer = post("/v1/payload", HERON).field("Origin", SHOP).to(running.at);
    assert_eq!(answer.status, 200);
    assert_eq!(answer.field("access-control-allow-origin"), Some(SHOP));
    assert_eq!(answer.field("vary"), Some("Origin"));
    assert!(answer.field("access-control-expose-headers").unwrap().contains("X-Request-Id"));
    // A page can read what was wrong, too.
    let refused = post("/v1/payload", "{}").field("Origin", SHOP).to(running.at);
    assert_eq!((refused.status, refused.field("access-control-allow-origin")), (422, Some(SHOP)));
}

#[test]
fn a_page_of_another_origin_may_not() {
    let running = run_with(shop());
    for origin in
        ["https://other.example", "http://shop.example", "https://shop.example.other.example", "null"]
    {
        let asking = request("OPTIONS", "/v1/payload")
            .field("Origin", origin)
            .field("Access-Control-Request-Method", "POST");
        let answer = asking.to(running.at);
        assert_eq!(answer.problem(403)["type"], "/problems/forbidden");
        assert_eq!(answer.field("access-control-allow-origin"), None);
        let answer = get("/v1/limits").field("Origin", origin).to(running.at);
        assert_eq!((answer.status, answer.field("access-control-allow-origin")), (200, None), "{origin}");
    }
}

#[test]
fn what_is_no_page_is_not_asked_for_its_origin() {
    assert_eq!(post("/v1/payload", HERON).to(run_with(shop()).at).status, 200);
}
