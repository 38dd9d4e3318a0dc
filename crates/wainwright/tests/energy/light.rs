//! Laws of what the arrays give.

use proptest::prelude::*;
use serde_json::{Value, json};
use wainwright::energy_budget::EnergyBudgetReport;

use super::builds::{camper, cases, days, report, simple, with};

fn harvest_kwh(report: &EnergyBudgetReport) -> f64 {
    report.arrays.values().map(|array| array.harvest_kwh).sum()
}

/// The camper with one array alone and no limit to what it gives.
fn one_array(build: Value) -> Value {
    let roof = build["solar"]["arrays"]["roof"].clone();
    with(build, "/solar", json!({"arrays": {"roof": roof}}))
}

proptest! {
    #![proptest_config(cases(128))]

    #[test]
    fn without_sun_nothing_is_harvested(build in camper()) {
        let report = report(&with(build, "/site/weather/hourly", days(&[0.0; 3], 60.0)));
        prop_assert_eq!((report.total.harvest_kwh, report.total.sun_hours_per_day), (0.0, 0.0));
        prop_assert!(report.worksheet.is_none());
    }

    #[test]
    fn two_half_arrays_are_one_whole(build in camper()) {
        let whole = one_array(build);
        let mut half = whole["solar"]["arrays"]["roof"].clone();
        half["power_w"] = json!(half["power_w"].as_f64().unwrap() / 2.0);
        let halves = with(whole.clone(), "/solar/arrays", json!({"one": half, "other": half}));
        let (whole, halves) = (report(&whole), report(&halves));
        let (one_kwh, two_kwh) = (harvest_kwh(&whole), harvest_kwh(&halves));
        prop_assert!((one_kwh - two_kwh).abs() <= 1e-9 * one_kwh, "{one_kwh} {two_kwh}");
        prop_assert!((whole.total.unmet_kwh - halves.total.unmet_kwh).abs() <= 1e-9 * whole.total.load_kwh);
    }

    #[test]
    fn the_heading_turns_tilted_arrays_on_the_trailer_alone(build in camper(), turn in 1.0..359.0f64) {
        let of = |tilt: f64, on_ground: bool, azimuth: f64, heading: f64| {
            let build = with(one_array(build.clone()), "/solar/arrays/roof/tilt_deg", json!(tilt));
            let build = with(build, "/solar/arrays/roof/on_ground", json!(on_ground));
            let build = with(build, "/solar/arrays/roof/azimuth_deg", json!(azimuth));
            harvest_kwh(&report(&with(build, "/site/heading_deg", json!(heading))))
        };
        let same = |a: f64, b: f64| (a - b).abs() <= 1e-9 * a.max(b);
        prop_assert!(same(of(0.0, false, 90.0, 0.0), of(0.0, false, 90.0, turn)));
        prop_assert!(same(of(30.0, true, 90.0, 0.0), of(30.0, true, 90.0, turn)));
        prop_assert!(same(of(30.0, false, (90.0 + turn) % 360.0, 0.0), of(30.0, false, 90.0, turn)));
    }

    #[test]
    fn shade_never_adds(
        build in camper(), hours in prop::collection::vec(0.0..=1.0f64, 24), months in prop::collection::vec(0.0..=1.0f64, 12),
        sky_view in 0.0..=1.0f64,
    ) {
        let open = with(one_array(build), "/solar/arrays/roof/shade_by_hour", json!(null));
        let open = with(open, "/solar/arrays/roof/sky_view", json!(1));
        let open_kwh = harvest_kwh(&report(&open));
        for (name, shade) in
            [("shade_by_hour", json!(hours)), ("shade_by_month", json!(months)), ("sky_view", json!(sky_view))]
        {
            let shaded = with(open.clone(), &format!("/solar/arrays/roof/{name}"), shade);
            prop_assert!(harvest_kwh(&report(&shaded)) <= open_kwh * (1.0 + 1e-12), "{name}");
            let grouped = with(shaded, "/solar/arrays/roof/bypass_groups", json!(3));
            prop_assert!(harvest_kwh(&report(&grouped)) <= open_kwh * (1.0 + 1e-12), "{name} in groups");
        }
    }
}

/// The same hours, each in equal parts. On a flat array nothing changes but the angle at which the beam comes in, which
/// moves through the hour, and with it what is reflected: under a thousandth of the harvest. A tilted array sees the beam
/// itself move.
#[test]
fn parts_of_hours_change_no_more_than_the_sun_moves_in_them() {
    let hourly = days(&[1.0, 0.3, 0.8], 77.0);
    let parts = |count: usize| {
        let repeated = |name: &str| {
            let list = hourly[name].as_array().unwrap();
            json!(list.iter().flat_map(|value| vec![value.clone(); count]).collect::<Vec<_>>())
        };
        // Beam and sky given: split anew, they would change with the sun of each part.
        let ghi = repeated("ghi_w_m2");
        let half: Vec<f64> = ghi.as_array().unwrap().iter().map(|ghi| ghi.as_f64().unwrap() / 2.0).collect();
        json!({"start": hourly["start"], "step_min": 60 / count, "ghi_w_m2": ghi, "dni_w_m2": half, "dhi_w_m2": half,
            "dry_bulb_f": repeated("dry_bulb_f")})
    };
    let of = |tilt: f64, count: usize| {
        let build = with(simple(), "/site/weather/hourly", parts(count));
        report(&with(build, "/solar/arrays/roof/tilt_deg", json!(tilt)))
    };
    for (tilt, within) in [(0.0, 1e-3), (40.0, 2e-3)] {
        let whole = of(tilt, 1);
        for count in [2, 4] {
            let finer = of(tilt, count);
            let off = (finer.total.harvest_kwh / whole.total.harvest_kwh - 1.0).abs();
            assert!(off < within, "{tilt}° in {count} parts: {off}");
            assert_eq!(finer.weather.step_count as usize, count * whole.weather.step_count as usize);
            assert!((finer.total.load_kwh / whole.total.load_kwh - 1.0).abs() < 1e-12);
            assert_eq!(finer.total.days, whole.total.days);
        }
    }
    // In the dark nothing changes at all.
    let dark = |count: usize| {
        let build = with(simple(), "/site/weather/hourly", parts(count));
        report(&with(build, "/solar", json!({})))
    };
    let (whole, quarters) = (dark(1), dark(4));
    assert!((whole.autonomy.autonomy_h.is_none()) && quarters.autonomy.autonomy_h.is_none());
    assert!((whole.total.end_soc - quarters.total.end_soc).abs() < 1e-12);
}
