//! Cooling load as a web developer meets it: an answer, and mistakes in the body.

use serde_json::{Value, json};

use crate::client::{Answer, post};
use crate::running::{HERON, run};

fn asked(build: &Value) -> Answer {
    post("/v1/cooling-load", build.to_string()).to(run().at)
}

/// Where the faults of a problem are, and what they say.
fn faults(problem: &Value) -> Vec<(&str, &str)> {
    let text = |fault: &'_ Value, member: &str| fault[member].as_str().is_some();
    let all = problem["errors"].as_array().unwrap();
    assert!(all.iter().all(|fault| text(fault, "pointer") && text(fault, "detail") && text(fault, "code")));
    all.iter().map(|fault| (fault["pointer"].as_str().unwrap(), fault["detail"].as_str().unwrap())).collect()
}

/// Roof, walls and floor, and a place: the least that answers.
fn bare() -> Value {
    json!({
        "envelope": {"surfaces": {
            "roof": {"area_ft2": 112, "facing": "roof", "r_value": 8},
            "floor": {"area_ft2": 112, "facing": "floor", "r_value": 6},
            "front": {"area_ft2": 45, "facing": "front", "r_value": 5},
            "ramp": {"area_ft2": 45, "facing": "rear", "r_value": 3},
            "left": {"area_ft2": 104, "facing": "left", "r_value": 5},
            "right": {"area_ft2": 104, "facing": "right", "r_value": 5},
        }},
        "site": {"weather": {"place": "golden_co"}},
    })
}

/// The same with air conditioner and heater.
fn cabin() -> Value {
    let mut build = bare();
    build["climate"] = json!({
        "cooling": {"capacity_btu_h": 8000, "ceer": 10.9, "setpoint_f": 76},
        "heating": {"capacity_btu_h": 9300, "setpoint_f": 64},
    });
    build
}

/// Some warm days, hour by hour.
fn days(count: usize) -> Value {
    let hours = || (0..24 * count).map(|hour| hour % 24);
    let light = |hour: usize| if (8..18).contains(&hour) { 600 } else { 0 };
    json!({"hourly": {
        "start": "2024-06-30T00:00", "step_min": 60,
        "ghi_w_m2": hours().map(light).collect::<Vec<_>>(),
        "dry_bulb_f": hours().map(|hour| 60 + hour).collect::<Vec<_>>(),
    }})
}

#[test]
fn the_fixed_figures_are_where_the_contract_has_them() {
    let answer = asked(&cabin());
    assert_eq!(answer.status, 200, "{}", answer.text());
    let report = answer.json();
    let peak = &report["peak"];
    let figure = |of: &Value, name: &str| of[name].as_f64().unwrap_or_else(|| panic!("{name}: {of}"));
    let sum_btu_h = figure(peak, "sensible_btu_h") + figure(peak, "latent_btu_h");
    assert!((figure(peak, "total_btu_h") - sum_btu_h).abs() < 1e-9 && sum_btu_h > 0.0);
    let hours = report["hours"].as_array().unwrap();
    assert_eq!(hours.len(), 24);
    for (index, hour) in hours.iter().enumerate() {
        assert_eq!(hour["hour"], index);
        for name in ["outdoor_f", "indoor_f", "load_btu_h", "run_fraction"] {
            assert!(hour[name].is_f64(), "{name}");
        }
        assert!((0.0..=1.0).contains(&figure(hour, "run_fraction")));
        assert!(figure(hour, "load_btu_h") <= figure(peak, "total_btu_h"));
    }
    let at_peak = &hours[usize::try_from(peak["hour"].as_u64().unwrap()).unwrap()];
    assert_eq!(at_peak["load_btu_h"], peak["total_btu_h"]);
    assert!((figure(&report, "held_f") - 76.0).abs() < 1e-6);
    assert!(figure(&report, "cooling_kwh_per_day") > 0.0);
    assert!(figure(&report["heating"], "load_btu_h") > 0.0);
    assert_eq!(report["months"].as_array().unwrap().len(), 12);
    let sentences = report["summary"].as_str().unwrap().matches(". ").count();
    assert_eq!(sentences, 1, "{}", report["summary"]);
}

#[test]
fn the_least_build_is_answered_and_says_what_it_assumed() {
    let answer = asked(&bare());
    assert_eq!(answer.status, 200, "{}", answer.text());
    let report = answer.json();
    for name in ["held_f", "cooling_kwh_per_day", "cooler", "pull_down", "airing", "mode", "trace"] {
        assert_eq!(report.get(name), Some(&Value::Null), "{name}");
    }
    assert!(report["smallest_btu_h"].as_f64().is_some_and(|btu_h| btu_h > 0.0));
    let assumed: Vec<_> = report["assumptions"]
        .as_array()
        .unwrap()
        .iter()
        .map(|one| one["pointer"].as_str().unwrap())
        .collect();
    for pointer in ["/envelope/air_changes_per_h", "/envelope/volume_ft3", "/climate/cooling/setpoint_f"] {
        assert!(assumed.contains(&pointer), "{pointer} {assumed:?}");
    }
}

#[test]
fn a_box_that_nothing_holds_is_answered_with_findings() {
    let mut build = cabin();
    build["climate"]["cooling"] = json!({"capacity_btu_h": 1000});
    build["climate"]["heating"] = json!({"capacity_btu_h": 500});
    let report = asked(&build).json();
    assert!(report["held_f"].as_f64().unwrap() > 76.0);
    let findings = report["findings"].as_array().unwrap();
    for code in ["cooler_too_small", "heater_too_small"] {
        let finding =
            findings.iter().find(|one| one["code"] == code).unwrap_or_else(|| panic!("{findings:?}"));
        assert_eq!(finding["severity"], "caution");
        for member in ["message", "remedy", "citation"] {
            assert!(finding[member].as_str().is_some_and(|words| words.len() > 10), "{member} of {code}");
        }
    }
}

#[test]
fn every_step_comes_where_it_is_asked_for() {
    let mut build = cabin();
    build["site"] = json!({"latitude_deg": 36.1, "longitude_deg": -79.9, "weather": days(3)});
    assert_eq!(asked(&build).json().get("trace"), Some(&Value::Null));
    build["climate"]["detail"] = json!("steps");
    let report = asked(&build).json();
    let trace = &report["trace"];
    assert_eq!((&trace["start"], &trace["step_min"]), (&json!("2024-06-30T00:00"), &json!(60)));
    for name in ["outdoor_c", "equivalent_c", "air_w", "plant_w", "air_c", "mass_c", "run_fraction"] {
        assert_eq!(trace[name].as_array().unwrap().len(), 72, "{name}");
    }
    let months: Vec<_> = report["months"].as_array().unwrap().iter().map(|one| &one["month"]).collect();
    assert_eq!(months, [6, 7]);
    let codes: Vec<_> = report["findings"].as_array().unwrap().iter().map(|one| &one["code"]).collect();
    assert!(codes.contains(&&json!("no_design_day")), "{codes:?}");
}

#[test]
fn sections_that_are_not_read_may_be_there() {
    let alone = asked(&cabin()).json();
    let mut build = cabin();
    build["trailer"] = json!({"gvwr_lb": 7000, "bare": {"mass_lb": 2180}});
    build["tanks"] = json!({"fresh": {"fluid": "fresh_water", "capacity_gal": 20}});
    build["states"] = json!({"wet": {"moving": true, "fill": {"fresh": 1}}});
    build["stay"] = json!({"first_day": "10-24", "days": 3});
    assert_eq!(asked(&build).json(), alone);
}

#[test]
fn what_is_missing_is_named_all_at_once() {
    let problem = asked(&json!({"climate": {}})).problem(422);
    assert_eq!(problem["type"], "/problems/missing-section");
    let all = faults(&problem);
    assert_eq!(all.iter().map(|fault| fault.0).collect::<Vec<_>>(), ["/envelope/surfaces", "/site"]);
    assert!(all.iter().all(|fault| fault.1.starts_with("is missing; cooling load needs ")), "{all:?}");
    let mut build = bare();
    build["envelope"]["surfaces"] = json!({"roof": {"area_ft2": 112, "facing": "roof", "r_value": 8}});
    build["site"] = json!({"weather": {"clear_sky": {}}});
    let problem = asked(&build).problem(422);
    let pointers: Vec<_> = faults(&problem).iter().map(|fault| fault.0).collect();
    assert_eq!(pointers, ["/envelope/volume_ft3", "/site/latitude_deg", "/site/longitude_deg"]);
}

#[test]
fn mistakes_in_a_body_are_faults_at_their_places() {
    let mut build = cabin();
    build["envelope"]["surfaces"]["roof"]["r_value"] = json!(0.1);
    build["envelope"]["surfaces"]["left"] = json!({"area_ft2": 104, "facing": "port", "r_value": 5});
    build["envelope"]["windows"] = json!({"hatch": {"area_ft2": 4, "facing": "roof", "surface": "roff"}});
    build["climate"]["cooling"] =
        json!({"capacity_btu_h": 8000, "ceer": 11, "power_w": 700, "setpoint_f": 62});
    build["occupancy"] = json!({"people": 2, "away_from": 9});
    let problem = asked(&build).problem(422);
    assert_eq!(problem["type"], "/problems/invalid-build");
    assert_eq!(
        faults(&problem),
        [
            ("/envelope/surfaces/roof/r_value", "must be 0.5 or more; got 0.1"),
            (
                "/envelope/surfaces/left/facing",
                "must be one of roof, floor, front, rear, left, right; got \"port\""
            ),
            (
                "/envelope/windows/hatch/surface",
                "names \"roff\", which is not in /envelope/surfaces; did you mean roof?"
            ),
            ("/climate/cooling/power_w", "cannot stand beside ceer; both say what it draws"),
            (
                "/climate/heating/setpoint_f",
                "must be below that of cooling, 62, or both run against each other; got 64"
            ),
            ("/occupancy/away_from", "says nothing without away_to; give both or neither"),
        ]
    );
}

#[test]
fn the_demonstration_build_answers_what_a_camper_asks() {
    let report = asked(&serde_json::from_str(HERON).unwrap()).json();
    let summary = report["summary"].as_str().unwrap();
    assert!(summary.starts_with("On the hottest afternoon, 91 °F outside on July 21, "), "{summary}");
    assert!(summary.contains(" On the coldest night, 4 °F outside, "), "{summary}");
    assert!((report["held_f"].as_f64().unwrap() - 76.0).abs() < 0.1);
    let changes = report["changes"].as_array().unwrap();
    assert_eq!(changes[0]["change"], "shade");
}
