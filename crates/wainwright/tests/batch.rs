//! A table scored at once against its rows worked out one by one.

mod batch {
    mod one_by_one;
    mod refused;
}
