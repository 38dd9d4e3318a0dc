//! What falls on a tilted plane: beam, light from the sky, light from the ground.

use std::sync::LazyLock;

use super::coefficients::last_columns;
use super::irradiance::Irradiance;

/// Albedo of grass or bare soil. `common practice`
pub const GRASS_ALBEDO: f64 = 0.2;
/// Albedo of fresh snow, the lower of 0.6 to 0.7. `common practice`
pub const SNOW_ALBEDO: f64 = 0.6;

/// Lower end of each bin of clearness, then f₁₁, f₁₂, f₁₃, f₂₁, f₂₂, f₂₃.
static BRIGHTNESS: LazyLock<[[f64; 7]; 8]> =
    LazyLock::new(|| last_columns(include_str!("../../data/sky_brightness_perez_1990.csv")));

/// Beam on a plane.
///
/// `DNI max(cos θ, 0)`
///
/// - `dni_w_m2`       direct normal irradiance DNI [W/m²], 0 or more
/// - `cos_incidence`  cosine of the angle of incidence θ, −1 to 1; below 0 the sun is behind the plane
///
/// Returns the irradiance of the plane [W/m²].
///
/// Source: Lambert's cosine law.
pub fn beam_w_m2(dni_w_m2: f64, cos_incidence: f64) -> f64 {
    dni_w_m2 * cos_incidence.max(0.0)
}

/// Light the ground reflects onto a plane.
///
/// `GHI ρ (1 − cos β) / 2`
///
/// - `ghi_w_m2`  global horizontal irradiance GHI [W/m²], 0 or more
/// - `albedo`    share the ground reflects ρ, 0 to 1, see [`GRASS_ALBEDO`]
/// - `cos_tilt`  cosine of the plane's tilt β, −1 to 1; flat, with 1, it sees no ground
///
/// Returns the irradiance of the plane [W/m²].
///
/// Source: Liu and Jordan 1963, Solar Energy 7, 53–74 (`from memory`).
pub fn ground_w_m2(ghi_w_m2: f64, albedo: f64, cos_tilt: f64) -> f64 {
    ghi_w_m2 * albedo * (1.0 - cos_tilt) / 2.0
}

/// Light of the sky on a plane, the sky being equally bright all over.
///
/// `DHI (1 + cos β) / 2`
///
/// - `dhi_w_m2`  diffuse horizontal irradiance DHI [W/m²], 0 or more
/// - `cos_tilt`  cosine of the plane's tilt β, −1 to 1
///
/// Returns the irradiance of the plane [W/m²].
///
/// Source: Liu and Jordan 1963, Solar Energy 7, 53–74 (`from memory`).
pub fn isotropic_w_m2(dhi_w_m2: f64, cos_tilt: f64) -> f64 {
    dhi_w_m2 * (1.0 + cos_tilt) / 2.0
}

/// Light of the sky on a plane, the sky being brighter around the sun the clearer it is.
///
/// `DHI [(1 − A)(1 + cos β)/2 + A R]`, `A = DNI / I₀`, `R = max(cos θ, 0) / max(cos θz, 0.01745)`
///
/// - `sky`                    irradiance of the moment
/// - `extraterrestrial_w_m2`  irradiance outside the atmosphere I₀ [W/m²], > 0
/// - `cos_zenith`             cosine of the sun's true zenith angle θz, −1 to 1; R no longer grows within 1° of the
///   horizon
/// - `cos_incidence`          cosine of the angle of incidence θ, −1 to 1
/// - `cos_tilt`               cosine of the plane's tilt β, −1 to 1
///
/// Returns the irradiance of the plane [W/m²]; DHI on a flat one.
///
/// Source: Hay and Davies 1980, Proceedings of the First Canadian Solar Radiation Data Workshop, 59; the least
/// cosine is `common practice`.
pub fn hay_davies_w_m2(
    sky: Irradiance,
    extraterrestrial_w_m2: f64,
    cos_zenith: f64,
    cos_incidence: f64,
    cos_tilt: f64,
) -> f64 {
    let around_sun = sky.dni_w_m2 / extraterrestrial_w_m2;
    let by_horizontal = cos_incidence.max(0.0) / cos_zenith.max(0.017_45);
    (1.0 - around_sun) * isotropic_w_m2(sky.dhi_w_m2, cos_tilt) + around_sun * by_horizontal * sky.dhi_w_m2
}

/// Light of the sky on a plane, the sky being brighter around the sun and near the horizon.
///
/// ```text
/// ε = [(DHI + DNI) / DHI + 1.041 θz³] / (1 + 1.041 θz³)      Δ = DHI m / I₀
/// F₁ = max(0, f₁₁ + f₁₂ Δ + f₁₃ θz)                          F₂ = f₂₁ + f₂₂ Δ + f₂₃ θz
/// DHI [(1 − F₁)(1 + cos β)/2 + F₁ max(cos θ, 0) / max(cos θz, cos 85°) + F₂ sin β]
/// ```
///
/// with the f of the bin in which the clearness ε lies
///
/// - `sky`                    irradiance of the moment; nothing comes from a sky without diffuse light
/// - `extraterrestrial_w_m2`  irradiance outside the atmosphere I₀ [W/m²], > 0
/// - `relative_air_mass`      m, 1 or more
/// - `zenith_rad`             true zenith angle of the sun θz [rad], 0 to π/2
/// - `cos_incidence`          cosine of the angle of incidence θ, −1 to 1
/// - `tilt_rad`               tilt of the plane β [rad], 0 to π
///
/// Returns the irradiance of the plane [W/m²], 0 or more; DHI on a flat one, or a little less with the sun below 5°.
///
/// Source: Perez, Ineichen, Seals, Michalsky and Stewart 1990, Solar Energy 44, 271–289, Table 6.
pub fn perez_w_m2(
    sky: Irradiance,
    extraterrestrial_w_m2: f64,
    relative_air_mass: f64,
    zenith_rad: f64,
    cos_incidence: f64,
    tilt_rad: f64,
) -> f64 {
    let dhi_w_m2 = sky.dhi_w_m2;
    if dhi_w_m2 <= 0.0 {
        return 0.0;
    }
    let zenith_term = 1.041 * zenith_rad.powi(3);
    let clearness = ((dhi_w_m2 + sky.dni_w_m2) / dhi_w_m2 + zenith_term) / (1.0 + zenith_term);
    let brightness = dhi_w_m2 * relative_air_mass / extraterrestrial_w_m2;
    let [first, later @ ..] = &*BRIGHTNESS;
    let [_, f11, f12, f13, f21, f22, f23] =
        later.iter().rev().find(|bin| clearness >= bin[0]).unwrap_or(first);
    let around_sun = (f11 + f12 * brightness + f13 * zenith_rad).max(0.0);
    let near_horizon = f21 + f22 * brightness + f23 * zenith_rad;
    let by_horizontal = cos_incidence.max(0.0) / zenith_rad.cos().max(85.0_f64.to_radians().cos());
    let plane_w_m2 = (1.0 - around_sun) * isotropic_w_m2(dhi_w_m2, tilt_rad.cos())
        + dhi_w_m2 * (around_sun * by_horizontal + near_horizon * tilt_rad.sin());
    plane_w_m2.max(0.0)
}

#[cfg(test)]
mod tests {
    use std::f64::consts::FRAC_PI_2;

    use super::*;

    const SKY: Irradiance = Irradiance { ghi_w_m2: 700.0, dni_w_m2: 650.0, dhi_w_m2: 150.0 };

    #[test]
    fn every_cell_of_the_table_is_read_and_its_bins_rise_from_one() {
        assert!(BRIGHTNESS.iter().flatten().all(|cell| cell.is_finite()));
        assert!(BRIGHTNESS.windows(2).all(|pair| pair[0][0] < pair[1][0]));
        assert_eq!(BRIGHTNESS[0][0], 1.0);
    }

    #[test]
    fn a_flat_plane_takes_in_the_whole_sky_and_no_ground() {
        let (zenith_rad, cos): (f64, f64) = (0.6, 0.6_f64.cos());
        assert_eq!(ground_w_m2(700.0, GRASS_ALBEDO, 1.0), 0.0);
        for sky_w_m2 in [
            isotropic_w_m2(150.0, 1.0),
            hay_davies_w_m2(SKY, 1366.1, zenith_rad.cos(), cos, 1.0),
            perez_w_m2(SKY, 1366.1, 1.2, zenith_rad, cos, 0.0),
        ] {
            assert!((sky_w_m2 - 150.0).abs() < 1e-10, "{sky_w_m2}");
        }
    }

    #[test]
    fn without_beam_hay_and_davies_have_an_even_sky() {
        let overcast = Irradiance::overcast(100.0);
        assert_eq!(hay_davies_w_m2(overcast, 1366.1, 0.8, 0.9, 0.5), isotropic_w_m2(100.0, 0.5));
    }

    #[test]
    fn a_plane_turned_away_has_no_beam_and_less_sky() {
        assert_eq!(beam_w_m2(650.0, -0.2), 0.0);
        let even_w_m2 = isotropic_w_m2(150.0, 0.0);
        assert!(hay_davies_w_m2(SKY, 1366.1, 0.8, -0.2, 0.0) < even_w_m2);
        assert!(perez_w_m2(SKY, 1366.1, 1.2, 0.6, -0.2, FRAC_PI_2) < even_w_m2);
    }

    #[test]
    fn a_dark_sky_sheds_nothing() {
        assert_eq!(perez_w_m2(Irradiance::DARK, 1366.1, 37.9, FRAC_PI_2, 0.0, 0.5), 0.0);
        assert_eq!(hay_davies_w_m2(Irradiance::DARK, 1366.1, 0.0, 0.0, 0.9), 0.0);
    }
}
