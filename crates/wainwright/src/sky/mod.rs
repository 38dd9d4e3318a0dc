//! The sky: where the sun stands, when it rises and sets, and what its light brings to a plane. Nothing of a trailer.
//!
//! Instants are Unix time in UTC [s], angles are radians. Latitude is positive north, longitude positive east,
//! azimuth clockwise from north (east π/2, south π, west 3π/2), tilt 0 for a plane that faces up.

pub mod air_mass;
pub mod air_temperature;
pub mod almanac;
mod bounded;
pub mod clear_sky;
pub mod clear_year;
pub mod clearness_chain;
pub mod clearness_distribution;
pub mod clock;
mod coefficients;
pub mod daily;
pub mod decomposition;
pub mod design_conditions;
pub mod dirint;
pub mod great_circle;
pub mod hourly_clearness;
pub mod hourly_share;
pub mod incidence;
pub mod irradiance;
pub mod monthly;
pub mod months;
pub mod perez_sky;
pub mod places;
pub mod plane;
pub mod planes;
pub mod random;
pub mod standard_time;
pub mod sun;
pub mod sunrise;
pub mod synthetic;
pub mod transposition;
pub mod turbidity;
pub mod weather;
pub mod weather_file;
