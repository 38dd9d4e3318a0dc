//! A sum shared out by shape, no share above its bound.

/// Scales a shape so that it has a sum, held below bounds.
///
/// `vᵢ = min(s vᵢ, bᵢ)`, s such that the sum is the asked one. Where a share meets its bound, the others make up for it;
/// where those are all 0, what is missing is shared out as their bounds leave room.
///
/// - `values`  the shape, 0 or more each; becomes the shares
/// - `bounds`  greatest share of each, 0 or more
/// - `sum`     what the shares shall make up, 0 or more
///
/// Returns the sum that was reached: the asked one, or that of the bounds where they allow no more.
pub(super) fn scale_to(values: &mut [f64], bounds: &[f64], sum: f64) -> f64 {
    let most: f64 = bounds.iter().sum();
    if sum >= most {
        values.copy_from_slice(bounds);
        return most;
    }
    let mut scale = sum / values.iter().sum::<f64>();
    let mut met_before = 0;
    // The scale only grows: each round but the last brings at least one more share to its bound, where it stays.
    loop {
        let (mut free, mut bound, mut met) = (0.0, 0.0, 0);
        for (value, most) in values.iter().zip(bounds).filter(|(value, _)| **value > 0.0) {
            if scale * value >= *most {
                bound += most;
                met += 1;
            } else {
                free += value;
            }
        }
        if free <= 0.0 {
            let room: f64 =
                values.iter().zip(bounds).filter(|(value, _)| **value <= 0.0).map(|(_, b)| b).sum();
            let share = (sum - bound) / room;
            for (value, most) in values.iter_mut().zip(bounds) {
                *value = if *value > 0.0 { *most } else { share * most };
            }
            return sum;
        }
        if met == met_before {
            break;
        }
        met_before = met;
        scale = (sum - bound) / free;
    }
    for (value, most) in values.iter_mut().zip(bounds) {
        *value = most.min(scale * *value);
    }
    sum
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn scaled<const N: usize>(mut values: [f64; N], bounds: [f64; N], sum: f64) -> ([f64; N], f64) {
        let reached = scale_to(&mut values, &bounds, sum);
        (values, reached)
    }

    #[test]
    fn without_a_bound_in_the_way_the_shape_is_kept() {
        assert_eq!(scaled([1.0, 3.0, 0.0], [9.0; 3], 8.0), ([2.0, 6.0, 0.0], 8.0));
        // Above its bound before it is scaled, below it after.
        assert_eq!(scaled([10.0, 30.0], [5.0, 7.0], 4.0), ([1.0, 3.0], 4.0));
    }

    #[test]
    fn what_meets_its_bound_leaves_the_rest_to_the_others() {
        assert_eq!(scaled([1.0, 1.0, 2.0], [4.0, 4.0, 2.0], 8.0), ([3.0, 3.0, 2.0], 8.0));
        assert_eq!(scaled([1.0, 0.0, 0.0], [2.0, 1.0, 3.0], 4.0), ([2.0, 0.5, 1.5], 4.0));
        assert_eq!(scaled([0.0, 0.0], [1.0, 3.0], 2.0), ([0.5, 1.5], 2.0));
    }

    #[test]
    fn more_than_the_bounds_is_not_to_be_had() {
        assert_eq!(scaled([1.0, 0.0], [2.0, 3.0], 6.0), ([2.0, 3.0], 5.0));
        assert_eq!(scaled([1.0, 2.0], [0.0, 0.0], 0.0), ([0.0, 0.0], 0.0));
        assert_eq!(scaled([1.0, 2.0], [1.0, 1.0], 0.0), ([0.0, 0.0], 0.0));
        assert_eq!(scaled([], [], 1.0), ([], 0.0));
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn the_sum_is_kept_and_no_bound_is_passed(
            shares in prop::collection::vec((0.0..3.0_f64, 0.0..2.0_f64), 1..40),
            asked in 0.0..1.2_f64,
        ) {
            let (mut values, bounds): (Vec<f64>, Vec<f64>) = shares.into_iter().unzip();
            let most: f64 = bounds.iter().sum();
            let reached = scale_to(&mut values, &bounds, asked * most);
            prop_assert!((reached - most * asked.min(1.0)).abs() <= 1e-12);
            prop_assert!((values.iter().sum::<f64>() - reached).abs() <= 1e-12 * most.max(1.0));
            for (value, bound) in values.iter().zip(&bounds) {
                prop_assert!((0.0..=*bound).contains(value));
            }
        }
    }
}
