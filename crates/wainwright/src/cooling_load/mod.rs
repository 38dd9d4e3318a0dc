//! Cooling load: what heat the box takes in and gives off, and what a cooler or a heater makes of it.

pub mod air_exchange;
pub mod airing;
pub mod body;
pub mod case;
pub mod changes;
pub mod cold_night;
pub mod cooler;
pub mod course;
pub mod envelope;
pub mod equipment;
pub mod exchange;
pub mod gains;
pub mod heater;
pub mod hot_day;
pub mod lap;
pub mod network;
pub mod numbers;
pub mod outdoors;
pub mod people;
pub mod pull_down;
pub mod season;
pub mod setup;
pub mod sizes;
pub mod steady;
pub mod trace;

mod findings;
#[cfg(test)]
mod fixture;
mod report;
mod text;

pub use report::*;

use crate::build::Build;
use crate::document::Faults;
use crate::question::Question;
use crate::report::{Finding, Rule};
use crate::site_weather;

/// The question: does the air conditioner hold the box on a hot day, and what heat does a cold night take?
#[derive(Debug, Clone, Copy)]
pub struct CoolingLoad;

impl Question for CoolingLoad {
    const NAME: &'static str = "cooling_load";
    const PATH: &'static str = "cooling-load";
    const SUMMARY: &'static str =
        "The load hour by hour, what the air conditioner makes of it, and the heat of a cold night";
    const DESCRIPTION: &'static str = "Reads `envelope`, `site` with its weather, and where they are there `climate`, \
        `occupancy`, `electrical` and the electrical side of `parts`. Walks the box as a network of heat capacities through \
        the hot day in steps of five minutes, and through the weather given: sun on every face, windows, air that comes in, \
        people and what draws power. Answers with the load hour by hour and where it comes from, the temperature that the \
        given air conditioner holds, its run time and energy, the smallest common size that holds it, how long it takes \
        after a day in the sun, what a fan does alone, the heat of the cold night, where water condenses, and what single \
        changes would help. The least that answers is a roof, walls and a floor, and a place or a latitude with its weather.";
    const RULES: &'static [&'static Rule] = findings::RULES;
    type Report = CoolingLoadReport;

    fn missing(build: &Build, faults: &mut Faults) {
        let envelope = build.envelope.as_ref();
        if envelope.is_none_or(|envelope| envelope.surfaces().next().is_none()) {
            let detail = "is missing; cooling load needs the roof, walls and floor of the box, each with area_ft2, facing and \
                r_value or layers";
            faults.missing_section("/envelope/surfaces", detail);
        } else if envelope.is_some_and(|envelope| envelope.volume_ft3.or(envelope.box_ft3()).is_none()) {
            let detail = "is missing; cooling load needs the room inside, or a roof or floor, a side and an end to reckon it from";
            faults.missing_section("/envelope/volume_ft3", detail);
        }
        site_weather::missing(build, "cooling load", faults);
    }

    fn answer(build: &Build) -> CoolingLoadReport {
        report::report(build)
    }

    fn part(build: &Build, wanted: &[&str]) -> Option<serde_json::Value> {
        report::part(build, wanted)
    }

    fn violations(build: &Build) -> Vec<Finding> {
        findings::unvented_burner(build).into_iter().collect()
    }
}
