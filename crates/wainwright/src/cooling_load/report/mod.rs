//! The report: its types, and how it is filled from numbers.

mod assumptions;
mod fill;
mod summary;
mod types;

pub(super) use fill::report;
pub use fill::report_of;
pub use types::*;
