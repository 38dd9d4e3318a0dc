//! What charges the battery beside the sun: shore power, a generator, the tow vehicle.

use crate::build::{Build, Charging, ChargingKind};
use crate::drawn_power::CHARGER_EFFICIENCY;
use crate::sky::clock::Day;

use super::charging_line::{direct_charge_a, most_line_w, shore_converter_w};

/// Voltage of a tow vehicle's alternator [V] where nothing is said. Common practice.
pub const ALTERNATOR_V: f64 = 14.0;
/// Resistance of the line from it, there and back [mΩ]. Common practice: 20 ft of AWG 10 and its plugs.
pub const LINE_MOHM: f64 = 50.0;

/// A source beside the sun, and when it can run.
#[derive(Debug, Clone)]
pub struct ChargingSource<'b> {
    /// Its id.
    pub id: &'b str,
    /// What it is.
    pub kind: ChargingKind,
    /// Power it gives at the battery's bus while it runs [W].
    pub power_w: f64,
    /// Power it can give in each step [W].
    pub available_w: Vec<f64>,
    /// State of charge below which it is started; none where it runs whenever it can.
    pub start_soc: Option<f64>,
    /// State of charge at which it is stopped.
    pub stop_soc: f64,
}

/// Power a source gives at the battery's bus [W], counted at the nominal voltage.
///
/// - `charging`    what the build says of it
/// - `charging_v`  voltage of the battery while it is charged [V]
/// - `nominal_v`   voltage at which its energy is counted [V]
pub fn power_w(build: &Build, charging: &Charging, charging_v: f64, nominal_v: f64) -> f64 {
    let part = charging.part.as_ref().and_then(|part| build.parts.as_ref()?.get(part)?.electrical.as_ref());
    let charger = part.and_then(|draw| draw.charger.as_ref());
    let output_a = charging.output_a.or(charger.map(|charger| charger.output_a));
    let efficiency =
        charging.efficiency.or(charger.and_then(|charger| charger.efficiency)).unwrap_or(CHARGER_EFFICIENCY);
    let limit_w = charging.input_w.unwrap_or(f64::INFINITY);
    if charging.kind != ChargingKind::TowVehicle {
        return output_a.map_or(0.0, |output_a| shore_converter_w(nominal_v, output_a, limit_w, efficiency));
    }
    let alternator_v = charging.alternator_v.unwrap_or(ALTERNATOR_V);
    let line_ohm = charging.line_mohm.unwrap_or(LINE_MOHM) / 1000.0;
    match (output_a, charging.input_w) {
        // A plain wire.
        (None, None) => direct_charge_a(alternator_v, charging_v, line_ohm) * nominal_v,
        // A converter holds its input; what the line cannot bring it does without.
        _ => {
            let wanted_w =
                output_a.map_or(f64::INFINITY, |output_a| output_a * nominal_v / efficiency).min(limit_w);
            efficiency * wanted_w.min(most_line_w(alternator_v, line_ohm))
        }
    }
}

/// The sources of a build beside the sun.
///
/// - `days`, `step_min`          the days of the series and the length of its steps [min]
/// - `count`                     how many steps it has
/// - `charging_v`, `nominal_v`   as for [`power_w`]
pub fn sources<'b>(
    build: &'b Build,
    days: &[Day],
    step_min: u32,
    count: usize,
    (charging_v, nominal_v): (f64, f64),
) -> Vec<ChargingSource<'b>> {
    let charging = build.battery.as_ref().and_then(|battery| battery.charging.as_ref());
    let made = charging.into_iter().flatten().map(|(id, charging)| {
        let power_w = power_w(build, charging, charging_v, nominal_v);
        let schedule = charging.schedule();
        let mut available_w = vec![0.0; count];
        for day in days.iter().filter(|day| schedule.is_on_day(day.month(), day.weekday())) {
            let mut minute = day.first_min;
            for watts in &mut available_w[day.steps.clone()] {
                *watts = power_w * schedule.share(minute as usize / 60 % 24, 1.0);
                minute += step_min;
            }
        }
        ChargingSource {
            id,
            kind: charging.kind,
            power_w,
            available_w,
            start_soc: charging.start_soc,
            stop_soc: charging.stop_soc.unwrap_or(f64::INFINITY),
        }
    });
    made.collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sky::clock::Clock;

    fn power_of(charging: &str) -> f64 {
        let json = format!(
            r#"{{"parts": {{"converter": {{"mass_lb": 6, "electrical": {{"circuit": "ac", "charger": {{"output_a": 45, "efficiency": 0.9}}}}}}}},
            "battery": {{"chemistry": "lifepo4", "capacity_ah": 100, "nominal_v": 12.8, "charging": {{"one": {charging}}}}}}}"#
        );
        let build = Build::from_json(json.as_bytes()).unwrap_or_else(|refusal| panic!("{refusal}"));
        let charging = build.battery.as_ref().unwrap().charging.as_ref().unwrap();
        power_w(&build, &charging["one"], 13.4, 12.8)
    }

    #[test]
    fn a_charger_gives_its_current_or_what_its_supply_lets_through() {
        assert_eq!(power_of(r#"{"kind": "shore", "output_a": 30}"#), 384.0);
        assert_eq!(power_of(r#"{"kind": "generator", "part": "converter"}"#), 576.0);
        assert_eq!(power_of(r#"{"kind": "generator", "part": "converter", "input_w": 500}"#), 450.0);
    }

    #[test]
    fn a_tow_vehicle_gives_what_its_line_lets_through() {
        let hours = r#""hours_per_day": 2"#;
        // (14 - 13.4) V over 50 mΩ are 12 A.
        assert!((power_of(&format!(r#"{{"kind": "tow_vehicle", {hours}}}"#)) - 12.0 * 12.8).abs() < 1e-9);
        let converter = format!(r#"{{"kind": "tow_vehicle", "output_a": 20, "efficiency": 0.8, {hours}}}"#);
        assert!((power_of(&converter) - 256.0).abs() < 1e-9);
        // 14² / (4 × 0.1) W at most come down the line.
        let thin = format!(
            r#"{{"kind": "tow_vehicle", "output_a": 60, "efficiency": 0.5, "line_mohm": 100, {hours}}}"#
        );
        assert!((power_of(&thin) - 245.0).abs() < 1e-9);
    }

    #[test]
    fn it_can_run_in_its_hours() {
        let json = br#"{"battery": {"chemistry": "agm", "capacity_ah": 100, "nominal_v": 12, "charging": {
            "shore": {"kind": "shore", "output_a": 10, "weekdays": ["sun"], "hours_per_day": 12}}}}"#;
        let build = Build::from_json(json).unwrap();
        let clock = Clock::typical_hours();
        let made = sources(&build, &clock.days(), 60, clock.count(), (13.2, 12.0));
        assert_eq!(made[0].available_w[..24].iter().sum::<f64>(), 0.0);
        // 2025-01-05 is a Sunday.
        assert_eq!(made[0].available_w[4 * 24], 60.0);
        assert_eq!(made[0].available_w.iter().sum::<f64>(), 52.0 * 24.0 * 60.0);
    }
}
