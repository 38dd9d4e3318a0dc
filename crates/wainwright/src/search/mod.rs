//! Search.
