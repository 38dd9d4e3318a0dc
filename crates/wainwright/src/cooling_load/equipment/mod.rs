//! Air conditioners and heaters.
//!
//! A cooling unit is its rating, carried to other states by [`curves`] and split into sensible and latent heat by its
//! [`coil`]; [`unit`] puts them together.

pub mod coil;
pub mod coil_rating;
pub mod curves;
pub mod operating_point;
pub mod rating;
pub mod unit;
