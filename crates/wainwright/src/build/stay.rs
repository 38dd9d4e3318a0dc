//! Section `stay`: how long it stands without shore power, and what is asked of battery and sun.

use super::Build;
use crate::bounds;
use crate::document::{Choice, DayOfYear, Faults, MonthDay, Options, Place, record};

record! {
    /// A stay without shore power, and what is asked of battery and sun.
    pub struct Stay: "the stay" {
        /// The day it begins, of any year: month and day.
        optional first_day: MonthDay = DayOfYear, "10-24";
        /// The hour at which it begins, in local standard time.
        optional first_hour: u32 = bounds::HOUR, 18;
        /// How many days it lasts.
        optional days: u32 = bounds::STAY_DAYS, 5;
        /// How many of its first days are grey.
        optional grey_days: u32 = bounds::GREY_DAYS, 3;
        /// Light of a grey day as a share of a clear day's, all of it from the whole sky.
        optional grey_fraction: f64 = bounds::FRACTION, 0.2;
        /// The supply mode it stands in. Left out, the first in which neither shore nor generator feeds a circuit.
        optional mode: String = bounds::NAME, "off_grid", aside;
        /// The temperature that the box is heated to, in winter too: battery and refrigerator stand in air that is never
        /// colder. Left out, they are as cold as the air outside.
        optional heated_to_f: f64 = bounds::AIR_F, 58.0;
        /// State of charge of the battery at its start.
        optional start_soc: f64 = bounds::FRACTION, 1.0;
        /// Share of the year's load that may go unmet with the smallest array and the smallest bank.
        optional max_unmet_fraction: f64 = bounds::FRACTION, 0.0;
        /// How much the report shows of the year: its months alone, its days too, or every step as well.
        optional detail: Detail = Choice::of(), "months";
    }
}

/// How much of a year a report shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Detail {
    /// Its months.
    Months,
    /// Its days too.
    Days,
    /// Every step as well.
    Steps,
}

impl Options for Detail {
    const WORDS: &'static [(&'static str, Self)] =
        &[("months", Self::Months), ("days", Self::Days), ("steps", Self::Steps)];
}

impl Stay {
    pub(super) fn check(&self, build: &Build, at: &Place, faults: &mut Faults) {
        let modes = build.electrical.as_ref().and_then(|electrical| electrical.modes.as_ref());
        if let Some(mode) = &self.mode {
            faults.check_reference(&at.key("mode"), mode, "/electrical/modes", modes);
        }
        if let (Some(grey), Some(days)) = (self.grey_days, self.days)
            && grey > days
            && !faults.spoil(&at.key("days").pointer())
        {
            let detail = format!("must be days, {days}, or less; got {grey}");
            faults.contradiction(&at.key("grey_days"), detail);
        }
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use crate::FaultCode;
    use crate::build::fixture::{assert_contradiction, fault_with, faults_with, lines_with};

    #[test]
    fn more_grey_days_than_days_are_a_contradiction() {
        assert_contradiction(
            "/stay/grey_days",
            json!(6),
            "/stay/grey_days",
            "must be days, 5, or less; got 6",
        );
        assert_eq!(faults_with(&[("/stay/grey_days", json!(5))]), []);
        assert_eq!(fault_with(&[("/stay/days", json!(0))]).pointer, "/stay/days");
        assert_eq!(fault_with(&[("/stay/grey_days", json!(2.5))]).code, FaultCode::NotWhole);
    }

    #[test]
    fn a_mode_that_is_not_there_is_answered_with_those_that_are() {
        let fault = fault_with(&[("/stay/mode", json!("offgrid"))]);
        assert_eq!(
            (fault.code, fault.pointer.as_str(), fault.detail.as_str()),
            (
                FaultCode::UnknownId,
                "/stay/mode",
                "names \"offgrid\", which is not in /electrical/modes; did you mean off_grid?"
            )
        );
        assert_eq!(fault.known, ["plugged_in", "off_grid"]);
        assert_eq!(fault_with(&[("/electrical/modes", json!([]))]).pointer, "/electrical/modes");
        assert_eq!(fault_with(&[("/stay/mode", json!(1))]).code, FaultCode::WrongType);
    }

    #[test]
    fn several_mistakes_in_a_stay_are_all_named() {
        let stay =
            json!({"first_day": "10/24", "first_hour": 24, "days": 3, "grey_days": 4, "detail": "hours"});
        assert_eq!(
            lines_with(&[("/stay", stay)]),
            [
                "/stay/first_day must be a month and a day such as 10-24; got \"10/24\"",
                "/stay/first_hour must be 23 or less; got 24",
                "/stay/grey_days must be days, 3, or less; got 4",
                "/stay/detail must be one of months, days, steps; got \"hours\"",
            ]
        );
    }
}
