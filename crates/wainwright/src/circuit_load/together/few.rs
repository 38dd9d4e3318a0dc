//! Conflicts of few loads among many.

use super::case::Case;
use super::chosen::Chosen;
use super::share::Share;

/// Conflicts of more loads are not looked for.
const MOST_MEMBERS: usize = 4;
/// A size is looked through only if it and the sizes before it have no more sets than this: four among 39 loads,
/// three among 84. Beyond [`FREE_LIMITS`] limits there are as many times fewer as there are limits more.
const MOST_SETS: usize = 100_000;
/// So many limits cost nothing beside the rest.
const FREE_LIMITS: usize = 20;

/// Conflicts of up to so many loads.
pub(super) struct Conflicts {
    /// Loads by their index; smaller sets first, then by the loads' order.
    pub listed: Vec<Vec<usize>>,
    /// How many there are, listed or not.
    pub count: usize,
    /// The most loads that were looked for in one.
    pub up_to: usize,
}

/// Looks through all sets of one size after the other.
///
/// - `case`: loads none of which alone is too much
/// - `most_listed`: so many are listed, the smallest
pub(super) fn conflicts(case: &Case, most_listed: usize) -> Conflicts {
    let up_to = most_members(case.loads.len(), case.limits);
    let mut search = Search {
        case,
        most: (0..case.limits).map(|limit| most(case, limit)).collect(),
        chosen: Chosen::none(case),
        listed: Vec::new(),
        count: 0,
        most_listed,
    };
    for size in 2..=up_to {
        search.add(0, size);
    }
    Conflicts { listed: search.listed, count: search.count, up_to }
}

fn most_members(loads: usize, limits: usize) -> usize {
    let most_sets = MOST_SETS * FREE_LIMITS / limits.max(FREE_LIMITS);
    let (mut sets_of_size, mut sets) = (loads, loads);
    for size in 2..=MOST_MEMBERS {
        sets_of_size = sets_of_size.saturating_mul((loads + 1).saturating_sub(size)) / size;
        sets = sets.saturating_add(sets_of_size);
        if sets > most_sets {
            return size - 1;
        }
    }
    MOST_MEMBERS
}

/// The most that any load takes of a limit.
fn most(case: &Case, limit: usize) -> Share {
    (0..case.loads.len()).map(|index| case.shares(index)[limit]).fold(Share::NONE, |most, share| Share {
        running: most.running.max(share.running),
        extra: most.extra.max(share.extra),
    })
}

struct Search<'a> {
    case: &'a Case,
    /// The most that any load takes of each limit.
    most: Vec<Share>,
    chosen: Chosen<'a>,
    listed: Vec<Vec<usize>>,
    count: usize,
    most_listed: usize,
}

impl Search<'_> {
    /// Adds so many more loads, the first of them at `from` or later.
    fn add(&mut self, from: usize, more: usize) {
        if !self.can_pass(more) {
            return;
        }
        for next in from..=self.case.loads.len() - more {
            let fits = self.chosen.add(next);
            if more == 1 && !fits && self.is_minimal() {
                self.count += 1;
                if self.listed.len() < self.most_listed {
                    self.listed.push(self.chosen.members.clone());
                }
            } else if more > 1 && fits {
                self.add(next + 1, more - 1);
            }
            self.chosen.take_out();
        }
    }

    /// Whether so many more loads can pass any limit.
    fn can_pass(&self, more: usize) -> bool {
        self.chosen.taken().iter().zip(&self.most).any(|(taken, most)| {
            let running = most.running * more as u64;
            !taken.and(Share { running, extra: most.extra }).is_within()
        })
    }

    /// Whether the set becomes feasible when any load but the last is taken out; without the last it is.
    fn is_minimal(&self) -> bool {
        let members = &self.chosen.members;
        let but_last = &members[..members.len() - 1];
        but_last.iter().all(|out| self.case.holds(members.iter().copied().filter(|index| index != out)))
    }
}

#[cfg(test)]
mod tests {
    use super::super::EverySet;
    use super::super::fixture::case;
    use super::*;

    #[test]
    fn conflicts_of_few_loads_are_those_of_every_set() {
        for seed in 0..200 {
            let case = case(seed, 12);
            let sets = EverySet::of(&case);
            let all = sets.conflicts(usize::MAX);
            let expected: Vec<Vec<usize>> = all.by_size[..=MOST_MEMBERS]
                .iter()
                .flatten()
                .map(|set| sets.indices(*set).collect())
                .collect();
            let conflicts = conflicts(&case, usize::MAX);
            assert_eq!((conflicts.count, conflicts.up_to), (expected.len(), MOST_MEMBERS));
            assert_eq!(conflicts.listed, expected);
        }
    }

    #[test]
    fn a_size_that_takes_too_much_work_is_left_out() {
        assert_eq!(
            [39, 40, 84, 85, 446, 447, 1_000_000].map(|loads| most_members(loads, 1)),
            [4, 3, 3, 2, 2, 1, 1]
        );
    }
}
