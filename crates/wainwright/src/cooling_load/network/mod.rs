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
//!
//! It is meant for light boxes. Held against ANSI/ASHRAE Standard 140, the light cases (600, 620, 640, 650 and those that
//! float free) come out within its limits. The heavy case 900 is cooled by 4 percent less than the least of the published
//! programs has it, and 12 percent less at the peak: a slab stores heat by its depth, and two capacities have none, so that
//! the mass takes up too much of a day's sun. A box that heavy needs more nodes.

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
