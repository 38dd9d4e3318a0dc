//! Checks against sources outside this project, one file a source.

#![allow(clippy::unwrap_used, reason = "what cannot be unwrapped here fails its test")]

#[path = "outside/conductor_examples.rs"]
mod conductor_examples;
#[path = "outside/demonstration_boxes.rs"]
mod demonstration_boxes;
#[path = "outside/demonstration_builds.rs"]
mod demonstration_builds;
#[path = "outside/demonstration_circuits.rs"]
mod demonstration_circuits;
#[path = "outside/drop_examples.rs"]
mod drop_examples;
#[path = "outside/envelope_examples.rs"]
mod envelope_examples;
#[path = "outside/j684_state_tables.rs"]
mod j684_state_tables;
#[path = "outside/payload_in_water.rs"]
mod payload_in_water;
#[path = "outside/printed.rs"]
mod printed;
#[path = "outside/single_axle_textbook.rs"]
mod single_axle_textbook;
#[path = "outside/solar_examples.rs"]
mod solar_examples;
#[path = "outside/sun_of_the_day_textbook.rs"]
mod sun_of_the_day_textbook;
#[path = "outside/supply_examples.rs"]
mod supply_examples;
#[path = "outside/sway_two_formulations.rs"]
mod sway_two_formulations;
