//! The report of axle load: its parts, and how they are filled from the numbers.

mod assumptions;
mod fill;
mod toys;
mod types;

pub(super) use fill::{NEAR, report};
pub(super) use toys::CLIMB_OFF_IN;
pub use types::*;
