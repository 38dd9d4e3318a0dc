//! Circuit load: every circuit in every supply mode: current, drop, conductor, protection, what may run together.

pub mod charging;
pub mod circuit_fault;
pub mod circuit_sizing;
pub mod conductor;
pub mod conductor_temperature;
pub mod constant_power;
pub mod converter;
pub mod current;
pub mod dc_network;
pub mod defaults;
pub mod demand;
pub mod drawn;
pub mod drop;
pub mod energized;
pub mod fault;
pub mod inverter;
pub mod numbers;
pub mod ratings;
pub mod shared_limits;
pub mod sizing;
pub mod solar_numbers;
pub mod solar_wiring;
pub mod source_demand;
pub mod split_phase;
pub mod starting;
pub mod through;
pub mod together;
pub mod voltages;
pub mod wiring;

mod findings;
#[cfg(test)]
mod fixture;
mod report;
mod text;

pub use report::*;

use crate::build::Build;
use crate::document::Faults;
use crate::question::Question;
use crate::report::Rule;

/// The question: what does each circuit carry, what does it need, and what may run together?
#[derive(Debug, Clone, Copy)]
pub struct CircuitLoad;

impl Question for CircuitLoad {
    const NAME: &'static str = "circuit_load";
    const PATH: &'static str = "circuit-load";
    const SUMMARY: &'static str = "What every circuit carries in every supply mode, what wire and protection it needs, and what may run together";
    const DESCRIPTION: &'static str = "Reads `electrical`, the electrical side of `parts`, and where they are there `battery` and \
        `solar`. Answers, for every supply mode, with the current of every circuit and source, voltage drop and the voltage \
        that arrives, ampacity, the smallest wire that does and what asks for it, breaker and fuse, fault current, the sets \
        of parts that cannot run together and the largest that can, the demand over the day, and the wiring of the solar \
        arrays. The least that answers is one source, one circuit and a part on it.";
    const RULES: &'static [&'static Rule] = findings::RULES;
    type Report = CircuitLoadReport;

    fn missing(build: &Build, faults: &mut Faults) {
        let Some(electrical) = &build.electrical else {
            let detail = "is missing; circuit load needs its sources and circuits";
            faults.missing_section("/electrical", detail);
            return;
        };
        let sources = electrical.sources.as_ref().map_or(0, |sources| sources.len());
        if sources == 0 {
            let detail = "is missing or empty; circuit load needs at least one source that feeds a circuit";
            faults.missing_section("/electrical/sources", detail);
        }
        if electrical.circuits.as_ref().is_none_or(|circuits| circuits.is_empty()) {
            faults.missing_section(
                "/electrical/circuits",
                "is missing or empty; circuit load needs at least one circuit",
            );
        }
        let modes = electrical.modes.as_ref().map(|modes| modes.len());
        if modes == Some(0) || (modes.is_none() && sources > 1) {
            let detail = "is missing or empty; with more than one source circuit load needs to know which feeds which circuit";
            faults.missing_section("/electrical/modes", detail);
        }
    }

    fn answer(build: &Build) -> CircuitLoadReport {
        report::report(build)
    }
}
