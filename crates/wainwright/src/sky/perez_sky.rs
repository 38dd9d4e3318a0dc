//! The sky of Perez, made ready once for many planes.

use std::sync::LazyLock;

use super::air_mass::relative;
use super::coefficients::last_columns;
use super::irradiance::Irradiance;
use super::sun::{Direction, apparent_zenith_rad};

/// Air temperature that refraction reckons with [°C]. `common practice`
const REFRACTION_AIR_C: f64 = 12.0;

/// Lower end of each bin of clearness, then f₁₁, f₁₂, f₁₃, f₂₁, f₂₂, f₂₃.
static BRIGHTNESS: LazyLock<[[f64; 7]; 8]> =
    LazyLock::new(|| last_columns(include_str!("../../data/sky_brightness_perez_1990.csv")));

/// A sky that is brighter around the sun and near the horizon.
///
/// ```text
/// ε = [(DHI + DNI) / DHI + 1.041 θz³] / (1 + 1.041 θz³)      Δ = DHI m / I₀
/// F₁ = max(0, f₁₁ + f₁₂ Δ + f₁₃ θz)                          F₂ = f₂₁ + f₂₂ Δ + f₂₃ θz
/// DHI [(1 − F₁)(1 + cos β)/2 + F₁ max(cos θ, 0) / max(cos θz, cos 85°) + F₂ sin β]
/// ```
///
/// with the f of the bin in which the clearness ε lies. F₁ and F₂ are of the sky alone.
///
/// Source: Perez, Ineichen, Seals, Michalsky and Stewart 1990, Solar Energy 44, 271–289, Table 6.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PerezSky {
    /// `DHI (1 − F₁) / 2` [W/m²]
    half_even_w_m2: f64,
    /// `DHI F₁ / max(cos θz, cos 85°)` [W/m²]
    around_sun_w_m2: f64,
    /// `DHI F₂` [W/m²]
    near_horizon_w_m2: f64,
}

impl PerezSky {
    /// A sky without light.
    pub const DARK: Self = Self { half_even_w_m2: 0.0, around_sun_w_m2: 0.0, near_horizon_w_m2: 0.0 };

    /// The sky of a moment.
    ///
    /// - `sky`                   irradiance of the moment; nothing comes from a sky without diffuse light
    /// - `per_outside_m2_per_w`  one by the irradiance outside the atmosphere I₀ [m²/W], > 0
    /// - `relative_air_mass`     m, 1 or more
    /// - `zenith_rad`            true zenith angle of the sun θz [rad], 0 to π/2
    /// - `cos_zenith`            its cosine
    #[inline]
    pub fn new(
        sky: Irradiance,
        per_outside_m2_per_w: f64,
        relative_air_mass: f64,
        zenith_rad: f64,
        cos_zenith: f64,
    ) -> Self {
        /// cos 85°
        const LEAST_COS_ZENITH: f64 = 0.087_155_742_747_658_17;
        let dhi_w_m2 = sky.dhi_w_m2;
        if dhi_w_m2.is_nan() || dhi_w_m2 <= 0.0 {
            return Self::DARK;
        }
        let zenith_term = 1.041 * zenith_rad * zenith_rad * zenith_rad;
        let clearness = ((dhi_w_m2 + sky.dni_w_m2) / dhi_w_m2 + zenith_term) / (1.0 + zenith_term);
        let brightness = dhi_w_m2 * relative_air_mass * per_outside_m2_per_w;
        let [first, later @ ..] = &*BRIGHTNESS;
        let [_, f11, f12, f13, f21, f22, f23] =
            later.iter().rev().find(|bin| clearness >= bin[0]).unwrap_or(first);
        let around_sun = (f11 + f12 * brightness + f13 * zenith_rad).max(0.0);
        let near_horizon = f21 + f22 * brightness + f23 * zenith_rad;
        Self {
            half_even_w_m2: 0.5 * dhi_w_m2 * (1.0 - around_sun),
            around_sun_w_m2: dhi_w_m2 * around_sun / cos_zenith.max(LEAST_COS_ZENITH),
            near_horizon_w_m2: dhi_w_m2 * near_horizon,
        }
    }

    /// The sky of a step, the air mass by where the sun appears.
    ///
    /// - `sky`                   irradiance of the step
    /// - `sun`                   where the sun stands in its middle; below the horizon the air mass is that at it
    /// - `per_outside_m2_per_w`  one by the irradiance outside the atmosphere [m²/W], > 0
    /// - `pressure_pa`           air pressure [Pa], 0 or more: it bends the light
    #[inline]
    pub fn of_step(sky: Irradiance, sun: &Direction, per_outside_m2_per_w: f64, pressure_pa: f64) -> Self {
        if sky.dhi_w_m2 <= 0.0 {
            return Self::DARK;
        }
        let zenith_rad = sun.up.clamp(-1.0, 1.0).acos();
        let air_mass = relative(apparent_zenith_rad(zenith_rad, pressure_pa, REFRACTION_AIR_C));
        Self::new(sky, per_outside_m2_per_w, air_mass, zenith_rad, sun.up)
    }

    /// Light of the sky on a plane.
    ///
    /// - `cos_incidence`  cosine of the angle of incidence θ, −1 to 1
    /// - `cos_tilt`       cosine of the plane's tilt β, −1 to 1
    /// - `sin_tilt`       its sine, 0 to 1
    ///
    /// Returns the irradiance of the plane [W/m²], 0 or more; DHI on a flat one, or a little less with the sun below 5°.
    #[inline]
    pub fn plane_w_m2(&self, cos_incidence: f64, cos_tilt: f64, sin_tilt: f64) -> f64 {
        let plane_w_m2 = self.half_even_w_m2 * (1.0 + cos_tilt)
            + self.around_sun_w_m2 * cos_incidence.max(0.0)
            + self.near_horizon_w_m2 * sin_tilt;
        plane_w_m2.max(0.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SKY: Irradiance = Irradiance { ghi_w_m2: 700.0, dni_w_m2: 650.0, dhi_w_m2: 150.0 };

    #[test]
    fn every_cell_of_the_table_is_read_and_its_bins_rise_from_one() {
        assert!(BRIGHTNESS.iter().flatten().all(|cell| cell.is_finite()));
        assert!(BRIGHTNESS.windows(2).all(|pair| pair[0][0] < pair[1][0]));
        assert_eq!(BRIGHTNESS[0][0], 1.0);
    }

    #[test]
    fn a_flat_plane_takes_in_the_whole_sky() {
        let sky = PerezSky::new(SKY, 1.0 / 1366.1, 1.2, 0.6, 0.6_f64.cos());
        assert!((sky.plane_w_m2(0.6_f64.cos(), 1.0, 0.0) - 150.0).abs() < 1e-12);
    }

    #[test]
    fn facing_down_it_takes_in_none_of_a_sky_with_the_sun_above() {
        let sky = PerezSky::new(SKY, 1.0 / 1366.1, 1.2, 0.6, 0.6_f64.cos());
        assert_eq!(sky.plane_w_m2(-(0.6_f64.cos()), -1.0, 0.0), 0.0);
    }

    #[test]
    fn a_dark_sky_sheds_nothing() {
        let sun = Direction { east: 0.6, north: 0.0, up: 0.8 };
        assert_eq!(PerezSky::of_step(Irradiance::DARK, &sun, 1.0 / 1366.1, 1e5), PerezSky::DARK);
        assert_eq!(PerezSky::new(Irradiance::DARK, 1.0 / 1366.1, 37.9, 1.5, 0.07), PerezSky::DARK);
        assert_eq!(PerezSky::DARK.plane_w_m2(0.9, 0.0, 1.0), 0.0);
    }

    #[test]
    fn at_dawn_the_sun_below_the_horizon_does_no_harm() {
        let sun = Direction { east: 1.0, north: 0.0, up: -0.02 };
        let sky = PerezSky::of_step(Irradiance::overcast(4.0), &sun, 1.0 / 1366.1, 1e5);
        let east_w_m2 = sky.plane_w_m2(1.0, 0.0, 1.0);
        assert!(east_w_m2 > 0.0 && east_w_m2 < 20.0, "{east_w_m2}");
    }
}
