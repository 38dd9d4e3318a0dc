//! Every state and every reason, against the evaluation of that very choice.

use serde_json::{Value, json};
use wainwright::evaluate::Evaluate;
use wainwright::operation::Operation;
use wainwright::options::{OptionState, OptionsReport, PackageOptions, merge_patch};
use wainwright::question::Question;
use wainwright::report::Severity;
use wainwright::{Build, NamedFiles};

fn demo() -> Value {
    wainwright::options::demonstration()
}

fn answer(request: &Value) -> OptionsReport {
    let answer = PackageOptions::answer(request.to_string().as_bytes(), &NamedFiles::default());
    answer.unwrap_or_else(|refusal| panic!("{refusal}"))
}

/// The options of a request, each with its group.
fn options(request: &Value) -> Vec<(String, String)> {
    let groups = request["groups"].as_object().unwrap();
    let of_group = |(group, value): (&String, &Value)| {
        let options = value["options"].as_object().unwrap();
        options.keys().map(|id| (group.clone(), id.clone())).collect::<Vec<_>>()
    };
    groups.iter().flat_map(of_group).collect()
}

/// The codes of all violations of a choice, worked out the long way, in alphabetical order.
fn codes_outright(request: &Value, chosen: &[String]) -> Vec<String> {
    let mut build = request["base"].clone();
    let mut codes = Vec::new();
    for (group, id) in options(request) {
        if !chosen.contains(&id) {
            continue;
        }
        let option = &request["groups"][&group]["options"][&id];
        merge_patch::apply(&mut build, option.get("patch").unwrap_or(&json!({})));
        let names = |list: &str| option[list].as_array().cloned().unwrap_or_default();
        let is_chosen = |name: &Value| chosen.iter().any(|chosen| name == chosen);
        if !names("requires").iter().all(is_chosen) {
            codes.push("option_requires_another".to_owned());
        }
        if names("excludes").iter().any(is_chosen) {
            codes.push("option_excludes_another".to_owned());
        }
    }
    let build = Build::from_json(build.to_string().as_bytes()).unwrap();
    let findings = Evaluate::answer(&build).findings;
    let violations = findings.iter().filter(|finding| finding.severity == Severity::Violation);
    codes.extend(violations.map(|finding| finding.code.to_owned()));
    codes.sort_unstable();
    codes.dedup();
    codes
}

/// The choice with one more option, in the place of the one it replaces.
fn with(request: &Value, chosen: &[String], group: &str, id: &str) -> Vec<String> {
    let mut all: Vec<String> = chosen.to_vec();
    if request["groups"][group]["choose"] == "one" {
        all.retain(|other| request["groups"][group]["options"].get(other).is_none());
    }
    all.push(id.to_owned());
    all
}

/// Holds an answer against outright evaluation; how many options break.
fn check(request: &Value) -> usize {
    let chosen: Vec<String> = serde_json::from_value(request["chosen"].clone()).unwrap();
    let answer = answer(request);
    let mut breaking = 0;
    for (group, id) in options(request) {
        let option = &answer.options[&id];
        if chosen.contains(&id) {
            assert_eq!(option.state, OptionState::Chosen);
            continue;
        }
        let expected = codes_outright(request, &with(request, &chosen, &group, &id));
        let mut codes: Vec<String> = option.because.iter().map(|finding| finding.code.to_owned()).collect();
        codes.sort_unstable();
        codes.dedup();
        assert_eq!(codes, expected, "{id} beside {chosen:?}");
        let state = if expected.is_empty() { OptionState::Available } else { OptionState::Breaks };
        assert_eq!(option.state, state, "{id} beside {chosen:?}");
        breaking += usize::from(state == OptionState::Breaks);
    }
    breaking
}

/// A choice made by drawing lots, one option in so many: of each group of one at most one option.
fn drawn(request: &Value, lots: &mut oorandom::Rand32, one_in: u32) -> Vec<String> {
    let mut chosen: Vec<String> = Vec::new();
    for (group, id) in options(request) {
        let one = request["groups"][&group]["choose"] == "one";
        let taken = chosen.iter().any(|other| request["groups"][&group]["options"].get(other).is_some());
        if lots.rand_range(0..one_in) == 0 && !(one && taken) {
            chosen.push(id);
        }
    }
    chosen
}

#[test]
fn every_single_addition_to_the_base_is_as_evaluated_outright() {
    let mut request = demo();
    request["chosen"] = json!([]);
    let breaking = check(&request);
    let all = options(&request).len();
    assert!(breaking >= 6 && breaking + 10 <= all, "{breaking} of {all} break");
}

#[test]
fn five_hundred_choices_around_random_ones_are_as_evaluated_outright() {
    let mut lots = oorandom::Rand32::new(2026);
    let mut request = demo();
    // Few options together break little, many much.
    let mut one_in = (3..20).cycle();
    let (mut tried, mut breaking) = (0, 0);
    while tried < 500 {
        let chosen = drawn(&request, &mut lots, one_in.next().unwrap_or(3));
        tried += options(&request).len() - chosen.len();
        request["chosen"] = json!(chosen);
        breaking += check(&request);
    }
    assert!(breaking > 100 && breaking < tried, "{breaking} of {tried} break");
}
