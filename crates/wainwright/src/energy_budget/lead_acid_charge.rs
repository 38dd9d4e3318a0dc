//! How a lead-acid battery takes charge, and what it holds at a current. Source of all here: Copetti, Lorenzo and
//! Chenlo, Progress in Photovoltaics 1, 1993, `from memory`.
//!
//! Nearly full, most of the current only makes gas: a battery that cycles near the top wastes most of its charge.

use super::module_power::RATED_CELL_C;

/// Share of a charging current that is stored.
///
/// `η = 1 − exp{20.73 / [I/I_10 + 0.55] (s − 1)}`, `I_10 = C / 10 h`
///
/// - `state_of_charge`  s, 0 to 1
/// - `charge_a`         charging current I as a positive number [A], 0 or more
/// - `ten_hour_ah`      capacity rated at 10 h C [Ah], above 0
///
/// Returns η, 0 to 1: 0 of a full battery; less the greater the current.
#[inline]
pub fn charge_factor(state_of_charge: f64, charge_a: f64, ten_hour_ah: f64) -> f64 {
    // The first factor of the exponent, its fraction cleared: a division costs as much as all else here.
    let steepness = 20.73 * ten_hour_ah / (10.0 * charge_a + 0.55 * ten_hour_ah);
    (1.0 - (steepness * (state_of_charge - 1.0)).exp()).max(0.0)
}

/// Capacity at a current and a temperature.
///
/// `C_I = C 1.67 / [1 + 0.67 (I/I_10)^0.9] (1 + 0.005 ΔT)`, `I_10 = C / 10 h`
///
/// - `ten_hour_ah`  capacity rated at 10 h C [Ah], above 0
/// - `discharge_a`  current I [A], 0 or more
/// - `cell_c`       temperature of the battery, ΔT above 25 °C [°C], −20 to 50
///
/// Returns C_I [Ah], never below 0: at I_10 and 25 °C that rated, toward 1.67 times it as the current vanishes.
pub fn capacity_ah(ten_hour_ah: f64, discharge_a: f64, cell_c: f64) -> f64 {
    let tenths = 10.0 * discharge_a / ten_hour_ah;
    let warmth = 1.0 + 0.005 * (cell_c - RATED_CELL_C);
    (ten_hour_ah * 1.67 / (1.0 + 0.67 * tenths.powf(0.9)) * warmth).max(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn nearly_full_most_of_the_charge_is_wasted() {
        let factor = |state_of_charge| charge_factor(state_of_charge, 10.0, 100.0);
        // Worked out apart from this code: 1 − e^(−13.374 (1 − s)) at the ten-hour current.
        let factors = [0.5, 0.8, 0.9, 0.95].map(|s| format!("{:.4}", factor(s)));
        assert_eq!(factors, ["0.9988", "0.9311", "0.7375", "0.4876"]);
        assert_eq!([1.0, 1.1].map(factor), [0.0; 2]);
    }

    #[test]
    fn a_high_current_finds_less() {
        let of_rated =
            [1.0, 5.0, 10.0, 20.0, 50.0].map(|current_a| capacity_ah(100.0, current_a, 25.0) / 100.0);
        assert_eq!(
            of_rated.map(|share| format!("{share:.3}")),
            ["1.540", "1.229", "1.000", "0.742", "0.434"]
        );
        assert_eq!(capacity_ah(100.0, 0.0, 25.0), 167.0);
    }

    #[test]
    fn cold_takes_half_a_percent_a_degree() {
        assert!((capacity_ah(100.0, 10.0, 5.0) - 90.0).abs() < 1e-12);
        assert_eq!(capacity_ah(100.0, 10.0, -200.0), 0.0);
    }

    proptest! {
        #[test]
        fn a_fuller_battery_or_a_higher_current_never_stores_a_greater_share(
            state_of_charge in 0.0..=1.0f64, fuller in 0.0..=1.0f64, charge_a in 0.0..50.0f64, more_a in 0.0..50.0f64,
        ) {
            let factor = charge_factor(state_of_charge, charge_a, 100.0);
            prop_assert!((0.0..=1.0).contains(&factor));
            let fuller = state_of_charge + fuller * (1.0 - state_of_charge);
            prop_assert!(charge_factor(fuller, charge_a, 100.0) <= factor);
            prop_assert!(charge_factor(state_of_charge, charge_a + more_a, 100.0) <= factor);
        }
    }
}
