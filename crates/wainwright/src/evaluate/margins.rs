//! By how much a build keeps what matters most.

use super::Margins;
use crate::axle_load::AxleLoadReport;
use crate::axle_load::limits::{GREATEST_TONGUE_FRACTION, LEAST_TONGUE_FRACTION};
use crate::cooling_load::CoolingLoadReport;
use crate::energy_budget::EnergyBudgetReport;
use crate::payload::PayloadReport;

/// The margins of a build, by its reports.
pub fn margins(
    payload: Option<&PayloadReport>,
    axle_load: Option<&AxleLoadReport>,
    energy_budget: Option<&EnergyBudgetReport>,
    cooling_load: Option<&CoolingLoadReport>,
) -> Margins {
    Margins {
        payload_left_lb: payload
            .and_then(|report| report.states.values().map(|state| state.payload_left_lb).reduce(f64::min)),
        tongue_margin_fraction: axle_load.and_then(tongue),
        autonomy_h: energy_budget.and_then(|report| report.autonomy_h),
        cooling_margin_fraction: cooling_load
            .and_then(|report| report.cooler.as_ref())
            .map(|cooler| cooler.margin_factor - 1.0),
    }
}

/// Distance of the tongue's share to the nearer bound, in the state where it is least.
fn tongue(report: &AxleLoadReport) -> Option<f64> {
    let moving = report.states.values().filter(|state| state.moving);
    let of_state =
        |fraction: f64| (fraction - LEAST_TONGUE_FRACTION).min(GREATEST_TONGUE_FRACTION - fraction);
    moving.map(|state| of_state(state.tongue_fraction)).reduce(f64::min)
}
