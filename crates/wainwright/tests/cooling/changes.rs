//! What a single change would come to is what the build with that change comes to.

use proptest::prelude::*;
use serde_json::{Value, json};
use wainwright::standards::finish::{Finish, radiant};
use wainwright::standards::glazing::{Cover, share_past};
use wainwright::units::r_value as r;

use super::builds::{camper, cases, number, r_value, report, with};

/// An inch of foam of 0.026 W/(m·K), as R.
fn inch() -> f64 {
    r(0.0254 / 0.026)
}

fn painted(build: Value, sides: &[&str]) -> Value {
    let white = radiant(Finish::WhiteNew).absorptance;
    sides.iter().fold(build, |build, side| {
        let at = format!("/envelope/surfaces/{side}/solar_absorptance");
        let lighter = number(&build, &at).min(white);
        with(build, &at, json!(lighter))
    })
}

fn foamed(build: Value, sides: &[&str]) -> Value {
    sides.iter().fold(build, |build, side| {
        let at = r_value(side);
        let better = number(&build, &at) + inch();
        with(build, &at, json!(better))
    })
}

fn filmed(build: Value) -> Value {
    let windows: Vec<String> = build["envelope"]["windows"].as_object().unwrap().keys().cloned().collect();
    windows.iter().fold(build, |build, id| {
        let at = format!("/envelope/windows/{id}/shgc");
        let less = number(&build, &at) * share_past(Cover::ReflectiveFilm);
        with(build, &at, json!(less))
    })
}

/// The build with a change of the report made.
fn made(build: &Value, change: &str) -> Value {
    let build = build.clone();
    match change {
        "white_roof" => painted(build, &["roof"]),
        "white_all_over" => painted(build, &["roof", "front", "rear", "left", "right"]),
        "foam_on_roof" => foamed(build, &["roof"]),
        "foam_on_walls" => foamed(build, &["front", "left", "right"]),
        "foam_on_rear" => foamed(build, &["rear"]),
        "foam_on_floor" => foamed(build, &["floor"]),
        "shade" => {
            let lit = 0.2 * (1.0 - number(&build, "/envelope/shade_fraction"));
            with(build, "/envelope/shade_fraction", json!(1.0 - lit))
        }
        "window_film" => filmed(build),
        "half_the_gaps" => {
            let gap =
                if build["envelope"]["leakage_in2"].is_null() { "air_changes_per_h" } else { "leakage_in2" };
            let at = format!("/envelope/{gap}");
            let half = number(&build, &at) / 2.0;
            with(build, &at, json!(half))
        }
        other => panic!("{other}"),
    }
}

proptest! {
    #![proptest_config(cases(32))]

    #[test]
    fn each_put_into_the_build_gives_its_figures(build in camper()) {
        let before = report(&build);
        let base_f = before.held_f.unwrap();
        for change in &before.changes {
            let after = report(&made(&build, change.change));
            let scale = before.peak.total_btu_h.max(100.0);
            let code = change.change;
            prop_assert!((change.peak_btu_h - after.peak.total_btu_h).abs() < 1e-9 * scale, "{code}: {change:?}");
            prop_assert!((change.peak_saved_btu_h - (before.peak.total_btu_h - change.peak_btu_h)).abs() < 1e-9 * scale, "{code}");
            // Two days that came back to themselves from different starts, to 0.01 K each.
            prop_assert!((change.warmest_f - after.held_f.unwrap()).abs() < 0.02 * 1.8, "{code}: {change:?} {:?}", after.held_f);
            prop_assert!((change.warmest_lowered_f - (base_f - change.warmest_f)).abs() < 1e-9, "{code}");
            let kwh = after.cooling_kwh_per_day.unwrap();
            prop_assert!((change.cooling_kwh_per_day.unwrap() - kwh).abs() < 0.01 * kwh + 0.02, "{code}: {change:?} {kwh}");
        }
        prop_assert!(before.changes.is_sorted_by(|one, other| one.peak_btu_h <= other.peak_btu_h));
    }
}
