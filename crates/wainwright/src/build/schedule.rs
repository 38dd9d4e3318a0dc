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
#[derive(Debug, Clone, Copy, PartialEq)]
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
    /// On at all times of every day.
    pub const ALWAYS: Self = Self { hours_per_day: None, on_fraction: None, weekdays: None, months: None };

    /// Notes a list of hours of another length than a day's, and lists of days or months that name none or one twice.
    pub(super) fn check(&self, at: &Place, faults: &mut Faults) {
        if let Some(hours) = self.on_fraction
            && hours.len() != bounds::MOST_HOURS
        {
            let detail =
                format!("must have {} figures, one an hour; has {}", bounds::MOST_HOURS, hours.len());
            faults.contradiction(&at.key("on_fraction"), detail);
        }
        if let Some(days) = self.weekdays {
            let word = |day: Weekday| Weekday::WORDS[day as usize].0.to_owned();
            check_named(days, "days", word, &at.key("weekdays"), faults);
        }
        if let Some(months) = self.months {
            check_named(months, "months", |month| month.to_string(), &at.key("months"), faults);
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

/// Notes that a list is empty, and each of its items that stands in it before.
fn check_named<T: Copy + PartialEq>(
    items: &[T],
    all: &str,
    shown: impl Fn(T) -> String,
    at: &Place,
    faults: &mut Faults,
) {
    if items.is_empty() {
        faults.contradiction(at, format!("is empty, so that it is never on; leave it out for all {all}"));
    }
    for (index, &item) in items.iter().enumerate() {
        // An item that could not be read is a blank, and no twin of another.
        let is_twin = |before: usize| items[before] == item && !faults.spoil(&at.index(before).pointer());
        if (0..index).any(is_twin) {
            faults.contradiction(&at.index(index), format!("names {} once more; keep one", shown(item)));
        }
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::build::fixture::{assert_contradiction, fault_with, faults_with, lines_with};

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

    const AT: &str = "/parts/galley/electrical";

    #[test]
    fn lists_of_hours_days_and_months_are_whole_and_name_each_once() {
        for (member, value, at, detail) in [
            ("on_fraction", json!([0.5, 1]), "on_fraction", "must have 24 figures, one an hour; has 2"),
            (
                "weekdays",
                json!([]),
                "weekdays",
                "is empty, so that it is never on; leave it out for all days",
            ),
            ("months", json!([]), "months", "is empty, so that it is never on; leave it out for all months"),
            ("weekdays", json!(["sat", "sun", "sat"]), "weekdays/2", "names sat once more; keep one"),
            ("months", json!([11, 12, 11, 1]), "months/2", "names 11 once more; keep one"),
        ] {
            assert_contradiction(&format!("{AT}/{member}"), value, &format!("{AT}/{at}"), detail);
        }
        assert_eq!(faults_with(&[("/parts/galley/electrical/on_fraction", json!(vec![0; 24]))]), []);
    }

    #[test]
    fn several_mistakes_in_a_schedule_are_all_named() {
        assert_eq!(
            lines_with(&[
                ("/parts/galley/electrical/hours_per_day", json!(25)),
                ("/parts/galley/electrical/on_fraction", json!([])),
                ("/parts/galley/electrical/weekdays", json!(["mon", "mon", "mon"])),
                ("/parts/galley/electrical/months", json!([0, 13, 5, 5])),
            ]),
            [
                "/parts/galley/electrical/hours_per_day must be 24 or less; got 25",
                "/parts/galley/electrical/on_fraction must have 24 figures, one an hour; has 0",
                "/parts/galley/electrical/weekdays/1 names mon once more; keep one",
                "/parts/galley/electrical/weekdays/2 names mon once more; keep one",
                "/parts/galley/electrical/months/0 must be 1 or more; got 0",
                "/parts/galley/electrical/months/1 must be 12 or less; got 13",
                "/parts/galley/electrical/months/3 names 5 once more; keep one",
            ]
        );
    }

    /// What stands in for an item that could not be read is the first day and the first month.
    #[test]
    fn an_item_that_could_not_be_read_is_no_twin() {
        for (member, value, at) in [
            ("weekdays", json!(["monday", "mon", "tue"]), "weekdays/0"),
            ("weekdays", json!(["mon", 7]), "weekdays/1"),
            ("months", json!([1, "jan"]), "months/1"),
            ("months", json!([13, 1]), "months/0"),
            ("months", json!("all"), "months"),
            ("weekdays", json!("sat"), "weekdays"),
            ("weekdays", json!(["mon", "tue", "wed", "thu", "fri", "sat", "sun", "mon"]), "weekdays"),
        ] {
            assert_eq!(fault_with(&[(&format!("{AT}/{member}"), value)]).pointer, format!("{AT}/{at}"));
        }
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
