//! What is asked: two builds.

use serde_json::Value;

use crate::build::Build;
use crate::document::{Inner, record};

record! {
    /// Two builds to compare.
    pub struct CompareRequest: "a request to compare" {
        /// The build as it was.
        required before: Value = Inner::of::<Build>();
        /// The build as it is to be.
        required after: Value = Inner::of::<Build>();
    }
}
