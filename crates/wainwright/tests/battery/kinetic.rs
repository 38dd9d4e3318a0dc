//! The kinetic battery: steps and capacities of the vectors.

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
        close(&cells, most_discharge_a, dis_a, 1e-9);
        close(&cells, most_charge_a, chg_a, 1e-9);
        close(&cells, current_a, a, 1e-9);
        close(&cells, wells.available_ah, y1, 1e-9);
        close(&cells, wells.bound_ah, y2, 1e-9);
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
        close(&cells, battery.delivered_ah(hours_h), delivered_ah, 1e-9);
        close(&cells, battery.most_discharge_a(battery.at_rest(1.0), hours_h), current_a, 1e-9);
        count += 1;
    }
    assert_eq!(count, 12);
}
