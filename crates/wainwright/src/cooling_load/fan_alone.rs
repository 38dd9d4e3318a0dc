//! What a fan does alone.

use crate::air::properties::{specific_heat_j_kg_k, volume_m3_kg};
use crate::build::Fan;
use crate::units::{celsius, m2_from_in2, m3_s};

use super::air_exchange::fan::{INLET_BY_FAN_AREA, SHARE_THROUGH_SCREEN, screened_m3_s};
use super::case::Case;
use super::equipment::fan_only::Ventilated;

/// The warmest that is called bearable where nothing is said [°F]: 30 °C.
pub const USUAL_LIMIT_F: f64 = 86.0;
/// Speed of the air through an inlet that a fan is built for [m/s]: at a throat of a third of a square metre for each m³/s.
const INLET_M_S: f64 = 3.0;

/// What a fan does alone on the hot day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FanAlone {
    /// Air that it draws through the box [m³/s].
    pub flow_m3_s: f64,
    /// The warmest that the box gets with it [°C].
    pub warmest_c: f64,
    /// The greatest by which the box is warmer than the air outside [K].
    pub above_outdoor_k: f64,
    /// Outdoor air up to which it keeps the box at its limit in the sun of the hot day [°C].
    pub outdoor_limit_c: f64,
    /// Is its inlet too small for the air it could move?
    pub inlet_is_small: bool,
}

/// Air that a fan draws through the box [m³/s], and whether its inlet holds it back.
pub fn flow_m3_s(fan: &Fan) -> (f64, bool) {
    let through = screened_m3_s(m3_s(fan.airflow_cfm), fan.screen_fraction.unwrap_or(SHARE_THROUGH_SCREEN));
    let most_m3_s = fan
        .inlet_in2
        .map_or(f64::INFINITY, |inlet_in2| INLET_M_S * m2_from_in2(inlet_in2) / INLET_BY_FAN_AREA);
    (through.min(most_m3_s), through > most_m3_s)
}

/// What a fan does alone: at rest in every step, since the air it draws outweighs what the box holds.
///
/// - `case`  the box on the hot day
pub fn fan_alone(case: &Case, fan: &Fan) -> FanAlone {
    let (flow_m3_s, inlet_is_small) = flow_m3_s(fan);
    let course = &case.course;
    let limit_c = celsius(fan.limit_f.unwrap_or(USUAL_LIMIT_F));
    let mut found = FanAlone {
        flow_m3_s,
        warmest_c: f64::NEG_INFINITY,
        above_outdoor_k: f64::NEG_INFINITY,
        outdoor_limit_c: limit_c,
        inlet_is_small,
    };
    let opaque_w_k: f64 = case.sums.opaque_w_k.iter().sum();
    for step in 0..course.count() {
        let (outdoor_c, ratio) = (course.outdoor_c[step], course.outdoor_ratio[step]);
        let fan_kg_s = flow_m3_s / volume_m3_kg(outdoor_c, ratio, case.pressure_pa);
        let air_w_k = fan_kg_s.max(course.air_kg_s[step]) * specific_heat_j_kg_k(ratio);
        let heat_w = course.sensible_w[usize::from(course.hour[step])] + course.sun_w[step];
        let shell_w_k = opaque_w_k + case.sums.windows_w_k;
        // Glass feels the air alone.
        let sun_k = opaque_w_k * (course.equivalent_c[step] - outdoor_c) / shell_w_k;
        let air_c = Ventilated { shell_w_k, sun_k, gain_w: heat_w }.inside_c(outdoor_c, air_w_k);
        found.warmest_c = found.warmest_c.max(air_c);
        found.above_outdoor_k = found.above_outdoor_k.max(air_c - outdoor_c);
    }
    found.outdoor_limit_c = limit_c - found.above_outdoor_k;
    found
}
