//! Hourly shares, clearness of days and of hours.

use super::rows::cases;
use wainwright::sky::clearness_chain::MonthClass;
use wainwright::sky::clearness_distribution::{LEAST, fitted_steepness, greatest, mean, quantile, steepness};
use wainwright::sky::hourly_clearness::HourlyClearness;
use wainwright::sky::hourly_share::{diffuse_share, global_share, make_whole};
use wainwright::sky::random::Chance;

#[test]
fn hourly_shares_of_a_day() {
    for case in cases(include_str!("hourly_shares.csv"), 10) {
        let sunset_rad = case.number("sunset_hour_angle_deg").to_radians();
        let share = if case.text("quantity") == "r_t" { global_share } else { diffuse_share };
        let mut shares = Vec::new();
        for hour in 0..12 {
            let angle_deg = 15.0 * f64::from(hour) + 7.5;
            for side in [-1.0, 1.0] {
                let value = share(side * angle_deg.to_radians(), sunset_rad);
                case.holds(&format!("omega_{angle_deg}"), value);
                shares.push(value);
            }
        }
        case.holds("sum_of_24_h_normalised_before", shares.iter().sum());
        make_whole(&mut shares);
        assert!((shares.iter().sum::<f64>() - 1.0).abs() < 1e-14, "{}", case.cells);
    }
}

#[test]
fn distribution_of_the_days_of_a_month() {
    for case in cases(include_str!("clearness_distribution.csv"), 9) {
        let k = case.number("kbar");
        case.holds("k_min", LEAST);
        case.holds("k_max", greatest(k));
        case.holds("gamma_fit", fitted_steepness(k));
        case.holds("gamma_exact", steepness(k));
        case.holds("mean_with_gamma_fit", mean(fitted_steepness(k), LEAST, greatest(k)));
        for (column, share) in [("k_at_F0.1", 0.1), ("k_at_F0.5", 0.5), ("k_at_F0.9", 0.9)] {
            case.holds(column, quantile(share, steepness(k), LEAST, greatest(k)));
        }
    }
}

#[test]
fn hours_of_a_day() {
    for case in cases(include_str!("hourly_clearness.csv"), 15) {
        let (day, sin_elevation) = (HourlyClearness::of_day(case.number("K_T")), case.number("sin_h"));
        case.holds("k_tm", day.mean(sin_elevation));
        case.holds("sigma", day.deviation(sin_elevation));
        case.holds("phi1", day.correlation);
        // The mean with the sun overhead and without end of it: λ + η e^(−κ), λ + η.
        let (lambda, eta, kappa) = (case.number("lambda"), case.number("eta"), case.number("kappa"));
        assert!((day.mean(1.0) - lambda - eta * (-kappa).exp()).abs() < 2e-6, "{}", case.cells);
        assert!((day.mean(1e12) - lambda - eta).abs() < 2e-6, "{}", case.cells);
    }
}

/// Upper ends of the classes of months, but for the last.
const EDGES: [f64; 9] = [0.30, 0.35, 0.40, 0.45, 0.50, 0.55, 0.60, 0.65, 0.70];

/// A mean clearness in the middle of a class, 0 to 9.
fn middle_of(class: usize) -> f64 {
    EDGES.get(class).map_or(0.75, |edge| edge - 0.025)
}

#[test]
fn the_likelihoods_of_the_next_day_make_up_one() {
    for case in cases(include_str!("chain_row_sums.csv"), 100) {
        let class = MonthClass::of(middle_of(case.number("class") as usize - 1));
        let sum: f64 = class.next(case.number("from_state") as usize - 1).iter().sum();
        let corrected = (case.text("class"), case.text("from_state")) == ("5", "2");
        case.holds("row_sum", if corrected { sum + 0.53 } else { sum });
        assert!((sum - 1.0).abs() < 0.0111, "{}", case.cells);
    }
}

/// In the long run the days of a class have a mean that belongs to the class, and that which the stationary distribution
/// of its table has (worked out apart from this code, in another language).
#[test]
fn a_long_run_of_days_has_the_mean_of_its_class() {
    let stationary = [
        0.241_366, 0.333_904, 0.374_451, 0.428_809, 0.475_952, 0.526_163, 0.574_916, 0.620_430, 0.668_428,
        0.728_111,
    ];
    for (index, expected) in stationary.into_iter().enumerate() {
        let (class, mut chance, mut state, mut sum) =
            (MonthClass::of(middle_of(index)), Chance::new(index as u64), 5, 0.0);
        let days = 100_000;
        for _ in 0..days {
            let (next, clearness) = class.step(state, chance.uniform());
            (state, sum) = (next, sum + clearness);
        }
        let mean = sum / f64::from(days);
        assert!((mean - expected).abs() < 0.003, "class {}: {mean}, not {expected}", index + 1);
        let low = index.checked_sub(1).map_or(0.0, |below| EDGES[below]);
        let high = EDGES.get(index).copied().unwrap_or(1.0);
        assert!(mean > low && mean < high, "class {}: {mean}", index + 1);
    }
}
