//! The house battery of a build in SI, and what is taken where it does not say.

use crate::build::{Battery, Chemistry, blocks};

use super::conditions::Temper;
use super::cycles::LifePoint;
use super::kinetic_battery::{KineticBattery, MOST_EXPONENT};
use super::ledger::Bank;
use super::peukert::rerated_ah;

/// Days over which self-discharge is stated.
const SELF_DISCHARGE_DAYS: f64 = 30.0;
/// Hours over which a capacity is rated where nothing is said.
pub const USUAL_RATED_H: f64 = 20.0;
/// Time constant with which a battery in a trailer follows the air [h]. Common practice: 4 to 10 h.
pub const USUAL_THERMAL_H: f64 = 6.0;

/// What is taken of a chemistry where the build does not say. Common practice, middles of the usual ranges.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Usual {
    /// Share of the capacity that is drawn at most.
    pub usable: f64,
    /// Share of the energy put in that comes out again, gas near the top left out.
    pub round_trip: f64,
    /// Peukert's exponent.
    pub exponent: f64,
    /// Greatest charging current by the capacity [1/h].
    pub charge_per_h: f64,
    /// Share of its charge that it loses in 30 days.
    pub self_discharge: f64,
    /// Time constant of the charge near the top [h].
    pub absorption_h: f64,
    /// Voltage while it is charged, by the nominal one.
    pub charging: f64,
    /// Cycles it lasts.
    pub life: LifePoint,
    /// Years it lasts at most, however little it is used.
    pub calendar_years: f64,
}

/// What is taken of a chemistry where the build does not say.
pub fn usual(chemistry: Chemistry) -> Usual {
    let lead = Usual {
        usable: 0.5,
        round_trip: 0.85,
        exponent: 1.10,
        charge_per_h: 0.25,
        self_discharge: 0.02,
        absorption_h: 1.5,
        charging: 13.2 / 12.0,
        life: LifePoint { depth: 0.5, cycles: 550.0 },
        calendar_years: 5.0,
    };
    match chemistry {
        Chemistry::Flooded => Usual {
            round_trip: 0.80,
            exponent: 1.25,
            charge_per_h: 0.12,
            self_discharge: 0.075,
            life: LifePoint { depth: 0.5, cycles: 600.0 },
            ..lead
        },
        Chemistry::Agm => lead,
        Chemistry::Gel => Usual { exponent: 1.15, charge_per_h: 0.17, ..lead },
        Chemistry::Lifepo4 => Usual {
            usable: 0.9,
            round_trip: 0.94,
            exponent: 1.0,
            charge_per_h: 0.5,
            self_discharge: 0.02,
            absorption_h: 0.2,
            charging: 13.4 / 12.8,
            life: LifePoint { depth: 0.8, cycles: 3000.0 },
            calendar_years: 12.0,
        },
    }
}

/// A build's battery.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct House {
    /// What it holds and how it is charged.
    pub bank: Bank,
    /// How it stands to temperature.
    pub temper: Temper,
    /// Capacity at the 20-hour rate [Ah].
    pub rated_ah: f64,
    /// Capacity as the build gives it, at the rate that it gives [Ah].
    pub given_ah: f64,
    /// Voltage while it is charged [V].
    pub charging_v: f64,
    /// Its chemistry.
    pub chemistry: Chemistry,
    /// Peukert's exponent.
    pub exponent: f64,
    /// Cycles it lasts.
    pub life: LifePoint,
}

/// A build's battery, with what is usual for its chemistry where it does not say.
pub fn house(battery: &Battery) -> House {
    let usual = usual(battery.chemistry);
    let is_lead = battery.chemistry.is_lead();
    let exponent = battery.peukert_exponent.unwrap_or(usual.exponent).min(MOST_EXPONENT);
    let rated_h = battery.rated_h.unwrap_or(USUAL_RATED_H);
    let rated_ah = if is_lead {
        rerated_ah(battery.capacity_ah, rated_h, exponent, USUAL_RATED_H)
    } else {
        battery.capacity_ah
    };
    let nominal_v = battery.nominal_v;
    let one_way = battery.round_trip_efficiency.unwrap_or(usual.round_trip).sqrt();
    let self_discharge = battery.self_discharge_fraction.unwrap_or(usual.self_discharge).min(0.999);
    let bank = Bank {
        rated_wh: rated_ah * nominal_v,
        nominal_v,
        charge_efficiency: one_way,
        discharge_efficiency: one_way,
        most_charge_w: battery.max_charge_a.unwrap_or(usual.charge_per_h * battery.capacity_ah) * nominal_v,
        most_discharge_w: battery.max_discharge_a.map_or(f64::INFINITY, |most_a| most_a * nominal_v),
        self_discharge_per_h: -(1.0 - self_discharge).ln() / (24.0 * SELF_DISCHARGE_DAYS),
        absorption_h: battery.absorption_h.unwrap_or(usual.absorption_h),
        wells: if is_lead { KineticBattery::from_exponent(rated_ah, exponent) } else { None },
        reconnect_soc: battery.reconnect_soc,
    };
    let temper = Temper {
        is_lead,
        usable: battery.usable_fraction.unwrap_or(usual.usable),
        lag_h: battery.thermal_h.unwrap_or(USUAL_THERMAL_H),
        heater_w: battery.heater_w.filter(|watts| *watts > 0.0),
    };
    let life = match battery.cycles {
        Some(cycles) => LifePoint { depth: battery.cycle_depth.unwrap_or(usual.life.depth), cycles },
        None => usual.life,
    };
    let charging_v = usual.charging * 12.0 * blocks_of(battery, is_lead);
    let chemistry = battery.chemistry;
    let given_ah = battery.capacity_ah;
    House { bank, temper, rated_ah, given_ah, charging_v, chemistry, exponent, life }
}

/// Nominal voltage in units of 12 V, of lithium iron phosphate in units of 12.8 V that count as 12.
fn blocks_of(battery: &Battery, is_lead: bool) -> f64 {
    if is_lead { blocks(battery.nominal_v) } else { blocks(battery.nominal_v) * 12.8 / 12.0 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::build::Build;

    fn of(battery: &str) -> House {
        let json = format!(r#"{{"battery": {battery}}}"#);
        house(&Build::from_json(json.as_bytes()).unwrap().battery.unwrap())
    }

    #[test]
    fn a_lithium_battery_is_rated_as_it_says() {
        let house = of(r#"{"chemistry": "lifepo4", "capacity_ah": 200, "nominal_v": 12.8}"#);
        assert_eq!((house.bank.rated_wh, house.bank.most_charge_w), (2560.0, 1280.0));
        assert!(house.bank.wells.is_none() && (house.charging_v - 13.4).abs() < 1e-12);
        let round_trip = house.bank.charge_efficiency * house.bank.discharge_efficiency;
        assert!((round_trip - 0.94).abs() < 1e-12);
    }

    #[test]
    fn a_lead_battery_rated_over_ten_hours_holds_more_over_twenty() {
        let house = of(r#"{"chemistry": "flooded", "capacity_ah": 100, "nominal_v": 24, "rated_h": 10}"#);
        assert!(house.rated_ah > 114.0 && house.rated_ah < 115.0, "{}", house.rated_ah);
        assert!((house.charging_v - 26.4).abs() < 1e-12);
        let wells = house.bank.wells.unwrap();
        assert!((wells.delivered_ah(20.0) - house.rated_ah).abs() < 1e-9);
    }

    #[test]
    fn self_discharge_of_a_month_is_what_is_stated() {
        let house = of(
            r#"{"chemistry": "agm", "capacity_ah": 100, "nominal_v": 12, "self_discharge_fraction": 0.1}"#,
        );
        let kept = (-house.bank.self_discharge_per_h * 720.0).exp();
        assert!((kept - 0.9).abs() < 1e-12);
    }
}
