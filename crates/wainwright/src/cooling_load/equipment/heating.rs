//! Heat on a winter night, and what gives it.

use super::propane::HEAT_J_PER_KG;

/// What a heater should give by what the night asks for, so that it can warm up. Source: `common practice`.
pub const WARM_UP_FACTOR: f64 = 1.25;
/// Heat that a vented propane furnace gives by that of its fuel: 0.75 to 0.80. Source: `common practice`.
pub const FURNACE_EFFICIENCY: f64 = 0.78;

/// Temperatures outdoors at which heat pumps are rated [°C]: 17 and 47 °F.
///
/// Source: 10 CFR 430, Appendix M to Subpart B (`from memory`).
pub const HEAT_PUMP_RATING_C: (f64, f64) = ((17.0 - 32.0) / 1.8, (47.0 - 32.0) / 1.8);
/// Capacity of a heat pump at these by that at the warmer. Source: `common practice`.
const HEAT_PUMP_CAPACITY: (f64, f64) = (0.6, 1.0);
/// Coefficient of performance of a small heat pump at these. Chosen here within `common practice`.
const HEAT_PUMP_COP: (f64, f64) = (2.2, 3.2);
/// Temperature outdoors below which many small heat pumps stop [°C]: 40 °F. Source: `common practice`.
pub const HEAT_PUMP_STOPS_C: f64 = (40.0 - 32.0) / 1.8;

/// Heat that a box needs on a steady night without sun or people.
///
/// `Q = (ΣUA + ΣψL + ṁc)(T_i − T_o)`, 0 or more
///
/// - `shell_w_k`  conductance of the shell with its bridges ΣUA + ΣψL [W/K], 0 or more
/// - `air_w_k`    heat that the air coming in takes for each degree ṁc [W/K], 0 or more
/// - `inside_c`   temperature inside T_i [°C]
/// - `outdoor_c`  temperature of the design night T_o [°C]
///
/// Returns Q [W]. A heater is chosen by [`WARM_UP_FACTOR`] times as much.
///
/// Source: steady heat balance.
pub fn night_load_w(shell_w_k: f64, air_w_k: f64, inside_c: f64, outdoor_c: f64) -> f64 {
    ((shell_w_k + air_w_k) * (inside_c - outdoor_c)).max(0.0)
}

/// What a heat pump gives at a temperature outdoors.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeatPump {
    /// Its capacity by that rated at 47 °F.
    pub capacity_fraction: f64,
    /// Its coefficient of performance: heat by electricity. Electric resistance has 1.
    pub cop: f64,
}

/// What a heat pump gives at a temperature outdoors: between its two ratings in proportion, below them on the same
/// line, above them no more.
///
/// - `outdoor_c`  temperature outdoors [°C]
/// - `stops_c`    temperature below which it stops [°C], for instance [`HEAT_PUMP_STOPS_C`]
///
/// Returns capacity, 0 to 1, and performance, 1 or more; none where it stands.
///
/// Source: `common practice`; the performance is chosen within that.
pub fn heat_pump(outdoor_c: f64, stops_c: f64) -> Option<HeatPump> {
    let (cold_c, mild_c) = HEAT_PUMP_RATING_C;
    let warmth = ((outdoor_c - cold_c) / (mild_c - cold_c)).min(1.0);
    let along = |(cold, mild): (f64, f64)| cold + (mild - cold) * warmth;
    (outdoor_c >= stops_c).then(|| HeatPump {
        capacity_fraction: along(HEAT_PUMP_CAPACITY).max(0.0),
        cop: along(HEAT_PUMP_COP).max(1.0),
    })
}

/// Propane that a vented furnace burns.
///
/// `ṁ = Q / (η H)`
///
/// - `heat_w`      heat that it gives the room Q [W], 0 or more
/// - `efficiency`  heat given by that of the fuel η, above 0, to 1, for instance [`FURNACE_EFFICIENCY`]
///
/// Returns ṁ [kg/s].
///
/// Source: definition of efficiency; heat of combustion as for [`HEAT_J_PER_KG`].
pub fn furnace_propane_kg_s(heat_w: f64, efficiency: f64) -> f64 {
    heat_w / (efficiency * HEAT_J_PER_KG)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{btu_h, lb, w_from_btu_h};

    #[test]
    fn a_design_night() {
        let heat_w = night_load_w(55.5, 6.6, 20.0, -17.8);
        assert_eq!(format!("{heat_w:.0} {:.0}", btu_h(heat_w)), "2347 8010");
        assert_eq!(night_load_w(55.5, 6.6, 20.0, 25.0), 0.0);
        // `common practice`: an electric heater of 1,500 W gives 5,118 BTU/h.
        assert_eq!(format!("{:.0}", btu_h(1500.0)), "5118");
    }

    #[test]
    fn a_heat_pump_weakens_in_the_cold_until_it_stops() {
        let at = |outdoor_c| heat_pump(outdoor_c, -15.0).unwrap();
        assert_eq!(at(8.5), HeatPump { capacity_fraction: 1.0, cop: 3.2 });
        assert_eq!(at(20.0), at(8.5));
        let cold = at(HEAT_PUMP_RATING_C.0);
        assert!((cold.capacity_fraction - 0.6).abs() < 1e-12 && (cold.cop - 2.2).abs() < 1e-12);
        assert!(at(-12.0).capacity_fraction < 0.6);
        assert_eq!(heat_pump(4.0, HEAT_PUMP_STOPS_C), None);
        assert!(
            heat_pump(-80.0, -100.0).is_some_and(|pump| pump.capacity_fraction == 0.0 && pump.cop == 1.0)
        );
    }

    #[test]
    fn a_furnace_burns_by_its_efficiency() {
        // 8,000 BTU/h given at 0.8: 10,000 BTU/h of fuel of 21,500 BTU/lb.
        let kg_h = 3600.0 * furnace_propane_kg_s(w_from_btu_h(8000.0), 0.8);
        assert!((lb(kg_h) - 10_000.0 / 21_500.0).abs() < 1e-12);
    }
}
