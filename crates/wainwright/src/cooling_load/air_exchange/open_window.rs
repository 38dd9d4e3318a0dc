//! Air that comes in through open windows.

use crate::air::ICE_K;
use crate::units::STANDARD_GRAVITY_M_S2;

/// Effectiveness of an opening that faces the wind: the middle of 0.5 to 0.6.
///
/// Source: ASHRAE Handbook Fundamentals, natural ventilation, `from memory`.
pub const FACING_WIND: f64 = 0.55;
/// Effectiveness of an opening that the wind strikes aslant: the middle of 0.25 to 0.35.
///
/// Source: ASHRAE Handbook Fundamentals, natural ventilation, `from memory`.
pub const ASLANT_TO_WIND: f64 = 0.30;
/// Discharge coefficient of an opening through which air goes one way.
///
/// Source: ASHRAE Handbook Fundamentals, natural ventilation, `from memory`.
pub const DISCHARGE: f64 = 0.65;

/// Stream that wind drives through.
///
/// `q = C_v A u`
///
/// - `effectiveness`  C_v, 0 to 1: [`FACING_WIND`] or [`ASLANT_TO_WIND`]
/// - `inlet_m2`       open area where it comes in A [m²], 0 or more; as much must stand open where it leaves
/// - `wind_m_s`       wind at the trailer u [m/s], 0 or more
///
/// Returns q [m³/s].
///
/// Source: ASHRAE Handbook Fundamentals, natural ventilation, flow caused by wind.
pub fn wind_m3_s(effectiveness: f64, inlet_m2: f64, wind_m_s: f64) -> f64 {
    effectiveness * inlet_m2 * wind_m_s
}

/// Stream that warm air drives through as it rises, between a low and a high opening.
///
/// `q = C_D A √(2 g Δh |T_i − T_o| / T)`
///
/// - `discharge`    C_D, 0 to 1: [`DISCHARGE`]
/// - `inlet_m2`     open area where it comes in A [m²], 0 or more; as much must stand open where it leaves
/// - `height_m`     from the middle of the lower opening to the height at which pressures are equal Δh [m], 0 or more: half
///   of what is between two equal openings
/// - `room_c`, `outdoor_c`  temperatures of the air inside T_i and outside T_o [°C]; T is the higher of both, in kelvin
///
/// Returns q [m³/s]; in through the lower opening where the room is warmer, through the upper where it is colder.
///
/// Source: ASHRAE Handbook Fundamentals, natural ventilation, flow caused by thermal forces.
pub fn stack_m3_s(discharge: f64, inlet_m2: f64, height_m: f64, room_c: f64, outdoor_c: f64) -> f64 {
    let share = (room_c - outdoor_c).abs() / (room_c.max(outdoor_c) + ICE_K);
    discharge * inlet_m2 * (2.0 * STANDARD_GRAVITY_M_S2 * height_m * share).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::cfm;

    #[test]
    fn wind_on_a_window_brings_in_many_times_what_gaps_do() {
        // 0.1 m² in a breeze of 2 m/s.
        assert_eq!(format!("{:.0}", cfm(wind_m3_s(FACING_WIND, 0.1, 2.0))), "233");
        assert_eq!(wind_m3_s(FACING_WIND, 0.1, 0.0), 0.0);
    }

    #[test]
    fn warm_air_rises_out_by_the_root_of_height_and_difference() {
        let flow = |height_m, room_c| stack_m3_s(DISCHARGE, 0.1, height_m, room_c, 30.0);
        // By hand: 0.065 √(2 · 9.80665 · 0.5 · 10 / 313.15).
        assert!((flow(0.5, 40.0) - 0.065 * (98.0665_f64 / 313.15).sqrt()).abs() < 1e-15);
        assert!((flow(2.0, 40.0) - 2.0 * flow(0.5, 40.0)).abs() < 1e-15);
        assert_eq!(flow(0.5, 30.0), 0.0);
    }

    #[test]
    fn a_cold_room_draws_as_much_as_a_warm_one() {
        let warm = stack_m3_s(DISCHARGE, 0.1, 0.5, 35.0, 25.0);
        assert_eq!(stack_m3_s(DISCHARGE, 0.1, 0.5, 25.0, 35.0), warm);
    }
}
