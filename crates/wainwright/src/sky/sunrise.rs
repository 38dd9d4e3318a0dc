//! Sunrise and sunset: the upper edge of the sun at a level horizon, as seen at sea level.

use std::f64::consts::TAU;

use solar_positioning::{Horizon, Location, SolarEvents};

use super::sun::{HORIZON_REFRACTION_RAD, Observer, SUN_RADIUS_RAD, Sun, julian_date};

/// Elevation of the sun's center, but for refraction, at which its upper edge is at the horizon [rad], −0.83337°
/// (the program of SPA's 2008 revision, NREL/TP-560-34302).
pub const SUNRISE_ELEVATION_RAD: f64 = -(SUN_RADIUS_RAD + HORIZON_REFRACTION_RAD);

/// A day [s].
const DAY_S: f64 = 86_400.0;

/// A solar day: the 24 hours around a solar noon.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SolarDay {
    /// Instant at which the sun crosses the meridian [s], Unix time in UTC.
    pub noon_unix_s: f64,
    /// Sunrise in the 12 hours before noon [s], Unix time in UTC. None where the sun does not rise.
    pub sunrise_unix_s: Option<f64>,
    /// Sunset in the 12 hours after noon [s], Unix time in UTC. None where the sun does not set.
    pub sunset_unix_s: Option<f64>,
    /// Whether the sun is up at noon. With neither sunrise nor sunset this tells midnight sun from polar night.
    pub up_at_noon: bool,
}

impl SolarDay {
    /// The solar day around the solar noon nearest to an instant.
    ///
    /// The sun's edge is at the horizon when its center, but for refraction, stands `0.26667° + 0.5667°` below.
    /// At the edges of midnight sun and polar night a day may have one event without the other. Within a degree of
    /// a pole, where season and not hour moves the sun up and down, an event may fall in the half of the day in which it
    /// is not looked for.
    ///
    /// - `near_unix_s`    an instant of the day [s], UTC, years −1999 to 5999; 12:00 local time suits any time zone
    /// - `latitude_rad`   latitude [rad], −π/2 to π/2, positive north
    /// - `longitude_rad`  longitude [rad], −π to π, positive east
    /// - `delta_t_s`      terrestrial time less universal time [s]
    ///
    /// None where an argument is outside its range.
    ///
    /// Source: SPA (NREL/TP-560-34302), the event searched for on its positions.
    pub fn near(near_unix_s: f64, latitude_rad: f64, longitude_rad: f64, delta_t_s: f64) -> Option<Self> {
        let noon_unix_s = solar_noon_unix_s(near_unix_s, longitude_rad, delta_t_s)?;
        let noon = julian_date(noon_unix_s);
        let place = Location { latitude: latitude_rad.to_degrees(), longitude: longitude_rad.to_degrees() };
        let horizon = Horizon::Custom(SUNRISE_ELEVATION_RAD.to_degrees());
        let events = SolarEvents::new();
        let rise = events.next_rise_from_julian(noon - 0.5, noon, place, delta_t_s, horizon).ok()?;
        let set = events.next_set_from_julian(noon, noon + 0.5, place, delta_t_s, horizon).ok()?;
        let unix_s = |date: f64| noon_unix_s + (date - noon) * DAY_S;
        let at_noon =
            Sun::at(noon_unix_s, delta_t_s)?.seen_from(&Observer::new(latitude_rad, longitude_rad, 0.0));
        Some(Self {
            noon_unix_s,
            sunrise_unix_s: rise.map(unix_s),
            sunset_unix_s: set.map(unix_s),
            up_at_noon: at_noon.up > SUNRISE_ELEVATION_RAD.sin(),
        })
    }
}

/// Solar noon nearest to an instant: when the sun crosses the meridian of a place.
///
/// `t ← t − H / (2π) · 86400`, three times. The hour angle H gains on the mean sun by 30 s a day at most, so the error
/// falls to a three-thousandth each time.
///
/// - `near_unix_s`    the instant [s], UTC
/// - `longitude_rad`  longitude [rad], positive east
/// - `delta_t_s`      terrestrial time less universal time [s]
///
/// Returns the instant [s]. None outside the years −2000 to 6000, or where an argument is not a finite number.
///
/// Source: SPA, section 3.11, for the hour angle.
pub fn solar_noon_unix_s(near_unix_s: f64, longitude_rad: f64, delta_t_s: f64) -> Option<f64> {
    let mut noon_unix_s = near_unix_s;
    for _ in 0..3 {
        noon_unix_s -= Sun::at(noon_unix_s, delta_t_s)?.hour_angle_rad(longitude_rad) / TAU * DAY_S;
    }
    Some(noon_unix_s)
}

/// Hour angle at which the sun's center sets on a level horizon without refraction: half the day's length as an angle.
///
/// `cos ω = −tan φ tan δ`, the right side held within −1 and 1
///
/// - `latitude_rad`     latitude φ [rad], −π/2 to π/2, positive north
/// - `declination_rad`  declination of the sun δ [rad], −0.41 to 0.41
///
/// Returns the angle [rad], 0 to π: 0 in polar night, π under the midnight sun.
///
/// Source: Duffie and Beckman, Solar Engineering of Thermal Processes, equation 1.6.10, number `from memory`.
pub fn sunset_hour_angle_rad(latitude_rad: f64, declination_rad: f64) -> f64 {
    (-latitude_rad.tan() * declination_rad.tan()).clamp(-1.0, 1.0).acos()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sky::sun::DELTA_T_S;
    use std::f64::consts::{FRAC_PI_2, PI};

    /// 2024-06-21 12:00 UTC and 2024-12-21 12:00 UTC.
    const JUNE_S: f64 = 1_718_971_200.0;
    const DECEMBER_S: f64 = 1_734_782_400.0;

    fn day(unix_s: f64, latitude_deg: f64) -> SolarDay {
        SolarDay::near(unix_s, latitude_deg.to_radians(), 0.0, DELTA_T_S).unwrap()
    }

    #[test]
    fn midnight_sun_and_polar_night_have_neither_event() {
        for (unix_s, latitude_deg, up_at_noon) in [
            (JUNE_S, 70.0, true),
            (DECEMBER_S, 70.0, false),
            (JUNE_S, -70.0, false),
            (DECEMBER_S, -70.0, true),
            (JUNE_S, 90.0, true),
            (JUNE_S, -90.0, false),
        ] {
            let day = day(unix_s, latitude_deg);
            assert_eq!((day.sunrise_unix_s, day.sunset_unix_s), (None, None), "{latitude_deg}");
            assert_eq!(day.up_at_noon, up_at_noon, "{latitude_deg}");
        }
    }

    #[test]
    fn the_sun_stands_at_the_sunrise_elevation_when_it_rises_and_sets() {
        for latitude_deg in [-66.0, -30.0, 0.0, 45.0, 65.7] {
            let day = day(JUNE_S, latitude_deg);
            let observer = Observer::new(latitude_deg.to_radians(), 0.0, 0.0);
            for unix_s in [day.sunrise_unix_s.unwrap(), day.sunset_unix_s.unwrap()] {
                let seen = Sun::at(unix_s, DELTA_T_S).unwrap().seen_from(&observer);
                assert!((FRAC_PI_2 - seen.zenith_rad() - SUNRISE_ELEVATION_RAD).abs() < 1e-7);
            }
            assert!(day.sunrise_unix_s.unwrap() < day.noon_unix_s && day.up_at_noon);
        }
    }

    #[test]
    fn at_noon_the_sun_is_on_the_meridian() {
        for hours in -11..=11 {
            let noon_unix_s = solar_noon_unix_s(JUNE_S + 3600.0 * f64::from(hours), 0.0, DELTA_T_S).unwrap();
            let hour_angle_rad = Sun::at(noon_unix_s, DELTA_T_S).unwrap().hour_angle_rad(0.0);
            // The instant is a Julian date inside, which resolves 40 µs.
            assert!(hour_angle_rad.abs() / TAU * DAY_S < 1e-4);
            assert!((noon_unix_s - JUNE_S).abs() < 150.0);
        }
    }

    #[test]
    fn arguments_out_of_range_have_no_day() {
        assert_eq!(SolarDay::near(JUNE_S, 1.6, 0.0, DELTA_T_S), None);
        assert_eq!(SolarDay::near(JUNE_S, 0.0, 3.2, DELTA_T_S), None);
        assert_eq!(SolarDay::near(f64::NAN, 0.0, 0.0, DELTA_T_S), None);
    }

    #[test]
    fn the_sunset_hour_angle_is_a_quarter_turn_on_the_equator_and_held_at_the_poles() {
        let june_rad = 23.44_f64.to_radians();
        assert_eq!(sunset_hour_angle_rad(0.0, june_rad), FRAC_PI_2);
        assert_eq!(sunset_hour_angle_rad(FRAC_PI_2, june_rad), PI);
        assert_eq!(sunset_hour_angle_rad(-FRAC_PI_2, june_rad), 0.0);
        assert_eq!(sunset_hour_angle_rad(70_f64.to_radians(), -june_rad), 0.0);
    }

    #[test]
    fn without_refraction_and_size_the_sun_sets_some_minutes_earlier() {
        let day = day(JUNE_S, 45.0);
        let plain_s = sunset_hour_angle_rad(45_f64.to_radians(), 23.43_f64.to_radians()) / TAU * DAY_S;
        let later_s = day.sunset_unix_s.unwrap() - day.noon_unix_s - plain_s;
        assert!((240.0..360.0).contains(&later_s), "{later_s}");
    }
}
