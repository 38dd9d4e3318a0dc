//! The report of an energy budget: its parts, and how they are filled from the numbers.

mod assumptions;
mod fill;
mod part;
mod summary;
mod types;

pub use fill::report_of;
pub(super) use fill::{report, station_away_mi};
pub(super) use part::part;
pub use types::*;
