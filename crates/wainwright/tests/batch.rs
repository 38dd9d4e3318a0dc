//! A table scored at once against its rows worked out one by one.

// A test that cannot go on fails.
#![allow(clippy::unwrap_used)]

mod batch {
    mod one_by_one;
    mod refused;
}
