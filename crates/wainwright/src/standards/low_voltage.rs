//! Overcurrent protection of low-voltage wiring in park trailers, used as a guide: the code has no such table for
//! recreational vehicles.

use std::sync::LazyLock;

use super::size::Size;
use super::table::{BySize, by_size};

static LIMITS: LazyLock<BySize<1>> =
    LazyLock::new(|| by_size(include_str!("../../data/low_voltage_552_10.csv"), ["max_a"]));

/// Greatest overcurrent device for a low-voltage conductor.
///
/// - `size`  the conductor's, copper
///
/// Returns the rating [A], or none above 10 AWG, which the table does not have.
///
/// Source: NEC Table 552.10(E)(1), `from memory`.
pub fn limit_a(size: Size) -> Option<f64> {
    LIMITS[size.index()][0]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn five_sizes_have_a_limit() {
        let limits: Vec<f64> = Size::ALL.into_iter().filter_map(limit_a).collect();
        assert_eq!(limits, [6.0, 8.0, 15.0, 20.0, 30.0]);
        assert_eq!(limit_a(Size::AWG_10), Some(30.0));
    }
}
