//! What is wrong with a table is told by its column; what is wrong with a row, by its row.

use serde_json::{Value, json};
use wainwright::batch::{BatchReport, ScoreTable};
use wainwright::operation::Operation;
use wainwright::{NamedFiles, Refusal};

const LEFT: &str = "payload.states.outbound.payload_left_lb";

fn answer(request: &Value) -> Result<BatchReport, Refusal> {
    ScoreTable::answer(request.to_string().as_bytes(), &NamedFiles::default())
}

fn request(columns: Value) -> Value {
    let mut request = ScoreTable::example();
    request["columns"] = columns;
    request
}

/// Pointer and words of every fault.
#[track_caller]
fn faults(request: &Value) -> Vec<(String, String)> {
    let Err(Refusal::Faults(faults)) = answer(request) else { panic!("not refused") };
    faults.list().iter().map(|fault| (fault.pointer.clone(), fault.detail.clone())).collect()
}

/// Row, pointer and words of every error.
fn errors(report: &BatchReport) -> Vec<(u32, &str, &str)> {
    report.errors.iter().map(|error| (error.row, error.subject.as_str(), error.message.as_str())).collect()
}

#[test]
fn a_column_that_does_not_belong_is_named() {
    for (columns, pointer, detail) in [
        (
            json!({"parts.galey.mass_lb": [1]}),
            "/columns/parts.galey.mass_lb",
            "leads nowhere: parts has no \"galey\"; did you mean parts.galley.mass_lb?",
        ),
        (
            json!({"parts.galley.mass_lb": ["heavy"]}),
            "/columns/parts.galley.mass_lb",
            "must hold numbers; it holds text",
        ),
        (
            json!({"parts.galley.mass_lb": [1, true]}),
            "/columns/parts.galley.mass_lb/1",
            "must be a number; got true or false",
        ),
        (
            json!({"parts.galley.mass_lb": 7}),
            "/columns/parts.galley.mass_lb",
            "must be a list with a cell a row; got a number",
        ),
        (
            json!({"parts.galley.mass_lb": [1, 2], "parts.bench.mass_lb": [1]}),
            "/columns/parts.bench.mass_lb",
            "must have 2 cells, as parts.galley.mass_lb has; it has 1",
        ),
        (
            json!({"parts.galley.category": ["kitchen"]}),
            "/columns/parts.galley.category",
            "leads to text; give a path to a number",
        ),
        (
            json!({"battery": ["big"]}),
            "/columns/battery",
            "leads to no number of its own; give a path to a number, such as battery.capacity_ah",
        ),
    ] {
        assert_eq!(faults(&request(columns)), [(pointer.to_owned(), detail.to_owned())]);
    }
}

#[test]
fn all_mistakes_are_told_at_once() {
    let columns = json!({"parts.galey.mass_lb": [1, 2], "parts.galley.mass_lb": ["heavy", 1]});
    let mut request = request(columns);
    request["scores"] = json!(["payload.states.outbound.payload_lft_lb"]);
    let told = [
        (
            "/columns/parts.galey.mass_lb",
            "leads nowhere: parts has no \"galey\"; did you mean parts.galley.mass_lb?",
        ),
        ("/columns/parts.galley.mass_lb/0", "must be a number; got text"),
        (
            "/scores/0",
            "leads nowhere: payload.states.outbound has no \"payload_lft_lb\"; did you mean payload.states.outbound.payload_left_lb?",
        ),
    ];
    assert_eq!(faults(&request), told.map(|(pointer, detail)| (pointer.to_owned(), detail.to_owned())));
}

#[test]
fn a_score_that_leads_nowhere_is_named() {
    for (score, detail) in [
        (
            "payload.states.outbond.payload_left_lb",
            "leads nowhere: payload.states has no \"outbond\"; did you mean payload.states.outbound.payload_left_lb?",
        ),
        (
            "weight",
            "leads nowhere: what can be asked has no \"weight\"; it has payload, axle_load, circuit_load, energy_budget, cooling_load, evaluate, margins, verdict",
        ),
        ("payload.states", "leads to no figure of its own; give a path to a figure"),
    ] {
        let mut request = request(json!({"parts.galley.mass_lb": [1]}));
        request["scores"] = json!([LEFT, score]);
        assert_eq!(faults(&request), [("/scores/1".to_owned(), detail.to_owned())]);
    }
    let mut twice = request(json!({}));
    twice["scores"] = json!([LEFT, LEFT]);
    assert_eq!(faults(&twice), [("/scores/1".to_owned(), "is given more than once; keep one".to_owned())]);
}

#[test]
fn what_the_base_lacks_is_told_once() {
    let mut request = request(json!({"parts.galley.mass_lb": [1, 2]}));
    request["scores"] = json!(["energy_budget.autonomy_h"]);
    assert!(faults(&request).iter().all(|(pointer, _)| pointer.starts_with("/base/")));
    request["base"]["trailer"]["gvwr_lb"] = json!("much");
    assert_eq!(faults(&request)[0].0, "/base/trailer/gvwr_lb");
}

#[test]
fn a_row_with_an_error_has_no_figures_and_the_others_have_theirs() {
    let report = answer(&request(json!({"parts.galley.mass_lb": [165, null, -12, 1e300, 165]}))).unwrap();
    let figures = &report.scores[LEFT];
    assert_eq!(figures.iter().map(Option::is_some).collect::<Vec<_>>(), [true, false, false, false, true]);
    assert_eq!(figures[0], figures[4]);
    assert_eq!(
        errors(&report),
        [
            (
                1,
                "/parts/galley/mass_lb",
                "is null; give a number, or leave the column out to keep the base's"
            ),
            (2, "/parts/galley/mass_lb", "must be 0 or more; got -12"),
            (3, "/parts/galley/mass_lb", "must be 100000 or less; got 1e300"),
        ]
    );
}

#[test]
fn what_contradicts_another_member_is_told_by_its_row() {
    let mut request = request(json!({"trailer.bare.mass_tolerance_lb": [10, 5000]}));
    request["base"]["trailer"]["bare"]["mass_tolerance_lb"] = json!(20);
    let report = answer(&request).unwrap();
    assert_eq!(report.errors.len(), 1);
    assert_eq!(report.errors[0].subject, "/trailer/bare/mass_tolerance_lb");
    assert_eq!(report.errors[0].message, "must be below mass_lb, 2180; got 5000");
}

#[test]
fn a_whole_number_is_one() {
    let mut request = request(json!({"parts.bench.quantity": [1, 2.5, 2]}));
    request["base"]["parts"]["bench"]["quantity"] = json!(1);
    let report = answer(&request).unwrap();
    assert_eq!((report.errors.len(), report.errors[0].row), (1, 1));
    assert_eq!(report.errors[0].message, "must be a whole number; got 2.5");
}

#[test]
fn no_row_one_row_and_no_column_are_answered() {
    assert_eq!(answer(&request(json!({"parts.galley.mass_lb": []}))).unwrap().rows, 0);
    let one = answer(&request(json!({"parts.galley.mass_lb": [165]}))).unwrap();
    assert_eq!((one.rows, one.scores[LEFT].len(), one.errors.len()), (1, 1, 0));
    let none = answer(&request(json!({}))).unwrap();
    assert_eq!((none.rows, none.scores[LEFT].len()), (0, 0));
    let nulls = answer(&request(json!({"parts.galley.mass_lb": [null, null]}))).unwrap();
    assert_eq!((nulls.rows, nulls.errors.len()), (2, 2));
}

fn with_groups(columns: Value, scores: Value) -> Value {
    let groups = json!({
        "battery": {"choose": "one", "options": {
            "small": {"price_usd": 100, "patch": {"parts": {"bank": {"mass_lb": 30}}}},
            "large": {"price_usd": 900, "patch": {"parts": {"bank": {"mass_lb": 90}}}, "excludes": ["awning"]},
            "odd": {"price_usd": 1, "patch": {"parts": {"bank": {"mass_lb": -1}}}},
        }},
        "extras": {"choose": "any", "options": {
            "awning": {"price_usd": 700, "patch": {"parts": {"awning": {"mass_lb": 60}}}},
        }},
    });
    let mut request = request(columns);
    request["groups"] = groups;
    request["scores"] = scores;
    request
}

#[test]
fn choices_are_priced_and_held_against_their_rules() {
    let report = answer(&with_groups(
        json!({"battery": ["small", null, "large", "odd", "huge"], "awning": [true, false, true, false, true]}),
        json!(["price_usd", "broken_rule_count", "payload.parts_mass_lb"]),
    ))
    .unwrap();
    let of = |score: &str| report.scores[score].clone();
    assert_eq!(of("price_usd"), [Some(800.0), Some(0.0), Some(1600.0), None, None]);
    assert_eq!(of("broken_rule_count"), [Some(0.0), Some(0.0), Some(1.0), None, None]);
    let masses: Vec<Option<f64>> =
        of("payload.parts_mass_lb").iter().map(|mass| mass.map(f64::round)).collect();
    assert_eq!(masses, [Some(341.0), Some(251.0), Some(401.0), None, None]);
    assert_eq!(
        errors(&report),
        [
            (3, "/parts/bank/mass_lb", "must be 0 or more; got -1"),
            (4, "", "battery has no option \"huge\"; its options are small, large, odd"),
        ]
    );
}

#[test]
fn a_column_that_chooses_of_no_group_is_named() {
    for (columns, pointer, detail) in [
        (
            json!({"batery": ["small"]}),
            "/columns/batery",
            "names \"batery\", which is not in the groups and options of the catalogue; did you mean battery?",
        ),
        (
            json!({"extras": ["awning"]}),
            "/columns/extras",
            "is a group of which any may be chosen; give a column of true and false for each of its options, such as awning",
        ),
        (json!({"battery": [1]}), "/columns/battery", "must hold ids of options as text; it holds numbers"),
        (json!({"awning": ["yes"]}), "/columns/awning", "must hold true and false; it holds text"),
        (
            json!({"battery": ["small"], "large": [true]}),
            "/columns/large",
            "chooses of a group that another column chooses of; keep one of the two",
        ),
    ] {
        let request = with_groups(columns, json!(["price_usd"]));
        assert_eq!(faults(&request), [(pointer.to_owned(), detail.to_owned())]);
    }
}
