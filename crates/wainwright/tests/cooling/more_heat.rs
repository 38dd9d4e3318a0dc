//! More that heats never lowers the load.

use proptest::prelude::*;
use serde_json::{Value, json};

use super::builds::{SIDES, camper, cases, number, report, with};

/// A share of what is left to 1.
fn toward_one(build: Value, at: &str, part: f64) -> Value {
    let value = number(&build, at);
    with(build, at, json!(value + part * (1.0 - value)))
}

/// Does the load rise, or stay, in every hour?
fn rises(less: &Value, more: &Value) -> Result<(), TestCaseError> {
    let (less, more) = (report(less), report(more));
    let slack = 1e-9 * less.peak.total_btu_h.max(100.0);
    for (one, other) in less.hours.iter().zip(&more.hours) {
        prop_assert!(
            other.sensible_btu_h >= one.sensible_btu_h - slack,
            "{} at {}",
            one.sensible_btu_h - other.sensible_btu_h,
            one.hour
        );
    }
    prop_assert!(more.peak.total_btu_h >= less.peak.total_btu_h - slack);
    prop_assert!(more.steady_peak_btu_h >= less.steady_peak_btu_h - slack);
    Ok(())
}

proptest! {
    #![proptest_config(cases(48))]

    #[test]
    fn a_darker_side(build in camper(), part in 0.01..=1.0f64) {
        for side in SIDES {
            rises(&build, &toward_one(build.clone(), &format!("/envelope/surfaces/{side}/solar_absorptance"), part))?;
        }
    }

    #[test]
    fn a_window_that_lets_in_more_sun(build in camper(), part in 0.01..=1.0f64) {
        let windows: Vec<String> = build["envelope"]["windows"].as_object().unwrap().keys().cloned().collect();
        for id in windows {
            rises(&build, &toward_one(build.clone(), &format!("/envelope/windows/{id}/shgc"), part))?;
        }
    }

    #[test]
    fn less_shade(build in camper(), part in 0.0..1.0f64) {
        // Out of the shade a roof sheds heat to the night's sky as well: by day alone more comes in.
        let shade = number(&build, "/envelope/shade_fraction") * part;
        let (less, more) = (report(&build), report(&with(build, "/envelope/shade_fraction", json!(shade))));
        for (one, other) in less.hours.iter().zip(&more.hours) {
            prop_assert!(other.parts.sun_btu_h >= one.parts.sun_btu_h - 1e-9);
        }
    }

    #[test]
    fn more_people_and_more_lamps(build in camper(), people in 1..10u32, watts in 1.0..500.0f64) {
        let now = build["occupancy"]["people"].as_u64().unwrap();
        rises(&build, &with(build.clone(), "/occupancy/people", json!(now + u64::from(people))))?;
        rises(&build, &with(build.clone(), "/parts/lamp/electrical/power_w", json!(60.0 + watts)))?;
    }

    /// Hotter air is thinner, and brings less water in the same stream: what warms the air is what rises.
    #[test]
    fn hotter_air_outside(build in camper(), hotter_f in 0.1..20.0f64) {
        let hotter = ["max_f", "min_f"].iter().fold(build.clone(), |build, name| {
            let at = format!("/site/cooling_design/{name}");
            let value = number(&build, &at) + hotter_f;
            with(build, &at, json!(value))
        });
        let (less, more) = (report(&build), report(&hotter));
        let slack = 1e-9 * less.peak.total_btu_h.max(100.0);
        for (one, other) in less.hours.iter().zip(&more.hours) {
            prop_assert!(other.sensible_btu_h >= one.sensible_btu_h - slack, "{} at {}", one.sensible_btu_h - other.sensible_btu_h, one.hour);
        }
    }

    /// Air that is hotter than the room in every hour, and as humid as the room is held.
    #[test]
    fn more_of_hotter_air(build in camper(), (changes, more) in (0.0..3.0f64, 0.01..5.0f64), hotter_f in 0.0..30.0f64) {
        let cool_f = number(&build, "/climate/cooling/setpoint_f");
        let day = json!({"day_of_year": 200, "max_f": cool_f + hotter_f + 5.0, "min_f": cool_f + 0.1, "dew_point_f": 55});
        let build = with(build, "/site/cooling_design", day);
        let build = with(build, "/envelope/leakage_in2", json!(null));
        let of = |changes: f64| with(build.clone(), "/envelope/air_changes_per_h", json!(changes));
        let (less, more) = (report(&of(changes)), report(&of(changes + more)));
        let slack = 1e-9 * less.peak.total_btu_h.max(100.0);
        for (one, other) in less.hours.iter().zip(&more.hours) {
            prop_assert!(other.sensible_btu_h >= one.sensible_btu_h - slack);
            prop_assert!(other.parts.air_btu_h >= one.parts.air_btu_h - slack);
        }
    }
}
