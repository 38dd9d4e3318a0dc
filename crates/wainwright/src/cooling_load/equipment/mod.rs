//! Air conditioners and heaters.
//!
//! A cooling unit is its [`rating`], carried to other states by [`curves`] and split into sensible and latent heat by
//! its [`coil`]; [`unit`] puts them together. Around it: how it runs ([`cycling`]), what it breathes ([`recirculation`],
//! [`portable`]), what ducts cost ([`duct`]), sizes ([`sizes`], [`room_area`]). Then heat ([`heating`], [`propane`]), and
//! what people accept without either ([`comfort`], [`fan_only`]).

pub mod coil;
pub mod coil_rating;
pub mod comfort;
pub mod curves;
pub mod cycling;
pub mod duct;
pub mod fan_only;
pub mod heating;
pub mod operating_point;
pub mod portable;
pub mod propane;
pub mod rating;
pub mod recirculation;
pub mod room_area;
pub mod sizes;
pub mod unit;
