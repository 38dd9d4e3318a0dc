//! Section `electrical`: supplies, circuits, and which supply feeds which circuit in each supply mode.

mod circuit;
mod mode;
mod source;
mod wire;

pub use circuit::{Circuit, Leg};
pub use mode::Mode;
pub use source::{PartLoad, Source, SourceKind};
pub use wire::Wire;

use crate::bounds;
use crate::document::{Faults, Flag, Keyed, Map, Place, Section, record};

record! {
    /// Supplies, circuits, and which supply feeds which circuit in each supply mode.
    pub struct Electrical: "the electrical section" {
        /// Everything that can feed a circuit: shore power, generator, inverter, battery.
        optional sources: Keyed<Source> = Map { of: Section::of(), most: bounds::MOST_SOURCES, example_id: "shore" };
        /// Every circuit, line voltage and low voltage.
        optional circuits: Keyed<Circuit> = Map { of: Section::of(), most: bounds::MOST_CIRCUITS, example_id: "galley" };
        /// The supply modes: which source feeds which circuit. May be left out where there is one source, which
        /// then feeds every circuit.
        optional modes: Keyed<Mode> = Map { of: Section::of(), most: bounds::MOST_MODES, example_id: "plugged_in" };
        /// Does a listed energy management system hold the load on the supply within its rating?
        optional energy_management: bool = Flag, false;
        /// Are neutral and ground joined in the trailer's own panel?
        optional neutral_bonded: bool = Flag, false;
    }
}

impl Electrical {
    pub(super) fn check(&self, at: &Place, faults: &mut Faults) {
        for (id, source) in self.sources.iter().flatten() {
            source.check(self, &at.key("sources").key(id), faults);
        }
        for (id, circuit) in self.circuits.iter().flatten() {
            circuit.check(id, self, &at.key("circuits").key(id), faults);
        }
        for (id, mode) in self.modes.iter().flatten() {
            mode.check(self, &at.key("modes").key(id), faults);
        }
        self.check_currents_are_of_one_kind(at, faults);
    }

    /// A circuit carries alternating or direct current, never now one and now the other.
    fn check_currents_are_of_one_kind(&self, at: &Place, faults: &mut Faults) {
        let (Some(sources), Some(modes)) = (&self.sources, &self.modes) else { return };
        let is_ac = |source: &str| sources.get(source).map(|source| source.kind.is_ac());
        let mut first: Keyed<(&str, &str)> = Keyed::default();
        for (mode, feeds) in modes.iter().map(|(id, mode)| (id, &mode.feeds)) {
            for (circuit, source) in feeds {
                let Some(&(other_mode, other)) = first.get(circuit) else {
                    first.insert(circuit.clone(), (mode, source));
                    continue;
                };
                let (Some(ac), Some(other_ac)) = (is_ac(source), is_ac(other)) else { continue };
                let unread = |faults: &Faults| {
                    let kind = |source: &str| format!("/electrical/sources/{source}/kind");
                    let feeds = format!("/electrical/modes/{other_mode}/feeds/{circuit}");
                    [kind(source), kind(other), feeds].iter().any(|pointer| faults.spoil(pointer))
                };
                if ac != other_ac && !unread(faults) {
                    let place = at.key("modes");
                    let place = place.key(mode);
                    faults.contradiction(
                        &place.key("feeds").key(circuit),
                        format!(
                            "names {source}, which gives {}; in mode {other_mode} {other} feeds the circuit with {}, and a \
                             circuit carries one or the other",
                            current_of(ac),
                            current_of(other_ac)
                        ),
                    );
                }
            }
        }
    }
}

fn current_of(alternating: bool) -> &'static str {
    if alternating { "alternating current" } else { "direct current" }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use crate::FaultCode;
    use crate::build::fixture::{assert_contradiction, fault_with, faults_with};

    #[test]
    fn a_name_that_refers_to_nothing_is_answered_with_what_there_is() {
        for (change, value, map, known) in [
            ("/parts/galley/electrical/circuit", json!("outlet"), "/electrical/circuits", "outlets"),
            ("/parts/converter/electrical/charger/source", json!("bonk"), "/electrical/sources", "bank"),
            ("/electrical/modes/plugged_in/feeds/block", json!("banks"), "/electrical/sources", "bank"),
            ("/electrical/modes/plugged_in/feeds/light", json!("bank"), "/electrical/circuits", "lights"),
            ("/electrical/modes/plugged_in/limits_a", json!({"shores": 15}), "/electrical/sources", "shore"),
            ("/electrical/sources/inverter/circuit", json!("cables"), "/electrical/circuits", "cable"),
            ("/electrical/circuits/lights/feeder", json!("blok"), "/electrical/circuits", "block"),
            (
                "/electrical/circuits/charge/shares_neutral_with",
                json!("outles"),
                "/electrical/circuits",
                "outlets",
            ),
        ] {
            let fault = fault_with(&[(change, value)]);
            assert_eq!(fault.code, FaultCode::UnknownId, "{change}");
            assert!(fault.pointer.starts_with(change), "{change}: {}", fault.pointer);
            assert!(
                fault.detail.contains(&format!("which is not in {map}; did you mean {known}?")),
                "{}",
                fault.detail
            );
            assert!(fault.known.contains(&known.to_owned()), "{:?}", fault.known);
        }
    }

    #[test]
    fn an_unknown_size_or_insulation_is_answered_with_those_there_are() {
        let size = fault_with(&[("/electrical/circuits/outlets/wire/awg", json!("13"))]);
        assert_eq!((size.code, size.known.len()), (FaultCode::NotOneOf, 20));
        assert!(size.detail.starts_with("must be one of 18, 16, 14, 12, 10, 8, 6,"), "{}", size.detail);
        assert_eq!(size.suggestion, None);
        let number = fault_with(&[("/electrical/circuits/outlets/wire/awg", json!(14))]);
        assert_eq!(number.detail, r#"must be text; write "14" in quotes"#);
        assert_eq!((number.code, number.suggestion.as_deref()), (FaultCode::WrongType, Some("14")));
        let insulation = fault_with(&[("/electrical/circuits/outlets/wire/insulation_c", json!(70))]);
        assert_eq!(insulation.detail, "must be one of 60, 75, 80, 90, 105, 125, 200; got 70");
    }

    #[test]
    fn what_cannot_be_meant_is_past_a_bound() {
        for (change, value, detail) in [
            ("/electrical/circuits/outlets/wire/run_ft", json!(-4), "must be 0 or more; got -4"),
            ("/parts/galley/electrical/power_factor", json!(0), "must be 0.05 or more; got 0"),
            ("/parts/galley/electrical/power_factor", json!(1.2), "must be 1 or less; got 1.2"),
            ("/parts/galley/electrical/power_w", json!(-1), "must be 0 or more; got -1"),
            ("/electrical/circuits/outlets/breaker_a", json!(0), "must be 0.1 or more; got 0"),
            ("/electrical/sources/shore/voltage_v", json!(0), "must be 1 or more; got 0"),
        ] {
            let fault = fault_with(&[(change, value)]);
            assert_eq!((fault.pointer.as_str(), fault.detail.as_str()), (change, detail));
        }
    }

    #[test]
    fn members_that_cannot_both_be_so_are_contradictions() {
        for (change, value, pointer, detail) in [
            (
                "/electrical/modes/off_grid/feeds/outlets",
                json!("bank"),
                "/electrical/modes/off_grid/feeds/outlets",
                "names bank, which gives direct current; in mode plugged_in shore feeds the circuit with alternating \
                 current, and a circuit carries one or the other",
            ),
            (
                "/electrical/modes/off_grid/feeds/lights",
                json!("inverter"),
                "/electrical/modes/off_grid/feeds/lights",
                "names inverter, but its feeder block is fed by bank; leave it out or name the same",
            ),
            (
                "/electrical/modes/off_grid/feeds",
                json!({"lights": "bank"}),
                "/electrical/modes/off_grid/feeds/lights",
                "names bank, but its feeder block is off; name the feeder's source in its place",
            ),
            (
                "/electrical/circuits/charge",
                json!({"leg": "b", "feeder": "outlets"}),
                "/electrical/circuits/charge/leg",
                "must be a, the leg of its feeder outlets, or be left out",
            ),
            (
                "/electrical/circuits/lamp",
                json!({"feeder": "lights"}),
                "/electrical/circuits/lamp/feeder",
                "names lights, which branches off block itself; a feeder starts at a source",
            ),
            (
                "/electrical/circuits/lights/feeder",
                json!("lights"),
                "/electrical/circuits/lights/feeder",
                "names the circuit itself; name another",
            ),
            (
                "/electrical/circuits/charge/leg",
                json!("a"),
                "/electrical/circuits/charge/leg",
                "must be the leg that outlets is not on; circuits share a neutral across the two legs",
            ),
            (
                "/electrical/sources/shore/idle_w",
                json!(14),
                "/electrical/sources/shore/idle_w",
                "belongs to an inverter; this source is of kind shore",
            ),
            (
                "/electrical/sources/bank/off_when_unused",
                json!(false),
                "/electrical/sources/bank/off_when_unused",
                "belongs to an inverter; this source is of kind battery",
            ),
            (
                "/electrical/sources/shore/part_load",
                json!("curve"),
                "/electrical/sources/shore/part_load",
                "belongs to an inverter; this source is of kind shore",
            ),
            (
                "/electrical/sources/bank/surge_w",
                json!(14),
                "/electrical/sources/bank/surge_w",
                "belongs to an inverter or a generator; this source is of kind battery",
            ),
            (
                "/electrical/sources/bank/circuit",
                json!("block"),
                "/electrical/sources/bank/circuit",
                "does not belong to a battery; the charger on one of its parts feeds it",
            ),
            (
                "/electrical/sources/bank/legs",
                json!(2),
                "/electrical/sources/bank/legs",
                "must be 1 for direct current; got 2",
            ),
            (
                "/electrical/sources/inverter/in_phase",
                json!(true),
                "/electrical/sources/inverter/in_phase",
                "needs legs 2; this source has one leg",
            ),
            (
                "/electrical/sources/inverter/surge_w",
                json!(1499),
                "/electrical/sources/inverter/surge_w",
                "must be continuous_w, 1500, or more; got 1499",
            ),
            (
                "/parts/galley/electrical/current_a",
                json!(4),
                "/parts/galley/electrical/current_a",
                "cannot stand beside power_w; both say how much it draws",
            ),
            (
                "/parts/galley/electrical/power_w",
                json!(null),
                "/parts/galley/electrical",
                "says no power; give power_w, current_a, horsepower, capacity_btu_h or charger",
            ),
            (
                "/parts/galley/electrical/ceer",
                json!(11),
                "/parts/galley/electrical/ceer",
                "says nothing without capacity_btu_h; give both, or power_w",
            ),
            (
                "/parts/galley/electrical/code_letter",
                json!("L"),
                "/parts/galley/electrical/code_letter",
                "says nothing without horsepower; give both, or inrush_multiple",
            ),
            (
                "/parts/galley/electrical",
                json!({"circuit": "outlets", "capacity_btu_h": 5000}),
                "/parts/galley/electrical/capacity_btu_h",
                "belongs to the kind room_air_conditioner; give that kind, or power_w",
            ),
            (
                "/parts/converter/electrical/charger/source",
                json!("shore"),
                "/parts/converter/electrical/charger/source",
                "must name a battery (bank); shore is none",
            ),
            (
                "/electrical/sources",
                json!({
                    "shore": {"kind": "shore", "voltage_v": 120}, "bank": {"kind": "battery", "voltage_v": 12.8},
                    "other": {"kind": "battery", "voltage_v": 12.8},
                    "inverter": {"kind": "inverter", "voltage_v": 120},
                }),
                "/electrical/sources/inverter/circuit",
                "is missing; with more than one battery name the circuit that feeds the inverter",
            ),
        ] {
            assert_contradiction(change, value, pointer, detail);
        }
    }

    #[test]
    fn a_part_may_say_what_it_draws_where_nothing_is_said_of_circuits() {
        assert_eq!(faults_with(&[("/electrical", json!(null)), ("/stay/mode", json!(null))]), []);
        assert_eq!(fault_with(&[("/electrical", json!(null))]).pointer, "/stay/mode");
    }
}
