//! Dates: an instant in local standard time, and a day of any year.

use std::borrow::Cow;

use jiff::civil::{Date, DateTime, date};
use serde_json::{Value, json};

use super::fault::echo;
use super::schema::Definitions;
use super::{FaultCode, Faults, Kind, Place};

/// An instant in local standard time, written as in `2025-01-01T00:00`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stamp;

/// A day of any year, written as in `10-24` (month and day).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DayOfYear;

/// A month and a day. The 29th of February is one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct MonthDay {
    /// Month, 1 to 12.
    pub month: i8,
    /// Day of the month, from 1.
    pub day: i8,
}

/// Two digits that stand at an index of a text.
fn two_digits(text: &str, at: usize) -> Option<i8> {
    let digits = text.get(at..at + 2)?;
    if digits.bytes().all(|byte| byte.is_ascii_digit()) { digits.parse().ok() } else { None }
}

impl Kind for Stamp {
    type Value = DateTime;

    fn expected(self) -> Cow<'static, str> {
        "a date and time such as 2025-01-01T00:00".into()
    }

    fn blank(self) -> DateTime {
        date(1970, 1, 1).at(0, 0, 0, 0)
    }

    fn schema(self, _: &mut Definitions) -> Value {
        json!({"type": "string", "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}$", "maxLength": 16})
    }

    fn text(self, value: &str, at: &Place, faults: &mut Faults) -> DateTime {
        let is_written_so = value.len() == 16 && value.is_ascii();
        let stamp = is_written_so.then(|| {
            let year: i16 =
                value.get(..4).filter(|year| year.bytes().all(|b| b.is_ascii_digit()))?.parse().ok()?;
            let separators = [(4, "-"), (7, "-"), (10, "T"), (13, ":")];
            let parted = separators.iter().all(|&(at, mark)| value.get(at..=at) == Some(mark));
            let day = Date::new(year, two_digits(value, 5)?, two_digits(value, 8)?).ok()?;
            let (hour, minute) = (two_digits(value, 11)?, two_digits(value, 14)?);
            (parted && hour < 24 && minute < 60).then(|| day.at(hour, minute, 0, 0))
        });
        stamp.flatten().unwrap_or_else(|| refused(value, &self.expected(), at, faults, self.blank()))
    }
}

impl Kind for DayOfYear {
    type Value = MonthDay;

    fn expected(self) -> Cow<'static, str> {
        "a month and a day such as 10-24".into()
    }

    fn blank(self) -> MonthDay {
        MonthDay { month: 1, day: 1 }
    }

    fn schema(self, _: &mut Definitions) -> Value {
        json!({"type": "string", "pattern": "^[0-9]{2}-[0-9]{2}$", "maxLength": 5})
    }

    fn text(self, value: &str, at: &Place, faults: &mut Faults) -> MonthDay {
        let is_written_so = value.len() == 5 && value.get(2..3) == Some("-");
        let of_a_leap_year = is_written_so.then(|| {
            let (month, day) = (two_digits(value, 0)?, two_digits(value, 3)?);
            Date::new(2024, month, day).ok().map(|_| MonthDay { month, day })
        });
        of_a_leap_year.flatten().unwrap_or_else(|| refused(value, &self.expected(), at, faults, self.blank()))
    }
}

#[cold]
fn refused<T>(value: &str, expected: &str, at: &Place, faults: &mut Faults, blank: T) -> T {
    faults.add(at, FaultCode::WrongType, format!("must be {expected}; got {}", echo(value)));
    blank
}

#[cfg(test)]
mod tests {
    use super::*;

    fn stamp(text: &str) -> (DateTime, Vec<String>) {
        let mut faults = Faults::default();
        let value = Stamp.text(text, &Place::ROOT.key("start"), &mut faults);
        (value, faults.list().iter().map(|fault| fault.detail.clone()).collect())
    }

    fn day(text: &str) -> Option<(i8, i8)> {
        let mut faults = Faults::default();
        let value = DayOfYear.text(text, &Place::ROOT.key("first_day"), &mut faults);
        faults.is_empty().then_some((value.month, value.day))
    }

    #[test]
    fn an_instant_is_read() {
        assert_eq!(stamp("2024-02-29T23:45"), (date(2024, 2, 29).at(23, 45, 0, 0), vec![]));
    }

    #[test]
    fn what_is_no_instant_is_answered_with_one() {
        for wrong in [
            "",
            "2025-01-01",
            "2025-02-29T00:00",
            "2025-13-01T00:00",
            "2025-01-01T24:00",
            "2025-01-01 00:00",
            "2025-01-01T00:0é",
            "-025-01-01T00:00",
            "2025-01-01T00:00Z",
            "2025-1-01T000:00",
        ] {
            let (_, faults) = stamp(wrong);
            assert_eq!(faults.len(), 1, "{wrong}");
            assert!(
                faults[0].starts_with("must be a date and time such as 2025-01-01T00:00; got "),
                "{}",
                faults[0]
            );
        }
    }

    #[test]
    fn a_day_is_one_of_a_leap_year() {
        assert_eq!((day("10-24"), day("02-29")), (Some((10, 24)), Some((2, 29))));
        for wrong in ["02-30", "13-01", "00-10", "1-1", "10/24", "+1-01", "10-2é"] {
            assert_eq!(day(wrong), None, "{wrong}");
        }
    }
}
