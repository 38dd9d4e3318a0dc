//! What charges the house battery beside the sun, and when.

use serde_json::json;

use super::{Build, Draw, Schedule, Weekday};
use crate::bounds;
use crate::document::{Choice, Faults, List, Options, Place, record};

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

    pub(super) fn check(&self, build: &Build, at: &Place, faults: &mut Faults) {
        self.schedule().check(at, faults);
        let kind_is_read = !faults.spoil(&at.key("kind").pointer());
        let is_tow_vehicle = self.kind == ChargingKind::TowVehicle && kind_is_read;
        if self.part.is_some() && is_tow_vehicle {
            let detail = "belongs to shore or generator; a tow_vehicle charges over a line of its own: give output_a in \
                          its place"
                .to_owned();
            faults.contradiction(&at.key("part"), detail);
        } else if let Some(part) = &self.part {
            let place = at.key("part");
            faults.check_reference(&place, part, "/parts", build.parts.as_ref());
            let draw =
                build.parts.as_ref().and_then(|parts| parts.get(part)).map(|part| part.electrical.as_ref());
            let has_charger = |draw: Option<&Draw>| draw.is_some_and(|draw| draw.charger.is_some());
            let parts_at = Place::ROOT.key("parts");
            let part_at = parts_at.key(part);
            let draw_at = part_at.key("electrical");
            let is_read = !faults.spoil(&draw_at.key("charger").pointer());
            if draw.is_some_and(|draw| !has_charger(draw)) && is_read {
                let detail = format!("names {part}, which has no charger; name a part that has one");
                faults.contradiction_without(&["charger"], &draw_at, &place, detail);
            }
        }
        let of_tow_vehicle =
            [("alternator_v", self.alternator_v.is_some()), ("line_mohm", self.line_mohm.is_some())];
        for (name, given) in of_tow_vehicle {
            if given && self.kind != ChargingKind::TowVehicle && kind_is_read {
                let this = ChargingKind::WORDS[self.kind as usize].0;
                faults.contradiction(
                    &at.key(name),
                    format!("belongs to a tow_vehicle; this is of kind {this}"),
                );
            }
        }
        if self.output_a.is_none()
            && self.part.is_none()
            && self.kind != ChargingKind::TowVehicle
            && kind_is_read
        {
            let detail =
                "is missing; say how much it gives, or name the part whose charger it feeds".to_owned();
            faults.contradiction_without(&["output_a", "part"], at, &at.key("output_a"), detail);
        }
        // Shore and generator may be there always; nobody drives all day.
        if self.hours_per_day.is_none() && self.on_fraction.is_none() && is_tow_vehicle {
            let detail =
                "is missing; say how many hours of a day the tow vehicle is driven, or give on_fraction"
                    .to_owned();
            let place = at.key("hours_per_day");
            faults.contradiction_without(&["hours_per_day", "on_fraction"], at, &place, detail);
        }
        if self.stop_soc.is_some() && self.start_soc.is_none() {
            let detail = "says nothing without start_soc; give both".to_owned();
            faults.contradiction_without(&["start_soc"], at, &at.key("stop_soc"), detail);
        }
        if let (Some(start), Some(stop)) = (self.start_soc, self.stop_soc)
            && stop <= start
        {
            faults
                .contradiction(&at.key("stop_soc"), format!("must be above start_soc, {start}; got {stop}"));
        }
    }
}
