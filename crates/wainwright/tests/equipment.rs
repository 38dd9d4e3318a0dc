//! Air conditioners and heaters against vectors worked out apart from this code, in another language, and against
//! published figures; and their laws on random states.

#![allow(clippy::unwrap_used, reason = "a test fails by panicking")]

#[path = "equipment/coil.rs"]
mod coil;
#[path = "equipment/coil_random.rs"]
mod coil_random;
#[path = "equipment/curves.rs"]
mod curves;
#[path = "equipment/laws.rs"]
mod laws;
#[path = "equipment/published.rs"]
mod published;
#[path = "battery/rows.rs"]
mod rows;
