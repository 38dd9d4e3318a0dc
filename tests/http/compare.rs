//! Comparing as a web developer meets it: what changed and what it did, and mistakes in the request.

use serde_json::{Value, json};

use crate::client::{Answer, post};
use crate::running::{HERON, run};

fn heron() -> Value {
    serde_json::from_str(HERON).unwrap()
}

fn asked(before: &Value, after: &Value) -> Answer {
    post("/v1/compare", json!({"before": before, "after": after}).to_string()).to(run().at)
}

#[test]
fn every_figure_told_is_that_of_the_two_evaluations() {
    let mut after = heron();
    after["parts"]["galley"]["mass_lb"] = json!(300);
    after["battery"]["capacity_ah"] = json!(100);
    after["tanks"].as_object_mut().unwrap().remove("propane");
    for state in after["states"].as_object_mut().unwrap().values_mut() {
        state["fill"].as_object_mut().unwrap().remove("propane");
    }
    let answer = asked(&heron(), &after);
    assert_eq!(answer.status, 200, "{}", answer.text());
    let report = answer.json();
    let evaluated = |build: &Value| post("/v1/evaluate", build.to_string()).to(run().at).json();
    let (one, other) = (evaluated(&heron()), evaluated(&after));
    let figures = report["figures"].as_array().unwrap();
    assert!(figures.len() > 50);
    let mut compared = 0;
    for change in figures {
        let pointer = format!("/{}", change["path"].as_str().unwrap().replace('.', "/"));
        // Items of lists with names are told by those, which a pointer does not know.
        let (before, after) = (one.pointer(&pointer), other.pointer(&pointer));
        if before.is_some() || after.is_some() {
            // A count is a figure too.
            assert_eq!(before.and_then(Value::as_f64), change["before"].as_f64(), "{pointer}");
            assert_eq!(after.and_then(Value::as_f64), change["after"].as_f64(), "{pointer}");
            compared += 1;
        }
    }
    assert!(compared > figures.len() / 2, "{compared} of {}", figures.len());
    let removed =
        report["changes"].as_array().unwrap().iter().find(|change| change["pointer"] == "/tanks/propane");
    assert_eq!(removed.unwrap()["kind"], "removed");
    assert_eq!(report["verdict"]["before"], one["verdict"]["status"]);
    assert_eq!(report["verdict"]["after"], other["verdict"]["status"]);
}

#[test]
fn a_build_beside_itself_differs_in_nothing() {
    let report = asked(&heron(), &heron()).json();
    assert_eq!(report["summary"], "The two builds are the same.");
    for list in ["changes", "figures", "words", "findings_gone", "findings_new", "findings_changed"] {
        assert_eq!(report[list], json!([]), "{list}");
    }
}

#[test]
fn faults_of_both_builds_come_back_together() {
    let (mut before, mut after) = (heron(), heron());
    before["trailer"]["gvwr_lb"] = json!(-1);
    after["cargo"]["atv"]["mas_lb"] = json!(1);
    let problem = asked(&before, &after).problem(422);
    let places: Vec<&str> = problem["errors"]
        .as_array()
        .unwrap()
        .iter()
        .map(|fault| fault["pointer"].as_str().unwrap())
        .collect();
    assert_eq!(places, ["/before/trailer/gvwr_lb", "/after/cargo/atv/mas_lb"]);
    let alone = post("/v1/compare", json!({"before": heron()}).to_string()).to(run().at).problem(422);
    assert_eq!(alone["errors"][0]["pointer"], "/after");
}
