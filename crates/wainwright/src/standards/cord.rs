//! What a flexible cord may carry.

use std::sync::LazyLock;

use super::size::Size;
use super::table::{BySize, by_size};

static AMPACITY: LazyLock<BySize<2>> =
    LazyLock::new(|| by_size(include_str!("../../data/cord_ampacity_400_5.csv"), ["two_ccc", "three_ccc"]));

/// Ampacity of a flexible cord at 30 °C: thermoset and thermoplastic types such as S, SJ, SOOW, STW.
///
/// - `size`              the conductors', copper
/// - `current_carrying`  conductors that carry current, 2 or 3 (fewer count as 2, more as 3): the grounding conductor
///   does not, nor a neutral that carries only the imbalance of two legs
///
/// Returns the current [A], or none for a size that the table does not have.
///
/// Source: NEC Table 400.5(A)(1), columns B and A; column A, and column B from 10 AWG up, `from memory`.
pub fn ampacity_a(size: Size, current_carrying: u32) -> Option<f64> {
    AMPACITY[size.index()][usize::from(current_carrying > 2)]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cord_of_common_sizes_carries_what_is_printed() {
        let two = [Size::AWG_18, Size::AWG_16, Size::AWG_14, Size::AWG_12, Size::AWG_10, Size::AWG_6]
            .map(|size| ampacity_a(size, 2));
        assert_eq!(two, [10.0, 13.0, 18.0, 25.0, 30.0, 55.0].map(Some));
        assert_eq!(ampacity_a(Size::AWG_10, 3), Some(25.0));
        assert_eq!(ampacity_a(Size::AWG_3, 2), None);
    }

    #[test]
    fn nine_sizes_have_figures_and_a_third_loaded_conductor_costs_some() {
        let sizes: Vec<Size> = Size::ALL.into_iter().filter(|size| ampacity_a(*size, 2).is_some()).collect();
        assert_eq!(sizes.len(), 9);
        assert!(sizes.iter().all(|size| ampacity_a(*size, 3).unwrap() < ampacity_a(*size, 2).unwrap()));
        assert!(sizes.windows(2).all(|pair| ampacity_a(pair[0], 2) < ampacity_a(pair[1], 2)));
    }
}
