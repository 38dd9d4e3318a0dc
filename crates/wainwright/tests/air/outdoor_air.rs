//! What outdoor air brings in, exactly and by the trade's short hand.

use crate::rows::{as_printed, numbers, rows};
use wainwright::air::humidity::of_relative;
use wainwright::air::outdoor_air::{TradeFactors, air_load, trade_factors};
use wainwright::air::pressure::standard_pa;
use wainwright::air::properties::{EVAPORATION_J_KG, specific_heat_j_kg_k, volume_m3_kg};
use wainwright::air::wet_bulb::ratio_of_wet_bulb;
use wainwright::units::{GRAINS_PER_LB, J_PER_BTU, KG_PER_LB, btu_h, celsius, difference_f, kg, m3, m3_s};

/// The trade's standard air has 0.075 lb/ft³: dry air at 70 °F and sea level. `common practice`
fn standard_kg_m3() -> f64 {
    kg(0.075) / m3(1.0)
}

/// The factors of standard air, dry.
fn dry() -> TradeFactors {
    trade_factors(standard_kg_m3(), specific_heat_j_kg_k(0.0), EVAPORATION_J_KG)
}

/// Those of standard air with a pound of water in a hundred of dry air.
fn damp() -> TradeFactors {
    trade_factors(standard_kg_m3(), specific_heat_j_kg_k(0.01), EVAPORATION_J_KG)
}

/// Those of the air of a room at 70 °F and half humidity, as it is.
fn room() -> TradeFactors {
    let pressure_pa = standard_pa(0.0);
    let room_c = celsius(70.0);
    let ratio = of_relative(0.5, room_c, pressure_pa);
    let dry_air_kg_m3 = 1.0 / volume_m3_kg(room_c, ratio, pressure_pa);
    trade_factors(dry_air_kg_m3, specific_heat_j_kg_k(ratio), EVAPORATION_J_KG)
}

fn rounded(value: f64, decimals: i32) -> f64 {
    let scale = 10_f64.powi(decimals);
    (value * scale).round() / scale
}

/// Source: `common practice`. 1.08 and 4840 are 60 · 0.075 · 0.24 and 60 · 0.075 · 1076, 1.10 has water in the air; 0.69
/// is 4840 grains, and 0.68 that of room air.
#[test]
fn the_factors_of_the_trade_follow_from_its_standard_air() {
    assert!((dry().dry_air - 4.5).abs() < 1e-12);
    assert_eq!(rounded(dry().sensible, 2), 1.08);
    assert_eq!(rounded(damp().sensible, 2), 1.10);
    assert_eq!(rounded(dry().latent, -1), 4840.0);
    assert_eq!(rounded(dry().latent_by_grain, 2), 0.69);
    assert_eq!(rounded(room().sensible, 2), 1.08);
    assert_eq!(rounded(room().latent_by_grain, 2), 0.68);
}

/// Source: `common practice`: 0.24 BTU/(lb·°F) and 1076 BTU/lb, the trade's own roundings.
#[test]
fn they_are_products_of_what_the_trade_rounds() {
    let btu_lb = J_PER_BTU / KG_PER_LB;
    let factors = trade_factors(standard_kg_m3(), 0.24 * btu_lb * 1.8, 1076.0 * btu_lb);
    assert!((factors.sensible - 60.0 * 0.075 * 0.24).abs() < 1e-12);
    assert!((factors.latent - 60.0 * 0.075 * 1076.0).abs() < 1e-9);
    assert!((factors.latent_by_grain - 60.0 * 0.075 * 1076.0 / 7000.0).abs() < 1e-12);
}

/// Source: trade texts: a cubic foot a minute from 32 to 52 °F takes 21.6 BTU/h.
#[test]
fn a_cubic_foot_a_minute_warmed_by_twenty_degrees() {
    assert_eq!(rounded(dry().sensible * (52.0 - 32.0), 1), 21.6);
}

#[test]
fn every_row_of_the_vectors() {
    let short = [
        (rounded(dry().sensible, 2), rounded(room().latent_by_grain, 2) * GRAINS_PER_LB),
        (rounded(damp().sensible, 2), rounded(dry().latent, -1)),
    ];
    let mut count = 0;
    for cells in rows(include_str!("outdoor_air.csv")) {
        let [altitude_m, outdoor_c, wet_c, room_c, relative, cfm, ..]: [f64; 18] = numbers(&cells);
        let pressure_pa = standard_pa(altitude_m);
        let outdoor = (outdoor_c, ratio_of_wet_bulb(outdoor_c, wet_c, pressure_pa));
        let indoor = (room_c, of_relative(relative, room_c, pressure_pa));
        let load = air_load(m3_s(cfm), outdoor, indoor, pressure_pa);
        as_printed(&cells, outdoor.1, cells[6]);
        as_printed(&cells, indoor.1, cells[7]);
        as_printed(&cells, load.flow_kg_s, cells[8]);
        as_printed(&cells, load.sensible_w + load.latent_w, cells[9]);
        as_printed(&cells, load.sensible_w, cells[10]);
        as_printed(&cells, load.latent_w, cells[11]);
        as_printed(&cells, btu_h(load.sensible_w), cells[12]);
        as_printed(&cells, btu_h(load.latent_w), cells[13]);
        for ((sensible, latent), printed) in short.into_iter().zip(cells[14..].chunks(2)) {
            as_printed(&cells, sensible * cfm * difference_f(outdoor_c - room_c), printed[0]);
            as_printed(&cells, latent * cfm * (outdoor.1 - indoor.1), printed[1]);
        }
        count += 1;
    }
    assert_eq!(count, 6);
}
