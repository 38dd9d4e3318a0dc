//! Lead-acid capacity by current.

use crate::rows::{close, numbers, rows};
use wainwright::energy_budget::peukert::{delivered_ah, rerated_ah, run_h};

#[test]
fn every_row_of_the_vectors() {
    let mut count = 0;
    for cells in rows(include_str!("peukert.csv")) {
        let [rated_ah, rated_h, current_a, exponent, time_h, capacity_ah, at_100_h, at_10_h] =
            numbers(&cells);
        close(&cells, run_h(rated_ah, rated_h, current_a, exponent), time_h, 1e-6);
        close(&cells, delivered_ah(rated_ah, rated_h, current_a, exponent), capacity_ah, 1e-6);
        close(&cells, rerated_ah(rated_ah, rated_h, exponent, 100.0), at_100_h, 1e-6);
        close(&cells, rerated_ah(rated_ah, rated_h, exponent, 10.0), at_10_h, 1e-6);
        count += 1;
    }
    assert_eq!(count, 30);
}
