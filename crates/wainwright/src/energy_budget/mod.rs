//! Energy budget: sun, array, battery and loads, hour by hour.

pub mod array;
pub mod arrays;
pub mod autonomy;
pub mod balance;
pub mod bank;
pub mod battery_temperature;
pub mod cell_temperature;
pub mod charging;
pub mod charging_line;
pub mod conditions;
pub mod consumers;
pub mod cycles;
pub mod harvest;
pub mod kinetic_battery;
pub mod lead_acid_charge;
pub mod ledger;
pub mod module_curve;
pub mod module_power;
pub mod numbers;
pub mod peukert;
pub mod setup;
pub mod shade;
pub mod smallest;
pub mod stay;
pub mod terminal_voltage;
pub mod worksheet;

mod findings;
mod report;
mod text;

pub use report::*;

use crate::build::Build;
use crate::document::Faults;
use crate::question::Question;
use crate::report::Rule;
use crate::site_weather;

/// The question: how long do battery and sun carry the loads, here, in this season?
#[derive(Debug, Clone, Copy)]
pub struct EnergyBudget;

impl Question for EnergyBudget {
    const NAME: &'static str = "energy_budget";
    const PATH: &'static str = "energy-budget";
    const SUMMARY: &'static str = "How long battery and sun carry the loads, month by month, and the smallest array and battery that do";
    const DESCRIPTION: &'static str = "Reads `site` with its weather, `battery`, the electrical side of `parts`, and where \
        they are there `solar`, `electrical` and `stay`. Works through the weather given step by step: light on every array, \
        heat of its cells, controller, loads by the clock, refrigerators by the air, and the battery with its losses and its \
        temperature. Answers with harvest, load, spilled and unmet energy by month, the hours the battery lasts without sun, \
        the smallest array and battery for a target, and what becomes of a stay. The least that answers is a battery, a part \
        that draws power, and a place or a latitude with its weather.";
    const RULES: &'static [&'static Rule] = findings::RULES;
    type Report = EnergyBudgetReport;

    fn missing(build: &Build, faults: &mut Faults) {
        if !build.draws().any(|(_, draw)| draw.charger.is_none()) {
            let detail =
                "has no part that draws power; energy budget needs at least one with electrical.power_w";
            faults.missing_section("/parts", detail);
        }
        if build.battery.is_none() {
            let detail = "is missing; energy budget needs its chemistry, capacity_ah and nominal_v";
            faults.missing_section("/battery", detail);
        }
        if let Some(solar) = &build.solar {
            arrays::missing(solar, faults);
        }
        site_weather::missing(build, "energy budget", faults);
    }

    fn answer(build: &Build) -> EnergyBudgetReport {
        report::report(build)
    }

    fn part(build: &Build, wanted: &[&str]) -> Option<serde_json::Value> {
        report::part(build, wanted)
    }
}
