//! Position of the sun by the Solar Position Algorithm (SPA) of Reda and Andreas, NREL/TP-560-34302 (2004, revised
//! 2008), whose stated uncertainty is ±0.0003° for the years −2000 to 6000. Numbers of its sections
//! are `from memory`; the figures are not.
//!
//! What depends on the instant alone is costly and stands in [`Sun`]; what depends on the place alone stands in
//! [`Observer`]. Bringing the two together takes no trigonometry, so that a [`SunTable`] of a year serves every
//! place. A table does not interpolate: its rows are the algorithm's own at their instants, and its directions are
//! within 1e-8° of the algorithm carried out in angles (largest difference over 1,000 random instants and places
//! 2.2e-9°, see `tests/sky/sun.rs`).

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use solar_positioning::time::JulianDate;
use solar_positioning::{Location, SolarPositions};

/// Terrestrial time less universal time ΔT [s], its value in 2024. An error of 1 s shifts the sun by 0.04″.
pub const DELTA_T_S: f64 = 69.2;

/// Half the sun's diameter [rad], 0.26667° (the program of SPA's 2008 revision).
pub const SUN_RADIUS_RAD: f64 = 0.26667 * PI / 180.0;

/// Refraction at the horizon [rad], 0.5667° (the program of SPA's 2008 revision).
pub const HORIZON_REFRACTION_RAD: f64 = 0.5667 * PI / 180.0;

/// Equatorial radius of the earth [m] (SPA, section 3.12).
const EARTH_RADIUS_M: f64 = 6_378_140.0;

/// Polar over equatorial radius of the earth (SPA, section 3.12).
const POLAR_TO_EQUATORIAL: f64 = 0.996_647_19;

/// Parallax of the sun on the horizon at a distance of 1 AU [rad], 8.794″ (SPA, section 3.12).
const PARALLAX_RAD: f64 = 8.794 / 3600.0 * PI / 180.0;

/// Julian date of an instant.
///
/// `JD = t / 86400 + 2440587.5`
///
/// - `unix_s`  instant [s], UTC. It is taken for UT1, from which it differs by less than 0.9 s
///
/// Returns the date [d].
///
/// Source: SPA, section 3.1; the constant is the Julian date of 1970-01-01 00:00.
pub fn julian_date(unix_s: f64) -> f64 {
    unix_s / 86_400.0 + 2_440_587.5
}

/// The sun at an instant as seen from the center of the earth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sun {
    /// Sine of the declination δ.
    pub sin_declination: f64,
    /// Cosine of the declination δ.
    pub cos_declination: f64,
    /// Sine of the hour angle at Greenwich G, positive west.
    pub sin_hour_angle: f64,
    /// Cosine of the hour angle at Greenwich G.
    pub cos_hour_angle: f64,
    /// Distance from the earth [AU].
    pub distance_au: f64,
}

impl Sun {
    /// The sun at an instant.
    ///
    /// `G = ν − α`, apparent sidereal time less right ascension
    ///
    /// - `unix_s`     instant [s], UTC, years −2000 to 6000
    /// - `delta_t_s`  terrestrial time less universal time [s], see [`DELTA_T_S`]
    ///
    /// None outside those years, or where an argument is not a finite number.
    ///
    /// Source: SPA, sections 3.1 to 3.11.
    pub fn at(unix_s: f64, delta_t_s: f64) -> Option<Self> {
        let julian = JulianDate::new(julian_date(unix_s), delta_t_s).ok()?;
        let instant = SolarPositions::new().for_time_from_julian(julian).ok()?;
        // At the north pole there is no parallax in azimuth; counted from Greenwich's meridian it is π + G.
        let pole = Location { latitude: 90.0, longitude: 0.0 };
        let hour_angle_rad = instant.at(pole, 0.0, None).ok()?.azimuth().to_radians() - PI;
        let (sin_declination, cos_declination) = instant.declination().to_radians().sin_cos();
        let (sin_hour_angle, cos_hour_angle) = hour_angle_rad.sin_cos();
        let distance_au = instant.earth_radius_vector()?;
        Some(Self { sin_declination, cos_declination, sin_hour_angle, cos_hour_angle, distance_au })
    }

    /// Hour angle of the sun at a place, the sun's true solar time from noon.
    ///
    /// `H = G + λ`
    ///
    /// - `longitude_rad`  longitude λ [rad], positive east
    ///
    /// Returns the angle [rad], −π to π: 0 at solar noon, positive in the afternoon.
    ///
    /// Source: SPA, section 3.11.
    pub fn hour_angle_rad(&self, longitude_rad: f64) -> f64 {
        let (sin, cos) = longitude_rad.sin_cos();
        let west = self.sin_hour_angle * cos + self.cos_hour_angle * sin;
        west.atan2(self.cos_hour_angle * cos - self.sin_hour_angle * sin)
    }

    /// Where an observer sees the sun, but for refraction.
    ///
    /// In the plane of the observer's meridian, its axes towards equator and pole, with `H = G + λ`:
    /// `m = cos δ cos H − x p`, `z = sin δ − y p`, then `up = m cos φ + z sin φ`, `north = z cos φ − m sin φ`,
    /// `east = −cos δ sin H`, all over their length. `p = 8.794″ / R` is the parallax, x and y the observer's distance
    /// from the earth's axis and equator in equatorial radii.
    ///
    /// - `observer`  the place
    ///
    /// Source: SPA, sections 3.12 to 3.15, written with vectors, which is exact at zenith and poles too.
    pub fn seen_from(&self, observer: &Observer) -> Direction {
        let Observer { sin_latitude, cos_latitude, sin_longitude, cos_longitude, x, y } = *observer;
        let cos_h = self.cos_hour_angle * cos_longitude - self.sin_hour_angle * sin_longitude;
        let sin_h = self.sin_hour_angle * cos_longitude + self.cos_hour_angle * sin_longitude;
        // The sine of so small an angle is the angle, to 1e-14.
        let parallax = PARALLAX_RAD / self.distance_au;
        let to_equator = self.cos_declination * cos_h - x * parallax;
        let to_west = self.cos_declination * sin_h;
        let to_pole = self.sin_declination - y * parallax;
        let scale = 1.0 / (to_equator * to_equator + to_west * to_west + to_pole * to_pole).sqrt();
        Direction {
            east: -to_west * scale,
            north: (cos_latitude * to_pole - sin_latitude * to_equator) * scale,
            up: (cos_latitude * to_equator + sin_latitude * to_pole) * scale,
        }
    }
}

/// A place on the earth, made ready for many instants.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Observer {
    sin_latitude: f64,
    cos_latitude: f64,
    sin_longitude: f64,
    cos_longitude: f64,
    /// Distance from the earth's axis in equatorial radii.
    x: f64,
    /// Distance north of the equator's plane in equatorial radii.
    y: f64,
}

impl Observer {
    /// An observer at a place.
    ///
    /// `u = atan(0.99664719 tan φ)`, `x = cos u + (h / a) cos φ`, `y = 0.99664719 sin u + (h / a) sin φ`
    ///
    /// - `latitude_rad`   latitude φ [rad], −π/2 to π/2, positive north
    /// - `longitude_rad`  longitude λ [rad], positive east
    /// - `height_m`       height above sea level h [m]
    ///
    /// Source: SPA, section 3.12; a is the earth's equatorial radius, 6 378 140 m.
    pub fn new(latitude_rad: f64, longitude_rad: f64, height_m: f64) -> Self {
        let (sin_latitude, cos_latitude) = latitude_rad.sin_cos();
        let (sin_longitude, cos_longitude) = longitude_rad.sin_cos();
        let (sin_u, cos_u) = (POLAR_TO_EQUATORIAL * sin_latitude).atan2(cos_latitude).sin_cos();
        let height = height_m / EARTH_RADIUS_M;
        Self {
            sin_latitude,
            cos_latitude,
            sin_longitude,
            cos_longitude,
            x: cos_u + height * cos_latitude,
            y: POLAR_TO_EQUATORIAL * sin_u + height * sin_latitude,
        }
    }
}

/// A direction as a vector of length 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Direction {
    /// Part towards the east.
    pub east: f64,
    /// Part towards the north.
    pub north: f64,
    /// Part upwards: the cosine of the zenith angle.
    pub up: f64,
}

impl Direction {
    /// The direction in which a plane faces.
    ///
    /// `east = sin β sin γ`, `north = sin β cos γ`, `up = cos β`
    ///
    /// - `tilt_rad`     tilt β [rad], 0 flat facing up, π/2 upright
    /// - `azimuth_rad`  azimuth it faces γ [rad], clockwise from north
    pub fn faced(tilt_rad: f64, azimuth_rad: f64) -> Self {
        let (sin_tilt, cos_tilt) = tilt_rad.sin_cos();
        let (sin_azimuth, cos_azimuth) = azimuth_rad.sin_cos();
        Self { east: sin_tilt * sin_azimuth, north: sin_tilt * cos_azimuth, up: cos_tilt }
    }

    /// Cosine of the angle to another direction. Of the sun and the direction a plane faces it is the cosine of the
    /// angle of incidence, below zero with the sun behind the plane.
    pub fn cos_angle(&self, other: &Self) -> f64 {
        self.east * other.east + self.north * other.north + self.up * other.up
    }

    /// Angle from the zenith [rad], 0 to π, to full precision near the zenith too.
    pub fn zenith_rad(&self) -> f64 {
        self.east.hypot(self.north).atan2(self.up)
    }

    /// Azimuth [rad], 0 to below 2π, clockwise from north. Straight up, where any would do, it is 0 or π.
    pub fn azimuth_rad(&self) -> f64 {
        let azimuth_rad = self.east.atan2(self.north);
        // A hair west of north, 2π added would round to 2π.
        if azimuth_rad < 0.0 { (azimuth_rad + TAU) % TAU } else { azimuth_rad }
    }
}

/// How much higher the sun appears for the bending of its light in the air.
///
/// `Δe = (P / 1010 hPa) (283 / (273 + T)) 1.02° / (60 tan(e + 10.3 / (e + 5.11)))`, e in degrees
///
/// - `elevation_rad`  elevation of the sun's center without refraction e [rad], −π/2 to π/2
/// - `pressure_pa`    air pressure P [Pa], 0 or more
/// - `air_c`          air temperature T [°C], > −273
///
/// Returns the angle [rad]: 0 once the sun's upper edge is below the horizon, and at the zenith the formula's
/// −0.00003°, which is nothing.
///
/// Source: SPA, section 3.14.2.
pub fn refraction_rad(elevation_rad: f64, pressure_pa: f64, air_c: f64) -> f64 {
    if elevation_rad < -(SUN_RADIUS_RAD + HORIZON_REFRACTION_RAD) {
        return 0.0;
    }
    let elevation_deg = elevation_rad.to_degrees();
    let bent_deg = elevation_deg + 10.3 / (elevation_deg + 5.11);
    let refraction_deg =
        pressure_pa / 101_000.0 * (283.0 / (273.0 + air_c)) * 1.02 / (60.0 * bent_deg.to_radians().tan());
    refraction_deg.to_radians()
}

/// Zenith angle at which the sun appears, refraction counted in.
///
/// `θ' = θ − Δe`
///
/// - `zenith_rad`   zenith angle without refraction θ [rad], 0 to π
/// - `pressure_pa`  air pressure [Pa], 0 or more
/// - `air_c`        air temperature [°C], > −273
///
/// Returns the angle [rad].
///
/// Source: SPA, section 3.14.
pub fn apparent_zenith_rad(zenith_rad: f64, pressure_pa: f64, air_c: f64) -> f64 {
    zenith_rad - refraction_rad(FRAC_PI_2 - zenith_rad, pressure_pa, air_c)
}

/// The sun at evenly spaced instants, for any place.
#[derive(Debug, Clone, PartialEq)]
pub struct SunTable {
    suns: Vec<Sun>,
}

impl SunTable {
    /// Tabulates the sun. A year of hours takes some 50 ms and 350 kB.
    ///
    /// - `first_unix_s`  first instant [s], UTC; for energies of intervals the middle of the first
    /// - `step_s`        time from each instant to the next [s]
    /// - `count`         how many instants
    /// - `delta_t_s`     terrestrial time less universal time [s], see [`DELTA_T_S`]
    ///
    /// None where [`Sun::at`] is None for one of the instants.
    pub fn new(first_unix_s: f64, step_s: f64, count: usize, delta_t_s: f64) -> Option<Self> {
        let suns = (0..count)
            .map(|n| Sun::at(first_unix_s + n as f64 * step_s, delta_t_s))
            .collect::<Option<_>>()?;
        Some(Self { suns })
    }

    /// A table of suns that were worked out elsewhere.
    pub fn of(suns: Vec<Sun>) -> Self {
        Self { suns }
    }

    /// The sun at each instant as seen from the center of the earth.
    pub fn suns(&self) -> &[Sun] {
        &self.suns
    }

    /// Where an observer sees the sun at each instant, but for refraction.
    pub fn seen_from(&self, observer: Observer) -> impl ExactSizeIterator<Item = Direction> + '_ {
        self.suns.iter().map(move |sun| sun.seen_from(&observer))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 2024-06-20 20:51 UTC, the June solstice.
    const JUNE_SOLSTICE_S: f64 = 1_718_916_660.0;

    fn sun(unix_s: f64) -> Sun {
        Sun::at(unix_s, DELTA_T_S).unwrap()
    }

    #[test]
    fn straight_below_the_sun_it_stands_at_the_zenith() {
        let sun = sun(JUNE_SOLSTICE_S);
        let latitude_rad = sun.sin_declination.atan2(sun.cos_declination);
        let longitude_rad = -sun.hour_angle_rad(0.0);
        let seen = sun.seen_from(&Observer::new(latitude_rad, longitude_rad, 0.0));
        // Plumb lines miss the earth's center by up to 0.19°: parallax still moves the sun, by 0.03″ at most.
        assert!(seen.zenith_rad().to_degrees() < 1e-5);
        assert!(seen.azimuth_rad().is_finite());
        assert!((seen.up - 1.0).abs() < 1e-13);
    }

    #[test]
    fn straight_up_has_an_azimuth_all_the_same() {
        assert_eq!(Direction { east: 0.0, north: 0.0, up: 1.0 }.azimuth_rad(), 0.0);
        assert_eq!(Direction { east: 0.0, north: 0.0, up: 1.0 }.zenith_rad(), 0.0);
    }

    #[test]
    fn azimuth_stays_below_a_full_turn() {
        assert_eq!(Direction { east: -1e-20, north: 1.0, up: 0.0 }.azimuth_rad(), 0.0);
        assert_eq!(Direction { east: -1.0, north: 0.0, up: 0.0 }.azimuth_rad(), 1.5 * PI);
    }

    #[test]
    fn at_the_poles_the_sun_stands_as_high_as_its_declination() {
        let sun = sun(JUNE_SOLSTICE_S);
        let declination_deg = sun.sin_declination.asin().to_degrees();
        // The ecliptic's obliquity: 23.4361° in the mean of the date, 0.0023° more by nutation. The moon pulls the
        // earth off the ecliptic, which shows the sun up to 1.2″ beside it.
        assert!((declination_deg - 23.4384).abs() < 1.2 / 3600.0);
        for (latitude_rad, sign) in [(FRAC_PI_2, 1.0), (-FRAC_PI_2, -1.0)] {
            let seen = sun.seen_from(&Observer::new(latitude_rad, 0.0, 0.0));
            let elevation_deg = 90.0 - seen.zenith_rad().to_degrees();
            // Parallax lowers it by 8.6″ times the cosine of the declination.
            assert!((elevation_deg - sign * declination_deg + 0.0022).abs() < 2e-4);
        }
    }

    #[test]
    fn the_midnight_sun_stands_north() {
        let sun = sun(JUNE_SOLSTICE_S);
        let midnight_longitude_rad = PI - sun.hour_angle_rad(0.0);
        let seen = sun.seen_from(&Observer::new(70_f64.to_radians(), midnight_longitude_rad, 0.0));
        // Declination less 20°, less 8.6″ of parallax.
        let expected_deg = sun.sin_declination.asin().to_degrees() - 20.0 - 8.6 / 3600.0;
        assert!((90.0 - seen.zenith_rad().to_degrees() - expected_deg).abs() < 1e-4);
        assert!(seen.azimuth_rad().sin().abs() < 1e-9 && seen.north > 0.9);
    }

    #[test]
    fn a_place_may_stand_on_either_side_of_the_date_line() {
        let sun = sun(JUNE_SOLSTICE_S);
        let east = sun.seen_from(&Observer::new(0.7, PI, 0.0));
        let west = sun.seen_from(&Observer::new(0.7, -PI, 0.0));
        assert!((east.cos_angle(&west) - 1.0).abs() < 1e-15);
    }

    #[test]
    fn a_plane_that_faces_the_sun_has_no_angle_of_incidence() {
        let seen = sun(JUNE_SOLSTICE_S).seen_from(&Observer::new(0.7, -1.8, 0.0));
        let faced = Direction::faced(seen.zenith_rad(), seen.azimuth_rad());
        assert!((seen.cos_angle(&faced) - 1.0).abs() < 1e-15);
        assert_eq!(seen.cos_angle(&Direction::faced(0.0, 1.0)), seen.up);
    }

    #[test]
    fn a_table_holds_the_same_bits_as_single_instants() {
        let table = SunTable::new(JUNE_SOLSTICE_S, 900.0, 96, DELTA_T_S).unwrap();
        let observer = Observer::new(0.7, -1.8, 1000.0);
        assert_eq!(table.seen_from(observer).len(), 96);
        for (n, seen) in table.seen_from(observer).enumerate() {
            let alone = sun(JUNE_SOLSTICE_S + 900.0 * n as f64);
            assert_eq!(table.suns()[n], alone);
            assert_eq!(seen, alone.seen_from(&observer));
        }
    }

    #[test]
    fn outside_the_years_of_the_algorithm_there_is_no_sun() {
        assert_eq!(Sun::at(f64::NAN, DELTA_T_S), None);
        assert_eq!(Sun::at(1e12, DELTA_T_S), None);
        assert_eq!(SunTable::new(1e12, 3600.0, 2, DELTA_T_S), None);
        assert_eq!(SunTable::new(1e12, 3600.0, 0, DELTA_T_S).unwrap().suns(), []);
    }

    #[test]
    fn refraction_ends_below_the_horizon_and_without_air() {
        let at =
            |elevation_deg: f64| refraction_rad(elevation_deg.to_radians(), 101_325.0, 10.0).to_degrees();
        assert!(at(-0.84) == 0.0 && at(-0.83) > 0.5);
        assert!(at(90.0).abs() < 4e-5);
        assert_eq!(refraction_rad(0.1, 0.0, 10.0), 0.0);
    }
}
