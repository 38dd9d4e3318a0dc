//! Beam from global irradiance by clearness and air mass (DISC), and its refinement by how steady and moist the sky
//! is (DIRINT).

use std::sync::LazyLock;

use super::air_mass::{absolute, distance_factor};
use super::coefficients::last_columns;
use super::decomposition::{BEAM_ZENITH_MOST_RAD, clearness};
use super::irradiance::Irradiance;

/// The solar constant DISC was fitted with [W/m²].
const SOLAR_CONSTANT_W_M2: f64 = 1370.0;
/// Air mass beyond which DISC no longer follows it.
const AIR_MASS_MOST: f64 = 12.0;

/// Upper ends of the bins of [`zenith_free_clearness`], but for the last.
const CLEARNESS_BINS: [f64; 5] = [0.24, 0.40, 0.56, 0.70, 0.80];
/// Upper ends of the bins of zenith angle, but for the last [°].
const ZENITH_BINS_DEG: [f64; 5] = [25.0, 40.0, 55.0, 70.0, 80.0];
/// Upper ends of the bins of change of clearness, but for the last.
const CHANGE_BINS: [f64; 5] = [0.015, 0.035, 0.07, 0.15, 0.30];
/// Upper ends of the bins of precipitable water, but for the last [cm].
const WATER_BINS_CM: [f64; 3] = [1.0, 2.0, 3.0];

/// A row for each bin of clearness, in it of zenith, in it of change; the last change and the last column are for
/// those not known.
static FACTORS: LazyLock<[[f64; 5]; 6 * 6 * 7]> =
    LazyLock::new(|| last_columns(include_str!("../../data/beam_factors_perez_1992.csv")));

/// What is known of the sky besides its global irradiance.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Conditions {
    /// Change of [`zenith_free_clearness`]: the mean of its differences from the hour before and from the hour after,
    /// both taken positive.
    pub clearness_change: Option<f64>,
    /// Water vapor over the place, as the depth it would have as liquid [cm].
    pub precipitable_water_cm: Option<f64>,
}

/// Direct normal irradiance of an hour by clearness and air mass.
///
/// ```text
/// m = min(12, p/101325 / [cos θz + 0.15 (93.885 − θz)^−1.253])      θz in degrees
/// K = 0.866 − 0.122 m + 0.0121 m² − 0.000653 m³ + 0.000014 m⁴ − (a + b exp(c m))
/// k ≤ 0.6:  a = 0.512 − 1.56 k + 2.286 k² − 2.222 k³
///           b = 0.37 + 0.962 k                          c = −0.28 + 0.932 k − 2.048 k²
/// k > 0.6:  a = −5.743 + 21.77 k − 27.49 k² + 11.56 k³
///           b = 41.4 − 118.5 k + 66.05 k² + 31.9 k³     c = −47.01 + 184.2 k − 222 k² + 73.81 k³
/// DNI = K I₀
/// ```
///
/// with the clearness index k and I₀ by a solar constant of 1370 W/m²
///
/// - `ghi_w_m2`     global horizontal irradiance [W/m²], 0 or more
/// - `zenith_rad`   true zenith angle of the sun θz [rad]; beyond [`BEAM_ZENITH_MOST_RAD`] there is no beam
/// - `day_of_year`  1 to 366
/// - `pressure_pa`  air pressure at the place p [Pa], > 0
///
/// Returns the irradiance [W/m²], 0 or more.
///
/// Source: Maxwell 1987, SERI/TR-215-3087; air mass of Kasten 1965, CRREL Technical Report 136.
pub fn disc_dni_w_m2(ghi_w_m2: f64, zenith_rad: f64, day_of_year: u16, pressure_pa: f64) -> f64 {
    if zenith_rad > BEAM_ZENITH_MOST_RAD {
        return 0.0;
    }
    let extraterrestrial_w_m2 = SOLAR_CONSTANT_W_M2 * distance_factor(day_of_year);
    let m = air_mass(zenith_rad, pressure_pa);
    let k = clearness(ghi_w_m2, zenith_rad, extraterrestrial_w_m2);
    let (a, b, c) = if k <= 0.6 {
        (0.512 + k * (-1.56 + k * (2.286 - k * 2.222)), 0.37 + k * 0.962, -0.28 + k * (0.932 - k * 2.048))
    } else {
        (
            -5.743 + k * (21.77 + k * (-27.49 + k * 11.56)),
            41.4 + k * (-118.5 + k * (66.05 + k * 31.9)),
            -47.01 + k * (184.2 + k * (-222.0 + k * 73.81)),
        )
    };
    let clear = 0.866 + m * (-0.122 + m * (0.0121 + m * (-0.000_653 + m * 0.000_014)));
    let transmitted = clear - (a + b * (c * m).exp());
    (transmitted * extraterrestrial_w_m2).max(0.0)
}

/// Clearness that does not fall with the sun.
///
/// `k' = k / {1.031 exp[−1.4 / (0.9 + 9.4/m)] + 0.1}`, 1 at most, with k and m of [`disc_dni_w_m2`]
///
/// - `ghi_w_m2`, `zenith_rad`, `day_of_year`, `pressure_pa`  as in [`disc_dni_w_m2`]; the zenith angle 0 to π/2
///
/// Source: Perez, Ineichen, Maxwell, Seals and Zelenka 1992, ASHRAE Transactions 98, 354–369.
pub fn zenith_free_clearness(ghi_w_m2: f64, zenith_rad: f64, day_of_year: u16, pressure_pa: f64) -> f64 {
    let k = clearness(ghi_w_m2, zenith_rad, SOLAR_CONSTANT_W_M2 * distance_factor(day_of_year));
    let m = air_mass(zenith_rad, pressure_pa);
    (k / (1.031 * (-1.4 / (0.9 + 9.4 / m)).exp() + 0.1)).min(1.0)
}

/// Beam and diffuse of an hour by clearness, sun, steadiness and moisture.
///
/// `DNI = f DNI_disc`, `DHI = GHI − DNI cos θz`, with f from a table by k', θz and the conditions; DNI no more than
/// GHI / cos θz
///
/// - `ghi_w_m2`, `zenith_rad`, `day_of_year`, `pressure_pa`  as in [`disc_dni_w_m2`]
/// - `conditions`  what else is known; a value on an edge belongs to the upper bin
///
/// Source: Perez, Ineichen, Maxwell, Seals and Zelenka 1992, ASHRAE Transactions 98, 354–369.
pub fn dirint(
    ghi_w_m2: f64,
    zenith_rad: f64,
    day_of_year: u16,
    pressure_pa: f64,
    conditions: Conditions,
) -> Irradiance {
    let disc_w_m2 = disc_dni_w_m2(ghi_w_m2, zenith_rad, day_of_year, pressure_pa);
    if disc_w_m2 <= 0.0 {
        return Irradiance::overcast(ghi_w_m2);
    }
    let clearness = zenith_free_clearness(ghi_w_m2, zenith_rad, day_of_year, pressure_pa);
    let factor = factor(clearness, zenith_rad, conditions);
    let cos_zenith = zenith_rad.cos();
    let dni_w_m2 = (factor * disc_w_m2).min(ghi_w_m2 / cos_zenith);
    Irradiance { ghi_w_m2, dni_w_m2, dhi_w_m2: ghi_w_m2 - dni_w_m2 * cos_zenith }
}

/// Factor on the beam of DISC.
fn factor(zenith_free_clearness: f64, zenith_rad: f64, conditions: Conditions) -> f64 {
    let clearness = bin(&CLEARNESS_BINS, zenith_free_clearness);
    let zenith = bin(&ZENITH_BINS_DEG, zenith_rad.to_degrees());
    let change = conditions.clearness_change.map_or(6, |change| bin(&CHANGE_BINS, change));
    let water = conditions.precipitable_water_cm.map_or(4, |water_cm| bin(&WATER_BINS_CM, water_cm));
    FACTORS[(clearness * 6 + zenith) * 7 + change][water]
}

/// Which bin a value lies in, counted from 0.
fn bin(upper_ends: &[f64], value: f64) -> usize {
    upper_ends.iter().filter(|end| value >= **end).count()
}

/// Air mass of DISC.
fn air_mass(zenith_rad: f64, pressure_pa: f64) -> f64 {
    let relative = 1.0 / (zenith_rad.cos() + 0.15 * (93.885 - zenith_rad.to_degrees()).powf(-1.253));
    absolute(relative, pressure_pa).min(AIR_MASS_MOST)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sky::air_mass::SEA_LEVEL_PA;

    #[test]
    fn every_cell_of_the_table_is_read() {
        assert!(FACTORS.iter().flatten().all(|factor| factor.is_finite() && *factor >= 0.0));
    }

    #[test]
    fn a_value_on_an_edge_belongs_to_the_upper_bin() {
        assert_eq!([0.99, 1.0, 2.5, 3.0, 9.0].map(|w| bin(&WATER_BINS_CM, w)), [0, 1, 2, 3, 3]);
    }

    #[test]
    fn the_factor_is_that_of_its_row_and_column() {
        let known = |change, water_cm| Conditions {
            clearness_change: Some(change),
            precipitable_water_cm: Some(water_cm),
        };
        // First and fourth row, last row of the first bin of zenith.
        assert_eq!(factor(0.1, 0.1, known(0.01, 2.5)), 0.38523);
        assert_eq!(factor(0.1, 0.1, known(0.1, 5.0)), 0.84107);
        assert_eq!(factor(0.1, 0.1, Conditions::default()), 0.56995);
        assert_eq!(factor(0.1, 30_f64.to_radians(), known(0.5, 0.5)), 1.11625);
    }

    #[test]
    fn a_low_sun_and_a_dark_sky_give_no_beam() {
        let at = |ghi_w_m2, zenith_deg: f64| {
            dirint(ghi_w_m2, zenith_deg.to_radians(), 80, SEA_LEVEL_PA, Conditions::default())
        };
        assert_eq!(at(20.0, 87.5), Irradiance::overcast(20.0));
        assert_eq!(at(20.0, 95.0), Irradiance::overcast(20.0));
        assert_eq!(at(0.0, 40.0), Irradiance::DARK);
    }

    #[test]
    fn beam_never_takes_more_than_there_is() {
        for ghi_w_m2 in (0..=1300).step_by(10).map(f64::from) {
            for zenith_deg in 0..=90 {
                for change in [None, Some(0.01), Some(0.4)] {
                    let conditions =
                        Conditions { clearness_change: change, precipitable_water_cm: Some(4.0) };
                    let zenith_rad = f64::from(zenith_deg).to_radians();
                    let split = dirint(ghi_w_m2, zenith_rad, 80, SEA_LEVEL_PA, conditions);
                    assert!(split.dni_w_m2 >= 0.0 && split.dhi_w_m2 >= -1e-9, "{split:?}");
                }
            }
        }
    }
}
