//! What the rules say of the air in the box: how hot it gets by itself, and what fan and gaps bring.

use super::{
    BATTERY_TOO_HOT, DEADLY_WITHOUT_COOLING, FACES_MISSING, INLET_TOO_SMALL, TOO_LITTLE_FRESH_AIR, degrees,
};
use crate::build::{Build, Facing};
use crate::cooling_load::air_exchange::fresh_air::{CO2_ASLEEP_M3_S, LEAST_M3_S, co2_rise_ppm, needed_m3_s};
use crate::cooling_load::numbers::Numbers;
use crate::cooling_load::setup::Setup;
use crate::report::{Findings, figure};
use crate::units::{cfm, fahrenheit};

/// Carbon dioxide above that of the outdoors that sleepers should not pass [ppm].
const MOST_CO2_RISE_PPM: f64 = 2000.0;
/// Share of its label that a fan should move.
const LEAST_OF_LABEL: f64 = 0.5;
/// Temperature inside above which nothing living sheds its heat to the air [°F]: that of the skin.
const DEADLY_F: f64 = 95.0;
/// Temperature above which a lithium battery must not be charged [°F]: 45 °C.
const BATTERY_F: f64 = 113.0;
/// By how much it is warmer inside on a mild night, in which air hardly moves [K].
const MILD_NIGHT_K: f64 = 3.0;
/// Wind of a calm night [m/s]: 2 mph.
const CALM_M_S: f64 = 0.894;

/// Holds the air in the box against its rules.
pub fn judge(build: &Build, setup: &Setup, numbers: &Numbers, all: &mut Findings) {
    of_heat(build, numbers, all);
    of_faces(build, all);
    of_fan(build, numbers, all);
    of_sleepers(build, setup, all);
}

fn of_heat(build: &Build, numbers: &Numbers, all: &mut Findings) {
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
    let lithium = build.battery.as_ref().is_some_and(|battery| !battery.chemistry.is_lead());
    if lithium && warmest_f > BATTERY_F {
        let message =
            format!("In the closed box of the hot day it gets {}.", degrees(numbers.free.warmest_c));
        let remedy = "Keep the battery where air reaches it, or stop its charge by its own thermometer.";
        all.add(BATTERY_TOO_HOT.finding(
            "/battery/chemistry",
            Some(warmest_f),
            Some(BATTERY_F),
            message,
            remedy,
        ));
    }
}

fn of_faces(build: &Build, all: &mut Findings) {
    let Some(envelope) = &build.envelope else { return };
    let missing = Facing::ALL.into_iter().filter(|facing| envelope.area_ft2(*facing) == 0.0);
    let words: Vec<&str> = missing.map(Facing::word).collect();
    if !words.is_empty() {
        let message = format!("The envelope has no surface for {}.", words.join(", "));
        let remedy = "Give every side of the box, or these figures are too low.";
        all.add(FACES_MISSING.finding("/envelope/surfaces", None, None, message, remedy));
    }
}

fn of_fan(build: &Build, numbers: &Numbers, all: &mut Findings) {
    let fan = build.climate.as_ref().and_then(|climate| climate.fan.as_ref());
    let has_inlet = fan.is_some_and(|fan| fan.inlet_in2.is_some());
    let Some(airing) = numbers.airing.as_ref().filter(|_| has_inlet) else { return };
    let moved = if airing.label_m3_s > 0.0 { airing.fan_m3_s / airing.label_m3_s } else { 1.0 };
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

fn of_sleepers(build: &Build, setup: &Setup, all: &mut Findings) {
    let people = build.occupancy.as_ref().map_or(0.0, |occupancy| f64::from(occupancy.people));
    // A mild, calm night brings least.
    let comes_m3_s = setup.exchange.flow_m3_s(MILD_NIGHT_K, CALM_M_S);
    let co2_m3_s = people * CO2_ASLEEP_M3_S;
    let least_m3_s = co2_m3_s / (MOST_CO2_RISE_PPM * 1e-6);
    if comes_m3_s < least_m3_s {
        let rise_ppm = co2_rise_ppm(co2_m3_s, comes_m3_s);
        let sleepers =
            if people == 1.0 { "one sleeps".to_owned() } else { format!("{} sleep", figure(people, 0)) };
        let message = if comes_m3_s > 0.0 {
            format!(
                "On a calm, mild night {} cfm come in while {sleepers}; carbon dioxide rises by {} ppm.",
                figure(cfm(comes_m3_s), 1),
                figure(rise_ppm, 0)
            )
        } else {
            format!("No air comes in while {sleepers}; carbon dioxide keeps rising.")
        };
        let remedy = format!(
            "Leave vents open, or run a fan for {} cfm of fresh air (occupancy.fresh_air_cfm).",
            figure(cfm(needed_m3_s(people, LEAST_M3_S)), 0)
        );
        let (value, limit) = (cfm(comes_m3_s), cfm(least_m3_s));
        all.add(TOO_LITTLE_FRESH_AIR.finding("/occupancy/people", Some(value), Some(limit), message, remedy));
    }
}
