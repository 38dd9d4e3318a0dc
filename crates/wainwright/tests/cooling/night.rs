//! The cold night.

use proptest::prelude::*;
use serde_json::{Value, json};
use wainwright::air::properties::{specific_heat_j_kg_k, volume_m3_kg};
use wainwright::air::saturation::saturated_ratio;
use wainwright::cooling_load::HeatingLoad;
use wainwright::units::{PA_PER_PSI, celsius};

use super::builds::{camper, cases, number, report, with};

const NIGHT: &str = "/site/heating_design/dry_bulb_f";

/// The camper without air that comes in.
fn sealed(build: Value) -> Value {
    let build = with(build, "/envelope/leakage_in2", json!(null));
    let build = with(build, "/envelope/air_changes_per_h", json!(0));
    with(build, "/occupancy", json!(null))
}

/// The camper with its air changed so often in an hour.
fn aired(build: Value, changes: f64) -> Value {
    with(sealed(build), "/envelope/air_changes_per_h", json!(changes))
}

/// Heat of the air outside for each degree and volume [J/(m³·K)], as humid as a cold night is taken to be.
fn per_volume_j_m3_k(outdoor_f: f64, pressure_psi: f64) -> f64 {
    let (air_c, pressure_pa) = (celsius(outdoor_f), PA_PER_PSI * pressure_psi);
    let ratio = 0.9 * saturated_ratio(air_c, pressure_pa);
    specific_heat_j_kg_k(ratio) / volume_m3_kg(air_c, ratio, pressure_pa)
}

/// The heating load of a box on a night of another temperature, as the same box's of a night has it: all of it by the degree,
/// the air by its density as well.
fn carried_over(from: &HeatingLoad, to_f: f64, pressure_psi: f64) -> f64 {
    let ratio = (from.indoor_f - to_f) / (from.indoor_f - from.outdoor_f);
    let denser = per_volume_j_m3_k(to_f, pressure_psi) / per_volume_j_m3_k(from.outdoor_f, pressure_psi);
    ratio * (from.opaque_btu_h + from.windows_btu_h + denser * from.air_btu_h)
}

proptest! {
    #![proptest_config(cases(64))]

    #[test]
    fn its_load_is_linear_in_the_difference_but_for_the_density_of_the_air(build in camper(), (cold_f, times) in (-60.0..50.0f64, 0.1..2.0f64), changes in 0.0..5.0f64) {
        let build = aired(build, changes);
        let set_f = number(&build, "/climate/heating/setpoint_f");
        let other_f = (set_f - times * (set_f - cold_f)).max(-130.0);
        let on = |night_f: f64| report(&with(build.clone(), NIGHT, json!(night_f)));
        let (one, other) = (on(cold_f), on(other_f).heating);
        let ratio = (set_f - other_f) / (set_f - cold_f);
        let (pressure_psi, one) = (one.design.pressure_psi, one.heating);
        for (one, other) in [(one.opaque_btu_h, other.opaque_btu_h), (one.windows_btu_h, other.windows_btu_h)] {
            prop_assert!((other - ratio * one).abs() <= 1e-9 * one, "{one} {other}");
        }
        let expected = carried_over(&one, other_f, pressure_psi);
        prop_assert!((other.load_btu_h - expected).abs() <= 1e-9 * expected, "{other:?} {expected}");
        let parts = one.opaque_btu_h + one.windows_btu_h + one.air_btu_h;
        prop_assert!((parts - one.load_btu_h).abs() <= 1e-9 * parts && (1.25 * parts - one.with_warm_up_btu_h).abs() <= 1e-9 * parts);
    }

    #[test]
    fn the_cold_that_a_heater_holds_asks_for_all_it_has(build in camper()) {
        // None where it holds in any cold.
        let holds_f = report(&build).heating.holds_to_f;
        prop_assume!(holds_f.is_some_and(|holds_f| holds_f > -129.0));
        let holds_f = holds_f.unwrap();
        let heating = report(&with(build, NIGHT, json!(holds_f))).heating;
        let capacity = heating.capacity_btu_h.unwrap();
        prop_assert!((heating.load_btu_h / capacity - 1.0).abs() < 1e-9, "{} of {capacity}", heating.load_btu_h);
        prop_assert!((heating.holds_to_f.unwrap() - holds_f).abs() < 1e-6);
    }

    #[test]
    fn a_colder_night_takes_more_and_a_tighter_box_less(build in camper(), (colder_f, tighter) in (0.1..60.0f64, 0.0..1.0f64)) {
        let load = |build: &Value| report(build).heating.load_btu_h;
        let night_f = number(&build, NIGHT);
        let colder = load(&with(build.clone(), NIGHT, json!((night_f - colder_f).max(-130.0))));
        prop_assert!(colder >= load(&build));
        let gap = if build["envelope"]["leakage_in2"].is_null() { "air_changes_per_h" } else { "leakage_in2" };
        let at = format!("/envelope/{gap}");
        let tighter = tighter * number(&build, &at);
        prop_assert!(load(&with(build.clone(), &at, json!(tighter))) <= load(&build) * (1.0 + 1e-12));
    }
}
