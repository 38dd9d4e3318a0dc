//! The peak by U-values alone: a check of the network, and an upper bound.
//!
//! A U-value counts a film inside through which a surface also radiates to others that are as warm as the air. In a small box
//! nearly all surfaces are outer ones and none is: what is left is the film of moving air. By ISO 13790 the network knows
//! that (1/3.45 + 1/9.1 = 1/2.5 m²·K/W), so that its peak is lower, the more the less a wall holds back.

use crate::air::properties::specific_heat_j_kg_k;

use super::case::Case;

/// The greatest sensible load of the day by U-values, nothing stored.
///
/// `Q = Σ U A (T_sa − T_i) + U_w A_w (T_o − T_i) + Q_sun + ṁ c (T_o − T_i) + Q_int`
///
/// - `case`    the box on its day
/// - `cool_c`  what it is held at T_i [°C]
///
/// Returns Q [W], 0 or more.
///
/// Source: ASHRAE Handbook Fundamentals, sol-air temperature, and steady heat balance.
pub fn steady_peak_w(case: &Case, cool_c: f64) -> f64 {
    let course = &case.course;
    let opaque_w_k: f64 = case.sums.opaque_w_k.iter().sum();
    let load_w = |step: usize| {
        let outdoor_c = course.outdoor_c[step];
        let air_w_k = course.air_kg_s[step] * specific_heat_j_kg_k(course.outdoor_ratio[step]);
        opaque_w_k * (course.equivalent_c[step] - cool_c)
            + (case.sums.windows_w_k + air_w_k) * (outdoor_c - cool_c)
            + course.sun_w[step]
            + course.sensible_by_hour_w[usize::from(course.hour[step])]
    };
    (0..course.count()).map(load_w).fold(0.0, f64::max)
}
