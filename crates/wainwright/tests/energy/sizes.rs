//! Sizes: the smallest found, put back into the build; more that is never worse; the closed form of the dark.

use proptest::prelude::*;
use serde_json::{Value, json};
use wainwright::energy_budget::worksheet::autonomy_h;

use super::builds::{camper, cases, days, report, simple, with};

/// Multiplies a member of the document.
fn times(build: Value, at: &str, factor: f64) -> Value {
    let value = build.pointer(at).unwrap().as_f64().unwrap() * factor;
    with(build, at, json!(value))
}

/// The build with all arrays of other sizes.
fn arrays_times(build: &Value, factor: f64) -> Value {
    let ids: Vec<String> = build["solar"]["arrays"].as_object().unwrap().keys().cloned().collect();
    ids.iter().fold(build.clone(), |build, id| times(build, &format!("/solar/arrays/{id}/power_w"), factor))
}

/// The camper without a limit of its controller. Its standing draw stays.
fn unlimited(build: Value) -> Value {
    if build["solar"]["controller"].is_null() {
        build
    } else {
        with(build, "/solar/controller/max_output_a", json!(10_000))
    }
}

/// Lithium, nothing that goes by its state of charge.
fn plain(build: Value) -> Value {
    let build = with(build, "/battery/chemistry", json!("lifepo4"));
    let build = with(build, "/battery/nominal_v", json!(12.8));
    let build = with(build, "/battery/reconnect_soc", json!(null));
    if build["battery"]["charging"].is_null() {
        return build;
    }
    let build = with(build, "/battery/charging/generator/start_soc", json!(null));
    with(build, "/battery/charging/generator/stop_soc", json!(null))
}

proptest! {
    #![proptest_config(cases(128))]

    #[test]
    fn more_array_never_leaves_more_unmet(build in camper(), more in 1.0..4.0f64) {
        let build = plain(build);
        let (less, more) = (report(&build), report(&arrays_times(&build, more)));
        prop_assert!(more.total.unmet_kwh <= less.total.unmet_kwh + 1e-9 * less.total.load_kwh);
    }

    #[test]
    fn a_larger_bank_never_leaves_more_unmet(build in camper(), more in 1.0..4.0f64) {
        let build = plain(build);
        let larger = times(build.clone(), "/battery/capacity_ah", more);
        let (less, more) = (report(&build), report(&larger));
        prop_assert!(more.total.unmet_kwh <= less.total.unmet_kwh + 1e-9 * less.total.load_kwh);
    }

    #[test]
    fn the_smallest_array_does_and_a_smaller_one_does_not(build in camper(), part in 0.0..0.3f64) {
        let build = unlimited(with(build, "/stay/max_unmet_fraction", json!(part)));
        let whole = report(&build);
        // A build takes arrays from 1 W to 100 kW.
        if let Some(watts) = whole.smallest_array_w.filter(|watts| (100.0..50_000.0).contains(watts)) {
            let ids = build["solar"]["arrays"].as_object().unwrap();
            let rated_w: f64 = ids.values().map(|array| array["power_w"].as_f64().unwrap()).sum();
            let unmet = |watts: f64| {
                let total = report(&arrays_times(&build, watts / rated_w)).total;
                total.unmet_kwh / total.load_kwh
            };
            prop_assert!(unmet(watts) <= part + 1e-9, "{watts} W leave {}", unmet(watts));
            prop_assert!(unmet((watts / 1.03).min(watts - 0.2)) > part, "less than {watts} W would do");
        }
    }

    #[test]
    fn the_smallest_bank_does_and_a_smaller_one_does_not(build in camper(), part in 0.0..0.3f64, rated_h in 1.0..100.0f64) {
        let build = with(build, "/stay/max_unmet_fraction", json!(part));
        let build = with(build, "/battery/rated_h", json!(rated_h));
        let whole = report(&build);
        let given_ah = build["battery"]["capacity_ah"].as_f64().unwrap();
        if let Some(ah) = whole.smallest_bank_ah.filter(|ah| *ah >= 0.1 * given_ah && *ah < 10_000.0) {
            let unmet = |ah: f64| {
                let total = report(&with(build.clone(), "/battery/capacity_ah", json!(ah))).total;
                total.unmet_kwh / total.load_kwh
            };
            prop_assert!(unmet(ah) <= part + 1e-9, "{ah} Ah leave {}", unmet(ah));
            prop_assert!(unmet(ah / 1.03) > part, "less than {ah} Ah would do");
        }
    }

    #[test]
    fn in_the_dark_a_constant_load_lasts_as_the_closed_form_has_it(
        load_w in 5.0..300.0f64, capacity_ah in 10.0..300.0f64, usable in 0.05..=1.0f64, round_trip in 0.5..=1.0f64,
        start_soc in 0.0..=1.0f64,
    ) {
        let build = with(simple(), "/battery/capacity_ah", json!(capacity_ah));
        let build = with(build, "/battery/usable_fraction", json!(usable));
        let build = with(build, "/battery/round_trip_efficiency", json!(round_trip));
        let build = with(build, "/parts/lamp/electrical/power_w", json!(load_w));
        let build = with(build, "/stay", json!({"first_hour": 0, "start_soc": start_soc}));
        let build = with(build, "/site/weather/hourly", days(&[1.0; 40], 77.0));
        let report = report(&build);
        let (held_wh, efficiency) = (capacity_ah * 12.8, round_trip.sqrt());
        for (got_h, least) in [(report.autonomy_h, 1.0 - usable), (report.autonomy.to_flat_h, 0.0)] {
            let expected_h = autonomy_h(held_wh, start_soc, least, efficiency, load_w);
            match got_h {
                Some(got_h) => prop_assert!((got_h - expected_h).abs() < 1e-9 * expected_h.max(1.0), "{got_h} {expected_h}"),
                None => prop_assert!(expected_h > 960.0 - 1e-6, "{expected_h}"),
            }
        }
        let full_h = autonomy_h(held_wh, 1.0, 1.0 - usable, efficiency, load_w);
        if let Some(worst_h) = report.autonomy.worst_autonomy_h {
            prop_assert!((worst_h - full_h).abs() < 1e-9 * full_h);
        }
        if let Some(sheet) = report.worksheet {
            let expected_h = autonomy_h(held_wh, start_soc, 1.0 - usable, efficiency, load_w);
            prop_assert!((sheet.autonomy_h - expected_h).abs() < 1e-9 * expected_h.max(1.0));
        }
    }
}
