//! Insulation keeps heat out.

use proptest::prelude::*;
use serde_json::{Value, json};

use super::builds::{SIDES, cases, hot_shell, number, r_value, report, with};

/// The box with more insulation on some sides.
fn better(build: &Value, sides: &[&str], times: f64) -> Value {
    sides.iter().fold(build.clone(), |build, side| {
        let at = r_value(side);
        let value = (number(&build, &at) * times).min(100.0);
        with(build, &at, json!(value))
    })
}

proptest! {
    #![proptest_config(cases(48))]

    #[test]
    fn more_of_it_never_raises_the_load(build in hot_shell(), times in 1.01..4.0f64) {
        let before = report(&build);
        let single = SIDES.map(|side| vec![side]);
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
