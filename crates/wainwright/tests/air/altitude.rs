//! Pressure and density by height.

use crate::rows::{as_printed, rows};
use wainwright::air::pressure::{SEA_LEVEL_PA, standard_pa};
use wainwright::air::properties::density_kg_m3;
use wainwright::units::ft;

#[test]
fn every_row_of_the_vectors() {
    let mut count = 0;
    for cells in rows(include_str!("altitude.csv")) {
        let [altitude_m, altitude_ft, pressure_pa, density, factor] = cells[..] else { panic!("{cells:?}") };
        let altitude_m: f64 = altitude_m.parse().unwrap();
        let worked_out_pa = standard_pa(altitude_m);
        as_printed(&cells, ft(altitude_m), altitude_ft);
        as_printed(&cells, worked_out_pa, pressure_pa);
        as_printed(&cells, density_kg_m3(20.0, 0.0, worked_out_pa), density);
        as_printed(&cells, worked_out_pa / SEA_LEVEL_PA, factor);
        count += 1;
    }
    assert_eq!(count, 13);
}
