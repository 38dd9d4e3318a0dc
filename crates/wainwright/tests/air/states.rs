//! States of moist air: psychrolib has the same equations, CoolProp a real gas.

use crate::rows::{as_printed, close, numbers, rows};
use wainwright::air::dew_point::dew_point_c;
use wainwright::air::humidity::{of_relative, vapor_pa};
use wainwright::air::properties::{
    density_kg_m3, enthalpy_j_kg, specific_heat_j_kg_k, vapor_enthalpy_j_kg, volume_m3_kg,
};
use wainwright::air::saturation::saturation_pa;
use wainwright::air::wet_bulb::wet_bulb_c;

const STATES: &str = include_str!("states.csv");

#[test]
fn every_row_of_psychrolib() {
    let mut count = 0;
    for cells in rows(STATES) {
        let [pressure_pa, air_c, relative, _, _, _, wet_c, ..]: [f64; 15] = numbers(&cells);
        let ratio = of_relative(relative, air_c, pressure_pa);
        as_printed(&cells, saturation_pa(air_c), cells[3]);
        as_printed(&cells, ratio, cells[4]);
        as_printed(&cells, dew_point_c(vapor_pa(ratio, pressure_pa)), cells[5]);
        // It is bisected there to 0.001 K, and printed to 0.0001 K.
        close(&cells, wet_bulb_c(air_c, ratio, pressure_pa), wet_c, 0.002);
        as_printed(&cells, enthalpy_j_kg(air_c, ratio), cells[7]);
        as_printed(&cells, volume_m3_kg(air_c, ratio, pressure_pa), cells[8]);
        as_printed(&cells, density_kg_m3(air_c, ratio, pressure_pa), cells[9]);
        count += 1;
    }
    assert_eq!(count, 306);
}

/// Real air holds up to 0.6 % more water than two ideal gases would; the ASHRAE equations leave that out.
#[test]
fn every_row_of_coolprop() {
    let (mut count, mut above_freezing) = (0, 0);
    for cells in rows(STATES) {
        let [pressure_pa, air_c, relative, _, _, _, _, _, _, _, real, real_dew_c, real_wet_c, real_h, real_v]: [f64; 15] =
            numbers(&cells);
        let ratio = of_relative(relative, air_c, pressure_pa);
        close(&cells, ratio, real, 0.007 * real);
        close(&cells, volume_m3_kg(air_c, ratio, pressure_pa), real_v, 0.007 * real_v);
        // Enthalpy is counted from where it happens to be nothing: it is compared by what air and water each bring to it.
        // And real air under less pressure has some more, for it cools where pressure falls: by 0.27 K a bar (from
        // memory).
        let parts_j_kg = enthalpy_j_kg(air_c.abs(), 0.0) + ratio * vapor_enthalpy_j_kg(air_c);
        let by_pressure_j_kg = 0.27e-5 * specific_heat_j_kg_k(0.0) * (101_325.0 - pressure_pa);
        close(&cells, enthalpy_j_kg(air_c, ratio) + by_pressure_j_kg, real_h, 0.007 * parts_j_kg);
        if real_dew_c > 0.01 {
            close(&cells, dew_point_c(vapor_pa(ratio, pressure_pa)), real_dew_c, 0.02);
        }
        if real_wet_c > 0.01 {
            close(&cells, wet_bulb_c(air_c, ratio, pressure_pa), real_wet_c, 0.03);
            above_freezing += 1;
        }
        count += 1;
    }
    assert_eq!((count, above_freezing), (306, 193));
}
