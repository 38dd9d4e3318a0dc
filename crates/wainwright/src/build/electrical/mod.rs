//! Section `electrical`: supplies, circuits, and which supply feeds which circuit in each supply mode.

mod circuit;
mod mode;
mod source;
mod wire;

pub use circuit::{Circuit, Leg};
pub use mode::Mode;
pub use source::{Source, SourceKind};
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
