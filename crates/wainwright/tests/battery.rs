//! Panels and batteries against vectors worked out apart from this code, in another language: every row of
//! `battery/*.csv`, to the last digit it shows. Each says where its figures come from.

#![allow(clippy::unwrap_used, reason = "a test fails by panicking")]

#[path = "battery/cycles.rs"]
mod cycles;
#[path = "battery/inverter.rs"]
mod inverter;
#[path = "battery/kinetic.rs"]
mod kinetic;
#[path = "battery/panel.rs"]
mod panel;
#[path = "battery/peukert.rs"]
mod peukert;
#[path = "battery/rows.rs"]
mod rows;
#[path = "battery/textbook.rs"]
mod textbook;
