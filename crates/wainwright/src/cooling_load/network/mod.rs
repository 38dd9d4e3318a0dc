//! The box as a network of heat capacities and conductances, through time.
//!
//! Air and mass (lining, furniture) each hold heat; a surface node between them holds none. With something heavy on
//! the floor there is a third capacity. Within a step what drives the network is constant, and the step is exact.
//!
//! ```text
//!  outdoor air ── ventilation ── air ── surface ── mass ── outside (sol-air)
//!                                          ├── windows ── outdoor air
//!                                          └── floor load
//! ```

#[cfg(test)]
mod fixture;
pub mod flows;
pub mod hourly_13790;
pub mod inside_exchange;
#[cfg(test)]
mod laws;
mod links;
mod modes;
pub mod nodes;
pub mod periodic;
pub mod response;
pub mod thermostat;

pub use flows::Flows;
pub use nodes::{Drive, FloorLoad, Network, State};
pub use response::Response;
