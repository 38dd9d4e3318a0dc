//! Requests that are refused: every fault at once, each at its place in the request.

use serde_json::{Value, json};
use wainwright::{FaultCode, Refusal};

use super::asked::{answer, answer_text, demonstration, request};

/// Place, kind and words of every fault.
#[track_caller]
fn faults(request: &Value) -> Vec<(String, FaultCode, String)> {
    let Err(Refusal::Faults(faults)) = answer(request) else { panic!("not refused: {request}") };
    let all = faults.list().iter();
    all.map(|fault| (fault.pointer.clone(), fault.code, fault.detail.clone())).collect()
}

#[track_caller]
fn fault(request: &Value) -> (String, FaultCode, String) {
    let mut all = faults(request);
    assert_eq!(all.len(), 1, "{all:?}");
    all.remove(0)
}

fn good() -> Value {
    let target = json!({"figure": "payload.states.outbound.payload_left_lb", "at_least": 0});
    request(&demonstration("heron"), "cargo.atv.mass_lb", &target)
}

fn changed(changes: &[(&str, Value)]) -> Value {
    let mut request = good();
    for (pointer, value) in changes {
        let (around, key) = pointer.rsplit_once('/').unwrap();
        request.pointer_mut(around).unwrap()[key] = value.clone();
    }
    request
}

#[test]
fn all_faults_are_named_together_in_the_order_of_the_request() {
    let request = json!({
        "build": {"trailer": {"gvwr_lb": -3, "bare": {"mass_lb": 2000}}, "parts": {"galley": {"mass_lb": 1}}},
        "vary": "parts.galey.mass_lb",
        "target": {"finding": "axle_over_gawrr", "at_least": 3, "until": "never"},
        "from": "low",
        "steps": 0,
        "speed": 1,
    });
    let places: Vec<_> = faults(&request).into_iter().map(|(pointer, code, _)| (pointer, code)).collect();
    let expected = [
        ("/build/trailer/gvwr_lb", FaultCode::BelowMinimum),
        ("/vary", FaultCode::UnknownId),
        ("/target/finding", FaultCode::UnknownId),
        ("/target/at_least", FaultCode::Contradiction),
        ("/target/until", FaultCode::NotOneOf),
        ("/from", FaultCode::WrongType),
        ("/steps", FaultCode::BelowMinimum),
        ("/speed", FaultCode::UnknownField),
    ];
    assert_eq!(places, expected.map(|(pointer, code)| (pointer.to_owned(), code)));
}

#[test]
fn an_empty_request_lacks_build_input_and_target() {
    let missing: Vec<_> = faults(&json!({})).into_iter().map(|(pointer, code, _)| (pointer, code)).collect();
    let expected = ["/build", "/vary", "/target"].map(|place| (place.to_owned(), FaultCode::MissingField));
    assert_eq!(missing, expected);
}

#[test]
fn a_slip_is_answered_with_the_nearest_name() {
    for (place, slip, suggestion) in [
        ("/vary", "cargo.atv.mass", "cargo.atv.mass_lb"),
        ("/vary", "cargo.atvs.mass_lb", "cargo.atv.mass_lb"),
        (
            "/target/figure",
            "payload.states.outbond.payload_left_lb",
            "payload.states.outbound.payload_left_lb",
        ),
        ("/target/figure", "payload.states.outbound.payload_left", "payload.states.outbound.payload_left_lb"),
        ("/target/figure", "pay_load.unloaded_mass_lb", "payload.unloaded_mass_lb"),
        ("/target/figure", "margin.payload_left_lb", "margins.payload_left_lb"),
        ("/target/figure", "evaluate.margins.payload_left", "evaluate.margins.payload_left_lb"),
    ] {
        let request = changed(&[(place, json!(slip))]);
        let Err(Refusal::Faults(faults)) = answer(&request) else { panic!("{slip} is not refused") };
        let fault = &faults.list()[0];
        assert_eq!((faults.count(), fault.pointer.as_str()), (1, place), "{slip}: {fault:?}");
        assert_eq!(fault.suggestion.as_deref(), Some(suggestion));
        assert!(fault.detail.ends_with(&format!("did you mean {suggestion}?")), "{}", fault.detail);
    }
}

#[test]
fn a_path_to_no_figure_is_told_what_it_leads_to() {
    for (path, start) in [
        (
            "payload.states.outbound",
            "leads to no figure of its own; give a path to a figure, such as payload.states.outbound.",
        ),
        ("payload.states.outbound.moving", "leads to true or false"),
        ("energy_budget.summary", "leads to text"),
        ("energy_budget.months", "leads to a list"),
        ("axle_load", "leads to no figure of its own"),
        ("", "leads nowhere: what can be asked has no \"\"; it has payload, axle_load"),
        ("payload.findings.0.limit_kind.x", "leads nowhere"),
    ] {
        let (pointer, _, detail) = fault(&changed(&[("/target/figure", json!(path))]));
        assert_eq!(pointer, "/target/figure");
        assert!(detail.starts_with(start), "{path}: {detail}");
    }
}

#[test]
fn a_figure_that_the_build_does_not_have_is_told() {
    let mut pika = demonstration("pika");
    pika.as_object_mut().unwrap().remove("stay");
    let target = json!({"figure": "energy_budget.stay", "at_least": 0});
    let (pointer, code, detail) = fault(&request(&pika, "battery.capacity_ah", &target));
    assert_eq!((pointer.as_str(), code), ("/target/figure", FaultCode::WrongType));
    assert!(detail.starts_with("leads to null: this build has no such figure"), "{detail}");
}

#[test]
fn bounds_and_findings_do_not_go_together() {
    for (target, place) in [
        (json!({"figure": "payload.unloaded_mass_lb"}), "/target/figure"),
        (json!({"figure": "payload.unloaded_mass_lb", "at_least": 1, "at_most": 2}), "/target/at_most"),
        (json!({"figure": "payload.unloaded_mass_lb", "at_least": 1, "until": "gone"}), "/target/until"),
        (
            json!({"figure": "payload.unloaded_mass_lb", "at_least": 1, "subject": "/cargo"}),
            "/target/subject",
        ),
        (
            json!({"figure": "payload.unloaded_mass_lb", "at_least": 1, "finding": "axle_over_gawr"}),
            "/target/finding",
        ),
        (json!({"figure": "payload.unloaded_mass_lb", "atleast": 1}), "/target/atleast"),
        (json!({}), "/target"),
        (json!({"findings": "axle_over_gawr"}), "/target/findings"),
        (json!({"finding": "axle_over_gawr", "subject": "/trailer/axles/reer"}), "/target/subject"),
        (json!({"finding": "axle_over_gawr", "question": "payload"}), "/target/question"),
        (json!({"finding": "axle_over_gawr", "question": "axles"}), "/target/question"),
        (json!({"finding": 7}), "/target/finding"),
    ] {
        assert_eq!(fault(&changed(&[("/target", target.clone())])).0, place, "{target}");
    }
}

#[test]
fn a_range_that_is_upside_down_or_outside_the_field_is_refused() {
    for (changes, place, code) in [
        (vec![("/from", json!(9)), ("/to", json!(8))], "/from", FaultCode::Contradiction),
        (vec![("/from", json!(-1))], "/from", FaultCode::BelowMinimum),
        (vec![("/to", json!(1e6))], "/to", FaultCode::AboveMaximum),
        (
            vec![("/vary", json!("occupancy.people")), ("/from", json!(1.2)), ("/to", json!(1.8))],
            "/from",
            FaultCode::Contradiction,
        ),
    ] {
        let (pointer, found, detail) = fault(&changed(&changes));
        assert_eq!((pointer.as_str(), found), (place, code), "{detail}");
    }
}

#[test]
fn a_build_with_too_little_for_the_question_is_told_what_it_lacks() {
    let target = json!({"figure": "axle_load.states.outbound.tongue_lb", "at_most": 400});
    let build = json!({"parts": {"galley": {"mass_lb": 3}}});
    let (pointer, code, _) = fault(&request(&build, "parts.galley.mass_lb", &target));
    assert_eq!((pointer.as_str(), code), ("/build/trailer", FaultCode::MissingSection));
}

#[test]
fn a_member_that_stands_twice_in_the_build_is_refused_too() {
    let text = good().to_string().replacen("\"gvwr_lb\":7700", "\"gvwr_lb\":7700,\"gvwr_lb\":7000", 1);
    let answer = answer_text(&text);
    let Err(Refusal::Faults(faults)) = answer else { panic!("not refused") };
    assert_eq!(faults.list()[0].pointer, "/build/trailer/gvwr_lb");
    assert_eq!(faults.list()[0].code, FaultCode::DuplicateKey);
}
