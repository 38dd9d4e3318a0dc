//! The rule that sizes a cooling unit by the floor: a check, no more. It presumes a room of an insulated house.

use crate::units::{M2_PER_FT2, W_PER_BTU_H};

/// Floor up to which a capacity serves [ft²], and the capacity [BTU/h].
///
/// Source: ENERGY STAR's table for room air conditioners as reprinted; 14,000 and 18,000 `from memory`. One reprint
/// gives each capacity from 300 ft² up to the next larger room.
const BANDS: [(f64, f64); 10] = [
    (150.0, 5000.0),
    (250.0, 6000.0),
    (300.0, 7000.0),
    (350.0, 8000.0),
    (400.0, 9000.0),
    (450.0, 10_000.0),
    (550.0, 12_000.0),
    (700.0, 14_000.0),
    (1000.0, 18_000.0),
    (1200.0, 21_000.0),
];

/// How much sun a room has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sun {
    /// Heavily shaded: a tenth less.
    Shaded,
    /// As usual.
    Usual,
    /// Very sunny: a tenth more.
    Sunny,
}

/// Cooling capacity for a room by its floor.
///
/// - `area_m2`  floor [m²], 0 or more; on the edge of two bands the smaller capacity counts, and below 100 ft² that of
///   the first band
///
/// Returns the capacity [W]; none above 1,200 ft².
///
/// Source: ENERGY STAR, room air conditioners, as reprinted.
pub fn by_area_w(area_m2: f64) -> Option<f64> {
    let band = BANDS.iter().find(|(up_to_ft2, _)| area_m2 <= up_to_ft2 * M2_PER_FT2);
    band.map(|(_, btu_h)| btu_h * W_PER_BTU_H)
}

/// Cooling capacity for a room: [`by_area_w`] with what the table adds and takes off.
///
/// `f Q + 600 (n − 2) + 4000`, in BTU/h
///
/// - `area_m2`  floor [m²], 0 or more
/// - `sun`      how much sun it has: f is 0.9, 1 or 1.1
/// - `people`   how many use it n; up to two are in the table
/// - `kitchen`  whether it is a kitchen, the last term
///
/// Returns the capacity [W]; none above 1,200 ft².
///
/// Source: ENERGY STAR, room air conditioners, as reprinted.
pub fn adjusted_w(area_m2: f64, sun: Sun, people: f64, kitchen: bool) -> Option<f64> {
    let factor = match sun {
        Sun::Shaded => 0.9,
        Sun::Usual => 1.0,
        Sun::Sunny => 1.1,
    };
    let more_btu_h = 600.0 * (people - 2.0).max(0.0) + if kitchen { 4000.0 } else { 0.0 };
    by_area_w(area_m2).map(|capacity_w| factor * capacity_w + more_btu_h * W_PER_BTU_H)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{btu_h, m2, w_from_btu_h};

    #[test]
    fn a_band_ends_where_the_next_begins() {
        for bands in BANDS.windows(2) {
            let [(up_to_ft2, this), (_, next)] = bands else { unreachable!() };
            assert_eq!(by_area_w(m2(*up_to_ft2)), Some(w_from_btu_h(*this)));
            assert_eq!(by_area_w(m2(up_to_ft2 + 1e-6)), Some(w_from_btu_h(*next)));
        }
        assert_eq!((by_area_w(0.0), by_area_w(m2(1200.1))), (Some(w_from_btu_h(5000.0)), None));
    }

    #[test]
    fn sun_people_and_a_kitchen_count() {
        let at = |sun, people, kitchen| adjusted_w(m2(98.0), sun, people, kitchen).map(|w| btu_h(w).round());
        assert_eq!(at(Sun::Usual, 2.0, false), Some(5000.0));
        assert_eq!(at(Sun::Shaded, 1.0, false), Some(4500.0));
        assert_eq!(at(Sun::Sunny, 4.0, true), Some(5500.0 + 1200.0 + 4000.0));
    }
}
