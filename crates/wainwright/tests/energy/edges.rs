//! Places, days and builds at the edge of what the energy budget can be asked.

use serde_json::{Value, json};
use wainwright::energy_budget::EnergyBudgetReport;

use super::builds::{days, report, simple, with};

/// A year under a clear sky at a latitude.
fn clear(latitude_deg: f64) -> Value {
    let build = with(
        simple(),
        "/site",
        json!({"latitude_deg": latitude_deg, "longitude_deg": 0, "weather": {"clear_sky": {}}}),
    );
    with(build, "/stay", json!({"detail": "steps"}))
}

fn harvest_kwh(report: &EnergyBudgetReport, month: usize) -> f64 {
    report.months[month - 1].harvest_kwh
}

#[test]
fn beyond_the_polar_circle_december_is_dark_and_june_has_no_night() {
    for (latitude_deg, dark, light) in [(80.0, 12, 6), (-80.0, 6, 12), (90.0, 12, 6), (-90.0, 6, 12)] {
        let report = report(&clear(latitude_deg));
        assert_eq!(harvest_kwh(&report, dark), 0.0, "{latitude_deg}");
        assert_eq!(report.months[dark - 1].sun_hours_per_day, 0.0);
        let harvest_w = &report.steps.as_ref().unwrap().harvest_w;
        let middle = if light == 6 { 171 * 24 } else { 355 * 24 };
        assert!(harvest_w[middle..middle + 24].iter().all(|watts| *watts > 0.0), "{latitude_deg}");
        // No battery carries the loads through the night of months, and no array brings its light.
        assert_eq!((report.smallest_array_w, report.smallest_bank_ah), (None, None));
        assert!(report.total.unmet_kwh > 0.0);
    }
}

#[test]
fn south_of_the_equator_december_is_summer_and_the_north_is_the_sunny_side() {
    let of = |azimuth: f64| {
        let build = with(clear(-35.0), "/solar/arrays/roof/tilt_deg", json!(35));
        report(&with(build, "/solar/arrays/roof/azimuth_deg", json!(azimuth)))
    };
    let flat = report(&clear(-35.0));
    assert!(harvest_kwh(&flat, 12) > 2.0 * harvest_kwh(&flat, 6));
    let (north, south) = (of(0.0), of(180.0));
    assert!(north.total.harvest_kwh > 1.1 * flat.total.harvest_kwh);
    assert!(south.total.harvest_kwh < 0.8 * flat.total.harvest_kwh);
}

/// Dark hours in air of 77 °F.
fn hours(start: &str, step_min: u32, count: usize) -> Value {
    json!({"start": start, "step_min": step_min, "ghi_w_m2": vec![0.0; count], "dry_bulb_f": vec![77.0; count]})
}

#[test]
fn a_leap_day_is_a_day_and_in_a_year_without_one_the_day_before() {
    let build = with(simple(), "/site/weather/hourly", hours("2024-02-28T00:00", 60, 72));
    let build =
        with(build, "/stay", json!({"first_day": "02-29", "first_hour": 0, "days": 1, "detail": "days"}));
    let report_of_2024 = report(&build);
    let of_days: Vec<_> = report_of_2024.days.iter().map(|day| (day.month, day.day)).collect();
    assert_eq!(of_days, [(2, 28), (2, 29), (3, 1)]);
    assert_eq!(report_of_2024.months.iter().map(|month| month.days).collect::<Vec<_>>(), [2.0, 1.0]);
    assert_eq!(report_of_2024.stay.unwrap().begins, "2024-02-29T00:00");
    let typical = with(clear(40.0), "/stay", json!({"first_day": "02-29", "first_hour": 0, "days": 1}));
    assert_eq!(report(&typical).stay.unwrap().begins, "2025-02-28T00:00");
}

#[test]
fn a_series_may_begin_within_a_day_and_have_one_step() {
    let of = |start: &str, step_min: u32, count: usize| {
        let build = with(simple(), "/site/weather/hourly", hours(start, step_min, count));
        report(&with(build, "/stay", json!({"first_hour": 0, "detail": "days"})))
    };
    let within = of("2025-06-10T22:30", 30, 5);
    assert_eq!(within.days.iter().map(|day| day.load_wh).collect::<Vec<_>>(), [15.0, 10.0]);
    assert_eq!(within.load_wh_per_day, 240.0);
    assert_eq!(within.stay.unwrap().begins, "2025-06-11T00:00");
    let one = of("2025-06-10T12:07", 1, 1);
    assert!((one.total.load_kwh - 10.0 / 60.0 / 1000.0).abs() < 1e-15);
    assert!((one.load_wh_per_day - 240.0).abs() < 1e-9);
    assert!(one.stay.is_none() && one.autonomy_h.is_none() && one.days_to_recover.is_none());
}

#[test]
fn a_stay_runs_over_new_year_in_a_typical_year_and_ends_with_a_short_series() {
    let stay = json!({"first_day": "12-30", "first_hour": 0, "days": 4, "grey_days": 4});
    let over = report(&with(clear(40.0), "/stay", stay)).stay.unwrap();
    assert_eq!((over.begins.as_str(), over.days, over.load_wh), ("2025-12-30T00:00", 4.0, 960.0));
    assert!(over.harvest_wh > 0.0);
    let short = with(simple(), "/stay", json!({"first_day": "06-12", "first_hour": 6, "days": 5}));
    let report = report(&short);
    assert_eq!(report.stay.unwrap().days, 1.75);
    assert!(report.findings.iter().any(|finding| finding.code == "stay_outside_weather"));
}

#[test]
fn a_grey_day_gives_a_fifth_of_a_clear_one() {
    let stay = |grey_days: u32| {
        let stay = json!({"first_day": "06-12", "first_hour": 0, "days": 1, "grey_days": grey_days});
        report(&with(clear(40.0), "/stay", stay)).stay.unwrap().harvest_wh
    };
    let part = stay(1) / stay(0);
    // Of the whole sky alone a flat array reflects a little more, and stays cooler.
    assert!((0.19..0.24).contains(&part), "{part}");
}

#[test]
fn nothing_is_asked_of_a_build_that_asks_for_nothing() {
    for (chemistry, nominal_v) in [("lifepo4", 12.8), ("flooded", 12.0), ("agm", 12.0), ("gel", 12.0)] {
        let build = with(simple(), "/battery/chemistry", json!(chemistry));
        let build = with(build, "/battery/nominal_v", json!(nominal_v));
        let report = report(&with(build, "/parts/lamp/electrical/power_w", json!(0)));
        assert_eq!((report.autonomy_h, report.load_wh_per_day), (None, 0.0));
        assert_eq!((report.autonomy.to_flat_h, report.autonomy.worst_autonomy_h), (None, None));
        assert_eq!((report.smallest_array_w, report.smallest_bank_ah), (Some(0.0), Some(0.0)));
        assert!(report.worksheet.is_none() && report.total.unmet_kwh == 0.0);
        assert_eq!(report.loads["lamp"].load_fraction, 0.0);
    }
}

#[test]
fn loads_out_of_season_take_nothing() {
    let build = with(simple(), "/parts/lamp/electrical/months", json!([1]));
    let report = report(&build);
    assert_eq!((report.load_wh_per_day, report.autonomy_h), (0.0, None));
    assert_eq!(report.loads["lamp"].running_w, 10.0);
}

#[test]
fn without_arrays_everything_comes_from_the_battery() {
    let without = |solar: Value| {
        let build = with(simple(), "/solar", solar);
        report(&with(build, "/battery/capacity_ah", json!(50)))
    };
    let pwm = json!({"controller": {"kind": "pwm", "max_output_a": 20}});
    for solar in [json!(null), json!({}), json!({"arrays": {}}), pwm] {
        let report = without(solar);
        assert_eq!((report.total.harvest_kwh, report.arrays.len(), report.days_to_recover), (0.0, 0, None));
        // 960 Wh are asked for and 576 Wh are there; an array flat on the roof is what would do.
        assert!((report.total.unmet_kwh - 0.384).abs() < 1e-9);
        assert!(report.smallest_array_w.is_some_and(|watts| (5.0..60.0).contains(&watts)), "{report:?}");
    }
}

#[test]
fn several_of_a_part_are_as_many_parts() {
    let three = report(&with(simple(), "/parts/lamp/quantity", json!(3)));
    let strong = report(&with(simple(), "/parts/lamp/electrical/power_w", json!(30)));
    assert_eq!(three.total, strong.total);
    assert_eq!(three.loads, strong.loads);
    assert!(report(&with(simple(), "/parts/lamp/quantity", json!(0))).loads.is_empty());
}

/// The same energy at another voltage; what the voltage of the array reaches is another question.
#[test]
fn a_bank_of_24_or_48_v_holds_what_one_of_12_v_does() {
    for (chemistry, block_v) in [("lifepo4", 12.8), ("agm", 12.0)] {
        let of = |blocks: f64| {
            let build = with(simple(), "/battery/chemistry", json!(chemistry));
            let build = with(build, "/battery/nominal_v", json!(block_v * blocks));
            report(&with(build, "/battery/capacity_ah", json!(40.0 / blocks)))
        };
        let one = of(1.0);
        for blocks in [2.0, 4.0] {
            let other = of(blocks);
            assert!((other.total.unmet_kwh - one.total.unmet_kwh).abs() < 1e-9);
            assert!((other.total.lost_kwh - one.total.lost_kwh).abs() < 1e-9, "{chemistry}");
            assert!((other.bank.capacity_wh - one.bank.capacity_wh).abs() < 1e-9);
            assert!((other.bank.max_charge_a * blocks - one.bank.max_charge_a).abs() < 1e-9);
        }
    }
}

/// A module of 18 V and 5.56 A at work on 12.8 V: through a PWM controller its current counts, not its power.
#[test]
fn a_pwm_controller_gives_the_current_and_mppt_the_power() {
    let of = |kind: &str, nominal_v: f64, series: u32| {
        let module = json!({"power_w": 100, "voc_v": 21.6, "isc_a": 6, "vmp_v": 18, "imp_a": 5.56, "series": series,
            "loss_fraction": 0, "mount": "open"});
        let build = with(simple(), "/solar/arrays/roof", module);
        let build = with(build, "/battery/nominal_v", json!(nominal_v));
        let build = with(build, "/site/weather/hourly", days(&[1.0; 2], 77.0));
        report(&with(build, "/solar/controller", json!({"kind": kind, "max_output_a": 100})))
            .total
            .harvest_kwh
    };
    let share = of("pwm", 12.8, 1) / of("mppt", 12.8, 1);
    // 5.95 A · 12.8 V of 18 V · 5.56 A · 0.97, which the heat of the cells takes a tenth of.
    assert!((0.78..0.88).contains(&share), "{share}");
    // One module does not reach 24 V, two in series do with the current of one.
    assert_eq!((of("pwm", 25.6, 1), of("mppt", 25.6, 1)), (0.0, 0.0));
    assert!((of("pwm", 25.6, 2) / of("pwm", 12.8, 1) / 2.0 - 1.0).abs() < 0.02);
}

/// Loads that wait until the battery is full again come back when it is, or nearly.
#[test]
fn loads_that_wait_for_a_full_battery_come_back() {
    let build = with(simple(), "/battery/capacity_ah", json!(10));
    let build = with(build, "/battery/absorption_h", json!(1));
    let build = with(build, "/parts/lamp/electrical/power_w", json!(20));
    let report = report(&with(build, "/battery/reconnect_soc", json!(0.95)));
    let unmet_h: Vec<f64> = report.months.iter().map(|month| month.unmet_h).collect();
    assert!(unmet_h[0] > 12.0 && unmet_h[0] < 72.0, "{unmet_h:?}");
}
