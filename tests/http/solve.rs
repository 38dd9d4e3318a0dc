//! Solving as a web developer meets it: a value, and mistakes in the request.

use serde_json::{Value, json};

use crate::client::{Answer, post};
use crate::running::{HERON, run};

fn heron() -> Value {
    serde_json::from_str(HERON).unwrap()
}

fn asked(request: &Value) -> Answer {
    post("/v1/solve", request.to_string()).to(run().at)
}

fn toy() -> Value {
    json!({
        "build": heron(),
        "vary": "cargo.atv.mass_lb",
        "target": {"figure": "payload.states.outbound.payload_left_lb", "at_least": 1000},
    })
}

#[test]
fn the_largest_toy_is_the_present_one_and_what_is_left() {
    let answer = asked(&toy());
    assert_eq!(answer.status, 200, "{}", answer.text());
    let report = answer.json();
    let payload = post("/v1/payload", HERON).to(run().at).json();
    let left_lb = payload["states"]["outbound"]["payload_left_lb"].as_f64().unwrap();
    let value = report["value"].as_f64().unwrap();
    assert!((value - (690.0 + left_lb - 1000.0)).abs() < 1e-6, "{value}");
    assert_eq!(
        (&report["holds"], &report["method"], &report["unit"]),
        (&json!("at_most"), &json!("linear"), &json!("lb"))
    );
    assert_eq!(report["present"]["value"], 690.0);
    assert!((report["present"]["figure"].as_f64().unwrap() - left_lb).abs() < 1e-9);
    assert_eq!((&report["there"]["holds"], &report["beyond"]["holds"]), (&json!(true), &json!(false)));
    assert!(report["summary"].as_str().unwrap().starts_with("cargo.atv.mass_lb may be "));
    assert!(report["evaluations"].as_u64().unwrap() < 50);
}

#[test]
fn a_solved_value_sent_back_holds_and_a_little_more_does_not() {
    let report = asked(&json!({
        "build": heron(),
        "vary": "electrical.circuits.pump.wire.run_ft",
        "target": {"finding": "dc_drop", "until": "appears"},
    }))
    .json();
    let (value, beyond) = (&report["value"], &report["beyond"]["value"]);
    let is_found = |run_ft: &Value| {
        let mut build = heron();
        build["electrical"]["circuits"]["pump"]["wire"]["run_ft"] = run_ft.clone();
        let answer = post("/v1/circuit-load", build.to_string()).to(run().at).json();
        answer["findings"].as_array().unwrap().iter().any(|finding| finding["code"] == "dc_drop")
    };
    assert!(is_found(value) && !is_found(beyond), "{report}");
    assert_eq!(report["holds"], "at_least");
}

#[test]
fn everything_wrong_with_a_request_comes_back_together() {
    let mut request = toy();
    request["build"]["parts"]["galley"]["mass_lb"] = json!(-1);
    request["vary"] = json!("cargo.atv.mass");
    request["target"] = json!({"figure": "payload.states.outbound.payload_left_lb"});
    request["from"] = json!("low");
    let problem = asked(&request).problem(422);
    let faults: Vec<(&str, &str)> = problem["errors"]
        .as_array()
        .unwrap()
        .iter()
        .map(|fault| (fault["pointer"].as_str().unwrap(), fault["code"].as_str().unwrap()))
        .collect();
    let expected = [
        ("/build/parts/galley/mass_lb", "below_minimum"),
        ("/vary", "unknown_field"),
        ("/target/figure", "contradiction"),
        ("/from", "wrong_type"),
    ];
    assert_eq!(faults, expected);
    assert_eq!(problem["errors"][1]["suggestion"], "cargo.atv.mass_lb");
}

#[test]
fn the_same_request_gives_the_same_bytes() {
    let request = json!({
        "build": heron(),
        "vary": "climate.cooling.capacity_btu_h",
        "target": {"finding": "cooler_too_small"},
    });
    let (one, other) = (asked(&request), asked(&request));
    assert_eq!(one.status, 200, "{}", one.text());
    assert_eq!(one.body, other.body);
}
