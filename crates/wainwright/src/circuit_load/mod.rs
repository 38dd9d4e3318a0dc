//! Circuit load: every circuit in every supply mode: current, drop, conductor, protection, what may run together.

pub mod conductor;
pub mod conductor_temperature;
pub mod constant_power;
pub mod converter;
pub mod current;
pub mod dc_network;
pub mod defaults;
pub mod demand;
pub mod drawn;
pub mod drop;
pub mod energized;
pub mod fault;
pub mod inverter;
pub mod numbers;
pub mod ratings;
pub mod shared_limits;
pub mod sizing;
pub mod solar_numbers;
pub mod solar_wiring;
pub mod split_phase;
pub mod starting;
pub mod together;
pub mod voltages;
pub mod wiring;
