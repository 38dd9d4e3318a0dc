//! Inverter output over its input, both ways.

use crate::rows::{as_printed, close, numbers, rows};
use wainwright::drawn_power::inverter_curve::{NOMINAL_EFFICIENCY, input_w, output_w};

#[test]
fn every_row_of_the_vectors() {
    let mut count = 0;
    for cells in rows(include_str!("inverter.csv")) {
        let [input, output, _] = numbers(&cells);
        let worked_out = output_w(input, 1.0, NOMINAL_EFFICIENCY);
        as_printed(&cells, worked_out, cells[1]);
        as_printed(&cells, worked_out / input, cells[2]);
        // Beyond its rating the inverter gives no more, and less input is enough for that.
        let needed = input_w(output, 1.0, NOMINAL_EFFICIENCY).unwrap();
        close(&cells, needed, f64::min(input, 1.0), 1e-8);
        count += 1;
    }
    assert_eq!(count, 11);
}
