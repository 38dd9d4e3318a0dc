//! Cooling units at random states, from rating to heat and power.

use crate::rows::{close, numbers, rows};
use wainwright::cooling_load::equipment::curves::{ROOM_UNIT, SPLIT_UNIT};
use wainwright::cooling_load::equipment::unit::{CoolingUnit, Rating};

/// How near heat and transfer [share] and temperatures [K] must come.
const WITHIN: f64 = 1e-8;

#[test]
fn every_state_of_the_vectors() {
    let mut count = 0;
    let mut before = None;
    for cells in rows(include_str!("coil_random.csv")) {
        let curves = if cells[0] == "room" { ROOM_UNIT } else { SPLIT_UNIT };
        let [
            capacity_w,
            power_w,
            sensible_fraction,
            flow_m3_s,
            room_c,
            ratio,
            outdoor_c,
            pressure_pa,
            expected @ ..,
        ]: [f64; 15] = numbers(&cells[1..]);
        let [transfer_kg_s, total_w, sensible_w, latent_w, running_w, wet_c, apparatus_c] = expected;
        let rating = Rating { capacity_w, power_w, sensible_fraction, flow_m3_s };
        let unit = CoolingUnit::rated(&rating, curves).unwrap();
        close(&cells, unit.transfer_kg_s, transfer_kg_s, WITHIN * transfer_kg_s);
        // The row before is as bad a guess as any.
        for guess in [None, before.as_ref()] {
            let running = unit.at(room_c, ratio, outdoor_c, pressure_pa, guess);
            close(&cells, running.total_w, total_w, WITHIN * total_w);
            close(&cells, running.sensible_w, sensible_w, WITHIN * sensible_w);
            close(&cells, running.latent_w, latent_w, WITHIN * total_w);
            close(&cells, running.power_w, running_w, WITHIN * running_w);
            close(&cells, running.wet_bulb_c, wet_c, WITHIN);
            close(&cells, running.apparatus_c, apparatus_c, WITHIN);
            let trusted = (12.0..=25.0).contains(&wet_c) && (20.0..=46.0).contains(&outdoor_c);
            assert_eq!(running.extrapolated, !trusted, "{cells:?}");
        }
        before = Some(unit.at(room_c, ratio, outdoor_c, pressure_pa, None));
        count += 1;
    }
    assert_eq!(count, 200);
}
