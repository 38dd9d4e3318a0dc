//! The simple hourly method of ISO 13790 under its thermostat.

use std::f64::consts::TAU;

use crate::rows::{as_printed, close, numbers, rows};
use wainwright::cooling_load::network::hourly_13790::{
    Hour, HourlyBox, MASS_TO_SURFACE_W_M2_K, SURFACE_TO_AIR_W_M2_K,
};
use wainwright::cooling_load::network::nodes::outside_to_mass_w_k;
use wainwright::cooling_load::network::thermostat::{Plant, Setpoints};

/// How near a temperature must come [K]: the digits printed.
const K: f64 = 1e-9;

#[test]
fn every_hour_of_the_vectors() {
    let hourly = HourlyBox {
        faces_m2: 45.0,
        mass_m2: 25.0,
        mass_j_k: 8e5,
        surface_to_air_w_k: SURFACE_TO_AIR_W_M2_K * 45.0,
        outside_to_mass_w_k: outside_to_mass_w_k(45.0, MASS_TO_SURFACE_W_M2_K * 25.0).unwrap(),
        windows_w_k: 9.0,
        ventilation_w_k: 6.0,
    };
    let setpoints = Setpoints { heat_c: 18.0, cool_c: 25.0 };
    let plant = Plant { heat_w: 2000.0, cool_w: 1465.0 };
    let (mut count, mut before_c) = (0, 26.0);
    for cells in rows(include_str!("hourly_13790.csv")) {
        let [_, hour, _, _, internal_w, plant_w, mass_c, surface_c, air_c] = numbers(&cells);
        // The vectors round what drives the box; they were worked out from these.
        let outdoor_c = 30.0 + 7.0 * (TAU * (hour - 15.0) / 24.0).cos();
        let solar_w = f64::max(0.0, 900.0 * (TAU * (hour - 6.0) / 24.0).sin());
        as_printed(&cells, outdoor_c, cells[2]);
        as_printed(&cells, solar_w, cells[3]);
        let hour = Hour { outdoor_c, supply_c: outdoor_c, internal_w, solar_w };
        let (power_w, end) = hourly.hold(before_c, &hour, setpoints, plant, 3600.0);
        close(&cells, power_w, plant_w, 1e-6);
        close(&cells, end.mass_c, mass_c, K);
        close(&cells, end.surface_c, surface_c, K);
        close(&cells, end.air_c, air_c, K);
        before_c = end.mass_c;
        count += 1;
    }
    assert_eq!(count, 72);
}
