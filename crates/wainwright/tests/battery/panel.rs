//! Cell temperature and module power.

use crate::rows::{close, numbers, rows};
use wainwright::energy_budget::cell_temperature as cell;
use wainwright::energy_budget::module_power::{USUAL_LOSSES, combined_loss, low_light_module_w, module_w};

#[test]
fn every_row_of_the_cell_temperatures() {
    let mut count = 0;
    for cells in rows(include_str!("cell_temperature.csv")) {
        let [sun, air, wind, expected @ ..]: [f64; 12] = numbers(&cells);
        let worked_out = [
            cell::ross_c(sun, air, cell::ross_k_m2_per_w(45.0)),
            cell::ross_c(sun, air, 0.0563),
            cell::faiman_c(sun, air, wind, 25.0, 6.84),
            cell::heat_loss_c(sun, air, cell::FREE_LOSS_W_PER_M2_K, 0.9, 0.1),
            cell::heat_loss_c(sun, air, cell::INSULATED_LOSS_W_PER_M2_K, 0.9, 0.1),
            cell::sandia_c(sun, air, wind, cell::OPEN_GLASS_POLYMER),
            cell::sandia_c(sun, air, wind, cell::CLOSE_GLASS_GLASS),
            cell::sandia_c(sun, air, wind, cell::INSULATED_GLASS_POLYMER),
            cell::noct_wind_c(sun, air, wind, 45.0, 0.20),
        ];
        for (worked_out_c, expected_c) in worked_out.into_iter().zip(expected) {
            // The last model is not tabled without wind.
            if expected_c.is_nan() {
                assert_eq!(wind, 0.0);
            } else {
                close(&cells, worked_out_c, expected_c, 1e-6);
            }
        }
        count += 1;
    }
    assert_eq!(count, 60);
}

#[test]
fn every_row_of_the_module_powers() {
    let mut count = 0;
    for cells in rows(include_str!("module_power.csv")) {
        let [sun, cell_c, rated_w, gamma_per_c, power_w, low_light_w, loss_percent] = numbers(&cells);
        close(&cells, module_w(sun, cell_c, rated_w, gamma_per_c), power_w, 1e-6);
        close(&cells, low_light_module_w(sun, cell_c, rated_w, gamma_per_c, 0.01), low_light_w, 1e-6);
        close(&cells, 100.0 * combined_loss(&USUAL_LOSSES), loss_percent, 1e-6);
        count += 1;
    }
    assert_eq!(count, 32);
}
