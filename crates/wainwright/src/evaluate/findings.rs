//! What is said of an evaluation itself.

use crate::document::Refusal;
use crate::question::Question;
use crate::report::{Finding, rules};

rules! {
    shared {}
    NO_PAYLOAD: Note - -, "payload_not_worked_out",
        "The build has too little for its payload.", "common practice";
    NO_AXLE_LOAD: Note - -, "axle_load_not_worked_out",
        "The build has too little for its axle loads.", "common practice";
    NO_CIRCUIT_LOAD: Note - -, "circuit_load_not_worked_out",
        "The build has too little for its circuits.", "common practice";
    NO_ENERGY_BUDGET: Note - -, "energy_budget_not_worked_out",
        "The build has too little for its energy budget.", "common practice";
    NO_COOLING_LOAD: Note - -, "cooling_load_not_worked_out",
        "The build has too little for its cooling load.", "common practice";
}

/// A question that was not worked out, and what it would need.
pub fn not_worked_out<Q: Question>(refusal: &Refusal) -> Finding {
    let rule = match Q::NAME {
        "payload" => &NO_PAYLOAD,
        "axle_load" => &NO_AXLE_LOAD,
        "circuit_load" => &NO_CIRCUIT_LOAD,
        "energy_budget" => &NO_ENERGY_BUDGET,
        _ => &NO_COOLING_LOAD,
    };
    let name = Q::NAME.replace('_', " ");
    let message = format!("There is no {name} here: the build has too little for it.");
    let needed: Vec<String> = refusal.to_string().lines().map(str::to_owned).collect();
    rule.finding("", None, None, message, needed.join("; "))
}
