//! Edges of an evaluation.

use serde_json::{Value, json};
use wainwright::report::Severity;

use crate::builds::{HERON, PIKA, evaluated, off_grid, with};

fn codes(document: &Value) -> Vec<&'static str> {
    evaluated(document).findings.iter().map(|finding| finding.code).collect()
}

#[test]
fn a_build_that_cannot_settle_says_so() {
    // The warmer it is the more they take in, and the more they take in the warmer it is.
    let document = with(off_grid(), "/parts/fridge/quantity", json!(21));
    let document = with(document, "/parts/fridge/electrical/power_w", json!(5000));
    let document = with(document, "/climate", json!({}));
    let report = evaluated(&document);
    let handed = report.handed_over.as_ref().unwrap();
    assert!(!handed.settled && handed.left_w > handed.tolerance_w, "{handed:?}");
    let finding = report.findings.iter().find(|finding| finding.code == "evaluation_not_settled").unwrap();
    assert_eq!((finding.severity, finding.value), (Severity::Caution, Some(handed.left_w)));
    assert!(!codes(&off_grid()).contains(&"evaluation_not_settled"));
}

#[test]
fn without_an_envelope_the_others_are_asked_alone() {
    let mut document = off_grid();
    document.as_object_mut().unwrap().remove("envelope");
    let report = evaluated(&document);
    assert!(report.cooling_load.is_none() && report.handed_over.is_none());
    assert!(report.circuit_load.is_some() && report.energy_budget.is_some());
    let note = report.findings.iter().find(|finding| finding.code == "cooling_load_not_worked_out").unwrap();
    assert!(note.remedy.contains("/envelope/surfaces is missing"), "{}", note.remedy);
}

#[test]
fn without_a_battery_the_box_is_worked_out_all_the_same() {
    let mut document = off_grid();
    document.as_object_mut().unwrap().remove("battery");
    let report = evaluated(&document);
    let handed = report.handed_over.as_ref().unwrap();
    assert!(report.energy_budget.is_none() && handed.box_air.is_none() && handed.settled);
    assert!(report.margins.autonomy_h.is_none() && report.margins.cooling_margin_fraction.is_some());
}

#[test]
fn hours_that_the_air_conditioner_states_are_replaced_and_named() {
    let stated = with(off_grid(), "/parts/cooler/electrical/hours_per_day", json!(6));
    let report = evaluated(&stated);
    let finding = report.findings.iter().find(|finding| finding.code == "stated_hours_replaced").unwrap();
    assert_eq!(finding.subject, "/parts/cooler/electrical/hours_per_day");
    assert_eq!(finding.value, Some(6.0));
    assert!(!codes(&off_grid()).contains(&"stated_hours_replaced"));
    // It is the same build but for that.
    let without = evaluated(&off_grid());
    assert_eq!(report.energy_budget.unwrap().months, without.energy_budget.unwrap().months);
}

#[test]
fn an_air_conditioner_that_is_no_part_is_named() {
    let mut document = off_grid();
    document["parts"].as_object_mut().unwrap().remove("cooler");
    let report = evaluated(&document);
    let finding =
        report.findings.iter().find(|finding| finding.code == "air_conditioner_without_part").unwrap();
    assert_eq!(finding.subject, "/climate/cooling");
    assert!(report.handed_over.unwrap().air_conditioner.is_none());
    assert!(!codes(&off_grid()).contains(&"air_conditioner_without_part"));
}

#[test]
fn an_air_conditioner_that_cannot_be_leaves_its_part_as_it_says() {
    let document = with(off_grid(), "/climate/cooling/sensible_fraction", json!(0.5));
    let stated = with(document, "/parts/cooler/electrical/hours_per_day", json!(3));
    let report = evaluated(&stated);
    assert!(report.handed_over.as_ref().unwrap().air_conditioner.is_none());
    let loads = report.energy_budget.unwrap().loads;
    let cooler = loads.get("cooler").unwrap();
    assert!((cooler.load_wh_per_day - 520.0 * 3.0 / 0.88).abs() < 1e-6, "{cooler:?}");
}

#[test]
fn an_electric_heater_that_nothing_feeds_heats_nothing() {
    // In the mode in which the battery feeds it nobody has plugged the trailer in.
    let pika: Value = serde_json::from_str(PIKA).unwrap();
    let air = evaluated(&pika).handed_over.unwrap().box_air.unwrap();
    assert!(!air.heated && air.coldest_f < 40.0, "{air:?}");
    let gas = with(pika, "/climate/heating/kind", json!("propane_vented"));
    let air = evaluated(&gas).handed_over.unwrap().box_air.unwrap();
    assert!(air.heated && air.coldest_f > 55.0, "{air:?}");
}

#[test]
fn a_stay_that_is_heated_is_no_colder_than_it_says() {
    let heron: Value = serde_json::from_str(HERON).unwrap();
    let unheated = with(with(heron, "/climate/heating", Value::Null), "/stay/heated_to_f", json!(58));
    let cold = with(unheated.clone(), "/stay/heated_to_f", Value::Null);
    let lowest = |document: &Value| {
        let report = evaluated(document).energy_budget.unwrap();
        report.autonomy_h.unwrap()
    };
    assert!(lowest(&unheated) > lowest(&cold));
}

#[test]
fn an_answer_does_not_depend_on_what_was_asked_before() {
    let heron: Value = serde_json::from_str(HERON).unwrap();
    let turned = with(heron.clone(), "/site/heading_deg", json!(120));
    let alone = |document: Value| {
        let asked = std::thread::spawn(move || evaluated(&document));
        asked.join().unwrap()
    };
    let fresh = [alone(heron.clone()), alone(turned.clone())];
    for _ in 0..2 {
        assert!(evaluated(&heron) == fresh[0] && evaluated(&turned) == fresh[1]);
    }
    assert!(fresh[0] != fresh[1]);
}
