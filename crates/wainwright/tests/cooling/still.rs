//! Where nothing drives heat, there is no load.

use proptest::prelude::*;
use serde_json::json;

use super::builds::{camper, cases, dark, report, with};

proptest! {
    #![proptest_config(cases(64))]

    #[test]
    fn without_gradient_sun_and_gains_nothing_is_asked(build in camper(), air_f in 60.0..80.0f64) {
        let build = with(build, "/envelope/shade_fraction", json!(1));
        let build = with(build, "/occupancy", json!(null));
        let build = with(build, "/parts", json!({}));
        let build = with(build, "/climate/cooling/setpoint_f", json!(air_f));
        let build = with(build, "/climate/heating/setpoint_f", json!(air_f - 1e-9));
        let build = with(build, "/site/cooling_design", json!({"day_of_year": 200, "max_f": air_f, "min_f": air_f, "dew_point_f": 40}));
        let build = with(build, "/site/heating_design/dry_bulb_f", json!(air_f));
        let build = with(build, "/site/weather/hourly", dark(30, air_f));
        let report = report(&build);
        let scale = 1e-9 * (report.envelope.opaque_btu_h_f + report.envelope.windows_btu_h_f + report.envelope.air_btu_h_f);
        // To the last bits of a temperature.
        prop_assert!(report.peak.total_btu_h <= scale, "{}", report.peak.total_btu_h);
        prop_assert!(report.heating.load_btu_h <= scale);
        prop_assert!(report.cooling_kwh_per_day.unwrap() < 1e-9 && report.cooler.as_ref().unwrap().run_h < 1e-9);
        prop_assert!((report.uncooled_f - air_f).abs() < 1e-9);
        for hour in &report.hours {
            let parts = &hour.parts;
            for part in [parts.roof_btu_h, parts.left_btu_h, parts.windows_btu_h, parts.sun_btu_h, parts.air_btu_h,
                parts.people_btu_h, parts.equipment_btu_h, parts.stored_btu_h] {
                prop_assert!(part.abs() <= scale, "{hour:?}");
            }
        }
        for month in &report.months {
            prop_assert!(month.cooling_kwh < 1e-9 && month.heat_kwh < 1e-9, "{month:?}");
            prop_assert!((month.warmest_f - air_f).abs() < 1e-9 && (month.coldest_f - air_f).abs() < 1e-9);
        }
        // It stands where it is set to, but for the last bits: no more than a step.
        prop_assert!(report.pull_down.unwrap().air_h.is_some_and(|h| h <= 1.0 / 12.0));
    }

    /// In the dark, with nothing that gives heat, the box is in the end as warm as what is around it.
    #[test]
    fn a_box_left_alone_in_the_dark_comes_to_the_air_around_it(build in camper(), air_f in 0.0..110.0f64) {
        let build = with(build, "/climate", json!({"detail": "steps"}));
        let build = with(build, "/occupancy", json!(null));
        let build = with(build, "/parts", json!({}));
        let build = with(build, "/envelope/floor_load", json!(null));
        let build = with(build, "/envelope/heat_capacity_btu_f", json!(60));
        let mut hourly = dark(400, air_f);
        hourly["dry_bulb_f"][0] = json!(air_f + 20.0);
        // A painted roof would see a sky colder than the air.
        let build = with(build, "/envelope/shade_fraction", json!(1));
        let report = report(&with(build, "/site/weather/hourly", hourly));
        let trace = report.trace.unwrap();
        let air_c = (air_f - 32.0) / 1.8;
        prop_assert!((trace.air_c[399] - air_c).abs() < 1e-3, "{} {air_c}", trace.air_c[399]);
        prop_assert!(trace.plant_w.iter().all(|watts| *watts == 0.0));
        // On its way it never turns.
        let apart_k: Vec<f64> = trace.air_c[1..].iter().map(|box_c| (box_c - air_c).abs()).collect();
        prop_assert!(apart_k.windows(2).all(|two| two[1] <= two[0] + 1e-9), "{apart_k:?}");
    }
}
