//! Air that fans bring in.

/// Share of its rating that a fan still moves through a screen: the middle of 0.5 to 0.8. `common practice`
pub const SHARE_THROUGH_SCREEN: f64 = 0.65;
/// Area of the opening through which air comes in, by that of the fan's own: at least. `common practice`
pub const INLET_BY_FAN_AREA: f64 = 1.5;

/// Stream of a fan as it is built in.
///
/// `q = s q_r`
///
/// - `rated_m3_s`  stream the maker states q_r [m³/s], 0 or more
/// - `share`       share of it that is left s, 0 to 1: [`SHARE_THROUGH_SCREEN`]
///
/// Returns q [m³/s].
///
/// Source: `common practice`.
pub fn screened_m3_s(rated_m3_s: f64, share: f64) -> f64 {
    rated_m3_s * share
}

/// Area of openings that a fan needs to draw through.
///
/// `A = 1.5 A_f`
///
/// - `fan_m2`  opening of the fan A_f [m²], 0 or more
///
/// Returns A [m²].
///
/// Source: `common practice`.
pub fn inlet_m2(fan_m2: f64) -> f64 {
    INLET_BY_FAN_AREA * fan_m2
}

/// Stream of fans and gaps together.
///
/// `q = q_b + √(q_u² + q_i²)`
///
/// - `balanced_m3_s`      what fans blow in and draw out alike q_b [m³/s], 0 or more: gaps take no part in it
/// - `unbalanced_m3_s`    what fans move one way only q_u [m³/s], 0 or more: it comes through gaps and openings and so takes
///   the place of part of q_i
/// - `infiltration_m3_s`  what comes through gaps with the fans off q_i [m³/s], 0 or more
///
/// Returns q [m³/s]: no less than the greater of q_u and q_i, no more than all together.
///
/// Source: ASHRAE Handbook Fundamentals, combination of ventilation and infiltration by quadrature, `from memory`.
pub fn together_m3_s(balanced_m3_s: f64, unbalanced_m3_s: f64, infiltration_m3_s: f64) -> f64 {
    balanced_m3_s + unbalanced_m3_s.hypot(infiltration_m3_s)
}

/// Pressure at which a roof vent's fan moves no more air [Pa]: 0.12 in of water.
///
/// Source: `common practice` of axial vent fans, `from memory`.
pub const SHUTOFF_PA: f64 = 29.890_7;
/// Discharge coefficient of a plain opening. Source: textbooks of fluid mechanics.
const DISCHARGE: f64 = 0.62;
/// Density of standard air [kg/m³]: 0.075 lb/ft³.
const STANDARD_KG_M3: f64 = 1.201_385;

/// Air that a fan moves through an opening: where what it presses and what the opening asks for are the same.
///
/// ```text
/// q = q₀ (1 − Δp/Δp₀)    Δp = ρ/2 (q / (C_d A))²
/// ```
///
/// - `free_m3_s`    air that it moves without resistance q₀ [m³/s], 0 or more
/// - `shutoff_pa`   pressure at which it moves none Δp₀ [Pa], > 0, see [`SHUTOFF_PA`]
/// - `opening_m2`   area of the opening A [m²], > 0
///
/// Returns q [m³/s], below q₀.
///
/// Source: straight fan curve and orifice equation; in the trade's units `4005 C_d A √Δp`, `from memory`.
pub fn through_opening_m3_s(free_m3_s: f64, shutoff_pa: f64, opening_m2: f64) -> f64 {
    // k q₀ q² + q − q₀ = 0
    let lost = STANDARD_KG_M3 / (2.0 * shutoff_pa * (DISCHARGE * opening_m2).powi(2)) * free_m3_s;
    if lost > 0.0 { 2.0 * free_m3_s / (1.0 + (1.0 + 4.0 * lost * free_m3_s).sqrt()) } else { free_m3_s }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{cfm, m2_from_in2, m3_s};

    /// A fan of 900 cfm and 0.12 in of water by hand with `4005 C_d A √Δp`: 209, 468, 641 and 799 cfm.
    #[test]
    fn a_small_opening_chokes_a_fan() {
        let through = |in2: f64| cfm(through_opening_m3_s(m3_s(900.0), SHUTOFF_PA, m2_from_in2(in2)));
        let by_hand = [40.0, 113.0, 200.0, 400.0].map(|in2| format!("{:.0}", through(in2)));
        assert_eq!(by_hand, ["209", "468", "641", "799"]);
        assert_eq!(through_opening_m3_s(0.0, SHUTOFF_PA, 0.1), 0.0);
    }
    use proptest::prelude::*;

    #[test]
    fn a_fan_that_blows_one_way_takes_the_place_of_part_of_the_gaps() {
        assert!((together_m3_s(0.0, 0.3, 0.4) - 0.5).abs() < 1e-15);
        assert!((together_m3_s(0.3, 0.0, 0.4) - 0.7).abs() < 1e-15);
        assert_eq!(together_m3_s(0.0, 0.0, 0.004), 0.004);
    }

    #[test]
    fn a_screen_takes_a_third_and_a_fan_draws_through_half_as_much_again_as_its_own_opening() {
        assert!((screened_m3_s(0.4, SHARE_THROUGH_SCREEN) - 0.26).abs() < 1e-15);
        assert!((inlet_m2(0.1) - 0.15).abs() < 1e-15);
    }

    proptest! {
        #[test]
        fn together_they_bring_no_less_than_each_and_no_more_than_all(
            balanced in 0.0..1.0f64,
            unbalanced in 0.0..1.0f64,
            infiltration in 0.0..0.1f64,
        ) {
            let together = together_m3_s(balanced, unbalanced, infiltration);
            prop_assert!(together >= balanced + unbalanced.max(infiltration) * (1.0 - 1e-15));
            prop_assert!(together <= (balanced + unbalanced + infiltration) * (1.0 + 1e-15));
        }
    }
}
