//! Sizes in which cooling units are sold.

use crate::units::W_PER_BTU_H;

/// Rated cooling of the usual sizes [BTU/h], from the smallest up. Source: `common practice`.
pub const STANDARD_BTU_H: [f64; 7] = [5000.0, 6000.0, 8000.0, 10_000.0, 12_000.0, 13_500.0, 15_000.0];

/// The smallest usual size of at least a capacity.
///
/// - `capacity_w`  rated cooling that is wanted [W]
///
/// Returns its rated cooling [W]; none above the largest.
pub fn at_least_w(capacity_w: f64) -> Option<f64> {
    STANDARD_BTU_H.map(|btu_h| btu_h * W_PER_BTU_H).into_iter().find(|size_w| *size_w >= capacity_w)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::w_from_btu_h;

    #[test]
    fn the_next_size_up_is_found() {
        let at = |btu_h| at_least_w(w_from_btu_h(btu_h));
        assert_eq!(at(0.0), Some(w_from_btu_h(5000.0)));
        assert_eq!(at(6000.0), Some(w_from_btu_h(6000.0)));
        assert_eq!(at(6000.1), Some(w_from_btu_h(8000.0)));
        assert_eq!(at(15_000.1), None);
    }

    #[test]
    fn they_rise() {
        assert!(STANDARD_BTU_H.is_sorted());
    }
}
