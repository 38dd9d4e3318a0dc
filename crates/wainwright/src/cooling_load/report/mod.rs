//! The report: its types, and how it is filled from numbers.

mod assumptions;
mod fill;
mod part;
mod summary;
mod types;

pub(super) use fill::report;
pub use fill::report_of;
pub(super) use part::part;
pub use types::*;
