//! When something is on: hours of the day, days of the week, months of the year.

use jiff::civil;

use crate::bounds;
use crate::document::{Faults, Options, Place};

/// A day of the week.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Weekday {
    /// Monday.
    Mon,
    /// Tuesday.
    Tue,
    /// Wednesday.
    Wed,
    /// Thursday.
    Thu,
    /// Friday.
    Fri,
    /// Saturday.
    Sat,
    /// Sunday.
    Sun,
}

impl Options for Weekday {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("mon", Self::Mon),
        ("tue", Self::Tue),
        ("wed", Self::Wed),
        ("thu", Self::Thu),
        ("fri", Self::Fri),
        ("sat", Self::Sat),
        ("sun", Self::Sun),
    ];
}

/// When something is on, as several sections say it in the same words.
#[derive(Debug, Clone, Copy)]
pub struct Schedule<'a> {
    /// Hours of a day, spread over it.
    pub hours_per_day: Option<f64>,
    /// Share of each hour of the day, from midnight on.
    pub on_fraction: Option<&'a [f64]>,
    /// The days on which it is; none given is every day.
    pub weekdays: Option<&'a [Weekday]>,
    /// The months in which it is, 1 to 12; none given is all year.
    pub months: Option<&'a [u32]>,
}

impl Schedule<'_> {
    /// Notes a list of hours of another length than a day's.
    pub(super) fn check(&self, at: &Place, faults: &mut Faults) {
        if let Some(hours) = self.on_fraction
            && hours.len() != bounds::MOST_HOURS
        {
            let detail =
                format!("must have {} figures, one an hour; has {}", bounds::MOST_HOURS, hours.len());
            faults.contradiction(&at.key("on_fraction"), detail);
        }
    }

    /// Share of an hour of a day in which it is on: the hour's own, or the day's hours spread over it.
    ///
    /// - `hour`     hour of the day, 0 to 23
    /// - `default`  where nothing is said of hours
    pub fn share(&self, hour: usize, default: f64) -> f64 {
        match (self.on_fraction, self.hours_per_day) {
            (Some(hours), _) => hours.get(hour).copied().unwrap_or(0.0),
            (None, Some(hours)) => hours / 24.0,
            (None, None) => default,
        }
    }

    /// Is it on at all on such a day?
    ///
    /// - `month`    1 to 12
    /// - `weekday`  the day of the week
    pub fn is_on_day(&self, month: u8, weekday: civil::Weekday) -> bool {
        let offset = usize::from(weekday.to_monday_zero_offset().unsigned_abs());
        let in_week = |days: &[Weekday]| days.iter().any(|day| *day as usize == offset);
        let in_year = |months: &[u32]| months.contains(&u32::from(month));
        self.weekdays.is_none_or(in_week) && self.months.is_none_or(in_year)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const WEEKENDS: Schedule = Schedule {
        hours_per_day: Some(6.0),
        on_fraction: None,
        weekdays: Some(&[Weekday::Sat, Weekday::Sun]),
        months: Some(&[11, 12]),
    };

    #[test]
    fn days_and_months_are_those_named() {
        assert!(WEEKENDS.is_on_day(12, civil::Weekday::Sunday));
        assert!(!WEEKENDS.is_on_day(12, civil::Weekday::Monday));
        assert!(!WEEKENDS.is_on_day(10, civil::Weekday::Saturday));
        assert!(Schedule { weekdays: None, months: None, ..WEEKENDS }.is_on_day(10, civil::Weekday::Monday));
    }

    #[test]
    fn hours_of_the_day_go_before_hours_in_all() {
        let mut hours = [0.0; 24];
        hours[19] = 0.5;
        assert_eq!(WEEKENDS.share(19, 1.0), 0.25);
        assert_eq!(Schedule { on_fraction: Some(&hours), ..WEEKENDS }.share(19, 1.0), 0.5);
        assert_eq!(Schedule { hours_per_day: None, ..WEEKENDS }.share(19, 1.0), 1.0);
    }
}
