//! Twelve figures of a year, one a month, as a course through the year.

use jiff::civil::Date;

/// Days of the months of a year without a leap day.
const MONTH_DAYS: [f64; 12] = [31.0, 28.0, 31.0, 30.0, 31.0, 30.0, 31.0, 31.0, 30.0, 31.0, 30.0, 31.0];

/// Place of a moment between the middles of two neighbouring months.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BetweenMonths {
    /// The earlier month, 0 to 11.
    earlier: usize,
    /// The later month, 0 to 11; January after December.
    later: usize,
    /// Share of the way from the earlier middle to the later, 0 to 1.
    share: f64,
}

impl BetweenMonths {
    /// Place of a moment of a day.
    ///
    /// - `date`       the day
    /// - `day_share`  share of the day that has passed, 0 to 1
    pub fn of(date: Date, day_share: f64) -> Self {
        let month = usize::from(date.month().unsigned_abs() - 1);
        let days = f64::from(date.days_in_month());
        let from_middle = f64::from(date.day()) - 1.0 + day_share - days / 2.0;
        let (before, after) = ((month + 11) % 12, (month + 1) % 12);
        if from_middle < 0.0 {
            let apart = (MONTH_DAYS[before] + days) / 2.0;
            Self { earlier: before, later: month, share: 1.0 + from_middle / apart }
        } else {
            let apart = (days + MONTH_DAYS[after]) / 2.0;
            Self { earlier: month, later: after, share: from_middle / apart }
        }
    }

    /// A figure at this place, on the straight line between the two middles.
    ///
    /// - `at_middles`  the figure at the middle of each month
    pub fn of_figures(&self, at_middles: &[f64; 12]) -> f64 {
        let (earlier, later) = (at_middles[self.earlier], at_middles[self.later]);
        earlier + (later - earlier) * self.share
    }
}

/// Figures for the middles of the months whose course keeps the mean of every month.
///
/// The course runs straight from middle to middle, so that the mean of a month is `(e + 2 t + e') / 4`, t at its middle,
/// e and e' at its ends. The middles are found by adding what a month lacks, over and over: what lacks is halved at
/// least each time.
///
/// - `means`  mean of each month
///
/// Returns the figure at the middle of each month. The means are kept to rounding in a year of 365 days; in a leap
/// year February's moves by less than 1/200 of its steps to its neighbours.
pub fn middles_that_keep(means: &[f64; 12]) -> [f64; 12] {
    let mut middles = *means;
    for _ in 0..60 {
        let made = course_means(&middles);
        for (middle, (mean, made)) in middles.iter_mut().zip(means.iter().zip(made)) {
            *middle += mean - made;
        }
    }
    middles
}

/// Mean of each month of the course that runs straight from middle to middle.
fn course_means(middles: &[f64; 12]) -> [f64; 12] {
    let end_of = |month: usize| {
        let after = (month + 1) % 12;
        let share = MONTH_DAYS[month] / (MONTH_DAYS[month] + MONTH_DAYS[after]);
        middles[month] + (middles[after] - middles[month]) * share
    };
    std::array::from_fn(|month| (end_of((month + 11) % 12) + 2.0 * middles[month] + end_of(month)) / 4.0)
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::*;
    use crate::sky::clock::Clock;

    /// Means with a step up and a step down.
    const MEANS: [f64; 12] = [-20.0, -15.0, -4.0, 3.0, 30.0, 20.0, 22.0, 21.0, 15.0, 8.0, 0.0, -6.0];

    #[test]
    fn a_figure_stands_at_the_middle_of_its_month() {
        for (month, mean) in MEANS.into_iter().enumerate() {
            let first = date(2025, month as i8 + 1, 1);
            let half = f64::from(first.days_in_month()) / 2.0;
            let middle = first.saturating_add(jiff::Span::new().days(half as i64));
            let place = BetweenMonths::of(middle, half.fract());
            assert_eq!(place.of_figures(&MEANS), mean);
        }
    }

    #[test]
    fn the_year_closes_on_itself() {
        let end = BetweenMonths::of(date(2025, 12, 31), 1.0).of_figures(&MEANS);
        let start = BetweenMonths::of(date(2025, 1, 1), 0.0).of_figures(&MEANS);
        assert_eq!((start, end), (-13.0, -13.0));
    }

    /// Largest difference between the mean of a month's hours and what was to be kept.
    fn largest_miss(year: i16) -> f64 {
        let middles = middles_that_keep(&MEANS);
        let mut sums = [(0.0, 0.0); 12];
        for day in Clock::year(year, 60).unwrap().days() {
            let (sum, count) = &mut sums[usize::from(day.month()) - 1];
            for hour in 0..24 {
                let place = BetweenMonths::of(day.date, (f64::from(hour) + 0.5) / 24.0);
                *sum += place.of_figures(&middles);
                *count += 1.0;
            }
        }
        sums.iter().zip(MEANS).map(|((sum, count), mean)| (sum / count - mean).abs()).fold(0.0, f64::max)
    }

    #[test]
    fn the_mean_of_every_month_is_kept() {
        assert!(largest_miss(2025) < 1e-12, "{}", largest_miss(2025));
        assert!(largest_miss(2024) < 26.0 / 200.0, "{}", largest_miss(2024));
    }
}
