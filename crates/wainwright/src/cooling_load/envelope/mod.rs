//! Roof, walls, floor and windows: what they let through.

pub mod films;
pub mod framing;
pub mod glazing;
pub mod heading;
pub mod layers;
pub mod sol_air;
pub mod surface_temperature;
