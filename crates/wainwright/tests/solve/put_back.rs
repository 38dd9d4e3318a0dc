//! What is solved is put back: a hair inside it holds, a hair outside it does not.

use serde_json::{Value, json};

use super::asked::{demonstration, holds, request, solve, with};

/// Solves it, and puts the value back.
#[track_caller]
fn put_back(name: &str, vary: &str, target: &Value, question: &str, side: &str) -> f64 {
    let build = demonstration(name);
    let report = solve(&request(&build, vary, target));
    let value = report.value.unwrap_or_else(|| panic!("{}", report.summary));
    assert_eq!(report.holds, Some(side), "{}", report.summary);
    assert!(holds(&with(&build, vary, value), question, target), "at it: {}", report.summary);
    assert!(report.there.as_ref().is_some_and(|there| there.holds));
    assert!(report.beyond.as_ref().is_some_and(|beyond| !beyond.holds));
    let width = report.bracket_width.unwrap();
    let outward = if side == "at_most" { 1.0 } else { -1.0 };
    let hair = if report.searched.is_whole { 1.0 } else { (2.0 * width).max(1e-9 * value.abs()) };
    assert!(hair <= 1.0 && (report.searched.is_whole || width <= 1e-8 * value.abs().max(1.0)));
    let (inside, outside) = (value - outward * hair, value + outward * hair);
    assert!(!holds(&with(&build, vary, outside), question, target), "outside: {}", report.summary);
    if (report.searched.low..=report.searched.high).contains(&inside) {
        assert!(holds(&with(&build, vary, inside), question, target), "inside: {}", report.summary);
    }
    let present = holds(&build, question, target);
    assert_eq!(report.present.holds, present, "{}", report.summary);
    value
}

macro_rules! put_back {
    ($($name:ident: $build:literal, $vary:literal, $target:tt, $question:literal, $side:literal;)+) => {$(
        #[test]
        fn $name() {
            put_back($build, $vary, &json!($target), $question, $side);
        }
    )+};
}

put_back! {
    the_largest_toy: "heron", "cargo.atv.mass_lb",
        {"figure": "payload.states.outbound.payload_left_lb", "at_least": 0}, "payload", "at_most";
    the_battery_s_place: "heron", "parts.battery_bank.x_in",
        {"figure": "axle_load.states.homebound.tongue_fraction", "at_least": 0.1}, "axle_load", "at_most";
    the_battery_s_side: "heron", "parts.battery_bank.y_in",
        {"figure": "axle_load.states.outbound.axles.front.left_lb", "at_most": 1160}, "axle_load", "at_least";
    panels_for_no_unmet_hour: "heron", "solar.arrays.roof.power_w",
        {"figure": "energy_budget.total.unmet_h", "at_most": 0}, "energy_budget", "at_least";
    a_wire_too_long: "pika", "electrical.circuits.fridge.wire.run_ft",
        {"finding": "dc_drop"}, "circuit_load", "at_most";
    a_wire_until_its_drop_is_found: "heron", "electrical.circuits.pump.wire.run_ft",
        {"finding": "dc_drop", "subject": "/electrical/circuits/pump/wire/run_ft", "until": "appears"}, "circuit_load", "at_least";
    the_largest_tank: "heron", "tanks.fresh.capacity_gal",
        {"finding": "gross_over_gvwr"}, "payload", "at_most";
    the_smallest_air_conditioner: "heron", "climate.cooling.capacity_btu_h",
        {"finding": "cooler_too_small"}, "cooling_load", "at_least";
    insulation_of_the_roof: "heron", "envelope.surfaces.roof.r_value",
        {"figure": "cooling_load.peak.total_btu_h", "at_most": 4000}, "cooling_load", "at_least";
    people_on_a_hot_day: "heron", "occupancy.people",
        {"figure": "cooling_load.peak.total_btu_h", "at_most": 5000}, "cooling_load", "at_most";
    a_battery_for_three_days: "heron", "battery.capacity_ah",
        {"figure": "energy_budget.autonomy_h", "at_least": 72}, "energy_budget", "at_least";
    a_battery_for_the_stay: "heron", "battery.capacity_ah",
        {"finding": "stay_runs_empty", "subject": "/stay"}, "energy_budget", "at_least";
    a_rating_that_does: "bison", "trailer.axles.rear.gawr_lb",
        {"finding": "axle_over_gawr"}, "axle_load", "at_least";
    the_place_of_the_second_toy: "bison", "cargo.side_by_side_rear.x_in",
        {"figure": "axle_load.worst.tongue_fraction.min.value", "at_least": 0.1}, "axle_load", "at_most";
    the_place_of_the_bike: "pika", "cargo.dirt_bike.x_in",
        {"finding": "tongue_below_tenth", "subject": "/states/outbound"}, "axle_load", "at_most";
    modules_in_series: "bison", "solar.arrays.roof.series",
        {"finding": "pv_voltage_over_controller"}, "circuit_load", "at_most";
    a_ramp_less_steep: "heron", "bay.ramp_length_in",
        {"finding": "ramp_steep"}, "axle_load", "at_least";
    a_smaller_kettle: "heron", "parts.kettle.electrical.power_w",
        {"finding": "supply_cannot_run_all", "subject": "/electrical/sources/shore/rating_a"}, "circuit_load", "at_most";
    a_larger_heater: "bison", "climate.heating.capacity_btu_h",
        {"finding": "heater_too_small"}, "cooling_load", "at_least";
    a_vent_that_is_not_given: "pika", "battery.vent_in2",
        {"finding": "battery_vent_small"}, "circuit_load", "at_least";
    a_margin_of_the_whole: "pika", "parts.galley.mass_lb",
        {"figure": "margins.payload_left_lb", "at_least": 500}, "evaluate", "at_most";
    how_many_batteries_may_stand_there: "heron", "parts.battery_bank.quantity",
        {"figure": "payload.states.outbound.payload_left_lb", "at_least": 0}, "payload", "at_most";
}

#[test]
fn a_figure_is_hit() {
    let build = demonstration("heron");
    for (vary, figure, equal, question) in [
        ("parts.battery_bank.y_in", "axle_load.states.outbound.center.y_in", 0.0, "axle_load"),
        ("cargo.atv.x_in", "axle_load.states.outbound.tongue_fraction", 0.125, "axle_load"),
        ("battery.capacity_ah", "energy_budget.autonomy_h", 60.0, "energy_budget"),
    ] {
        let target = json!({"figure": figure, "equal": equal});
        let report = solve(&request(&build, vary, &target));
        assert_eq!(report.holds, Some("equal"), "{}", report.summary);
        assert!(holds(&with(&build, vary, report.value.unwrap()), question, &target), "{}", report.summary);
    }
}
