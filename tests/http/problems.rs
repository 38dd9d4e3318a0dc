//! The list of kinds of problems, against those that are raised.

use std::collections::BTreeSet;
use std::sync::Arc;

use wainwright_service::question::Asked;
use wainwright_service::{Config, Service, problem, question};

use crate::client::{get, post, request};
use crate::running::{HERON, config, run_service, seconds};

/// Twenty-one options of which any may be chosen.
fn too_many_choices() -> String {
    let options: Vec<String> = (0..21).map(|i| format!(r#""o{i}": {{"price_usd": 1}}"#)).collect();
    format!(
        r#"{{"base": {{}}, "groups": {{"all": {{"choose": "any", "options": {{{}}}}}}}}}"#,
        options.join(",")
    )
}

#[test]
fn every_kind_that_is_listed_is_raised_by_some_request() {
    let mut questions = question::all(&Arc::default());
    questions.push(Asked {
        path: "/v1/panic".to_owned(),
        answerer: Arc::new(|_| panic!("for a test")),
        example: String::new,
        may_take_long: false,
    });
    let settings = Config {
        cors_origins: vec!["https://shop.example".to_owned()],
        rate_limit: Some(13),
        rate_window_s: seconds(3600.0),
        receive_limit_s: seconds(0.1),
        ..config()
    };
    let running = run_service(Service::with_questions(settings, questions));
    let asking = request("OPTIONS", "/v1/payload").field("Access-Control-Request-Method", "POST");
    let answers = [
        post("/v1/payload", "oops").to(running.at).problem(400),
        asking.field("Origin", "https://other.example").to(running.at).problem(403),
        get("/nope").to(running.at).problem(404),
        get("/v1/payload").to(running.at).problem(405),
        post("/v1/payload", HERON).field("Accept", "text/csv").to(running.at).problem(406),
        post("/v1/payload", "{").field("Content-Length", "10").to(running.at).problem(408),
        post("/v1/payload", "{").field("Content-Length", "99999999").to(running.at).problem(413),
        request("POST", "/v1/payload").body("{}").to(running.at).problem(415),
        post("/v1/payload", "[]").to(running.at).problem(422),
        post("/v1/payload", "{}").to(running.at).problem(422),
        post("/v1/search", too_many_choices()).to(running.at).problem(422),
        post("/v1/panic", "{}").to(running.at).problem(500),
        get("/health/ready").to(running.at).problem(503),
        (0..20)
            .map(|_| get("/v1/limits").to(running.at))
            .find(|answer| answer.status != 200)
            .unwrap()
            .problem(429),
    ];
    let raised: BTreeSet<&str> = answers.iter().map(|problem| problem["type"].as_str().unwrap()).collect();
    let listed: BTreeSet<&str> = problem::ALL.iter().map(|kind| kind.uri).collect();
    assert_eq!(raised, listed);
}
