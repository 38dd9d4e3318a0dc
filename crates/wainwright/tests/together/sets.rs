//! Sets of loads against a look at every set.

use std::cmp::Reverse;

use proptest::prelude::*;
use wainwright::circuit_load::together::{is_feasible, together};

use super::loads::{Loads, cases, loads, members, number};

fn feasible(loads: &Loads) -> Vec<bool> {
    (0..1 << loads.count).map(|set| loads.holds(set)).collect()
}

fn sum_of(set: usize, values: &[u32]) -> u32 {
    members(set).into_iter().map(|load| values[load]).sum()
}

proptest! {
    #![proptest_config(cases(400))]

    #[test]
    fn conflicts_are_the_smallest_sets_that_are_too_much(loads in loads(1..=12)) {
        let feasible = feasible(&loads);
        let too_much = (0..feasible.len()).filter(|set| !feasible[*set]).map(|set| (set, members(set)));
        let mut conflicts: Vec<Vec<usize>> = too_much
            .filter(|(set, members)| members.iter().all(|load| feasible[set ^ (1 << load)]))
            .map(|(_, members)| members)
            .collect();
        conflicts.sort_by_key(|members| (members.len(), members.clone()));
        let found = loads.together(usize::MAX);
        prop_assert!(found.exact);
        prop_assert_eq!(found.conflict_count, conflicts.len());
        let in_conflict = |load: usize| conflicts.iter().flatten().any(|member| *member == load);
        let unrestricted: Vec<bool> = (0..loads.count).map(|load| !in_conflict(load)).collect();
        prop_assert_eq!(found.unrestricted, unrestricted);
        prop_assert_eq!(found.conflicts, conflicts);
    }

    #[test]
    fn largest_sets_are_those_to_which_nothing_can_be_added(loads in loads(1..=12)) {
        let feasible = feasible(&loads);
        let found = loads.together(usize::MAX);
        let has_room = |set: usize| {
            (0..loads.count).any(|load| set >> load & 1 == 0 && feasible[set | (1 << load)])
        };
        let mut largest: Vec<Vec<usize>> = (0..feasible.len())
            .filter(|set| feasible[*set] && !has_room(*set))
            .map(|set| members(set).into_iter().filter(|load| !found.unrestricted[*load]).collect())
            .collect();
        largest.sort_by_key(|members| (Reverse(members.len()), members.clone()));
        prop_assert_eq!(found.largest_count, largest.len());
        prop_assert_eq!(found.largest, largest);
    }

    #[test]
    fn the_best_set_is_the_best_of_all(loads in loads(1..=12)) {
        let feasible = feasible(&loads);
        let best = (0..feasible.len()).filter(|set| feasible[*set]).max_by_key(|set| {
            let (priority, tie) = (sum_of(*set, &loads.priorities), sum_of(*set, &loads.ties));
            (priority, Reverse(tie), set.reverse_bits())
        });
        let found = loads.together(0);
        prop_assert!(found.best_is_proven);
        prop_assert_eq!(found.best, members(best.unwrap()));
    }

    #[test]
    fn a_set_is_feasible_unless_it_holds_a_conflict(loads in loads(1..=10)) {
        let found = loads.together(usize::MAX);
        let conflicts: Vec<usize> = found.conflicts.iter().map(|members| number(members)).collect();
        for (set, feasible) in feasible(&loads).into_iter().enumerate() {
            prop_assert_eq!(is_feasible(&loads.limits(), &members(set)), feasible);
            prop_assert_eq!(conflicts.iter().any(|conflict| set & conflict == *conflict), !feasible);
        }
    }

    #[test]
    fn a_lower_bound_never_makes_a_set_feasible(loads in loads(1..=10), which in 0..4_usize, part in 0.0..1.0) {
        let mut lower = loads.clone();
        let which = which % lower.shared.len();
        lower.shared[which].bound *= part;
        for set in (0..1 << loads.count).map(members) {
            prop_assert!(is_feasible(&loads.limits(), &set) || !is_feasible(&lower.limits(), &set));
        }
    }

    #[test]
    fn a_shorter_list_is_the_beginning_of_the_long_one(loads in loads(1..=12), most in 0..6_usize) {
        let (short, long) = (loads.together(most), loads.together(usize::MAX));
        prop_assert_eq!(&short.conflicts[..], &long.conflicts[..most.min(long.conflict_count)]);
        prop_assert_eq!(&short.largest[..], &long.largest[..most.min(long.largest_count)]);
        prop_assert_eq!(short.conflict_count, long.conflict_count);
        prop_assert_eq!(short.largest_count, long.largest_count);
    }
}

proptest! {
    #![proptest_config(cases(100))]

    #[test]
    fn of_many_loads_every_conflict_of_up_to_four_is_found(loads in loads(24..=30)) {
        let found = loads.together(usize::MAX);
        let limits = loads.limits();
        for conflict in &found.conflicts {
            prop_assert!(!is_feasible(&limits, conflict));
            for out in conflict {
                let rest: Vec<usize> = conflict.iter().copied().filter(|load| load != out).collect();
                prop_assert!(is_feasible(&limits, &rest));
            }
        }
        prop_assert!(found.conflicts_up_to >= 4);
        let conflicts: Vec<usize> = found.conflicts.iter().map(|members| number(members)).collect();
        for first in 0..loads.count {
            for second in 0..first {
                for third in 0..second {
                    let set = number(&[first, second, third]);
                    let conflict = conflicts.iter().any(|conflict| set & conflict == *conflict);
                    prop_assert_eq!(conflict, !loads.holds(set));
                }
            }
        }
        prop_assert!(is_feasible(&limits, &found.best));
        prop_assert_eq!(conflicts.len(), found.conflict_count);
    }

    #[test]
    fn of_many_loads_on_one_limit_the_best_set_fills_it_best(
        loads in prop::collection::vec((1..=40_u32, 0..=9_u32), 24..=40),
        bound in 40..=300_u32,
    ) {
        let weights: Vec<f64> = loads.iter().map(|(weight, _)| f64::from(*weight) / 10.0).collect();
        let priorities: Vec<f64> = loads.iter().map(|(_, priority)| f64::from(*priority)).collect();
        let limits = [super::loads::Shared { running: weights.clone(), extra: None, bound: f64::from(bound) / 10.0 }];
        let found = together(&[limits[0].limit()], &priorities, &weights, 0);
        // The best priority at every weight, load by load.
        let mut best = vec![None; bound as usize + 1];
        best[0] = Some(0);
        for (weight, priority) in &loads {
            for sum in (*weight as usize..best.len()).rev() {
                let with = best[sum - *weight as usize].map(|before| before + priority);
                best[sum] = best[sum].max(with);
            }
        }
        let (weight, priority) =
            best.iter().enumerate().max_by_key(|(weight, priority)| (**priority, Reverse(*weight))).unwrap();
        let sum = |of: fn(&(u32, u32)) -> u32| found.best.iter().map(|load| of(&loads[*load])).sum::<u32>();
        if found.best_is_proven {
            prop_assert_eq!((sum(|load| load.1), sum(|load| load.0)), (priority.unwrap(), weight as u32));
        } else {
            prop_assert!(sum(|load| load.1) <= priority.unwrap() && sum(|load| load.0) <= bound);
        }
    }
}
