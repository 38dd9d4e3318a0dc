//! The sky: where the sun stands, and when it rises and sets. Astronomy alone, nothing of a trailer.
//!
//! Instants are Unix time in UTC [s], angles are radians. Latitude is positive north, longitude positive east,
//! azimuth clockwise from north (east π/2, south π, west 3π/2), tilt 0 for a plane that faces up.

pub mod sun;
pub mod sunrise;
