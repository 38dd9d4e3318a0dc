//! Options and search, against every choice evaluated outright.

// A test that cannot go on fails.
#![allow(clippy::unwrap_used)]

mod options {
    mod outright;
    mod search;
}
