//! Insulation keeps heat out.

use proptest::prelude::*;
use serde_json::{Value, json};
use wainwright::cooling_load::HourLoad;

use super::builds::{SIDES, cases, hot_shell, number, r_value, report, with};

/// The box with more insulation on some sides.
fn better(build: &Value, sides: &[&str], times: f64) -> Value {
    sides.iter().fold(build.clone(), |build, side| {
        let at = r_value(side);
        let value = (number(&build, &at) * times).min(100.0);
        with(build, &at, json!(value))
    })
}

/// Heat through a side in an hour, below 0 outward.
fn through(hour: &HourLoad, side: &str) -> f64 {
    let parts = &hour.parts;
    match side {
        "roof" => parts.roof_btu_h,
        "floor" => parts.floor_btu_h,
        "front" => parts.front_btu_h,
        "rear" => parts.rear_btu_h,
        "left" => parts.left_btu_h,
        "right" => parts.right_btu_h,
        other => panic!("{other}"),
    }
}

proptest! {
    #![proptest_config(cases(48))]

    /// Of all sides together, and of each through which no heat leaves. Through bare metal in the shade leaves again what comes in
    /// through bare metal in the sun: to insulate that alone keeps heat in.
    #[test]
    fn more_of_it_never_raises_the_load(build in hot_shell(), times in 1.01..4.0f64) {
        let before = report(&build);
        let lets_none_out = |side: &&str| before.hours.iter().all(|hour| through(hour, side) >= 0.0);
        let single: Vec<Vec<&str>> = SIDES.into_iter().filter(lets_none_out).map(|side| vec![side]).collect();
        for sides in single.iter().chain([&SIDES.to_vec()]) {
            let after = report(&better(&build, sides, times));
            let slack = 1e-9 * before.peak.total_btu_h;
            prop_assert!(after.peak.total_btu_h <= before.peak.total_btu_h + slack, "{sides:?}");
            prop_assert!(after.steady_peak_btu_h <= before.steady_peak_btu_h + slack, "{sides:?}");
            for (one, other) in before.hours.iter().zip(&after.hours) {
                prop_assert!(other.sensible_btu_h <= one.sensible_btu_h + slack, "{sides:?} at {}", one.hour);
            }
            prop_assert!(after.heating.load_btu_h <= before.heating.load_btu_h * (1.0 + 1e-12), "{sides:?}");
        }
    }

    /// Where the air conditioner holds before and after, it runs less. Two days that come back to themselves to 0.01 K are the
    /// same to a hundredth of a kelvin of what the box holds.
    #[test]
    fn an_air_conditioner_that_holds_runs_less(build in hot_shell(), times in 1.01..4.0f64) {
        let build = with(build, "/climate/cooling/capacity_btu_h", json!(40_000));
        let before = report(&build);
        let after = report(&better(&build, &SIDES, times));
        let set_f = number(&build, "/climate/cooling/setpoint_f");
        prop_assume!(before.held_f.unwrap() < set_f + 0.09 && after.held_f.unwrap() < set_f + 0.09);
        let (before, after) = (before.cooler.unwrap().run_h, after.cooler.unwrap().run_h);
        prop_assert!(after <= before + 1e-3, "{after} h after {before} h");
    }
}
