//! The limits, as a client's form may want to know them.

use serde_json::{Value, json};
use wainwright::bounds::{
    MOST_CHOICES, MOST_ENTRIES, MOST_EVALUATED, MOST_OPTIONS, MOST_PARTS, MOST_ROWS, MOST_SCORES,
};
use wainwright::document::NESTING_LIMIT;

use crate::Config;

/// The limits in force.
pub fn limits(config: &Config) -> Value {
    json!({
        "body_bytes": config.body_limit_bytes,
        "nesting_count": NESTING_LIMIT,
        "parts_count": MOST_PARTS,
        "entries_count": MOST_ENTRIES,
        "options_count": MOST_OPTIONS,
        "choices_count": MOST_CHOICES,
        "evaluated_count": MOST_EVALUATED,
        "rows_count": MOST_ROWS,
        "scores_count": MOST_SCORES,
        "receive_s": config.receive_limit_s.number(),
        "compute_s": config.compute_limit_s.number(),
        "requests": config.rate_limit.map(|quota| json!({
            "quota_count": quota,
            "window_s": config.rate_window_s.number(),
        })),
    })
}
