//! What is taken where the build does not say. Every value used comes back under `assumptions`.

use crate::build::{Battery, Draw, LoadKind, Source, SourceKind, blocks};
use crate::drawn_power::usual_kind;
use crate::standards::photovoltaic::cold_voltage_factor;

/// Insulation of a line-voltage wire [°C]: the kinds in use for it (THHN, NM-B, XHHW-2). Common practice.
pub const AC_INSULATION_C: f64 = 90.0;
/// Insulation of a low-voltage wire [°C]: boat cable. Common practice.
pub const DC_INSULATION_C: f64 = 105.0;
/// Air around a wire [°C]: the basis of the ampacity tables (NEC Table 310.16).
pub const AMBIENT_C: f64 = 30.0;
/// Conductors in a bundle: the two of the circuit.
pub const BUNDLED: u32 = 2;
/// Terminals [°C] of equipment of 100 A or less that is not marked (NEC 110.14(C)).
pub const TERMINAL_C: f64 = 60.0;
/// Share of a breaker's rating that may be carried for three hours and more (NEC 210.20(A), 215.3).
pub const CONTINUOUS_FRACTION: f64 = 0.8;
/// Share of the voltage that a branch circuit may lose (NEC 210.19, informational note; ABYC E-11).
pub const DROP: f64 = 0.03;
/// Share of the voltage that a low-voltage circuit of lights may lose (ABYC E-11).
pub const LIGHTING_DROP: f64 = 0.10;
/// Share of the voltage that an inverter's cable may lose at its rated output. Common practice.
pub const INVERTER_DROP: f64 = 0.02;
/// Outlets of a circuit that has outlets: several. The stricter rules hold for several.
pub const RECEPTACLES: u32 = 2;
/// Voltage a charger gives for each 12 V of its battery. Common practice.
const CHARGER_V: f64 = 13.8;
/// Power factor of a charger without correction. Common practice.
pub const CHARGER_POWER_FACTOR: f64 = 0.70;
/// How long a start takes on alternating current [s]. Common practice: 0.3 to 1 s.
const AC_START_S: f64 = 0.5;
/// How long a motor with brushes takes to start on direct current [s]. Common practice.
const DC_START_S: f64 = 0.1;
/// Efficiency of an inverter under load. Common practice: 0.85 to 0.92; the lesser needs the larger cable.
pub const INVERTER_EFFICIENCY: f64 = 0.85;
/// Idle draw of an inverter as a share of its rated output. Common practice: 10 to 40 W for 2 kW.
pub const INVERTER_IDLE: f64 = 0.01;
/// Lowest temperature of solar modules [°C], 0 °F. Common practice where the place is not known.
pub const LOWEST_C: f64 = -160.0 / 9.0;
/// Greatest temperature of solar cells in the sun [°C], with little air behind them. Common practice.
pub const HOTTEST_CELL_C: f64 = 75.0;
/// Change of a silicon module's voltage at greatest power for each degree [1/°C]. Common practice.
pub const VMP_FRACTION_PER_C: f64 = -0.004;
/// Efficiency of a solar controller. Common practice.
pub const CONTROLLER_EFFICIENCY: f64 = 0.97;
/// Resistance of 100 Ah of lithium iron phosphate at 12.8 V [Ω]. Common practice: 2 to 4 mΩ; the least lets the
/// greatest fault current flow.
pub const LIFEPO4_OHM: f64 = 0.002;
/// Resistance of 100 Ah of lead-acid at 12 V [Ω]: a fault of up to 4 kA. Common practice.
pub const LEAD_OHM: f64 = 12.7 / 4000.0;

/// Starting current of a load that does not say, as a multiple of the running current. Common practice; the ratio 6
/// is that of NEC Table 430.251(A) to 430.248.
pub fn inrush_multiple(kind: LoadKind, alternating: bool) -> f64 {
    match kind {
        LoadKind::Motor | LoadKind::RoomAirConditioner if alternating => 6.0,
        LoadKind::Motor | LoadKind::RoomAirConditioner => 4.0,
        LoadKind::Electronic | LoadKind::Resistive | LoadKind::Lighting => 1.0,
    }
}

/// How long a start takes [s].
pub fn start_s(alternating: bool) -> f64 {
    if alternating { AC_START_S } else { DC_START_S }
}

/// Insulation of a flexible cord [°C] that is not marked. Common practice.
pub const CORD_INSULATION_C: f64 = 60.0;

/// Does a load that does not say run for three hours at a time? Lights, chargers and air conditioners do.
pub fn continuous(draw: &Draw) -> bool {
    let kind = draw.kind.unwrap_or(usual_kind(draw));
    draw.charger.is_some() || matches!(kind, LoadKind::Lighting | LoadKind::RoomAirConditioner)
}

/// Voltage at which an inverter that does not say shuts off [V]: 11.0 V for each 12.8 V of lithium iron phosphate,
/// 10.5 V for each 12 V of lead-acid. Common practice. Without a battery, that of lead-acid.
pub fn cutoff_v(battery: Option<&Battery>, battery_v: f64) -> f64 {
    match battery {
        Some(battery) if !battery.chemistry.is_lead() => 11.0 * blocks(battery.nominal_v),
        Some(battery) => 10.5 * blocks(battery.nominal_v),
        None => 10.5 * blocks(battery_v),
    }
}

/// Voltage of a full battery at rest [V]: 13.3 V for each 12.8 V of lithium iron phosphate, 12.7 V for each 12 V of
/// lead-acid. Common practice.
pub fn open_circuit_v(battery: &Battery) -> f64 {
    if battery.chemistry.is_lead() {
        12.7 * blocks(battery.nominal_v)
    } else {
        13.3 * blocks(battery.nominal_v)
    }
}

/// Greatest voltage a battery is charged at [V], for each 12 V: 14.6 V for lithium iron phosphate, 14.8 V for
/// lead-acid. Common practice.
pub fn charge_v(battery: &Battery) -> f64 {
    if battery.chemistry.is_lead() {
        14.8 * blocks(battery.nominal_v)
    } else {
        14.6 * blocks(battery.nominal_v)
    }
}

/// Resistance of a battery that does not say [Ω]: in series with the voltage, in parallel with the capacity.
pub fn battery_ohm(battery: &Battery) -> f64 {
    let of_100_ah = if battery.chemistry.is_lead() { LEAD_OHM } else { LIFEPO4_OHM };
    of_100_ah * blocks(battery.nominal_v) * 100.0 / battery.capacity_ah
}

/// Voltage a charger that does not say gives [V], for the voltage of the battery it charges.
pub fn charger_v(battery_v: f64) -> f64 {
    CHARGER_V * blocks(battery_v)
}

/// Factor on a silicon module's open-circuit voltage for cold where its coefficient is not known: that of NEC Table
/// 690.7(A), and below its end, -40 °C, 0.35 % more for each degree (common practice).
pub fn cold_factor(lowest_c: f64) -> f64 {
    const TABLE_END_C: f64 = -40.0;
    let at_end =
        |beyond_k: f64| cold_voltage_factor(TABLE_END_C).map_or(1.0, |factor| factor + 0.0035 * beyond_k);
    cold_voltage_factor(lowest_c).unwrap_or_else(|| at_end(TABLE_END_C - lowest_c))
}

/// Losses of an inverter: what it idles at [W], and its efficiency beyond that. Other sources lose nothing.
pub fn inverter_losses(source: &Source) -> (f64, f64) {
    if source.kind != SourceKind::Inverter {
        return (0.0, 1.0);
    }
    let idle_w = source.idle_w.unwrap_or(INVERTER_IDLE * source.continuous_w.unwrap_or(0.0));
    (idle_w, source.efficiency.unwrap_or(INVERTER_EFFICIENCY))
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::super::fixture::{sources, wired};
    use super::*;

    #[test]
    fn what_gives_its_shaft_power_is_a_motor() {
        let modes = json!({"on": {"feeds": {"shop": "shore"}}});
        let loads = json!({
            "compressor": {"circuit": "shop", "horsepower": 0.5},
            "radio": {"circuit": "shop", "power_w": 20},
        });
        let build = wired(sources(), json!({"shop": {}, "cable": {}}), modes, loads);
        let kinds = build.parts().map(|(_, part)| usual_kind(part.electrical.as_ref().unwrap()));
        assert_eq!(kinds.collect::<Vec<_>>(), [LoadKind::Motor, LoadKind::Electronic]);
    }
}
