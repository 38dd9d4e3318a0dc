//! Published worked examples of voltage lost in a wire. Each test names its source; tolerance: the digits published.
//! Two whole charts are held cell by cell in the check values of circuit load.

use wainwright::circuit_load::conductor::by_area;
use wainwright::circuit_load::drop::{BUILDING_OHM_MM2_PER_M, MARINE_OHM_MM2_PER_M, area_for_drop_mm2, dc_v};
use wainwright::standards::ampacity::Material;
use wainwright::standards::resistance::dc_75c_ohm_per_m;
use wainwright::standards::size::{Areas, Size};
use wainwright::units::{cmil, m_from_ft};

use super::printed::assert_printed;

/// Source: a text for electricians' examinations, K method. 30 A over 180 ft of 120 V with 3 % lost needs 38,700 cmil:
/// 4 AWG.
#[test]
fn thirty_amperes_over_180_ft_take_4_awg() {
    let needed_mm2 = area_for_drop_mm2(BUILDING_OHM_MM2_PER_M, 30.0, m_from_ft(2.0 * 180.0), 0.03 * 120.0);
    assert_printed(cmil(needed_mm2), "38,700");
    assert_eq!(by_area(Areas::Nominal, needed_mm2), Some(Size::AWG_4));
}

/// Source: a textbook's page on NEC Chapter 9, Table 8. 4 A over 100 ft of 16 AWG lose 4.0 V, which of 24 V is 16.7 %
/// (of the volts so rounded).
#[test]
fn four_amperes_over_100_ft_of_16_awg_lose_4_v() {
    let ohm_per_m = dc_75c_ohm_per_m(Size::AWG_16, Material::Copper);
    let lost_v = dc_v(4.0, m_from_ft(100.0), ohm_per_m, false);
    assert_printed(lost_v, "4.0");
    assert_printed(100.0 * lost_v.round() / 24.0, "16.7");
}

/// Source: a marine supplier's chart after ABYC E-11. A 10 A pump, 11 ft out and 10 ft back at 12 V: 10 AWG where 3 % may
/// be lost, 16 AWG where 10 % may. Marine cable.
#[test]
fn a_pump_of_10_a_takes_10_or_16_awg() {
    let size = |part: f64| {
        let needed_mm2 = area_for_drop_mm2(MARINE_OHM_MM2_PER_M, 10.0, m_from_ft(11.0 + 10.0), part * 12.0);
        by_area(Areas::Marine, needed_mm2)
    };
    assert_eq!([size(0.03), size(0.10)], [Some(Size::AWG_10), Some(Size::AWG_16)]);
}
