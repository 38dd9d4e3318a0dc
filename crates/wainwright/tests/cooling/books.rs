//! The books of the cooling load: where it comes from adds up to it, and what goes in is stored or goes out.

use proptest::prelude::*;
use serde_json::json;
use wainwright::cooling_load::network::{Drive, FloorLoad, Network, State};
use wainwright::cooling_load::{LoadParts, TraceReport};

use super::builds::{camper, cases, report, with};

fn parts(of: &LoadParts) -> [f64; 13] {
    [
        of.roof_btu_h,
        of.floor_btu_h,
        of.front_btu_h,
        of.rear_btu_h,
        of.left_btu_h,
        of.right_btu_h,
        of.windows_btu_h,
        of.sun_btu_h,
        of.air_btu_h,
        of.people_btu_h,
        of.equipment_btu_h,
        of.cooking_btu_h,
        of.lost_btu_h,
    ]
}

/// The network of a trace.
fn network(of: &TraceReport) -> Network {
    Network {
        air_j_k: of.air_j_k,
        mass_j_k: of.mass_j_k,
        surface_to_air_w_k: of.surface_to_air_w_k,
        mass_to_surface_w_k: of.mass_to_surface_w_k,
        outside_to_mass_w_k: of.outside_to_mass_w_k,
        windows_w_k: of.windows_w_k,
        floor_load: of
            .floor_load_j_k
            .zip(of.floor_load_to_surface_w_k)
            .map(|(heat_j_k, to_surface_w_k)| FloorLoad { heat_j_k, to_surface_w_k }),
    }
}

/// What drove the network in a step of a trace.
fn drive(of: &TraceReport, step: usize) -> Drive {
    Drive {
        outdoor_c: of.outdoor_c[step],
        supply_c: of.outdoor_c[step],
        equivalent_c: of.equivalent_c[step],
        air_w: of.air_w[step],
        surface_w: of.surface_w[step],
        mass_w: of.mass_w[step],
        floor_load_w: 0.0,
    }
}

/// Where it stood at the end of a step; before the first where there is none.
fn state(of: &TraceReport, step: Option<usize>) -> State {
    let at = |before: f64, list: &[f64]| step.map_or(before, |step| list[step]);
    State {
        air_c: at(of.air_before_c, &of.air_c),
        mass_c: at(of.mass_before_c, &of.mass_c),
        floor_load_c: at(of.floor_load_before_c, &of.floor_load_c),
    }
}

/// Rates of the temperatures [K/s] and heat that comes in [W], by the equations of [`Network`].
fn rates(of: &Network, ventilation_w_k: f64, drive: &Drive, [air_c, mass_c, load_c]: [f64; 3]) -> [f64; 4] {
    let (load_j_k, load_w_k) = of.floor_load.map_or((1.0, 0.0), |load| (load.heat_j_k, load.to_surface_w_k));
    let to_surface_w_k = of.surface_to_air_w_k + of.mass_to_surface_w_k + load_w_k + of.windows_w_k;
    let surface_c = (of.surface_to_air_w_k * air_c
        + of.mass_to_surface_w_k * mass_c
        + load_w_k * load_c
        + of.windows_w_k * drive.outdoor_c
        + drive.surface_w)
        / to_surface_w_k;
    let by_air_w = ventilation_w_k * (drive.supply_c - air_c);
    let by_shell_w = of.outside_to_mass_w_k * (drive.equivalent_c - mass_c);
    let by_windows_w = of.windows_w_k * (drive.outdoor_c - surface_c);
    [
        (of.surface_to_air_w_k * (surface_c - air_c) + by_air_w + drive.air_w) / of.air_j_k,
        (of.mass_to_surface_w_k * (surface_c - mass_c) + by_shell_w + drive.mass_w) / of.mass_j_k,
        load_w_k * (surface_c - load_c) / load_j_k,
        by_air_w + by_shell_w + by_windows_w + drive.air_w + drive.surface_w + drive.mass_w,
    ]
}

proptest! {
    #![proptest_config(cases(96))]

    #[test]
    fn where_it_comes_from_adds_up_to_the_load_of_every_hour(build in camper()) {
        let report = report(&build);
        for hour in &report.hours {
            let came = parts(&hour.parts);
            let sum: f64 = came.iter().sum::<f64>() - hour.parts.stored_btu_h;
            let scale: f64 = came.iter().map(|part| part.abs()).sum::<f64>() + hour.parts.stored_btu_h.abs();
            prop_assert!((sum - hour.sensible_btu_h).abs() <= 1e-9 * scale, "{hour:?}");
            prop_assert!((hour.sensible_btu_h + hour.latent_btu_h - hour.load_btu_h).abs() <= 1e-9 * scale);
            prop_assert!(hour.sensible_btu_h >= 0.0 && hour.latent_btu_h >= 0.0);
        }
        let peak = report.hours.iter().max_by(|one, other| one.load_btu_h.total_cmp(&other.load_btu_h)).unwrap();
        prop_assert_eq!(peak.load_btu_h, report.peak.total_btu_h);
        prop_assert_eq!(report.hours[report.peak.hour as usize].load_btu_h, report.peak.total_btu_h);
    }

    #[test]
    fn what_the_air_conditioner_takes_is_the_sum_of_its_hours(build in camper()) {
        let report = report(&build);
        let cooler = report.cooler.unwrap();
        let run_h: f64 = report.hours.iter().map(|hour| hour.run_fraction).sum();
        let kwh: f64 = report.hours.iter().map(|hour| hour.electric_w).sum::<f64>() / 1000.0;
        prop_assert!((run_h - cooler.run_h).abs() < 1e-9);
        prop_assert!((kwh - report.cooling_kwh_per_day.unwrap()).abs() < 1e-9);
        let busiest = report.hours.iter().map(|hour| hour.run_fraction).fold(0.0, f64::max);
        prop_assert_eq!(busiest, cooler.busiest_run_fraction);
        // Hours as warm as the warmest of them; a step within one may be warmer.
        let warmest_f = report.hours.iter().map(|hour| hour.indoor_f).fold(f64::NEG_INFINITY, f64::max);
        prop_assert!(report.held_f.unwrap() >= warmest_f - 1e-9);
        prop_assert!(report.uncooled_f >= report.hours.iter().map(|hour| hour.uncooled_f).fold(f64::NEG_INFINITY, f64::max) - 1e-9);
    }

    #[test]
    fn what_comes_in_through_a_step_is_stored(build in camper()) {
        let report = report(&with(build, "/climate/detail", json!("steps")));
        let trace = report.trace.unwrap();
        let network = network(&trace);
        for step in 0..trace.air_c.len() {
            let (before, after) = (state(&trace, step.checked_sub(1)), state(&trace, Some(step)));
            let drive = drive(&trace, step);
            let response = network.response(trace.ventilation_w_k[step], 60.0 * f64::from(trace.step_min));
            let again = response.step(&before, &drive);
            for (one, other) in [(after.air_c, again.air_c), (after.mass_c, again.mass_c), (after.floor_load_c, again.floor_load_c)] {
                prop_assert!((one - other).abs() < 1e-9, "step {step}: {one}, not {other}");
            }
            let flows = response.flows(&before, &after, &drive);
            let given_w = drive.air_w + drive.surface_w + drive.mass_w;
            let scale_w = given_w.abs() + flows.outside_to_mass_w.abs() + flows.windows_to_surface_w.abs()
                + flows.ventilation_to_air_w.abs() + flows.stored_w().abs();
            let left_w = flows.from_outside_w() + given_w - flows.stored_w();
            prop_assert!(left_w.abs() <= 1e-9 * scale_w, "step {step}: {left_w} of {scale_w}");
        }
        // Month by month its steps are what the report adds up.
        let wh: f64 = trace.electric_w.iter().sum::<f64>() * f64::from(trace.step_min) / 60.0;
        let month_wh: f64 = report.months.iter().map(|month| 1000.0 * month.cooling_kwh).sum();
        prop_assert!((wh - month_wh).abs() <= 1e-9 * wh.max(1.0), "{wh} {month_wh}");
        let heat_wh: f64 = trace.plant_w.iter().map(|watts| watts.max(0.0)).sum::<f64>() * f64::from(trace.step_min) / 60.0;
        let month_heat_wh: f64 = report.months.iter().map(|month| 1000.0 * month.heat_kwh).sum();
        prop_assert!((heat_wh - month_heat_wh).abs() <= 1e-9 * heat_wh.max(1.0));
    }
}

proptest! {
    #![proptest_config(cases(24))]

    /// The trace alone, worked out again by the method of Runge and Kutta from the equations that the network states.
    #[test]
    fn the_trace_can_be_worked_out_again_without_this_code(build in camper()) {
        let report = report(&with(build, "/climate/detail", json!("steps")));
        let trace = report.trace.unwrap();
        let network = network(&trace);
        let parts = 400;
        let part_s = 60.0 * f64::from(trace.step_min) / f64::from(parts);
        for step in 0..trace.air_c.len() {
            let (drive, ventilation_w_k) = (drive(&trace, step), trace.ventilation_w_k[step]);
            let before = state(&trace, step.checked_sub(1));
            let mut at = [before.air_c, before.mass_c, before.floor_load_c];
            let mut came_j = 0.0;
            for _ in 0..parts {
                let after = |rates: [f64; 4], share: f64| [0, 1, 2].map(|i: usize| at[i] + share * part_s * rates[i]);
                let one = rates(&network, ventilation_w_k, &drive, at);
                let two = rates(&network, ventilation_w_k, &drive, after(one, 0.5));
                let three = rates(&network, ventilation_w_k, &drive, after(two, 0.5));
                let four = rates(&network, ventilation_w_k, &drive, after(three, 1.0));
                let mean: [f64; 4] = std::array::from_fn(|i| (one[i] + 2.0 * two[i] + 2.0 * three[i] + four[i]) / 6.0);
                at = after(mean, 1.0);
                came_j += part_s * mean[3];
            }
            let after = state(&trace, Some(step));
            prop_assert!((at[0] - after.air_c).abs() < 1e-5 && (at[1] - after.mass_c).abs() < 1e-5, "step {step}");
            let load_j_k = network.floor_load.map_or(0.0, |load| load.heat_j_k);
            let stored_j = network.air_j_k * (after.air_c - before.air_c)
                + network.mass_j_k * (after.mass_c - before.mass_c)
                + load_j_k * (after.floor_load_c - before.floor_load_c);
            prop_assert!((came_j - stored_j).abs() < 1e-5 * (network.mass_j_k + network.air_j_k), "step {step}: {came_j} {stored_j}");
        }
    }
}
