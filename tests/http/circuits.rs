//! Circuit load as a web developer meets it: an answer, and mistakes in the body.

use serde_json::{Value, json};

use crate::client::{Answer, post};
use crate::running::{HERON, run};

fn asked(build: &Value) -> Answer {
    post("/v1/circuit-load", build.to_string()).to(run().at)
}

/// One inlet, one circuit and a kettle.
fn kettle() -> Value {
    json!({
        "parts": {"kettle": {"mass_lb": 3, "electrical": {"circuit": "galley", "power_w": 1200, "power_factor": 1}}},
        "electrical": {
            "sources": {"shore": {"kind": "shore", "voltage_v": 120, "rating_a": 20}},
            "circuits": {"galley": {"breaker_a": 20, "gfci": true, "wire": {"awg": "12", "run_ft": 16}}},
            "modes": {"plugged_in": {"feeds": {"galley": "shore"}}},
        },
    })
}

fn with(mut build: Value, pointer: &str, value: Value) -> Value {
    let (parent, key) = pointer.rsplit_once('/').unwrap();
    build.pointer_mut(parent).unwrap()[key] = value;
    build
}

#[test]
fn the_least_electrical_build_is_answered() {
    let answer = asked(&kettle());
    assert_eq!(answer.status, 200, "{}", answer.text());
    let report = answer.json();
    let mode = &report["modes"]["plugged_in"];
    assert_eq!(mode["sources"]["shore"]["current_a"], 10.0);
    assert_eq!(mode["sources"]["shore"]["limit_a"], 16.0);
    let circuit = &mode["circuits"]["galley"];
    assert_eq!(circuit["current_a"], 10.0);
    assert_eq!(circuit["required_a"], 10.0);
    assert_eq!(circuit["ampacity_a"], 20.0);
    // 10 A through 32 ft of 12 AWG, 1.98 Ω a thousand feet (NEC Chapter 9, Table 8).
    assert!((circuit["drop_v"].as_f64().unwrap() - 0.6336).abs() < 1e-9);
    assert_eq!(
        (circuit["smallest_awg"].as_str(), circuit["bound_by"].as_str()),
        (Some("12"), Some("device"))
    );
    assert_eq!((mode["conflicts"].clone(), mode["largest_sets"].clone()), (json!([]), json!([["kettle"]])));
}

#[test]
fn one_source_needs_no_modes() {
    let mut build = kettle();
    build["electrical"].as_object_mut().unwrap().remove("modes");
    let report = asked(&build).json();
    assert_eq!(report["modes"]["shore"]["circuits"]["galley"]["current_a"], 10.0);
    let assumed = report["assumptions"].as_array().unwrap();
    assert!(assumed.iter().any(|assumption| assumption["pointer"] == "/electrical/modes"));
    build["electrical"]["sources"]["bank"] = json!({"kind": "battery", "voltage_v": 12.8});
    let refused = asked(&build);
    assert_eq!(refused.status, 422);
    assert_eq!(refused.json()["errors"][0]["pointer"], "/electrical/modes");
}

#[test]
fn a_mistake_is_told_with_its_place_the_reason_and_the_known_choices() {
    for (pointer, value, detail, known) in [
        (
            "/electrical/modes/plugged_in/feeds/galley",
            json!("shoer"),
            r#"names "shoer", which is not in /electrical/sources; did you mean shore?"#,
            json!(["shore"]),
        ),
        (
            "/parts/kettle/electrical/circuit",
            json!("bath"),
            r#"names "bath", which is not in /electrical/circuits"#,
            json!(["galley"]),
        ),
        (
            "/electrical/sources/shore/kind",
            json!("pedestal"),
            "must be one of shore, generator, inverter, battery; got \"pedestal\"",
            json!(["shore", "generator", "inverter", "battery"]),
        ),
        ("/electrical/circuits/galley/wire/run_ft", json!(-1), "must be 0 or more; got -1", Value::Null),
        ("/parts/kettle/electrical/power_factor", json!(0), "must be 0.05 or more; got 0", Value::Null),
        ("/parts/kettle/electrical/power_factor", json!(1.01), "must be 1 or less; got 1.01", Value::Null),
    ] {
        let answer = asked(&with(kettle(), pointer, value));
        assert_eq!(answer.status, 422, "{pointer}");
        let problem = answer.json();
        let errors = problem["errors"].as_array().unwrap();
        assert_eq!(errors.len(), 1, "{errors:?}");
        assert_eq!(
            (errors[0]["pointer"].as_str(), errors[0]["detail"].as_str()),
            (Some(pointer), Some(detail))
        );
        assert_eq!(errors[0].get("known").cloned().unwrap_or_default(), known, "{pointer}");
    }
    let size = asked(&with(kettle(), "/electrical/circuits/galley/wire/awg", json!("11"))).json();
    assert_eq!(size["errors"][0]["pointer"], "/electrical/circuits/galley/wire/awg");
    assert_eq!(size["errors"][0]["known"].as_array().unwrap().len(), 20);
}

#[test]
fn a_build_without_circuits_is_told_what_is_missing() {
    let trailer = json!({"trailer": {"gvwr_lb": 7000, "bare": {"mass_lb": 2180}}});
    let refused = asked(&trailer);
    assert_eq!(refused.status, 422);
    let problem = refused.json();
    assert_eq!(problem["errors"][0]["pointer"], "/electrical");
    assert_eq!(problem["errors"][0]["detail"], "is missing; circuit load needs its sources and circuits");
    let empty = asked(&json!({"electrical": {}})).json();
    let pointers: Vec<_> =
        empty["errors"].as_array().unwrap().iter().map(|error| &error["pointer"]).collect();
    assert_eq!(pointers, ["/electrical/sources", "/electrical/circuits"]);
}

#[test]
fn the_demonstration_build_names_what_cannot_run_together() {
    let report = post("/v1/circuit-load", HERON).to(run().at).json();
    assert_eq!(
        report["modes"]["plugged_in"]["conflicts"],
        json!([["air_conditioner", "converter", "kettle", "bay_heater"]])
    );
    assert_eq!(report["modes"]["plugged_in"]["sources"]["shore"]["limit_a"], 24.0);
    assert!(report["findings"].as_array().unwrap().iter().all(|finding| finding["severity"] != "violation"));
}
