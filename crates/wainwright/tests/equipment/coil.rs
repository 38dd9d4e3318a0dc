//! What a coil takes from the air, wet and dry.
//!
//! How near the vectors can be met follows from how they were made. Their wet bulb is right to 0.001 K and printed to
//! 0.0005 K, so that heat is right to 0.0015 K by the slope of the curve, 0.06 to 0.1 W. Given their heat, the split is
//! right to the last digit printed.

use crate::rows::{as_printed, close, numbers, rows};
use wainwright::air::humidity::of_relative;
use wainwright::air::pressure::SEA_LEVEL_PA;
use wainwright::air::properties::{enthalpy_j_kg, volume_m3_kg};
use wainwright::air::saturation::saturated_ratio;
use wainwright::air::wet_bulb::{ratio_of_wet_bulb, wet_bulb_c};
use wainwright::cooling_load::equipment::coil::{Inlet, contact_kg_s, split};
use wainwright::cooling_load::equipment::curves::ROOM_UNIT_MEASURED;
use wainwright::cooling_load::equipment::rating::FLOW_M3_S_PER_W;
use wainwright::cooling_load::equipment::unit::CoolingUnit;
use wainwright::units::w_from_btu_h;

/// Transfer of the vectors' coil [kg/s], as their note says.
const TRANSFER_KG_S: f64 = 0.181_876_977_153_723;
/// How near the vectors' wet bulb comes, and half of its last digit [K].
const WET_BULB_K: f64 = 0.001 + 0.0005;
/// Half of the last digit of heat [W] and temperature [K].
const HALF_DIGIT: f64 = 0.0005;

fn unit() -> CoolingUnit {
    let capacity_w = w_from_btu_h(5000.0);
    let ratio = ratio_of_wet_bulb(26.6667, 19.4444, SEA_LEVEL_PA);
    CoolingUnit {
        capacity_w,
        power_w: capacity_w,
        flow_kg_s: FLOW_M3_S_PER_W * capacity_w / volume_m3_kg(26.6667, ratio, SEA_LEVEL_PA),
        transfer_kg_s: TRANSFER_KG_S,
        curves: ROOM_UNIT_MEASURED,
    }
}

#[test]
fn every_wet_coil_of_the_vectors() {
    let unit = unit();
    let contact = contact_kg_s(unit.transfer_kg_s, unit.flow_kg_s);
    let mut count = 0;
    for cells in rows(include_str!("coil.csv")).filter(|cells| cells[7] != "0.000") {
        let [room_c, relative, outdoor_c, _, wet_c, total_w, sensible_w, latent_w, apparatus_c, input_ratio] =
            numbers(&cells);
        let ratio = of_relative(relative, room_c, SEA_LEVEL_PA);
        as_printed(&cells, ratio, cells[3]);
        let ours_c = wet_bulb_c(room_c, ratio, SEA_LEVEL_PA);
        close(&cells, ours_c, wet_c, WET_BULB_K);

        let cooling_w = |wet_c| unit.capacity_w * ROOM_UNIT_MEASURED.capacity.at(wet_c, outdoor_c);
        let input = |wet_c| ROOM_UNIT_MEASURED.input_ratio.at(wet_c, outdoor_c);
        let within =
            |of: &dyn Fn(f64) -> f64| (of(ours_c + WET_BULB_K) - of(ours_c - WET_BULB_K)).abs() / 2.0;
        close(&cells, cooling_w(ours_c), total_w, within(&cooling_w) + HALF_DIGIT);
        close(&cells, input(ours_c), input_ratio, within(&input) + 5e-6);

        let inlet = Inlet { air_c: room_c, ratio, pressure_pa: SEA_LEVEL_PA };
        let split = split(&inlet, total_w, contact);
        // The heat they were split from is printed to half a digit too.
        close(&cells, split.sensible_w, sensible_w, 2.0 * HALF_DIGIT);
        close(&cells, split.latent_w, latent_w, 2.0 * HALF_DIGIT);
        close(&cells, split.apparatus_c, apparatus_c, 1.2 * HALF_DIGIT);

        // All of it together, where nothing is clamped.
        let running = unit.at(room_c, ratio, outdoor_c, SEA_LEVEL_PA, None);
        if !running.extrapolated {
            close(&cells, running.total_w, total_w, within(&cooling_w) + HALF_DIGIT);
            close(&cells, running.sensible_w, sensible_w, within(&cooling_w) + 2.0 * HALF_DIGIT);
        }
        count += 1;
    }
    assert_eq!(count, 68);
}

/// A dry coil's vectors raise the wet bulb that the curve is read at, yet keep the enthalpy of the room as it is. The
/// apparatus comes out colder so, and the heat smaller, the more the drier the room. A dry coil cannot tell how dry the
/// room is: here enthalpy and wet bulb are both those of the border of dryness, and the vectors lie below.
#[test]
fn every_dry_coil_of_the_vectors() {
    let unit = unit();
    let contact = contact_kg_s(unit.transfer_kg_s, unit.flow_kg_s);
    let mut count = 0;
    for cells in rows(include_str!("coil.csv")).filter(|cells| cells[7] == "0.000") {
        let [room_c, relative, outdoor_c, _, wet_c, total_w, _, _, apparatus_c, _] = numbers(&cells);
        let ratio = of_relative(relative, room_c, SEA_LEVEL_PA);
        let wet_bulb_of = |ratio| wet_bulb_c(room_c, ratio, SEA_LEVEL_PA);

        // What the vectors solve: the wet bulb of their apparatus' humidity, within 0.01 K, and the room's enthalpy.
        close(&cells, wet_bulb_of(saturated_ratio(apparatus_c, SEA_LEVEL_PA)), wet_c, 0.01);
        let at_coil = enthalpy_j_kg(apparatus_c, saturated_ratio(apparatus_c, SEA_LEVEL_PA));
        let from_room_w = contact * (enthalpy_j_kg(room_c, ratio) - at_coil);
        // 0.0005 K of apparatus: 2,000 J/(kg·K) and more by 0.065 kg/s.
        close(&cells, from_room_w, total_w, 0.1);

        // What is solved here: both of the border.
        let running = unit.at(room_c, ratio, outdoor_c, SEA_LEVEL_PA, None);
        let border = saturated_ratio(running.apparatus_c, SEA_LEVEL_PA);
        close(&cells, wet_bulb_of(border), running.wet_bulb_c, 1e-6);
        let at_coil = enthalpy_j_kg(running.apparatus_c, border);
        close(&cells, contact * (enthalpy_j_kg(room_c, border) - at_coil), running.total_w, 1e-5);
        let cooling_w = unit.capacity_w * ROOM_UNIT_MEASURED.capacity.at(running.wet_bulb_c, outdoor_c);
        close(&cells, cooling_w, running.total_w, 1e-9);

        assert_eq!((running.sensible_w, running.latent_w), (running.total_w, 0.0));
        let above = running.total_w / total_w - 1.0;
        assert!((0.0..0.022).contains(&above), "{cells:?}: {above}");
        count += 1;
    }
    assert_eq!(count, 7);
}
