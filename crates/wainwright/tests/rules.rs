//! Every rule: a small build that breaks it, and its twin that just keeps it.
#![allow(clippy::unwrap_used, reason = "what cannot be unwrapped here fails its test")]

#[path = "rules/axle_load.rs"]
mod axle_load;
#[path = "rules/boxes.rs"]
mod boxes;
#[path = "rules/builds.rs"]
mod builds;
#[path = "rules/campers.rs"]
mod campers;
#[path = "rules/circuit_load.rs"]
mod circuit_load;
#[path = "rules/circuit_words.rs"]
mod circuit_words;
#[path = "rules/circuits.rs"]
mod circuits;
#[path = "rules/cooling_load.rs"]
mod cooling_load;
#[path = "rules/energy_budget.rs"]
mod energy_budget;
#[path = "rules/payload.rs"]
mod payload;
#[path = "rules/twins.rs"]
mod twins;
