//! Cooling load: what heat the box takes in and gives off, and what a cooler or a heater makes of it.

pub mod air_exchange;
pub mod envelope;
pub mod equipment;
pub mod network;
pub mod people;
