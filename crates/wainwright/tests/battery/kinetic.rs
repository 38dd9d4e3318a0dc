//! The kinetic battery: steps and capacities of the vectors, and the run times of a published cell.

use crate::rows::{close, numbers, rows};
use wainwright::energy_budget::kinetic_battery::{KineticBattery, Wells};

#[test]
fn every_step_of_the_vectors() {
    let mut count = 0;
    let mut wells = Wells { available_ah: 0.0, bound_ah: 0.0 };
    for cells in rows(include_str!("kinetic_battery.csv")).filter(|cells| !cells[0].starts_with("capacity")) {
        let [_, available_share, rate_per_h, capacity_ah, step, hours_h, request_a, dis_a, chg_a, a, y1, y2] =
            numbers(&cells);
        let battery = KineticBattery { capacity_ah, available_share, rate_per_h };
        if step == 0.0 {
            wells = battery.at_rest(1.0);
        }
        let most_discharge_a = battery.most_discharge_a(wells, hours_h);
        let most_charge_a = battery.most_charge_a(wells, hours_h);
        let current_a = request_a.min(most_discharge_a).max(most_charge_a);
        wells = battery.after(wells, current_a, hours_h);
        close(most_discharge_a, dis_a, 1e-9);
        close(most_charge_a, chg_a, 1e-9);
        close(current_a, a, 1e-9);
        close(wells.available_ah, y1, 1e-9);
        close(wells.bound_ah, y2, 1e-9);
        count += 1;
    }
    assert_eq!(count, 3 * 48);
}

#[test]
fn every_capacity_of_the_vectors() {
    let mut count = 0;
    for cells in rows(include_str!("kinetic_battery.csv")).filter(|cells| cells[0].starts_with("capacity")) {
        let [_, available_share, rate_per_h, capacity_ah, _, hours_h, _, _, _, current_a, delivered_ah, _] =
            numbers(&cells);
        let battery = KineticBattery { capacity_ah, available_share, rate_per_h };
        close(battery.delivered_ah(hours_h), delivered_ah, 1e-9);
        close(battery.most_discharge_a(battery.at_rest(1.0), hours_h), current_a, 1e-9);
        count += 1;
    }
    assert_eq!(count, 12);
}

/// The cell of Rao and others as fitted by Jongerden and Haverkort, 2008: 7200 A·s, c 0.625, k 1.92e-4 1/s.
/// `from memory`.
const CELL: KineticBattery = KineticBattery { capacity_ah: 2.0, available_share: 0.625, rate_per_h: 0.6912 };
const CELL_A: f64 = 0.96;

/// Minutes until the cell can no longer carry its current, on for `on_s` and off for `off_s` in turn.
fn run_min(on_s: f64, off_s: f64) -> f64 {
    let mut wells = CELL.at_rest(1.0);
    let mut time_s = 0.0;
    while CELL.most_discharge_a(wells, on_s / 3600.0) >= CELL_A {
        wells = CELL.after(CELL.after(wells, CELL_A, on_s / 3600.0), 0.0, off_s / 3600.0);
        time_s += on_s + off_s;
    }
    time_s / 60.0
}

#[test]
fn a_published_cell_lasts_as_long_as_published() {
    close(run_min(0.05, 0.0), 91.14, 0.01);
    close(run_min(0.5, 0.5), 202.94, 0.01 + 1.0 / 60.0);
    close(run_min(2.5, 2.5), 202.93, 0.01 + 5.0 / 60.0);
}
