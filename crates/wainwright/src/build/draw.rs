//! The electrical side of a part: what it draws.

use serde_json::{Value, json};

use super::{Build, Schedule, SourceKind, Weekday};
use crate::bounds;
use crate::document::{Choice, Faults, Flag, List, Options, Place, Section, record};
use crate::standards::motor::CodeLetter;

record! {
    /// What a part draws while it runs. One of `power_w`, `current_a`, `horsepower`, `capacity_btu_h` and `charger` says
    /// how much; of several of the same part each draws it.
    pub struct Draw: "the electrical side of a part" {
        /// The circuit it is on.
        required circuit: String = bounds::NAME, "galley";
        /// Power it takes in while it runs.
        optional power_w: f64 = bounds::POWER_W, 60.0;
        /// Current it takes in while it runs, from its nameplate.
        optional current_a: f64 = bounds::CURRENT_A, 4.2, aside;
        /// Shaft power of a general motor, whose current then comes from the code's table.
        optional horsepower: f64 = bounds::HORSEPOWER, 0.5, aside;
        /// Code letter on the nameplate of such a motor, from which its starting current comes.
        optional code_letter: CodeLetter = Choice::of(), "L", aside;
        /// Cooling capacity of a room air conditioner, from which its power comes.
        optional capacity_btu_h: f64 = bounds::CAPACITY_BTU_H, 5000.0, aside;
        /// Combined energy efficiency ratio of its label. Left out, the least that the law has allowed since 2014.
        optional ceer: f64 = bounds::CEER, 11.0, aside;
        /// A charger or converter that feeds a battery and its circuits.
        optional charger: Charger = Section::of(), Value::Null;
        /// Voltage that a resistive load's power is stated for. Left out, that of its source.
        optional rated_v: f64 = bounds::VOLTAGE_V, 120.0, aside;
        /// Share of its volt-amperes that is power.
        optional power_factor: f64 = bounds::POWER_FACTOR, 0.95;
        /// What it is. An `electronic` load keeps its power and draws more when the voltage sags. Left out, a motor where
        /// `horsepower` is given, electronic elsewhere.
        optional kind: LoadKind = Choice::of(), "electronic";
        /// Does it run for three hours or more at a time?
        optional continuous: bool = Flag, true;
        /// Current at the start, as a multiple of the running current.
        optional inrush_multiple: f64 = bounds::INRUSH_MULTIPLE, 5.0;
        /// How long the start takes.
        optional inrush_s: f64 = bounds::START_S, 0.5;
        /// Hours at that power in a day.
        optional hours_per_day: f64 = bounds::HOURS_PER_DAY, 8.0;
        /// Share of each hour of the day in which it runs, from midnight on: 24 figures. Left out, `hours_per_day` is
        /// spread over the day.
        optional on_fraction: Vec<f64> = List { of: bounds::FRACTION, most: bounds::MOST_HOURS }, json!([0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.5, 1.0, 0.2, 0.0, 0.0, 0.0, 0.5, 0.0, 0.0, 0.0, 0.0, 0.5, 1.0, 1.0, 1.0, 1.0, 0.0, 0.0]);
        /// The days on which it runs. Left out, all.
        optional weekdays: Vec<Weekday> = List { of: Choice::of(), most: bounds::WEEKDAYS }, json!(["fri", "sat", "sun"]);
        /// The months in which it runs, by number. Left out, all.
        optional months: Vec<u32> = List { of: bounds::MONTH, most: bounds::MONTHS }, json!([10, 11, 12, 1, 2, 3, 4]);
        /// What it keeps cold, where it is a compressor refrigerator: how long it runs then follows the air around it.
        optional refrigerator: Refrigerator = Section::of(), Value::Null;
        /// Is it fastened in place? Left out, what is on a circuit with outlets is plugged in, the rest is fastened.
        optional fixed: bool = Flag, false;
        /// Does a thermostat switch it? A room air conditioner always counts as one.
        optional thermostat: bool = Flag, false;
        /// Is it switched for moments only, by a switch that must be held?
        optional momentary: bool = Flag, false;
        /// How much it matters that it may run beside the rest: the best set has the greatest sum.
        optional priority: f64 = bounds::PRIORITY, 1.0;
    }
}

record! {
    /// A compressor refrigerator or freezer. Its energy is stated by its maker, or follows from the heat that leaks in.
    pub struct Refrigerator: "a refrigerator" {
        /// The temperature it keeps.
        optional inside_f: f64 = bounds::COLD_BOX_F, 39.0;
        /// Heat that leaks in for each degree between inside and outside.
        optional heat_leak_w_per_k: f64 = bounds::HEAT_LEAK_W_PER_K, 0.6;
        /// Energy it takes in a day in a room of `rated_f`, as its maker states it.
        optional kwh_per_day: f64 = bounds::KWH_PER_DAY, 0.45, aside;
        /// The room for which `kwh_per_day` is stated. Left out, 90 °F.
        optional rated_f: f64 = bounds::ROOM_F, 90.0, aside;
    }
}

record! {
    /// A charger or converter: its side toward the battery.
    pub struct Charger: "a charger" {
        /// Greatest current it gives.
        required output_a: f64 = bounds::RATING_A, 45.0;
        /// Voltage it gives it at.
        optional output_v: f64 = bounds::VOLTAGE_V, 13.8;
        /// Share of the power taken in that it gives on.
        optional efficiency: f64 = bounds::EFFICIENCY, 0.85;
        /// The battery it charges. Left out, the only one there is.
        optional source: String = bounds::NAME, "house_battery", aside;
    }
}

/// What a load is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LoadKind {
    /// Keeps its power: electronics, anything with a converter inside.
    Electronic,
    /// A heating element: draws less when the voltage sags.
    Resistive,
    /// A motor.
    Motor,
    /// A room air conditioner.
    RoomAirConditioner,
    /// Lights.
    Lighting,
}

impl Options for LoadKind {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("electronic", Self::Electronic),
        ("resistive", Self::Resistive),
        ("motor", Self::Motor),
        ("room_air_conditioner", Self::RoomAirConditioner),
        ("lighting", Self::Lighting),
    ];
}

impl Draw {
    pub(super) fn check(&self, build: &Build, at: &Place, faults: &mut Faults) {
        // Where nothing is said of circuits at all, only other questions are meant to be asked.
        if let Some(electrical) = &build.electrical {
            let circuits = electrical.circuits.as_ref();
            faults.check_reference(&at.key("circuit"), &self.circuit, "/electrical/circuits", circuits);
            if let Some(source) = self.charger.as_ref().and_then(|charger| charger.source.as_ref()) {
                let place = at.key("charger");
                let sources = electrical.sources.as_ref();
                let place = place.key("source");
                faults.check_reference(&place, source, "/electrical/sources", sources);
                let kind = sources.and_then(|sources| Some(sources.get(source)?.kind));
                let is_read = |faults: &Faults| !faults.spoil(&format!("/electrical/sources/{source}/kind"));
                if kind.is_some_and(|kind| kind != SourceKind::Battery) && is_read(faults) {
                    let batteries = build.sources().filter(|(_, source)| source.kind == SourceKind::Battery);
                    let batteries: Vec<&str> = batteries.map(|(id, _)| id).collect();
                    let known =
                        if batteries.is_empty() { "there is none".to_owned() } else { batteries.join(", ") };
                    faults.contradiction(&place, format!("must name a battery ({known}); {source} is none"));
                }
            }
        }
        let stated = [
            ("power_w", self.power_w.is_some()),
            ("current_a", self.current_a.is_some()),
            ("horsepower", self.horsepower.is_some()),
            ("capacity_btu_h", self.capacity_btu_h.is_some()),
        ];
        let mut given = stated.iter().filter(|(_, given)| *given).map(|(name, _)| *name);
        if let Some(one) = given.next() {
            for other in given {
                let detail = format!("cannot stand beside {one}; both say how much it draws");
                faults.contradiction(&at.key(other), detail);
            }
        } else if self.charger.is_none() {
            let names = ["power_w", "current_a", "horsepower", "capacity_btu_h", "charger"];
            let detail =
                "says no power; give power_w, current_a, horsepower, capacity_btu_h or charger".to_owned();
            faults.contradiction_without(&names, at, at, detail);
        }
        let kind_is_read = |faults: &Faults| !faults.spoil(&at.key("kind").pointer());
        if self.capacity_btu_h.is_some()
            && self.kind != Some(LoadKind::RoomAirConditioner)
            && kind_is_read(faults)
        {
            let detail = "belongs to the kind room_air_conditioner; give that kind, or power_w".to_owned();
            faults.contradiction(&at.key("capacity_btu_h"), detail);
        }
        if self.ceer.is_some() && self.capacity_btu_h.is_none() {
            let detail = "says nothing without capacity_btu_h; give both, or power_w".to_owned();
            faults.contradiction_without(&["capacity_btu_h"], at, &at.key("ceer"), detail);
        }
        if self.code_letter.is_some() && self.horsepower.is_none() {
            let detail = "says nothing without horsepower; give both, or inrush_multiple".to_owned();
            faults.contradiction_without(&["horsepower"], at, &at.key("code_letter"), detail);
        }
        self.schedule().check(at, faults);
        if let Some(refrigerator) = &self.refrigerator {
            if self.power_w.is_none() && self.current_a.is_none() {
                let detail =
                    "needs power_w or current_a, what its compressor takes in while it runs".to_owned();
                let names = ["power_w", "current_a"];
                faults.contradiction_without(&names, at, &at.key("refrigerator"), detail);
            }
            refrigerator.check(&at.key("refrigerator"), faults);
        }
    }

    /// When it runs.
    pub fn schedule(&self) -> Schedule<'_> {
        Schedule {
            hours_per_day: self.hours_per_day,
            on_fraction: self.on_fraction.as_deref(),
            weekdays: self.weekdays.as_deref(),
            months: self.months.as_deref(),
        }
    }
}

impl Refrigerator {
    fn check(&self, at: &Place, faults: &mut Faults) {
        if self.kwh_per_day.is_some() && self.heat_leak_w_per_k.is_some() {
            let detail = "cannot stand beside kwh_per_day; both say how much heat leaks in".to_owned();
            faults.contradiction(&at.key("heat_leak_w_per_k"), detail);
        }
        if self.rated_f.is_some() && self.kwh_per_day.is_none() {
            let detail = "says nothing without kwh_per_day; give both".to_owned();
            faults.contradiction_without(&["kwh_per_day"], at, &at.key("rated_f"), detail);
        }
        let inside_f = self.inside_f.unwrap_or(Self::INSIDE_F);
        if let Some(rated_f) = self.rated_f
            && rated_f <= inside_f
        {
            let detail = format!("must be above the temperature inside, {inside_f}; got {rated_f}");
            faults.contradiction(&at.key("rated_f"), detail);
        }
    }

    /// The temperature inside, where it is not given [°F]: 4 °C. Common practice.
    pub const INSIDE_F: f64 = 39.2;
    /// The room that an energy is stated for, where it is not given [°F]: 32 °C. Common practice.
    pub const RATED_F: f64 = 90.0;
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use crate::FaultCode;
    use crate::build::fixture::{assert_contradiction, fault_with, lines_with};

    const BOX: &str = "/parts/cooler/electrical/refrigerator";

    #[test]
    fn members_of_a_refrigerator_that_cannot_both_be_so_are_contradictions() {
        for (member, value, at, detail) in [
            (
                "heat_leak_w_per_k",
                json!(0.6),
                "heat_leak_w_per_k",
                "cannot stand beside kwh_per_day; both say how much heat leaks in",
            ),
            ("kwh_per_day", json!(null), "rated_f", "says nothing without kwh_per_day; give both"),
        ] {
            assert_contradiction(&format!("{BOX}/{member}"), value, &format!("{BOX}/{at}"), detail);
        }
        assert_contradiction(
            BOX,
            json!({"inside_f": 60, "kwh_per_day": 0.4, "rated_f": 55}),
            &format!("{BOX}/rated_f"),
            "must be above the temperature inside, 60; got 55",
        );
    }

    #[test]
    fn a_refrigerator_needs_the_power_of_its_compressor() {
        let at = "/parts/cooler/electrical";
        let with = |name: &str, value: Value| {
            let mut draw = json!({"circuit": "lights", "refrigerator": {"heat_leak_w_per_k": 0.6}});
            draw[name] = value;
            lines_with(&[(at, draw)])
        };
        let needs = format!("{BOX} needs power_w or current_a, what its compressor takes in while it runs");
        assert_eq!(with("horsepower", json!(0.1)), [needs.as_str()]);
        assert_eq!(with("charger", json!({"output_a": 10})), [needs.as_str()]);
        assert_eq!(with("current_a", json!(4)), Vec::<String>::new());
        // Without any power one sentence is enough, and what is misspelled is not missed too.
        let none = "says no power; give power_w, current_a, horsepower, capacity_btu_h or charger";
        assert_eq!(with("priority", json!(1)), [format!("{at} {none}")]);
        assert_eq!(with("power_ww", json!(50)).len(), 1);
        assert_eq!(
            with("power_w", json!("50")),
            [format!("{at}/power_w must be a number; got the text \"50\"")]
        );
    }

    #[test]
    fn each_power_beside_the_first_is_named() {
        let draw = json!({"circuit": "lights", "power_w": 50, "current_a": 4, "horsepower": 0.1});
        assert_eq!(
            lines_with(&[("/parts/cooler/electrical", draw)]),
            [
                "/parts/cooler/electrical/current_a cannot stand beside power_w; both say how much it draws",
                "/parts/cooler/electrical/horsepower cannot stand beside power_w; both say how much it draws",
            ]
        );
    }

    #[test]
    fn a_member_that_is_misspelled_is_not_missed_too() {
        for (member, wrong) in [
            (json!({"ceer": 11, "capacity_btu": 5000}), "capacity_btu"),
            (json!({"code_letter": "L", "horse_power": 1}), "horse_power"),
        ] {
            let mut draw = member;
            draw["circuit"] = json!("outlets");
            draw["kind"] = json!("room_air_conditioner");
            let fault = fault_with(&[("/parts/galley/electrical", draw)]);
            assert_eq!(
                (fault.code, fault.pointer),
                (FaultCode::UnknownField, format!("/parts/galley/electrical/{wrong}"))
            );
        }
        let fault = fault_with(&[(BOX, json!({"kwh_per_dy": 0.5, "rated_f": 90}))]);
        assert_eq!((fault.code, fault.pointer), (FaultCode::UnknownField, format!("{BOX}/kwh_per_dy")));
    }

    #[test]
    fn several_mistakes_in_a_refrigerator_are_all_named() {
        let cold = json!({"inside_f": 39, "heat_leak_w_per_k": 0, "kwh_per_day": 0.45, "rated_f": 32});
        assert_eq!(
            lines_with(&[(BOX, cold)]),
            [
                format!("{BOX}/heat_leak_w_per_k must be 0.01 or more; got 0"),
                format!("{BOX}/rated_f must be 50 or more; got 32"),
            ]
        );
    }

    #[test]
    fn what_could_not_be_read_is_at_fault_alone() {
        for (member, value) in [
            ("inside_f", json!("cold")),
            ("kwh_per_day", json!([])),
            ("rated_f", json!(400)),
            ("kwh_per_day", json!(0)),
        ] {
            let at = format!("{BOX}/{member}");
            assert_eq!(fault_with(&[(&at, value)]).pointer, at);
        }
        assert_eq!(fault_with(&[(BOX, json!(true))]).pointer, BOX);
    }
}
