//! What reaches the ground from a sky without clouds.

use super::irradiance::Irradiance;

/// Irradiance under a clear sky.
///
/// ```text
/// fh1 = exp(−h / 8000)          fh2 = exp(−h / 1250)
/// cg1 = 5.09e−5 h + 0.868       cg2 = 3.92e−5 h + 0.0387
/// GHI = cg1 I₀ cos z exp{−cg2 m [fh1 + fh2 (T − 1)]}
/// B₁  = I₀ (0.664 + 0.163 / fh1) exp[−0.09 m (T − 1)]
/// B₂  = GHI {1 − [0.1 − 0.2 exp(−T)] / [0.1 + 0.882 / fh1]} / cos z
/// DNI = min(B₁, B₂)             DHI = GHI − DNI cos z
/// ```
///
/// - `apparent_zenith_rad`    zenith angle of the sun with refraction z [rad]; at and beyond π/2 it is dark
/// - `absolute_air_mass`      m, 0 or more
/// - `linke_turbidity`        T: how many clean, dry atmospheres would dim the beam as much, 1 to 10
/// - `altitude_m`             height above sea level h [m], 0 to a few thousand
/// - `extraterrestrial_w_m2`  irradiance outside the atmosphere I₀ [W/m²], > 0
///
/// Source: Ineichen and Perez 2002, Solar Energy 73, 151–157, with the bound B₂ on the beam as in Perez and others
/// 2002, Solar Energy 73, 307–317.
pub fn ineichen_perez(
    apparent_zenith_rad: f64,
    absolute_air_mass: f64,
    linke_turbidity: f64,
    altitude_m: f64,
    extraterrestrial_w_m2: f64,
) -> Irradiance {
    let cos_zenith = apparent_zenith_rad.cos();
    if cos_zenith <= 0.0 {
        return Irradiance::DARK;
    }
    let fh1 = (-altitude_m / 8000.0).exp();
    let fh2 = (-altitude_m / 1250.0).exp();
    let cg1 = 5.09e-5 * altitude_m + 0.868;
    let cg2 = 3.92e-5 * altitude_m + 0.0387;
    let above_clean = linke_turbidity - 1.0;
    let facing_w_m2 =
        cg1 * extraterrestrial_w_m2 * (-cg2 * absolute_air_mass * (fh1 + fh2 * above_clean)).exp();
    let by_turbidity_w_m2 =
        extraterrestrial_w_m2 * (0.664 + 0.163 / fh1) * (-0.09 * absolute_air_mass * above_clean).exp();
    let by_global_w_m2 = facing_w_m2 * (1.0 - (0.1 - 0.2 * (-linke_turbidity).exp()) / (0.1 + 0.882 / fh1));
    let ghi_w_m2 = facing_w_m2 * cos_zenith;
    let dni_w_m2 = by_turbidity_w_m2.min(by_global_w_m2);
    Irradiance { ghi_w_m2, dni_w_m2, dhi_w_m2: ghi_w_m2 - dni_w_m2 * cos_zenith }
}

/// Global irradiance under a clear sky where only the sun's height is known.
///
/// `GHI = 1098 cos z exp(−0.059 / cos z)`
///
/// - `apparent_zenith_rad`  zenith angle of the sun z [rad]; at and beyond π/2 it is dark
///
/// Returns the irradiance on a horizontal plane [W/m²].
///
/// Source: Haurwitz 1945, Journal of Meteorology 2, 154–166, with the constants of his 1946 paper.
pub fn haurwitz_ghi_w_m2(apparent_zenith_rad: f64) -> f64 {
    let cos_zenith = apparent_zenith_rad.cos();
    if cos_zenith <= 0.0 { 0.0 } else { 1098.0 * cos_zenith * (-0.059 / cos_zenith).exp() }
}

#[cfg(test)]
mod tests {
    use std::f64::consts::FRAC_PI_2;

    use super::*;
    use crate::sky::air_mass::{SOLAR_CONSTANT_W_M2, absolute, pressure_pa, relative};

    fn clear(zenith_rad: f64, turbidity: f64, altitude_m: f64) -> Irradiance {
        let air_mass = absolute(relative(zenith_rad), pressure_pa(altitude_m));
        ineichen_perez(zenith_rad, air_mass, turbidity, altitude_m, SOLAR_CONSTANT_W_M2)
    }

    #[test]
    fn below_the_horizon_it_is_dark() {
        assert_eq!(clear(1.6, 3.0, 0.0), Irradiance::DARK);
        assert_eq!(haurwitz_ghi_w_m2(1.6), 0.0);
    }

    #[test]
    fn at_the_horizon_nothing_is_left_on_the_ground() {
        let last = clear(FRAC_PI_2, 3.0, 0.0);
        assert!(last.ghi_w_m2 < 1e-10 && last.dhi_w_m2.abs() < 1e-10 && last.dni_w_m2.is_finite());
        assert_eq!(haurwitz_ghi_w_m2(FRAC_PI_2), 0.0);
    }

    #[test]
    fn haze_dims_the_beam_and_altitude_brightens_it() {
        let plain = clear(0.8, 3.0, 0.0);
        assert!(clear(0.8, 5.0, 0.0).dni_w_m2 < plain.dni_w_m2);
        assert!(clear(0.8, 3.0, 2000.0).dni_w_m2 > plain.dni_w_m2);
    }

    #[test]
    fn no_measure_is_ever_below_nothing() {
        for zenith_deg in 0..=90 {
            for turbidity in 1..=10 {
                for altitude_m in [0.0, 1500.0, 3000.0] {
                    let sky = clear(f64::from(zenith_deg).to_radians(), f64::from(turbidity), altitude_m);
                    assert!(sky.ghi_w_m2 >= 0.0 && sky.dni_w_m2 >= 0.0 && sky.dhi_w_m2 >= -1e-9, "{sky:?}");
                }
            }
        }
    }
}
