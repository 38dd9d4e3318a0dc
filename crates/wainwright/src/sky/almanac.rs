//! The sun through a series of steps, tabulated a day apart and interpolated between.
//!
//! Seen from the center of the earth the sun moves so evenly that four positions a day apart give every one between them
//! to 1e-6 degree (`tests/sky/almanac.rs`), at a twentieth of the cost of working out each.

use std::f64::consts::TAU;
use std::sync::OnceLock;

use super::clock::Clock;
use super::sun::{DELTA_T_S, Sun, SunTable};

/// Seconds of a day.
const DAY_S: f64 = 86_400.0;
/// Steps before and after the typical year, so that every place's year lies within.
const HOURS_AROUND: usize = 24;

/// What is interpolated: everything that changes slowly.
#[derive(Debug, Clone, Copy)]
struct Node {
    declination_rad: f64,
    /// Hour angle at Greenwich less that of a sun that runs evenly: the equation of time.
    ahead_rad: f64,
    distance_au: f64,
}

impl Node {
    fn at(unix_s: f64) -> Option<Self> {
        let sun = Sun::at(unix_s, DELTA_T_S)?;
        let ahead_rad = sun.hour_angle_rad(0.0) - even_hour_angle_rad(unix_s);
        Some(Self {
            declination_rad: sun.sin_declination.atan2(sun.cos_declination),
            // A quarter of an hour at most, either way: what is beyond half a turn is a turn too much.
            ahead_rad: ahead_rad - TAU * (ahead_rad / TAU).round(),
            distance_au: sun.distance_au,
        })
    }
}

/// Hour angle at Greenwich of a sun that runs evenly [rad]: 0 at noon of universal time.
fn even_hour_angle_rad(unix_s: f64) -> f64 {
    (unix_s.rem_euclid(DAY_S) / DAY_S - 0.5) * TAU
}

/// The sun in the middle of each step of a clock, as seen from the center of the earth.
///
/// Interpolated by Lagrange's polynomial through four nodes a day apart: declination, equation of time and distance.
///
/// - `first_unix_s`  middle of the first step [s], UTC
/// - `step_s`        length of a step [s], above 0
/// - `count`         how many steps
///
/// None outside the years −2000 to 6000, or where an argument is not a finite number.
///
/// Source: the nodes by SPA, see [`Sun::at`].
pub fn interpolated(first_unix_s: f64, step_s: f64, count: usize) -> Option<SunTable> {
    if !(first_unix_s.is_finite() && step_s.is_finite()) {
        return None;
    }
    // The node before the one that the first instant follows.
    let start_s = (first_unix_s / DAY_S).floor() * DAY_S - DAY_S;
    let span_s = first_unix_s + step_s * count as f64 - start_s;
    let days = (span_s / DAY_S).ceil().max(0.0) as usize + 3;
    let nodes = (0..days).map(|day| Node::at(start_s + day as f64 * DAY_S)).collect::<Option<Vec<_>>>()?;
    let suns = (0..count).map(|step| {
        let unix_s = first_unix_s + step as f64 * step_s;
        let days = (unix_s - start_s) / DAY_S;
        let before = days.floor();
        // Nodes were laid from a day before the first step to two days beyond the last.
        let four = nodes.get(before as usize - 1..before as usize + 3)?;
        Some(between(four, days - before, even_hour_angle_rad(unix_s)))
    });
    suns.collect::<Option<Vec<_>>>().map(SunTable::of)
}

/// The sun between the second and the third of four nodes.
fn between(four: &[Node], part: f64, even_rad: f64) -> Sun {
    let (p, q) = (part, 1.0 - part);
    let weights = [
        -p * q * (q + 1.0) / 6.0,
        (1.0 + p) * q * (q + 1.0) / 2.0,
        (1.0 + p) * p * (q + 1.0) / 2.0,
        -(1.0 + p) * p * q / 6.0,
    ];
    let weighed =
        |of: fn(&Node) -> f64| four.iter().zip(weights).map(|(node, weight)| of(node) * weight).sum::<f64>();
    let (sin_declination, cos_declination) = weighed(|node| node.declination_rad).sin_cos();
    let (sin_hour_angle, cos_hour_angle) = (even_rad + weighed(|node| node.ahead_rad)).sin_cos();
    Sun {
        sin_declination,
        cos_declination,
        sin_hour_angle,
        cos_hour_angle,
        distance_au: weighed(|node| node.distance_au),
    }
}

/// The sun in the middle of each step of a clock. That of the typical year in hours is worked out once.
///
/// - `clock`         the steps
/// - `utc_offset_h`  local standard time less universal time [h], −24 to 24
///
/// None outside the years −2000 to 6000.
pub fn suns(clock: &Clock, utc_offset_h: f64) -> Option<SunTable> {
    static TYPICAL: OnceLock<Option<SunTable>> = OnceLock::new();
    let whole_hours = utc_offset_h.fract() == 0.0 && utc_offset_h.abs() <= HOURS_AROUND as f64;
    if whole_hours && *clock == Clock::typical_hours() {
        let around = TYPICAL.get_or_init(|| {
            let first_s = clock.first_middle_unix_s(0.0) - HOURS_AROUND as f64 * 3600.0;
            interpolated(first_s, 3600.0, clock.count() + 2 * HOURS_AROUND)
        });
        let from = (HOURS_AROUND as f64 - utc_offset_h) as usize;
        let year = around.as_ref()?.suns().get(from..from + clock.count())?;
        return Some(SunTable::of(year.to_vec()));
    }
    let step_s = clock.step_h() * 3600.0;
    interpolated(clock.first_middle_unix_s(utc_offset_h), step_s, clock.count())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_typical_year_is_the_same_from_the_store_and_worked_out() {
        let clock = Clock::typical_hours();
        for utc_offset_h in [-8.0, 0.0, 9.0] {
            let stored = suns(&clock, utc_offset_h).unwrap();
            let first_s = clock.first_middle_unix_s(utc_offset_h);
            let worked_out = interpolated(first_s, 3600.0, clock.count()).unwrap();
            assert_eq!(stored.suns().len(), 8760);
            for (one, other) in stored.suns().iter().zip(worked_out.suns()) {
                assert!((one.sin_declination - other.sin_declination).abs() < 1e-12);
                assert!((one.sin_hour_angle - other.sin_hour_angle).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn a_place_between_two_time_zones_has_its_sun_too() {
        let clock = Clock::typical_hours();
        let half = suns(&clock, 5.5).unwrap();
        let first = Sun::at(clock.first_middle_unix_s(5.5), DELTA_T_S).unwrap();
        assert!((half.suns()[0].sin_hour_angle - first.sin_hour_angle).abs() < 1e-8);
    }

    #[test]
    fn beyond_the_years_of_the_algorithm_there_is_no_sun() {
        assert_eq!(interpolated(1e15, 3600.0, 3), None);
        assert_eq!(interpolated(f64::NAN, 3600.0, 3), None);
        assert_eq!(interpolated(0.0, 3600.0, 0), Some(SunTable::of(vec![])));
    }
}
