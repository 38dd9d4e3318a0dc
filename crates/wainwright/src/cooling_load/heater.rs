//! The heater of a build on the cold night.

use crate::build::{HeaterKind, Heating};
use crate::units::w_from_btu_h;

use super::cold_night::NightLoad;
use super::equipment::heating::{FURNACE_EFFICIENCY, HEAT_PUMP_STOPS_C, furnace_propane_kg_s, heat_pump};

/// Hours of a night where nothing is said.
pub const USUAL_NIGHT_H: f64 = 12.0;
/// What a heater takes through a night.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Taken {
    /// What it gives at most in that cold [W].
    pub capacity_w: f64,
    /// Electricity [Wh], where it heats by that.
    pub electric_wh: Option<f64>,
    /// Propane [kg], where it burns that.
    pub propane_kg: Option<f64>,
}

/// What a heater is that does not say.
pub const USUAL_KIND: HeaterKind = HeaterKind::PropaneVented;

/// Share of fuel or current that comes into the box as heat; above 1 of a heat pump.
///
/// - `outdoor_c`  air outside [°C], by which a heat pump goes
pub fn efficiency(heating: &Heating, outdoor_c: f64) -> f64 {
    heating.efficiency.unwrap_or(match heating.kind.unwrap_or(USUAL_KIND) {
        HeaterKind::Electric | HeaterKind::PropaneUnvented => 1.0,
        HeaterKind::HeatPump => heat_pump(outdoor_c, HEAT_PUMP_STOPS_C).map_or(1.0, |pump| pump.cop),
        HeaterKind::PropaneVented => FURNACE_EFFICIENCY,
    })
}

/// What a heater gives at most [W]: a heat pump less in the cold, and nothing once it stops.
///
/// - `outdoor_c`  air outside [°C]
pub fn capacity_w(heating: &Heating, outdoor_c: f64) -> f64 {
    let rated_w = w_from_btu_h(heating.capacity_btu_h);
    match heating.kind {
        Some(HeaterKind::HeatPump) => {
            rated_w * heat_pump(outdoor_c, HEAT_PUMP_STOPS_C).map_or(0.0, |pump| pump.capacity_fraction)
        }
        _ => rated_w,
    }
}

/// The coldest air outside at which a heater holds the box [°C], the load growing as it gets colder.
pub fn holds_to_c(heating: &Heating, night: &NightLoad) -> f64 {
    // The hotter end is where it holds for sure, the colder where it does not: a heat pump's capacity falls with the cold.
    let holds = |outdoor_c: f64| capacity_w(heating, outdoor_c) >= night.w_k * (night.indoor_c - outdoor_c);
    let (mut warm_c, mut cold_c) = (night.indoor_c, COLDEST_C);
    if holds(cold_c) {
        return cold_c;
    }
    for _ in 0..60 {
        let middle_c = (warm_c + cold_c) / 2.0;
        if holds(middle_c) {
            warm_c = middle_c;
        } else {
            cold_c = middle_c;
        }
    }
    warm_c
}

/// Colder than this it is nowhere on earth [°C].
const COLDEST_C: f64 = -90.0;

/// What a heater takes through a night.
///
/// - `load_w`     the night's load [W]
/// - `outdoor_c`  air outside [°C]
/// - `night_h`    hours of the night
pub fn night(heating: &Heating, load_w: f64, outdoor_c: f64, night_h: f64) -> Taken {
    let capacity_w = capacity_w(heating, outdoor_c);
    let given_w = load_w.min(capacity_w);
    let efficiency = efficiency(heating, outdoor_c);
    let burns =
        matches!(heating.kind.unwrap_or(USUAL_KIND), HeaterKind::PropaneVented | HeaterKind::PropaneUnvented);
    Taken {
        capacity_w,
        electric_wh: (!burns).then(|| given_w / efficiency * night_h),
        propane_kg: burns.then(|| furnace_propane_kg_s(given_w, efficiency) * 3600.0 * night_h),
    }
}
