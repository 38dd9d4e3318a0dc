//! Options and search, against every choice evaluated outright.

mod options {
    mod outright;
    mod search;
}
