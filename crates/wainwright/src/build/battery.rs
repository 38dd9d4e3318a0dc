//! Section `battery`: the house battery.

use crate::bounds;
use crate::document::{Choice, Faults, Options, Place, record};

use super::{Build, SourceKind};

record! {
    /// The house battery: the whole bank.
    pub struct Battery: "the battery" {
        /// What it is made of.
        required chemistry: Chemistry = Choice::of(), "lifepo4";
        /// What it holds, new and full, at its rated discharge.
        required capacity_ah: f64 = bounds::CAPACITY_AH, 200.0;
        /// Its nominal voltage.
        required nominal_v: f64 = bounds::VOLTAGE_V, 12.8;
        /// Share of the capacity that is used.
        optional usable_fraction: f64 = bounds::FRACTION, 0.9;
        /// Resistance of the whole bank between its terminals.
        optional resistance_mohm: f64 = bounds::RESISTANCE_MOHM, 2.0;
        /// Voltage of the bank at rest and full.
        optional open_circuit_v: f64 = bounds::VOLTAGE_V, 13.3;
        /// Greatest voltage it is charged at. Every device on its circuits sees it.
        optional charge_v: f64 = bounds::VOLTAGE_V, 14.4;
        /// Current of a short circuit at its terminals, as its maker states it.
        optional short_circuit_a: f64 = bounds::FAULT_A, 5000.0, aside;
        /// Cold-cranking rating of the whole bank, batteries in parallel added up.
        optional cold_cranking_a: f64 = bounds::COLD_CRANKING_A, 650.0, aside;
        /// Area of each of the two openings, above and below, that vent its compartment to the outside.
        optional vent_in2: f64 = bounds::VENT_IN2, 2.0;
        /// Greatest current it may give, as its maker or its management system has it.
        optional max_discharge_a: f64 = bounds::RATING_A, 200.0;
    }
}

/// What a battery is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Chemistry {
    /// Lead-acid with liquid electrolyte.
    Flooded,
    /// Lead-acid with absorbed electrolyte.
    Agm,
    /// Lead-acid with gelled electrolyte.
    Gel,
    /// Lithium iron phosphate.
    Lifepo4,
}

impl Options for Chemistry {
    const WORDS: &'static [(&'static str, Self)] =
        &[("flooded", Self::Flooded), ("agm", Self::Agm), ("gel", Self::Gel), ("lifepo4", Self::Lifepo4)];
}

impl Battery {
    /// A bank is of 12, 24 or 48 V, and so is the source that it stands behind, where there is one alone.
    pub(super) fn check(&self, build: &Build, at: &Place, faults: &mut Faults) {
        let mut sources = build.sources().filter(|(_, source)| source.kind == SourceKind::Battery);
        let (Some((id, source)), None) = (sources.next(), sources.next()) else { return };
        let alike = blocks(self.nominal_v) == blocks(source.voltage_v);
        let spoiled = |faults: &Faults| faults.spoil(&format!("/electrical/sources/{id}"));
        let any_voltage_read = self.nominal_v.is_finite() && source.voltage_v.is_finite();
        if !alike && any_voltage_read && !spoiled(faults) {
            let detail = format!(
                "must go with the {} V of the battery source {id}; got {}",
                source.voltage_v, self.nominal_v
            );
            faults.contradiction(&at.key("nominal_v"), detail);
        }
    }
}

/// Batteries of about 12 V that a voltage is made of.
pub fn blocks(voltage_v: f64) -> f64 {
    (voltage_v / 12.8).round().max(1.0)
}

impl Chemistry {
    /// Is it one of the lead-acid kinds?
    pub fn is_lead(self) -> bool {
        self != Self::Lifepo4
    }
}
