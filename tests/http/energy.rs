//! Energy budget as a web developer meets it: an answer, and mistakes in the body.

use serde_json::{Value, json};

use crate::client::{Answer, post};
use crate::running::{HERON, run};

fn asked(build: &Value) -> Answer {
    post("/v1/energy-budget", build.to_string()).to(run().at)
}

/// A lamp, a battery, a panel and a place: the least that has every figure.
fn cabin() -> Value {
    json!({
        "parts": {"lamp": {"mass_lb": 1, "electrical": {"circuit": "lights", "power_w": 24, "hours_per_day": 5}}},
        "battery": {"chemistry": "lifepo4", "capacity_ah": 100, "nominal_v": 12.8},
        "solar": {"arrays": {"roof": {"power_w": 100}}},
        "site": {"weather": {"place": "tucson_az"}},
    })
}

/// Some days of light and dark, hour by hour.
fn days(count: usize) -> Value {
    let hours = || (0..24 * count).map(|hour| hour % 24);
    let light = |hour: usize| if (8..18).contains(&hour) { 400 } else { 0 };
    json!({"hourly": {
        "start": "2024-02-28T00:00", "step_min": 60,
        "ghi_w_m2": hours().map(light).collect::<Vec<_>>(),
        "dry_bulb_f": hours().map(|hour| 40 + hour).collect::<Vec<_>>(),
    }})
}

#[test]
fn the_least_build_is_answered_with_the_fixed_figures() {
    let answer = asked(&cabin());
    assert_eq!(answer.status, 200, "{}", answer.text());
    let report = answer.json();
    assert!((report["load_wh_per_day"].as_f64().unwrap() - 120.0).abs() < 1e-9);
    let months = report["months"].as_array().unwrap();
    assert_eq!(months.len(), 12);
    for (index, month) in months.iter().enumerate() {
        assert_eq!(month["month"], index + 1);
        for name in ["harvest_kwh", "load_kwh", "spilled_kwh", "unmet_kwh", "unmet_h", "lowest_soc"] {
            assert!(month[name].is_f64(), "{name}");
        }
    }
    for name in ["autonomy_h", "smallest_array_w", "smallest_bank_ah"] {
        assert!(report[name].as_f64().is_some_and(|figure| figure > 0.0), "{name}");
    }
    assert_eq!(report["weather"]["form"], "place");
    assert_eq!(
        (report["days"].clone(), report["steps"].clone(), report["stay"].clone()),
        (json!([]), Value::Null, Value::Null)
    );
    let sentences = report["summary"].as_str().unwrap().matches(". ").count();
    assert_eq!(sentences, 1, "{}", report["summary"]);
}

#[test]
fn whoever_has_no_array_is_told_of_one_that_would_do() {
    let mut build = cabin();
    build.as_object_mut().unwrap().remove("solar");
    let report = asked(&build).json();
    assert!(report["smallest_array_w"].as_f64().is_some_and(|watts| watts > 0.0));
    let summary = report["summary"].as_str().unwrap();
    assert!(summary.contains(" W of array would do"), "{summary}");
}

#[test]
fn days_and_steps_come_where_they_are_asked_for() {
    let mut build = cabin();
    build["site"]["weather"] = days(3);
    build["site"]["latitude_deg"] = json!(36.1);
    build["site"]["longitude_deg"] = json!(-79.9);
    build["stay"] = json!({"detail": "days", "first_day": "02-29", "days": 1});
    let report = asked(&build).json();
    assert_eq!(report["days"].as_array().unwrap().len(), 3);
    assert_eq!(report["days"][1]["day"], 29);
    assert_eq!(report["months"].as_array().unwrap().len(), 2);
    assert_eq!(report["stay"]["begins"], "2024-02-29T18:00");
    assert_eq!(report["steps"], Value::Null);
    build["stay"]["detail"] = json!("steps");
    let steps = &asked(&build).json()["steps"];
    for name in ["end_soc", "harvest_w", "load_w", "unmet_wh", "battery_f"] {
        assert_eq!(steps[name].as_array().unwrap().len(), 72, "{name}");
    }
}

#[test]
fn what_is_missing_is_named_all_at_once() {
    let problem = asked(&json!({"parts": {"bed": {"mass_lb": 80}}})).problem(422);
    let pointers: Vec<_> = problem["errors"]
        .as_array()
        .unwrap()
        .iter()
        .map(|fault| fault["pointer"].as_str().unwrap())
        .collect();
    assert_eq!(pointers, ["/parts", "/battery", "/site"]);
    let mut build = cabin();
    build["site"] = json!({"weather": {"clear_sky": {}}});
    build["solar"]["controller"] = json!({"kind": "pwm", "max_output_a": 10});
    let problem = asked(&build).problem(422);
    let pointers: Vec<_> = problem["errors"]
        .as_array()
        .unwrap()
        .iter()
        .map(|fault| fault["pointer"].as_str().unwrap())
        .collect();
    let of_module = ["voc_v", "isc_a", "vmp_v", "imp_a"].map(|name| format!("/solar/arrays/roof/{name}"));
    assert_eq!(pointers[..4], of_module);
    assert_eq!(pointers[4..], ["/site/latitude_deg", "/site/longitude_deg"]);
}

#[test]
fn three_mistakes_in_a_body_are_three_faults_at_their_places() {
    let mut build = cabin();
    build["site"]["weather"] = json!({"place": "tuscon_az"});
    build["stay"] = json!({"first_day": "24 October", "grey_days": 9, "days": 5});
    build["battery"]["usable_fraction"] = json!(90);
    let problem = asked(&build).problem(422);
    let faults: Vec<_> = problem["errors"]
        .as_array()
        .unwrap()
        .iter()
        .map(|fault| (fault["pointer"].as_str().unwrap(), fault["detail"].as_str().unwrap()))
        .collect();
    assert_eq!(
        faults,
        [
            ("/battery/usable_fraction", "must be 1 or less; got 90"),
            (
                "/site/weather/place",
                "names \"tuscon_az\", which is not in the places built in; did you mean tucson_az?"
            ),
            ("/stay/first_day", "must be a month and a day such as 10-24; got \"24 October\""),
            ("/stay/grey_days", "must be days, 5, or less; got 9"),
        ]
    );
}

#[test]
fn a_file_that_was_cut_off_is_refused_with_line_and_column() {
    let mut build = cabin();
    let whole = "LOCATION,Heron Flats,NC,USA,invented,000000,36.10,-79.95,-5.0,273.0\nDATA PERIODS,1,1,Data,Sunday,6/1,6/1\n\
        2001,6,1,1,60,?9?9,15.0,8.0,60,98000,0,0,300,0,0,0,0,0,0,0,180,2.5\n2001,6,1,2,60,?9?9,15.0,8";
    build["site"]["weather"] = json!({"text": whole});
    let problem = asked(&build).problem(422);
    for fault in problem["errors"].as_array().unwrap() {
        assert_eq!(fault["pointer"], "/site/weather/text");
        let detail = fault["detail"].as_str().unwrap();
        assert!(detail.contains("line 4"), "{detail}");
    }
}

#[test]
fn the_demonstration_build_answers_what_a_buyer_asks() {
    let report = asked(&serde_json::from_str(HERON).unwrap()).json();
    let summary = report["summary"].as_str().unwrap();
    assert!(
        summary.starts_with("Arriving on October 24 at 18:00 with a full battery and 3 grey days ahead, "),
        "{summary}"
    );
    assert!(summary.contains("Without any sun the battery carries the loads for "), "{summary}");
    let codes: Vec<_> =
        report["findings"].as_array().unwrap().iter().map(|one| one["code"].clone()).collect();
    assert!(codes.contains(&json!("stay_runs_empty")), "{codes:?}");
}
