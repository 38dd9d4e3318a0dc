//! Global irradiance split into beam and diffuse.

use super::irradiance::Irradiance;

/// Zenith angle beyond which the beam is taken as nothing: a correlation says little there, and its error is divided
/// by nearly 0 [rad]. `common practice`
pub const BEAM_ZENITH_MOST_RAD: f64 = 87.0_f64.to_radians();

/// Cosine of the zenith angle that a clearness index reckons with at least. `common practice`
const COS_ZENITH_LEAST: f64 = 0.065;

/// Clearness index: global irradiance by that outside the atmosphere.
///
/// `k = GHI / (I₀ max(cos θz, 0.065))`, 0 to 1
///
/// - `ghi_w_m2`               global horizontal irradiance GHI [W/m²]; below 0 counts as 0
/// - `zenith_rad`             true zenith angle of the sun θz [rad], 0 to π; the floor of its cosine is reached at
///   86.3°
/// - `extraterrestrial_w_m2`  irradiance outside the atmosphere I₀ [W/m²], > 0
///
/// Source: Liu and Jordan 1960, Solar Energy 4, 1–19 (`from memory`); the floor and the limit of 1 `common practice`.
pub fn clearness(ghi_w_m2: f64, zenith_rad: f64, extraterrestrial_w_m2: f64) -> f64 {
    (ghi_w_m2 / (extraterrestrial_w_m2 * zenith_rad.cos().max(COS_ZENITH_LEAST))).clamp(0.0, 1.0)
}

/// Diffuse share of global irradiance in an hour.
///
/// `1 − 0.09 k` to k = 0.22; `0.9511 − 0.1604 k + 4.388 k² − 16.638 k³ + 12.336 k⁴` to 0.8; `0.165` above
///
/// - `clearness`  clearness index k, 0 to 1
///
/// Returns a share, 0 to 1.
///
/// Source: Erbs, Klein and Duffie 1982, Solar Energy 28, 293–302.
pub fn erbs_diffuse_share(clearness: f64) -> f64 {
    let k = clearness;
    if k <= 0.22 {
        1.0 - 0.09 * k
    } else if k <= 0.8 {
        0.9511 + k * (-0.1604 + k * (4.388 + k * (-16.638 + k * 12.336)))
    } else {
        0.165
    }
}

/// Beam and diffuse of an hour by its clearness alone.
///
/// `DHI = share × GHI`, `DNI = (GHI − DHI) / cos θz`
///
/// - `ghi_w_m2`               global horizontal irradiance GHI [W/m²], 0 or more
/// - `zenith_rad`             true zenith angle of the sun θz [rad]; all is diffuse beyond [`BEAM_ZENITH_MOST_RAD`]
/// - `extraterrestrial_w_m2`  irradiance outside the atmosphere [W/m²], > 0
///
/// Source: [`erbs_diffuse_share`].
pub fn erbs(ghi_w_m2: f64, zenith_rad: f64, extraterrestrial_w_m2: f64) -> Irradiance {
    if zenith_rad > BEAM_ZENITH_MOST_RAD {
        return Irradiance::overcast(ghi_w_m2);
    }
    let share = erbs_diffuse_share(clearness(ghi_w_m2, zenith_rad, extraterrestrial_w_m2));
    let dhi_w_m2 = share * ghi_w_m2;
    Irradiance { ghi_w_m2, dni_w_m2: (ghi_w_m2 - dhi_w_m2) / zenith_rad.cos(), dhi_w_m2 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_diffuse_share_has_no_step_larger_than_the_printed_digits_leave() {
        for edge in [0.22, 0.8] {
            let step = erbs_diffuse_share(edge + 1e-12) - erbs_diffuse_share(edge);
            assert!(step.abs() < 1e-3, "{edge}: {step}");
        }
        assert_eq!(erbs_diffuse_share(0.0), 1.0);
    }

    #[test]
    fn clearness_stays_between_nothing_and_all() {
        assert_eq!(clearness(-5.0, 0.5, 1366.1), 0.0);
        assert_eq!(clearness(1500.0, 0.5, 1366.1), 1.0);
        assert_eq!(clearness(10.0, 1.55, 1000.0), 10.0 / 65.0);
    }

    #[test]
    fn a_low_sun_gives_no_beam() {
        assert_eq!(erbs(20.0, 87.1_f64.to_radians(), 1366.1), Irradiance::overcast(20.0));
        assert_eq!(erbs(0.0, 0.5, 1366.1), Irradiance::DARK);
    }

    #[test]
    fn beam_and_diffuse_make_up_the_global_irradiance() {
        for ghi_w_m2 in [50.0, 300.0, 700.0, 1000.0] {
            let split = erbs(ghi_w_m2, 0.6, 1366.1);
            assert!((split.dni_w_m2 * 0.6_f64.cos() + split.dhi_w_m2 - ghi_w_m2).abs() < 1e-9);
        }
    }
}
