//! Sun, sky and weather.

pub mod air_mass;
pub mod clear_sky;
pub mod decomposition;
pub mod dirint;
pub mod incidence;
pub mod irradiance;
pub mod transposition;

mod coefficients;
