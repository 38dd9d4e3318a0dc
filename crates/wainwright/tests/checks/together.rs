//! Sets of loads that may run together, and the risk of passing a limit.

use wainwright::circuit_load::demand::{Demand, expected_a, risk};
use wainwright::circuit_load::together::{Limit, is_feasible, together};

use super::rows::rows;

/// Name, current [A], probability of being on, priority.
const LOADS: [(&str, f64, f64, f64); 6] = [
    ("air_conditioner", 4.2, 0.6, 5.0),
    ("refrigerator", 1.2, 0.35, 5.0),
    ("charger", 6.0, 0.5, 1.0),
    ("microwave", 12.5, 0.05, 3.0),
    ("coffee_maker", 8.3, 0.08, 2.0),
    ("induction_plate", 15.0, 0.1, 3.0),
];

rows! {
    prob_12 "prob_12" => risk_text(12.0);
    prob_15 "prob_15" => risk_text(15.0);
    prob_24 "prob_24" => risk_text(24.0);
    sets_12 "sets_12" => sets_text(12.0);
    sets_15 "sets_15" => sets_text(15.0);
    sets_24 "sets_24" => sets_text(24.0);
    sets_30 "sets_30" => sets_text(30.0);
}

fn risk_text(limit_a: f64) -> String {
    let loads = LOADS.map(|(_, current_a, on, _)| Demand { current_a, on });
    let risk = risk(&loads, limit_a, &mut Vec::new());
    format!("P(sum > {limit_a} A) = {risk:.6}, mean {mean:.3} A", mean = expected_a(&loads))
}

fn sets_text(limit_a: f64) -> String {
    let currents = LOADS.map(|(_, current_a, ..)| current_a);
    let priorities = LOADS.map(|(.., priority)| priority);
    let limits = [Limit::Sum { weights: &currents, bound: limit_a }];
    let found = together(&limits, &priorities, &currents, usize::MAX);
    let feasible = (0..1 << LOADS.len()).filter(|set| is_feasible(&limits, &members(*set))).count();
    let unrestricted: Vec<usize> = (0..LOADS.len()).filter(|load| found.unrestricted[*load]).collect();
    let largest = found.largest.iter().map(|set| [&set[..], &unrestricted].concat());
    format!(
        "feasible {feasible}; maximal {}; minimal conflicts {}; best {}",
        list(largest.map(|set| number(&set)), with_current),
        list(found.conflicts.iter().map(|set| number(set)), names),
        with_current(&found.best)
    )
}

/// Loads of a set whose lowest bit is the first load.
fn members(set: u32) -> Vec<usize> {
    (0..LOADS.len()).filter(|load| set >> load & 1 == 1).collect()
}

fn number(set: &[usize]) -> u32 {
    set.iter().map(|load| 1 << load).sum()
}

fn names(set: &[usize]) -> String {
    set.iter().map(|load| LOADS[*load].0).collect::<Vec<_>>().join("+")
}

fn with_current(set: &[usize]) -> String {
    format!("{}={:.1}", names(set), set.iter().map(|load| LOADS[*load].1).sum::<f64>())
}

fn list(sets: impl Iterator<Item = u32>, text: fn(&[usize]) -> String) -> String {
    let mut sets: Vec<u32> = sets.collect();
    sets.sort_unstable();
    let texts: Vec<String> = sets.into_iter().map(|set| format!("'{}'", text(&members(set)))).collect();
    format!("[{}]", texts.join(", "))
}
