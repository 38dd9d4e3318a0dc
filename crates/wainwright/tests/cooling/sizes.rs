//! Sizes: the smallest that holds, put back; larger ones that hold cooler and sooner.

use proptest::prelude::*;
use serde_json::{Value, json};
use wainwright::cooling_load::equipment::sizes::STANDARD_BTU_H;

use super::builds::{camper, cases, number, report, with};

const CAPACITY: &str = "/climate/cooling/capacity_btu_h";
/// So near to the set temperature it is held [°F].
const HELD_F: f64 = 0.05 * 1.8;
/// How far two days may be apart that came back to themselves from different starts [°F].
const SETTLED_F: f64 = 0.02 * 1.8;

fn sized(build: &Value, capacity_btu_h: f64) -> Value {
    with(build.clone(), CAPACITY, json!(capacity_btu_h))
}

proptest! {
    #![proptest_config(cases(48))]

    #[test]
    fn the_smallest_size_holds_and_the_next_smaller_does_not(build in camper()) {
        let set_f = number(&build, "/climate/cooling/setpoint_f");
        let held_f = |capacity_btu_h: f64| report(&sized(&build, capacity_btu_h)).held_f.unwrap();
        let smaller = match report(&build).smallest_btu_h {
            Some(smallest) => {
                prop_assert!(held_f(smallest) <= set_f + HELD_F + SETTLED_F, "{smallest}: {}", held_f(smallest));
                STANDARD_BTU_H.iter().rev().find(|btu_h| **btu_h < smallest)
            }
            None => STANDARD_BTU_H.last(),
        };
        if let Some(smaller) = smaller {
            prop_assert!(held_f(*smaller) > set_f + HELD_F - SETTLED_F, "{smaller}: {}", held_f(*smaller));
        }
    }

    #[test]
    fn a_larger_one_never_lets_it_get_warmer(build in camper(), times in 1.0..3.0f64) {
        let capacity_btu_h = number(&build, CAPACITY);
        let (small, large) = (report(&build), report(&sized(&build, times * capacity_btu_h)));
        let (small_f, large_f) = (small.held_f.unwrap(), large.held_f.unwrap());
        prop_assert!(large_f <= small_f + SETTLED_F, "{large_f} {small_f}");
        prop_assert!(small_f <= small.uncooled_f + SETTLED_F);
        // The load that is held does not go by what holds it.
        prop_assert_eq!(&small.peak, &large.peak);
        prop_assert_eq!(small.smallest_btu_h, large.smallest_btu_h);
    }

    #[test]
    fn a_smaller_one_takes_longer_after_the_sun(build in camper(), times in 1.0..3.0f64) {
        let capacity_btu_h = number(&build, CAPACITY);
        let (small, large) = (report(&build).pull_down.unwrap(), report(&sized(&build, times * capacity_btu_h)).pull_down.unwrap());
        prop_assert_eq!((small.soaked_f, small.soaked_lining_f), (large.soaked_f, large.soaked_lining_f));
        let ever = |hours: Option<f64>| hours.unwrap_or(f64::INFINITY);
        prop_assert!(ever(large.air_h) <= ever(small.air_h), "{large:?} {small:?}");
        prop_assert!(ever(large.lining_h) <= ever(small.lining_h), "{large:?} {small:?}");
    }

    /// An air conditioner that runs all the time lets the box get as warm as it must; one that does not run leaves it alone.
    #[test]
    fn run_fraction_and_temperature_go_together(build in camper()) {
        let set_f = number(&build, "/climate/cooling/setpoint_f");
        let report = report(&build);
        for hour in &report.hours {
            if hour.indoor_f > set_f + 1e-6 {
                prop_assert!(hour.run_fraction > 0.0, "{hour:?}");
            }
            if hour.run_fraction == 0.0 {
                prop_assert!(hour.electric_w == 0.0 && hour.indoor_f <= set_f + 1e-6, "{hour:?}");
            }
            prop_assert!((0.0..=1.0).contains(&hour.run_fraction), "{hour:?}");
        }
        let warmest_f = report.held_f.unwrap();
        if warmest_f > set_f + 0.01 {
            prop_assert!(report.cooler.unwrap().busiest_run_fraction > 0.5 / 12.0);
        }
    }
}
