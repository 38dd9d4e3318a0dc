//! Axle load: what tongue, axles, wheels and tow vehicle carry, and where heavy things may stand.

#[cfg(test)]
pub(crate) mod fixture;
pub mod hitch;
pub mod independent;
mod lift;
pub mod limits;
pub mod line;
pub mod mixed_water;
pub mod normal_use;
pub mod numbers;
pub mod often;
pub mod placement;
pub mod rig;
pub mod road;
pub mod screen;
pub mod stability;
pub mod station;
pub mod sway;
pub mod tail_tip;
pub mod tires;
pub mod tow_vehicle;
pub mod toy_bay;
pub mod uncertainty;
pub mod wheels;
pub mod worst;
pub mod yaw;

mod findings;
mod report;
mod text;
#[cfg(test)]
mod worked_cases;

pub use report::*;
pub(crate) use text::words as limit_words;

use crate::build::Build;
use crate::document::Faults;
use crate::question::Question;
use crate::report::Rule;

/// The question: what do tongue, axles, wheels and tow vehicle carry, and where may heavy things stand?
#[derive(Debug, Clone, Copy)]
pub struct AxleLoad;

impl Question for AxleLoad {
    const NAME: &'static str = "axle_load";
    const PATH: &'static str = "axle-load";
    const SUMMARY: &'static str =
        "What tongue, axles, wheels and tow vehicle carry, the worst case, and where things may stand";
    const DESCRIPTION: &'static str = "Reads `trailer` with places and axles, `parts`, `tanks`, `cargo`, `states`, and where \
        they are there `tow_vehicle`, `bay` and `road`. Answers with the loads of every state, the exact worst case over \
        every tank fill and every choice of cargo with the state that produces it, each limit at its worst, where \
        each part and piece of cargo may stand, the greatest mass of each piece of cargo at its place, the best axle \
        station, the unhitched trailer's tail, and each toy in its bay. The least that answers is a GVWR, the bare mass \
        and its place, and the axles.";
    const RULES: &'static [&'static Rule] = findings::RULES;
    type Report = AxleLoadReport;

    fn missing(build: &Build, faults: &mut Faults) {
        let Some(trailer) = &build.trailer else {
            faults
                .missing_section("/trailer", "is missing; axle load needs its ratings, bare mass and axles");
            return;
        };
        if trailer.bare.x_in.is_none() {
            let detail =
                "is missing; axle load needs the bare trailer's center of gravity, in inches behind the ball";
            faults.missing_section("/trailer/bare/x_in", detail);
        }
        if trailer.axles.as_ref().is_none_or(|axles| axles.is_empty()) {
            faults.missing_section("/trailer/axles", "is missing; axle load needs one to three axles");
        }
    }

    fn answer(build: &Build) -> AxleLoadReport {
        report::report(build)
    }
}
