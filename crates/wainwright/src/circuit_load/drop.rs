//! Voltage lost along a conductor, and the area that keeps a loss within bounds.

use crate::units::{M_PER_FT, MM2_PER_CMIL};

/// Resistivity for sizing copper on boats [Ω·mm²/m]: 10.75 Ω·cmil/ft, annealed copper at 29 °C.
///
/// Source: ABYC E-11, `from memory`.
pub const MARINE_OHM_MM2_PER_M: f64 = 10.75 * MM2_PER_CMIL / M_PER_FT;

/// Resistivity for sizing copper in buildings [Ω·mm²/m]: 12.9 Ω·cmil/ft, stranded wire at 75 °C, or annealed copper
/// itself at 82 °C.
///
/// Source: NEC Chapter 9, Table 8, area times resistance; `common practice`.
pub const BUILDING_OHM_MM2_PER_M: f64 = 12.9 * MM2_PER_CMIL / M_PER_FT;

/// Resistance of a chassis and its lugs as the way back [Ω]: 1 to 5 mΩ, of which the greatest is taken.
///
/// Source: `common practice`.
pub const CHASSIS_OHM: f64 = 0.005;

/// Resistance from the source to the load and back.
///
/// `R = 2 l r`, with the chassis for the way back `R = l r + R_c`
///
/// - `run_m`           length one way l [m], 0 or more
/// - `ohm_per_m`       resistance of one conductor r [Ω/m]
/// - `chassis_return`  true where the chassis is the way back
///
/// Returns the resistance [Ω].
///
/// Source: Ohm's law; [`CHASSIS_OHM`].
pub fn loop_ohm(run_m: f64, ohm_per_m: f64, chassis_return: bool) -> f64 {
    if chassis_return { run_m * ohm_per_m + CHASSIS_OHM } else { 2.0 * run_m * ohm_per_m }
}

/// Voltage lost by direct current, or by alternating current of power factor 1.
///
/// `ΔV = I R`
///
/// - `current_a`  current I [A]
/// - `run_m`, `ohm_per_m`, `chassis_return`  as in [`loop_ohm`]
///
/// Returns the drop [V].
///
/// Source: Ohm's law.
pub fn dc_v(current_a: f64, run_m: f64, ohm_per_m: f64, chassis_return: bool) -> f64 {
    current_a * loop_ohm(run_m, ohm_per_m, chassis_return)
}

/// Voltage lost by alternating current, nearly.
///
/// `ΔV = I (R cos φ + X sin φ)`
///
/// - `current_a`           current I [A]
/// - `loop_ohm`            resistance there and back R [Ω]
/// - `loop_reactance_ohm`  reactance there and back X [Ω]
/// - `power_factor`        cos φ of the load, lagging, 0 to 1
///
/// Returns the drop [V]: exact at power factor R/√(R² + X²), elsewhere slightly too small.
///
/// Source: UFC 3-520-01, Appendix B; NEC Chapter 9, Table 9, note 2.
pub fn ac_approximate_v(current_a: f64, loop_ohm: f64, loop_reactance_ohm: f64, power_factor: f64) -> f64 {
    current_a * (loop_ohm * power_factor + loop_reactance_ohm * reactive_factor(power_factor))
}

/// Voltage lost by alternating current from a source of known voltage.
///
/// `ΔV = V_s + a − √(V_s² − b²)`, `a = I (R cos φ + X sin φ)`, `b = I (X cos φ − R sin φ)`
///
/// - `source_v`            voltage at the source V_s [V]
/// - `current_a`, `loop_ohm`, `loop_reactance_ohm`, `power_factor`  as in [`ac_approximate_v`]
///
/// Returns the drop [V], or none where nothing is left at the load.
///
/// Source: phasor diagram of a line and its load, as in any text on power systems.
pub fn ac_exact_v(
    source_v: f64,
    current_a: f64,
    loop_ohm: f64,
    loop_reactance_ohm: f64,
    power_factor: f64,
) -> Option<f64> {
    let along_v = ac_approximate_v(current_a, loop_ohm, loop_reactance_ohm, power_factor);
    let across_v = current_a * (loop_reactance_ohm * power_factor - loop_ohm * reactive_factor(power_factor));
    let load_v = (source_v * source_v - across_v * across_v).sqrt() - along_v;
    (load_v > 0.0).then_some(source_v - load_v)
}

/// sin φ of a power factor cos φ.
fn reactive_factor(power_factor: f64) -> f64 {
    (1.0 - power_factor * power_factor).max(0.0).sqrt()
}

/// Area of conductor that loses no more than a given voltage: the circular-mil method.
///
/// `A = ρ I L / ΔV`
///
/// - `ohm_mm2_per_m`  resistivity ρ [Ω·mm²/m], such as [`MARINE_OHM_MM2_PER_M`]
/// - `current_a`      current I [A]
/// - `loop_m`         length there and back L [m]
/// - `drop_v`         voltage that may be lost ΔV [V], above 0
///
/// Returns the area [mm²].
///
/// Source: ABYC E-11 and `common practice`, in circular mils and feet.
pub fn area_for_drop_mm2(ohm_mm2_per_m: f64, current_a: f64, loop_m: f64, drop_v: f64) -> f64 {
    ohm_mm2_per_m * current_a * loop_m / drop_v
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::standards::ampacity::Material;
    use crate::standards::resistance::dc_75c_ohm_per_m;
    use crate::standards::size::Size;

    #[test]
    fn a_larger_wire_never_drops_more() {
        let drops = Size::ALL.map(|size| dc_v(20.0, 5.0, dc_75c_ohm_per_m(size, Material::Copper), false));
        assert!(drops.windows(2).all(|pair| pair[0] > pair[1]));
    }

    #[test]
    fn drop_is_linear_in_length_and_current() {
        let one = dc_v(10.0, 3.0, 0.006, false);
        assert!((dc_v(20.0, 3.0, 0.006, false) - 2.0 * one).abs() < 1e-15);
        assert!((dc_v(10.0, 6.0, 0.006, false) - 2.0 * one).abs() < 1e-15);
        assert_eq!(dc_v(0.0, 3.0, 0.006, true), 0.0);
    }

    #[test]
    fn a_chassis_return_takes_the_place_of_one_conductor() {
        assert_eq!(loop_ohm(10.0, 0.01, false), 0.2);
        assert_eq!(loop_ohm(10.0, 0.01, true), 0.1 + CHASSIS_OHM);
    }

    #[test]
    fn at_power_factor_1_without_reactance_all_methods_agree() {
        let simple = dc_v(16.0, 15.0, 0.0065, false);
        let resistance = loop_ohm(15.0, 0.0065, false);
        assert!((ac_approximate_v(16.0, resistance, 0.0, 1.0) - simple).abs() < 1e-12);
        assert!((ac_exact_v(120.0, 16.0, resistance, 0.0, 1.0).unwrap() - simple).abs() < 1e-12);
    }

    #[test]
    fn the_exact_drop_is_never_below_the_approximate_one() {
        for hundredth in 0..=100 {
            let power_factor = f64::from(hundredth) / 100.0;
            let approximate = ac_approximate_v(16.0, 0.2, 0.05, power_factor);
            assert!(ac_exact_v(120.0, 16.0, 0.2, 0.05, power_factor).unwrap() >= approximate - 1e-12);
        }
    }

    #[test]
    fn the_exact_load_voltage_and_the_drop_along_the_line_make_up_the_source() {
        // Load voltage along the real axis, current lagging by φ.
        let (source_v, current_a, r, x, power_factor) = (120.0, 16.0, 0.2, 0.05, 0.85_f64);
        let load_v = source_v - ac_exact_v(source_v, current_a, r, x, power_factor).unwrap();
        let sine = (1.0 - power_factor * power_factor).sqrt();
        let real = load_v + current_a * (r * power_factor + x * sine);
        let imaginary = current_a * (x * power_factor - r * sine);
        assert!((real.hypot(imaginary) - source_v).abs() < 1e-12);
    }

    #[test]
    fn a_line_that_eats_the_whole_voltage_has_no_drop() {
        assert_eq!(ac_exact_v(120.0, 1000.0, 0.2, 0.0, 1.0), None);
        assert_eq!(ac_exact_v(120.0, 1000.0, 0.0, 0.2, 1.0), None);
    }

    #[test]
    fn an_area_made_for_a_drop_has_that_drop() {
        let area_mm2 = area_for_drop_mm2(MARINE_OHM_MM2_PER_M, 10.0, 6.0, 0.36);
        assert!((dc_v(10.0, 3.0, MARINE_OHM_MM2_PER_M / area_mm2, false) - 0.36).abs() < 1e-12);
    }
}
