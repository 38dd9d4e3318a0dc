//! Moist air against vectors of general-purpose libraries, published points, and the laws it keeps.

#![allow(clippy::unwrap_used, reason = "a test fails by panicking")]

#[path = "air/altitude.rs"]
mod altitude;
#[path = "air/laws.rs"]
mod laws;
#[path = "air/outdoor_air.rs"]
mod outdoor_air;
#[path = "air/points.rs"]
mod points;
#[path = "air/rows.rs"]
mod rows;
#[path = "air/states.rs"]
mod states;
