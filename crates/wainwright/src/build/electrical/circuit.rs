//! One circuit: its device, its outlets and its wire.

use super::{Electrical, Wire};
use crate::bounds;
use crate::document::{Choice, Faults, Flag, Options, Place, Section, record};
use crate::standards::fuse::Family;

record! {
    /// One circuit: what protects it, what is plugged into it, and its wire.
    pub struct Circuit: "a circuit" {
        /// Rating of its breaker or fuse.
        optional breaker_a: f64 = bounds::RATING_A, 15.0;
        /// What protects it: a breaker, or a family of fuses.
        optional device: Family = Choice::of(), "breaker";
        /// Fault current that the device can break, as its maker states it.
        optional interrupting_a: f64 = bounds::FAULT_A, 10_000.0;
        /// Direct voltage that the device is made for, as its maker states it.
        optional device_v: f64 = bounds::VOLTAGE_V, 125.0, aside;
        /// Length of wire from the battery or the bus bar to the device.
        optional device_distance_in: f64 = bounds::LENGTH_IN, 6.0, aside;
        /// Has its maker tested the device to break a fault with the feeder's fuse ahead of it?
        optional series_rated: bool = Flag, false;
        /// Rating of its outlets.
        optional receptacle_a: f64 = bounds::RATING_A, 15.0;
        /// How many outlets it has.
        optional receptacles: u32 = bounds::RECEPTACLES, 2;
        /// Does a ground-fault device guard it?
        optional gfci: bool = Flag, true;
        /// Has it an outlet within 6 ft of a sink or lavatory, in a wet bath, or outdoors?
        optional near_water: bool = Flag, true;
        /// The leg of a 120/240 V supply it is on.
        optional leg: Leg = Choice::of(), "a";
        /// The circuit of the other leg that it shares a neutral with (a multiwire circuit).
        optional shares_neutral_with: String = bounds::NAME, "bay", aside;
        /// The bus bar it starts from, by a name of your own. Circuits of one bus bar can only be fed by one source at
        /// a time. Left out, the circuit is switched by itself.
        optional bus: String = bounds::NAME, "main_panel", aside;
        /// The circuit it branches off, where a cable feeds a fuse block or a second panel.
        optional feeder: String = bounds::NAME, "dc_panel", aside;
        /// Share of the voltage that may be lost on the way. Left out, 3 %; 10 % where all it feeds is lights of a
        /// 12 V circuit; 2 % for an inverter's cable.
        optional max_drop_fraction: f64 = bounds::FRACTION, 0.03;
        /// Its wire.
        optional wire: Wire = Section::of();
    }
}

/// A leg of a 120/240 V supply.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Leg {
    /// The first leg.
    A,
    /// The second leg.
    B,
    /// Both legs: a 240 V load.
    Both,
}

impl Options for Leg {
    const WORDS: &'static [(&'static str, Self)] = &[("a", Self::A), ("b", Self::B), ("both", Self::Both)];
}

impl Circuit {
    pub(super) fn check(&self, id: &str, electrical: &Electrical, at: &Place, faults: &mut Faults) {
        let circuits = electrical.circuits.as_ref();
        let named = [("shares_neutral_with", &self.shares_neutral_with), ("feeder", &self.feeder)];
        for (name, other) in named.iter().filter_map(|(name, other)| Some((name, other.as_ref()?))) {
            let place = at.key(name);
            faults.check_reference(&place, other, "/electrical/circuits", circuits);
            if other == id {
                faults.contradiction(&place, "names the circuit itself; name another".to_owned());
            }
        }
        let Some(circuits) = circuits else { return };
        if let Some(feeder) = self.feeder.as_ref().filter(|feeder| *feeder != id)
            && let Some(above) = circuits.get(feeder).and_then(|feeder| feeder.feeder.as_ref())
            && !faults.spoil(&format!("/electrical/circuits/{feeder}/feeder"))
        {
            faults.contradiction(
                &at.key("feeder"),
                format!("names {feeder}, which branches off {above} itself; a feeder starts at a source"),
            );
        }
        if let Some(feeder) = &self.feeder
            && let (Some(leg), Some(Some(of_feeder))) =
                (self.leg, circuits.get(feeder).map(|feeder| feeder.leg))
            && of_feeder != Leg::Both
            && leg != of_feeder
            && !faults.spoil(&format!("/electrical/circuits/{feeder}/leg"))
        {
            let word = Leg::WORDS[of_feeder as usize].0;
            faults.contradiction(
                &at.key("leg"),
                format!("must be {word}, the leg of its feeder {feeder}, or be left out"),
            );
        }
        if let Some(other) = &self.shares_neutral_with
            && let Some(partner) = circuits.get(other)
            && (self.leg.is_none() || self.leg == partner.leg || self.leg == Some(Leg::Both))
            && !faults.spoil(&format!("/electrical/circuits/{other}/leg"))
        {
            faults.contradiction(
                &at.key("leg"),
                format!(
                    "must be the leg that {other} is not on; circuits share a neutral across the two legs"
                ),
            );
        }
    }
}
