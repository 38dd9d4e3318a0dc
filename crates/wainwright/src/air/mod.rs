//! Moist air: dry air and water vapor as ideal gases, by the ASHRAE Handbook.
//!
//! A state is a temperature, a humidity ratio (kilograms of water to a kilogram of dry air) and a pressure.

pub mod dew_point;
pub mod humidity;
pub mod limits;
pub mod moist_air;
pub mod outdoor_air;
pub mod pressure;
pub mod properties;
pub mod saturation;
pub mod wet_bulb;

/// 0 °C [K].
pub(crate) const ICE_K: f64 = 273.15;
