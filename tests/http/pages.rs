//! Pages for people.

use serde_json::Value;
use wainwright_service::problem;

use crate::client::{get, post};
use crate::running::{HERON, run};

#[test]
fn every_kind_of_problem_leads_to_a_page() {
    let running = run();
    let list = get("/problems").to(running.at);
    for kind in problem::ALL {
        assert!(list.text().contains(kind.uri), "{}", kind.uri);
        if kind.uri.starts_with('/') {
            let page = get(kind.uri).to(running.at);
            assert_eq!(page.status, 200, "{}", kind.uri);
            assert!(page.text().contains(kind.title));
            assert_eq!(page.field("content-type"), Some("text/html; charset=utf-8"));
            assert!(page.field("content-security-policy").unwrap().starts_with("default-src 'none'"));
        }
    }
}

#[test]
fn the_docs_load_nothing_from_elsewhere() {
    let running = run();
    let page = get("/docs/").to(running.at);
    assert!(page.field("content-security-policy").unwrap().contains("script-src 'self'"));
    let links =
        page.text().split(['"', '\'']).filter(|piece| piece.ends_with(".js") || piece.ends_with(".css"));
    let mut count = 0;
    for link in links {
        let file = get(&format!("/docs/{}", link.trim_start_matches("./"))).to(running.at);
        assert_eq!(file.status, 200, "{link}");
        assert_eq!(file.field("x-content-type-options"), Some("nosniff"));
        count += 1;
    }
    assert!(count >= 4, "{}", page.text());
    let start = get("/docs/swagger-initializer.js").to(running.at);
    assert!(start.text().contains("\"/openapi.json\"") && !start.text().contains("http"), "{}", start.text());
}

#[test]
fn every_finding_of_a_report_is_in_the_list_of_rules() {
    let running = run();
    let rules = get("/v1/findings").to(running.at).json();
    let known: Vec<&Value> = rules["rules"].as_array().unwrap().iter().map(|rule| &rule["code"]).collect();
    let report = post("/v1/payload", HERON).to(running.at).json();
    for finding in report["findings"].as_array().unwrap() {
        assert!(known.contains(&&finding["code"]), "{finding}");
    }
}

#[test]
fn a_request_id_is_echoed_if_it_is_one_and_made_if_not() {
    let running = run();
    let with = |id: &str| {
        get("/health/live").field("X-Request-Id", id).to(running.at).field("x-request-id").unwrap().to_owned()
    };
    for id in ["a", "shop-42_A", &"x".repeat(64)] {
        assert_eq!(with(id), id);
    }
    for id in ["", "a b", "a;b", "é", &"x".repeat(65)] {
        let made = with(id);
        assert!(made != id && made.len() == 17, "{id}: {made}");
    }
    assert_ne!(with(""), with(""));
    let refused = get("/nope").field("X-Request-Id", "shop-42").to(running.at).problem(404);
    assert_eq!(refused["instance"], "/requests/shop-42");
}
