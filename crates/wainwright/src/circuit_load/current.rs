//! Current of a load, what a circuit must be made for, and how far it is from its limit.
//!
//! AC is root mean square, DC the mean. A power factor is that of a lagging (inductive) load.

use std::iter::Sum;
use std::ops::{Add, Sub};

pub use crate::report::exceeds as over;

/// What a continuous load, three hours or more at full current, counts for in conductor and overcurrent device.
///
/// Source: NFPA 70, 210.19(A)(1), 210.20(A), 215.2, 215.3.
pub const CONTINUOUS_FACTOR: f64 = 1.25;

/// Current of a resistive load, at another than its rated voltage as well.
///
/// `I = P V / V_r²`
///
/// - `power_w`   power P at the rated voltage [W], 0 or more
/// - `rated_v`   rated voltage V_r [V], > 0
/// - `supply_v`  voltage at the load V [V], 0 or more
///
/// Returns the current [A]; it falls with the voltage.
///
/// Source: Ohm's law at the resistance V_r²/P.
pub fn resistive_a(power_w: f64, rated_v: f64, supply_v: f64) -> f64 {
    power_w / rated_v * (supply_v / rated_v)
}

/// Power of a resistive load, at another than its rated voltage as well.
///
/// `P (V / V_r)²`
///
/// - `power_w`   power P at the rated voltage [W], 0 or more
/// - `rated_v`   rated voltage V_r [V], > 0
/// - `supply_v`  voltage at the load V [V], 0 or more
///
/// Returns the power [W]; it falls with the square of the voltage.
///
/// Source: Joule's law at the resistance V_r²/P.
pub fn resistive_w(power_w: f64, rated_v: f64, supply_v: f64) -> f64 {
    let part = supply_v / rated_v;
    power_w * (part * part)
}

/// Current of an AC load of known power and power factor.
///
/// `I = P / (V pf)`
///
/// - `power_w`       real power taken from the supply P [W], 0 or more
/// - `supply_v`      voltage at the load V [V], > 0
/// - `power_factor`  pf, above 0 to 1; 1 where P is the apparent power [VA]
///
/// Returns the current [A].
///
/// Source: definition of the power factor.
pub fn power_factor_a(power_w: f64, supply_v: f64, power_factor: f64) -> f64 {
    power_w / (supply_v * power_factor)
}

/// Current of a motor by the power at its shaft.
///
/// `I = P / (V η pf)`
///
/// - `shaft_w`       power at the shaft P [W], 0 or more
/// - `supply_v`      voltage at the motor V [V], > 0
/// - `efficiency`    η, above 0 to 1
/// - `power_factor`  pf, above 0 to 1
///
/// Returns the current [A]. The code's motor tables hold worse motors and give more.
///
/// Source: definitions of efficiency and power factor.
pub fn motor_a(shaft_w: f64, supply_v: f64, efficiency: f64, power_factor: f64) -> f64 {
    power_factor_a(shaft_w / efficiency, supply_v, power_factor)
}

/// Power factor of a rectifier, whose current is not a sine wave.
///
/// `pf = cos φ₁ / √(1 + THD²)`
///
/// - `displacement`  cos φ₁, power factor of the current's fundamental, 0 to 1
/// - `thd`           total harmonic distortion of the current, as a fraction of its fundamental, 0 or more
///
/// Returns the power factor.
///
/// Source: real power is carried by the fundamental alone where the voltage is a sine wave.
pub fn rectifier_power_factor(displacement: f64, thd: f64) -> f64 {
    displacement / 1.0f64.hypot(thd)
}

/// AC current of a battery charger or converter by what it puts out.
///
/// `I = V_dc I_dc / (η pf V)`
///
/// - `output_v`      voltage at its DC terminals V_dc [V], 0 or more
/// - `output_a`      current it puts out I_dc [A], 0 or more
/// - `efficiency`    η, above 0 to 1
/// - `power_factor`  pf, above 0 to 1
/// - `supply_v`      AC voltage V [V], > 0
///
/// Returns the current [A].
///
/// Source: definitions of efficiency and power factor.
pub fn charger_a(output_v: f64, output_a: f64, efficiency: f64, power_factor: f64, supply_v: f64) -> f64 {
    power_factor_a(output_v * output_a / efficiency, supply_v, power_factor)
}

/// An AC current in size and phase, beside the voltage that drives it.
///
/// The sum of the sizes of several is never below the size of their sum; breakers are judged by the former.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Phasor {
    /// Part in phase with the voltage [A].
    pub in_phase_a: f64,
    /// Part a quarter of a cycle behind it [A]; negative where the current leads.
    pub lagging_a: f64,
}

impl Phasor {
    /// The current of a lagging load: `I (pf − j √(1 − pf²))`.
    ///
    /// - `current_a`     I [A], 0 or more
    /// - `power_factor`  pf, 0 to 1
    ///
    /// Source: definition of the power factor of a sine wave.
    pub fn of(current_a: f64, power_factor: f64) -> Self {
        Self {
            in_phase_a: current_a * power_factor,
            lagging_a: current_a * (1.0 - power_factor * power_factor).max(0.0).sqrt(),
        }
    }

    /// Its size [A].
    pub fn magnitude_a(self) -> f64 {
        self.in_phase_a.hypot(self.lagging_a)
    }
}

impl Add for Phasor {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self { in_phase_a: self.in_phase_a + other.in_phase_a, lagging_a: self.lagging_a + other.lagging_a }
    }
}

impl Sub for Phasor {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        Self { in_phase_a: self.in_phase_a - other.in_phase_a, lagging_a: self.lagging_a - other.lagging_a }
    }
}

impl Sum for Phasor {
    fn sum<I: Iterator<Item = Self>>(currents: I) -> Self {
        currents.fold(Self::default(), Self::add)
    }
}

/// Current a conductor, before corrections, and an overcurrent device must be made for.
///
/// `I_nc + 1.25 I_c`
///
/// - `non_continuous_a`  I_nc [A], 0 or more
/// - `continuous_a`      I_c, on for three hours or more [A], 0 or more
///
/// Returns the current [A]. Not for assemblies listed to carry 100 % of their rating.
///
/// Source: see [`CONTINUOUS_FACTOR`].
pub fn required_a(non_continuous_a: f64, continuous_a: f64) -> f64 {
    non_continuous_a + CONTINUOUS_FACTOR * continuous_a
}

/// What is left to a limit, as a share of it.
///
/// `(limit − value) / limit`
///
/// - `value`  any unit, 0 or more
/// - `limit`  the same unit, > 0
///
/// Returns the share; below 0 the limit is passed. Whether it is, [`over`] decides: it minds rounding.
///
/// Source: definition.
pub fn margin(value: f64, limit: f64) -> f64 {
    (limit - value) / limit
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::w;

    #[test]
    fn a_heater_takes_less_at_low_voltage() {
        assert_eq!(resistive_a(1500.0, 120.0, 120.0), 12.5);
        assert_eq!(format!("{:.4}", resistive_a(1500.0, 120.0, 108.0)), "11.2500");
        assert_eq!(format!("{:.4}", resistive_w(1500.0, 120.0, 108.0)), "1215.0000");
        assert_eq!(resistive_w(1500.0, 120.0, 0.0), 0.0);
    }

    #[test]
    fn a_low_power_factor_takes_more_current() {
        assert_eq!(format!("{:.4}", power_factor_a(455.0, 120.0, 0.95)), "3.9912");
        assert_eq!(format!("{:.4}", motor_a(w(0.5), 115.0, 0.62, 0.66)), "7.9232");
        assert_eq!(format!("{:.4}", charger_a(13.8, 40.0, 0.85, 0.98, 120.0)), "5.5222");
        assert_eq!(format!("{:.4}", charger_a(13.8, 40.0, 0.85, 0.70, 120.0)), "7.7311");
    }

    #[test]
    fn harmonics_lower_the_power_factor() {
        assert_eq!(rectifier_power_factor(0.98, 0.0), 0.98);
        assert_eq!(format!("{:.4}", rectifier_power_factor(0.98, 0.80)), "0.7653");
    }

    #[test]
    fn a_phasor_is_as_large_as_its_current() {
        for power_factor in [0.0, 0.3, 0.7, 1.0] {
            let size_a = Phasor::of(9.8, power_factor).magnitude_a();
            assert!((size_a / 9.8 - 1.0).abs() < 1e-15, "{size_a}");
        }
    }

    #[test]
    fn currents_out_of_phase_add_to_less_than_their_sizes() {
        let both = Phasor::of(16.0, 1.0) + Phasor::of(10.0, 0.7);
        assert!(both.magnitude_a() < 26.0 && both.magnitude_a() > 16.0);
        let alike: Phasor = [Phasor::of(3.0, 0.9), Phasor::of(4.0, 0.9)].into_iter().sum();
        assert!((alike.magnitude_a() - 7.0).abs() < 1e-14);
        assert_eq!((both - both).magnitude_a(), 0.0);
    }

    #[test]
    fn a_continuous_load_may_fill_four_fifths_of_a_breaker() {
        for (breaker_a, continuous_a) in [(15.0, 12.0), (20.0, 16.0), (30.0, 24.0), (50.0, 40.0)] {
            assert!(!over(required_a(0.0, continuous_a), breaker_a));
            assert!(over(required_a(0.0, continuous_a + 0.01), breaker_a));
        }
        assert_eq!(required_a(4.0, 20.0), 29.0);
    }

    #[test]
    fn rounding_passes_no_limit() {
        assert!(!over(0.1 + 0.2, 0.3));
        assert!(!over(12.0 * (1.0 + 0.9e-9), 12.0));
        assert!(over(12.0 * (1.0 + 1.1e-9), 12.0));
        assert_eq!(format!("{:.4}", margin(13.7, 15.0)), "0.0867");
        assert_eq!(margin(15.0, 15.0), 0.0);
        assert!(margin(15.1, 15.0) < 0.0);
    }
}
