//! What may run together: loads that share several limits.
//!
//! A set of loads is feasible when every limit holds. Whatever is taken from a feasible set, it stays feasible, so
//! that two lists say everything: the conflicts (the smallest sets that are too much) and the largest sets (those
//! to which nothing can be added). A set is feasible exactly when it holds no conflict, and exactly when some
//! largest set holds it.
//!
//! With up to 20 loads that matter every set is looked at. Above that the conflicts of few loads and a good set are
//! found within a fixed amount of work.

mod branch_and_bound;
mod case;
mod chosen;
mod every_set;
mod few;
#[cfg(test)]
mod fixture;
mod share;
mod worth;

use case::Case;
use every_set::EverySet;
use share::Share;
use worth::worths;

/// Up to so many loads that matter, every set of them is looked at.
const MOST_EXACT: usize = 20;

/// A limit on loads that run together. Values are of one unit within a limit (A, W or VA), 0 or more, in the
/// loads' order; a load past the end of a list weighs nothing. A sum is past the bound when it is more than 1e-9
/// of the bound above it. A bound of 0 or less bears no load that weighs anything.
#[derive(Debug, Clone, Copy)]
pub enum Limit<'a> {
    /// `Σ weight ≤ bound`: an inlet, a leg, a branch's overcurrent device, an inverter's continuous rating.
    Sum {
        /// What each load weighs.
        weights: &'a [f64],
        /// Most they may come to.
        bound: f64,
    },
    /// `Σ running + max extra ≤ bound`: one load starts while all others run, as on an inverter's peak.
    Start {
        /// What each load weighs while it runs.
        running: &'a [f64],
        /// What starting adds to that.
        extra: &'a [f64],
        /// Most they may come to.
        bound: f64,
    },
}

/// What may run together. Sets are lists of loads by their place in the input, ascending.
#[derive(Debug, Clone, PartialEq)]
pub struct Together {
    /// Loads that are in no conflict: they can run with anything that can run. When not [`exact`](Self::exact),
    /// only loads are called so that weigh on no limit that can be passed.
    pub unrestricted: Vec<bool>,
    /// Sets that are too much while each becomes feasible when any one load is taken out. Smaller sets first, then
    /// by the loads' order. A load that alone is too much is a conflict of one.
    pub conflicts: Vec<Vec<usize>>,
    /// How many conflicts there are, listed or not.
    pub conflict_count: usize,
    /// Conflicts of up to so many loads were looked for: when not [`exact`](Self::exact), four among up to 39 loads
    /// that matter, three among up to 84, two among up to 446, else one.
    pub conflicts_up_to: usize,
    /// Feasible sets to which nothing can be added, without the unrestricted loads, which are in every one. The
    /// most loads first, then by the loads' order. The empty set alone if no two loads are in each other's way.
    /// No list when not [`exact`](Self::exact).
    pub largest: Vec<Vec<usize>>,
    /// How many such sets there are, listed or not.
    pub largest_count: usize,
    /// The feasible set of the highest priority; of several that of the lower tie weight; of several still that
    /// with the first load in which they differ (when not [`exact`](Self::exact), any of them). Unrestricted loads
    /// are in it. A load of no priority that has a tie weight is not.
    pub best: Vec<usize>,
    /// No feasible set is better than [`best`](Self::best): always so when [`exact`](Self::exact), and often when not.
    pub best_is_proven: bool,
    /// Every set was looked at: conflicts of any size, all largest sets, and the best of all.
    pub exact: bool,
}

/// Whether every limit holds with these loads on.
///
/// - `limits`: what the loads share
/// - `members`: loads that run, each once
#[must_use]
pub fn is_feasible(limits: &[Limit], members: &[usize]) -> bool {
    limits.iter().all(|limit| {
        members.iter().fold(Share::NONE, |taken, load| taken.and(Share::of(limit, *load))).is_within()
    })
}

/// Finds what may run together.
///
/// - `limits`: what the loads share
/// - `priorities`: of each load, 0 or more, told apart to a millionth; as many as there are loads
/// - `tie_weights`: of each load, 0 or more, told apart to a millionth: a current [A]
/// - `most_listed`: so many conflicts (the smallest) and largest sets (those with the most loads) are listed
///
/// Source: definitions of minimal and maximal sets; best set as in the 0/1 knapsack problem.
#[must_use]
pub fn together(limits: &[Limit], priorities: &[f64], tie_weights: &[f64], most_listed: usize) -> Together {
    let case = Case::of(limits, priorities.len());
    let worths = worths(priorities, tie_weights);
    let mut together = if case.loads.len() <= MOST_EXACT {
        exact(&case, &worths, most_listed)
    } else {
        bounded(&case, &worths, most_listed)
    };
    for load in &case.alone {
        together.unrestricted[*load] = false;
    }
    together.conflicts.splice(0..0, case.alone.iter().map(|load| vec![*load]));
    together.conflicts.truncate(most_listed);
    together.conflict_count += case.alone.len();
    together
}

/// Looks at every set.
fn exact(case: &Case, worths: &[i128], most_listed: usize) -> Together {
    let sets = EverySet::of(case);
    let conflicts = sets.conflicts(most_listed);
    let largest = sets.largest(most_listed);
    let list = |set: u32| sets.indices(set).map(|index| case.loads[index]).collect::<Vec<usize>>();
    let mut unrestricted = vec![true; worths.len()];
    for load in list(conflicts.members) {
        unrestricted[load] = false;
    }
    let best = list(sets.best(|index| worths[case.loads[index]]));
    Together {
        conflicts: conflicts.by_size.iter().flatten().take(most_listed).map(|set| list(*set)).collect(),
        conflict_count: conflicts.count,
        conflicts_up_to: worths.len(),
        largest: largest
            .by_size
            .iter()
            .rev()
            .flatten()
            .take(most_listed)
            .map(|set| list(set & conflicts.members))
            .collect(),
        largest_count: largest.count,
        best: with_the_rest(case, worths, best),
        best_is_proven: true,
        exact: true,
        unrestricted,
    }
}

/// Looks at what a fixed amount of work can.
fn bounded(case: &Case, worths: &[i128], most_listed: usize) -> Together {
    let conflicts = few::conflicts(case, most_listed);
    let index_worths: Vec<i128> = case.loads.iter().map(|load| worths[*load]).collect();
    let best = branch_and_bound::best(case, &index_worths);
    let list =
        |indices: Vec<usize>| indices.into_iter().map(|index| case.loads[index]).collect::<Vec<usize>>();
    let mut unrestricted = vec![true; worths.len()];
    for load in &case.loads {
        unrestricted[*load] = false;
    }
    Together {
        conflicts: conflicts.listed.into_iter().map(list).collect(),
        conflict_count: conflicts.count,
        conflicts_up_to: conflicts.up_to,
        largest: Vec::new(),
        largest_count: 0,
        best: with_the_rest(case, worths, list(best.members)),
        best_is_proven: best.is_proven,
        exact: false,
        unrestricted,
    }
}

/// The best set of the loads that matter, and with it all others that cost nothing and are not too much alone.
fn with_the_rest(case: &Case, worths: &[i128], best: Vec<usize>) -> Vec<usize> {
    let is_in = |load: usize| {
        if case.loads.binary_search(&load).is_ok() {
            best.binary_search(&load).is_ok()
        } else {
            worths[load] >= 0 && case.alone.binary_search(&load).is_err()
        }
    };
    (0..worths.len()).filter(|load| is_in(*load)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    const SMALL: [f64; 3] = [1.0, 2.0, 3.0];

    #[test]
    fn without_limits_everything_runs() {
        let found = together(&[], &[1.0, 0.0, 0.0], &[0.0, 0.0, 2.0], 9);
        assert_eq!(found.unrestricted, [true; 3]);
        assert_eq!((found.conflict_count, found.largest), (0, vec![vec![]]));
        // A load of no priority that costs current is not worth it.
        assert_eq!(found.best, [0, 1]);
    }

    #[test]
    fn no_loads_are_one_empty_set() {
        let found = together(&[Limit::Sum { weights: &[], bound: 0.0 }], &[], &[], 9);
        assert_eq!((found.conflict_count, found.largest, found.best), (0, vec![vec![]], vec![]));
    }

    #[test]
    fn a_load_that_alone_is_too_much_is_a_conflict_of_one() {
        let limits = [Limit::Sum { weights: &[16.0, 8.0, 5.0, 15.0], bound: 12.0 }];
        let found = together(&limits, &[1.0; 4], &[], 9);
        assert_eq!(found.conflicts, [vec![0], vec![3], vec![1, 2]]);
        assert_eq!(found.largest, [[1], [2]]);
        assert_eq!((found.unrestricted, found.best), (vec![false; 4], vec![1]));
    }

    #[test]
    fn a_sum_right_at_the_bound_runs() {
        let limits = [Limit::Sum { weights: &[0.1, 0.2, 4.2], bound: 4.5 }];
        assert!(is_feasible(&limits, &[0, 1, 2]));
    }

    #[test]
    fn a_start_counts_with_all_others_running() {
        let limits = [Limit::Start { running: &SMALL, extra: &[9.0, 0.0, 0.0], bound: 13.0 }];
        let found = together(&limits, &SMALL, &SMALL, 9);
        assert_eq!(found.conflicts, [vec![0, 1, 2]]);
        assert_eq!(found.best, [1, 2]);
    }

    #[test]
    fn many_loads_that_matter_are_not_exact() {
        let limits = [Limit::Sum { weights: &[1.0; 21], bound: 2.0 }];
        let found = together(&limits, &[1.0; 22], &[], 5);
        assert!(!found.exact && found.best_is_proven && found.unrestricted[21]);
        assert_eq!((found.conflict_count, found.conflicts.len(), found.conflicts_up_to), (1330, 5, 4));
        assert_eq!((found.best.len(), found.largest_count), (3, 0));
    }
}
