//! What the findings of circuit load say, and whether what their remedies offer would cure it.

use serde_json::{Value, json};
use wainwright::circuit_load::CircuitLoad;
use wainwright::report::Finding;

use super::circuits::{battery, converter, inverter, load, outlets, shore, wired};
use super::twins::{findings, with};

const GALLEY: &str = "/electrical/circuits/galley";
const GALLEY_BREAKER: &str = "/electrical/circuits/galley/breaker_a";
const HEATER_A: &str = "/parts/heater/electrical/current_a";
const PUMP_FUSE: &str = "/electrical/circuits/pump/breaker_a";

/// The finding of a rule in a build that breaks it.
#[track_caller]
fn found(build: &Value, code: &str) -> Finding {
    let found = findings::<CircuitLoad>(build);
    found.into_iter().find(|finding| finding.code == code).unwrap()
}

/// 12 AWG at terminals of 75 °C carries 25 A and is good for a breaker of 20 A.
#[test]
fn a_smaller_device_is_offered_where_it_carries_what_the_circuit_needs() {
    let wire = json!({"awg": "12", "run_ft": 10, "terminal_c": 75});
    let build = with(with(shore(), "/electrical/circuits/galley/wire", wire), GALLEY_BREAKER, json!(30));
    let remedy = |current_a: f64| {
        found(&with(build.clone(), HEATER_A, json!(current_a)), "breaker_over_conductor").remedy
    };
    assert_eq!(remedy(20.0), "Pull 10 AWG, or fit 20 A or less.");
    assert_eq!(remedy(20.1), "Pull 10 AWG.");
    // No wire of the table is good for a fuse of 1,000 A, one of 35 A is all that this one needs.
    let fused = with(battery(), PUMP_FUSE, json!(1000));
    assert_eq!(found(&fused, "dc_device_far_over_conductor").remedy, "Fit 35 A or less.");
    let heavy = with(fused, "/parts/pump/electrical/current_a", json!(40));
    assert_eq!(
        found(&heavy, "dc_conductor_overloaded").remedy,
        "Fit a smaller fuse, with wire to match, or move a load to another circuit."
    );
}

/// 10 AWG carries 16 A behind 30 A. Over 200 ft, out and back, they lose 4.98 V in 8 AWG (0.778 Ω/kft) and 3.14 V in
/// 6 AWG (0.491 Ω/kft); 3 % are 3.6 V.
#[test]
fn a_remedy_names_the_wire_by_the_rule_that_is_broken() {
    let build = with(with(wired(), GALLEY_BREAKER, json!(30)), HEATER_A, json!(16));
    let build = with(build, "/electrical/circuits/galley/wire/run_ft", json!(200));
    assert_eq!(found(&build, "breaker_over_conductor").remedy, "Pull 10 AWG.");
    let remedy = found(&build, "conductor_overloaded").remedy;
    assert_eq!(remedy, "Pull 10 AWG, or move a load to another circuit.");
    assert_eq!(found(&build, "ac_drop").remedy, "Take 6 AWG, or come nearer to the source.");
    let aluminum = with(battery(), "/electrical/circuits/pump/wire/material", json!("aluminum"));
    assert_eq!(found(&aluminum, "low_voltage_aluminum").remedy, "Pull 16 AWG of copper.");
}

/// ABYC E-11 by cold-cranking rating, at second hand: a main device of 3,000 A for 651 to 1,100 A of cold cranking, for
/// banks up to 2,200 A and 500 Ah. A blade fuse breaks 1,000 A.
#[test]
fn a_battery_is_judged_by_its_cold_cranking_only_where_nothing_better_is_known() {
    let bank = |members: Value| {
        let mut bank = json!({"chemistry": "agm", "capacity_ah": 100, "nominal_v": 12});
        bank.as_object_mut().unwrap().extend(members.as_object().unwrap().clone());
        with(battery(), "/battery", bank)
    };
    let asked_a = |members: Value| found(&bank(members), "interrupting_below_fault").limit.unwrap();
    assert_eq!(asked_a(json!({"cold_cranking_a": 900})), 3000.0);
    let known = findings::<CircuitLoad>(&bank(json!({"cold_cranking_a": 900, "short_circuit_a": 900})));
    assert!(known.iter().all(|finding| finding.code != "interrupting_below_fault"));
    assert_eq!(asked_a(json!({"cold_cranking_a": 900, "short_circuit_a": 4000})), 4000.0);
    // Beyond the table what is known of the battery: 12.6 V behind a resistance that leaves 7.2 V at 5,000 A.
    let asked_of =
        |cold_cranking_a: f64| asked_a(json!({"cold_cranking_a": cold_cranking_a, "open_circuit_v": 12.6}));
    assert_eq!(asked_of(2200.0), 5000.0);
    assert!((asked_of(5000.0) - 12.6 / (5.4 / 5000.0)).abs() < 1e-6);
}

#[test]
fn outlets_and_breaker_are_offered_as_they_go_together() {
    for (breaker_a, outlet_a, remedy) in [
        (15.0, 20.0, "Fit outlets of 15 A."),
        (30.0, 15.0, "Fit outlets of 30 A, or a breaker of 20 A."),
        (25.0, 15.0, "Change the breaker to 15, 20, 30, 40 or 50 A, with outlets and wire to match."),
    ] {
        let build = with(outlets(), "/electrical/circuits/galley/receptacle_a", json!(outlet_a));
        assert_eq!(found(&with(build, GALLEY_BREAKER, json!(breaker_a)), "outlet_rating").remedy, remedy);
    }
    for (current_a, remedy) in [(13.0, "20 A outlet"), (17.0, "30 A outlet"), (25.0, "a circuit of its own")]
    {
        let finding = found(&with(outlets(), HEATER_A, json!(current_a)), "outlet_overloaded");
        assert!(finding.remedy.contains(remedy), "{}", finding.remedy);
    }
}

/// A wire that may carry nothing is past that by its breaker where nothing flows yet.
#[test]
fn a_wire_that_may_not_be_used_so_is_found_without_loads_and_told_why() {
    let idle = with(wired(), "/parts", json!({}));
    let with_wire = |members: Value| {
        let mut wire = json!({"awg": "14", "run_ft": 10});
        wire.as_object_mut().unwrap().extend(members.as_object().unwrap().clone());
        let finding =
            found(&with(idle.clone(), "/electrical/circuits/galley/wire", wire), "conductor_overloaded");
        assert_eq!((finding.value, finding.limit), (Some(15.0), Some(0.0)));
        (finding.message, finding.remedy.into_owned())
    };
    for (wire, why, remedy) in [
        (json!({"awg": "16"}), "it is too small, cable begins at 14 AWG.", "Pull 14 AWG."),
        (
            json!({"material": "aluminum"}),
            "it is too small, aluminum cable begins at 12 AWG.",
            "Pull 12 AWG.",
        ),
        (
            json!({"awg": "1/0", "cord": true}),
            "it is too large for the table, in which cord ends at 2 AWG.",
            "Pull 14 AWG.",
        ),
        (json!({"awg": "3", "cord": true}), "cord is not made in that size.", "Pull 14 AWG."),
        (
            json!({"ambient_f": 150, "insulation_c": 60}),
            "where it runs it is too hot for its insulation.",
            "Run it through a cooler place, or pull wire with insulation for more heat.",
        ),
    ] {
        let (message, offered) = with_wire(wire);
        assert!(message.ends_with(why), "{message}");
        assert_eq!(offered, remedy);
    }
    let bare =
        found(&with(battery(), "/electrical/circuits/pump/wire/awg", json!("18")), "dc_conductor_overloaded");
    assert!(
        bare.message.ends_with("it is too small, bare low-voltage wire begins at 16 AWG."),
        "{}",
        bare.message
    );
    assert_eq!(bare.remedy, "Pull 16 AWG.");
}

#[test]
fn the_quarter_more_is_named_after_what_it_is_for() {
    let needs = |members: Value, others: &str| {
        let mut draw = json!({"current_a": 16, "kind": "resistive", "continuous": false});
        draw.as_object_mut().unwrap().extend(members.as_object().unwrap().clone());
        let build = load(shore(), "kettle", "galley", draw);
        let message = found(&build, "breaker_overloaded").message;
        assert!(message.starts_with(&format!("In mode shore circuit galley needs{others} ")), "{message}");
    };
    needs(json!({}), "");
    needs(json!({"continuous": true}), ", with a quarter more for what runs for hours,");
    needs(json!({"kind": "motor"}), ", with a quarter more for its greatest motor,");
    let motor = json!({"current_a": 16, "kind": "motor", "continuous": false});
    let build = with(shore(), "/parts/heater/electrical/continuous", json!(true));
    let message = found(&load(build, "saw", "galley", motor), "breaker_overloaded").message;
    assert!(message.contains("for what runs for hours and for its greatest motor,"), "{message}");
}

#[test]
fn several_of_a_load_are_counted() {
    let three = with(with(shore(), HEATER_A, json!(11)), "/parts/heater/quantity", json!(3));
    let message = found(&three, "supply_overloaded").message;
    assert_eq!(message, "In mode shore 3 × heater alone takes 33 A of shore; it may give 30 A.");
}

#[test]
fn a_soft_starter_is_for_what_has_an_inrush() {
    let unrated = with(inverter(), "/electrical/sources/inverter/continuous_w", json!(null));
    let heater = with(unrated, HEATER_A, json!(21));
    assert_eq!(found(&heater, "start_over_surge").remedy, "Run less beside it, or take a larger one.");
    let compressor = with(inverter(), "/parts/compressor/electrical/inrush_multiple", json!(6));
    assert!(found(&compressor, "start_over_surge").remedy.starts_with("Fit a soft starter, "));
}

#[test]
fn a_charger_on_the_circuit_of_its_own_battery_is_told_so() {
    let build = load(battery(), "booster", "pump", json!({"charger": {"output_a": 5}}));
    let message = found(&build, "energy_loop").message;
    assert!(
        message.starts_with("In mode battery booster is fed by battery and charges battery: "),
        "{message}"
    );
    let round = with(converter(), "/electrical/modes/away/feeds/converter", json!("inverter"));
    let message = found(&round, "energy_loop").message;
    assert!(
        message.contains("is fed by inverter, which feeds on battery, and charges battery: "),
        "{message}"
    );
}

#[test]
fn loads_without_a_source_are_told_why_it_is_dead() {
    let away = |build: Value, feeds: Value, why: &str| {
        let finding = found(&with(build, "/electrical/modes/away/feeds", feeds), "loads_without_source");
        assert_eq!(finding.message, format!("In mode away these have no power: heater, compressor.{why}"));
    };
    away(inverter(), json!({"galley": "inverter"}), " inverter has no power itself: its own circuit is off.");
    away(inverter(), json!({"galley": "inverter", "feed": "inverter"}), " inverter feeds on itself.");
    let other = json!({"kind": "inverter", "voltage_v": 120, "circuit": "more"});
    let two =
        with(with(inverter(), "/electrical/sources/other", other), "/electrical/circuits/more", json!({}));
    away(
        two.clone(),
        json!({"galley": "inverter", "feed": "other", "more": "inverter"}),
        " inverter feeds on itself through other. other feeds on itself through inverter.",
    );
    away(
        two,
        json!({"galley": "inverter", "feed": "other"}),
        " inverter has no power itself: other gives none. other has no power itself: its own circuit is off.",
    );
}

/// What a source may give stands at what sets it.
#[test]
fn a_risk_of_tripping_stands_where_the_rating_does() {
    let busy = with(shore(), HEATER_A, json!(16));
    let busy = with(busy, "/parts/heater/electrical/hours_per_day", json!(24));
    let inlet = with(busy.clone(), "/electrical/sources/shore/path_a", json!({"inlet": 15}));
    assert_eq!(found(&inlet, "trip_risk").subject, "/electrical/sources/shore/path_a/inlet");
    let driveway = json!({"driveway": {"feeds": {"galley": "shore"}, "limits_a": {"shore": 15}}});
    let driveway = with(busy.clone(), "/electrical/modes", driveway);
    assert_eq!(found(&driveway, "trip_risk").subject, "/electrical/modes/driveway/limits_a/shore");
    let rated = with(busy, "/electrical/sources/shore/rating_a", json!(15));
    assert_eq!(found(&rated, "trip_risk").subject, "/electrical/sources/shore/rating_a");
}

/// What the build does not give is pointed at by what is around it.
#[test]
fn what_is_missing_is_pointed_at_by_what_is_around_it() {
    let guarded = with(outlets(), "/electrical/circuits/galley/near_water", json!(true));
    assert_eq!(found(&guarded, "gfci_missing").subject, GALLEY);
    let far = with(inverter(), "/electrical/sources/inverter/cutoff_v", json!(null));
    let far = with(far, "/battery/resistance_mohm", json!(20));
    assert_eq!(found(&far, "inverter_below_cutoff").subject, "/electrical/sources/inverter");
    let feeds = json!({"away": {"feeds": {"block": "battery"}}});
    let branch = with(battery(), "/electrical/circuits/pump/feeder", json!("block"));
    let branch = with(with(branch, "/electrical/circuits/block", json!({})), "/electrical/modes", feeds);
    let branch = load(branch, "booster", "pump", json!({"charger": {"output_a": 5}}));
    assert_eq!(found(&branch, "energy_loop").subject, "/electrical/modes/away/feeds/block");
}
