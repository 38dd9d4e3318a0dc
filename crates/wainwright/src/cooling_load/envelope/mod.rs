//! Roof, walls, floor and windows: what they let through.

pub mod films;
pub mod framing;
pub mod layers;
