//! Invented loads for tests.

use super::Limit;
use super::case::Case;

/// Whole numbers below 1000, the same for the same seed.
pub(super) fn numbers(seed: u64) -> impl FnMut() -> f64 {
    let mut state = seed;
    move || {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        ((state >> 33) % 1000) as f64
    }
}

/// So many loads on an inlet, on three branches in turn, and on an inverter's peak. No load alone is too much.
pub(super) fn case(seed: u64, count: usize) -> Case {
    let mut number = numbers(seed);
    let mut list = || -> Vec<f64> { (0..count).map(|_| number()).collect() };
    let (running, extra) = (list(), list());
    let branches: [Vec<f64>; 3] = std::array::from_fn(|branch| {
        running
            .iter()
            .enumerate()
            .map(|(load, weight)| if load % 3 == branch { *weight } else { 0.0 })
            .collect()
    });
    let mut limits: Vec<Limit> =
        branches.iter().map(|weights| Limit::Sum { weights, bound: 1500.0 }).collect();
    limits.push(Limit::Sum { weights: &running, bound: 2500.0 });
    limits.push(Limit::Start { running: &running, extra: &extra, bound: 2700.0 });
    Case::of(&limits, count)
}
