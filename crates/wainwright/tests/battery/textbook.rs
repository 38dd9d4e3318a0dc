//! Examples of textbooks and papers, and a few of our own.

use crate::rows::{as_printed, rows};
use wainwright::energy_budget::cell_temperature::{ross_c, ross_k_m2_per_w};
use wainwright::energy_budget::kinetic_battery::KineticBattery;
use wainwright::energy_budget::module_curve::open_circuit_v;
use wainwright::energy_budget::peukert::{delivered_ah, exponent, run_h};

/// The cell of Rao and others as fitted by Jongerden and Haverkort, 2008: 7200 A·s, c 0.625, k_0 4.5e-5 1/s.
/// `from memory`.
const CELL: KineticBattery = KineticBattery {
    capacity_ah: 7200.0 / 3600.0,
    available_share: 0.625,
    rate_per_h: 4.5e-5 * 3600.0 / (0.625 * (1.0 - 0.625)),
};
const CELL_A: f64 = 0.96;

/// Minutes until the cell can no longer carry its current, on for `on_s` and off for `off_s` in turn.
fn run_min(on_s: f64, off_s: f64) -> f64 {
    let mut wells = CELL.at_rest(1.0);
    let mut time_s = 0.0;
    while CELL.most_discharge_a(wells, on_s / 3600.0) >= CELL_A {
        wells = CELL.after(CELL.after(wells, CELL_A, on_s / 3600.0), 0.0, off_s / 3600.0);
        time_s += on_s + off_s;
    }
    // In so short a time the well at hand falls as good as straight.
    let emptied = CELL.after(wells, CELL_A, on_s / 3600.0);
    let part = wells.available_ah / (wells.available_ah - emptied.available_ah);
    (time_s + part * on_s) / 60.0
}

#[test]
fn every_example() {
    let mut count = 0;
    for cells in rows(include_str!("textbook.csv")) {
        let [example, _, quantity, recomputed, published, _] = cells[..] else { panic!("{cells:?}") };
        let worked_out = match (example, quantity) {
            ("OWN-NOCT", _) => ross_c(1000.0, 30.0, ross_k_m2_per_w(46.0)),
            ("OWN-VOC", _) => open_circuit_v(37.0, -0.0030, -20.0),
            ("PEUKERT-1", "time") => run_h(100.0, 20.0, 10.0, 1.2),
            ("PEUKERT-1", "charge delivered") => delivered_ah(100.0, 20.0, 10.0, 1.2),
            ("OWN-PEUKERT-2", _) => exponent(5.0, 20.0, 20.0, 3.0),
            // 100 Ah at 1 A last 100 h.
            ("PEUKERT-RAW-1", _) => run_h(100.0, 100.0, 5.0, 1.2),
            ("OWN-PEUKERT-3", _) => run_h(120.0, 10.0, 20.0, 1.1),
            ("KIBAM-1", "time without pause") => run_min(0.05, 0.0),
            ("KIBAM-1", "time on and off at 1 Hz") => run_min(0.5, 0.5),
            ("KIBAM-1", "time on and off at 0.2 Hz") => run_min(2.5, 2.5),
            _ => panic!("{cells:?}"),
        };
        as_printed(&cells, worked_out, recomputed);
        if !published.is_empty() {
            as_printed(&cells, worked_out, published);
        }
        count += 1;
    }
    assert_eq!(count, 10);
}
