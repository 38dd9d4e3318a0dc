//! Section `battery`: the house battery.

use super::{Build, Charging, SourceKind};
use crate::bounds;
use crate::document::{Choice, Faults, Keyed, Map, Options, Place, Section, record};

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
        optional usable_fraction: f64 = bounds::USABLE_FRACTION, 0.9;
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
        optional reconnect_soc: f64 = bounds::RECONNECT_SOC, 0.3;
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
        self.check_source(build, at, faults);
        if !faults.spoil(&at.key("nominal_v").pointer()) {
            self.check_voltages(at, faults);
            self.check_series(at, faults);
        }
        let charging_at = at.key("charging");
        for (id, charging) in self.charging.iter().flatten() {
            let place = charging_at.key(id);
            charging.check(build, &place, faults);
            self.check_above_empty(charging.start_soc, &place.key("start_soc"), faults);
        }
        if self.cycle_depth.is_some() && self.cycles.is_none() {
            let detail = "says nothing without cycles; give both".to_owned();
            faults.contradiction_without(&["cycles"], at, &at.key("cycle_depth"), detail);
        }
        self.check_above_empty(self.reconnect_soc, &at.key("reconnect_soc"), faults);
    }

    /// A state of charge that something waits for is one that the battery falls below, or rises above, in use.
    fn check_above_empty(&self, soc: Option<f64>, at: &Place, faults: &mut Faults) {
        let usable = self.usable_fraction.unwrap_or(1.0);
        if let Some(soc) = soc
            && soc + usable <= 1.0 + ROUNDING
        {
            let empty = ((1.0 - usable) * 1000.0).round() / 1000.0;
            let detail = format!(
                "must be above {empty}, where the battery counts as empty (1 less usable_fraction); got {soc}"
            );
            faults.contradiction(at, detail);
        }
    }

    /// The voltages at rest and in charge are those of the whole bank, as the nominal one is. Left at those of 12 V, a bank
    /// of 24 V shows it.
    fn check_voltages(&self, at: &Place, faults: &mut Faults) {
        let (least_v, most_v) = (LEAST_OF_NOMINAL * self.nominal_v, MOST_OF_NOMINAL * self.nominal_v);
        for (name, volts) in [("open_circuit_v", self.open_circuit_v), ("charge_v", self.charge_v)] {
            if let Some(volts) = volts
                && (volts < least_v || volts > most_v)
            {
                let detail = format!(
                    "must go with nominal_v, {}, that of the whole bank; got {volts}",
                    self.nominal_v
                );
                faults.contradiction(&at.key(name), detail);
            }
        }
    }

    /// Each battery of a string is made of whole cells.
    fn check_series(&self, at: &Place, faults: &mut Faults) {
        let Some(series) = self.series.filter(|series| *series > 1) else { return };
        let each_v = self.nominal_v / f64::from(series);
        let (cell_v, least_v, most_v) =
            if self.chemistry.is_lead() { (2.0, 1.95, 2.2) } else { (3.2, 2.9, 3.5) };
        // The fewest cells that are not above their greatest voltage.
        let cells = (each_v / most_v).ceil();
        if cells * least_v > each_v && !faults.spoil(&at.key("chemistry").pointer()) {
            let detail = format!(
                "leaves {:.1} V for each battery, which is no whole number of cells of {cell_v} V; nominal_v, {}, is that of \
                 the whole bank",
                each_v, self.nominal_v
            );
            faults.contradiction(&at.key("series"), detail);
        }
    }

    /// A bank is of 12, 24 or 48 V, and so is the source that it stands behind, where there is one alone.
    fn check_source(&self, build: &Build, at: &Place, faults: &mut Faults) {
        let mut sources = build.sources().filter(|(_, source)| source.kind == SourceKind::Battery);
        let (Some((id, source)), None) = (sources.next(), sources.next()) else { return };
        let alike = blocks(self.nominal_v) == blocks(source.voltage_v);
        let any_voltage_read = self.nominal_v.is_finite() && source.voltage_v.is_finite();
        // Where a kind could not be read, there may be another battery.
        let kind_unread = |id: &str| faults.spoil(&format!("/electrical/sources/{id}/kind"));
        if !alike && any_voltage_read && !build.sources().any(|(id, _)| kind_unread(id)) {
            let detail = format!(
                "must go with the {} V of the battery source {id}; got {}",
                source.voltage_v, self.nominal_v
            );
            faults.contradiction(&at.key("nominal_v"), detail);
        }
    }
}

/// Two figures that make up a whole may miss it by rounding.
const ROUNDING: f64 = 1e-9;
/// Voltages of a battery at rest and in charge as multiples of its nominal one: an empty one to one that is equalized,
/// with room. Common practice.
const LEAST_OF_NOMINAL: f64 = 0.8;
const MOST_OF_NOMINAL: f64 = 1.5;

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

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use crate::FaultCode;
    use crate::build::fixture::{assert_contradiction, fault_with, faults_with, lines_with};

    const TRUCK: &str = "/battery/charging/truck";
    const GENERATOR: &str = "/battery/charging/generator";

    /// A bank in the place of the good build's, beside no source.
    fn bank(chemistry: &str, nominal_v: f64, series: u32) -> [(&'static str, Value); 4] {
        [
            ("/electrical", json!(null)),
            ("/stay", json!(null)),
            ("/parts/converter/electrical/charger/source", json!(null)),
            (
                "/battery",
                json!({"chemistry": chemistry, "capacity_ah": 100, "nominal_v": nominal_v, "series": series}),
            ),
        ]
    }

    #[test]
    fn members_of_a_battery_that_cannot_both_be_so_are_contradictions() {
        for (member, value, at, detail) in [
            ("cycles", json!(null), "cycle_depth", "says nothing without cycles; give both"),
            (
                "reconnect_soc",
                json!(0.1),
                "reconnect_soc",
                "must be above 0.1, where the battery counts as empty (1 less usable_fraction); got 0.1",
            ),
            (
                "nominal_v",
                json!(25.6),
                "nominal_v",
                "must go with the 12.8 V of the battery source bank; got 25.6",
            ),
            (
                "series",
                json!(8),
                "series",
                "leaves 1.6 V for each battery, which is no whole number of cells of 3.2 V; \
                nominal_v, 12.8, is that of the whole bank",
            ),
            (
                "charge_v",
                json!(28.8),
                "charge_v",
                "must go with nominal_v, 12.8, that of the whole bank; got 28.8",
            ),
            (
                "open_circuit_v",
                json!(6.6),
                "open_circuit_v",
                "must go with nominal_v, 12.8, that of the whole bank; got 6.6",
            ),
        ] {
            assert_contradiction(&format!("/battery/{member}"), value, &format!("/battery/{at}"), detail);
        }
    }

    #[test]
    fn a_bank_of_24_volts_with_the_voltages_of_12_is_told_of_each() {
        let mut changes = bank("lifepo4", 25.6, 2).to_vec();
        changes.extend([("/battery/open_circuit_v", json!(13.3)), ("/battery/charge_v", json!(14.4))]);
        assert_eq!(
            lines_with(&changes),
            [
                "/battery/open_circuit_v must go with nominal_v, 25.6, that of the whole bank; got 13.3",
                "/battery/charge_v must go with nominal_v, 25.6, that of the whole bank; got 14.4",
            ]
        );
    }

    #[test]
    fn a_string_is_of_batteries_that_there_are() {
        for (chemistry, nominal_v, series) in [
            ("agm", 12.0, 6),
            ("agm", 12.6, 2),
            ("flooded", 48.0, 8),
            ("gel", 24.0, 2),
            ("lifepo4", 12.0, 4),
            ("lifepo4", 12.8, 2),
            ("lifepo4", 51.2, 16),
            ("lifepo4", 48.0, 15),
            ("lifepo4", 25.6, 2),
            ("agm", 12.0, 1),
        ] {
            assert_eq!(
                faults_with(&bank(chemistry, nominal_v, series)),
                [],
                "{chemistry} {nominal_v} {series}"
            );
        }
        for (chemistry, nominal_v, series, each) in [
            ("agm", 12.0, 4, "3.0"),
            ("agm", 12.0, 8, "1.5"),
            ("lifepo4", 12.8, 3, "4.3"),
            ("lifepo4", 12.8, 100, "0.1"),
        ] {
            let fault = fault_with(&bank(chemistry, nominal_v, series));
            assert_eq!((fault.pointer.as_str(), fault.code), ("/battery/series", FaultCode::Contradiction));
            assert!(
                fault.detail.starts_with(&format!("leaves {each} V for each battery")),
                "{}",
                fault.detail
            );
        }
    }

    #[test]
    fn a_battery_of_which_nothing_is_used_is_none() {
        let fault = fault_with(&[("/battery/usable_fraction", json!(0))]);
        assert_eq!((fault.code, fault.minimum), (FaultCode::BelowMinimum, Some(0.01)));
        assert_eq!(
            faults_with(&[("/battery/usable_fraction", json!(1)), ("/battery/reconnect_soc", json!(0.01))]),
            []
        );
        let whole =
            fault_with(&[("/battery/usable_fraction", json!(null)), ("/battery/reconnect_soc", json!(0))]);
        assert!(whole.detail.starts_with("must be above 0, "), "{}", whole.detail);
    }

    #[test]
    fn members_of_a_charging_source_that_cannot_both_be_so_are_contradictions() {
        for (source, member, value, at, detail) in [
            (
                GENERATOR,
                "part",
                json!("bench"),
                "part",
                "names bench, which has no charger; name a part that has one",
            ),
            (
                GENERATOR,
                "part",
                json!("galley"),
                "part",
                "names galley, which has no charger; name a part that has one",
            ),
            (
                GENERATOR,
                "part",
                json!(null),
                "output_a",
                "is missing; say how much it gives, or name the part whose charger it feeds",
            ),
            (
                GENERATOR,
                "alternator_v",
                json!(14),
                "alternator_v",
                "belongs to a tow_vehicle; this is of kind generator",
            ),
            (
                GENERATOR,
                "line_mohm",
                json!(50),
                "line_mohm",
                "belongs to a tow_vehicle; this is of kind generator",
            ),
            (GENERATOR, "start_soc", json!(null), "stop_soc", "says nothing without start_soc; give both"),
            (GENERATOR, "stop_soc", json!(0.3), "stop_soc", "must be above start_soc, 0.3; got 0.3"),
            (
                GENERATOR,
                "start_soc",
                json!(0.05),
                "start_soc",
                "must be above 0.1, where the battery counts as empty (1 less usable_fraction); got 0.05",
            ),
            (
                TRUCK,
                "hours_per_day",
                json!(null),
                "hours_per_day",
                "is missing; say how many hours of a day the tow vehicle is driven, or give on_fraction",
            ),
            (
                TRUCK,
                "part",
                json!("converter"),
                "part",
                "belongs to shore or generator; a tow_vehicle charges over a line of its own: give output_a in its place",
            ),
            (TRUCK, "on_fraction", json!([1, 0]), "on_fraction", "must have 24 figures, one an hour; has 2"),
            (
                TRUCK,
                "months",
                json!([]),
                "months",
                "is empty, so that it is never on; leave it out for all months",
            ),
        ] {
            assert_contradiction(&format!("{source}/{member}"), value, &format!("{source}/{at}"), detail);
        }
    }

    #[test]
    fn a_charging_source_says_enough_in_several_ways() {
        for (source, value) in [
            (TRUCK, json!({"kind": "tow_vehicle", "hours_per_day": 0})),
            (TRUCK, json!({"kind": "tow_vehicle", "on_fraction": vec![0.5; 24]})),
            (GENERATOR, json!({"kind": "shore", "output_a": 30})),
            (GENERATOR, json!({"kind": "generator", "part": "converter", "start_soc": 0.3})),
        ] {
            assert_eq!(lines_with(&[(source, value)]), Vec::<String>::new());
        }
    }

    #[test]
    fn a_part_that_is_not_there_is_answered_with_those_that_are() {
        let fault = fault_with(&[("/battery/charging/generator/part", json!("convertor"))]);
        assert_eq!((fault.code, fault.suggestion.as_deref()), (FaultCode::UnknownId, Some("converter")));
        assert_eq!(fault.detail, "names \"convertor\", which is not in /parts; did you mean converter?");
    }

    #[test]
    fn several_mistakes_in_a_battery_are_all_named() {
        assert_eq!(
            lines_with(&[
                ("/battery/chemistry", json!("lipo")),
                ("/battery/cycles", json!(null)),
                ("/battery/charging/generator/stop_soc", json!(0.2)),
                ("/battery/charging/generator/line_mohm", json!(4)),
                ("/battery/charging/truck/hours_per_day", json!(25)),
            ])
            .iter()
            .map(|line| line.split(' ').next().unwrap())
            .collect::<Vec<_>>(),
            [
                "/battery/chemistry",
                "/battery/cycle_depth",
                "/battery/charging/generator/stop_soc",
                "/battery/charging/generator/line_mohm",
                "/battery/charging/truck/hours_per_day",
            ]
        );
    }

    #[test]
    fn what_could_not_be_read_is_at_fault_alone() {
        for (changes, pointer) in [
            (vec![("/battery/charging/truck/kind", json!("truck"))], "/battery/charging/truck/kind"),
            (
                vec![
                    ("/battery/charging/truck/kind", json!("car")),
                    ("/battery/charging/truck/output_a", json!(null)),
                ],
                "/battery/charging/truck/kind",
            ),
            (
                vec![
                    ("/battery/charging/generator/kind", json!(7)),
                    ("/battery/charging/generator/part", json!(null)),
                ],
                "/battery/charging/generator/kind",
            ),
            (
                vec![("/battery/charging/truck/hours_per_day", json!("2"))],
                "/battery/charging/truck/hours_per_day",
            ),
            (
                vec![("/battery/charging/generator/start_soc", json!(30))],
                "/battery/charging/generator/start_soc",
            ),
            (vec![("/battery/charging/generator/part", json!(7))], "/battery/charging/generator/part"),
            (vec![("/parts/converter/electrical/charger", json!(7))], "/parts/converter/electrical/charger"),
            (vec![("/parts/converter/electrical", json!([]))], "/parts/converter/electrical"),
            (
                vec![(
                    "/parts/converter/electrical",
                    json!({"circuit": "charge", "chargers": {"output_a": 45}}),
                )],
                "/parts/converter/electrical/chargers",
            ),
            (vec![("/parts/converter", json!(7))], "/parts/converter"),
            (vec![("/battery/usable_fraction", json!(90))], "/battery/usable_fraction"),
            (vec![("/battery/cycles", json!("many"))], "/battery/cycles"),
            (vec![("/battery/nominal_v", json!("12"))], "/battery/nominal_v"),
            (vec![("/battery/series", json!(0))], "/battery/series"),
            // 3.2 V each are no lead-acid battery, the first of the list of chemistries.
            (vec![("/battery/chemistry", json!("lithium"))], "/battery/chemistry"),
            (vec![("/electrical/sources/bank/voltage_v", json!("24"))], "/electrical/sources/bank/voltage_v"),
        ] {
            assert_eq!(fault_with(&changes).pointer, pointer);
        }
    }

    /// A second battery whose kind is misspelled: the first is not the only one.
    #[test]
    fn a_source_whose_kind_could_not_be_read_may_be_another_battery() {
        let sources = json!({
            "shore": {"kind": "shore", "voltage_v": 120}, "inverter": {"kind": "inverter", "voltage_v": 120, "circuit": "cable"},
            "bank": {"kind": "battery", "voltage_v": 25.6}, "small": {"kind": "batery", "voltage_v": 12.8},
        });
        assert_eq!(fault_with(&[("/electrical/sources", sources)]).pointer, "/electrical/sources/small/kind");
    }

    #[test]
    fn a_misspelled_member_is_not_missed_too() {
        for (source, members, wrong) in [
            (GENERATOR, json!({"kind": "shore", "output_aa": 30}), "output_aa"),
            (
                GENERATOR,
                json!({"kind": "shore", "output_a": 30, "start_so": 0.3, "stop_soc": 0.8}),
                "start_so",
            ),
            (TRUCK, json!({"kind": "tow_vehicle", "hours_a_day": 2}), "hours_a_day"),
        ] {
            let fault = fault_with(&[(source, members)]);
            assert_eq!((fault.code, fault.pointer), (FaultCode::UnknownField, format!("{source}/{wrong}")));
        }
        // What is near another name is no excuse.
        let lines = lines_with(&[(TRUCK, json!({"kind": "tow_vehicle", "line_ohm": 2}))]);
        assert_eq!(lines.len(), 2, "{lines:?}");
    }
}
