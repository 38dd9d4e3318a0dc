//! Several planes through a series of weather together, such as the faces of a box: the sky by Perez.

use super::air_mass::pressure_pa;
use super::clock::Day;
use super::perez_sky::PerezSky;
use super::plane::{Falling, Plane, lit_steps};
use super::sun::Direction;
use super::weather::Weather;

/// Walks through a series, and gives what falls on each plane in every step that has light.
///
/// On upright planes the sky of Perez comes nearest to what is measured; the sky is made ready once a step.
///
/// - `planes`      the planes
/// - `weather`     the series
/// - `days`        its days, from its clock
/// - `suns`        where the sun stands in the middle of each step
/// - `altitude_m`  height above sea level [m]
/// - `lit`         called with the day, the step and what falls on each plane in their order; steps in the dark are left
///   out
#[inline]
pub fn walk<const N: usize>(
    planes: &[Plane; N],
    weather: &Weather,
    days: &[Day],
    suns: &[Direction],
    altitude_m: f64,
    mut lit: impl FnMut(&Day, usize, [Falling; N]),
) {
    let pressure_pa = pressure_pa(altitude_m);
    lit_steps(weather, days, suns, |day, step, sky, sun, per_outside_m2_per_w| {
        let perez_sky = PerezSky::of_step(sky, sun, per_outside_m2_per_w, pressure_pa);
        lit(day, step, planes.each_ref().map(|plane| plane.falling_from(sky, sun, &perez_sky)));
    });
}

#[cfg(test)]
mod tests {
    use std::f64::consts::{FRAC_PI_2, PI};

    use jiff::civil::date;

    use super::*;
    use crate::sky::air_mass::{extraterrestrial_w_m2, relative};
    use crate::sky::clock::Clock;
    use crate::sky::irradiance::Irradiance;
    use crate::sky::sun::apparent_zenith_rad;
    use crate::sky::transposition::perez_w_m2;

    const SUN: Direction = Direction { east: 0.6, north: 0.0, up: 0.8 };
    const DOWN: Direction = Direction { east: 0.8, north: 0.0, up: -0.6 };

    /// A lit hour and a dark one.
    fn weather() -> Weather {
        Weather {
            clock: Clock::new(date(2025, 8, 21).at(8, 0, 0, 0), 60, 2).unwrap(),
            ghi_w_m2: vec![700.0, 0.0],
            dni_w_m2: vec![750.0, 0.0],
            dhi_w_m2: vec![100.0, 0.0],
            air_c: vec![30.0, 20.0],
            dew_point_c: None,
            wind_m_s: vec![3.0, 3.0],
        }
    }

    fn walked<const N: usize>(planes: &[Plane; N]) -> [Falling; N] {
        let (weather, mut steps) = (weather(), Vec::new());
        walk(planes, &weather, &weather.clock.days(), &[SUN, DOWN], 500.0, |day, step, falling| {
            steps.push((day.day_of_year(), step, falling));
        });
        let [(233, 0, falling)] = steps[..] else { panic!("{steps:?}") };
        falling
    }

    #[test]
    fn each_plane_has_what_it_has_alone() {
        let tilts = [0.0, FRAC_PI_2, FRAC_PI_2, 0.3];
        let azimuths = [0.0, FRAC_PI_2, 1.5 * PI, 2.0];
        let falling = walked(&std::array::from_fn::<_, 4, _>(|n| Plane::new(tilts[n], azimuths[n], 0.2)));
        let sky = Irradiance { ghi_w_m2: 700.0, dni_w_m2: 750.0, dhi_w_m2: 100.0 };
        let zenith_rad = SUN.zenith_rad();
        let air_mass = relative(apparent_zenith_rad(zenith_rad, pressure_pa(500.0), 12.0));
        for (n, falling) in falling.into_iter().enumerate() {
            let cos_incidence = SUN.cos_angle(&Direction::faced(tilts[n], azimuths[n]));
            let outside_w_m2 = extraterrestrial_w_m2(233);
            let alone_w_m2 = perez_w_m2(sky, outside_w_m2, air_mass, zenith_rad, cos_incidence, tilts[n]);
            assert!((falling.sky_w_m2 - alone_w_m2).abs() < 1e-11 * alone_w_m2.max(1.0));
            assert!((falling.beam_w_m2 - 750.0 * cos_incidence.max(0.0)).abs() < 1e-10);
        }
    }

    #[test]
    fn a_roof_has_what_falls_on_level_ground_and_an_underside_what_the_ground_throws_back() {
        let [roof, underside] = walked(&[Plane::new(0.0, 0.0, 0.2), Plane::new(PI, 0.0, 0.2)]);
        assert!((roof.total_w_m2() - 700.0).abs() < 1e-10);
        assert!((underside.total_w_m2() - 140.0).abs() < 1e-10, "{underside:?}");
    }
}
