//! How much water is in the air: humidity ratio, vapor pressure, relative humidity.

use super::saturation::saturation_pa;

/// Mass of a mole of water by that of a mole of dry air.
pub(super) const MOLAR_MASS_RATIO: f64 = 0.621_945;

/// Humidity ratio of air by the pressure of its vapor.
///
/// `W = 0.621945 p_w / (p − p_w)`
///
/// - `vapor_pa`     pressure of the vapor p_w [Pa], 0 or more
/// - `pressure_pa`  pressure of the air p [Pa]
///
/// Returns W [kg/kg], 0 or more; infinite where the vapor leaves no room for air.
///
/// Source: ASHRAE Handbook Fundamentals 2017, chapter 1, eq. 20.
pub fn of_vapor(vapor_pa: f64, pressure_pa: f64) -> f64 {
    if vapor_pa >= pressure_pa {
        return f64::INFINITY;
    }
    MOLAR_MASS_RATIO * vapor_pa / (pressure_pa - vapor_pa)
}

/// Pressure of the vapor in air by its humidity ratio: [`of_vapor`] the other way round.
///
/// `p_w = p W / (0.621945 + W)`
///
/// - `ratio`        humidity ratio W [kg/kg], 0 or more
/// - `pressure_pa`  pressure of the air p [Pa]
///
/// Returns p_w [Pa].
///
/// Source: ASHRAE Handbook Fundamentals 2017, chapter 1, eq. 20.
pub fn vapor_pa(ratio: f64, pressure_pa: f64) -> f64 {
    pressure_pa * ratio / (MOLAR_MASS_RATIO + ratio)
}

/// Humidity ratio of air by its relative humidity.
///
/// - `relative`     relative humidity, 0 to 1
/// - `air_c`        temperature [°C], −100 to 200
/// - `pressure_pa`  pressure of the air [Pa]
///
/// Source: ASHRAE Handbook Fundamentals 2017, chapter 1, eq. 12 and 20.
pub fn of_relative(relative: f64, air_c: f64, pressure_pa: f64) -> f64 {
    of_vapor(relative * saturation_pa(air_c), pressure_pa)
}

/// Relative humidity of air by its humidity ratio.
///
/// `φ = p_w / p_ws`
///
/// - `ratio`        humidity ratio [kg/kg], 0 or more
/// - `air_c`        temperature [°C], −100 to 200
/// - `pressure_pa`  pressure of the air [Pa]
///
/// Returns φ, 0 to 1; above 1 some of the water is mist.
///
/// Source: ASHRAE Handbook Fundamentals 2017, chapter 1, eq. 12.
pub fn relative(ratio: f64, air_c: f64, pressure_pa: f64) -> f64 {
    vapor_pa(ratio, pressure_pa) / saturation_pa(air_c)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ratio_and_pressure_lead_back_to_each_other() {
        for ratio in [1e-7, 0.004, 0.02, 0.2] {
            let back = of_vapor(vapor_pa(ratio, 84_000.0), 84_000.0);
            assert!((back / ratio - 1.0).abs() < 1e-12);
        }
        assert!((relative(of_relative(0.4, 26.0, 1e5), 26.0, 1e5) - 0.4).abs() < 1e-12);
    }

    #[test]
    fn air_may_be_dry_and_vapor_may_leave_no_room() {
        assert_eq!((of_vapor(0.0, 1e5), vapor_pa(0.0, 1e5)), (0.0, 0.0));
        assert_eq!(of_vapor(1e5, 1e5), f64::INFINITY);
    }
}
