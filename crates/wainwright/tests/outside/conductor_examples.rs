//! Published worked examples of what a conductor may carry. Each test names its source; tolerance: the digits
//! published.

use wainwright::circuit_load::conductor::{AcWire, WireKind, ac_by_ampacity, ac_by_device};
use wainwright::circuit_load::current::required_a;
use wainwright::circuit_load::fault::{Withstand, withstand_a};
use wainwright::circuit_load::inverter::{Losses, input_a};
use wainwright::circuit_load::solar_wiring::{conductor_a, most_current_a};
use wainwright::standards::ampacity::{Column, Material, ambient_factor, corrected_a, table_a};
use wainwright::standards::motor::{full_load_a, locked_rotor_a};
use wainwright::standards::size::Size;
use wainwright::units::{celsius, mm2};

use super::printed::assert_printed;

/// Copper THHN in a raceway.
fn thhn(terminal: Column, ambient_c: f64, bundled: u32) -> AcWire {
    AcWire {
        material: Material::Copper,
        insulation_c: 90.0,
        terminal,
        ambient_c,
        bundled,
        kind: WireKind::Cable,
    }
}

/// Source: EC&M magazine's code questions, on 110.14(C). Nine 12 AWG THHN carry 21 A, and are still a 20 A circuit.
#[test]
fn nine_conductors_of_12_awg_are_still_a_20_a_circuit() {
    let carried_a = corrected_a(Size::AWG_12, Material::Copper, Column::C90, 30.0, 9).unwrap();
    assert_printed(carried_a, "21");
    let wire = thhn(Column::C60, 30.0, 9);
    assert_eq!(ac_by_device(&wire, 20.0, false, 1), Some(Size::AWG_12));
    assert!(ac_by_device(&wire, 25.0, true, 1) > Some(Size::AWG_12));
}

/// Source: an article on correction factors, 310.15(B)(1). 10 AWG THHN at 120 °F carries 32.8 A by temperature alone.
#[test]
fn ten_awg_at_120_f_carries_32_8_a() {
    let carried_a = corrected_a(Size::AWG_10, Material::Copper, Column::C90, celsius(120.0), 3);
    assert_printed(carried_a.unwrap(), "32.8");
}

/// Source: a code forum's example on 110.14(C). 50 A at 100 °F, four conductors of 6 AWG THHN: 75 × 0.91 × 0.80 =
/// 54.6 A, within the 55 A of 60 °C terminals.
#[test]
fn four_conductors_of_6_awg_at_100_f_carry_50_a() {
    let wire = thhn(Column::C60, celsius(100.0), 4);
    assert_printed(table_a(Size::AWG_6, Material::Copper, Column::C90).unwrap(), "75");
    assert_printed(wire.corrected_a(Size::AWG_6).unwrap(), "54.6");
    assert_printed(wire.uncorrected_a(Size::AWG_6).unwrap(), "55");
    assert_printed(wire.usable_a(Size::AWG_6).unwrap(), "54.6");
    assert_eq!(ac_by_ampacity(&wire, 50.0, 50.0), Some(Size::AWG_6));
}

/// Source: Home Power magazine, on 690.8. A short-circuit current of 8.8 A is 11 A at most, asks for 13.75 A, and
/// takes 14 AWG in the 75 °C column.
#[test]
fn a_module_of_8_8_a_takes_14_awg() {
    let most_a = most_current_a(1, 8.8);
    assert_printed(most_a, "11");
    assert_printed(conductor_a(most_a), "13.75");
    let wire = thhn(Column::C75, 30.0, 2);
    assert_eq!(ac_by_ampacity(&wire, conductor_a(most_a), most_a), Some(Size::AWG_14));
}

/// Source: a syllabus for installers of photovoltaics, on an inverter's feed. 2500 W at 85 % from 22 V are 134 A, a
/// quarter more is 167 A, over the 0.71 of 60 °C wire at 45 °C is 235 A: 300 kcmil.
///
/// It holds the quarter more against the ampacity after correction, where the code asks for it before.
#[test]
fn an_inverter_of_2500_w_at_22_v_takes_300_kcmil() {
    let load_a = input_a(&Losses::from_efficiency(0.0, 0.85), 2500.0, 22.0);
    let made_for_a = required_a(0.0, load_a);
    let factor = ambient_factor(Column::C60, 45.0).unwrap();
    assert_printed(load_a, "134");
    assert_printed(made_for_a, "167");
    assert_printed(factor, "0.71");
    assert_printed(made_for_a / factor, "235");
    let wire = AcWire { insulation_c: 60.0, ..thhn(Column::C60, 45.0, 2) };
    assert_eq!(ac_by_ampacity(&wire, made_for_a, made_for_a), Size::of("300k"));
    assert!(ac_by_ampacity(&wire, made_for_a, load_a) < Size::of("300k"));
}

/// Source: NEC Tables 430.248 and 430.251(A), 430.22. 1/2 hp at 115 V: 9.8 A, 58.8 A with the rotor locked. 1 hp: 16 A,
/// and conductors for 20 A.
#[test]
fn motors_of_half_and_one_horsepower_take_what_the_tables_say() {
    assert_printed(full_load_a(0.5, 115.0).unwrap(), "9.8");
    assert_printed(locked_rotor_a(0.5, 115.0).unwrap(), "58.8");
    let one_a = full_load_a(1.0, 115.0).unwrap();
    assert_printed(one_a, "16");
    assert_printed(required_a(0.0, one_a), "20");
}

/// Source: a cable maker's sheet on ICEA P-32-382. From 90 to 250 °C in one second copper bears 0.07195 A a circular
/// mil.
#[test]
fn copper_bears_what_the_cable_maker_prints() {
    assert_printed(withstand_a(mm2(1.0), 1.0, 90.0, 250.0, Withstand::COPPER), "0.07195");
}
