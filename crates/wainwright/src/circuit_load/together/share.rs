//! What loads take of a limit, in fixed point.
//!
//! Sums of whole numbers do not depend on their order, so that a set weighs the same however it was put together,
//! and a set never weighs less than a part of it.

use super::Limit;

/// Parts of a bound. Half a part, the most that rounding takes, is 3e-14 of the bound; with 2^19 loads, each
/// at most [`TOO_MUCH`], sums stay within 64 bits.
const PARTS: u64 = 1 << 44;
/// The bound and the 1e-9 of it that is forgiven.
pub(super) const BOUND: u64 = PARTS + 17_592;
const TOO_MUCH: u64 = BOUND + 1;

/// What a load or a set of loads takes of a limit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Share {
    /// While running.
    pub running: u64,
    /// More while the one that takes most for it starts.
    pub extra: u64,
}

impl Share {
    pub const NONE: Self = Self { running: 0, extra: 0 };

    /// What a load takes of a limit.
    pub fn of(limit: &Limit, load: usize) -> Self {
        let at = |values: &[f64]| values.get(load).copied().unwrap_or(0.0);
        match *limit {
            Limit::Sum { weights, bound } => Self { running: parts(at(weights), bound), extra: 0 },
            Limit::Start { running, extra, bound } => {
                Self { running: parts(at(running), bound), extra: parts(at(extra), bound) }
            }
        }
    }

    /// What both take together.
    pub fn and(self, other: Self) -> Self {
        Self { running: self.running + other.running, extra: self.extra.max(other.extra) }
    }

    /// Whether the limit holds.
    pub fn is_within(self) -> bool {
        self.running + self.extra <= BOUND
    }
}

fn parts(weight: f64, bound: f64) -> u64 {
    if weight <= 0.0 {
        0
    } else if bound <= 0.0 {
        TOO_MUCH
    } else {
        ((weight / bound * PARTS as f64).round() as u64).min(TOO_MUCH)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_billionth_of_the_bound_is_forgiven() {
        assert!(parts(12.0, 12.0) <= BOUND);
        assert!(parts(12.0 * (1.0 + 0.99e-9), 12.0) <= BOUND);
        assert!(parts(12.0 * (1.0 + 1.01e-9), 12.0) > BOUND);
    }

    #[test]
    fn a_bound_of_nothing_bears_nothing() {
        assert_eq!(parts(0.0, 0.0), 0);
        assert_eq!(parts(1e-300, 0.0), TOO_MUCH);
        assert_eq!(parts(1.0, -1.0), TOO_MUCH);
        assert_eq!(parts(1e300, 1e-300), TOO_MUCH);
    }

    #[test]
    fn only_one_load_starts_at_a_time() {
        let (a, b) = (Share { running: 3, extra: 10 }, Share { running: 4, extra: 20 });
        assert_eq!(a.and(b), Share { running: 7, extra: 20 });
    }
}
