//! What a fan and open windows do alone.

use crate::air::properties::{specific_heat_j_kg_k, volume_m3_kg};
use crate::build::{Climate, Fan, OpenWindows};
use crate::units::{celsius, m, m2, m2_from_in2, m3_s};

use super::air_exchange::fan::{
    SHARE_THROUGH_SCREEN, SHUTOFF_PA, screened_m3_s, through_opening_m3_s, together_m3_s,
};
use super::air_exchange::open_window::{ASLANT_TO_WIND, DISCHARGE, stack_m3_s, wind_m3_s};
use super::case::Case;
use super::equipment::fan_only::Ventilated;

/// The warmest that is called bearable where nothing is said [°F]: 30 °C.
pub const USUAL_LIMIT_F: f64 = 86.0;
/// Height between lower and upper openings where nothing is said [in]: windows on both sides, all as high.
pub const USUAL_HEIGHT_IN: f64 = 0.0;
/// Rounds in which stream and temperature of the box settle on each other; three are enough for a tenth of a degree.
const ROUNDS: usize = 6;

/// What a fan and open windows do alone on the hot day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Airing {
    /// Air that the fan draws through the box [m³/s].
    pub fan_m3_s: f64,
    /// The same by its label [m³/s].
    pub label_m3_s: f64,
    /// Air that goes through the box in the hour in which it is warmest [m³/s].
    pub flow_m3_s: f64,
    /// The warmest that the box gets [°C].
    pub warmest_c: f64,
    /// The greatest by which the box is warmer than the air outside [K].
    pub above_outdoor_k: f64,
    /// Outdoor air up to which the box stays at its limit in the sun of the hot day [°C].
    pub outdoor_limit_c: f64,
}

/// Air that a fan draws through the box [m³/s].
pub fn fan_m3_s(fan: &Fan) -> f64 {
    let share = fan.screen_fraction.unwrap_or(SHARE_THROUGH_SCREEN);
    let label_m3_s = m3_s(fan.airflow_cfm);
    match fan.inlet_in2 {
        Some(inlet_in2) => through_opening_m3_s(label_m3_s, SHUTOFF_PA, share * m2_from_in2(inlet_in2)),
        None => screened_m3_s(label_m3_s, share),
    }
}

/// Air that goes through open windows [m³/s].
fn windows_m3_s(open: &OpenWindows, wind_m_s: f64, room_c: f64, outdoor_c: f64) -> f64 {
    let area_m2 = m2(open.area_ft2);
    // Pressures are equal in the middle between two equal openings.
    let half_height_m = m(open.height_in.unwrap_or(USUAL_HEIGHT_IN)) / 2.0;
    let by_wind_m3_s = wind_m3_s(ASLANT_TO_WIND, area_m2, wind_m_s);
    by_wind_m3_s.hypot(stack_m3_s(DISCHARGE, area_m2, half_height_m, room_c, outdoor_c))
}

/// What fan and open windows do alone: at rest in every step, since the air outweighs what the box holds. None where the
/// build has neither.
///
/// - `case`      the box on the hot day
/// - `climate`   fan and windows
/// - `wind_m_s`  wind [m/s]
pub fn airing(case: &Case, climate: &Climate, wind_m_s: f64) -> Option<Airing> {
    let (fan, open) = (climate.fan.as_ref(), climate.open_windows.as_ref());
    if fan.is_none() && open.is_none() {
        return None;
    }
    let fan_m3_s = fan.map_or(0.0, fan_m3_s);
    let limit_c = celsius(fan.and_then(|fan| fan.limit_f).unwrap_or(USUAL_LIMIT_F));
    let course = &case.course;
    let opaque_w_k: f64 = case.sums.opaque_w_k.iter().sum();
    let shell_w_k = opaque_w_k + case.sums.windows_w_k;
    let mut found = Airing {
        fan_m3_s,
        label_m3_s: fan.map_or(0.0, |fan| m3_s(fan.airflow_cfm)),
        flow_m3_s: 0.0,
        warmest_c: f64::NEG_INFINITY,
        above_outdoor_k: f64::NEG_INFINITY,
        outdoor_limit_c: limit_c,
    };
    for step in 0..course.count() {
        let (outdoor_c, ratio) = (course.outdoor_c[step], course.outdoor_ratio[step]);
        let volume_m3_kg = volume_m3_kg(outdoor_c, ratio, case.pressure_pa);
        let gaps_m3_s = course.air_kg_s[step] * volume_m3_kg;
        let body = Ventilated {
            shell_w_k,
            // Glass feels the air alone.
            sun_k: opaque_w_k * (course.equivalent_c[step] - outdoor_c) / shell_w_k,
            gain_w: course.sensible_by_hour_w[usize::from(course.hour[step])] + course.sun_w[step],
        };
        let (mut air_c, mut flow_m3_s) = (outdoor_c, fan_m3_s);
        for _ in 0..ROUNDS {
            let drawn_m3_s = open.map_or(gaps_m3_s, |open| windows_m3_s(open, wind_m_s, air_c, outdoor_c));
            flow_m3_s = together_m3_s(0.0, fan_m3_s, drawn_m3_s);
            air_c = body.inside_c(outdoor_c, flow_m3_s / volume_m3_kg * specific_heat_j_kg_k(ratio));
        }
        if air_c > found.warmest_c {
            (found.warmest_c, found.flow_m3_s) = (air_c, flow_m3_s);
        }
        found.above_outdoor_k = found.above_outdoor_k.max(air_c - outdoor_c);
    }
    found.outdoor_limit_c = limit_c - found.above_outdoor_k;
    Some(found)
}
