//! The smallest common air conditioner that holds the box at its temperature.

use crate::units::w_from_btu_h;

use super::case::Case;
use super::cooler::Cooler;
use super::equipment::sizes::STANDARD_BTU_H;
use super::hot_day::RunDay;
use super::lap::Room;

/// So near to the set temperature it is held [K].
pub const HELD_K: f64 = 0.05;

/// The smallest of the common sizes, as efficient as a given one, that holds the box at a temperature.
///
/// The warmest that the box gets falls as the size grows, so that halving the list finds it.
///
/// - `cooler`  the one whose kind it is
/// - `cool_c`  what it is set to [°C]
/// - `room`    where the box stands
///
/// Returns its capacity [BTU/h]; none where the largest does not hold it.
pub fn smallest_btu_h(case: &Case, cooler: &Cooler, cool_c: f64, room: &Room) -> Option<f64> {
    let holds = |btu_h: &f64| {
        let sized = cooler.sized(w_from_btu_h(*btu_h));
        let mut room = Room { guess: None, ..*room };
        RunDay::cooled(case, &sized, cool_c, &mut room).warmest_c <= cool_c + HELD_K
    };
    let first = STANDARD_BTU_H.partition_point(|btu_h| !holds(btu_h));
    STANDARD_BTU_H.get(first).copied()
}
