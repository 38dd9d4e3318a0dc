//! Air temperature through the year, by its monthly means.

use super::clock::{Clock, Day};
use super::months::{BetweenMonths, middles_that_keep};

/// How far air temperature is below the day's highest, as a share of the day's range, at 1 to 24 h.
///
/// Source: ASHRAE Handbook of Fundamentals 2009, chapter 14, fraction of the daily temperature range.
const BELOW_HIGHEST: [f64; 24] = [
    0.88, 0.92, 0.95, 0.98, 1.00, 0.98, 0.91, 0.74, 0.55, 0.38, 0.23, 0.13, 0.05, 0.00, 0.00, 0.06, 0.14,
    0.24, 0.39, 0.50, 0.59, 0.68, 0.75, 0.82,
];

/// Mean of the share of the day's range by which air temperature is below the day's highest.
pub const MEAN_BELOW_HIGHEST: f64 = 0.53625;

/// When the day is coldest [h].
const COLDEST_H: f64 = 5.0;

/// When it begins to cool after the day's highest [h].
const COOLS_FROM_H: f64 = 15.0;

/// Clearness of a day by the root of its range, away from coasts [1/√K].
///
/// Source: Hargreaves, in FAO Irrigation and Drainage Paper 56, eq. 50 (`from memory`).
pub const INLAND_PER_ROOT_K: f64 = 0.16;

/// Clearness of a day by the root of its range, on the coast of a large body of water [1/√K].
///
/// Source: as [`INLAND_PER_ROOT_K`].
pub const COAST_PER_ROOT_K: f64 = 0.19;

/// By how much air temperature swings in a day: highest less lowest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum DailyRange {
    /// Mean of each month [K], 0 or more; every day has it.
    Given([f64; 12]),
    /// Each day by its clearness, away from coasts: [`range_k`] with [`INLAND_PER_ROOT_K`].
    Inland,
    /// Each day by its clearness, on the coast of a large body of water: [`range_k`] with [`COAST_PER_ROOT_K`].
    Coast,
}

/// Monthly means of air temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AirMeans {
    /// Mean of each month [°C].
    pub mean_c: [f64; 12],
    /// How it swings in a day.
    pub range: DailyRange,
}

impl AirMeans {
    /// Air that is as warm all year.
    pub const fn constant(air_c: f64) -> Self {
        Self { mean_c: [air_c; 12], range: DailyRange::Given([0.0; 12]) }
    }

    /// Whether temperatures are finite and ranges 0 or more.
    pub(super) fn is_sound(&self) -> bool {
        let ranges_hold = match self.range {
            DailyRange::Given(ranges_k) => ranges_k.iter().all(|k| k.is_finite() && *k >= 0.0),
            DailyRange::Inland | DailyRange::Coast => true,
        };
        ranges_hold && self.mean_c.iter().all(|c| c.is_finite())
    }
}

/// Range of air temperature on a day, by its clearness: wide when it is sunny, narrow when it is gray.
///
/// `ΔT = (K / k)²`
///
/// - `clearness`   clearness of the day K, 0 to 1
/// - `per_root_k`  k [1/√K], see [`INLAND_PER_ROOT_K`]
///
/// Returns ΔT [K]: 0 without sun, 22 K of a very clear day inland.
///
/// Source: as [`INLAND_PER_ROOT_K`].
pub fn range_k(clearness: f64, per_root_k: f64) -> f64 {
    (clearness / per_root_k).powi(2)
}

/// Share of the day's range by which air temperature is below the day's highest.
///
/// - `time_h`  time of the day [h], 0 to 24
///
/// Between full hours on the straight line. Returns 0 at 14 and 15 h, 1 at 5 h.
///
/// Source: as the table's.
pub fn below_highest(time_h: f64) -> f64 {
    let hour = time_h as usize;
    let [from, to] = [hour + 23, hour].map(|index| BELOW_HIGHEST[index % 24]);
    from + (to - from) * time_h.fract()
}

/// Range of the swing a moment lies in: from 5 h to 15 h the day's own, and in the night from one day's to the next's,
/// so that temperature makes no step at midnight.
fn range_at_k(time_h: f64, yesterday_k: f64, today_k: f64, tomorrow_k: f64) -> f64 {
    let night_h = 24.0 - COOLS_FROM_H + COLDEST_H;
    if time_h < COLDEST_H {
        today_k + (yesterday_k - today_k) * (COLDEST_H - time_h) / night_h
    } else if time_h > COOLS_FROM_H {
        today_k + (tomorrow_k - today_k) * (time_h - COOLS_FROM_H) / night_h
    } else {
        today_k
    }
}

/// Air temperature in the middle of each step.
///
/// `T = mean + ΔT (0.53625 − f)`, f the share by which it is below the day's highest. The daily mean runs through the
/// year so that each month keeps its own; the range changes from day to day in the night, which moves a month's mean by
/// 0.02 K or less in the climates of [`places`](super::places), by 0.1 K at most.
///
/// - `clock`          steps of the answer
/// - `days`           its days
/// - `air`            monthly means
/// - `day_clearness`  clearness of each day, 0 to 1; used where the range follows it
///
/// Returns the temperatures [°C].
pub(super) fn course_c(clock: &Clock, days: &[Day], air: &AirMeans, day_clearness: &[f64]) -> Vec<f64> {
    let mean_middles_c = middles_that_keep(&air.mean_c);
    let ranges_k: Vec<f64> = match &air.range {
        DailyRange::Given(months_k) => {
            let middles_k = middles_that_keep(months_k);
            let of_day = |day: &Day| BetweenMonths::of(day.date, 0.5).of_figures(&middles_k).max(0.0);
            days.iter().map(of_day).collect()
        }
        DailyRange::Inland => day_clearness.iter().map(|k| range_k(*k, INLAND_PER_ROOT_K)).collect(),
        DailyRange::Coast => day_clearness.iter().map(|k| range_k(*k, COAST_PER_ROOT_K)).collect(),
    };
    let mut air_c = Vec::with_capacity(clock.count());
    for (index, (day, today_k)) in days.iter().zip(&ranges_k).enumerate() {
        let yesterday_k = index.checked_sub(1).and_then(|before| ranges_k.get(before)).unwrap_or(today_k);
        let tomorrow_k = ranges_k.get(index + 1).unwrap_or(today_k);
        let first_h = f64::from(day.first_min) / 60.0;
        for step in 0..day.steps.len() {
            let time_h = (first_h + (step as f64 + 0.5) * clock.step_h()).min(24.0);
            let mean_c = BetweenMonths::of(day.date, time_h / 24.0).of_figures(&mean_middles_c);
            let range_k = range_at_k(time_h, *yesterday_k, *today_k, *tomorrow_k);
            air_c.push(mean_c + range_k * (MEAN_BELOW_HIGHEST - below_highest(time_h)));
        }
    }
    air_c
}

#[cfg(test)]
mod tests {
    use super::*;

    const MEAN_C: [f64; 12] = [-5.0, -2.0, 3.0, 9.0, 15.0, 20.0, 23.0, 22.0, 17.0, 10.0, 3.0, -3.0];

    fn months_mean_c(clock: &Clock, days: &[Day], air_c: &[f64]) -> [f64; 12] {
        let mut sums = [(0.0, 0.0); 12];
        for day in days {
            let (sum, count) = &mut sums[usize::from(day.month()) - 1];
            *sum += air_c[day.steps.clone()].iter().sum::<f64>() * clock.step_h();
            *count += 24.0;
        }
        sums.map(|(sum, count)| sum / count)
    }

    #[test]
    fn the_profile_has_its_mean_and_its_ends() {
        assert!((BELOW_HIGHEST.iter().sum::<f64>() / 24.0 - MEAN_BELOW_HIGHEST).abs() < 1e-15);
        assert_eq!([5.0, 14.0, 14.5, 15.0].map(below_highest), [1.0, 0.0, 0.0, 0.0]);
        assert_eq!((below_highest(0.0), below_highest(24.0)), (0.82, 0.82));
        assert!((below_highest(0.5) - 0.85).abs() < 1e-15);
    }

    #[test]
    fn months_keep_their_means_under_given_ranges() {
        let air = AirMeans { mean_c: MEAN_C, range: DailyRange::Given([12.0; 12]) };
        for (year, open_k) in [(2025, 1e-12), (2024, 0.03)] {
            for step_min in [15, 60, 180] {
                let clock = Clock::year(year, step_min).unwrap();
                let days = clock.days();
                let air_c = course_c(&clock, &days, &air, &vec![0.5; days.len()]);
                // Steps of three hours miss the corners of the profile.
                let open_k = if step_min > 60 { 0.05 } else { open_k };
                for (made_c, given_c) in months_mean_c(&clock, &days, &air_c).iter().zip(MEAN_C) {
                    assert!((made_c - given_c).abs() < open_k, "{step_min}: {made_c}, not {given_c}");
                }
            }
        }
    }

    #[test]
    fn a_day_swings_by_its_range() {
        let clock = Clock::typical_hours();
        let days = clock.days();
        let air = AirMeans { mean_c: [10.0; 12], range: DailyRange::Given([12.0; 12]) };
        let air_c = course_c(&clock, &days, &air, &vec![0.5; days.len()]);
        for day in days {
            let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
            for c in &air_c[day.steps] {
                (low, high) = (low.min(*c), high.max(*c));
            }
            // Hourly means miss the lowest by a hundredth of the range.
            assert!((high - low - 12.0 * 0.99).abs() < 1e-9);
        }
    }

    #[test]
    fn sunny_days_swing_more_and_nights_make_no_steps() {
        let clock = Clock::year(2025, 15).unwrap();
        let days = clock.days();
        let clearness: Vec<f64> = (0..365).map(|n| if n % 3 == 0 { 0.2 } else { 0.7 }).collect();
        let air_c =
            course_c(&clock, &days, &AirMeans { mean_c: [10.0; 12], range: DailyRange::Inland }, &clearness);
        // The steepest the profile gets, 0.19 of the range an hour, and the change of range in a night.
        let most_k =
            0.25 * (0.19 * range_k(0.7, INLAND_PER_ROOT_K) + 0.5 * range_k(0.7, INLAND_PER_ROOT_K) / 14.0);
        assert!(air_c.windows(2).all(|pair| (pair[1] - pair[0]).abs() < most_k));
        let swing = |day: usize| air_c[day * 96 + 58] - air_c[day * 96 + 20];
        assert!(
            (swing(100) - range_k(0.7, INLAND_PER_ROOT_K)).abs() < 0.2
                && (swing(99) - range_k(0.2, INLAND_PER_ROOT_K)).abs() < 0.2
        );
    }

    #[test]
    fn constant_air_is_constant() {
        let clock = Clock::typical_hours();
        let air_c = course_c(&clock, &clock.days(), &AirMeans::constant(25.0), &[0.5; 365]);
        assert!(air_c.len() == 8760 && air_c.iter().all(|c| (c - 25.0).abs() < 1e-12));
    }
}
