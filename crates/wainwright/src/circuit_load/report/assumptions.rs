//! Every default that circuit load used.

use crate::build::{Build, LoadKind, SourceKind, Wire};
use crate::circuit_load::circuit_sizing::usual_drop;
use crate::circuit_load::ratings::continuous_fraction;
use crate::circuit_load::wiring::{Load, Supply, Switching, Wiring};
use crate::circuit_load::{defaults, drawn};
use crate::drawn_power::{CHARGER_EFFICIENCY, usual_ceer};
use crate::report::{Assumption, Assumptions};
use crate::units::fahrenheit;

const PRACTICE: &str = "common practice";

/// The assumptions of a build, in the order of the document.
pub(super) fn assumptions(build: &Build, wiring: &Wiring) -> Vec<Assumption> {
    let mut all = Assumptions::default();
    if build.electrical.as_ref().is_some_and(|electrical| electrical.modes.is_none()) {
        let reason = "the only source feeds every circuit";
        let feeds = wiring.sources.first().map_or(String::new(), |source| source.id.to_owned());
        all.add_words("/electrical/modes".to_owned(), feeds, reason, PRACTICE);
    }
    let electrical = build.electrical.as_ref();
    let any_ac = wiring.sources.iter().any(Supply::is_ac);
    if any_ac && electrical.is_some_and(|electrical| electrical.neutral_bonded.is_none()) {
        let reason = "the trailer's panel keeps neutral and ground apart";
        let citation = "NEC 2023, 551.54 (from memory)";
        all.add("/electrical/neutral_bonded".to_owned(), false, None, reason, citation);
    }
    for load in &wiring.loads {
        of_load(load, wiring, &mut all);
    }
    for supply in &wiring.sources {
        of_supply(supply, &mut all);
    }
    for circuit in 0..wiring.circuits.len() {
        of_circuit(wiring, circuit, &mut all);
    }
    of_battery(build, wiring, &mut all);
    of_solar(build, &mut all);
    all.in_order(|pointer| build.position(pointer))
}

/// Does a mode feed a circuit with alternating, with direct current?
fn currents(wiring: &Wiring, circuit: usize) -> (bool, bool) {
    let kinds = || wiring.modes.iter().filter_map(|mode| Some(wiring.sources[mode.feeds[circuit]?].is_ac()));
    (kinds().any(|ac| ac), kinds().any(|ac| !ac))
}

fn of_load(load: &Load, wiring: &Wiring, all: &mut Assumptions) {
    let at = |field: &str| format!("/parts/{}/electrical/{field}", load.id);
    let draw = load.draw;
    let (alternating, direct) = currents(wiring, load.circuit);
    if !alternating && !direct {
        return; // nothing was worked out for it
    }
    if draw.kind.is_none() && draw.charger.is_none() {
        let (kind, reason) = match load.kind {
            LoadKind::Motor => ("motor", "its shaft power is given"),
            _ => (
                "electronic",
                "it keeps its power and draws more when the voltage sags, which is the safe side",
            ),
        };
        all.add(at("kind"), kind, None, reason, PRACTICE);
    }
    if alternating && draw.power_factor.is_none() {
        let reason = "usual for its kind; the nameplate may say";
        all.add(at("power_factor"), drawn::power_factor(load), Some("fraction"), reason, PRACTICE);
    }
    if draw.continuous.is_none() {
        let reason =
            "lights, chargers and air conditioners run for three hours and more, other things do not";
        all.add(at("continuous"), load.continuous, None, reason, PRACTICE);
    }
    let starts = matches!(load.kind, LoadKind::Motor | LoadKind::RoomAirConditioner);
    if starts && draw.inrush_multiple.is_none() {
        let multiple = drawn::inrush_multiple(load, alternating);
        let (reason, citation) = match (draw.horsepower, draw.code_letter) {
            (Some(_), Some(_)) => ("by its code letter", "NEC 2023, Table 430.7(B) (from memory)"),
            (Some(_), None) => ("its locked rotor", "NEC 2023, Table 430.251(A) (at second hand)"),
            _ => {
                ("usual for a motor; the ratio 6 is that of NEC 2023 Tables 430.251(A) and 430.248", PRACTICE)
            }
        };
        all.add(at("inrush_multiple"), multiple, None, reason, citation);
    }
    if let Some(capacity_btu_h) = draw.capacity_btu_h.filter(|_| draw.ceer.is_none()) {
        let reason = "the least that the law has allowed since 2014 for units with louvered sides";
        let value = usual_ceer(capacity_btu_h);
        all.add(at("ceer"), value, Some("BTU/Wh"), reason, "10 CFR 430.32(b) (from memory)");
    }
    if (starts || draw.inrush_multiple.is_some_and(|multiple| multiple > 1.0)) && draw.inrush_s.is_none() {
        let value = defaults::start_s(alternating);
        all.add(at("inrush_s"), value, Some("s"), "motors start within a second", PRACTICE);
    }
    if alternating && draw.fixed.is_none() {
        let reason = "what is on a circuit with outlets is plugged in, the rest is fastened in place";
        all.add(at("fixed"), load.fixed, None, reason, PRACTICE);
    }
    if !load.says_hours() {
        all.add(at("hours_per_day"), 24.0, Some("h"), "it is taken to be on at any time", PRACTICE);
    }
    if let Some(charger) = &draw.charger {
        if charger.output_v.is_none() {
            let reason = "what a charger gives, 13.8 V for each 12 V of its battery";
            all.add(at("charger/output_v"), load.charger_v, Some("V"), reason, PRACTICE);
        }
        if charger.efficiency.is_none() {
            let reason = "usual for a charger";
            all.add(at("charger/efficiency"), CHARGER_EFFICIENCY, Some("fraction"), reason, PRACTICE);
        }
    }
}

fn of_supply(supply: &Supply, all: &mut Assumptions) {
    let at = |field: &str| format!("/electrical/sources/{}/{field}", supply.id);
    let source = supply.source;
    if supply.is_ac() {
        if source.legs.is_none() {
            all.add(at("legs"), 1.0, None, "one hot leg", PRACTICE);
        }
        if source.neutral_bonded.is_none() {
            let reason = "a source that stands alone joins neutral and ground; see to it";
            all.add(at("neutral_bonded"), true, None, reason, "NEC 2023, 250.30 (from memory)");
        }
    }
    if source.continuous_fraction.is_none() && (source.rating_a.is_some() || source.path_a.is_some()) {
        let (reason, citation) = match source.kind {
            SourceKind::Shore | SourceKind::Generator => (
                "a breaker in its box carries four fifths of its rating for hours",
                "NEC 2023, 210.20(A), 215.3 (at second hand)",
            ),
            _ => ("its rating is for hours", PRACTICE),
        };
        all.add(at("continuous_fraction"), continuous_fraction(supply), Some("fraction"), reason, citation);
    }
    if source.kind == SourceKind::Inverter {
        if source.efficiency.is_none() {
            let reason = "the lesser of usual efficiencies, which needs the larger cable";
            all.add(at("efficiency"), defaults::INVERTER_EFFICIENCY, Some("fraction"), reason, PRACTICE);
        }
        if source.idle_w.is_none() {
            let (idle_w, _) = defaults::inverter_losses(source);
            all.add(at("idle_w"), idle_w, Some("W"), "a hundredth of its rated output", PRACTICE);
        }
        if source.cutoff_v.is_none() {
            let reason = "usual for the battery's chemistry; the current is greatest there";
            all.add(at("cutoff_v"), supply.cutoff_v, Some("V"), reason, PRACTICE);
        }
        if source.circuit.is_none() {
            let reason = "it takes its power from the battery over a cable that is not given and not checked";
            all.add(at("circuit"), "none", None, reason, PRACTICE);
        }
    }
    if let Some(lead) = &source.lead {
        of_wire(lead, &at("lead"), supply.is_ac(), all);
    }
}

fn of_circuit(wiring: &Wiring, index: usize, all: &mut Assumptions) {
    let line = &wiring.circuits[index];
    let at = |field: &str| format!("/electrical/circuits/{}/{field}", line.id);
    let (alternating, direct) = currents(wiring, index);
    if !alternating && !direct {
        return;
    }
    if alternating && line.circuit.receptacle_a.is_some() && line.circuit.receptacles.is_none() {
        let reason = "several outlets, for which the stricter rules hold";
        all.add(at("receptacles"), f64::from(defaults::RECEPTACLES), None, reason, PRACTICE);
    }
    if line.circuit.max_drop_fraction.is_none() && line.wire.is_some() {
        let citation = if alternating {
            "NEC 2023, 210.19(A) informational note (at second hand)"
        } else {
            "ABYC E-11 (at second hand); an inverter's 2 % is common practice"
        };
        let drop = usual_drop(wiring, index, alternating);
        all.add(at("max_drop_fraction"), drop, Some("fraction"), "usual for such a circuit", citation);
    }
    match &line.circuit.wire {
        Some(wire) => of_wire(wire, &at("wire"), alternating, all),
        None => {
            let reason =
                "its length is not known: drop is not judged, and the smallest wire is by current alone";
            all.add(at("wire"), "none", None, reason, PRACTICE);
        }
    }
    let on_two_legs = |mode: &Switching| {
        mode.feeds[index].is_some_and(|source| wiring.sources[source].source.legs == Some(2))
    };
    if wiring.leg(index).is_none() && wiring.modes.iter().any(on_two_legs) {
        all.add(at("leg"), "a", None, "the first leg; spread the circuits over both", PRACTICE);
    }
}

fn of_wire(wire: &Wire, at: &str, alternating: bool, all: &mut Assumptions) {
    let at = |field: &str| format!("{at}/{field}");
    if wire.insulation_c.is_none() {
        let (rating_c, reason) = if alternating && wire.cord == Some(true) {
            (defaults::CORD_INSULATION_C, "a cord that is not marked for more")
        } else if alternating {
            (defaults::AC_INSULATION_C, "usual building wire and cable")
        } else {
            (defaults::DC_INSULATION_C, "usual boat cable")
        };
        all.add(at("insulation_c"), rating_c, Some("°C"), reason, PRACTICE);
    }
    if wire.ambient_f.is_none() {
        let reason = "the temperature that the ampacity tables are for";
        let citation = "NEC 2023, Table 310.16; 33 CFR 183.425 Table 5";
        all.add(at("ambient_f"), fahrenheit(defaults::AMBIENT_C), Some("°F"), reason, citation);
    }
    if wire.bundled.is_none() {
        let reason = "the circuit's own two conductors, no others beside them";
        all.add(at("bundled"), f64::from(defaults::BUNDLED), None, reason, PRACTICE);
    }
    if alternating && wire.terminal_c.is_none() && wire.cord != Some(true) {
        let reason = "equipment of 100 A or less that is not marked";
        all.add(
            at("terminal_c"),
            defaults::TERMINAL_C,
            Some("°C"),
            reason,
            "NEC 2023, 110.14(C) (at second hand)",
        );
    }
    if wire.material.is_none() {
        all.add(at("material"), "copper", None, "usual in vehicles", PRACTICE);
    }
    if !alternating && wire.sheathed.is_none() {
        all.add(at("sheathed"), false, None, "bare, for which the fuse must be nearer", PRACTICE);
    }
}

fn of_battery(build: &Build, wiring: &Wiring, all: &mut Assumptions) {
    let (Some(battery), Some(bank)) = (&build.battery, wiring.battery) else { return };
    let stated = battery.resistance_mohm.or(battery.short_circuit_a).or(battery.cold_cranking_a);
    if stated.is_none() {
        let reason =
            "usual for its chemistry and capacity, on the side that lets the greatest fault current flow";
        all.add("/battery/resistance_mohm".to_owned(), bank.ohm * 1000.0, Some("mΩ"), reason, PRACTICE);
    }
    if battery.open_circuit_v.is_none() {
        let pointer = "/battery/open_circuit_v".to_owned();
        all.add(pointer, bank.open_v, Some("V"), "usual for its chemistry, full and at rest", PRACTICE);
    }
    if battery.charge_v.is_none() {
        let pointer = "/battery/charge_v".to_owned();
        all.add(pointer, bank.charge_v, Some("V"), "usual for its chemistry", PRACTICE);
    }
}

fn of_solar(build: &Build, all: &mut Assumptions) {
    let Some(solar) = &build.solar else { return };
    let wired = || solar.arrays.iter().flatten().filter(|(_, array)| array.voc_v.is_some());
    if wired().next().is_some() && solar.lowest_f.is_none() {
        let reason = "a cold winter night; the place may be colder";
        all.add("/solar/lowest_f".to_owned(), fahrenheit(defaults::LOWEST_C), Some("°F"), reason, PRACTICE);
    }
    if solar.arrays.iter().flatten().any(|(_, array)| array.vmp_v.is_some()) && solar.hottest_cell_f.is_none()
    {
        let reason = "cells in the sun with little air behind them";
        let value = fahrenheit(defaults::HOTTEST_CELL_C);
        all.add("/solar/hottest_cell_f".to_owned(), value, Some("°F"), reason, PRACTICE);
    }
    for (id, array) in wired() {
        let at = |field: &str| format!("/solar/arrays/{id}/{field}");
        if array.voc_fraction_per_c.is_none() {
            let reason = "the factor of the code's table for silicon stands in for the module's own";
            let citation = "NEC 2023, Table 690.7(A) (from memory)";
            all.add(at("voc_fraction_per_c"), "by table", None, reason, citation);
        }
        if array.vmp_v.is_some() && array.vmp_fraction_per_c.is_none() {
            let value = defaults::VMP_FRACTION_PER_C;
            all.add(at("vmp_fraction_per_c"), value, Some("1/°C"), "usual for silicon", PRACTICE);
        }
        for (field, stated) in [("series", array.series), ("parallel", array.parallel)] {
            if stated.is_none() {
                all.add(at(field), 1.0, None, "one module, one string", PRACTICE);
            }
        }
        if let Some(wire) = &array.wire {
            of_wire(wire, &at("wire"), true, all);
        }
    }
    if let Some(controller) = &solar.controller {
        if controller.efficiency.is_none() {
            let (value, pointer) =
                (defaults::CONTROLLER_EFFICIENCY, "/solar/controller/efficiency".to_owned());
            all.add(pointer, value, Some("fraction"), "usual for a controller", PRACTICE);
        }
        if let Some(wire) = &controller.wire {
            of_wire(wire, "/solar/controller/wire", false, all);
        }
    }
}
