//! Check values of circuit load. Every row of `checks/circuits.csv` is a test of that name: the expected text
//! was worked out apart from this code, in another language, from the published tables.

#![allow(clippy::unwrap_used, reason = "a test fails by panicking")]

mod checks {
    mod currents;
    mod rows;
    mod sources;
    mod together;
    mod wire;
}
