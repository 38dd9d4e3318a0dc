//! Capacity and power of a window unit.

use crate::rows::{close, numbers, rows};
use wainwright::cooling_load::equipment::curves::ROOM_UNIT_MEASURED;

/// Half of the last digit printed; one value lies in the very middle.
const HALF_DIGIT: f64 = 5.000_001e-7;

#[test]
fn every_state_of_the_vectors() {
    let mut count = 0;
    for cells in rows(include_str!("curves.csv")) {
        let [wet_bulb_c, outdoor_c, capacity, input_ratio] = numbers(&cells);
        close(&cells, ROOM_UNIT_MEASURED.capacity.at(wet_bulb_c, outdoor_c), capacity, HALF_DIGIT);
        close(&cells, ROOM_UNIT_MEASURED.input_ratio.at(wet_bulb_c, outdoor_c), input_ratio, HALF_DIGIT);
        count += 1;
    }
    assert_eq!(count, 48);
}
