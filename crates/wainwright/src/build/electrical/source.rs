//! One source: what feeds circuits.

use serde_json::json;

use super::{Electrical, Wire};
use crate::bounds;
use crate::document::{Choice, Faults, Flag, Keyed, Map, Options, Place, Section, record};

record! {
    /// Something that can feed a circuit.
    pub struct Source: "a source" {
        /// What it is. An inverter takes its power from a circuit of the build; the others bring their own.
        required kind: SourceKind = Choice::of(), "shore";
        /// Its voltage: from hot leg to neutral for alternating current, at its terminals for direct current.
        required voltage_v: f64 = bounds::VOLTAGE_V, 120.0;
        /// What it is rated for: the inlet and its plug, the generator's outlet, the greatest current the battery
        /// may give.
        optional rating_a: f64 = bounds::RATING_A, 30.0;
        /// Ratings of what its current passes, each by a name of your own: household outlet, adapter, cord, inlet,
        /// transfer switch, main breaker. The least of all counts.
        optional path_a: Keyed<f64> = Map { of: bounds::RATING_A, most: bounds::MOST_PATH, example_id: "main_breaker" }, json!({"main_breaker": 30.0});
        /// Share of the rating that may be carried for three hours and more.
        optional continuous_fraction: f64 = bounds::FRACTION, 0.8;
        /// Hot legs against the neutral: 2 for a 120/240 V supply.
        optional legs: u32 = bounds::LEGS, 1;
        /// Are both legs in phase, as behind an adapter from one 120 V outlet or with a 120 V inverter on both?
        optional in_phase: bool = Flag, false;
        /// Are neutral and ground joined at this source?
        optional neutral_bonded: bool = Flag, true;
        /// Does a ground-fault device at the source itself (a household or pedestal outlet) guard the whole cord?
        optional gfci: bool = Flag, false;
        /// Power it can give for hours (inverter, generator).
        optional continuous_w: f64 = bounds::RATED_POWER_W, 2000.0, aside;
        /// Power it can give while something starts (inverter, generator).
        optional surge_w: f64 = bounds::RATED_POWER_W, 4000.0, aside;
        /// How long it can give that power. Left out, starts are held against the power alone.
        optional surge_s: f64 = bounds::START_S, 3.0, aside;
        /// What an inverter takes from the battery with nothing switched on.
        optional idle_w: f64 = bounds::POWER_W, 18.0, aside;
        /// Share of the power taken from the battery that an inverter gives on, beyond its idle draw.
        optional efficiency: f64 = bounds::EFFICIENCY, 0.9, aside;
        /// Does its efficiency stay the same at part load (`flat`), or follow the curve of a reference inverter, its idle
        /// draw included (`curve`)?
        optional part_load: PartLoad = Choice::of(), "flat", aside;
        /// Is an inverter switched off while nothing runs on it? Left out, its idle draw counts day and night.
        optional off_when_unused: bool = Flag, false, aside;
        /// Voltage at which an inverter shuts off, where its input current is greatest.
        optional cutoff_v: f64 = bounds::VOLTAGE_V, 11.6, aside;
        /// The circuit that feeds it: an inverter's cable from the battery, or the outlet that a cord is plugged into.
        optional circuit: String = bounds::NAME, "inverter_feed", aside;
        /// The cord or cable from it to the panel.
        optional lead: Wire = Section::of();
    }
}

/// What an inverter's efficiency does at part load.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PartLoad {
    /// It stays the same.
    Flat,
    /// It follows the curve of a reference inverter.
    Curve,
}

impl Options for PartLoad {
    const WORDS: &'static [(&'static str, Self)] = &[("flat", Self::Flat), ("curve", Self::Curve)];
}

/// What a source is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SourceKind {
    /// Shore power: a pedestal, a household outlet.
    Shore,
    /// An engine generator.
    Generator,
    /// An inverter, fed by the battery.
    Inverter,
    /// The battery.
    Battery,
}

impl Options for SourceKind {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("shore", Self::Shore),
        ("generator", Self::Generator),
        ("inverter", Self::Inverter),
        ("battery", Self::Battery),
    ];
}

impl SourceKind {
    /// Does it give alternating current?
    pub fn is_ac(self) -> bool {
        self != Self::Battery
    }
}

impl Source {
    pub(super) fn check(&self, electrical: &Electrical, at: &Place, faults: &mut Faults) {
        if let Some(circuit) = &self.circuit {
            let place = at.key("circuit");
            faults.check_reference(&place, circuit, "/electrical/circuits", electrical.circuits.as_ref());
        }
        self.check_kind(at, faults);
        if let (Some(surge), Some(continuous)) = (self.surge_w, self.continuous_w)
            && surge < continuous
        {
            faults.contradiction(
                &at.key("surge_w"),
                format!("must be continuous_w, {continuous}, or more; got {surge}"),
            );
        }
        let batteries =
            electrical.sources.iter().flatten().filter(|(_, source)| source.kind == SourceKind::Battery);
        if self.kind == SourceKind::Inverter && self.circuit.is_none() && batteries.count() > 1 {
            let detail =
                "is missing; with more than one battery name the circuit that feeds the inverter".to_owned();
            if !faults.spoil("/electrical/sources") && !faults.spoil(&at.key("kind").pointer()) {
                faults.contradiction(&at.key("circuit"), detail);
            }
        }
        if self.in_phase == Some(true) && self.legs != Some(2) && !faults.spoil(&at.key("legs").pointer()) {
            faults.contradiction(&at.key("in_phase"), "needs legs 2; this source has one leg".to_owned());
        }
    }

    /// Members that belong to another kind of source.
    fn check_kind(&self, at: &Place, faults: &mut Faults) {
        let gives_power = "an inverter or a generator";
        let members = [
            ("continuous_w", self.continuous_w.is_some(), gives_power),
            ("surge_w", self.surge_w.is_some(), gives_power),
            ("surge_s", self.surge_s.is_some(), gives_power),
            ("idle_w", self.idle_w.is_some(), "an inverter"),
            ("efficiency", self.efficiency.is_some(), "an inverter"),
            ("part_load", self.part_load.is_some(), "an inverter"),
            ("off_when_unused", self.off_when_unused.is_some(), "an inverter"),
            ("cutoff_v", self.cutoff_v.is_some(), "an inverter"),
        ];
        let this = SourceKind::WORDS[self.kind as usize].0;
        let kind_is_read = |faults: &Faults| !faults.spoil(&at.key("kind").pointer());
        for (name, given, whose) in members {
            if given && !whose.contains(this) && kind_is_read(faults) {
                faults.contradiction(
                    &at.key(name),
                    format!("belongs to {whose}; this source is of kind {this}"),
                );
            }
        }
        if self.kind == SourceKind::Battery
            && (self.circuit.is_some() || self.legs == Some(2))
            && kind_is_read(faults)
        {
            if self.circuit.is_some() {
                let detail =
                    "does not belong to a battery; the charger on one of its parts feeds it".to_owned();
                faults.contradiction(&at.key("circuit"), detail);
            }
            if self.legs == Some(2) {
                faults.contradiction(&at.key("legs"), "must be 1 for direct current; got 2".to_owned());
            }
        }
    }
}
