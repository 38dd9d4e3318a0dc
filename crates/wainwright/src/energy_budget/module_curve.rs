//! Voltages and current of a solar module, from the four points of its datasheet.
//!
//! A controller that tracks the maximum power point asks only whether the voltage fits its window. A controller that
//! switches the module straight to the battery (PWM) holds it at the battery's voltage, and takes the current there.

use super::module_power::{RATED_CELL_C, RATED_W_M2};

/// Boltzmann constant over the elementary charge [V/K], from the exact values of both.
///
/// Source: the SI, 2019.
const THERMAL_V_PER_K: f64 = 1.380_649e-23 / 1.602_176_634e-19;
/// 0 °C [K].
const ICE_K: f64 = 273.15;

/// Voltage a controller needs above the battery's to keep charging [V]; to start, up to 5.
///
/// Source: `common practice`.
pub const RUNNING_HEAD_V: f64 = 1.0;
/// Voltage lost between module and battery in a PWM controller and its wires [V].
///
/// Source: `common practice`.
pub const PWM_DROP_V: f64 = 0.3;

/// Open-circuit voltage at a cell temperature.
///
/// `V_oc = V_stc [1 + β (T_c − 25)]`
///
/// - `rated_v`     voltage at standard test conditions V_stc [V]
/// - `beta_per_c`  change with temperature β [1/°C], below 0: about −0.003 for silicon
/// - `cell_c`      cell temperature T_c [°C]: at dawn that of the air
///
/// Returns V_oc [V], never below 0. With a coefficient of its own the voltage at maximum power follows the same line.
///
/// Source: IEC 60891, `from memory`.
pub fn open_circuit_v(rated_v: f64, beta_per_c: f64, cell_c: f64) -> f64 {
    (rated_v * (1.0 + beta_per_c * (cell_c - RATED_CELL_C))).max(0.0)
}

/// Voltage at maximum power at a cell temperature, where the datasheet has no coefficient for it.
///
/// `V_mp = V_mp,stc + β V_oc,stc (T_c − 25)`
///
/// - `rated_mp_v`            voltage at maximum power and standard test conditions V_mp,stc [V]
/// - `rated_oc_v`            open-circuit voltage at them V_oc,stc [V]
/// - `beta_per_c`, `cell_c`  as in [`open_circuit_v`]
///
/// Returns V_mp [V], never below 0.
///
/// Source: the same volts per degree as at open circuit, `common practice`.
pub fn max_power_v(rated_mp_v: f64, rated_oc_v: f64, beta_per_c: f64, cell_c: f64) -> f64 {
    (rated_mp_v + beta_per_c * rated_oc_v * (cell_c - RATED_CELL_C)).max(0.0)
}

/// What the light adds to the open-circuit voltage.
///
/// `ΔV = N n k T / q ln(G/1000)`
///
/// - `effective_w_m2`  irradiance that reaches the cells G [W/m²], 0 or more
/// - `cell_c`          cell temperature [°C], T in kelvin
/// - `cells`           cells in series N, above 0
/// - `ideality`        n, 1.1 to 1.3 for silicon
///
/// Returns ΔV [V], below 0 in less than 1000 W/m²; without bound in the dark.
///
/// Source: Shockley's diode equation at open circuit.
pub fn light_shift_v(effective_w_m2: f64, cell_c: f64, cells: f64, ideality: f64) -> f64 {
    cells * ideality * THERMAL_V_PER_K * (cell_c + ICE_K) * (effective_w_m2 / RATED_W_M2).ln()
}

/// Short-circuit current in the light and at a cell temperature.
///
/// `I_sc = I_stc G/1000 [1 + α (T_c − 25)]`
///
/// - `rated_a`         current at standard test conditions I_stc [A]
/// - `alpha_per_c`     change with temperature α [1/°C], about 0.0005 for silicon
/// - `effective_w_m2`  irradiance that reaches the cells G [W/m²], 0 or more
/// - `cell_c`          cell temperature T_c [°C]
///
/// Returns I_sc [A].
///
/// Source: as [`open_circuit_v`].
pub fn short_circuit_a(rated_a: f64, alpha_per_c: f64, effective_w_m2: f64, cell_c: f64) -> f64 {
    rated_a * effective_w_m2 / RATED_W_M2 * (1.0 + alpha_per_c * (cell_c - RATED_CELL_C))
}

/// Voltage to spare between a hot string and what its controller needs.
///
/// `N V_mp − (V_b + V_h)`
///
/// - `hot_mp_v`   voltage of one module at maximum power at its hottest V_mp [V], from [`max_power_v`]
/// - `modules`    modules in series N
/// - `battery_v`  greatest voltage of the battery in charge V_b [V]: that of absorption
/// - `head_v`     what the controller needs above it V_h [V], [`RUNNING_HEAD_V`] or the datasheet's
///
/// Returns the difference [V]; below 0 the string does not reach, and charge fails on hot days.
///
/// Source: `common practice`.
pub fn hot_spare_v(hot_mp_v: f64, modules: f64, battery_v: f64, head_v: f64) -> f64 {
    modules * hot_mp_v - (battery_v + head_v)
}

/// Four points of a module's current over voltage.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ModulePoints {
    /// Short-circuit current I_sc [A].
    pub isc_a: f64,
    /// Current at maximum power I_mp [A], above 0 and below I_sc.
    pub imp_a: f64,
    /// Voltage at maximum power V_mp [V], above 0 and below V_oc.
    pub vmp_v: f64,
    /// Open-circuit voltage V_oc [V].
    pub voc_v: f64,
}

/// How a module's points move with light and heat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ModuleCoefficients {
    /// Change of the currents with temperature α [1/°C].
    pub alpha_per_c: f64,
    /// Change of the open-circuit voltage with temperature β [1/°C].
    pub beta_per_c: f64,
    /// Cells in series N.
    pub cells: f64,
    /// Ideality of a cell n.
    pub ideality: f64,
}

impl ModulePoints {
    /// The points of a module in other light and at another temperature than it was rated in.
    ///
    /// Both currents move as in [`short_circuit_a`]; both voltages by the same volts, those of [`open_circuit_v`] and
    /// [`light_shift_v`].
    ///
    /// - `coefficients`    of the module
    /// - `effective_w_m2`  irradiance that reaches the cells [W/m²], 0 or more
    /// - `cell_c`          cell temperature [°C]
    ///
    /// In very little light, or very hot, the voltages fall below 0: such points have no [`ModuleCurve`].
    ///
    /// Source: IEC 60891, procedure 1 without the resistances, `from memory`.
    pub fn translated(
        self,
        coefficients: ModuleCoefficients,
        effective_w_m2: f64,
        cell_c: f64,
    ) -> ModulePoints {
        let ModuleCoefficients { alpha_per_c, beta_per_c, cells, ideality } = coefficients;
        let shift_v = self.voc_v * beta_per_c * (cell_c - RATED_CELL_C)
            + light_shift_v(effective_w_m2, cell_c, cells, ideality);
        ModulePoints {
            isc_a: short_circuit_a(self.isc_a, alpha_per_c, effective_w_m2, cell_c),
            imp_a: short_circuit_a(self.imp_a, alpha_per_c, effective_w_m2, cell_c),
            vmp_v: self.vmp_v + shift_v,
            voc_v: self.voc_v + shift_v,
        }
    }
}

/// A module's current at every voltage.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ModuleCurve {
    /// C_1.
    pub c1: f64,
    /// C_2.
    pub c2: f64,
    /// Short-circuit current I_sc [A].
    pub isc_a: f64,
    /// Open-circuit voltage V_oc [V].
    pub voc_v: f64,
}

impl ModuleCurve {
    /// The curve through four points.
    ///
    /// `C_2 = (V_mp/V_oc − 1) / ln(1 − I_mp/I_sc)`, `C_1 = (1 − I_mp/I_sc) e^[−V_mp/(C_2 V_oc)]`
    ///
    /// - `points`  of a datasheet, or [`translated`](ModulePoints::translated)
    ///
    /// Returns none of points that are no module's: currents or voltages out of order or not above 0, or a corner so
    /// sharp that C_1 vanishes.
    ///
    /// Source: Rauschenbach, Solar Cell Array Design Handbook, 1980, `from memory`.
    pub fn through(points: ModulePoints) -> Option<ModuleCurve> {
        let ModulePoints { isc_a, imp_a, vmp_v, voc_v } = points;
        if !(0.0 < imp_a && imp_a < isc_a && 0.0 < vmp_v && vmp_v < voc_v) {
            return None;
        }
        let missing = 1.0 - imp_a / isc_a;
        let c2 = (vmp_v / voc_v - 1.0) / missing.ln();
        let c1 = missing * (-vmp_v / (c2 * voc_v)).exp();
        (c1.is_normal() && c2.is_finite()).then_some(ModuleCurve { c1, c2, isc_a, voc_v })
    }

    /// Current at a voltage.
    ///
    /// `I = I_sc {1 − C_1 [e^(V/(C_2 V_oc)) − 1]}`
    ///
    /// - `voltage_v`  V [V]; below 0 the current is I_sc
    ///
    /// Returns I [A], 0 to I_sc; 0 at V_oc and beyond.
    ///
    /// Source: as [`through`](Self::through).
    pub fn current_a(&self, voltage_v: f64) -> f64 {
        if voltage_v < self.voc_v {
            let bent = (voltage_v.max(0.0) / (self.c2 * self.voc_v)).exp_m1();
            (self.isc_a * (1.0 - self.c1 * bent)).max(0.0)
        } else {
            0.0
        }
    }

    /// Power a PWM controller brings to the battery.
    ///
    /// `P = V_b I(V_b + V_d)`
    ///
    /// - `battery_v`  voltage of the battery V_b [V]; of modules in series, its share for one of them
    /// - `drop_v`     lost on the way V_d [V], for instance [`PWM_DROP_V`]; in series likewise its share
    ///
    /// Returns P [W] of one module; 0 where its open-circuit voltage does not reach.
    ///
    /// Source: `common practice`.
    pub fn pwm_w(&self, battery_v: f64, drop_v: f64) -> f64 {
        battery_v * self.current_a(battery_v + drop_v)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::energy_budget::cell_temperature::ross_c;
    use crate::energy_budget::module_power::module_w;
    use proptest::prelude::*;

    const HUNDRED_WATTS: ModulePoints = ModulePoints { isc_a: 6.0, imp_a: 5.56, vmp_v: 18.0, voc_v: 21.6 };
    const SILICON: ModuleCoefficients =
        ModuleCoefficients { alpha_per_c: 0.0005, beta_per_c: -0.003, cells: 36.0, ideality: 1.2 };

    fn curve(points: ModulePoints) -> ModuleCurve {
        ModuleCurve::through(points).unwrap()
    }

    #[test]
    fn a_curve_from_four_points() {
        let curve = curve(HUNDRED_WATTS);
        assert_eq!(format!("{:.5e} {:.7}", curve.c1, curve.c2), "1.55528e-7 0.0637900");
        let currents =
            [12.0, 13.2, 14.4, 18.0, 21.6].map(|voltage_v| format!("{:.4}", curve.current_a(voltage_v)));
        assert_eq!(currents, ["5.9943", "5.9865", "5.9677", "5.5600", "0.0000"]);
    }

    #[test]
    fn held_at_the_battery_a_module_gives_less_than_it_could() {
        let curve = curve(HUNDRED_WATTS);
        assert_eq!(format!("{:.1}", 13.2 * curve.current_a(13.2)), "79.0");
        assert_eq!(format!("{:.1}", 18.0 * 5.56), "100.1");
        assert_eq!(curve.pwm_w(12.9, 0.3), 12.9 * curve.current_a(13.2));
    }

    #[test]
    fn sixty_cells_on_a_battery_of_twelve_volts_lose_more_than_half() {
        let points = ModulePoints { isc_a: 8.9, imp_a: 8.3, vmp_v: 30.0, voc_v: 37.0 };
        assert!(curve(points).pwm_w(12.9, PWM_DROP_V) < 0.5 * points.imp_a * points.vmp_v);
    }

    #[test]
    fn on_a_hot_roof_the_gap_to_maximum_power_narrows() {
        let share = |cell_c| {
            let points = HUNDRED_WATTS.translated(SILICON, 1000.0, cell_c);
            13.2 * curve(points).current_a(13.2) / (points.vmp_v * points.imp_a)
        };
        assert!(share(25.0) < 0.80 && share(70.0) > 0.88, "{} {}", share(25.0), share(70.0));
    }

    /// With the same volts per degree at both points a module loses with heat what datasheets say it loses.
    #[test]
    fn the_power_of_the_moved_points_falls_as_rated() {
        for cell_c in [0.0, 25.0, 60.0, 75.0] {
            let points = HUNDRED_WATTS.translated(SILICON, 1000.0, cell_c);
            let rated_w = module_w(1000.0, cell_c, 18.0 * 5.56, -0.0035);
            assert!((points.vmp_v * points.imp_a / rated_w - 1.0).abs() < 0.02, "{cell_c}");
        }
    }

    #[test]
    fn nothing_flows_at_open_circuit_and_beyond_nor_from_a_voltage_that_is_no_number() {
        let curve = curve(HUNDRED_WATTS);
        assert_eq!([21.6, 30.0, f64::INFINITY, f64::NAN].map(|v| curve.current_a(v)), [0.0; 4]);
        assert_eq!([0.0, -5.0].map(|v| curve.current_a(v)), [6.0; 2]);
    }

    #[test]
    fn points_that_are_no_modules_have_no_curve() {
        for points in [
            ModulePoints { imp_a: 6.0, ..HUNDRED_WATTS },
            ModulePoints { imp_a: 0.0, ..HUNDRED_WATTS },
            ModulePoints { vmp_v: 21.6, ..HUNDRED_WATTS },
            ModulePoints { vmp_v: -1.0, ..HUNDRED_WATTS },
            ModulePoints { vmp_v: 21.59, ..HUNDRED_WATTS },
            ModulePoints { voc_v: f64::NAN, ..HUNDRED_WATTS },
            HUNDRED_WATTS.translated(SILICON, 0.0, 25.0),
            HUNDRED_WATTS.translated(SILICON, 1000.0, 400.0),
        ] {
            assert_eq!(ModuleCurve::through(points), None, "{points:?}");
        }
    }

    #[test]
    fn a_cold_dawn_raises_the_open_circuit_voltage() {
        assert!((open_circuit_v(37.0, -0.003, -20.0) - 41.995).abs() < 1e-12);
    }

    #[test]
    fn heat_and_light_move_voltage_and_current_as_rated() {
        assert_eq!(max_power_v(18.0, 21.6, -0.003, 25.0), 18.0);
        assert!((max_power_v(18.0, 21.6, -0.003, 65.0) - 15.408).abs() < 1e-12);
        assert_eq!([open_circuit_v(21.6, -0.003, 400.0), max_power_v(18.0, 21.6, -0.003, 400.0)], [0.0; 2]);
        assert_eq!(short_circuit_a(6.0, 0.0005, 500.0, 25.0), 3.0);
        assert!((short_circuit_a(6.0, 0.0005, 1000.0, 65.0) - 6.12).abs() < 1e-12);
        assert_eq!(light_shift_v(1000.0, 25.0, 36.0, 1.2), 0.0);
        // 25.693 mV at 25 °C, 36 cells, n 1.2, ln 0.1.
        assert_eq!(format!("{:.3}", light_shift_v(100.0, 25.0, 36.0, 1.2)), "-2.556");
    }

    #[test]
    fn one_hot_module_reaches_a_lead_acid_battery_and_a_hotter_one_does_not() {
        let spare_v =
            |cell_c| hot_spare_v(max_power_v(18.0, 21.6, -0.003, cell_c), 1.0, 14.4, RUNNING_HEAD_V);
        assert!(spare_v(60.0) > 0.0 && spare_v(70.0) < 0.0);
        assert_eq!(hot_spare_v(18.0, 2.0, 28.5, 1.0), 6.5);
    }

    proptest! {
        #[test]
        fn a_curve_passes_through_its_points(imp in 0.8..0.99f64, vmp in 0.7..0.9f64) {
            let points = ModulePoints { imp_a: 6.0 * imp, vmp_v: 21.6 * vmp, ..HUNDRED_WATTS };
            let curve = curve(points);
            // The equation adds C_1 of I_sc at both ends of the knee.
            let near_a = 6.0 * curve.c1 + 1e-9;
            prop_assert!((curve.current_a(points.vmp_v) - points.imp_a).abs() <= near_a);
            prop_assert!(curve.current_a(21.6 * (1.0 - 1e-12)) <= near_a);
        }

        #[test]
        fn more_voltage_never_draws_more_current(
            effective_w_m2 in 0.0..1300.0f64, cell_c in -40.0..100.0f64,
            voltage_v in -5.0..60.0f64, more_v in 0.0..10.0f64,
        ) {
            if let Some(curve) = ModuleCurve::through(HUNDRED_WATTS.translated(SILICON, effective_w_m2, cell_c)) {
                let low_a = curve.current_a(voltage_v);
                prop_assert!(low_a.is_finite() && (0.0..=curve.isc_a).contains(&low_a));
                prop_assert!(curve.current_a(voltage_v + more_v) <= low_a);
            } else {
                prop_assert!(effective_w_m2 < 1.0);
            }
        }

        #[test]
        fn no_pwm_controller_beats_the_maximum_power_point(
            effective_w_m2 in 50.0..1300.0f64, air_c in -40.0..45.0f64, k_m2_per_w in 0.0..0.0563f64,
            battery_v in 0.0..30.0f64,
        ) {
            let cell_c = ross_c(effective_w_m2, air_c, k_m2_per_w);
            let points = HUNDRED_WATTS.translated(SILICON, effective_w_m2, cell_c);
            // The curve peaks near the point of maximum power, not in it: of all modules that the sun can make so hot,
            // at most 0.5 percent above.
            prop_assert!(curve(points).pwm_w(battery_v, 0.0) <= 1.005 * points.imp_a * points.vmp_v);
        }
    }
}
