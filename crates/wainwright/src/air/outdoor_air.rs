//! What outdoor air brings into a room.

use super::properties::{specific_heat_j_kg_k, vapor_enthalpy_j_kg, volume_m3_kg};
use crate::units::{GRAINS_PER_LB, btu_h, kelvin, lb, m3_s};

/// What a stream of outdoor air brings in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AirLoad {
    /// Dry air that comes in [kg/s].
    pub flow_kg_s: f64,
    /// Heat that warms the room [W]; below 0 it cools it.
    pub sensible_w: f64,
    /// Heat that is in the water it brings [W]; below 0 it dries the room.
    pub latent_w: f64,
}

/// What a stream of outdoor air brings in, exactly: the sum is the stream by the difference of enthalpies.
///
/// ```text
/// ṁ = q / v_o    Q_s = ṁ (1006 + 1860 W_o)(t_o − t_i)    Q_l = ṁ (W_o − W_i)(2501000 + 1860 t_i)
/// ```
///
/// - `flow_m3_s`    the stream as it comes in q [m³/s], 0 or more
/// - `outdoor`      temperature t_o [°C] and humidity ratio W_o [kg/kg] outdoors
/// - `indoor`       temperature t_i [°C] and humidity ratio W_i [kg/kg] in the room
/// - `pressure_pa`  pressure [Pa], > 0
///
/// Source: mass and energy balance with ASHRAE Handbook Fundamentals 2017, chapter 1, eq. 26 and 30.
pub fn air_load(flow_m3_s: f64, outdoor: (f64, f64), indoor: (f64, f64), pressure_pa: f64) -> AirLoad {
    let flow_kg_s = flow_m3_s / volume_m3_kg(outdoor.0, outdoor.1, pressure_pa);
    AirLoad {
        flow_kg_s,
        sensible_w: flow_kg_s * specific_heat_j_kg_k(outdoor.1) * (outdoor.0 - indoor.0),
        latent_w: flow_kg_s * (outdoor.1 - indoor.1) * vapor_enthalpy_j_kg(indoor.0),
    }
}

/// The factors by which the trade multiplies a stream of air. In brackets those of standard air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TradeFactors {
    /// Dry air in a cubic foot a minute [lb/(h·cfm)] (4.5).
    pub dry_air: f64,
    /// Sensible heat of a cubic foot a minute for each degree [BTU/(h·cfm·°F)] (1.08, or 1.10 with some water in it).
    pub sensible: f64,
    /// Latent heat of a cubic foot a minute for each pound of water to a pound of dry air [BTU/(h·cfm)] (4840).
    pub latent: f64,
    /// The same for each grain of water to a pound of dry air [BTU·lb/(h·cfm·gr)] (0.68 or 0.69).
    pub latent_by_grain: f64,
}

/// The trade's factors for air of some density and heat: they hold for no other.
///
/// `60 ρ`, `60 ρ c`, `60 ρ h` and `60 ρ h / 7000`, in the trade's units
///
/// - `dry_air_kg_m3`         dry air in a cubic metre of the stream ρ [kg/m³], above 0: one by
///   [`volume_m3_kg`]; the trade's standard air has 0.075 lb/ft³
/// - `specific_heat_j_kg_k`  specific heat for each kilogram of dry air c [J/(kg·K)], see [`specific_heat_j_kg_k`]
/// - `water_j_kg`            heat a kilogram of its water gives off h [J/kg]: that of [`EVAPORATION_J_KG`] in short, or
///   that of [`vapor_enthalpy_j_kg`] for water that leaves at room temperature
///
/// Source: [`air_load`] in the trade's units.
///
/// [`EVAPORATION_J_KG`]: super::properties::EVAPORATION_J_KG
pub fn trade_factors(dry_air_kg_m3: f64, specific_heat_j_kg_k: f64, water_j_kg: f64) -> TradeFactors {
    let flow_kg_s = dry_air_kg_m3 * m3_s(1.0);
    let latent = btu_h(flow_kg_s * water_j_kg);
    TradeFactors {
        dry_air: lb(flow_kg_s * 3600.0),
        sensible: btu_h(flow_kg_s * specific_heat_j_kg_k * kelvin(1.0)),
        latent,
        latent_by_grain: latent / GRAINS_PER_LB,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::air::properties::enthalpy_j_kg;

    #[test]
    fn both_heats_together_are_the_difference_of_enthalpies() {
        let (outdoor, indoor) = ((34.6, 0.009), (25.0, 0.0101));
        let load = air_load(0.01, outdoor, indoor, 83_000.0);
        let by_enthalpy_w =
            load.flow_kg_s * (enthalpy_j_kg(outdoor.0, outdoor.1) - enthalpy_j_kg(indoor.0, indoor.1));
        assert!((load.sensible_w + load.latent_w - by_enthalpy_w).abs() < 1e-9);
    }

    #[test]
    fn no_stream_brings_nothing() {
        let load = air_load(0.0, (35.0, 0.01), (25.0, 0.009), 101_325.0);
        assert_eq!((load.flow_kg_s, load.sensible_w, load.latent_w), (0.0, 0.0, 0.0));
    }
}
