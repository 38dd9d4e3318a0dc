//! Circuit load: every circuit in every supply mode: current, drop, conductor, protection, what may run together.

pub mod conductor;
pub mod conductor_temperature;
pub mod constant_power;
pub mod converter;
pub mod current;
pub mod dc_network;
pub mod demand;
pub mod drop;
pub mod fault;
pub mod inverter;
pub mod solar_wiring;
pub mod split_phase;
pub mod starting;
pub mod together;
