//! Panels and batteries against vectors worked out apart from this code, in another language: every row of
//! `battery/*.csv`, to the last digit it shows. Of them `cell_temperature`, `module_power` and `rainflow` are from
//! general-purpose libraries, the others from the published equations.

#![allow(clippy::unwrap_used, reason = "a test fails by panicking")]

#[path = "battery/cycles.rs"]
mod cycles;
#[path = "battery/kinetic.rs"]
mod kinetic;
#[path = "battery/panel.rs"]
mod panel;
#[path = "battery/peukert.rs"]
mod peukert;
#[path = "battery/rows.rs"]
mod rows;
