//! Random loads on random limits.

use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use wainwright::circuit_load::together::{Limit, Together, together};

/// Settings of a property with so many cases, the same ones every time; `PROPTEST_RNG_SEED` gives others.
pub fn cases(cases: u32) -> ProptestConfig {
    let usual = ProptestConfig { cases, failure_persistence: None, ..ProptestConfig::default() };
    match usual.rng_seed {
        RngSeed::Random => ProptestConfig { rng_seed: RngSeed::Fixed(7_700), ..usual },
        RngSeed::Fixed(_) => usual,
    }
}

/// A limit that owns its numbers; one with `extra` is on starting.
#[derive(Debug, Clone)]
pub struct Shared {
    pub running: Vec<f64>,
    pub extra: Option<Vec<f64>>,
    pub bound: f64,
}

impl Shared {
    pub fn limit(&self) -> Limit<'_> {
        let (running, bound) = (&self.running[..], self.bound);
        match &self.extra {
            Some(extra) => Limit::Start { running, extra, bound },
            None => Limit::Sum { weights: running, bound },
        }
    }

    /// Whether it holds, by plain sums.
    pub fn holds(&self, set: usize) -> bool {
        let on = |values: &[f64]| -> Vec<f64> {
            values
                .iter()
                .enumerate()
                .filter(|(load, _)| set >> load & 1 == 1)
                .map(|(_, value)| *value)
                .collect()
        };
        let start = self.extra.as_ref().map_or(0.0, |extra| on(extra).into_iter().fold(0.0, f64::max));
        on(&self.running).iter().sum::<f64>() + start <= self.bound * (1.0 + 1e-9)
    }
}

/// Loads, what they share, and which of them are wanted. Priorities and tie weights are in thousandths.
#[derive(Debug, Clone)]
pub struct Loads {
    pub count: usize,
    pub shared: Vec<Shared>,
    pub priorities: Vec<u32>,
    pub ties: Vec<u32>,
}

impl Loads {
    pub fn limits(&self) -> Vec<Limit<'_>> {
        self.shared.iter().map(Shared::limit).collect()
    }

    pub fn together(&self, most_listed: usize) -> Together {
        let whole =
            |thousandths: &[u32]| thousandths.iter().map(|n| f64::from(*n) / 1000.0).collect::<Vec<f64>>();
        together(&self.limits(), &whole(&self.priorities), &whole(&self.ties), most_listed)
    }

    pub fn holds(&self, set: usize) -> bool {
        self.shared.iter().all(|shared| shared.holds(set))
    }
}

/// Loads of a set whose lowest bit is the first load.
pub fn members(set: usize) -> Vec<usize> {
    (0..usize::BITS as usize).filter(|load| set >> load & 1 == 1).collect()
}

/// A set's number.
pub fn number(members: &[usize]) -> usize {
    members.iter().map(|load| 1 << load).sum()
}

/// What a load weighs: often nothing, else any value, or one on a grid so that sums come right up to a bound.
fn weights(count: usize, grid: Option<f64>) -> BoxedStrategy<Vec<f64>> {
    let weight = match grid {
        Some(step) => (1..=40_u32).prop_map(move |n| f64::from(n) * step).boxed(),
        None => (0.01..20.0).boxed(),
    };
    let weight = prop_oneof![1 => Just(0.0), 4 => weight];
    prop::collection::vec(weight, count).boxed()
}

fn shared(count: usize, grid: Option<f64>) -> impl Strategy<Value = Shared> {
    let extra = prop::option::weighted(0.4, weights(count, grid));
    (weights(count, grid), extra, 0.0..=1.1).prop_map(move |(running, extra, part)| {
        let bound = running.iter().sum::<f64>() * part;
        Shared { running, extra, bound: grid.map_or(bound, |step| (bound / step).round() * step) }
    })
}

/// So many loads on one to four limits.
pub fn loads(counts: std::ops::RangeInclusive<usize>) -> impl Strategy<Value = Loads> {
    let grid = prop_oneof![Just(None), Just(Some(0.1)), Just(Some(0.5))];
    let preference = || prop_oneof![(0..=3_u32).prop_map(|n| n * 1000), 0..10_000_u32];
    (counts, grid).prop_flat_map(move |(count, grid)| {
        let shared = prop::collection::vec(shared(count, grid), 1..=4);
        let list = || prop::collection::vec(preference(), count);
        (shared, list(), list()).prop_map(move |(shared, priorities, ties)| Loads {
            count,
            shared,
            priorities,
            ties,
        })
    })
}
