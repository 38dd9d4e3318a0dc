//! How clear the days of a month are, by its mean alone: a distribution that sites of many climates share.

use super::random::{Chance, autoregressive};

/// Clearness of the darkest day. Source: Bendt, Collares-Pereira and Rabl 1981, Solar Energy 27, 1–5 (`from memory`).
pub const LEAST: f64 = 0.05;

/// Mean clearness between which the distribution was fitted.
const FITTED: (f64, f64) = (0.3, 0.7);

/// Correlation of the clearness of neighbouring days, by their rank.
///
/// Source: Graham, Hollands and Huget 1988, Solar Energy 40, 83–92 (`from memory`).
pub const DAY_CORRELATION: f64 = 0.29;

/// Clearness of the clearest day of a month.
///
/// `K_max = 0.6313 + 0.267 K − 11.9 (K − 0.75)⁸`
///
/// - `mean`  mean clearness of the month K, fitted for 0.3 to 0.7
///
/// Source: Hollands and Huget 1983, Solar Energy 30, 195–209; Duffie and Beckman, eq. 2.9.7c (`from memory`).
pub fn greatest(mean: f64) -> f64 {
    0.6313 + 0.267 * mean - 11.9 * (mean - 0.75).powi(8)
}

/// How steeply the distribution rises toward clear days, by a fit.
///
/// `γ = −1.498 + [1.184 ξ − 27.182 exp(−1.5 ξ)] / (K_max − K_min)`, `ξ = (K_max − K_min) / (K_max − K)`
///
/// - `mean`  mean clearness of the month K, 0.3 to 0.7
///
/// The mean of a distribution with this γ is within 0.002 of K. [`steepness`] holds it exactly.
///
/// Source: Herzog 1985, as in Duffie and Beckman, eq. 2.9.7 (`from memory`).
pub fn fitted_steepness(mean: f64) -> f64 {
    let span = greatest(mean) - LEAST;
    let xi = span / (greatest(mean) - mean);
    -1.498 + (1.184 * xi - 27.182 * (-1.5 * xi).exp()) / span
}

/// Mean of the distribution whose density rises as `exp(γ K)` between two ends.
///
/// `K = K_min + span [1 / (1 − exp(−x)) − 1 / x]`, `x = γ span`
///
/// - `steepness`  γ, any
/// - `least`      K_min
/// - `greatest`   K_max, above K_min
///
/// Source: the integral of the density of Bendt and others 1981, Solar Energy 27, 1–5.
pub fn mean(steepness: f64, least: f64, greatest: f64) -> f64 {
    let span = greatest - least;
    let x = steepness * span;
    // Near an even distribution the two terms cancel: their series.
    let share =
        if x.abs() < 1e-2 { 0.5 + x / 12.0 - x.powi(3) / 720.0 } else { -1.0 / (-x).exp_m1() - 1.0 / x };
    least + span * share
}

/// How steeply the distribution rises toward clear days, so that its mean is the month's.
///
/// The γ for which [`mean`] between [`LEAST`] and [`greatest`] is K, by halving.
///
/// - `mean`  mean clearness of the month K, 0.3 to 0.7; beyond, as those
///
/// Returns γ, within −60 and 60.
pub fn steepness(mean: f64) -> f64 {
    let mean = mean.clamp(FITTED.0, FITTED.1);
    let (mut low, mut high) = (-60.0, 60.0);
    for _ in 0..60 {
        let middle = (low + high) / 2.0;
        if self::mean(middle, LEAST, greatest(mean)) < mean {
            low = middle;
        } else {
            high = middle;
        }
    }
    (low + high) / 2.0
}

/// Clearness that a share of the days stays below.
///
/// `K = K_min + ln[1 + F (exp(γ span) − 1)] / γ`, the inverse of
/// `F = (e^{γ K_min} − e^{γ K}) / (e^{γ K_min} − e^{γ K_max})`
///
/// - `share`      share of the days F, 0 to 1
/// - `steepness`  γ, any
/// - `least`      K_min
/// - `greatest`   K_max, above K_min
///
/// Source: Bendt, Collares-Pereira and Rabl 1981, Solar Energy 27, 1–5; Duffie and Beckman, eq. 2.9.6 (`from memory`).
pub fn quantile(share: f64, steepness: f64, least: f64, greatest: f64) -> f64 {
    let span = greatest - least;
    if (steepness * span).abs() < 1e-9 {
        return least + share * span;
    }
    least + (share * (steepness * span).exp_m1()).ln_1p() / steepness
}

/// Makes the days of a month: evenly spread over the distribution, in an order in which clear days keep company.
///
/// Day by day a normal series with [`DAY_CORRELATION`] is drawn; the day that has rank r of n in it gets the clearness
/// below which the share (r − ½)/n of all days stays. So every month has its clear and its dark days, and its mean
/// within 0.0015, whatever the seed.
///
/// - `mean`    mean clearness of the month K, 0 to 1. Beyond 0.3 to 0.7, where the distribution was fitted, the days
///   of the nearer end are scaled to K
/// - `days`    clearness of each day, to be filled
/// - `chance`  where the order comes from
pub fn fill_month(mean: f64, days: &mut [f64], chance: &mut Chance) {
    let mut before = chance.normal();
    let mut order: Vec<(f64, usize)> = (0..days.len())
        .map(|day| {
            before = autoregressive(before, DAY_CORRELATION, chance.normal());
            (before, day)
        })
        .collect();
    order.sort_by(|a, b| a.0.total_cmp(&b.0));
    let shape = mean.clamp(FITTED.0, FITTED.1);
    let (steepness, greatest) = (steepness(shape), greatest(shape));
    for (rank, (_, day)) in order.iter().enumerate() {
        let share = (rank as f64 + 0.5) / days.len() as f64;
        days[*day] = quantile(share, steepness, LEAST, greatest) * mean / shape;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_quantile_undoes_the_distribution() {
        for gamma in [-8.0, -0.5, 1e-12, 2.0, 15.0] {
            let (least, greatest) = (0.05, 0.75);
            assert_eq!(quantile(0.0, gamma, least, greatest), least);
            assert!((quantile(1.0, gamma, least, greatest) - greatest).abs() < 1e-12);
            for share in [0.1, 0.5, 0.9] {
                let k = quantile(share, gamma, least, greatest);
                let below = |k: f64| ((gamma * (k - least)).exp_m1()) / (gamma * (greatest - least)).exp_m1();
                assert!((below(k) - share).abs() < 1e-9, "{gamma} {share}");
            }
        }
    }

    #[test]
    fn the_mean_is_smooth_where_its_terms_cancel() {
        let at = |x: f64| mean(x, 0.0, 1.0);
        assert!((at(0.01 - 1e-12) - at(0.01 + 1e-12)).abs() < 1e-11);
        assert_eq!(at(0.0), 0.5);
        assert!(at(-700.0) < 0.002 && at(700.0) > 0.998);
    }

    #[test]
    fn a_month_keeps_its_mean_and_its_days_are_of_the_distribution() {
        for mean in [0.1, 0.3, 0.45, 0.6, 0.7, 0.8] {
            for count in [28, 31] {
                let mut days = vec![0.0; count];
                fill_month(mean, &mut days, &mut Chance::new(11));
                let made = days.iter().sum::<f64>() / count as f64;
                // Slices of a steep distribution have their means beside their middles.
                assert!((made - mean).abs() < 0.0015, "{mean}: {made}");
                assert!(days.iter().all(|k| *k > 0.0 && *k < 1.0));
            }
        }
    }

    #[test]
    fn clear_days_keep_company() {
        let (mut chance, mut days) = (Chance::new(5), vec![0.0; 20_000]);
        fill_month(0.5, &mut days, &mut chance);
        let spread =
            |lag: usize| days.iter().zip(&days[lag..]).map(|(a, b)| (a - 0.5) * (b - 0.5)).sum::<f64>();
        let correlation = spread(1) / spread(0);
        // The correlation of ranks is a little less than that of the normal series.
        assert!((0.25..0.30).contains(&correlation), "{correlation}");
    }

    #[test]
    fn a_month_of_no_days_is_no_trouble() {
        fill_month(0.5, &mut [], &mut Chance::new(1));
    }
}
