//! What falls on a tilted plane: beam, light from the sky, light from the ground.

use super::irradiance::Irradiance;
use super::perez_sky::PerezSky;

/// Albedo of grass or bare soil. `common practice`
pub const GRASS_ALBEDO: f64 = 0.2;
/// Albedo of fresh snow, the lower of 0.6 to 0.7. `common practice`
pub const SNOW_ALBEDO: f64 = 0.6;

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

/// Light of the sky on a plane, the sky being brighter around the sun and, with beam, near the horizon.
///
/// `DHI [(1 − A)(1 + f sin³(β/2))(1 + cos β)/2 + A R]`, `A = DNI / I₀`, `f = √(DNI cos θz / GHI)`,
/// `R = max(cos θ, 0) / max(cos θz, 0.01745)`
///
/// - `sky`                    irradiance of the moment; nothing comes from a dark one
/// - `extraterrestrial_w_m2`  irradiance outside the atmosphere I₀ [W/m²], > 0
/// - `cos_zenith`             cosine of the sun's true zenith angle θz, −1 to 1; R no longer grows within 1° of the
///   horizon
/// - `cos_incidence`          cosine of the angle of incidence θ, −1 to 1
/// - `cos_tilt`               cosine of the plane's tilt β, −1 to 1
///
/// Returns the irradiance of the plane [W/m²]; DHI on a flat one.
///
/// Source: Reindl, Beckman and Duffie 1990, Solar Energy 45, 9–17, as the HDKR model of Duffie and Beckman, eq. 2.16.7
/// (`from memory`).
pub fn hdkr_w_m2(
    sky: Irradiance,
    extraterrestrial_w_m2: f64,
    cos_zenith: f64,
    cos_incidence: f64,
    cos_tilt: f64,
) -> f64 {
    if sky.ghi_w_m2 <= 0.0 {
        return 0.0;
    }
    let around_sun = sky.dni_w_m2 / extraterrestrial_w_m2;
    let beam_share = (sky.dni_w_m2 * cos_zenith / sky.ghi_w_m2).clamp(0.0, 1.0);
    let near_horizon = beam_share.sqrt() * ((1.0 - cos_tilt) / 2.0).powf(1.5);
    hay_davies_w_m2(sky, extraterrestrial_w_m2, cos_zenith, cos_incidence, cos_tilt)
        + (1.0 - around_sun) * near_horizon * isotropic_w_m2(sky.dhi_w_m2, cos_tilt)
}

/// Light of the sky on a plane, the sky being brighter around the sun and near the horizon: [`PerezSky`] for one plane.
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
    let (sin_tilt, cos_tilt) = tilt_rad.sin_cos();
    PerezSky::new(sky, 1.0 / extraterrestrial_w_m2, relative_air_mass, zenith_rad, zenith_rad.cos())
        .plane_w_m2(cos_incidence, cos_tilt, sin_tilt)
}

#[cfg(test)]
mod tests {
    use std::f64::consts::FRAC_PI_2;

    use super::*;

    const SKY: Irradiance = Irradiance { ghi_w_m2: 700.0, dni_w_m2: 650.0, dhi_w_m2: 150.0 };

    #[test]
    fn a_flat_plane_takes_in_the_whole_sky_and_no_ground() {
        let (zenith_rad, cos): (f64, f64) = (0.6, 0.6_f64.cos());
        assert_eq!(ground_w_m2(700.0, GRASS_ALBEDO, 1.0), 0.0);
        for sky_w_m2 in [
            isotropic_w_m2(150.0, 1.0),
            hay_davies_w_m2(SKY, 1366.1, zenith_rad.cos(), cos, 1.0),
            hdkr_w_m2(SKY, 1366.1, zenith_rad.cos(), cos, 1.0),
            perez_w_m2(SKY, 1366.1, 1.2, zenith_rad, cos, 0.0),
        ] {
            assert!((sky_w_m2 - 150.0).abs() < 1e-10, "{sky_w_m2}");
        }
    }

    #[test]
    fn without_beam_hay_and_davies_have_an_even_sky() {
        let overcast = Irradiance::overcast(100.0);
        assert_eq!(hay_davies_w_m2(overcast, 1366.1, 0.8, 0.9, 0.5), isotropic_w_m2(100.0, 0.5));
        assert_eq!(hdkr_w_m2(overcast, 1366.1, 0.8, 0.9, 0.5), isotropic_w_m2(100.0, 0.5));
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
        assert_eq!(hdkr_w_m2(Irradiance::DARK, 1366.1, 0.0, 0.0, 0.9), 0.0);
    }
}
