//! A plane through a series of weather: what falls on it step by step, by where it comes from.

use std::sync::LazyLock;

use super::air_mass::extraterrestrial_w_m2;
use super::clock::Day;
use super::irradiance::Irradiance;
use super::perez_sky::PerezSky;
use super::sun::Direction;
use super::transposition::{beam_w_m2, ground_w_m2, hay_davies_w_m2};
use super::weather::Weather;

/// One by the irradiance outside the atmosphere [m²/W] on each day of the year, by its number, 1 to 366. Worked out anew,
/// its sines and cosines would take as long as a fifth of an array's year.
static PER_OUTSIDE_M2_PER_W: LazyLock<[f64; 367]> =
    LazyLock::new(|| std::array::from_fn(|day| 1.0 / extraterrestrial_w_m2(day as u16)));

/// A plane, made ready for many steps.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plane {
    facing: Direction,
    sin_tilt: f64,
    albedo: f64,
}

/// What falls on a plane in a step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Falling {
    /// Cosine of the angle of incidence; below 0 the sun is behind the plane.
    pub cos_incidence: f64,
    /// Straight from the sun [W/m²].
    pub beam_w_m2: f64,
    /// From the rest of the sky [W/m²].
    pub sky_w_m2: f64,
    /// From the ground [W/m²].
    pub ground_w_m2: f64,
}

impl Falling {
    /// All of it [W/m²].
    pub fn total_w_m2(&self) -> f64 {
        self.beam_w_m2 + self.sky_w_m2 + self.ground_w_m2
    }
}

impl Plane {
    /// A plane.
    ///
    /// - `tilt_rad`     angle from the horizontal [rad], 0 faces up, π/2 is upright
    /// - `azimuth_rad`  direction it faces, clockwise from north [rad]
    /// - `albedo`       share of its light that the ground throws back, 0 to 1
    pub fn new(tilt_rad: f64, azimuth_rad: f64, albedo: f64) -> Self {
        Self { facing: Direction::faced(tilt_rad, azimuth_rad), sin_tilt: tilt_rad.sin(), albedo }
    }

    /// What falls on it in one step: beam, the sky by Hay and Davies, the ground.
    ///
    /// - `sky`                   irradiance of the step
    /// - `sun`                   where the sun stands in its middle
    /// - `per_outside_m2_per_w`  one by the irradiance outside the atmosphere [m²/W], > 0
    #[inline]
    pub fn falling(&self, sky: Irradiance, sun: &Direction, per_outside_m2_per_w: f64) -> Falling {
        let cos_tilt = self.facing.up;
        let cos_incidence = sun.cos_angle(&self.facing);
        // Hay and Davies ask what share of the light outside is left of the beam: with that at 1 no step has to divide by it.
        let share = sky.dni_w_m2 * per_outside_m2_per_w;
        // More beam than there is outside is a mistake of the series; the sky does not go below dark by it.
        let share = Irradiance { dni_w_m2: if share < 1.0 { share } else { 1.0 }, ..sky };
        Falling {
            cos_incidence,
            beam_w_m2: beam_w_m2(sky.dni_w_m2, cos_incidence),
            sky_w_m2: hay_davies_w_m2(share, 1.0, sun.up, cos_incidence, cos_tilt),
            ground_w_m2: ground_w_m2(sky.ghi_w_m2, self.albedo, cos_tilt),
        }
    }

    /// What falls on it in one step under the sky of Perez.
    ///
    /// - `sky`        irradiance of the step
    /// - `sun`        where the sun stands in its middle
    /// - `perez_sky`  the sky, made ready for many planes
    #[inline]
    pub fn falling_from(&self, sky: Irradiance, sun: &Direction, perez_sky: &PerezSky) -> Falling {
        let cos_tilt = self.facing.up;
        let cos_incidence = sun.cos_angle(&self.facing);
        Falling {
            cos_incidence,
            beam_w_m2: beam_w_m2(sky.dni_w_m2, cos_incidence),
            sky_w_m2: perez_sky.plane_w_m2(cos_incidence, cos_tilt, self.sin_tilt),
            ground_w_m2: ground_w_m2(sky.ghi_w_m2, self.albedo, cos_tilt),
        }
    }

    /// Walks through a series, and gives what falls on the plane in every step that has light.
    ///
    /// - `weather`  the series
    /// - `days`     its days, from its clock
    /// - `suns`     where the sun stands in the middle of each step
    /// - `lit`      called with the day, the step and what falls on the plane; steps in the dark are left out
    #[inline]
    pub fn walk(
        &self,
        weather: &Weather,
        days: &[Day],
        suns: &[Direction],
        mut lit: impl FnMut(&Day, usize, Falling),
    ) {
        lit_steps(weather, days, suns, |day, step, sky, sun, per_outside_m2_per_w| {
            lit(day, step, self.falling(sky, sun, per_outside_m2_per_w));
        });
    }
}

/// Walks through a series, and gives each step that has light: the day, the step, its irradiance, its sun and one by the
/// irradiance outside the atmosphere [m²/W].
#[inline]
pub(super) fn lit_steps(
    weather: &Weather,
    days: &[Day],
    suns: &[Direction],
    mut lit: impl FnMut(&Day, usize, Irradiance, &Direction, f64),
) {
    let per_outside: &[f64; 367] = &PER_OUTSIDE_M2_PER_W;
    for day in days {
        let per_outside_m2_per_w = per_outside[usize::from(day.day_of_year()).min(366)];
        let steps = day.steps.clone();
        let measures = weather.ghi_w_m2[steps.clone()]
            .iter()
            .zip(&weather.dni_w_m2[steps.clone()])
            .zip(&weather.dhi_w_m2[steps.clone()])
            .zip(&suns[steps.clone()]);
        for (step, (((&ghi_w_m2, &dni_w_m2), &dhi_w_m2), sun)) in steps.zip(measures) {
            if ghi_w_m2 > 0.0 || dni_w_m2 > 0.0 || dhi_w_m2 > 0.0 {
                lit(day, step, Irradiance { ghi_w_m2, dni_w_m2, dhi_w_m2 }, sun, per_outside_m2_per_w);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use std::f64::consts::FRAC_PI_2;

    use super::*;

    const SUN: Direction = Direction { east: 0.6, north: 0.0, up: 0.8 };
    const SKY: Irradiance = Irradiance { ghi_w_m2: 700.0, dni_w_m2: 750.0, dhi_w_m2: 100.0 };

    #[test]
    fn a_flat_plane_takes_what_falls_on_level_ground() {
        let flat = Plane::new(0.0, 1.0, 0.2).falling(SKY, &SUN, 1.0 / 1366.1);
        assert!((flat.total_w_m2() - 700.0).abs() < 1e-12);
        assert_eq!(flat.ground_w_m2, 0.0);
    }

    #[test]
    fn a_beam_that_cannot_be_leaves_the_sky_dark_and_no_darker() {
        let impossible = Irradiance { dni_w_m2: 2000.0, ..SKY };
        let west = Plane::new(FRAC_PI_2, 3.0 * FRAC_PI_2, 0.0).falling(impossible, &SUN, 1.0 / 1366.1);
        assert_eq!((west.sky_w_m2, west.total_w_m2()), (0.0, 0.0));
    }

    #[test]
    fn with_the_sun_behind_it_sky_and_ground_are_left() {
        let west = Plane::new(FRAC_PI_2, 3.0 * FRAC_PI_2, 0.2).falling(SKY, &SUN, 1.0 / 1366.1);
        assert!(west.cos_incidence < 0.0 && west.beam_w_m2 == 0.0);
        assert!(west.sky_w_m2 > 0.0 && (west.ground_w_m2 - 70.0).abs() < 1e-9);
    }
}
