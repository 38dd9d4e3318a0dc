//! What an inverter takes beyond what it gives.

use super::inverter_curve;
use crate::build::{PartLoad, Source};

/// Efficiency of an inverter that does not say. Common practice: 0.85 to 0.92.
pub const INVERTER_EFFICIENCY: f64 = 0.88;
/// Idle draw of an inverter as a share of its rated output. Common practice: 10 to 40 W for 2 kW.
pub const INVERTER_IDLE: f64 = 0.01;
/// Nominal efficiency up to which the part-load curve holds.
const MOST_NOMINAL: f64 = 0.99;

/// Power an inverter takes in for each watt it puts out.
///
/// - `source`    the inverter
/// - `output_w`  what it puts out [W]; matters where its efficiency follows the load
pub fn input_per_w(source: &Source, output_w: f64) -> f64 {
    let efficiency = source.efficiency.unwrap_or(INVERTER_EFFICIENCY);
    let by_curve = || {
        let continuous_w = source.continuous_w.filter(|_| source.part_load == Some(PartLoad::Curve))?;
        let nominal = efficiency.min(MOST_NOMINAL);
        let input_w = inverter_curve::input_w(output_w, continuous_w / nominal, nominal)?;
        (output_w > 0.0).then(|| input_w / output_w)
    };
    by_curve().unwrap_or(1.0 / efficiency)
}

/// What an inverter takes for itself [W].
pub fn idle_w(source: &Source) -> f64 {
    source.idle_w.unwrap_or(INVERTER_IDLE * source.continuous_w.unwrap_or(0.0))
}
