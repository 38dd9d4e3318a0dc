//! Where the axle group should stand for a wanted tongue fraction.

/// Stations from the nearest to the farthest behind the ball.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StationRange {
    /// Nearest [m].
    pub min_x_m: f64,
    /// Farthest [m].
    pub max_x_m: f64,
}

/// Station for a tongue fraction, the load staying where it is.
///
/// `L = X / (1 − f)`
///
/// - `center_x_m`       centre of gravity behind the ball X [m]
/// - `tongue_fraction`  wanted f = T/W, below 1
///
/// Returns the station [m].
///
/// Source: equilibrium of moments about the ball.
pub fn station_m(center_x_m: f64, tongue_fraction: f64) -> f64 {
    center_x_m / (1.0 - tongue_fraction)
}

/// Station for a tongue fraction, the axles' own mass moving with them.
///
/// `L = S / (W (1 − f) − u)`
///
/// - `rest_moment_kg_m`  Σ w x of all but the axles about the ball S [kg·m]
/// - `gross_kg`          mass of the whole trailer W [kg]
/// - `axles_kg`          mass of the axles, hubs, wheels and tires u [kg], below W (1 − f)
/// - `tongue_fraction`   wanted f, below 1
///
/// Returns the station [m].
///
/// Source: equilibrium of moments about the ball.
pub fn station_moving_axles_m(
    rest_moment_kg_m: f64,
    gross_kg: f64,
    axles_kg: f64,
    tongue_fraction: f64,
) -> f64 {
    rest_moment_kg_m / (gross_kg * (1.0 - tongue_fraction) - axles_kg)
}

/// Stations that keep the tongue fraction between two limits in every state.
///
/// `X_max / (1 − f_lo) ≤ L ≤ X_min / (1 − f_hi)`
///
/// - `center_min_x_m`  centre of gravity nearest the ball over the states X_min [m]
/// - `center_max_x_m`  farthest from it X_max [m]
/// - `least`           least wanted fraction f_lo
/// - `greatest`        greatest wanted fraction f_hi, below 1
///
/// Returns the stations, or none where no station holds both limits: the centre wanders further than
/// [`center_ratio`]. Counts the axles' mass where it now stands; when they move far, find X again and repeat.
///
/// Source: [`station_m`] for both limits.
pub fn stations(center_min_x_m: f64, center_max_x_m: f64, least: f64, greatest: f64) -> Option<StationRange> {
    let range = StationRange {
        min_x_m: station_m(center_max_x_m, least),
        max_x_m: station_m(center_min_x_m, greatest),
    };
    (range.min_x_m <= range.max_x_m).then_some(range)
}

/// How far the centre of gravity may wander for any station to hold both limits.
///
/// `X_max / X_min ≤ (1 − f_lo) / (1 − f_hi)`
///
/// - `least`     least wanted fraction f_lo
/// - `greatest`  greatest wanted fraction f_hi, below 1
///
/// Returns the greatest ratio.
///
/// Source: the limits of [`stations`] set equal.
pub fn center_ratio(least: f64, greatest: f64) -> f64 {
    (1.0 - least) / (1.0 - greatest)
}

/// Station whose worst deviation from a wanted tongue fraction is least.
///
/// `L = (X_min + X_max) / (2 (1 − f))`
///
/// - `center_min_x_m`   centre of gravity nearest the ball over the states X_min [m]
/// - `center_max_x_m`   farthest from it X_max [m]
/// - `tongue_fraction`  wanted f, below 1
///
/// Returns the station [m]: the extremes lie equally far on both sides of the wanted fraction.
///
/// Source: deviations of [`station_m`] at both ends set equal.
pub fn minimax_station_m(center_min_x_m: f64, center_max_x_m: f64, tongue_fraction: f64) -> f64 {
    station_m((center_min_x_m + center_max_x_m) / 2.0, tongue_fraction)
}

#[cfg(test)]
mod tests {
    use super::super::fixture::*;
    use super::*;
    use crate::units::{inches, kg, m};

    /// Extremes of the centre of gravity over the states of a set of tanks and toys [in].
    const CENTER_MIN_IN: f64 = 160.89878;
    const CENTER_MAX_IN: f64 = 178.16661;

    #[test]
    fn best_station_gives_the_wanted_fraction() {
        let t = totals();
        assert_printed(inches(station_m(t.center_x_m(), 0.125)), "189.0511");
        let axles = kg(660.0);
        let rest = t.x_kg_m - axles * m(GROUP_X_IN);
        let station = station_moving_axles_m(rest, t.mass_kg, axles, 0.125);
        assert_printed(inches(station), "188.8456");
        let fraction = 1.0 - (rest + axles * station) / t.mass_kg / station;
        assert!((fraction - 0.125).abs() < 1e-14);
    }

    #[test]
    fn no_station_holds_a_centre_that_wanders_too_far() {
        assert_printed(CENTER_MAX_IN / CENTER_MIN_IN, "1.107321");
        assert_printed(center_ratio(0.10, 0.15), "1.058824");
        let range = stations(m(CENTER_MIN_IN), m(CENTER_MAX_IN), 0.10, 0.15);
        assert_eq!(range, None);
    }

    #[test]
    fn station_within_the_range_holds_both_limits() {
        let range = stations(4.0, 4.1, 0.10, 0.15).unwrap();
        assert!((1.0 - 4.1 / range.min_x_m - 0.10).abs() < 1e-15);
        assert!((1.0 - 4.0 / range.max_x_m - 0.15).abs() < 1e-15);
        assert!(range.min_x_m < range.max_x_m);
    }

    #[test]
    fn minimax_station_misses_equally_on_both_sides() {
        let station = minimax_station_m(m(CENTER_MIN_IN), m(CENTER_MAX_IN), 0.125);
        assert_printed(inches(station), "193.7517");
        let fraction = |center_in| 1.0 - m(center_in) / station;
        assert_printed(fraction(CENTER_MAX_IN), "0.080438");
        assert_printed(fraction(CENTER_MIN_IN), "0.169562");
    }
}
