//! Published points of moist air.

use wainwright::air::dew_point::dew_point_c;
use wainwright::air::humidity::{of_relative, vapor_pa};
use wainwright::air::pressure::SEA_LEVEL_PA;
use wainwright::air::properties::{air_c, enthalpy_j_kg, volume_m3_kg};
use wainwright::air::saturation::saturation_pa;
use wainwright::air::wet_bulb::wet_bulb_c;

/// At sea level: temperature, relative humidity; then vapor pressure of saturated air, humidity ratio, dew point, wet bulb,
/// enthalpy and volume as printed by psychrolib 2.5.0.
const PSYCHROLIB: [(f64, f64, [&str; 6]); 4] = [
    (25.0, 0.5, ["3169.216", "0.00988104", "13.864", "17.889", "50322", "0.858043"]),
    (35.0, 0.5, ["5627.819", "0.01776548", "23.020", "26.141", "80798", "0.897889"]),
    (30.0, 0.7, ["4246.030", "0.01879518", "23.928", "25.503", "78236", "0.884741"]),
    (-10.0, 0.9, ["259.903", "0.00143911", "-11.181", "-10.323", "-6488", "0.747198"]),
];

/// As printed by CoolProp 8.0.0 (HAPropsSI) for the same, without the vapor pressure.
const COOLPROP: [[f64; 5]; 4] = [
    [0.009_925_74, 13.867, 17.884, 50_423.0, 0.857_788],
    [0.017_852_47, 23.026, 26.140, 81_002.0, 0.897_723],
    [0.018_884_03, 23.931, 25.502, 78_435.0, 0.884_534],
    [0.001_445_21, -11.182, -10.324, -6_470.0, 0.746_648],
];

#[test]
fn they_are_those_of_psychrolib_and_near_those_of_coolprop() {
    for ((air_c, relative, [saturated, ratio, dew, wet, enthalpy, volume]), real) in
        PSYCHROLIB.into_iter().zip(COOLPROP)
    {
        let worked_out = of_relative(relative, air_c, SEA_LEVEL_PA);
        let dew_c = dew_point_c(vapor_pa(worked_out, SEA_LEVEL_PA));
        let wet_c = wet_bulb_c(air_c, worked_out, SEA_LEVEL_PA);
        let h_j_kg = enthalpy_j_kg(air_c, worked_out);
        let v_m3_kg = volume_m3_kg(air_c, worked_out, SEA_LEVEL_PA);
        assert_eq!(format!("{:.3}", saturation_pa(air_c)), saturated);
        assert_eq!(format!("{worked_out:.8}"), ratio);
        assert_eq!(format!("{dew_c:.3}"), dew);
        // It is bisected there to 0.001 K.
        assert!((wet_c - wet.parse::<f64>().unwrap()).abs() < 0.001);
        assert_eq!(format!("{h_j_kg:.0}"), enthalpy);
        assert_eq!(format!("{v_m3_kg:.6}"), volume);

        assert!((worked_out / real[0] - 1.0).abs() < 0.007);
        assert!((dew_c - real[1]).abs() < 0.02);
        assert!((wet_c - real[2]).abs() < 0.02);
        assert!((h_j_kg / real[3] - 1.0).abs() < 0.007);
        assert!((v_m3_kg / real[4] - 1.0).abs() < 0.001);
    }
}

/// Source: documentation of psychrolib for Rust and for R: 30 °C at a quarter of saturation, whose figure is cut off there
/// after two decimals; and 30 °C, the last of 20 to 30 °C, with 0.02 kg/kg.
#[test]
fn enthalpies_of_the_documentation() {
    let ratio = of_relative(0.25, 30.0, SEA_LEVEL_PA);
    assert_eq!((100.0 * enthalpy_j_kg(30.0, ratio)).trunc() / 100.0, 47_015.61);
    assert_eq!(enthalpy_j_kg(30.0, 0.02), 81_316.0);
    assert!((air_c(81_316.0, 0.02) - 30.0).abs() < 1e-12);
}
