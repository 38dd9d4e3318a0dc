//! Figures that others have printed.

use wainwright::cooling_load::equipment::curves::{Biquadratic, ROOM_UNIT_MEASURED};
use wainwright::cooling_load::equipment::propane;
use wainwright::cooling_load::equipment::rating::{CYCLING_DEGRADATION, OUTDOOR_C, ROOM_WET_BULB_C, eer_b};
use wainwright::cooling_load::equipment::room_area::by_area_w;
use wainwright::units::{btu_h, m2};

/// 10 CFR 430, Appendix M to Subpart B, as quoted: SEER 12 with a degradation of 0.25.
#[test]
fn a_seasonal_ratio_of_12_is_13_71_in_test_b() {
    assert_eq!(format!("{:.2}", eer_b(12.0, CYCLING_DEGRADATION)), "13.71");
}

/// NREL/TP-5500-57617, quoted at second hand: the polynomials of a window unit at its rating point.
#[test]
fn polynomials_of_a_window_unit_at_the_rating_point() {
    let at = |curve: &Biquadratic| format!("{:.4}", curve.at(ROOM_WET_BULB_C, OUTDOOR_C));
    assert_eq!(at(&ROOM_UNIT_MEASURED.capacity), "0.9947");
    assert_eq!(at(&ROOM_UNIT_MEASURED.input_ratio), "0.9990");
}

/// ENERGY STAR, room air conditioners, as reprinted: floors to 550 ft², and 1,100 ft².
#[test]
fn capacity_by_floor() {
    for (floor_ft2, capacity_btu_h) in [
        (120.0, 5000.0),
        (200.0, 6000.0),
        (275.0, 7000.0),
        (325.0, 8000.0),
        (375.0, 9000.0),
        (425.0, 10_000.0),
        (500.0, 12_000.0),
        (1100.0, 21_000.0),
    ] {
        let capacity_w = by_area_w(m2(floor_ft2)).unwrap();
        assert!((btu_h(capacity_w) - capacity_btu_h).abs() < 1e-9, "{floor_ft2}");
    }
}

/// Stoichiometry with the molar masses 18.015 and 44.096: `C3H8 + 5 O2 → 3 CO2 + 4 H2O`.
#[test]
fn water_of_burning_propane() {
    assert!((propane::WATER_KG_PER_KG - 4.0 * 18.015 / 44.096).abs() < 1e-4);
    assert_eq!(format!("{:.3}", propane::WATER_KG_PER_KG), "1.634");
}
