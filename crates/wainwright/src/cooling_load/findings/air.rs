//! What the rules say of the air in the box: how hot it gets by itself, and what fan and gaps bring.

use super::{DEADLY_WITHOUT_COOLING, INLET_TOO_SMALL, TOO_LITTLE_FRESH_AIR, degrees};
use crate::air::properties::volume_m3_kg;
use crate::build::Build;
use crate::cooling_load::air_exchange::fresh_air::{CO2_ASLEEP_M3_S, LEAST_M3_S, co2_rise_ppm, needed_m3_s};
use crate::cooling_load::numbers::Numbers;
use crate::cooling_load::setup::Setup;
use crate::report::{Findings, figure};
use crate::units::{cfm, fahrenheit};

/// Carbon dioxide above that of the outdoors that sleepers should not pass [ppm].
const MOST_CO2_RISE_PPM: f64 = 2000.0;
/// Share of its label that a fan should move.
const LEAST_OF_LABEL: f64 = 0.5;
/// Temperature inside above which a lithium battery must not be charged, and nothing living be left [°F].
const DEADLY_F: f64 = 104.0;

/// Holds the air in the box against its rules.
pub fn judge(build: &Build, setup: &Setup, numbers: &Numbers, all: &mut Findings) {
    of_heat(numbers, all);
    of_fan(build, numbers, all);
    of_sleepers(build, setup, numbers, all);
}

fn of_heat(numbers: &Numbers, all: &mut Findings) {
    let warmest_f = fahrenheit(numbers.free.warmest_c);
    if warmest_f > DEADLY_F {
        let message = format!(
            "With nothing that cools, the closed box gets {} on the hot day.",
            degrees(numbers.free.warmest_c)
        );
        let remedy =
            "Leave nobody in it, no animal, and nothing that the heat spoils; shade and a fan help most.";
        all.add(DEADLY_WITHOUT_COOLING.finding(
            "/envelope",
            Some(warmest_f),
            Some(DEADLY_F),
            message,
            remedy,
        ));
    }
}

fn of_fan(build: &Build, numbers: &Numbers, all: &mut Findings) {
    let fan = build.climate.as_ref().and_then(|climate| climate.fan.as_ref());
    let has_inlet = fan.is_some_and(|fan| fan.inlet_in2.is_some());
    let Some(airing) = numbers.airing.as_ref().filter(|_| has_inlet) else { return };
    let moved = airing.fan_m3_s / airing.label_m3_s;
    if moved < LEAST_OF_LABEL {
        let message = format!(
            "Through its inlet the fan moves {} cfm of the {} on its label.",
            figure(cfm(airing.fan_m3_s), 0),
            figure(cfm(airing.label_m3_s), 0)
        );
        let remedy =
            "Open a window or a second vent: an inlet of one and a half times the fan's own opening.";
        let at = "/climate/fan/inlet_in2";
        all.add(INLET_TOO_SMALL.finding(at, Some(moved), Some(LEAST_OF_LABEL), message, remedy));
    }
}

fn of_sleepers(build: &Build, setup: &Setup, numbers: &Numbers, all: &mut Findings) {
    let people = build.occupancy.as_ref().map_or(0.0, |occupancy| f64::from(occupancy.people));
    let night = &numbers.night;
    let volume = volume_m3_kg(night.outdoor_c, 0.0, setup.around.pressure_pa);
    let comes_m3_s = night.air_kg_s * volume;
    let co2_m3_s = people * CO2_ASLEEP_M3_S;
    let least_m3_s = co2_m3_s / (MOST_CO2_RISE_PPM * 1e-6);
    if comes_m3_s < least_m3_s {
        let rise_ppm = co2_rise_ppm(co2_m3_s, comes_m3_s);
        let message = format!(
            "{} cfm come in while {}; carbon dioxide rises {}.",
            figure(cfm(comes_m3_s), 1),
            if people == 1.0 { "one sleeps".to_owned() } else { format!("{} sleep", figure(people, 0)) },
            if rise_ppm.is_finite() {
                format!("by {} ppm", figure(rise_ppm, 0))
            } else {
                "without end".to_owned()
            }
        );
        let remedy = format!(
            "Leave vents open, or run a fan for {} cfm of fresh air (occupancy.fresh_air_cfm).",
            figure(cfm(needed_m3_s(people, LEAST_M3_S)), 0)
        );
        let (value, limit) = (cfm(comes_m3_s), cfm(least_m3_s));
        all.add(TOO_LITTLE_FRESH_AIR.finding("/occupancy/people", Some(value), Some(limit), message, remedy));
    }
}
