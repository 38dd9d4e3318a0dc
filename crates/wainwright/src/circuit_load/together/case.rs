//! What is left of the question once loads and limits are set aside that decide nothing.

use super::{Limit, Share};

/// Loads that matter, and what they take of the limits that matter.
pub(super) struct Case {
    /// Loads that alone are too much.
    pub alone: Vec<usize>,
    /// Loads that weigh on a limit which the loads that are not `alone` can pass together.
    pub loads: Vec<usize>,
    /// How many such limits there are.
    pub limits: usize,
    /// Shares, load by load.
    shares: Vec<Share>,
}

impl Case {
    pub fn of(limits: &[Limit], count: usize) -> Self {
        let (fits, alone): (Vec<usize>, Vec<usize>) =
            (0..count).partition(|load| limits.iter().all(|limit| Share::of(limit, *load).is_within()));
        let everything =
            |limit: &Limit| fits.iter().fold(Share::NONE, |taken, load| taken.and(Share::of(limit, *load)));
        let limits: Vec<&Limit> = limits.iter().filter(|limit| !everything(limit).is_within()).collect();
        let (mut loads, mut shares) = (Vec::new(), Vec::new());
        for load in fits {
            let first = shares.len();
            shares.extend(limits.iter().map(|limit| Share::of(limit, load)));
            if shares[first..].iter().any(|share| *share != Share::NONE) {
                loads.push(load);
            } else {
                shares.truncate(first);
            }
        }
        Self { alone, loads, limits: limits.len(), shares }
    }

    /// What a load of `loads` takes of each limit.
    pub fn shares(&self, index: usize) -> &[Share] {
        &self.shares[index * self.limits..][..self.limits]
    }

    /// Whether every limit holds with these of `loads` on.
    pub fn holds(&self, members: impl Iterator<Item = usize> + Clone) -> bool {
        (0..self.limits).all(|limit| {
            members.clone().fold(Share::NONE, |taken, index| taken.and(self.shares(index)[limit])).is_within()
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn limits_that_hold_with_everything_on_are_set_aside() {
        let limits = [
            Limit::Sum { weights: &[5.0, 5.0, 5.0, 20.0], bound: 10.0 },
            Limit::Sum { weights: &[1.0, 1.0, 1.0, 1.0], bound: 3.0 },
        ];
        let case = Case::of(&limits, 4);
        assert_eq!((case.alone, case.loads, case.limits), (vec![3], vec![0, 1, 2], 1));
    }

    #[test]
    fn loads_that_weigh_nothing_are_set_aside() {
        let limits = [Limit::Start { running: &[5.0, 0.0, 0.0], extra: &[0.0, 0.0, 6.0], bound: 10.0 }];
        assert_eq!(Case::of(&limits, 4).loads, [0, 2]);
    }
}
