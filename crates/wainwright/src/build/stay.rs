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
