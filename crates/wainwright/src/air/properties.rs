//! Heat and room that moist air takes.

use super::ICE_K;

/// Gas constant of dry air [J/(kg·K)].
const GAS_CONSTANT_J_KG_K: f64 = 287.042;
/// Specific heat of dry air [J/(kg·K)].
pub const DRY_AIR_J_KG_K: f64 = 1006.0;
/// Specific heat of water vapor [J/(kg·K)].
pub const VAPOR_J_KG_K: f64 = 1860.0;
/// Heat that turns a kilogram of water at 0 °C into vapor [J/kg].
pub const EVAPORATION_J_KG: f64 = 2_501_000.0;

/// Specific heat of moist air, for each kilogram of dry air in it.
///
/// `c = 1006 + 1860 W`
///
/// - `ratio`  humidity ratio W [kg/kg], 0 or more
///
/// Returns c [J/(kg·K)].
///
/// Source: ASHRAE Handbook Fundamentals 2017, chapter 1, eq. 30, its change with temperature.
pub fn specific_heat_j_kg_k(ratio: f64) -> f64 {
    DRY_AIR_J_KG_K + VAPOR_J_KG_K * ratio
}

/// Enthalpy of moist air, for each kilogram of dry air in it.
///
/// `h = 1006 t + W (2501000 + 1860 t)`
///
/// - `air_c`  temperature t [°C]
/// - `ratio`  humidity ratio W [kg/kg], 0 or more
///
/// Returns h [J/kg].
///
/// Source: ASHRAE Handbook Fundamentals 2017, chapter 1, eq. 30.
pub fn enthalpy_j_kg(air_c: f64, ratio: f64) -> f64 {
    DRY_AIR_J_KG_K * air_c + ratio * vapor_enthalpy_j_kg(air_c)
}

/// Enthalpy of water vapor in air.
///
/// `h_g = 2501000 + 1860 t`
///
/// - `air_c`  temperature t [°C]
///
/// Returns h_g [J/kg].
///
/// Source: ASHRAE Handbook Fundamentals 2017, chapter 1, eq. 29.
pub fn vapor_enthalpy_j_kg(air_c: f64) -> f64 {
    EVAPORATION_J_KG + VAPOR_J_KG_K * air_c
}

/// Temperature of moist air by its enthalpy: [`enthalpy_j_kg`] the other way round.
///
/// `t = (h − 2501000 W) / (1006 + 1860 W)`
///
/// - `enthalpy_j_kg`  enthalpy h [J/kg dry air]
/// - `ratio`          humidity ratio W [kg/kg], 0 or more
///
/// Returns t [°C].
///
/// Source: ASHRAE Handbook Fundamentals 2017, chapter 1, eq. 30.
pub fn air_c(enthalpy_j_kg: f64, ratio: f64) -> f64 {
    (enthalpy_j_kg - EVAPORATION_J_KG * ratio) / specific_heat_j_kg_k(ratio)
}

/// Room that moist air takes, for each kilogram of dry air in it.
///
/// `v = 287.042 T (1 + 1.607858 W) / p`
///
/// - `air_c`        temperature T [°C, in kelvin above]
/// - `ratio`        humidity ratio W [kg/kg], 0 or more
/// - `pressure_pa`  pressure p [Pa], > 0
///
/// Returns v [m³/kg].
///
/// Source: ASHRAE Handbook Fundamentals 2017, chapter 1, eq. 26.
pub fn volume_m3_kg(air_c: f64, ratio: f64, pressure_pa: f64) -> f64 {
    GAS_CONSTANT_J_KG_K * (air_c + ICE_K) * (1.0 + 1.607_858 * ratio) / pressure_pa
}

/// Density of moist air, its water counted.
///
/// `ρ = (1 + W) / v`
///
/// - `air_c`        temperature [°C]
/// - `ratio`        humidity ratio W [kg/kg], 0 or more
/// - `pressure_pa`  pressure [Pa]
///
/// Returns ρ [kg/m³].
///
/// Source: ASHRAE Handbook Fundamentals 2017, chapter 1, eq. 11.
pub fn density_kg_m3(air_c: f64, ratio: f64, pressure_pa: f64) -> f64 {
    (1.0 + ratio) / volume_m3_kg(air_c, ratio, pressure_pa)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn enthalpy_and_temperature_lead_back_to_each_other() {
        assert!((air_c(enthalpy_j_kg(31.0, 0.014), 0.014) - 31.0).abs() < 1e-12);
    }

    #[test]
    fn it_is_that_of_the_tables() {
        // psychrolib 2.5.0 prints these for 25 °C at half humidity.
        assert_eq!(format!("{:.0}", enthalpy_j_kg(25.0, 0.009_881_04)), "50322");
        assert_eq!(format!("{:.6}", volume_m3_kg(25.0, 0.009_881_04, 101_325.0)), "0.858043");
    }
}
