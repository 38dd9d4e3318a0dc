//! The search against every choice worked out one by one.

use serde_json::{Value, json};
use wainwright::axle_load::AxleLoad;
use wainwright::circuit_load::CircuitLoad;
use wainwright::document::Record;
use wainwright::evaluate::Evaluate;
use wainwright::operation::Operation;
use wainwright::options::{demonstration, merge_patch};
use wainwright::payload::Payload;
use wainwright::question::{Answer, Question, ask};
use wainwright::search::figures::{Autonomy, Figures};
use wainwright::search::{Search, SearchReport, Weights};
use wainwright::{Build, NamedFiles, Refusal};

fn searched(request: &Value) -> SearchReport {
    let answer = Search::answer(request.to_string().as_bytes(), &NamedFiles::default());
    answer.unwrap_or_else(|refusal| panic!("{refusal}"))
}

/// The demonstration catalogue with these of its groups, and of each these options.
fn request(groups: &[(&str, &[&str])]) -> Value {
    let mut request = demonstration();
    let all = request["groups"].take();
    let mut kept = json!({});
    for (group, options) in groups {
        kept[*group] = json!({"choose": all[*group]["choose"], "options": {}});
        for option in *options {
            kept[*group]["options"][*option] = all[*group]["options"][*option].clone();
        }
    }
    request["groups"] = kept;
    request["chosen"] = json!([]);
    request
}

/// Every choice of a request: of each group its options, in order.
fn all_choices(request: &Value) -> Vec<Vec<String>> {
    let mut choices: Vec<Vec<String>> = vec![Vec::new()];
    for group in request["groups"].as_object().unwrap().values() {
        let ids: Vec<&String> = group["options"].as_object().unwrap().keys().collect();
        if group["choose"] == "one" {
            choices = choices
                .iter()
                .flat_map(|choice| {
                    let with = |id: &&String| [choice.clone(), vec![(*id).clone()]].concat();
                    std::iter::once(choice.clone()).chain(ids.iter().map(with)).collect::<Vec<_>>()
                })
                .collect();
        } else {
            for id in ids {
                choices = choices
                    .iter()
                    .flat_map(|choice| [choice.clone(), [choice.clone(), vec![id.clone()]].concat()])
                    .collect();
            }
        }
    }
    choices
}

/// A choice that breaks nothing, worked out the long way; none where it breaks something.
fn figures_outright(request: &Value, chosen: &[String], workable: &mut u64) -> Option<Figures> {
    let (mut build, mut price_usd) = (request["base"].clone(), 0.0);
    for group in request["groups"].as_object().unwrap().values() {
        for (id, option) in group["options"].as_object().unwrap() {
            if !chosen.contains(id) {
                continue;
            }
            let names = |list: &str| option[list].as_array().cloned().unwrap_or_default();
            let is_chosen = |name: &Value| chosen.iter().any(|chosen| name == chosen);
            if !names("requires").iter().all(is_chosen) || names("excludes").iter().any(is_chosen) {
                return None;
            }
            merge_patch::apply(&mut build, &option["patch"]);
            price_usd += option["price_usd"].as_f64().unwrap();
        }
    }
    let build = Build::from_json(build.to_string().as_bytes()).ok()?;
    *workable += 1;
    // What breaks something needs no energy and no heat.
    let broken = breaks(ask::<Payload>(&build))
        || breaks(ask::<AxleLoad>(&build))
        || breaks(ask::<CircuitLoad>(&build));
    let report = Evaluate::answer(if broken { return None } else { &build });
    if report.has_violation() {
        return None;
    }
    let margins = &report.margins;
    let autonomy = match (&report.energy_budget, margins.autonomy_h) {
        (_, Some(hours)) => Autonomy::Hours(hours),
        (Some(_), None) => Autonomy::Never,
        (None, None) => Autonomy::Unknown,
    };
    Some(Figures::of(
        price_usd,
        margins.payload_left_lb,
        margins.tongue_margin_fraction,
        autonomy,
        margins.cooling_margin_fraction,
    ))
}

fn breaks<A: Answer>(answer: Result<A, Refusal>) -> bool {
    answer.is_ok_and(|answer| answer.has_violation())
}

/// Holds a search against every choice worked out one by one; how many there are and how many break nothing.
fn check(request: &Value, weights: &Weights) -> (u64, u64) {
    let found = searched(request);
    let choices = all_choices(request);
    let mut workable = 0;
    let good: Vec<(&Vec<String>, Figures)> = choices
        .iter()
        .filter_map(|choice| Some((choice, figures_outright(request, choice, &mut workable)?)))
        .collect();
    assert_eq!(found.choice_count, choices.len() as u64);
    assert_eq!(found.workable_count, workable);
    assert_eq!(found.unbroken_count, good.len() as u64);
    let mut ranked: Vec<_> = good.iter().collect();
    ranked.sort_by(|(_, a), (_, b)| {
        b.score(weights).total_cmp(&a.score(weights)).then_with(|| a.price.cmp(&b.price))
    });
    let most = request["most"].as_u64().unwrap() as usize;
    assert_eq!(found.best.len(), most.min(good.len()));
    for (found, (choice, figures)) in found.best.iter().zip(&ranked) {
        assert_eq!(&found.chosen, *choice);
        assert_eq!(found.score, figures.score(weights));
    }
    let beaten = |of: &Figures| good.iter().any(|(_, other)| other.dominates(of));
    let mut pareto: Vec<&Vec<String>> =
        good.iter().filter(|(_, figures)| !beaten(figures)).map(|(choice, _)| *choice).collect();
    let mut listed: Vec<&Vec<String>> = found.pareto.iter().map(|choice| &choice.chosen).collect();
    assert_eq!(listed.len() as u64 + found.pareto_left_out, pareto.len() as u64);
    if found.pareto_left_out == 0 {
        pareto.sort();
        listed.sort();
        assert_eq!(listed, pareto);
    }
    (choices.len() as u64, good.len() as u64)
}

fn weights() -> (Value, Weights) {
    let json = json!({"price_usd": 1, "payload_left_lb": 0.8, "tongue_margin_fraction": 20000,
        "autonomy_h": 15, "cooling_margin_fraction": 300});
    let weights = Weights {
        price_usd: Some(1.0),
        payload_left_lb: Some(0.8),
        tongue_margin_fraction: Some(20000.0),
        autonomy_h: Some(15.0),
        cooling_margin_fraction: Some(300.0),
    };
    (json, weights)
}

/// Masses, ratings, requirements and exclusions: 2^12 choices.
#[test]
fn two_to_the_twelfth_choices_are_ranked_as_one_by_one() {
    let extras: &[&str] =
        &["awning", "roof_rack", "kayak", "second_spare", "workbench", "stone_floor", "generator"];
    let mut request = request(&[
        ("tow_vehicle", &["tow_midsize"]),
        ("battery", &["battery_100", "battery_400", "battery_300"]),
        ("solar", &["solar_800"]),
        ("kitchen", &["microwave"]),
        ("extras", extras),
    ]);
    let (json, weights) = weights();
    request["weights"] = json;
    request["most"] = json!(50);
    let (choices, good) = check(&request, &weights);
    assert_eq!(choices, 1 << 12);
    assert!(good > 50 && good < choices / 2, "{good} break nothing");
}

/// What circuits and heat say, sections that change what bears the masses, and parts that more than one option touches.
#[test]
fn choices_that_touch_everything_are_ranked_as_one_by_one() {
    let mut request = request(&[
        ("running_gear", &["axles_2200", "axles_5200"]),
        ("battery", &["battery_400"]),
        ("inverter", &["inverter_1000", "inverter_3000"]),
        ("heater", &["heater_unvented"]),
        ("insulation", &["white_roof"]),
        ("kitchen", &["induction_hob", "gas_hob"]),
    ]);
    // Two options that touch one part, one that makes a build that is refused, and one that takes a part away.
    let options = json!({
        "lighter": {"price_usd": 45.5, "patch": {"parts": {"wardrobe": {"mass_lb": 60}}}},
        "forward": {"price_usd": 0.1, "patch": {"parts": {"wardrobe": {"x_in": 70}}}},
        "without": {"price_usd": -30.7, "patch": {"parts": {"tongue_box": null}}},
        "wrong": {"price_usd": -500, "patch": {"parts": {"galley": {"mass_lb": -1}}}},
    });
    request["groups"]["more"] = json!({"choose": "any", "options": options});
    let (json, weights) = weights();
    request["weights"] = json;
    request["most"] = json!(100);
    let (choices, good) = check(&request, &weights);
    assert!(choices > 4_000 && good > 100, "{good} of {choices}");
}

#[test]
fn without_weights_the_cheapest_come_first_and_what_is_chosen_stays() {
    let mut request =
        request(&[("battery", &["battery_100", "battery_300"]), ("extras", &["awning", "generator"])]);
    request["chosen"] = json!(["awning"]);
    request["vary"] = json!(["battery"]);
    let found = searched(&request);
    assert_eq!((found.choice_count, found.unbroken_count), (3, 2));
    let listed: Vec<Vec<String>> = found.best.iter().map(|choice| choice.chosen.clone()).collect();
    assert_eq!(listed, [vec!["awning"], vec!["battery_300", "awning"]]);
    assert_eq!(found.best[1].price_usd, 1240.0);
    assert_eq!((found.best[0].score, found.tied_left_out), (-780.0, 0));
}

#[test]
fn ties_that_are_not_listed_are_counted() {
    let mut request = request(&[("tow_vehicle", &["tow_heavy"]), ("toys", &["toy_dirt_bike"])]);
    request["most"] = json!(1);
    let found = searched(&request);
    assert_eq!((found.unbroken_count, found.best.len(), found.tied_left_out), (4, 1, 3));
    request["most"] = json!(0);
    let found = searched(&request);
    assert_eq!((found.best.len(), found.tied_left_out), (0, 0));
}

#[test]
fn more_choices_than_are_searched_are_refused_with_their_number() {
    let options: serde_json::Map<String, Value> =
        (0..21).map(|i| (format!("o{i}"), json!({"price_usd": 1}))).collect();
    let request = json!({"base": {}, "groups": {"all": {"choose": "any", "options": options}}});
    let refused = Search::answer(request.to_string().as_bytes(), &NamedFiles::default()).unwrap_err();
    let Refusal::TooMuchWork { work, limit, detail } = refused else { panic!("{refused}") };
    assert_eq!((work, limit), (1 << 21, 1 << 20));
    assert!(detail.contains("2097152 choices"), "{detail}");
}

#[test]
fn more_evaluations_than_are_done_are_refused_before_any() {
    let mut request = demonstration();
    request["chosen"] = json!([]);
    request["vary"] = json!(["battery", "solar", "inverter", "cooler", "heater", "insulation", "kitchen"]);
    let refused = Search::answer(request.to_string().as_bytes(), &NamedFiles::default()).unwrap_err();
    let Refusal::TooMuchWork { work, limit, .. } = refused else { panic!("{refused}") };
    assert!(work > limit && limit == 2_048, "{work}");
}

#[test]
fn a_base_that_no_choice_makes_a_build_is_refused_with_what_is_wrong_with_it() {
    let mut request = request(&[("extras", &["awning", "workbench"])]);
    request["base"]["trailer"]["gvwr_lb"] = json!("light");
    let refusal = Search::answer(request.to_string().as_bytes(), &NamedFiles::default()).unwrap_err();
    let Refusal::Faults(faults) = refusal else { panic!("{refusal}") };
    let pointers: Vec<_> = faults.list().iter().map(|fault| fault.pointer.as_str()).collect();
    assert_eq!(pointers, ["/base/trailer/gvwr_lb"]);
}

#[test]
fn the_example_is_answered_and_an_empty_space_too() {
    let found = searched(&Search::example());
    assert_eq!(found.best.len(), 3);
    let empty = searched(&json!({"base": {}, "groups": {}}));
    assert_eq!((empty.choice_count, empty.unbroken_count, empty.pareto.len()), (1, 1, 1));
    assert_eq!(empty.best[0].score, 0.0);
    assert_eq!(Weights::blank().price_usd, None);
}
