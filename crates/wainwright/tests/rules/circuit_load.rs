//! The rules of circuit load.

use serde_json::{Value, json};
use wainwright::circuit_load::CircuitLoad;
use wainwright::question::Question;

use super::circuits::{
    battery, circuits, converter, inverter, load, multiwire, outlets, shore, solar, wired,
};
use super::twins::{
    Twins, assert_for_a_person, assert_meanings_are_sentences, assert_past_its_limit, check, findings,
    provoked, with,
};

const GALLEY_BREAKER: &str = "/electrical/circuits/galley/breaker_a";
const HEATER_A: &str = "/parts/heater/electrical/current_a";
const PUMP_FUSE: &str = "/electrical/circuits/pump/breaker_a";
const PUMP_A: &str = "/parts/pump/electrical/current_a";
const PUMP_START_S: &str = "/parts/pump/electrical/inrush_s";
const SHORE_A: &str = "/electrical/sources/shore/rating_a";

fn row(
    code: &'static str,
    base: Value,
    at: &'static str,
    breaks: impl Into<Value>,
    keeps: impl Into<Value>,
) -> Twins {
    Twins { code, base, at, breaks: breaks.into(), keeps: keeps.into() }
}

/// A build whose heater or pump runs for hours.
fn for_hours(build: Value, part: &str) -> Value {
    with(build, &format!("/parts/{part}/electrical/continuous"), json!(true))
}

/// The build with a rating of the circuit `pump` or `galley` in place of its own.
fn behind(build: Value, at: &str, rating_a: f64) -> Value {
    with(build, at, json!(rating_a))
}

fn circuits_and_devices() -> Vec<Twins> {
    let wire = "/electrical/circuits/galley/wire/run_ft";
    let cord =
        with(wired(), "/electrical/sources/shore/lead", json!({"awg": "10", "run_ft": 10, "cord": true}));
    let motor = with(shore(), "/parts/heater/electrical/kind", json!("motor"));
    let source_of_24_v = with(battery(), "/electrical/sources/battery/voltage_v", json!(24));
    let bank_of_24_v = with(source_of_24_v, "/battery/nominal_v", json!(25.6));
    vec![
        row(
            "circuit_unprotected",
            shore(),
            "/electrical/circuits/galley",
            json!({}),
            json!({"breaker_a": 15}),
        ),
        // 1.25 · 6 A.
        row("breaker_overloaded", for_hours(shore(), "heater"), GALLEY_BREAKER, 7.499, 7.5),
        // Behind a breaker that the wire is too small for; behind one that fits, the breaker is what is overloaded.
        row("conductor_overloaded", behind(wired(), GALLEY_BREAKER, 30.0), HEATER_A, 15.01, 15),
        row(
            "low_voltage_aluminum",
            battery(),
            "/electrical/circuits/pump/wire/material",
            "aluminum",
            "copper",
        ),
        row(
            "chassis_return_at_line_voltage",
            wired(),
            "/electrical/circuits/galley/wire/chassis_return",
            true,
            false,
        ),
        // 250 % of 10 A is 25 A.
        row("motor_device_large", with(motor.clone(), HEATER_A, json!(10)), GALLEY_BREAKER, 25.01, 25),
        row("breaker_over_conductor", wired(), GALLEY_BREAKER, 15.01, 15),
        // 150 % of 14 A is 21 A; the next rating is 25 A.
        row("breaker_over_appliance", with(shore(), HEATER_A, json!(14)), GALLEY_BREAKER, 25.01, 25),
        row("dc_conductor_overloaded", behind(battery(), PUMP_FUSE, 40.0), PUMP_A, 35.01, 35),
        row("dc_conductor_over_552_table", battery(), PUMP_FUSE, 15.01, 15),
        row("dc_device_overloaded", battery(), PUMP_FUSE, 5.999, 6),
        row("dc_device_near_limit", for_hours(battery(), "pump"), PUMP_FUSE, 7.499, 7.5),
        // 1.5 · 35 A.
        row("dc_device_far_over_conductor", battery(), PUMP_FUSE, 52.51, 52.5),
        row("dc_device_over_conductor", battery(), PUMP_FUSE, 35.01, 35),
        row("dc_bundle", battery(), "/electrical/circuits/pump/wire/bundled", 4, 3),
        // 2 · 6 A · 3.14 Ω/kft loses 3 % of 120 V over 95.541 ft.
        row("ac_drop", wired(), wire, 95.55, 95.53),
        // 2.826 V in 75 ft of the circuit leave 3.174 V: 213.31 ft of cord, 2 · 6 A · 1.24 Ω/kft.
        row(
            "ac_total_drop",
            with(cord, wire, json!(75)),
            "/electrical/sources/shore/lead/run_ft",
            213.4,
            213.2,
        ),
        // 2 · 6 A · 3.14 Ω/kft loses 3 % of 12 V over 9.5541 ft.
        row("dc_drop", battery(), "/electrical/circuits/pump/wire/run_ft", 9.56, 9.55),
        // Without a wire, what the supply gives arrives.
        row("motor_voltage_low", motor, "/electrical/sources/shore/voltage_v", 103.49, 103.5),
        // Nine tenths of 15 A.
        row("limit_tight", shore(), HEATER_A, 13.51, 13.5),
        row("device_far_from_source", battery(), "/electrical/circuits/pump/device_distance_in", 18.01, 18),
        row("device_away_from_source", battery(), "/electrical/circuits/pump/device_distance_in", 7.01, 7),
        row("interrupting_below_fault", battery(), "/battery/short_circuit_a", 1000.1, 1000),
        row("interrupting_unknown", battery(), "/electrical/circuits/pump/device", "breaker", "blade"),
        row("device_voltage_low", bank_of_24_v, "/battery/charge_v", 32.1, 32),
        // 4 · 6 A is twice 12 A, at which a blade fuse opens within 0.15 to 5 s.
        row("fuse_opens_on_start", behind(battery(), PUMP_FUSE, 12.0), PUMP_START_S, 5.01, 5),
        row("fuse_may_open_on_start", behind(battery(), PUMP_FUSE, 12.0), PUMP_START_S, 0.151, 0.15),
    ]
}

fn outlets_and_supplies() -> Vec<Twins> {
    let air_conditioner = with(shore(), "/parts/heater/electrical/kind", json!("room_air_conditioner"));
    let fastened = with(outlets(), "/parts/heater/electrical/fixed", json!(true));
    let near_water = with(outlets(), "/electrical/circuits/galley/near_water", json!(true));
    let thermostat = with(shore(), "/parts/heater/electrical/thermostat", json!(true));
    let two = load(
        shore(),
        "kettle",
        "galley",
        json!({"current_a": 16, "kind": "resistive", "continuous": false, "hours_per_day": 24}),
    );
    let now_and_then =
        with(with(two.clone(), HEATER_A, json!(16)), "/parts/heater/electrical/hours_per_day", json!(1));
    let cord =
        with(shore(), "/electrical/sources/shore/lead", json!({"awg": "12", "run_ft": 25, "cord": true}));
    let empty = with(shore(), "/parts", json!({}));
    vec![
        row("outlet_overloaded", outlets(), HEATER_A, 12.01, 12),
        row("outlet_rating", outlets(), "/electrical/circuits/galley/receptacle_a", 20, 15),
        row("fixed_loads_over_half", fastened, HEATER_A, 7.51, 7.5),
        row("air_conditioner_over_share", air_conditioner, HEATER_A, 12.01, 12),
        row("gfci_missing", near_water, "/electrical/circuits/galley/gfci", false, true),
        row("too_many_circuits", empty, "/electrical/circuits", circuits(6), circuits(5)),
        row("thermostat_loads", thermostat, "/parts/heater/quantity", 3, 2),
        row("converter_below_demand", converter(), "/parts/converter/electrical/charger/output_a", 24.99, 25),
        // Four fifths of 30 A.
        row("supply_overloaded", for_hours(shore(), "heater"), HEATER_A, 24.01, 24),
        row("supply_cannot_run_all", two, HEATER_A, 8.01, 8),
        // Together 32 A of 30 A, for a twentieth of the day.
        row("trip_risk", now_and_then, "/parts/heater/electrical/hours_per_day", 1.21, 1.2),
        row("power_overloaded", for_hours(inverter(), "heater"), HEATER_A, 10.01, 10),
        row("power_cannot_run_all", inverter(), HEATER_A, 6.01, 6),
        // 4 A · 120 V · 5 is 2,400 VA.
        row("start_over_surge", inverter(), "/parts/compressor/electrical/inrush_multiple", 5.01, 5),
        // 4 A · 120 V · 3.75 and 600 VA of the heater.
        row("start_may_exceed_surge", inverter(), "/parts/compressor/electrical/inrush_multiple", 3.76, 3.75),
        // 1,440 VA at the start, of 1,200 W.
        row("start_outlasts_surge", inverter(), "/parts/compressor/electrical/inrush_s", 3.01, 3),
        row("battery_overloaded", battery(), "/battery/max_discharge_a", 5.99, 6),
        // 1,200 W at 11 V.
        row("battery_below_inverters", inverter(), "/battery/max_discharge_a", 109.0, 109.1),
        // 600 VA of the heater and 3 · 480 VA take 2,040 W: behind 8 mΩ 11.364 V arrive.
        row("start_below_cutoff", inverter(), "/electrical/sources/inverter/cutoff_v", 11.37, 11.36),
        row("inverter_below_cutoff", inverter(), "/electrical/sources/inverter/cutoff_v", 12.01, 12),
        // (12.8 V)²/(4 · 1,200 W) is 34.133 mΩ.
        row("supply_collapses", inverter(), "/battery/resistance_mohm", 34.14, 34.13),
        // A cord of 12 AWG carries 25 A.
        row("lead_below_supply", cord, SHORE_A, 25.01, 25),
        row(
            "battery_vent_small",
            with(battery(), "/battery/chemistry", json!("flooded")),
            "/battery/vent_in2",
            1.69,
            1.7,
        ),
    ]
}

fn modes() -> Vec<Twins> {
    let bonded = with(shore(), "/electrical/neutral_bonded", json!(true));
    let on_bus = with(converter(), "/electrical/circuits/converter/bus", json!("panel"));
    let feeds = "/electrical/modes/away/feeds";
    vec![
        row("energy_loop", converter(), "/electrical/modes/away/feeds/converter", "inverter", "shore"),
        row("two_sources_on_bus", on_bus, "/electrical/circuits/galley/bus", "panel", "subpanel"),
        row("two_neutral_bonds", shore(), "/electrical/neutral_bonded", true, false),
        row("neutral_not_bonded", shore(), "/electrical/sources/shore/neutral_bonded", false, true),
        row("gfci_before_bond", bonded, "/electrical/sources/shore/gfci", true, false),
        row("shared_neutral_in_phase", multiwire(), "/electrical/sources/shore/in_phase", true, false),
        row("loads_without_source", shore(), feeds, json!({}), json!({"galley": "shore"})),
        row("circuit_never_fed", shore(), feeds, json!({}), json!({"galley": "shore"})),
    ]
}

fn solar_wiring() -> Vec<Twins> {
    let three = with(solar(), "/solar/arrays/roof/parallel", json!(3));
    let fused = with(solar(), "/solar/arrays/roof/string_fuse_a", json!(15));
    vec![
        row("pv_voltage_over_controller", solar(), "/solar/controller/max_pv_v", 26.39, 26.4),
        row("pv_current_over_controller", solar(), "/solar/controller/max_pv_a", 15.99, 16),
        // 1.25 · 1.25 · 2 · 8 A.
        row("pv_conductor_small", solar(), "/solar/arrays/roof/isc_a", 8.01, 8),
        row("pv_device_small", solar(), "/solar/arrays/roof/breaker_a", 24.99, 25),
        // Two strings drive 2 · 1.25 · 8 A into the third.
        row("strings_unfused", three, "/solar/arrays/roof/max_series_fuse_a", 19.99, 20),
        row("string_fuse_above_module", fused.clone(), "/solar/arrays/roof/max_series_fuse_a", 14.99, 15),
        // 1.25 · 1.25 · 8 A.
        row("string_fuse_small", fused, "/solar/arrays/roof/string_fuse_a", 12.49, 12.5),
        // 0.8 · 19.5 V is the charging voltage of 14.6 V and a volt.
        row("pv_voltage_low_when_hot", solar(), "/solar/arrays/roof/vmp_v", 19.49, 19.5),
        // 2 · 15 A · 1.98 Ω/kft loses 3 % of 20 V over 10.101 ft.
        row("pv_drop", solar(), "/solar/arrays/roof/wire/run_ft", 10.11, 10.1),
        // 40 A at 12 V.
        row("pv_power_over_controller", solar(), "/solar/arrays/roof/power_w", 480.1, 480),
        row(
            "controller_unprotected",
            solar(),
            "/solar/controller",
            json!({"kind": "mppt", "max_output_a": 40}),
            json!({"kind": "mppt", "max_output_a": 40, "breaker_a": 50}),
        ),
        // 1.25 · 40 A.
        row("controller_device_small", solar(), "/solar/controller/breaker_a", 49.99, 50),
        // 60 A/1.25.
        row("controller_conductor_small", solar(), "/solar/controller/max_output_a", 48.01, 48),
    ]
}

fn all() -> Vec<Twins> {
    [circuits_and_devices(), outlets_and_supplies(), modes(), solar_wiring()].into_iter().flatten().collect()
}

#[test]
fn every_rule_of_circuit_load_is_broken_by_a_build_and_kept_by_its_twin() {
    check::<CircuitLoad>(&all());
}

#[test]
fn sentences_are_for_a_person() {
    for (build, finding) in provoked::<CircuitLoad>(all()) {
        assert_for_a_person(&finding.message, &build);
        assert_for_a_person(&finding.remedy, &build);
    }
    assert_meanings_are_sentences::<CircuitLoad>();
}

#[test]
fn a_finding_is_past_its_limit_and_its_figures_have_a_unit() {
    for (_, finding) in provoked::<CircuitLoad>(all()) {
        assert_past_its_limit(&finding);
    }
}

/// How often a rule is broken in a build.
fn times(build: &Value, code: &str) -> usize {
    findings::<CircuitLoad>(build).iter().filter(|finding| finding.code == code).count()
}

#[test]
fn one_fault_is_reported_once() {
    // An air conditioner of 8 A, fastened, is over half of a shared circuit of 15 A, and that is all.
    let shared = with(with(outlets(), HEATER_A, json!(8)), "/parts/heater/electrical/fixed", json!(true));
    let shared = load(shared, "kettle", "galley", json!({"current_a": 1}));
    let cooled = with(shared.clone(), "/parts/heater/electrical/kind", json!("room_air_conditioner"));
    let counts = |build: &Value| {
        ["fixed_loads_over_half", "air_conditioner_over_share"].map(|code| times(build, code))
    };
    assert_eq!((counts(&shared), counts(&cooled)), ([1, 0], [0, 1]));
    // Plugged in, it is not told of its outlet as well.
    let plugged = with(
        with(outlets(), HEATER_A, json!(13)),
        "/parts/heater/electrical/kind",
        json!("room_air_conditioner"),
    );
    assert_eq!(["outlet_overloaded", "air_conditioner_over_share"].map(|code| times(&plugged, code)), [0, 1]);
    // Two circuits that name each other share one neutral.
    let shared = with(multiwire(), "/electrical/sources/shore/in_phase", json!(true));
    let shared = with(shared, "/electrical/circuits/galley/shares_neutral_with", json!("bay"));
    assert_eq!(times(&shared, "shared_neutral_in_phase"), 1);
    // Three circuits on one bus bar, the middle one from another source.
    let bus = with(converter(), "/electrical/circuits/galley/bus", json!("panel"));
    let bus = with(bus, "/electrical/circuits/converter/bus", json!("panel"));
    let bus = with(bus, "/electrical/circuits/more", json!({"breaker_a": 15, "bus": "panel"}));
    let bus = with(bus, "/electrical/modes/away/feeds/more", json!("inverter"));
    assert_eq!(times(&bus, "two_sources_on_bus"), 1);
    // A heater alone does not start.
    let heater = with(inverter(), HEATER_A, json!(21));
    let heater = with(heater, "/parts/compressor/electrical/current_a", json!(0));
    assert_eq!(
        ["power_overloaded", "start_over_surge", "start_may_exceed_surge"].map(|code| times(&heater, code)),
        [1, 0, 0]
    );
}

#[test]
fn energy_management_stands_in_for_a_larger_supply_on_30_amperes_alone() {
    let managed = |rating_a: f64, count: usize| {
        let build = with(with(shore(), "/parts", json!({})), SHORE_A, json!(rating_a));
        let build = with(build, "/electrical/energy_management", json!(true));
        times(&with(build, "/electrical/circuits", circuits(count)), "too_many_circuits")
    };
    assert_eq!([managed(30.0, 7), managed(20.0, 2), managed(20.0, 1)], [0, 1, 0]);
    let heated = with(for_hours(shore(), "heater"), HEATER_A, json!(12));
    let heated = load(heated, "boiler", "galley", json!({"current_a": 13, "continuous": true}));
    let managed = with(heated.clone(), "/electrical/energy_management", json!(true));
    assert_eq!([&heated, &managed].map(|build| times(build, "supply_overloaded")), [1, 0]);
}

#[test]
fn a_ground_fault_device_guards_what_branches_off() {
    let guarded = |gfci: bool| {
        let build = with(outlets(), "/electrical/circuits/galley/near_water", json!(true));
        let build = with(build, "/electrical/circuits/galley/feeder", json!("panel"));
        times(
            &with(build, "/electrical/circuits/panel", json!({"breaker_a": 15, "gfci": gfci})),
            "gfci_missing",
        )
    };
    assert_eq!([guarded(false), guarded(true)], [1, 0]);
}

/// 14 AWG is good for a breaker of 15 A.
#[test]
fn a_branch_that_its_feeders_breaker_guards_needs_none() {
    let branch = |breaker_a: f64| {
        let build = with(wired(), "/electrical/circuits/galley/breaker_a", json!(null));
        let build = with(build, "/electrical/circuits/galley/feeder", json!("panel"));
        let build = with(build, "/electrical/circuits/panel", json!({"breaker_a": breaker_a}));
        times(&build, "circuit_unprotected")
    };
    assert_eq!([branch(15.0), branch(15.01)], [0, 1]);
}

#[test]
fn a_ground_fault_outlet_bears_the_trailers_bond_where_its_source_has_none() {
    let guarded = with(
        with(shore(), "/electrical/neutral_bonded", json!(true)),
        "/electrical/sources/shore/gfci",
        json!(true),
    );
    let bonds = |bonded: bool| {
        let build = with(guarded.clone(), "/electrical/sources/shore/neutral_bonded", json!(bonded));
        ["gfci_before_bond", "two_neutral_bonds"].map(|code| times(&build, code))
    };
    assert_eq!([bonds(true), bonds(false)], [[1, 1], [0, 0]]);
}

/// (12.8 V)²/(4 · 1,200 W) is 34.133 mΩ, past which 1,200 W cannot be brought: the battery has 8 mΩ, 14 AWG (3.14 Ω/kft)
/// 12.6 mΩ over 2 ft and 157 mΩ over 25 ft, out and back.
#[test]
fn where_the_supply_collapses_no_drop_is_told() {
    let wire = |run_ft: f64| {
        let wire = json!({"awg": "14", "run_ft": run_ft});
        let build = with(inverter(), "/electrical/circuits/feed/wire", wire);
        ["supply_collapses", "dc_drop"].map(|code| times(&build, code))
    };
    assert_eq!([wire(2.0), wire(25.0)], [[0, 1], [1, 0]]);
}

/// 2,400 W over two legs of 120 V are 10 A each, of which the cable must carry 115 %: 14 AWG cord carries 18 A.
#[test]
fn the_cable_of_a_generator_is_held_against_its_power_on_each_leg() {
    let lead = json!({"awg": "14", "run_ft": 10, "cord": true});
    let generator = |watts: f64, legs: u32| {
        let source =
            json!({"kind": "generator", "voltage_v": 120, "continuous_w": watts, "legs": legs, "lead": lead});
        times(&with(shore(), "/electrical/sources", json!({"shore": source})), "lead_below_supply")
    };
    let edge_w = 18.0 / 1.15 * 120.0;
    assert_eq!([generator(edge_w + 1.0, 1), generator(edge_w - 1.0, 1)], [1, 0]);
    assert_eq!([generator(2.0 * edge_w + 1.0, 2), generator(2.0 * edge_w - 1.0, 2)], [1, 0]);
}

/// A finding stands at a place that the build has.
#[test]
fn a_finding_points_into_its_build() {
    let demo = [
        include_str!("../../../../tests/builds/heron.json"),
        include_str!("../../../../tests/builds/pika.json"),
        include_str!("../../../../tests/builds/bison.json"),
    ];
    let demo = demo.into_iter().flat_map(|text| {
        let build: Value = serde_json::from_str(text).unwrap();
        let found = findings::<CircuitLoad>(&build);
        assert!(!found.is_empty());
        found.into_iter().map(move |finding| (build.clone(), finding))
    });
    for (build, finding) in provoked::<CircuitLoad>(all()).chain(demo) {
        assert!(build.pointer(&finding.subject).is_some(), "{finding:?}");
    }
}

#[test]
fn a_rule_says_where_it_is_from() {
    let sources = [
        "NEC 2023",
        "NEC 2008",
        "ABYC E-11",
        "33 CFR",
        "NEMA MG 1",
        "ISO 8820",
        "SAE J1284",
        "common practice",
        "the maker's ",
        "conservation of energy",
        "Ohm's law",
    ];
    for rule in CircuitLoad::RULES {
        let citation = rule.citation;
        assert!(sources.iter().any(|source| citation.starts_with(source)), "{citation}");
        let read = ["from memory", "at second hand"].iter().any(|tag| citation.contains(tag));
        assert!(read || !citation.contains("NEC 2023"), "{citation}");
    }
}
