//! The wiring of the solar arrays and of their controller.

use super::sizing::{Duty, Sizing, sizing};
use super::solar_wiring::{
    self, backfeed_a, conductor_a, least_string_fuse_a, most_current_a, needs_string_fuse,
};
use super::wiring::{Conductors, Wiring};
use super::{current, defaults};
use crate::build::{ControllerKind, Solar, SolarArray, SourceKind};
use crate::standards::overcurrent;
use crate::units::celsius;

/// Share of its voltage that an array's wire may lose. Common practice.
pub const ARRAY_DROP: f64 = 0.03;

/// What the arrays and their controller come to.
#[derive(Debug, Clone)]
pub struct SolarNumbers {
    /// Each array.
    pub arrays: Vec<ArrayNumbers>,
    /// Short-circuit current of all arrays whose modules' is given [A].
    pub short_circuit_a: Option<f64>,
    /// The side of the controller toward the battery.
    pub controller: Option<ControllerNumbers>,
    /// Voltage of the battery that it charges [V].
    pub battery_v: f64,
}

/// What one array comes to; `None` where its modules' figures are not given.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ArrayNumbers {
    /// Open-circuit voltage of a string on the coldest day [V].
    pub cold_v: Option<f64>,
    /// Working voltage of a string on the hottest day [V].
    pub hot_v: Option<f64>,
    /// 125 % of the short-circuit current of all strings [A].
    pub most_a: Option<f64>,
    /// What conductor and device must be made for [A].
    pub required_a: Option<f64>,
    /// What the other strings can drive back into one [A].
    pub backfeed_a: Option<f64>,
    /// Must each string have a fuse?
    pub string_fuse_needed: Option<bool>,
    /// The smallest fuse of a string [A].
    pub string_fuse_a: Option<f64>,
    /// Its wire.
    pub sizing: Option<Sizing>,
    /// Working voltage of a string at 25 °C, against which drop is held [V].
    pub working_v: Option<f64>,
}

/// What the side of the controller toward the battery comes to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ControllerNumbers {
    /// What it gives to the battery [A].
    pub output_a: f64,
    /// What it would give without its own rating [A].
    pub offered_a: f64,
    /// 125 % of its rating [A].
    pub required_a: f64,
    /// The smallest breaker or fuse that does [A].
    pub device_a: Option<f64>,
    /// Its wire.
    pub sizing: Sizing,
}

/// Lowest temperature of the modules [°C].
pub fn lowest_c(solar: &Solar) -> f64 {
    solar.lowest_f.map_or(defaults::LOWEST_C, celsius)
}

/// Works arrays and controller out.
pub fn solar_numbers(solar: &Solar, wiring: &Wiring) -> SolarNumbers {
    let battery = wiring.sources.iter().find(|supply| supply.source.kind == SourceKind::Battery);
    let battery_v = battery.map_or(12.0, |supply| supply.source.voltage_v);
    let lowest_c = lowest_c(solar);
    let hottest_c = solar.hottest_cell_f.map_or(defaults::HOTTEST_CELL_C, celsius);
    let arrays = || solar.arrays.iter().flat_map(|arrays| arrays.values());
    let short_circuit = |array: &SolarArray| Some(array.isc_a? * f64::from(array.parallel.unwrap_or(1)));
    let short_circuit_a: f64 = arrays().filter_map(short_circuit).sum();
    SolarNumbers {
        arrays: arrays().map(|array| array_numbers(array, lowest_c, hottest_c)).collect(),
        short_circuit_a: arrays().any(|array| array.isc_a.is_some()).then_some(short_circuit_a),
        controller: solar.controller.as_ref().map(|controller| {
            let power_w = arrays().map(|array| array.power_w).sum();
            let efficiency = controller.efficiency.unwrap_or(defaults::CONTROLLER_EFFICIENCY);
            let required_a = current::CONTINUOUS_FACTOR * controller.max_output_a;
            let duty = Duty {
                voltage_v: battery_v,
                by_code: false,
                current_a: controller.max_output_a,
                required_a,
                most_drop: defaults::DROP,
                device_a: controller.breaker_a,
                family: None,
                may_round_up: false,
            };
            // A tracking controller turns voltage into current; the other kind passes on the modules' own current.
            let working_a = |array: &SolarArray| {
                let own_a = array.imp_a.or(array.isc_a).map(|a| a * f64::from(array.parallel.unwrap_or(1)));
                own_a.unwrap_or(array.power_w / battery_v)
            };
            let offered_a = match controller.kind {
                ControllerKind::Mppt => {
                    solar_wiring::controller_output_a(power_w, efficiency, battery_v, f64::INFINITY)
                }
                ControllerKind::Pwm => arrays().map(working_a).sum(),
            };
            ControllerNumbers {
                output_a: offered_a.min(controller.max_output_a),
                offered_a,
                required_a,
                device_a: overcurrent::next_rating_a(required_a),
                sizing: sizing(controller.wire.as_ref().map(Conductors::from).as_ref(), &duty),
            }
        }),
        battery_v,
    }
}

fn array_numbers(array: &SolarArray, lowest_c: f64, hottest_c: f64) -> ArrayNumbers {
    let (series, parallel) = (array.series.unwrap_or(1), array.parallel.unwrap_or(1));
    let cold_v = array.voc_v.map(|voc_v| match array.voc_fraction_per_c {
        Some(per_c) => solar_wiring::cold_voltage_v(series, voc_v, per_c, lowest_c),
        None => solar_wiring::cold_voltage_by_factor_v(series, voc_v, defaults::cold_factor(lowest_c)),
    });
    let hot_per_c = array.vmp_fraction_per_c.unwrap_or(defaults::VMP_FRACTION_PER_C);
    let most_a = array.isc_a.map(|isc_a| most_current_a(parallel, isc_a));
    let required_a = most_a.map(conductor_a);
    let working_v = array.vmp_v.map(|vmp_v| vmp_v * f64::from(series));
    let duty = |most_a: f64, voltage_v: f64| Duty {
        voltage_v,
        by_code: true,
        current_a: most_a,
        required_a: conductor_a(most_a),
        most_drop: ARRAY_DROP,
        device_a: array.breaker_a,
        family: None,
        may_round_up: true,
    };
    // Ampacity goes by the greatest current, drop by the working one.
    let wire = array.wire.as_ref().map(Conductors::from);
    let working_a = array.imp_a.map(|imp_a| imp_a * f64::from(parallel));
    let sizing = most_a.zip(working_v).map(|(most_a, working_v)| {
        let share = working_a.unwrap_or(most_a) / most_a;
        let duty = duty(most_a, working_v);
        let sized = sizing(wire.as_ref(), &Duty { most_drop: ARRAY_DROP / share, ..duty });
        Sizing { drop_v: sized.drop_v.map(|drop_v| drop_v * share), ..sized }
    });
    ArrayNumbers {
        cold_v,
        hot_v: array.vmp_v.map(|vmp_v| solar_wiring::hot_voltage_v(series, vmp_v, hot_per_c, hottest_c)),
        most_a,
        required_a,
        backfeed_a: array.isc_a.map(|isc_a| backfeed_a(parallel, isc_a)),
        string_fuse_needed: array
            .isc_a
            .zip(array.max_series_fuse_a)
            .map(|(isc_a, most_a)| needs_string_fuse(parallel, isc_a, most_a)),
        string_fuse_a: array.isc_a.and_then(|isc_a| overcurrent::next_rating_a(least_string_fuse_a(isc_a))),
        sizing,
        working_v,
    }
}
