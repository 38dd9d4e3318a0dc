//! The steps of a series on the calendar: local standard time, which knows no daylight saving.

use std::ops::Range;

use jiff::civil::{Date, DateTime, Weekday, date};

/// The year that a typical year is laid in: it has no leap day and begins on a Wednesday. From year to year the sun of
/// a date moves by a quarter of a day at most.
pub const TYPICAL_YEAR: i16 = 2025;

/// Minutes of a day.
pub const MINUTES_PER_DAY: u32 = 1440;

/// Evenly spaced steps in local standard time. Each step covers the time from its stamp to the next one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Clock {
    first_day: Date,
    first_min: u32,
    step_min: u32,
    count: usize,
}

/// One day of a clock, whole or in part.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Day {
    /// Its date.
    pub date: Date,
    /// The steps that begin in it.
    pub steps: Range<usize>,
    /// Minute of the day at which the first of them begins.
    pub first_min: u32,
}

impl Day {
    /// Its month, 1 to 12.
    pub fn month(&self) -> u8 {
        self.date.month().unsigned_abs()
    }

    /// Its day of the year, 1 to 366.
    pub fn day_of_year(&self) -> u16 {
        self.date.day_of_year().unsigned_abs()
    }

    /// Its day of the week.
    pub fn weekday(&self) -> Weekday {
        self.date.weekday()
    }
}

impl Clock {
    /// Steps from an instant on.
    ///
    /// - `first`     stamp of the first step, a whole minute
    /// - `step_min`  length of a step [min], a whole part of a day
    /// - `count`     how many steps
    ///
    /// None where a day is no whole number of steps, where `first` has seconds, or where the calendar ends (year 9999).
    pub fn new(first: DateTime, step_min: u32, count: usize) -> Option<Self> {
        let whole = step_min > 0 && MINUTES_PER_DAY.is_multiple_of(step_min);
        if !whole || first.second() != 0 || first.subsec_nanosecond() != 0 {
            return None;
        }
        let first_min =
            u32::from(first.hour().unsigned_abs()) * 60 + u32::from(first.minute().unsigned_abs());
        let clock = Self { first_day: first.date(), first_min, step_min, count };
        let minutes = i64::try_from(count).ok()?.checked_mul(i64::from(step_min))?;
        let days = minutes / i64::from(MINUTES_PER_DAY) + 2;
        first.date().checked_add(jiff::Span::new().try_days(days).ok()?).ok()?;
        Some(clock)
    }

    /// A whole calendar year in steps that divide a day. None as for [`Clock::new`].
    pub fn year(year: i16, step_min: u32) -> Option<Self> {
        let first = Date::new(year, 1, 1).ok()?;
        let days = usize::from(first.days_in_year().unsigned_abs());
        let per_day = MINUTES_PER_DAY.checked_div(step_min)?;
        Self::new(first.at(0, 0, 0, 0), step_min, days * per_day as usize)
    }

    /// The typical year in hours: 8760 steps.
    pub fn typical_hours() -> Self {
        Self { first_day: date(TYPICAL_YEAR, 1, 1), first_min: 0, step_min: 60, count: 8760 }
    }

    /// How many steps there are.
    pub fn count(&self) -> usize {
        self.count
    }

    /// Length of a step [min].
    pub fn step_min(&self) -> u32 {
        self.step_min
    }

    /// Length of a step [h].
    pub fn step_h(&self) -> f64 {
        f64::from(self.step_min) / 60.0
    }

    /// Its days in order, the first and the last of them whole or in part.
    pub fn days(&self) -> Vec<Day> {
        let mut days = Vec::new();
        let (mut date, mut first_min, mut next) = (self.first_day, self.first_min, 0);
        while next < self.count {
            let left = MINUTES_PER_DAY - first_min;
            let end = (next + left.div_ceil(self.step_min) as usize).min(self.count);
            days.push(Day { date, steps: next..end, first_min });
            // Steps divide a day, so that each day begins where the first one did, modulo a step.
            first_min %= self.step_min;
            next = end;
            // The calendar was seen to reach beyond the last day in `new`.
            let Ok(tomorrow) = date.tomorrow() else { break };
            date = tomorrow;
        }
        days
    }

    /// The stamp at which a step begins.
    pub fn stamp(&self, step: usize) -> DateTime {
        let minutes = u64::from(self.first_min) + step as u64 * u64::from(self.step_min);
        let per_day = u64::from(MINUTES_PER_DAY);
        // Both fit: a clock ends within the calendar, and a minute of a day is below 1440.
        let days = i64::try_from(minutes / per_day).unwrap_or_default();
        let minute = i8::try_from(minutes % per_day % 60).unwrap_or_default();
        let hour = i8::try_from(minutes % per_day / 60).unwrap_or_default();
        self.first_day.saturating_add(jiff::Span::new().days(days)).at(hour, minute, 0, 0)
    }

    /// Middle of the first step, as Unix time [s].
    ///
    /// - `utc_offset_h`  local standard time less universal time [h]
    pub fn first_middle_unix_s(&self, utc_offset_h: f64) -> f64 {
        let days = (self.first_day - date(1970, 1, 1)).get_days();
        f64::from(days) * 86_400.0 + (f64::from(self.first_min) + f64::from(self.step_min) / 2.0) * 60.0
            - utc_offset_h * 3600.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_typical_year_has_its_months() {
        let days = Clock::typical_hours().days();
        assert_eq!(days.len(), 365);
        assert_eq!((days[58].month(), days[59].month(), days[59].day_of_year()), (2, 3, 60));
        assert_eq!(days[364].steps, 8736..8760);
        assert_eq!(days[0].weekday(), Weekday::Wednesday);
        assert_eq!(Clock::year(TYPICAL_YEAR, 60), Some(Clock::typical_hours()));
    }

    #[test]
    fn a_leap_year_has_its_day_at_every_step() {
        for (step_min, count) in [(60, 8784), (30, 17_568), (15, 35_136)] {
            let clock = Clock::year(2024, step_min).unwrap();
            let days = clock.days();
            assert_eq!((clock.count(), days.len()), (count, 366));
            assert_eq!((days[59].date, days[365].steps.end), (date(2024, 2, 29), count));
        }
    }

    #[test]
    fn a_series_may_begin_and_end_within_a_day() {
        let clock = Clock::new(date(2024, 2, 28).at(22, 30, 0, 0), 60, 27).unwrap();
        let days = clock.days();
        let steps: Vec<_> = days.iter().map(|day| (day.steps.clone(), day.first_min)).collect();
        assert_eq!(steps, [(0..2, 1350), (2..26, 30), (26..27, 30)]);
        assert_eq!(clock.stamp(2), date(2024, 2, 29).at(0, 30, 0, 0));
    }

    #[test]
    fn what_does_not_divide_a_day_is_no_clock() {
        let first = date(2025, 1, 1).at(0, 0, 0, 0);
        assert_eq!(Clock::new(first, 7, 10), None);
        assert_eq!(Clock::new(first, 0, 10), None);
        assert_eq!(Clock::new(date(9999, 12, 30).at(0, 0, 0, 0), 60, 100), None);
        assert_eq!(Clock::year(2025, 0), None);
    }

    #[test]
    fn the_middle_of_a_step_in_universal_time() {
        // 1990-01-01 00:30 at UTC-5 is 05:30 UTC.
        let clock = Clock::year(1990, 60).unwrap();
        assert_eq!(clock.first_middle_unix_s(-5.0), 631_152_000.0 + 5.5 * 3600.0);
    }
}
