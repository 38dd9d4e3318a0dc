//! Fault current: what a battery drives through a short circuit, and how long a conductor bears it.

use crate::units::MM2_PER_CMIL;

/// Voltage at which a 12 V lead-acid battery stands at the end of the cold-cranking test [V].
///
/// Source: SAE J537, `from memory`.
pub const COLD_CRANKING_END_V: f64 = 7.2;

/// Longest fault for which a conductor's heat may be taken to stay in it [s].
///
/// Source: ICEA P-32-382.
pub const WITHSTAND_MOST_S: f64 = 2.0;

/// Current of a short circuit at the end of a path from a battery.
///
/// `I_sc = V_oc / (R_b + R_p)`
///
/// - `open_circuit_v`  V_oc [V], 0 or more
/// - `battery_ohm`     R_b of the whole bank [Ω], 0 or more; 2 to 4 mΩ for a 12.8 V, 100 Ah lithium iron phosphate
///   battery, whose electronic cut-off does not count (`common practice`)
/// - `path_ohm`        R_p out and back, with its joints [Ω], 0 at the terminals; 0.1 to 0.3 mΩ a joint
///   (`common practice`)
///
/// Returns the current [A]; infinite where there is no resistance at all.
///
/// Source: Ohm's law.
pub fn battery_fault_a(open_circuit_v: f64, battery_ohm: f64, path_ohm: f64) -> f64 {
    open_circuit_v / (battery_ohm + path_ohm)
}

/// Internal resistance of a 12 V lead-acid battery by its cold-cranking rating.
///
/// `R = (V_oc − 7.2) / I_cc`
///
/// - `nominal_open_v`   open-circuit voltage V_oc [V], > 7.2; 12.6 when charged (`common practice`)
/// - `cold_cranking_a`  cold-cranking rating I_cc [A], > 0
///
/// Returns the resistance [Ω] at the test's −18 °C; a warm battery has less, and gives more into a fault.
///
/// Source: the line from open circuit to the test's end, see [`COLD_CRANKING_END_V`].
pub fn resistance_from_cold_cranking_ohm(nominal_open_v: f64, cold_cranking_a: f64) -> f64 {
    (nominal_open_v - COLD_CRANKING_END_V) / cold_cranking_a
}

/// Short-circuit current at the terminals of a 12 V lead-acid battery by its cold-cranking rating.
///
/// `I_sc = V_oc I_cc / (V_oc − 7.2)`
///
/// - `nominal_open_v`, `cold_cranking_a`  as in [`resistance_from_cold_cranking_ohm`]
///
/// Returns the current [A].
///
/// Source: [`battery_fault_a`] at that resistance.
pub fn fault_from_cold_cranking_a(nominal_open_v: f64, cold_cranking_a: f64) -> f64 {
    battery_fault_a(nominal_open_v, resistance_from_cold_cranking_ohm(nominal_open_v, cold_cranking_a), 0.0)
}

/// A metal's heating under fault current: `(I/A)² t = c log₁₀[(T₂ + T₀)/(T₁ + T₀)]`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Withstand {
    /// c [A²·s/mm⁴].
    pub coefficient_a2_s_per_mm4: f64,
    /// T₀ [°C]: the metal's resistance would vanish this far below 0 °C.
    pub zero_resistance_below_c: f64,
}

impl Withstand {
    /// Copper: 0.0297 with areas in circular mils, and 234 °C (ICEA P-32-382).
    pub const COPPER: Self = Self::per_cmil(0.0297, 234.0);
    /// Aluminum: 0.0125 with areas in circular mils, and 228 °C (ICEA P-32-382).
    pub const ALUMINUM: Self = Self::per_cmil(0.0125, 228.0);

    const fn per_cmil(coefficient_a2_s_per_cmil2: f64, zero_resistance_below_c: f64) -> Self {
        Self {
            coefficient_a2_s_per_mm4: coefficient_a2_s_per_cmil2 / (MM2_PER_CMIL * MM2_PER_CMIL),
            zero_resistance_below_c,
        }
    }

    /// `(I/A)² t` that takes the metal from one temperature to another [A²·s/mm⁴].
    fn let_through_a2_s_per_mm4(self, from_c: f64, to_c: f64) -> f64 {
        let (from, to) = (from_c + self.zero_resistance_below_c, to_c + self.zero_resistance_below_c);
        self.coefficient_a2_s_per_mm4 * (to / from).log10()
    }
}

/// How long a conductor bears a fault current.
///
/// `t = (A/I)² c log₁₀[(T₂ + T₀)/(T₁ + T₀)]`
///
/// - `area_mm2`   of the metal A [mm²], > 0
/// - `current_a`  I [A], > 0
/// - `from_c`     temperature before the fault T₁ [°C], > −T₀; the insulation's rating is on the safe side
/// - `to_c`       temperature the insulation bears for a moment T₂ [°C], T₁ or more: 150 for thermoplastic, 250 for
///   cross-linked polyethylene
/// - `metal`      c and T₀
///
/// Returns the time [s]. Above [`WITHSTAND_MOST_S`] heat leaves the metal and the true time is longer.
///
/// Source: ICEA P-32-382.
pub fn withstand_s(area_mm2: f64, current_a: f64, from_c: f64, to_c: f64, metal: Withstand) -> f64 {
    let density = current_a / area_mm2;
    metal.let_through_a2_s_per_mm4(from_c, to_c) / (density * density)
}

/// Fault current a conductor bears for a time.
///
/// `I = A √(c log₁₀[(T₂ + T₀)/(T₁ + T₀)] / t)`
///
/// - `area_mm2`  of the metal A [mm²], 0 or more
/// - `time_s`    t [s], above 0 to [`WITHSTAND_MOST_S`]
/// - `from_c`, `to_c`, `metal`  as in [`withstand_s`]
///
/// Returns the current [A].
///
/// Source: ICEA P-32-382, [`withstand_s`] solved for the current.
pub fn withstand_a(area_mm2: f64, time_s: f64, from_c: f64, to_c: f64, metal: Withstand) -> f64 {
    area_mm2 * (metal.let_through_a2_s_per_mm4(from_c, to_c) / time_s).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::mm2;

    #[test]
    fn cable_limits_the_fault() {
        // 6 ft out and back of 2/0 copper at 20 °C, NFPA 70 Chapter 9 Table 8.
        let path_ohm = 6.0 * 0.0967e-3 * (1.0 + 0.00323 * (20.0 - 75.0));
        assert_eq!(format!("{:.0}", battery_fault_a(13.3, 0.003, path_ohm)), "3825");
        assert_eq!(format!("{:.0}", battery_fault_a(13.3, 0.003, 0.0)), "4433");
    }

    #[test]
    fn cold_cranking_tells_the_resistance() {
        assert_eq!(format!("{:.6}", resistance_from_cold_cranking_ohm(12.6, 650.0)), "0.008308");
        assert_eq!(format!("{:.0}", fault_from_cold_cranking_a(12.6, 650.0)), "1517");
    }

    /// A cable maker prints 0.07195, and 0.06773 for the second: what 234.5 °C gives in place of the standard's 234.
    #[test]
    fn current_density_for_one_second_is_as_published() {
        let k = |from_c, metal| withstand_a(mm2(1.0), 1.0, from_c, 250.0, metal);
        assert_eq!(format!("{:.5}", k(90.0, Withstand::COPPER)), "0.07195");
        assert_eq!(format!("{:.5}", k(105.0, Withstand::COPPER)), "0.06777");
        // Aluminum from 90 to 250 °C: about 0.047 A a circular mil.
        assert_eq!(format!("{:.3}", k(90.0, Withstand::ALUMINUM)), "0.047");
    }

    #[test]
    fn time_and_current_are_inverse() {
        let area_mm2 = mm2(16_510.0);
        let time_s = withstand_s(area_mm2, 3000.0, 90.0, 250.0, Withstand::COPPER);
        assert_eq!(format!("{time_s:.4}"), "0.1568");
        let current_a = withstand_a(area_mm2, time_s, 90.0, 250.0, Withstand::COPPER);
        assert!((current_a / 3000.0 - 1.0).abs() < 1e-14);
        assert_eq!(withstand_s(area_mm2, 3000.0, 250.0, 250.0, Withstand::COPPER), 0.0);
    }

    #[test]
    fn a_thermoplastic_conductor_bears_what_the_standard_has() {
        let a = withstand_a(mm2(6530.0), 1.0, 75.0, 150.0, Withstand::COPPER);
        assert_eq!(format!("{a:.1}"), "345.7");
    }
}
