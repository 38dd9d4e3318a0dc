//! Demand on one limit in one hour: loads that are on now and then.
//!
//! Every load is on or off apart from all others: independence is an assumption. Loads that follow the weather or
//! a habit (two coolers on a hot afternoon, breakfast) come together more often than [`risk`] says. A thermal
//! breaker forgives a short peak, so that a risk here is of passing the limit, not of a trip.

/// Cells of the grid to an ampere: 0.1 A.
const CELLS_PER_A: f64 = 10.0;
/// A value is past its limit when it is more than this part of the limit above it.
const SLACK: f64 = 1e-9;

/// A load that is on for part of an hour.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Demand {
    /// Current while on [A], 0 or more.
    pub current_a: f64,
    /// Probability of being on, 0 to 1.
    pub on: f64,
}

/// Expected current [A]: `Σ p·I`. No loads: 0.
///
/// - `loads`: what the limit carries
///
/// Source: expectation of a sum.
#[must_use]
pub fn expected_a(loads: &[Demand]) -> f64 {
    loads.iter().fold(0.0, |sum, load| sum + load.on * load.current_a)
}

/// Current when everything that can be on is on [A]: `Σ I` where `p > 0`. No loads: 0.
///
/// - `loads`: what the limit carries
///
/// Source: a bound that needs no independence.
#[must_use]
pub fn certain_peak_a(loads: &[Demand]) -> f64 {
    loads.iter().filter(|load| load.on > 0.0).fold(0.0, |sum, load| sum + load.current_a)
}

/// Probability that the currents together pass a limit: `P(Σ I > limit)`, 0 to 1.
///
/// Currents go to the nearest 0.1 A (a half away from zero), and the distribution of their sum grows load by load,
/// `P'(x) = (1 − p)·P(x) + p·P(x − I)`. Only sums within the limit are kept; what passes it never comes back.
/// Work: loads × limit / 0.1 A. It is 0 at once when [`certain_peak_a`] is within the limit, 1e-9 of it forgiven.
///
/// - `loads`: what the limit carries, independent of each other
/// - `limit_a`: the limit [A], 0 or more
/// - `cells`: room to work in, whatever it holds; it grows to the limit's cells and can be passed again
///
/// Source: distribution of a sum of independent variables.
#[must_use]
pub fn risk(loads: &[Demand], limit_a: f64, cells: &mut Vec<f64>) -> f64 {
    let limit_a = limit_a * (1.0 + SLACK);
    if certain_peak_a(loads) <= limit_a {
        return 0.0;
    }
    let last = (limit_a * CELLS_PER_A) as usize;
    cells.clear();
    cells.resize(last + 1, 0.0);
    cells[0] = 1.0;
    // The largest sum so far that is kept.
    let mut top = 0_usize;
    let mut passed = 0.0;
    for load in loads {
        let current = (load.current_a * CELLS_PER_A).round() as usize;
        let on = load.on.clamp(0.0, 1.0);
        if current == 0 || on == 0.0 {
            continue;
        }
        let stays = (last + 1).saturating_sub(current);
        passed += on * cells[stays.min(top + 1)..=top].iter().sum::<f64>();
        top = top.saturating_add(current).min(last);
        for sum in (0..=top).rev() {
            let before = if sum >= current { cells[sum - current] } else { 0.0 };
            cells[sum] = (1.0 - on) * cells[sum] + on * before;
        }
    }
    passed.min(1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn loads(list: &[(f64, f64)]) -> Vec<Demand> {
        list.iter().map(|&(current_a, on)| Demand { current_a, on }).collect()
    }

    fn risk_of(list: &[(f64, f64)], limit_a: f64) -> f64 {
        risk(&loads(list), limit_a, &mut vec![f64::NAN; 3])
    }

    #[test]
    fn what_always_fits_is_no_risk() {
        assert_eq!(risk_of(&[], 0.0), 0.0);
        assert_eq!(risk_of(&[(4.2, 0.6), (7.8, 1.0)], 12.0), 0.0);
        // 0.1 + 0.2 is a hair more than 0.3.
        assert_eq!(risk_of(&[(0.1, 1.0), (0.2, 1.0)], 0.3), 0.0);
    }

    #[test]
    fn certain_loads_pass_the_limit_for_certain() {
        assert_eq!(risk_of(&[(8.3, 1.0), (4.2, 1.0)], 12.0), 1.0);
        assert_eq!(risk_of(&[(8.3, 1.0), (4.2, 1.0), (15.0, 0.5)], 12.0), 1.0);
    }

    #[test]
    fn a_load_that_is_never_on_does_not_count() {
        assert_eq!(risk_of(&[(8.3, 0.0), (20.0, 0.25), (4.2, 1.0)], 12.0), 0.25);
        assert_eq!(certain_peak_a(&loads(&[(8.3, 0.0), (4.2, 0.1)])), 4.2);
    }

    #[test]
    fn a_load_larger_than_the_limit_passes_it_whenever_it_is_on() {
        assert_eq!(risk_of(&[(15.0, 0.1)], 12.0), 0.1);
        assert_eq!(risk_of(&[(15.0, 0.1)], 0.0), 0.1);
    }

    #[test]
    fn two_loads_pass_the_limit_when_both_are_on() {
        assert_eq!(risk_of(&[(8.3, 0.5), (4.2, 0.5)], 12.0), 0.25);
        assert_eq!(risk_of(&[(8.3, 0.5), (3.7, 0.5)], 12.0), 0.0);
    }

    #[test]
    fn halves_of_a_cell_go_up() {
        assert_eq!(risk_of(&[(0.35, 0.5), (0.1, 0.5)], 0.4), 0.25);
    }

    #[test]
    fn expected_current_is_the_weighted_sum() {
        assert_eq!(expected_a(&loads(&[(4.0, 0.5), (10.0, 0.25), (3.0, 0.0)])), 4.5);
        assert_eq!(expected_a(&[]), 0.0);
    }
}
