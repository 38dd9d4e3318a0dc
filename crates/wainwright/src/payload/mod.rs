//! Payload: what the trailer weighs empty and in every loading state, and what is left of its rating.

mod findings;
mod label;
mod masses;
mod reconciliation;
mod report;
mod text;

pub use label::{RELABEL_FRACTION, RELABEL_LB, cargo_capacity, relabel_threshold, water_label};
pub use masses::{Numbers, StateNumbers, numbers};
pub use reconciliation::{Group, Readings, Unaccounted, unaccounted};
pub use report::{
    Category, FluidMass, HeavyPart, Label, MassBand, PayloadReport, Reconciliation, Relabel, StateMass,
};

use crate::build::Build;
use crate::document::Faults;
use crate::question::Question;
use crate::report::Rule;

/// The question: what does it weigh, and what may still be loaded?
#[derive(Debug, Clone, Copy)]
pub struct Payload;

impl Question for Payload {
    const NAME: &'static str = "payload";
    const PATH: &'static str = "payload";
    const SUMMARY: &'static str =
        "What the trailer weighs in every loading state, and what is left of its rating";
    const DESCRIPTION: &'static str = "Reads `trailer`, `parts`, `tanks`, `cargo` and `states`. Answers with the mass of \
        bare trailer, parts, liquids and cargo in every loading state, the payload left under the GVWR, the figures of \
        the cargo capacity label, and, where a state carries scale readings, how much mass is unaccounted for and \
        where along the trailer it sits. The least that answers is a GVWR and a bare mass.";
    const RULES: &'static [&'static Rule] = findings::RULES;
    type Report = PayloadReport;

    fn missing(build: &Build, faults: &mut Faults) {
        if build.trailer.is_none() {
            faults.missing_section("/trailer", "is missing; payload needs its gvwr_lb and bare mass_lb");
        }
    }

    fn answer(build: &Build) -> PayloadReport {
        report::report(build)
    }
}
