//! Published worked examples of solar wiring. Each test names its source; tolerance: the digits published.

use wainwright::circuit_load::solar_wiring::{
    cold_voltage_by_factor_v, cold_voltage_by_volts_v, cold_voltage_v, conductor_a, most_current_a,
};
use wainwright::standards::photovoltaic::cold_voltage_factor;

use super::printed::assert_printed;

/// Source: "Code Calculations for an Off-Grid PV System", sponsored by Sandia National Laboratories. A short-circuit
/// current of 5.46 A, by 1.25 and by 1.25 again, is 8.52 A. It cuts to hundredths at each step, which loses a hundredth.
#[test]
fn a_module_of_5_46_a_asks_for_8_52_a() {
    let cut = |value: f64| (100.0 * value).floor() / 100.0;
    assert_eq!(cut(conductor_a(cut(most_current_a(1, 5.46)))), 8.52);
    assert_printed(conductor_a(most_current_a(1, 5.46)), "8.53");
}

/// Source: a text on the voltage of solar arrays under NEC 690.7(A), `from memory`, inputs and answers alike; the
/// arithmetic confirms them. Twelve modules of 38.3 V at −7 °C: 513 V by −0.36 %/°C, 512 V by −0.137 V/°C, 524 V by the
/// table's 1.14.
#[test]
fn twelve_modules_in_the_cold_reach_512_to_524_v() {
    assert_printed(cold_voltage_v(12, 38.3, -0.0036, -7.0), "513");
    assert_printed(cold_voltage_by_volts_v(12, 38.3, -0.137, -7.0), "512");
    let factor = cold_voltage_factor(-7.0).unwrap();
    assert_printed(factor, "1.14");
    assert_printed(cold_voltage_by_factor_v(12, 38.3, factor), "524");
}
