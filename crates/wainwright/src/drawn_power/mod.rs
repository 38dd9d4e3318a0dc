//! What a part takes in while it runs, and what is taken where it does not say.

pub mod demand;
pub mod inverter;
pub mod inverter_curve;
pub mod refrigerator;
pub mod supply;

use crate::build::{Draw, LoadKind};
use crate::standards::motor;
use crate::standards::room_air_conditioner::{Build, Made, least_ceer, running_w as air_conditioner_w};
use crate::units::w;

/// Efficiency of a small motor fed with direct current whose shaft power is given. Common practice.
pub const DC_MOTOR_EFFICIENCY: f64 = 0.6;
/// Efficiency of a charger. Common practice.
pub const CHARGER_EFFICIENCY: f64 = 0.85;

/// What a load is that does not say: a motor where its shaft power is given, electronics elsewhere.
pub fn usual_kind(draw: &Draw) -> LoadKind {
    if draw.horsepower.is_some() { LoadKind::Motor } else { LoadKind::Electronic }
}

/// Power factor of a load that does not say [-]. Common practice.
pub fn usual_power_factor(kind: LoadKind) -> f64 {
    match kind {
        LoadKind::Resistive => 1.0,
        LoadKind::Electronic | LoadKind::Lighting | LoadKind::RoomAirConditioner => 0.9,
        LoadKind::Motor => 0.75,
    }
}

/// Efficiency of a room air conditioner whose label is not known [Btu/Wh]: the least that the law has allowed for units
/// with louvered sides since 2014 (10 CFR 430.32(b), from memory).
pub fn usual_ceer(capacity_btu_h: f64) -> f64 {
    // Its bands begin at nothing, so that every capacity has one; the last one's figure stands in all the same.
    least_ceer(capacity_btu_h, Build::Louvered, Made::From2014).unwrap_or(9.0)
}

/// Power that one of a part takes in while it runs [W].
///
/// - `draw`         its electrical side
/// - `supply_v`     voltage of what feeds it [V], > 0
/// - `alternating`  does alternating current feed it?
///
/// A charger takes nothing here: what it takes depends on its battery.
pub fn running_w(draw: &Draw, supply_v: f64, alternating: bool) -> f64 {
    let kind = draw.kind.unwrap_or(usual_kind(draw));
    let factor = if alternating { draw.power_factor.unwrap_or(usual_power_factor(kind)) } else { 1.0 };
    if let Some(current_a) = draw.current_a {
        current_a * supply_v * factor
    } else if let Some(power_w) = draw.power_w {
        let of_voltage = supply_v / draw.rated_v.unwrap_or(supply_v);
        if kind == LoadKind::Resistive { power_w * of_voltage * of_voltage } else { power_w }
    } else if let Some(horsepower) = draw.horsepower {
        let table_a = if alternating { motor::full_load_a(horsepower, supply_v) } else { None };
        table_a.map_or(w(horsepower) / DC_MOTOR_EFFICIENCY, |current_a| current_a * supply_v * factor)
    } else {
        draw.capacity_btu_h.map_or(0.0, |capacity_btu_h| {
            air_conditioner_w(capacity_btu_h, draw.ceer.unwrap_or(usual_ceer(capacity_btu_h)))
        })
    }
}
