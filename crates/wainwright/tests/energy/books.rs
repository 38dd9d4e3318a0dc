//! The books: every watt-hour is somewhere, and parts add up to wholes.

use proptest::prelude::*;
use serde_json::json;
use wainwright::energy_budget::MonthBalance;

use super::builds::{camper, cases, report, simple, with};

/// What came less what went [kWh], by the books of a span that begins at a state of charge.
fn left_over_kwh(span: &MonthBalance, start_soc: f64, capacity_wh: f64) -> f64 {
    let came = span.harvest_kwh + span.other_kwh - span.load_kwh;
    let stored = (span.end_soc - start_soc) * capacity_wh / 1000.0;
    came - (stored + span.lost_kwh + span.spilled_kwh - span.unmet_kwh)
}

#[track_caller]
fn close(a: f64, b: f64) -> Result<(), TestCaseError> {
    prop_assert!((a - b).abs() <= 1e-9 * a.abs().max(b.abs()).max(1e-3), "{a} is not {b}");
    Ok(())
}

proptest! {
    #![proptest_config(cases(256))]

    #[test]
    fn books_balance_and_parts_add_up(build in camper()) {
        let report = report(&build);
        let total = &report.total;
        let all_kwh = total.harvest_kwh + total.other_kwh + total.load_kwh + report.bank.capacity_wh / 1000.0;
        prop_assert!(left_over_kwh(total, 1.0, report.bank.capacity_wh).abs() < 1e-9 * all_kwh);
        let mut start_soc = 1.0;
        for month in &report.months {
            prop_assert!(left_over_kwh(month, start_soc, report.bank.capacity_wh).abs() < 1e-9 * all_kwh);
            start_soc = month.end_soc;
        }
        let columns: [fn(&MonthBalance) -> f64; 7] = [
            |m| m.harvest_kwh, |m| m.load_kwh, |m| m.spilled_kwh, |m| m.other_kwh, |m| m.lost_kwh, |m| m.unmet_kwh,
            |m| m.days,
        ];
        for column in columns {
            close(report.months.iter().map(column).sum(), column(total))?;
        }
        close(report.days.iter().map(|day| day.harvest_wh).sum::<f64>() / 1000.0, total.harvest_kwh)?;
        close(report.days.iter().map(|day| day.load_wh).sum::<f64>() / 1000.0, total.load_kwh)?;
        close(report.days.iter().map(|day| day.unmet_wh).sum::<f64>() / 1000.0, total.unmet_kwh)?;
        let steps = report.steps.as_ref().unwrap();
        close(steps.unmet_wh.iter().sum::<f64>() / 1000.0, total.unmet_kwh)?;
        close(steps.load_w.iter().sum::<f64>() / 1000.0, total.load_kwh)?;
        // Loads, and the controller's own draw.
        let standby_wh = if build["solar"]["controller"].is_null() { 0.0 } else { 24.0 };
        let loads_wh: f64 = report.loads.values().map(|load| load.load_wh_per_day).sum();
        close(loads_wh + report.inverter_idle_wh_per_day + standby_wh, report.load_wh_per_day)?;
    }

    #[test]
    fn states_of_charge_and_shares_stay_within_their_bounds(build in camper()) {
        let report = report(&build);
        let least_soc = 1.0 - build["battery"]["usable_fraction"].as_f64().unwrap();
        for soc in &report.steps.as_ref().unwrap().end_soc {
            prop_assert!((0.0..=1.0 + 1e-9).contains(soc), "{soc}");
        }
        for span in report.months.iter().chain([&report.total]) {
            prop_assert!(span.lowest_soc <= span.mean_soc + 1e-12 && span.lowest_soc <= span.end_soc);
            prop_assert!(span.unmet_kwh >= 0.0 && span.unmet_kwh <= span.load_kwh * (1.0 + 1e-9));
            prop_assert!(span.spilled_kwh >= 0.0 && span.spilled_kwh <= span.harvest_kwh * (1.0 + 1e-9));
            prop_assert!(span.lost_kwh >= -1e-9);
            // Only what a battery loses by itself takes it below its reserve.
            let by_itself = build["battery"]["self_discharge_fraction"].as_f64().unwrap() * 7.0 / 30.0 * 1.5;
            prop_assert!(span.lowest_soc >= least_soc - by_itself - 1e-9);
        }
    }

    #[test]
    fn the_same_build_gives_the_same_bytes(build in camper()) {
        let bytes = || serde_json::to_string(&report(&build)).unwrap();
        prop_assert_eq!(bytes(), bytes());
    }
}

/// One load in the evening of a series that ends at noon: a mean day of it has none.
#[test]
fn a_load_outside_the_hours_of_a_short_series_takes_nothing() {
    let evening: Vec<f64> = (0..24).map(|hour| f64::from(hour >= 20)).collect();
    let build = with(simple(), "/parts/lamp/electrical/on_fraction", json!(evening));
    let noon =
        json!({"start": "2025-06-10T08:00", "step_min": 60, "ghi_w_m2": [500, 500], "dry_bulb_f": [70, 70]});
    let report = report(&with(build, "/site/weather/hourly", noon));
    assert_eq!((report.load_wh_per_day, report.loads["lamp"].load_wh_per_day), (0.0, 0.0));
}
