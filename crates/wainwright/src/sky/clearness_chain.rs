//! How clear the days of a month are, one after another, by how often clear days followed dark ones elsewhere.

use std::sync::LazyLock;

use super::coefficients::last_columns;
use super::random::Chance;

/// How many steps from dark to clear a day may have.
const STATES: usize = 10;

/// A row for each class of months, in it for each state: least and greatest clearness of the class, then for each state
/// of the next day how likely it is.
static ROWS: LazyLock<[[f64; 2 + STATES]; 10 * STATES]> =
    LazyLock::new(|| last_columns(include_str!("../../data/clearness_chain_aguiar_1988.csv")));

/// A class of months of like mean clearness.
#[derive(Debug, Clone, Copy)]
pub struct MonthClass {
    rows: &'static [[f64; 2 + STATES]],
}

impl MonthClass {
    /// The class of a month: below 0.30, then in steps of 0.05, then above 0.70.
    ///
    /// - `mean`  mean clearness of the month, 0 to 1
    ///
    /// Source: Aguiar, Collares-Pereira and Conde 1988, Solar Energy 40, 269–279 (its tables at second hand, the
    /// method `from memory`).
    pub fn of(mean: f64) -> Self {
        let class = (0..9).filter(|edge| mean > 0.30 + 0.05 * f64::from(*edge)).count();
        Self { rows: &ROWS[class * STATES..(class + 1) * STATES] }
    }

    /// Least and greatest clearness of a day.
    pub fn ends(&self) -> (f64, f64) {
        (self.rows[0][0], self.rows[0][1])
    }

    /// How likely each state is the day after a day of a state. They make up 1 but for the rounding of the tables, which
    /// is 0.011 at most.
    ///
    /// - `state`  state of the day, 0 to 9 from dark to clear; above counts as 9
    pub fn next(&self, state: usize) -> &'static [f64] {
        &self.rows[state.min(STATES - 1)][2..]
    }

    /// The day after a day.
    ///
    /// The state is the first whose likelihood and those of all darker ones make up R. Within the state the place is
    /// that of R within the likelihood.
    ///
    /// - `state`    state of the day before, 0 to 9; above counts as 9
    /// - `uniform`  a number R, 0 to below 1
    ///
    /// Returns state and clearness of the day.
    pub fn step(&self, state: usize, uniform: f64) -> (usize, f64) {
        let next = self.next(state);
        let drawn = uniform * next.iter().sum::<f64>();
        let mut below = 0.0;
        let mut day = (STATES - 1, 1.0);
        for (state, likelihood) in next.iter().enumerate() {
            if *likelihood > 0.0 && below + likelihood >= drawn {
                day = (state, (drawn - below) / likelihood);
                break;
            }
            below += likelihood;
        }
        let (least, greatest) = self.ends();
        (day.0, least + (day.0 as f64 + day.1) * (greatest - least) / STATES as f64)
    }
}

/// Makes the days of a month, each by the one before, and scales them to the mean.
///
/// - `mean`    mean clearness of the month, 0 to 1
/// - `days`    clearness of each day, to be filled
/// - `chance`  what is drawn
///
/// Source: as [`MonthClass::of`].
pub fn fill_month(mean: f64, days: &mut [f64], chance: &mut Chance) {
    let class = MonthClass::of(mean);
    let (least, greatest) = class.ends();
    // The month begins from a day of its mean.
    let mut state = (((mean - least) / (greatest - least)).clamp(0.0, 1.0) * STATES as f64) as usize;
    let mut sum = 0.0;
    for day in days.iter_mut() {
        (state, *day) = class.step(state, chance.uniform());
        sum += *day;
    }
    let scale = mean * days.len() as f64 / sum;
    days.iter_mut().for_each(|day| *day *= scale);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn classes_begin_where_they_should() {
        for (mean, ends) in [
            (0.0, (0.031, 0.705)),
            (0.30, (0.031, 0.705)),
            (0.31, (0.058, 0.694)),
            (0.62, (0.085, 0.846)),
            (0.99, (0.319, 0.865)),
        ] {
            assert_eq!(MonthClass::of(mean).ends(), ends, "{mean}");
        }
    }

    #[test]
    fn a_step_stays_within_the_class() {
        for mean in [0.1, 0.33, 0.5, 0.66, 0.9] {
            let class = MonthClass::of(mean);
            let (least, greatest) = class.ends();
            for state in 0..STATES {
                let drawn: Vec<f64> = (0..1000).map(|n| class.step(state, f64::from(n) / 1000.0).1).collect();
                assert!(drawn.windows(2).all(|pair| pair[0] < pair[1]));
                assert!(drawn[0] >= least && drawn[999] <= greatest);
            }
        }
    }

    #[test]
    fn a_month_has_its_mean() {
        for mean in [0.2, 0.5, 0.7] {
            let mut days = [0.0; 31];
            fill_month(mean, &mut days, &mut Chance::new(2));
            assert!((days.iter().sum::<f64>() / 31.0 - mean).abs() < 1e-14);
        }
        fill_month(0.5, &mut [], &mut Chance::new(2));
    }
}
