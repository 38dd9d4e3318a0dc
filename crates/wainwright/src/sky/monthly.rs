//! Sunshine of a mean day of the month, in closed form: what of it is diffuse, and what a tilted plane receives.

use super::daily::sunset_hour_angle_rad;
use super::sun::Direction;

/// Day of the year whose sun is nearest to the month's mean, January first.
///
/// Source: Klein 1977, Solar Energy 19, 325–329; Duffie and Beckman, Table 1.6.1 (`from memory`).
pub const MEAN_DAYS: [u16; 12] = [17, 47, 75, 105, 135, 162, 198, 228, 258, 288, 318, 344];

/// Beam on a plane by beam on the horizontal, of a moment.
///
/// `R_b = max(cos θ, 0) / cos θz`
///
/// - `sun`    where the sun stands
/// - `plane`  direction in which the plane faces
///
/// Returns R_b, 0 or more; it grows without limit toward the horizon, and is 0 with the sun below it.
///
/// Source: Duffie and Beckman, eq. 1.8.1 (`from memory`).
pub fn beam_ratio(sun: &Direction, plane: &Direction) -> f64 {
    if sun.up <= 0.0 { 0.0 } else { sun.cos_angle(plane).max(0.0) / sun.up }
}

/// Beam on a plane that faces the equator by beam on the horizontal, over the mean day of a month.
///
/// ```text
/// R̄_b = [cos φ' cos δ sin ω' + ω' sin φ' sin δ] / [cos φ cos δ sin ωs + ωs sin φ sin δ]
/// ω' = min(ωs, arccos(−tan φ' tan δ))
/// ```
///
/// with `φ' = φ − β` in the north and `φ + β` in the south: the latitude at which the plane would lie flat
///
/// - `latitude_rad`     latitude φ [rad], −π/2 to π/2
/// - `declination_rad`  declination of the sun on the [mean day](MEAN_DAYS) δ [rad]
/// - `tilt_rad`         tilt β [rad], 0 to π/2
///
/// Returns R̄_b, 0 or more: 1 of a flat plane, 0 where the sun does not rise. Where it does not set, a plane that it
/// shines on from behind gets only what falls about noon.
///
/// Source: Klein 1977, Solar Energy 19, 325–329; Duffie and Beckman, eq. 2.19.3 (`from memory`).
pub fn mean_beam_ratio(latitude_rad: f64, declination_rad: f64, tilt_rad: f64) -> f64 {
    let sunset_rad = sunset_hour_angle_rad(latitude_rad, declination_rad);
    if sunset_rad <= 0.0 {
        return 0.0;
    }
    let toward_equator = if latitude_rad >= 0.0 { -tilt_rad } else { tilt_rad };
    let flat_at_rad = latitude_rad + toward_equator;
    let plane_sunset_rad = sunset_hour_angle_rad(flat_at_rad, declination_rad).min(sunset_rad);
    let swept = |latitude_rad: f64, hour_rad: f64| {
        latitude_rad.cos() * declination_rad.cos() * hour_rad.sin()
            + hour_rad * latitude_rad.sin() * declination_rad.sin()
    };
    (swept(flat_at_rad, plane_sunset_rad) / swept(latitude_rad, sunset_rad)).max(0.0)
}

/// Diffuse share of the mean daily irradiation of a month.
///
/// `1.391 − 3.560 K + 4.189 K² − 2.137 K³` for ωs to 81.4°, `1.311 − 3.022 K + 3.427 K² − 1.821 K³` above
///
/// - `mean_clearness`  mean clearness index of the month K, fitted for 0.3 to 0.8; beyond counts as those
/// - `sunset_rad`      hour angle at which the sun of the [mean day](MEAN_DAYS) sets ωs [rad], 0 to π
///
/// Returns a share, 0 to 1.
///
/// Source: Erbs, Klein and Duffie 1982, Solar Energy 28, 293–302.
pub fn diffuse_share(mean_clearness: f64, sunset_rad: f64) -> f64 {
    let k = mean_clearness.clamp(0.3, 0.8);
    if sunset_rad <= 81.4_f64.to_radians() {
        1.391 + k * (-3.560 + k * (4.189 - k * 2.137))
    } else {
        1.311 + k * (-3.022 + k * (3.427 - k * 1.821))
    }
}

/// Mean daily irradiation of a tilted plane, the sky being equally bright all over.
///
/// `H_T = H (1 − D) R̄_b + H D (1 + cos β)/2 + H ρ (1 − cos β)/2`
///
/// - `horizontal_j_m2`  mean daily irradiation of a horizontal plane H [J/m²], or in any unit the answer shall have
/// - `diffuse_share`    diffuse share of it D, 0 to 1, see [`diffuse_share`]
/// - `mean_beam_ratio`  R̄_b, see [`mean_beam_ratio`]
/// - `albedo`           share of light the ground reflects ρ, 0 to 1
/// - `tilt_rad`         tilt β [rad], 0 to π/2
///
/// Returns H_T in the unit of H.
///
/// Source: Liu and Jordan 1963, Solar Energy 7, 53–74; Duffie and Beckman, eq. 2.19.1 (`from memory`).
pub fn tilted_j_m2(
    horizontal_j_m2: f64,
    diffuse_share: f64,
    mean_beam_ratio: f64,
    albedo: f64,
    tilt_rad: f64,
) -> f64 {
    let cos_tilt = tilt_rad.cos();
    let beam = (1.0 - diffuse_share) * mean_beam_ratio;
    horizontal_j_m2 * (beam + diffuse_share * (1.0 + cos_tilt) / 2.0 + albedo * (1.0 - cos_tilt) / 2.0)
}

#[cfg(test)]
mod tests {
    use std::f64::consts::PI;

    use super::*;
    use crate::sky::daily::{declination_rad, direction};

    /// Beam ratio of a day by sums over small steps from sunrise to sunset, the beam being as strong all day.
    fn summed_ratio(latitude_rad: f64, declination_rad: f64, plane: &Direction) -> f64 {
        let sunset_rad = sunset_hour_angle_rad(latitude_rad, declination_rad);
        let (on_plane, on_ground) = (0..2000)
            .map(|step| ((f64::from(step) + 0.5) / 1000.0 - 1.0) * sunset_rad)
            .map(|hour_rad| direction(latitude_rad, declination_rad, hour_rad))
            .fold((0.0, 0.0), |(p, g), sun| (p + sun.cos_angle(plane).max(0.0), g + sun.up));
        on_plane / on_ground
    }

    #[test]
    fn the_mean_ratio_is_that_of_the_days_minutes() {
        for latitude_deg in [-45.0, -20.0, 20.0, 43.0, 60.0_f64] {
            for tilt_deg in [0.0, 20.0, 60.0, 90.0_f64] {
                for day in MEAN_DAYS {
                    let (latitude_rad, tilt_rad) = (latitude_deg.to_radians(), tilt_deg.to_radians());
                    let declination_rad = declination_rad(day);
                    let azimuth_rad = if latitude_deg > 0.0 { PI } else { 0.0 };
                    let plane = Direction::faced(tilt_rad, azimuth_rad);
                    let summed = summed_ratio(latitude_rad, declination_rad, &plane);
                    let closed = mean_beam_ratio(latitude_rad, declination_rad, tilt_rad);
                    assert!((closed - summed).abs() < 1e-5 * summed.max(1.0), "{closed}, not {summed}");
                }
            }
        }
    }

    #[test]
    fn the_south_mirrors_the_north() {
        for day in MEAN_DAYS {
            let north = mean_beam_ratio(0.7, declination_rad(day), 0.5);
            assert!((mean_beam_ratio(-0.7, -declination_rad(day), 0.5) - north).abs() < 1e-14);
        }
    }

    #[test]
    fn a_flat_plane_receives_what_the_ground_does() {
        let ratio = mean_beam_ratio(0.7, -0.2, 0.0);
        assert_eq!(ratio, 1.0);
        assert!((tilted_j_m2(5.0, 0.4, ratio, 0.7, 0.0) - 5.0).abs() < 1e-15);
    }

    #[test]
    fn without_sun_there_is_no_beam() {
        assert_eq!(mean_beam_ratio(75_f64.to_radians(), declination_rad(344), 1.0), 0.0);
        let below = Direction { east: 0.6, north: 0.0, up: -0.8 };
        assert_eq!(beam_ratio(&below, &Direction::faced(1.5, 1.5)), 0.0);
        let behind = Direction { east: 0.0, north: 0.8, up: 0.6 };
        assert_eq!(beam_ratio(&behind, &Direction::faced(1.5, PI)), 0.0);
    }

    #[test]
    fn the_diffuse_share_ends_where_it_was_fitted() {
        assert_eq!(diffuse_share(0.1, 1.0), diffuse_share(0.3, 1.0));
        assert_eq!(diffuse_share(0.9, 1.6), diffuse_share(0.8, 1.6));
        for sunset_rad in [1.0, 1.6] {
            let shares: Vec<f64> =
                (30..=80).map(|k| diffuse_share(f64::from(k) / 100.0, sunset_rad)).collect();
            assert!(shares.windows(2).all(|pair| pair[0] > pair[1] && pair[1] > 0.1 && pair[0] < 0.8));
        }
    }
}
