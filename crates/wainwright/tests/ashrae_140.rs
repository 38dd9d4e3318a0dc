//! Outside check: the box of ANSI/ASHRAE Standard 140-2020, section on the thermal fabric, through a year of its weather,
//! beside what six programs give and the limits of acceptance; and the simple hourly method of ISO 13790 beside a
//! published model by it.
//!
//! Inputs are those of the standard, and for what it leaves to a program published equations and figures that are named where
//! they stand. None was fitted here.

#![allow(clippy::unwrap_used, reason = "a test fails by panicking")]

#[path = "ashrae_140/cell.rs"]
mod cell;
#[path = "ashrae_140/control.rs"]
mod control;
#[path = "ashrae_140/double_glazing.rs"]
mod double_glazing;
#[path = "ashrae_140/heavy.rs"]
mod heavy;
#[path = "ashrae_140/left_to_the_program.rs"]
mod left_to_the_program;
#[path = "ashrae_140/light.rs"]
mod light;
#[path = "ashrae_140/published.rs"]
mod published;
#[path = "ashrae_140/simple_hourly.rs"]
mod simple_hourly;
#[path = "ashrae_140/weather.rs"]
mod weather;
#[path = "ashrae_140/year.rs"]
mod year;
