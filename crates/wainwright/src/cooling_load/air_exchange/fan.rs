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

#[cfg(test)]
mod tests {
    use super::*;
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
