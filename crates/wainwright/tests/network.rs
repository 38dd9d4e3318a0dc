//! The box as a network against vectors worked out apart from this code, in another language: every row of
//! `network/*.csv`. Each says where its figures come from.

#![allow(clippy::unwrap_used, reason = "a test fails by panicking")]

#[path = "network/hourly_13790.rs"]
mod hourly_13790;
#[path = "battery/rows.rs"]
mod rows;
#[path = "network/steps.rs"]
mod steps;
