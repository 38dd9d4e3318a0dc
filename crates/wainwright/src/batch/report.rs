//! What scoring a table answers with.

use serde_json::json;

use crate::document::Keyed;
use crate::report::{Engine, report};

report! {
    /// The scores of every row.
    pub struct BatchReport {
        /// How many rows there are.
        rows: u32 = 3,
        /// Each score, a figure a row in the order of the rows; null where the row has no such figure, or an error.
        scores: Keyed<Vec<Option<f64>>> = json!({"payload.states.outbound.payload_left_lb": [2500.9, null, 2421.9]}),
        /// The rows that could not be worked out, in their order. No row is lost by another's error.
        errors: Vec<RowError>,
        /// What worked it out.
        engine: Engine,
    }
}

report! {
    /// Why a row has no scores.
    pub struct RowError {
        /// The row, from 0.
        row: u32 = 1,
        /// JSON Pointer into the build to what is wrong; empty where that is in no one place.
        subject: String = "/parts/galley/mass_lb",
        /// What is wrong, and what would be right.
        message: String = "must be 0 or more; got -12",
    }
}
