//! What propane gives and takes as it burns: `C3H8 + 5 O2 → 3 CO2 + 4 H2O`.

use crate::units::{J_PER_BTU, KG_PER_LB, L_PER_GAL};

/// Heat of a kilogram of propane, its water condensed [J/kg]: 21,500 BTU/lb. `from memory`.
pub const HEAT_J_PER_KG: f64 = 21_500.0 * J_PER_BTU / KG_PER_LB;
/// Heat of a litre of liquid propane, its water condensed [J/L]: 91,500 BTU/gal. `from memory`.
pub const HEAT_J_PER_L: f64 = 91_500.0 * J_PER_BTU / L_PER_GAL;

/// Molar masses [g/mol]. Source: standard atomic weights of carbon, hydrogen and oxygen.
const CARBON: f64 = 12.011;
const HYDROGEN: f64 = 1.008;
const OXYGEN: f64 = 15.999;
const PROPANE: f64 = 3.0 * CARBON + 8.0 * HYDROGEN;
/// Molar mass of dry air [g/mol] and the share of its molecules that are oxygen. Source: U.S. Standard Atmosphere 1976.
const DRY_AIR: f64 = 28.964;
const OXYGEN_SHARE: f64 = 0.209_476;

/// Water that burning propane gives off [kg for each kg].
///
/// Source: stoichiometry.
pub const WATER_KG_PER_KG: f64 = 4.0 * (2.0 * HYDROGEN + OXYGEN) / PROPANE;
/// Carbon dioxide that burning propane gives off [kg for each kg].
///
/// Source: stoichiometry.
pub const CARBON_DIOXIDE_KG_PER_KG: f64 = 3.0 * (CARBON + 2.0 * OXYGEN) / PROPANE;
/// Oxygen that burning propane takes [kg for each kg].
///
/// Source: stoichiometry.
pub const OXYGEN_KG_PER_KG: f64 = 5.0 * 2.0 * OXYGEN / PROPANE;
/// Dry air that holds the oxygen that burning propane takes [kg for each kg]; a burner needs more.
///
/// Source: stoichiometry.
pub const AIR_KG_PER_KG: f64 = 5.0 / OXYGEN_SHARE * DRY_AIR / PROPANE;

/// Propane that a burner uses.
///
/// - `fuel_w`  heat of its fuel, the water condensed [W], 0 or more
///
/// Returns the propane [kg/s].
///
/// Source: heat of combustion as for [`HEAT_J_PER_KG`].
pub fn burned_kg_s(fuel_w: f64) -> f64 {
    fuel_w / HEAT_J_PER_KG
}

/// Liquid propane that a mass is: what a tank is filled by.
///
/// - `mass_kg`  propane [kg], 0 or more
///
/// Returns the volume [L].
///
/// Source: both heats of combustion.
pub fn liquid_l(mass_kg: f64) -> f64 {
    mass_kg * (HEAT_J_PER_KG / HEAT_J_PER_L)
}

/// Water that a burner without a flue gives the room.
///
/// `ṁ_w = 1.634 P / H`
///
/// - `fuel_w`  heat of its fuel, the water condensed P [W], 0 or more
///
/// Returns ṁ_w [kg/s].
///
/// Source: stoichiometry; heat of combustion H as for [`HEAT_J_PER_KG`].
pub fn water_kg_s(fuel_w: f64) -> f64 {
    WATER_KG_PER_KG * burned_kg_s(fuel_w)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{kg_per_l, w_from_btu_h};

    #[test]
    fn what_goes_in_comes_out() {
        let given_off = WATER_KG_PER_KG + CARBON_DIOXIDE_KG_PER_KG;
        assert!((given_off - OXYGEN_KG_PER_KG - 1.0).abs() < 1e-12);
        // An open flame cannot have less than the textbook's 15.7 kg of air (`from memory`).
        assert_eq!(format!("{OXYGEN_KG_PER_KG:.3} {AIR_KG_PER_KG:.1}"), "3.628 15.7");
    }

    #[test]
    fn a_night_beside_an_open_flame_wets_the_room() {
        let per_kwh_kg = 3.6e6 * water_kg_s(1.0);
        assert_eq!(format!("{per_kwh_kg:.4}"), "0.1176");
        let night_kg = 8.0 * 3600.0 * water_kg_s(w_from_btu_h(5000.0));
        assert_eq!(format!("{night_kg:.1}"), "1.4");
        // A heater's manual prints about an ounce for 1,000 BTU.
        let ounces = 16.0 * 3600.0 * water_kg_s(w_from_btu_h(1000.0)) / KG_PER_LB;
        assert_eq!(format!("{ounces:.1}"), "1.2");
    }

    #[test]
    fn a_gallon_weighs_what_the_trade_says() {
        // `common practice`: about 4.2 lb a gallon.
        assert!((1.0 / liquid_l(1.0) / kg_per_l(4.2) - 1.0).abs() < 0.02);
    }
}
