//! What outdoor air brings into a room.

use super::properties::{specific_heat_j_kg_k, vapor_enthalpy_j_kg, volume_m3_kg};
use crate::units::{GRAINS_PER_LB, btu_h, kelvin, m3_s};

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

/// The factors by which the trade multiplies a stream of air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TradeFactors {
    /// Sensible heat of a cubic foot a minute for each degree [BTU/(h·cfm·°F)]: 1.08 of standard air.
    pub sensible: f64,
    /// Latent heat of a cubic foot a minute for each grain of water to a pound of dry air [BTU·lb/(h·cfm·gr)]: 0.68 of
    /// standard air.
    pub latent: f64,
}

/// The trade's factors for air of a state: they hold for no other.
///
/// `60 ρ c` and `60 ρ h_fg / 7000`, in the trade's units
///
/// - `air_c`        temperature of the stream [°C]
/// - `ratio`        its humidity ratio [kg/kg]
/// - `pressure_pa`  pressure [Pa], > 0
/// - `room_c`       temperature of the room, at which its water leaves [°C]
///
/// Source: unit conversion of [`air_load`]; the trade's 1.08 and 0.68 are those of dry air of 0.075 lb/ft³.
pub fn trade_factors(air_c: f64, ratio: f64, pressure_pa: f64, room_c: f64) -> TradeFactors {
    let flow_kg_s = m3_s(1.0) / volume_m3_kg(air_c, ratio, pressure_pa);
    TradeFactors {
        sensible: btu_h(flow_kg_s * specific_heat_j_kg_k(ratio) * kelvin(1.0)),
        latent: btu_h(flow_kg_s * vapor_enthalpy_j_kg(room_c) / GRAINS_PER_LB),
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
