//! A good set of many loads, the best if that can be shown within a fixed amount of work.
//!
//! Branch and bound: loads are added in the order of worth for what they take of the limit that is short by most.
//! No set that grows from here can be worth more than if that limit alone stood and one load could run in part.

use super::case::Case;
use super::chosen::Chosen;
use super::share::BOUND;

/// Loads looked at, in branches and bounds together; a load that is added counts once for each limit.
const MOST_STEPS: usize = 400_000;

/// The set that was found.
pub(super) struct Best {
    /// Its loads by their index, ascending.
    pub members: Vec<usize>,
    /// No feasible set is worth more.
    pub is_proven: bool,
}

/// Looks for the feasible set that is worth most.
///
/// - `case`: loads none of which alone is too much
/// - `worths`: of each of its loads by index; those worth nothing or less are left out
///
/// Source: bound of the 0/1 knapsack problem by its continuous form (Dantzig, 1957; from memory).
pub(super) fn best(case: &Case, worths: &[i128]) -> Best {
    let running =
        |limit: usize| (0..worths.len()).map(|index| case.shares(index)[limit].running).sum::<u64>();
    let shortest = (0..case.limits).max_by_key(|limit| running(*limit)).unwrap_or(0);
    let weigh = |index: usize| case.shares(index)[shortest].running;
    let mut order: Vec<usize> = (0..worths.len()).filter(|index| worths[*index] > 0).collect();
    let density = |index: usize| worths[index] as f64 / weigh(index) as f64;
    order.sort_by(|a, b| density(*b).total_cmp(&density(*a)));
    let mut search = Search {
        case,
        worths: order.iter().map(|index| worths[*index]).collect(),
        weights: order.iter().map(|index| weigh(*index)).collect(),
        order,
        chosen: Chosen::none(case),
        best: Vec::new(),
        most: 0,
        steps_left: MOST_STEPS,
    };
    search.start();
    search.grow(0, 0, BOUND);
    search.best.sort_unstable();
    Best { members: search.best, is_proven: search.steps_left > 0 }
}

struct Search<'a> {
    case: &'a Case,
    /// Loads in the order in which they are tried.
    order: Vec<usize>,
    /// Their worths, in that order.
    worths: Vec<i128>,
    /// What they take of the limit that bounds, in that order.
    weights: Vec<u64>,
    chosen: Chosen<'a>,
    best: Vec<usize>,
    most: i128,
    steps_left: usize,
}

impl Search<'_> {
    /// Takes whatever still fits, in order: a set to begin with, however many loads there are.
    fn start(&mut self) {
        let mut chosen = Chosen::none(self.case);
        for (index, worth) in self.order.iter().zip(&self.worths) {
            if chosen.add(*index) {
                self.most += worth;
            } else {
                chosen.take_out();
            }
        }
        self.best = chosen.members;
    }

    /// Tries every way to add loads from a place in the order on.
    ///
    /// - `worth`: of the members
    /// - `left`: what they leave of the limit that bounds
    fn grow(&mut self, from: usize, worth: i128, left: u64) {
        if worth > self.most {
            (self.most, self.best) = (worth, self.chosen.members.clone());
        }
        for next in from..self.order.len() {
            if worth + self.bound(next, left) <= self.most {
                return;
            }
            self.steps_left = self.steps_left.saturating_sub(self.case.limits);
            if self.chosen.add(self.order[next]) {
                self.grow(next + 1, worth + self.worths[next], left - self.weights[next]);
            }
            self.chosen.take_out();
            if self.steps_left == 0 {
                return;
            }
        }
    }

    /// The most that loads from a place on can be worth on what is left of the limit that bounds, or a little more.
    fn bound(&mut self, from: usize, mut left: u64) -> i128 {
        let mut sum = 0;
        for (worth, weight) in self.worths[from..].iter().zip(&self.weights[from..]) {
            self.steps_left = self.steps_left.saturating_sub(1);
            if *weight > left {
                return sum + (worth / i128::from(*weight) + 1) * i128::from(left);
            }
            left -= weight;
            sum += worth;
        }
        sum
    }
}

#[cfg(test)]
mod tests {
    use super::super::EverySet;
    use super::super::fixture::{case, numbers};
    use super::*;

    #[test]
    fn no_set_is_worth_more() {
        for seed in 0..200 {
            let case = case(seed, 14);
            let mut number = numbers(seed + 1000);
            let worths: Vec<i128> = case.loads.iter().map(|_| number() as i128 - 50).collect();
            let worth = |members: &[usize]| members.iter().map(|index| worths[*index]).sum::<i128>();
            let sets = EverySet::of(&case);
            let expected: Vec<usize> = sets.indices(sets.best(|index| worths[index])).collect();
            let best = best(&case, &worths);
            assert!(best.is_proven && case.holds(best.members.iter().copied()));
            assert_eq!(worth(&best.members), worth(&expected));
        }
    }

    #[test]
    fn a_set_that_cannot_be_proven_is_still_feasible() {
        let case = case(1, 300);
        let best = best(&case, &vec![1; case.loads.len()]);
        assert!(case.holds(best.members.iter().copied()) && !best.members.is_empty());
    }
}
