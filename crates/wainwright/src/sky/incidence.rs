//! How squarely the sun strikes a plane, and what its glass lets through.

use std::f64::consts::PI;

/// Refractive index of a panel's glass. `common practice`
pub const GLASS_INDEX: f64 = 1.526;
/// Extinction coefficient of low-iron glass [1/m]. `common practice`
pub const GLASS_EXTINCTION_PER_M: f64 = 4.0;
/// Thickness of a panel's glass [m]. `common practice`
pub const GLASS_THICKNESS_M: f64 = 0.002;
/// Angular loss coefficient a_r of a panel behind plain glass (Martin and Ruiz 2001).
pub const ANGULAR_LOSS: f64 = 0.16;
/// Coefficient b₀ of [`ashrae_modifier`] for a panel behind plain glass. `common practice`
pub const ASHRAE_B0: f64 = 0.05;

/// How a plane stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plane {
    /// Angle from the horizontal [rad]: 0 faces up, π/2 is upright.
    pub tilt_rad: f64,
    /// Direction it faces, clockwise from north [rad]; of no effect when flat.
    pub azimuth_rad: f64,
}

/// Cosine of the angle between the sun and the normal of a plane.
///
/// `cos θ = cos β cos θz + sin β sin θz cos(γs − γ)`
///
/// - `plane`            its tilt β and azimuth γ
/// - `zenith_rad`       true zenith angle of the sun θz [rad], 0 to π
/// - `sun_azimuth_rad`  azimuth of the sun γs, clockwise from north [rad]
///
/// Returns −1 to 1; below 0 the sun is behind the plane.
///
/// Source: spherical law of cosines.
pub fn cosine(plane: Plane, zenith_rad: f64, sun_azimuth_rad: f64) -> f64 {
    let (sin_tilt, cos_tilt) = plane.tilt_rad.sin_cos();
    let (sin_zenith, cos_zenith) = zenith_rad.sin_cos();
    let cosine = cos_tilt * cos_zenith + sin_tilt * sin_zenith * (sun_azimuth_rad - plane.azimuth_rad).cos();
    // Rounding may carry it a hair beyond 1.
    cosine.clamp(-1.0, 1.0)
}

/// Share of beam that a panel takes in, by that at normal incidence: the simple form.
///
/// `1 − b₀ (1/cos θ − 1)`, 0 or more
///
/// - `cos_incidence`  cosine of the angle of incidence θ; 0 or below gives 0. Poor beyond 80°
/// - `b0`             b₀, 0 or more, see [`ASHRAE_B0`]
///
/// Source: ASHRAE Standard 93.
pub fn ashrae_modifier(cos_incidence: f64, b0: f64) -> f64 {
    if cos_incidence <= 0.0 { 0.0 } else { (1.0 - b0 * (1.0 / cos_incidence - 1.0)).max(0.0) }
}

/// Share of beam that passes a panel's glass, by that at normal incidence: by refraction and absorption.
///
/// ```text
/// sin θr = sin θ / n
/// τ(θ) = exp(−K L / cos θr) [1 − (r_s + r_p) / 2]
/// r_s = [(cos θ − n cos θr) / (cos θ + n cos θr)]²
/// r_p = [(cos θr − n cos θ) / (cos θr + n cos θ)]²
/// modifier = τ(θ) / τ(0)
/// ```
///
/// with n [`GLASS_INDEX`], K [`GLASS_EXTINCTION_PER_M`], L [`GLASS_THICKNESS_M`]
///
/// - `cos_incidence`  cosine of the angle of incidence θ, to 1; 0 or below gives 0
///
/// Source: De Soto, Klein and Beckman 2006, Solar Energy 80, 78–88; the reflections are Fresnel's.
pub fn physical_modifier(cos_incidence: f64) -> f64 {
    if cos_incidence <= 0.0 { 0.0 } else { glass_transmittance(cos_incidence) / glass_transmittance(1.0) }
}

/// τ of [`physical_modifier`].
fn glass_transmittance(cos_incidence: f64) -> f64 {
    let n = GLASS_INDEX;
    let cos_refracted = (1.0 - (1.0 - cos_incidence * cos_incidence) / (n * n)).sqrt();
    let across = (cos_incidence - n * cos_refracted) / (cos_incidence + n * cos_refracted);
    let along = (cos_refracted - n * cos_incidence) / (cos_refracted + n * cos_incidence);
    let passed = 1.0 - (across * across + along * along) / 2.0;
    passed * (-GLASS_EXTINCTION_PER_M * GLASS_THICKNESS_M / cos_refracted).exp()
}

/// Share of beam that a panel takes in, by that at normal incidence: fitted to measured panels.
///
/// `[1 − exp(−cos θ / a_r)] / [1 − exp(−1 / a_r)]`
///
/// - `cos_incidence`  cosine of the angle of incidence θ, to 1; 0 or below gives 0
/// - `angular_loss`   a_r, > 0, see [`ANGULAR_LOSS`]; a dirty panel has more
///
/// Source: Martin and Ruiz 2001, Solar Energy Materials and Solar Cells 70, 25–38.
pub fn martin_ruiz_modifier(cos_incidence: f64, angular_loss: f64) -> f64 {
    MartinRuiz::of(angular_loss).modifier(cos_incidence)
}

/// [`martin_ruiz_modifier`] made ready for many angles.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MartinRuiz {
    /// `−1 / a_r`
    rate: f64,
    /// `1 / [1 − exp(−1 / a_r)]`
    scale: f64,
}

impl MartinRuiz {
    /// A panel with an angular loss coefficient a_r, > 0.
    pub fn of(angular_loss: f64) -> Self {
        let rate = -1.0 / angular_loss;
        Self { rate, scale: 1.0 / (1.0 - rate.exp()) }
    }

    /// The modifier at an angle of incidence, as [`martin_ruiz_modifier`].
    #[inline]
    pub fn modifier(&self, cos_incidence: f64) -> f64 {
        (1.0 - (self.rate * cos_incidence.max(0.0)).exp()) * self.scale
    }
}

/// Share of the sky's light that a panel takes in, by that at normal incidence.
///
/// `1 − exp[−(c₁ + c₂ t) t / a_r]`, `t = sin β + (π − β − sin β) / (1 + cos β)`, `c₁ = 0.4244`,
/// `c₂ = 0.5 a_r − 0.154`
///
/// - `tilt_rad`      tilt of the panel β [rad], 0 to π/2
/// - `angular_loss`  a_r, > 0, see [`ANGULAR_LOSS`]
///
/// Source: Martin and Ruiz 2001, Solar Energy Materials and Solar Cells 70, 25–38, with the corrigendum of 2013 (110, 154).
pub fn martin_ruiz_sky_modifier(tilt_rad: f64, angular_loss: f64) -> f64 {
    let (sin, cos) = tilt_rad.sin_cos();
    diffuse_modifier(sin + (PI - tilt_rad - sin) / (1.0 + cos), angular_loss)
}

/// Share of the light from the ground that a panel takes in, by that at normal incidence.
///
/// As [`martin_ruiz_sky_modifier`] with `t = sin β + (β − sin β) / (1 − cos β)`
///
/// - `tilt_rad`      tilt of the panel β [rad], 0 to π/2; flat, it sees no ground, and this is 0
/// - `angular_loss`  a_r, > 0, see [`ANGULAR_LOSS`]
///
/// Source: Martin and Ruiz 2001, Solar Energy Materials and Solar Cells 70, 25–38, with the corrigendum of 2013 (110, 154).
pub fn martin_ruiz_ground_modifier(tilt_rad: f64, angular_loss: f64) -> f64 {
    if tilt_rad <= 0.0 {
        return 0.0;
    }
    let sin = tilt_rad.sin();
    // 1 − cos β without loss of digits near 0.
    let below = 2.0 * (tilt_rad / 2.0).sin().powi(2);
    diffuse_modifier(sin + (tilt_rad - sin) / below, angular_loss)
}

/// The part common to sky and ground, of their angle term t.
fn diffuse_modifier(angle_term: f64, angular_loss: f64) -> f64 {
    let c2 = 0.5 * angular_loss - 0.154;
    -(-(0.4244 + c2 * angle_term) * angle_term / angular_loss).exp_m1()
}

#[cfg(test)]
mod tests {
    use std::f64::consts::{FRAC_PI_2, FRAC_PI_4};

    use super::*;

    #[test]
    fn a_plane_that_faces_the_sun_is_struck_squarely() {
        let plane = Plane { tilt_rad: 0.7, azimuth_rad: 2.5 };
        assert!((cosine(plane, 0.7, 2.5) - 1.0).abs() < 1e-15);
        assert!(cosine(plane, FRAC_PI_2, 2.5 + PI) < 0.0);
    }

    #[test]
    fn a_flat_plane_does_not_mind_where_it_faces() {
        let at = |azimuth_rad| cosine(Plane { tilt_rad: 0.0, azimuth_rad }, FRAC_PI_4, 1.0);
        assert_eq!(at(0.0), at(3.0));
        assert!((at(0.0) - FRAC_PI_4.cos()).abs() < 1e-15);
    }

    #[test]
    fn modifiers_are_one_at_normal_incidence_and_nothing_from_behind() {
        let ashrae = |cos| ashrae_modifier(cos, ASHRAE_B0);
        let martin_ruiz = |cos| martin_ruiz_modifier(cos, ANGULAR_LOSS);
        for modifier in [&ashrae as &dyn Fn(f64) -> f64, &physical_modifier, &martin_ruiz] {
            assert_eq!((modifier(1.0), modifier(0.0), modifier(-0.5)), (1.0, 0.0, 0.0));
        }
    }

    #[test]
    fn a_tilt_near_nothing_sees_as_good_as_no_ground() {
        assert_eq!(martin_ruiz_ground_modifier(0.0, ANGULAR_LOSS), 0.0);
        let least = martin_ruiz_ground_modifier(1e-9, ANGULAR_LOSS);
        assert!(least > 0.0 && least < 1e-8, "{least}");
    }

    #[test]
    fn upright_the_sky_and_the_ground_are_alike() {
        let sky = martin_ruiz_sky_modifier(FRAC_PI_2, ANGULAR_LOSS);
        assert!((martin_ruiz_ground_modifier(FRAC_PI_2, ANGULAR_LOSS) - sky).abs() < 1e-15);
    }
}
