//! A portable unit with one hose: it blows air of the room outdoors, and as much comes in from there.
//!
//! Its condenser breathes the room: its curves are read at the room's temperature, not that outdoors.

use crate::air::outdoor_air::{AirLoad, air_load};
use crate::air::properties::volume_m3_kg;
use crate::units::M3_S_PER_CFM;

/// Air that a portable unit with one hose blows out [m³/s]: the middle of 150 to 200 cfm. Source: `common practice`.
pub const EXHAUST_M3_S: f64 = 175.0 * M3_S_PER_CFM;

/// What the air brings in that replaces the exhaust.
///
/// `ṁ = q / v_i` of dry air goes out and comes in
///
/// - `exhaust_m3_s`  air of the room that is blown out q [m³/s], 0 or more, for instance [`EXHAUST_M3_S`]
/// - `outdoor`       temperature [°C] and humidity ratio [kg/kg] outdoors
/// - `indoor`        temperature [°C] and humidity ratio [kg/kg] in the room
/// - `pressure_pa`   pressure [Pa], > 0
///
/// Source: balance of dry air; [`air_load`].
pub fn replacement(exhaust_m3_s: f64, outdoor: (f64, f64), indoor: (f64, f64), pressure_pa: f64) -> AirLoad {
    let volume = |state: (f64, f64)| volume_m3_kg(state.0, state.1, pressure_pa);
    air_load(exhaust_m3_s * volume(outdoor) / volume(indoor), outdoor, indoor, pressure_pa)
}

/// Cooling that is left of a portable unit: what it takes, less what it draws in.
///
/// - `total_w`      heat that it takes from the room while it runs [W]
/// - `replacement`  what the air that replaces its exhaust brings in, from [`replacement`]
///
/// Returns the cooling [W]; below 0 the room would be cooler without it.
///
/// Source: heat balance of the room.
pub fn net_w(total_w: f64, replacement: &AirLoad) -> f64 {
    total_w - replacement.sensible_w - replacement.latent_w
}

#[cfg(test)]
mod tests {
    use super::super::coil_rating::rated_inlet;
    use super::*;
    use crate::air::pressure::SEA_LEVEL_PA;
    use crate::air::wet_bulb::ratio_of_wet_bulb;
    use crate::units::w_from_btu_h;

    #[test]
    fn on_a_hot_day_less_than_half_is_left() {
        // `common practice` says less than half; the day is that at which cooling is rated, 35 °C and 23.9 °C wet bulb.
        let room = rated_inlet();
        let outdoor = (35.0, ratio_of_wet_bulb(35.0, 23.9, SEA_LEVEL_PA));
        let drawn_in = replacement(EXHAUST_M3_S, outdoor, (room.air_c, room.ratio), SEA_LEVEL_PA);
        let rated_w = w_from_btu_h(9000.0);
        let left = net_w(rated_w, &drawn_in) / rated_w;
        assert!((0.3..0.5).contains(&left), "{left}");
    }

    #[test]
    fn as_much_dry_air_comes_in_as_goes_out() {
        let drawn_in = replacement(0.08, (40.0, 0.008), (26.0, 0.011), 90_000.0);
        assert!((drawn_in.flow_kg_s - 0.08 / volume_m3_kg(26.0, 0.011, 90_000.0)).abs() < 1e-15);
        let nothing = replacement(0.08, (26.0, 0.011), (26.0, 0.011), 90_000.0);
        assert_eq!(net_w(2000.0, &nothing), 2000.0);
    }
}
