//! Fresh air that people need.

use crate::units::M3_S_PER_CFM;

/// Outdoor air each person needs asleep, at least [m³/s]: 7.5 cfm; 10 are better. `common practice`
pub const LEAST_M3_S: f64 = 7.5 * M3_S_PER_CFM;
/// Carbon dioxide each person breathes out asleep [m³/s]. `common practice`
pub const CO2_ASLEEP_M3_S: f64 = 0.0040e-3;
/// Carbon dioxide each person breathes out seated [m³/s]. `common practice`
pub const CO2_SEATED_M3_S: f64 = 0.0052e-3;

/// Outdoor air that people need.
///
/// `q = n q_p`
///
/// - `people`      how many n, 0 or more
/// - `each_m3_s`   what each needs q_p [m³/s], 0 or more: [`LEAST_M3_S`]
///
/// Returns q [m³/s].
///
/// Source: `common practice`.
pub fn needed_m3_s(people: f64, each_m3_s: f64) -> f64 {
    people * each_m3_s
}

/// How much more carbon dioxide is in the air of a room than outdoors, once it rises no further.
///
/// `ΔC = G / q · 10⁶`
///
/// - `co2_m3_s`  what all people breathe out G [m³/s], 0 or more: [`CO2_ASLEEP_M3_S`] and [`CO2_SEATED_M3_S`] are of one
/// - `air_m3_s`  outdoor air q [m³/s], 0 or more
///
/// Returns ΔC [parts per million]; without bound where no air comes in; 0 where nobody breathes.
///
/// Source: steady balance of a well-mixed room.
pub fn co2_rise_ppm(co2_m3_s: f64, air_m3_s: f64) -> f64 {
    if co2_m3_s > 0.0 { co2_m3_s / air_m3_s * 1e6 } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{cfm, m3_s};

    /// Parts per million outdoors, `common practice`.
    const OUTDOORS_PPM: f64 = 420.0;

    #[test]
    fn two_sleepers_with_three_cubic_feet_a_minute_pass_six_thousand_parts() {
        let rise_ppm = co2_rise_ppm(2.0 * CO2_ASLEEP_M3_S, m3_s(3.0));
        assert_eq!(format!("{rise_ppm:.0}"), "5650");
        assert!(OUTDOORS_PPM + rise_ppm > 6000.0);
    }

    #[test]
    fn with_what_they_need_they_stay_below_two_thousand() {
        let air_m3_s = needed_m3_s(2.0, LEAST_M3_S);
        assert_eq!(format!("{:.1}", cfm(air_m3_s)), "15.0");
        assert!(OUTDOORS_PPM + co2_rise_ppm(2.0 * CO2_SEATED_M3_S, air_m3_s) < 2000.0);
    }

    #[test]
    fn nobody_raises_nothing_and_a_sealed_room_has_no_bound() {
        assert_eq!(co2_rise_ppm(0.0, 0.0), 0.0);
        assert_eq!(co2_rise_ppm(CO2_ASLEEP_M3_S, 0.0), f64::INFINITY);
    }
}
