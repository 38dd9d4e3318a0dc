//! One year from the sky to the battery, against the same year worked out by a general-purpose library: hour by hour, month
//! by month, and the smallest arrays.

#![allow(clippy::unwrap_used, reason = "what cannot be unwrapped here fails its test")]

#[path = "energy_year/sizing.rs"]
mod sizing;
#[path = "energy_year/year.rs"]
mod year;
