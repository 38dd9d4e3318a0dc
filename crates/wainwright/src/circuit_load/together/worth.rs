//! What a load is worth to the best set.

/// Priorities and tie weights are told apart to this part of one.
const MILLIONTHS: f64 = 1e6;
/// Beyond every priority and tie weight [millionths], and low enough for sums to stay within their bits.
const MOST: f64 = 1e15;

/// Priority and, far below it, the tie weight to its debit, so that a set's worth is a plain sum: with fewer than
/// 2^13 loads the tie weights together do not come up to a millionth of priority.
///
/// - `priorities`: of each load, 0 or more
/// - `tie_weights`: of each load, 0 or more; none past the list's end
pub(super) fn worths(priorities: &[f64], tie_weights: &[f64]) -> Vec<i128> {
    let whole = |value: f64| (value * MILLIONTHS).round().clamp(0.0, MOST) as i128;
    let ties = tie_weights.iter().copied().chain(std::iter::repeat(0.0));
    priorities.iter().zip(ties).map(|(priority, tie)| (whole(*priority) << 63) - whole(tie)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_tie_weight_outweighs_a_priority() {
        let worths = worths(&[1e-6, 0.0, 0.0], &[1e9]);
        assert!(worths[0] > 0 && worths[1] == 0);
    }

    #[test]
    fn decimals_add_up() {
        let worths = worths(&[0.1, 0.2, 0.3], &[4.1, 4.2, 8.3]);
        assert_eq!(worths[0] + worths[1], worths[2]);
    }
}
