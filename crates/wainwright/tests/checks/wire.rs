//! To be written.

pub const IDS: &[&str] = &[];
