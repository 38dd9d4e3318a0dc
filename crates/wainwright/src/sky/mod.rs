//! The sky: where the sun stands, when it rises and sets, and what its light brings to a plane. Nothing of a trailer.
//!
//! Instants are Unix time in UTC [s], angles are radians. Latitude is positive north, longitude positive east,
//! azimuth clockwise from north (east π/2, south π, west 3π/2), tilt 0 for a plane that faces up.

pub mod air_mass;
pub mod almanac;
pub mod clear_sky;
pub mod clock;
mod coefficients;
pub mod decomposition;
pub mod dirint;
pub mod incidence;
pub mod irradiance;
pub mod plane;
pub mod sun;
pub mod sunrise;
pub mod transposition;
pub mod weather;
pub mod weather_file;
