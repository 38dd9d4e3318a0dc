//! Section `battery`: the house battery.

use serde_json::json;

use super::{Build, Draw, Schedule, SourceKind, Weekday};
use crate::bounds;
use crate::document::{Choice, Faults, Keyed, List, Map, Options, Place, Section, record};

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
        /// Batteries in series in a string. `capacity_ah` and `nominal_v` stay those of the whole bank.
        optional series: u32 = bounds::BATTERIES, 1;
        /// Strings in parallel.
        optional parallel: u32 = bounds::BATTERIES, 2;
        /// Hours over which its capacity is rated.
        optional rated_h: f64 = bounds::RATED_H, 20.0;
        /// Peukert's exponent: by how much a greater current leaves less to draw.
        optional peukert_exponent: f64 = bounds::PEUKERT_EXPONENT, 1.05;
        /// Share of the energy put in that comes out again.
        optional round_trip_efficiency: f64 = bounds::EFFICIENCY, 0.94;
        /// Share of its charge that it loses by itself in 30 days.
        optional self_discharge_fraction: f64 = bounds::FRACTION, 0.02;
        /// Greatest current it may be charged with, as its maker or its management system has it.
        optional max_charge_a: f64 = bounds::RATING_A, 100.0;
        /// How long the charge that is missing near the top takes to go in: its time constant.
        optional absorption_h: f64 = bounds::TIME_CONSTANT_H, 0.2;
        /// State of charge at which the loads are switched on again after the battery was empty. Left out, at once.
        optional reconnect_soc: f64 = bounds::FRACTION, 0.3;
        /// How long its temperature takes to follow the air's: its time constant.
        optional thermal_h: f64 = bounds::TIME_CONSTANT_H, 6.0;
        /// Power of the heater that keeps it warm enough to be charged.
        optional heater_w: f64 = bounds::POWER_W, 40.0;
        /// Full cycles of `cycle_depth` until it has 80 percent of its capacity left, as its maker states them.
        optional cycles: f64 = bounds::CYCLES, 3000.0;
        /// The depth for which `cycles` is stated.
        optional cycle_depth: f64 = bounds::CYCLE_DEPTH, 0.8;
        /// What charges it beside the sun.
        optional charging: Keyed<Charging> = Map { of: Section::of(), most: bounds::MOST_SOURCES, example_id: "generator" };
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

record! {
    /// Something that charges the battery beside the sun, and when.
    pub struct Charging: "a charging source" {
        /// What it is.
        required kind: ChargingKind = Choice::of(), "generator";
        /// The part whose charger it feeds; its output counts.
        optional part: String = bounds::NAME, "converter", aside;
        /// Greatest current it gives to the battery.
        optional output_a: f64 = bounds::RATING_A, 45.0;
        /// Greatest power it takes in.
        optional input_w: f64 = bounds::RATED_POWER_W, 800.0;
        /// Share of the power taken in that it gives on.
        optional efficiency: f64 = bounds::EFFICIENCY, 0.85;
        /// Voltage of the tow vehicle's alternator.
        optional alternator_v: f64 = bounds::VOLTAGE_V, 14.0, aside;
        /// Resistance of the line from the alternator, there and back.
        optional line_mohm: f64 = bounds::LINE_MOHM, 50.0, aside;
        /// Hours of a day in which it can run.
        optional hours_per_day: f64 = bounds::HOURS_PER_DAY, 2.0;
        /// Share of each hour of the day in which it can run, from midnight on: 24 figures. Left out, `hours_per_day` is
        /// spread over the day.
        optional on_fraction: Vec<f64> = List { of: bounds::FRACTION, most: bounds::MOST_HOURS }, json!([0, 0, 0, 0, 0, 0, 0, 0, 0, 1, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0]);
        /// The days on which it can run. Left out, all.
        optional weekdays: Vec<Weekday> = List { of: Choice::of(), most: bounds::WEEKDAYS }, json!(["sat", "sun"]);
        /// The months in which it can run, by number. Left out, all.
        optional months: Vec<u32> = List { of: bounds::MONTH, most: bounds::MONTHS }, json!([11, 12, 1]);
        /// State of charge below which it is started. Left out, it runs whenever it can.
        optional start_soc: f64 = bounds::FRACTION, 0.3;
        /// State of charge at which it is stopped. Left out, when it can run no longer.
        optional stop_soc: f64 = bounds::FRACTION, 0.8;
    }
}

/// What charges a battery beside the sun.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ChargingKind {
    /// Shore power, behind a charger.
    Shore,
    /// An engine generator, behind a charger.
    Generator,
    /// The tow vehicle's alternator, while driving.
    TowVehicle,
}

impl Options for ChargingKind {
    const WORDS: &'static [(&'static str, Self)] =
        &[("shore", Self::Shore), ("generator", Self::Generator), ("tow_vehicle", Self::TowVehicle)];
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
    pub(super) fn check(&self, build: &Build, at: &Place, faults: &mut Faults) {
        self.check_voltage(build, at, faults);
        for (id, charging) in self.charging.iter().flatten() {
            charging.check(build, &at.key("charging").key(id), faults);
        }
        if self.cycle_depth.is_some() && self.cycles.is_none() {
            faults.contradiction(&at.key("cycle_depth"), "says nothing without cycles; give both".to_owned());
        }
        let floor = 1.0 - self.usable_fraction.unwrap_or(1.0);
        if let Some(soc) = self.reconnect_soc
            && soc <= floor
        {
            let detail = format!(
                "must be above {floor:.3}, where the battery counts as empty (1 less usable_fraction); got {soc}"
            );
            faults.contradiction(&at.key("reconnect_soc"), detail);
        }
    }

    /// A bank is of 12, 24 or 48 V, and so is the source that it stands behind, where there is one alone.
    fn check_voltage(&self, build: &Build, at: &Place, faults: &mut Faults) {
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

impl Charging {
    /// When it can run.
    pub fn schedule(&self) -> Schedule<'_> {
        Schedule {
            hours_per_day: self.hours_per_day,
            on_fraction: self.on_fraction.as_deref(),
            weekdays: self.weekdays.as_deref(),
            months: self.months.as_deref(),
        }
    }

    fn check(&self, build: &Build, at: &Place, faults: &mut Faults) {
        self.schedule().check(at, faults);
        if let Some(part) = &self.part {
            let place = at.key("part");
            faults.check_reference(&place, part, "/parts", build.parts.as_ref());
            let draw =
                build.parts.as_ref().and_then(|parts| parts.get(part)).map(|part| part.electrical.as_ref());
            let has_charger = |draw: Option<&Draw>| draw.is_some_and(|draw| draw.charger.is_some());
            if draw.is_some_and(|draw| !has_charger(draw)) && !faults.spoil(&format!("/parts/{part}")) {
                faults.contradiction(
                    &place,
                    format!("names {part}, which has no charger; name a part that has one"),
                );
            }
        }
        let of_tow_vehicle =
            [("alternator_v", self.alternator_v.is_some()), ("line_mohm", self.line_mohm.is_some())];
        for (name, given) in of_tow_vehicle {
            if given && self.kind != ChargingKind::TowVehicle && !faults.spoil(&at.key("kind").pointer()) {
                let this = ChargingKind::WORDS[self.kind as usize].0;
                faults.contradiction(
                    &at.key(name),
                    format!("belongs to a tow_vehicle; this is of kind {this}"),
                );
            }
        }
        if self.output_a.is_none() && self.part.is_none() && self.kind != ChargingKind::TowVehicle {
            let detail =
                "is missing; say how much it gives, or name the part whose charger it feeds".to_owned();
            faults.contradiction(&at.key("output_a"), detail);
        }
        if self.stop_soc.is_some() && self.start_soc.is_none() {
            faults.contradiction(&at.key("stop_soc"), "says nothing without start_soc; give both".to_owned());
        }
        if let (Some(start), Some(stop)) = (self.start_soc, self.stop_soc)
            && stop <= start
        {
            faults
                .contradiction(&at.key("stop_soc"), format!("must be above start_soc, {start}; got {stop}"));
        }
    }
}
