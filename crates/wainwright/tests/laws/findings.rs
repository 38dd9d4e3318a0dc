//! What findings and assumptions owe to whoever reads them.

use proptest::prelude::*;
use proptest::strategy::Union;
use serde_json::{Value, json};
use wainwright::report::{AssumedValue, Assumption, Finding, LimitKind};

use super::builds::{build, cases, sound_build};
use super::reports::{axle_load, payload};

/// How far past its limit a finding is, as a part of the limit.
fn excess(finding: &Finding) -> f64 {
    let (Some(value), Some(limit), Some(kind)) = (finding.value, finding.limit, finding.limit_kind) else {
        return 0.0;
    };
    let past = if kind == LimitKind::Maximum { value - limit } else { limit - value };
    match (limit, value) {
        (0.0, 0.0) => 0.0,
        (0.0, value) => past / value.abs(),
        _ => past / limit.abs(),
    }
}

fn check_findings(document: &Value, findings: &[Finding]) -> Result<(), TestCaseError> {
    let order = |f: &Finding| (f.severity, -excess(f), f.subject.clone(), f.code);
    for pair in findings.windows(2) {
        prop_assert!(order(&pair[0]) <= order(&pair[1]), "{:?} stands before {:?}", pair[0], pair[1]);
    }
    for (i, finding) in findings.iter().enumerate() {
        let twin = findings[..i].iter().find(|f| f.code == finding.code && f.subject == finding.subject);
        prop_assert!(twin.is_none(), "{} of {} stands twice", finding.code, finding.subject);
        prop_assert!(document.pointer(&finding.subject).is_some(), "{} is not in the build", finding.subject);
        prop_assert!(excess(finding) >= 0.0, "{finding:?} is within its limit");
        prop_assert!(
            !finding.message.is_empty() && !finding.remedy.is_empty() && !finding.citation.is_empty()
        );
    }
    Ok(())
}

/// The build with a value written at a pointer, objects made on the way as needed; none where something stands in
/// the way.
fn written(document: &Value, pointer: &str, value: Value) -> Option<Value> {
    let mut document = document.clone();
    let mut at = &mut document;
    for key in pointer.split('/').skip(1) {
        at = at.as_object_mut()?.entry(key).or_insert(json!({}));
    }
    *at = value;
    Some(document)
}

/// What could be written where it was assumed: numbers, flags, and words that are words of the document.
fn writable(assumption: &Assumption) -> Option<Value> {
    match &assumption.value {
        AssumedValue::Number(number) => Some(json!(number)),
        AssumedValue::Flag(flag) => Some(json!(flag)),
        AssumedValue::Word(word) => {
            ["trailer", "equalized", "direct"].contains(&&**word).then(|| json!(word))
        }
    }
}

/// Asserts that each assumption could have been written, and that writing all of them changes no figure.
fn check_assumptions(document: &Value, assumptions: &[Assumption]) -> Result<Value, TestCaseError> {
    let mut spelled = document.clone();
    for (i, assumption) in assumptions.iter().enumerate() {
        let twin = assumptions[..i].iter().find(|a| a.pointer == assumption.pointer);
        prop_assert!(twin.is_none(), "{} is assumed twice", assumption.pointer);
        prop_assert!(written(document, &assumption.pointer, json!(null)).is_some(), "{}", assumption.pointer);
        if assumption.pointer.ends_with("/fill") {
            // One value for every tank that the state does not list.
            for tank in document["tanks"].as_object().into_iter().flat_map(|tanks| tanks.keys()) {
                let pointer = format!("{}/{tank}", assumption.pointer);
                if document.pointer(&pointer).is_none() {
                    spelled = written(&spelled, &pointer, json!(assumption.value)).unwrap();
                }
            }
        } else if let Some(value) = writable(assumption) {
            prop_assert!(document.pointer(&assumption.pointer).is_none(), "{} is given", assumption.pointer);
            spelled = written(&spelled, &assumption.pointer, value).unwrap();
        }
    }
    Ok(spelled)
}

/// A report without its assumptions.
macro_rules! figures {
    ($report:expr) => {{
        let mut report = $report;
        report.assumptions = Vec::new();
        report
    }};
}

proptest! {
    #![proptest_config(cases(512))]

    #[test]
    fn findings_stand_in_order_once_each_and_point_into_the_build(
        document in Union::new([build().boxed(), sound_build().boxed()]),
    ) {
        check_findings(&document, &axle_load(&document).findings)?;
        check_findings(&document, &payload(&document).findings)?;
    }

    #[test]
    fn an_assumption_written_into_the_build_changes_no_figure(document in build()) {
        let loads = axle_load(&document);
        let spelled = check_assumptions(&document, &loads.assumptions)?;
        // A coupler made only to say the ball's height is a coupler without ratings.
        prop_assert_eq!(figures!(axle_load(&spelled)).states, figures!(loads).states);
        let masses = payload(&document);
        let spelled = check_assumptions(&document, &masses.assumptions)?;
        prop_assert_eq!(figures!(payload(&spelled)), figures!(masses));
    }
}

/// A build that says as little as may be.
#[test]
fn what_the_least_build_leaves_out_is_assumed() {
    let least = json!({"trailer": {"gvwr_lb": 5000, "bare": {"mass_lb": 3000, "x_in": 176},
        "axles": {"a": {"x_in": 180, "gawr_lb": 3500, "track_in": 80}, "b": {"x_in": 214, "gawr_lb": 3500, "track_in": 80}}}});
    let loads = axle_load(&least);
    let assumed: Vec<&str> = loads.assumptions.iter().map(|a| a.pointer.as_str()).collect();
    for pointer in [
        "/trailer/suspension",
        "/trailer/equalizer",
        "/trailer/coupler/ball_height_in",
        "/trailer/bare/y_in",
        "/trailer/bare/z_in",
        "/trailer/axles/a/tires",
        "/states",
        "/road/stop_g",
    ] {
        assert!(assumed.contains(&pointer), "{pointer} is not among {assumed:?}");
    }
    let spelled = check_assumptions(&least, &loads.assumptions).unwrap();
    assert_eq!(axle_load(&spelled).states, loads.states);
}

/// A part and a piece of cargo may have one id: what is said under it is of the part alone.
#[test]
fn of_a_part_and_cargo_with_one_id_placement_is_the_parts() {
    let document = json!({"trailer": {"gvwr_lb": 5000, "bare": {"mass_lb": 3000, "x_in": 176},
        "axles": {"only": {"x_in": 200, "gawr_lb": 3500, "track_in": 80}}},
        "parts": {"box": {"mass_lb": 10, "x_in": 176}},
        "cargo": {"box": {"mass_lb": 3000, "x_in": 176}},
        "states": {"away": {"aboard": []}, "full": {"aboard": ["box"], "moving": true}}});
    let mut heavy = document.clone();
    heavy["trailer"]["coupler"] = json!({"ball_height_in": 19, "max_tongue_lb": 365});
    for document in [document, heavy] {
        let report = axle_load(&document);
        assert_eq!(report.placement["box"].is_none(), report.no_place.contains_key("box"));
    }
}
