//! The toy bay.

pub mod fit;
pub mod floor;
pub mod ramp;
pub mod tie_downs;
