//! How one and two capacities answer a step.

use crate::rows::{close, numbers, rows};
use wainwright::cooling_load::network::{Drive, Network, State};

/// How near a temperature must come [K]: the digits printed.
const K: f64 = 1e-9;
const STEP_S: f64 = 900.0;

const TWO: Network = Network {
    air_j_k: 2.0e5,
    mass_j_k: 1.1e6,
    surface_to_air_w_k: 160.0,
    mass_to_surface_w_k: 280.0,
    outside_to_mass_w_k: 40.0,
    windows_w_k: 8.0,
    floor_load: None,
};
/// Air that touches nothing but outdoor air, by its exchange.
const ONE: Network = Network { air_j_k: 1.2e6, surface_to_air_w_k: 0.0, ..TWO };
const DRIVE: Drive = Drive {
    outdoor_c: 35.0,
    supply_c: 35.0,
    equivalent_c: 45.0,
    air_w: -1465.0,
    surface_w: 120.0,
    mass_w: 180.0,
    floor_load_w: 0.0,
};

/// Walks a network through the rows of a case, each step by step and all in one.
fn walk(case: &str, network: Network, ventilation_w_k: f64, start: State) {
    let (mut count, mut state) = (0, start);
    let response = network.response(ventilation_w_k, STEP_S);
    for cells in rows(include_str!("steps.csv")).filter(|cells| cells[0] == case) {
        let [_, minute, air_c, mass_c] = numbers(&cells);
        let at_once = network.response(ventilation_w_k, 60.0 * minute).step(&start, &DRIVE);
        for found in [state, at_once] {
            close(&cells, found.air_c, air_c, K);
            // One node has no mass.
            if !mass_c.is_nan() {
                close(&cells, found.mass_c, mass_c, K);
            }
        }
        state = response.step(&state, &DRIVE);
        count += 1;
    }
    assert_eq!(count, 97);
}

#[test]
fn every_row_of_one_node() {
    walk("one_node", ONE, 45.0, State::even(60.0));
}

#[test]
fn every_row_of_two_nodes() {
    walk("two_node", TWO, 6.0, State { mass_c: 55.0, ..State::even(60.0) });
}
