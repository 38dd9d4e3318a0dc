//! The report of circuit load: its parts, and how they are filled from the numbers.

mod assumptions;
mod fill;
mod types;

pub(super) use fill::report;
pub use fill::report_of;
pub use types::*;
