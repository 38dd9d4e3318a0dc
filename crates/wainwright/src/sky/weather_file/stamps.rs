//! The stamps of a file: each record is stamped at its end, and follows the one before.

use std::fmt::{self, Display, Formatter};

use jiff::civil::Date;

use super::super::clock::{Clock, MINUTES_PER_DAY, TYPICAL_YEAR};

/// The year that a series with a leap day is laid in, or the one before where it begins after that day.
const LEAP_YEAR: i16 = 2024;
/// Days of the months where there is a leap day.
const DAYS: [u8; 12] = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/// A day of any year.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct MonthDay {
    /// 1 to 12.
    pub(super) month: u8,
    /// 1 to 31.
    pub(super) day: u8,
}

impl MonthDay {
    /// The day, where some year has it.
    pub(super) fn new(month: u8, day: u8) -> Option<Self> {
        let days = *DAYS.get(usize::from(month).checked_sub(1)?)?;
        (1..=days).contains(&day).then_some(Self { month, day })
    }

    /// The day that follows, in a year with a leap day or in one without.
    fn tomorrow(self, is_leap: bool) -> Self {
        let Self { month, day } = self;
        if (month, day) == (2, 28) && !is_leap {
            return Self { month: 3, day: 1 };
        }
        Self::new(month, day + 1).unwrap_or(Self { month: month % 12 + 1, day: 1 })
    }
}

impl Display for MonthDay {
    fn fmt(&self, f: &mut Formatter) -> fmt::Result {
        write!(f, "{:02}/{:02}", self.month, self.day)
    }
}

/// The end of a record.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Stamp {
    /// Its day.
    pub(super) day: MonthDay,
    /// Its minute of that day, 0 to 1440.
    pub(super) minute: u32,
}

impl Display for Stamp {
    fn fmt(&self, f: &mut Formatter) -> fmt::Result {
        write!(f, "{} {:02}:{:02}", self.day, self.minute / 60, self.minute % 60)
    }
}

/// Stamps that follow one another, a step apart.
#[derive(Debug, Clone)]
pub(super) struct Stamps {
    first: MonthDay,
    step_min: u32,
    /// The end of the record before.
    last: Stamp,
    has_leap_day: bool,
    is_right: bool,
}

impl Stamps {
    /// The stamps from the beginning of a day on.
    ///
    /// - `step_min`  length of a record [min], a whole part of a day
    pub(super) fn new(first: MonthDay, step_min: u32) -> Self {
        let last = Stamp { day: first, minute: 0 };
        Self { first, step_min, last, has_leap_day: first == LEAP_DAY, is_right: true }
    }

    /// The stamp that is to follow. After February 28 the leap day is as right as March 1.
    pub(super) fn expected(&self) -> Stamp {
        self.following(false)
    }

    fn following(&self, is_leap: bool) -> Stamp {
        let Stamp { day, minute } = self.last;
        match minute < MINUTES_PER_DAY {
            true => Stamp { day, minute: minute + self.step_min },
            false => Stamp { day: day.tomorrow(is_leap), minute: self.step_min },
        }
    }

    /// Takes the next stamp. 00:00 is the same as 24:00 of the day before.
    ///
    /// # Errors
    ///
    /// What is wrong with it. The one after it is then expected to follow it.
    pub(super) fn take(&mut self, given: Stamp) -> Result<(), String> {
        for is_leap in [false, true] {
            let expected = self.following(is_leap);
            let midnight = Stamp { day: expected.day.tomorrow(is_leap), minute: 0 };
            if given == expected || (expected.minute == MINUTES_PER_DAY && given == midnight) {
                self.has_leap_day |= expected.day == LEAP_DAY;
                self.last = expected;
                return Ok(());
            }
        }
        let (before, expected) = (self.last, self.expected());
        self.is_right = false;
        self.last = given;
        let why = match () {
            () if given == before => "repeats the row before",
            () if given < expected => "is out of order",
            () => "leaves rows out before it",
        };
        Err(format!("must be of the record that ends {expected}; the one that ends {given} {why}"))
    }

    /// Passes over a row whose stamp cannot be read.
    pub(super) fn pass(&mut self) {
        self.last = self.expected();
        self.is_right = false;
    }

    /// The end of the last row.
    pub(super) fn last(&self) -> Stamp {
        self.last
    }

    /// Has the series reached the end of a day?
    pub(super) fn has_reached(&self, day: MonthDay) -> bool {
        self.last == Stamp { day, minute: MINUTES_PER_DAY }
    }

    /// Did each stamp follow the one before?
    pub(super) fn are_right(&self) -> bool {
        self.is_right
    }

    /// The clock of so many records. The years of the file are not heeded.
    pub(super) fn clock(&self, count: usize) -> Option<Clock> {
        let year = match (self.has_leap_day, self.first <= LEAP_DAY) {
            (false, _) => TYPICAL_YEAR,
            (true, true) => LEAP_YEAR,
            (true, false) => LEAP_YEAR - 1,
        };
        let MonthDay { month, day } = self.first;
        let first = Date::new(year, i8::try_from(month).ok()?, i8::try_from(day).ok()?).ok()?;
        Clock::new(first.at(0, 0, 0, 0), self.step_min, count)
    }
}

/// February 29.
const LEAP_DAY: MonthDay = MonthDay { month: 2, day: 29 };

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::*;

    fn day(month: u8, day: u8) -> MonthDay {
        MonthDay::new(month, day).unwrap()
    }

    fn at(month: u8, of_month: u8, hour: u32) -> Stamp {
        Stamp { day: day(month, of_month), minute: hour * 60 }
    }

    #[test]
    fn days_are_those_of_some_year() {
        assert!(MonthDay::new(2, 29).is_some());
        for (month, day) in [(0, 1), (13, 1), (2, 30), (4, 31), (1, 0), (255, 255)] {
            assert_eq!(MonthDay::new(month, day), None);
        }
        assert_eq!((day(12, 31).tomorrow(false), day(2, 28).tomorrow(true)), (day(1, 1), day(2, 29)));
    }

    #[test]
    fn a_leap_day_may_come_and_need_not() {
        for (next, year) in [(at(2, 29, 1), 2024), (at(3, 1, 1), 2025)] {
            let mut stamps = Stamps::new(day(2, 28), 60);
            for hour in 1..=24 {
                stamps.take(at(2, 28, hour)).unwrap();
            }
            assert!(stamps.has_reached(day(2, 28)));
            stamps.take(next).unwrap();
            assert_eq!(stamps.clock(25).unwrap().stamp(0).year(), year);
        }
    }

    #[test]
    fn midnight_may_be_of_the_day_before_or_after() {
        let mut stamps = Stamps::new(day(2, 27), 720);
        for given in [at(2, 27, 12), at(2, 28, 0), at(2, 28, 12), at(2, 29, 0), at(2, 29, 12), at(3, 1, 0)] {
            stamps.take(given).unwrap();
        }
        assert!(stamps.are_right() && stamps.has_reached(day(2, 29)));
        assert_eq!(stamps.clock(6).unwrap().days().len(), 3);
    }

    #[test]
    fn a_winter_crosses_the_year() {
        let mut stamps = Stamps::new(day(12, 31), 720);
        for given in [at(12, 31, 12), at(12, 31, 24), at(1, 1, 12), at(1, 1, 24)] {
            stamps.take(given).unwrap();
        }
        assert_eq!(stamps.clock(4).unwrap().stamp(3).date(), date(2026, 1, 1));
    }

    #[test]
    fn one_slip_is_one_fault() {
        let takes = |given: &[Stamp]| {
            let mut stamps = Stamps::new(day(1, 1), 60);
            given.iter().filter_map(|&stamp| stamps.take(stamp).err()).collect::<Vec<_>>()
        };
        let missing = takes(&[at(1, 1, 1), at(1, 1, 3), at(1, 1, 4)]);
        assert_eq!(
            missing,
            [
                "must be of the record that ends 01/01 02:00; the one that ends 01/01 03:00 leaves rows out before it"
            ]
        );
        let doubled = takes(&[at(1, 1, 1), at(1, 1, 1), at(1, 1, 2)]);
        assert!(doubled.len() == 1 && doubled[0].ends_with("repeats the row before"), "{doubled:?}");
        let swapped = takes(&[at(1, 1, 2), at(1, 1, 1), at(1, 1, 3)]);
        assert!(swapped.len() == 3 && swapped[1].ends_with("is out of order"), "{swapped:?}");
    }
}
