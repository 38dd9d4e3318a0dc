//! Temperature a loaded conductor settles at: an expected value, never a limit.

use crate::standards::ampacity::Material;
use crate::standards::resistance::at_ohm_per_m;

/// Temperature of a loaded conductor.
///
/// `T = T_a + (T_r − 30) (I/I_z)² r(T)/r(T_r)`, solved for T: r is linear in it
///
/// - `current_a`   current I [A], 0 or more
/// - `ampacity_a`  ampacity at 30 °C in the column of `rating_c` I_z [A], above 0
/// - `rating_c`    temperature of that column T_r [°C], above 30
/// - `ambient_c`   ambient temperature T_a [°C]
/// - `material`    metal of the conductor
///
/// Returns the temperature [°C], or none for a current so far above the ampacity (2.6 times in the 75 °C column) that
/// the growing resistance outruns the heat given off: the wire burns.
///
/// Source: the definition of ampacity, which at 30 °C heats the conductor to its rating, and heat given off in
/// proportion to the rise.
pub fn conductor_c(
    current_a: f64,
    ampacity_a: f64,
    rating_c: f64,
    ambient_c: f64,
    material: Material,
) -> Option<f64> {
    let share = current_a / ampacity_a;
    let rise_k = |conductor_c| {
        (rating_c - 30.0) * share * share * at_ohm_per_m(1.0, material, conductor_c)
            / at_ohm_per_m(1.0, material, rating_c)
    };
    // With the resistance of the ambient temperature the rise would be this; each kelvin of it adds `growth` more.
    let first_k = rise_k(ambient_c);
    let growth = rise_k(ambient_c + 1.0) - first_k;
    (growth < 1.0).then(|| ambient_c + first_k / (1.0 - growth))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn at_its_ampacity_and_30_degrees_a_conductor_has_its_rating() {
        for material in [Material::Copper, Material::Aluminum] {
            for rating_c in [60.0, 75.0, 90.0, 105.0] {
                assert!((conductor_c(20.0, 20.0, rating_c, 30.0, material).unwrap() - rating_c).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn without_current_a_conductor_has_the_temperature_around_it() {
        assert_eq!(conductor_c(0.0, 25.0, 75.0, 41.0, Material::Copper), Some(41.0));
    }

    #[test]
    fn the_answer_is_the_one_that_repeated_substitution_comes_to() {
        let mut by_steps = 40.0;
        for _ in 0..200 {
            by_steps = 40.0
                + 45.0 * 1.2_f64.powi(2) * at_ohm_per_m(1.0, Material::Copper, by_steps)
                    / at_ohm_per_m(1.0, Material::Copper, 75.0);
        }
        assert!((conductor_c(30.0, 25.0, 75.0, 40.0, Material::Copper).unwrap() - by_steps).abs() < 1e-9);
    }

    #[test]
    fn more_current_or_heat_around_never_cools() {
        let at =
            |current_a, ambient_c| conductor_c(current_a, 25.0, 75.0, ambient_c, Material::Copper).unwrap();
        assert!(at(10.0, 30.0) < at(10.1, 30.0));
        assert!(at(10.0, 30.0) < at(10.0, 30.1));
    }

    #[test]
    fn far_above_its_ampacity_a_conductor_settles_nowhere() {
        let at = |multiple: f64| conductor_c(25.0 * multiple, 25.0, 75.0, 30.0, Material::Copper);
        assert!(at(2.6).is_some());
        assert_eq!(at(2.7), None);
        assert_eq!(at(1e200), None);
    }
}
