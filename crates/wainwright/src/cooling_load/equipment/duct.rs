//! What ducts cost.

use crate::air::properties::specific_heat_j_kg_k;

/// Share of a rooftop unit's cooling that ducts in the ceiling deliver: the middle of 0.9 to 0.95. What they leak stays
/// inside where they lie within the insulation.
///
/// Source: `common practice`.
pub const DELIVERED_FRACTION: f64 = 0.925;

/// Heat that cooled air takes up on its way through a duct outside.
///
/// `Q = C (1 − e^(−UA/C)) (T_a − T_s)`, `C = ṁ (1006 + 1860 W)`
///
/// - `duct_w_k`   conductance of the duct's wall UA [W/K], 0 or more
/// - `flow_kg_s`  dry air in it ṁ [kg/s], above 0
/// - `supply`     temperature T_s [°C] and humidity ratio W [kg/kg] of the air that enters it
/// - `around_c`   temperature around it T_a [°C]: under the roof's skin that of the roof
///
/// Returns Q [W], below 0 where it is cooler around; with a small UA it is `UA (T_a − T_s)`.
///
/// Source: heat exchange with surroundings of one temperature.
pub fn outside_gain_w(duct_w_k: f64, flow_kg_s: f64, supply: (f64, f64), around_c: f64) -> f64 {
    let stream_w_k = flow_kg_s * specific_heat_j_kg_k(supply.1);
    -stream_w_k * (-duct_w_k / stream_w_k).exp_m1() * (around_c - supply.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_duct_takes_up_heat_by_its_wall_and_no_more_than_its_air_can() {
        let gain_w = |duct_w_k| outside_gain_w(duct_w_k, 0.07, (13.0, 0.009), 55.0);
        assert!((gain_w(1e-6) / (1e-6 * 42.0) - 1.0).abs() < 1e-6);
        assert!((gain_w(1e9) / (0.07 * specific_heat_j_kg_k(0.009) * 42.0) - 1.0).abs() < 1e-12);
        assert_eq!((gain_w(0.0), outside_gain_w(2.0, 0.07, (13.0, 0.009), 13.0)), (0.0, 0.0));
        // A flexible duct of 2 m, R-4: 0.9 W/K by 42 K, less a little.
        assert_eq!(format!("{:.1}", gain_w(0.9)), "37.6");
    }
}
