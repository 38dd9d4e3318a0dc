//! Every method on every path.

use crate::client::{get, post, request};
use crate::running::{HERON, questions, run};

const METHODS: &[&str] = &["GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "TRACE", "OPTIONS", "BREW"];
const PAGES: &[&str] = &[
    "/openapi.json",
    "/docs/",
    "/docs/swagger-ui.css",
    "/health/live",
    "/metrics",
    "/problems",
    "/problems/invalid-build",
    "/v1/limits",
    "/v1/findings",
];

#[test]
fn a_page_is_read_and_nothing_else() {
    let running = run();
    for (path, method) in PAGES.iter().flat_map(|path| METHODS.iter().map(move |method| (*path, *method))) {
        let answer = request(method, path).to(running.at);
        match method {
            "GET" => assert_eq!(answer.status, 200, "{path}"),
            "HEAD" => {
                assert_eq!(answer.status, 200, "{path}");
                assert!(answer.field("content-length").is_some_and(|length| length != "0"), "{path}");
            }
            "OPTIONS" => {
                assert_eq!((answer.status, answer.field("allow")), (204, Some("GET, HEAD, OPTIONS")))
            }
            _ => {
                answer.problem(405);
                assert_eq!(answer.field("allow"), Some("GET, HEAD, OPTIONS"), "{method} {path}");
            }
        }
    }
}

#[test]
fn a_head_tells_what_a_get_would() {
    let running = run();
    for path in PAGES.iter().filter(|path| **path != "/metrics") {
        let (whole, head) = (get(path).to(running.at), request("HEAD", path).to(running.at));
        for field in ["content-length", "content-type", "etag", "cache-control"] {
            assert_eq!(whole.field(field), head.field(field), "{path}: {field}");
        }
    }
}

#[test]
fn a_question_is_posted_and_nothing_else() {
    let running = run();
    for path in questions() {
        assert_eq!(post(&path, HERON).to(running.at).status, 200);
        let options = request("OPTIONS", &path).to(running.at);
        assert_eq!((options.status, options.field("allow")), (204, Some("POST, OPTIONS")));
        for method in ["GET", "PUT", "PATCH", "DELETE", "TRACE", "BREW"] {
            let answer = request(method, &path).to(running.at);
            answer.problem(405);
            assert_eq!(answer.field("allow"), Some("POST, OPTIONS"), "{method} {path}");
        }
        let head = request("HEAD", &path).to(running.at);
        assert_eq!((head.status, head.field("content-type")), (405, Some("application/problem+json")));
    }
}

#[test]
fn what_is_nowhere_is_not_found() {
    let running = run();
    let paths = [
        "/",
        "/v1",
        "/v1/",
        "/v1/payload/",
        "/v2/payload",
        "/v1/Payload",
        "//v1/payload",
        "/health",
        "/docs",
        "/docs/../openapi.json",
        "/docs/no-such",
        "/problems/",
        "/problems/no-such",
        "/problems/%00",
        "/%ff",
        "/a?b=c",
        "/requests/1",
    ];
    for (path, method) in paths.iter().flat_map(|path| METHODS.iter().map(move |method| (*path, *method))) {
        let answer = request(method, path).to(running.at);
        match method {
            "HEAD" => assert_eq!(answer.status, 404, "{path}"),
            // These stand on a page's template: another method is refused before the page is looked for.
            _ if answer.status != 404 && (path.starts_with("/docs/") || path.starts_with("/problems/")) => {
                assert!(method != "GET", "{path}");
            }
            _ => _ = answer.problem(404),
        }
    }
}

#[test]
fn a_query_does_not_change_the_path() {
    let running = run();
    assert_eq!(get("/health/live?x=1").to(running.at).status, 200);
    assert_eq!(post("/v1/payload?x=%00", HERON).to(running.at).status, 200);
}
