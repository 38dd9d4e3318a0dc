//! Ratings of fuses and breakers, and which a conductor permits.

use std::sync::LazyLock;

use super::ampacity::Material;
use super::size::Size;
use super::table::rows;
use crate::report::exceeds;

/// Standard ratings up to 1200 A of fuses and inverse-time breakers [A].
///
/// Source: NEC 240.6(A), `from memory`.
pub const RATINGS_A: [f64; 31] = [
    15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 60.0, 70.0, 80.0, 90.0, 100.0, 110.0, 125.0, 150.0,
    175.0, 200.0, 225.0, 250.0, 300.0, 350.0, 400.0, 450.0, 500.0, 600.0, 700.0, 800.0, 900.0, 1000.0,
    1200.0,
];

/// Standard ratings of fuses below 15 A; 10 A is one of breakers too since 2023 [A].
///
/// Source: NEC 240.6(A), `from memory`.
pub const SMALL_RATINGS_A: [f64; 4] = [1.0, 3.0, 6.0, 10.0];

/// Rating up to which a device may be the next above its conductor's ampacity [A].
///
/// Source: NEC 240.4(B), `from memory`.
pub const ROUND_UP_TO_A: f64 = 800.0;

/// Smallest standard rating that is enough.
///
/// - `at_least_a`  current it must be rated for [A]
///
/// Returns the rating of [`RATINGS_A`] [A], or none above the last.
///
/// Source: NEC 240.6(A), `from memory`.
pub fn next_rating_a(at_least_a: f64) -> Option<f64> {
    first_not_below(RATINGS_A.iter(), at_least_a)
}

/// True for a standard rating, small ones included.
///
/// - `rating_a`  rating [A]
///
/// Source: NEC 240.6(A), `from memory`.
pub fn is_standard(rating_a: f64) -> bool {
    standard_from(rating_a) == Some(rating_a)
}

/// True where a conductor permits a device.
///
/// - `rating_a`      rating of the device [A]
/// - `limit_a`       ampacity of the conductor after corrections, and of its terminals [A]
/// - `may_round_up`  false where the circuit feeds several receptacles for plug-in loads, and for cords
///
/// Up to the ampacity every rating is permitted. Where it falls between two standard ratings, the upper one is, up to
/// [`ROUND_UP_TO_A`]. The limits of [`small_conductor_cap_a`] stand beside this.
///
/// Source: NEC 240.4 and 240.4(B), `from memory`.
pub fn permits(rating_a: f64, limit_a: f64, may_round_up: bool) -> bool {
    !exceeds(rating_a, limit_a)
        || may_round_up && rating_a <= ROUND_UP_TO_A && standard_from(limit_a) == Some(rating_a)
}

/// The smallest of all standard ratings that is not below a current.
fn standard_from(at_least_a: f64) -> Option<f64> {
    first_not_below(SMALL_RATINGS_A.iter().chain(&RATINGS_A), at_least_a)
}

/// The first rating that is not below a current but for rounding.
pub(super) fn first_not_below<'a>(
    mut ratings_a: impl Iterator<Item = &'a f64>,
    at_least_a: f64,
) -> Option<f64> {
    ratings_a.find(|rating| !exceeds(at_least_a, **rating)).copied()
}

/// Greatest device for a small conductor, whatever its ampacity.
///
/// - `size`      the conductor's
/// - `material`  its metal
///
/// Returns the rating [A], or none for sizes that have no such limit. Of 18 AWG no more than 5.6 A may be continuous,
/// of 16 AWG no more than 8 A.
///
/// Source: NEC 240.4(D).
pub fn small_conductor_cap_a(size: Size, material: Material) -> Option<f64> {
    let caps_a: &[(Size, f64)] = match material {
        Material::Copper => &[
            (Size::AWG_18, 7.0),
            (Size::AWG_16, 10.0),
            (Size::AWG_14, 15.0),
            (Size::AWG_12, 20.0),
            (Size::AWG_10, 30.0),
        ],
        Material::Aluminum => &[(Size::AWG_12, 15.0), (Size::AWG_10, 25.0)],
    };
    caps_a.iter().find(|(capped, _)| *capped == size).map(|(_, cap_a)| *cap_a)
}

/// True where conductors of a size may be connected in parallel.
///
/// - `size`        of each
/// - `conductors`  how many share the current; one always may
///
/// Source: NEC 310.10(G) (310.10(H) until 2017), `from memory`.
pub fn parallel_allowed(size: Size, conductors: u32) -> bool {
    conductors <= 1 || size >= Size::AWG_1_0
}

/// Ratings and the grounding conductor each needs, rising.
static GROUNDING: LazyLock<Vec<(f64, Size)>> = LazyLock::new(|| {
    rows(include_str!("../../data/grounding_250_122.csv"))
        .filter_map(|row| Some((row.number("rating_a")?, Size::of(row.text("size"))?)))
        .collect()
});

/// Smallest copper equipment grounding conductor.
///
/// - `rating_a`  rating of the overcurrent device ahead [A]
///
/// Returns the size, or none above 100 A.
///
/// Source: NEC Table 250.122, `from memory`.
pub fn grounding_size(rating_a: f64) -> Option<Size> {
    GROUNDING.iter().find(|(up_to_a, _)| !exceeds(rating_a, *up_to_a)).map(|(_, size)| *size)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_next_rating_is_not_below_the_current_but_for_rounding() {
        let next =
            [0.0, 15.0, 15.01, 12.0 * 1.25, 16.0 * 1.25 + 1e-12, 801.0, 1200.0, 1201.0].map(next_rating_a);
        assert_eq!(next[..6], [15.0, 15.0, 20.0, 15.0, 20.0, 900.0].map(Some));
        assert_eq!(next[6..], [Some(1200.0), None]);
        assert!(RATINGS_A.is_sorted() && SMALL_RATINGS_A.is_sorted());
    }

    #[test]
    fn standard_ratings_are_known() {
        assert!([1.0, 10.0, 15.0, 30.0, 1200.0].into_iter().all(is_standard));
        assert!(![12.0, 27.84, 55.0, 1600.0].into_iter().any(is_standard));
    }

    #[test]
    fn a_device_may_be_the_next_above_the_ampacity_only_without_receptacles() {
        assert!(permits(30.0, 27.84, true));
        assert!(!permits(30.0, 27.84, false));
        assert!(permits(30.0, 30.0 - 1e-12, false));
    }

    #[test]
    fn a_device_may_not_skip_a_standard_rating() {
        assert!(!permits(30.0, 25.0, true), "25 A is itself standard");
        assert!(!permits(30.0, 24.0, true), "25 A comes before it");
        assert!(!permits(15.0, 9.0, true), "10 A comes before it");
        assert!(!permits(28.0, 27.84, true), "28 A is not standard");
    }

    #[test]
    fn rounding_up_ends_at_800_amperes() {
        assert!(permits(800.0, 760.0, true));
        assert!(!permits(900.0, 860.0, true));
        assert!(permits(900.0, 900.0, true));
    }

    #[test]
    fn small_conductors_have_limits_of_their_own() {
        let caps = |material| Size::ALL.map(|size| small_conductor_cap_a(size, material));
        assert_eq!(
            caps(Material::Copper)[..6],
            [Some(7.0), Some(10.0), Some(15.0), Some(20.0), Some(30.0), None]
        );
        assert_eq!(caps(Material::Aluminum)[2..6], [None, Some(15.0), Some(25.0), None]);
    }

    #[test]
    fn only_large_conductors_lie_in_parallel() {
        assert!(parallel_allowed(Size::AWG_18, 1));
        assert!(!parallel_allowed(Size::AWG_2, 2));
        assert!(parallel_allowed(Size::AWG_1_0, 2));
    }

    #[test]
    fn grounding_follows_the_device() {
        let sizes = [10.0, 15.0, 20.0, 30.0, 60.0, 70.0, 100.0].map(|a| grounding_size(a).map(Size::name));
        assert_eq!(sizes, ["14", "14", "12", "10", "10", "8", "8"].map(Some));
        assert_eq!(grounding_size(110.0), None);
    }
}
