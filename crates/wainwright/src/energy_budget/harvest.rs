//! What arrays and controller give to the battery's bus, step by step.

use super::array::{Array, LitStep};
use super::module_curve::{ModuleCoefficients, ModuleCurve, ModulePoints, PWM_DROP_V};
use crate::sky::clock::Day;
use crate::sky::sun::Direction;
use crate::sky::weather::Weather;

/// What a controller makes of the arrays.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Controller {
    /// It finds the greatest power.
    Mppt {
        /// Share of the arrays' power that it gives on, 0 to 1.
        efficiency: f64,
    },
    /// It joins the arrays to the battery, whose voltage then is theirs.
    Pwm {
        /// Voltage of the battery in charge [V].
        charging_v: f64,
        /// Voltage at which its energy is counted [V].
        nominal_v: f64,
    },
}

/// How the modules of an array are joined, and their datasheet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strings {
    /// Modules in series.
    pub series: f64,
    /// Strings in parallel.
    pub parallel: f64,
    /// Points of one module's current over voltage.
    pub points: ModulePoints,
    /// How they move with light and heat.
    pub coefficients: ModuleCoefficients,
    /// Change of the voltage at greatest power [V/°C].
    pub vmp_v_per_c: f64,
}

impl Strings {
    /// Voltage of a string at its greatest power [V].
    ///
    /// `V = N [V_mp + k (T_c − 25)]`
    ///
    /// - `cell_c`  temperature of the cells T_c [°C]
    pub fn max_power_v(&self, cell_c: f64) -> f64 {
        self.series * (self.points.vmp_v + self.vmp_v_per_c * (cell_c - super::module_power::RATED_CELL_C))
    }
}

/// An array as it stands before its controller.
#[derive(Debug, Clone, PartialEq)]
pub struct Source {
    /// The array.
    pub array: Array,
    /// Its strings, where the datasheet of its modules is known.
    pub strings: Option<Strings>,
    /// Voltage below which the controller takes nothing from it [V]; 0 where it does not matter.
    pub least_v: f64,
}

/// What an array gave in a step, for whoever keeps account of its light.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Given {
    /// Which step.
    pub step: usize,
    /// What fell on the open plane [W/m²].
    pub plane_w_m2: f64,
    /// What it could give behind the controller, before the controller's limit [W].
    pub given_w: f64,
    /// Does it give nothing because its voltage does not reach the battery's?
    pub is_short: bool,
}

impl Source {
    /// Walks through what the array gives behind a controller.
    ///
    /// - `controller`               it
    /// - `weather`, `days`, `suns`  as for [`Array::walk`]
    /// - `on_step`                  called with each step that has light
    #[inline]
    pub fn walk(
        &self,
        controller: Controller,
        weather: &Weather,
        days: &[Day],
        suns: &[Direction],
        mut on_step: impl FnMut(Given),
    ) {
        match controller {
            Controller::Mppt { efficiency } => self.array.walk(weather, days, suns, |lit| {
                let reaches =
                    self.strings.is_none_or(|strings| strings.max_power_v(lit.cell_c) >= self.least_v);
                let given_w = if reaches { self.array.power_w(&lit) * efficiency } else { 0.0 };
                on_step(Given { step: lit.step, plane_w_m2: lit.plane_w_m2, given_w, is_short: !reaches });
            }),
            Controller::Pwm { charging_v, nominal_v } => self.array.walk(weather, days, suns, |lit| {
                let string_a = self.strings.and_then(|strings| pwm_string_a(&strings, &lit, charging_v));
                let parallel = self.strings.map_or(0.0, |strings| strings.parallel);
                // The current at the battery's voltage, counted at its nominal one.
                let battery_w = parallel * string_a.unwrap_or(0.0) * nominal_v;
                let given_w = battery_w * lit.bypassed * (1.0 - self.array.loss);
                let is_short = string_a == Some(0.0);
                on_step(Given { step: lit.step, plane_w_m2: lit.plane_w_m2, given_w, is_short });
            }),
        }
    }
}

/// Current of a string behind a PWM controller [A]: that at the battery's voltage. None of a datasheet that is no module's.
fn pwm_string_a(strings: &Strings, lit: &LitStep, charging_v: f64) -> Option<f64> {
    let points = strings.points.translated(strings.coefficients, lit.effective_w_m2, lit.cell_c);
    let curve = ModuleCurve::through(points)?;
    Some(curve.current_a((charging_v + PWM_DROP_V) / strings.series))
}

/// Adds up what all arrays give, step by step, before the controller's limit.
///
/// - `sources`                  the arrays
/// - `controller`               what they feed; each array has a tracker of its own where it finds the greatest power
/// - `weather`, `days`, `suns`  as for [`Array::walk`]
/// - `given_w`                  sum so far of each step [W]; one a step
pub fn add(
    sources: &[Source],
    controller: Controller,
    weather: &Weather,
    days: &[Day],
    suns: &[Direction],
    given_w: &mut [f64],
) {
    for source in sources {
        source.walk(controller, weather, days, suns, |given| given_w[given.step] += given.given_w);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const STRINGS: Strings = Strings {
        series: 1.0,
        parallel: 2.0,
        points: ModulePoints { isc_a: 6.0, imp_a: 5.56, vmp_v: 18.0, voc_v: 21.6 },
        coefficients: ModuleCoefficients {
            alpha_per_c: 0.0005,
            beta_per_c: -0.003,
            cells: 36.0,
            ideality: 1.2,
        },
        vmp_v_per_c: -0.08,
    };

    fn full_sun(cell_c: f64) -> LitStep {
        LitStep { step: 0, plane_w_m2: 1000.0, effective_w_m2: 1000.0, cell_c, bypassed: 1.0 }
    }

    #[test]
    fn a_pwm_controller_gives_the_current_at_the_batterys_voltage() {
        let current_a = pwm_string_a(&STRINGS, &full_sun(25.0), 12.9).unwrap();
        assert!((current_a - 5.9865).abs() < 4e-4, "{current_a}");
    }

    #[test]
    fn a_battery_beyond_the_modules_voltage_gets_nothing() {
        assert_eq!(pwm_string_a(&STRINGS, &full_sun(25.0), 26.0), Some(0.0));
        // In the dark there is no curve.
        let dark = LitStep { effective_w_m2: 0.0, ..full_sun(25.0) };
        assert_eq!(pwm_string_a(&STRINGS, &dark, 13.0), None);
    }

    #[test]
    fn a_hot_string_has_less_voltage() {
        assert_eq!(STRINGS.max_power_v(25.0), 18.0);
        assert_eq!(STRINGS.max_power_v(75.0), 14.0);
    }
}
