//! The report of the whole build.

use crate::axle_load::AxleLoadReport;
use crate::circuit_load::CircuitLoadReport;
use crate::cooling_load::CoolingLoadReport;
use crate::energy_budget::EnergyBudgetReport;
use crate::payload::PayloadReport;
use crate::report::{Assumption, Caution, Engine, Finding, report};

report! {
    /// Every question's answer to one build, and what they come to together.
    pub struct EvaluateReport {
        /// What to read first.
        verdict: Verdict,
        /// By how much the build keeps what matters most. Packages are compared by these.
        margins: Margins,
        /// Masses in every loading state; null where the build has too little for them, as with each question.
        payload: Option<PayloadReport>,
        /// Tongue, axle, wheel and tow-vehicle loads.
        axle_load: Option<AxleLoadReport>,
        /// Circuits in every supply mode.
        circuit_load: Option<CircuitLoadReport>,
        /// Battery and sun.
        energy_budget: Option<EnergyBudgetReport>,
        /// The heat of a hot day and of a cold night.
        cooling_load: Option<CoolingLoadReport>,
        /// What the rules of all questions say of this build, gravest first; what two questions say is listed once.
        findings: Vec<Finding>,
        /// Every default that was used, in the order of the document.
        assumptions: Vec<Assumption>,
        /// What goes with every evaluation.
        cautions: Vec<Caution>,
        /// What worked it out.
        engine: Engine,
    }
}

report! {
    /// What a person reads first.
    pub struct Verdict {
        /// The gravest of the findings: `violation`, `caution`, or `clear` where there is neither.
        status: &'static str = "caution",
        /// The same in a sentence or two, with the gravest finding.
        sentence: String = "Within every rating that was checked, with 3 cautions. The first: the tongue carries 9.8 % of the gross mass in state homebound.",
        /// Ratings, laws or standards that are broken.
        violation_count: u32 = 0,
        /// Cautions.
        caution_count: u32 = 3,
        /// Notes.
        note_count: u32 = 5,
        /// Questions that were not worked out, because the build has too little for them.
        not_worked_out: Vec<&'static str> = ["cooling_load"],
    }
}

report! {
    /// By how much a build keeps what matters most: above 0 it does.
    #[derive(Copy)]
    pub struct Margins {
        /// Payload left in the heaviest state; null without payload.
        payload_left_lb: Option<f64> = 312.0,
        /// How far the tongue's share of the gross mass stays within 0.10 to 0.15 in the worst state that moves; below 0
        /// outside. Null without axle load, or where no state moves.
        tongue_margin_fraction: Option<f64> = 0.012,
        /// Hours the battery lasts without sun; null without energy budget, or where it never runs out.
        autonomy_h: Option<f64> = 41.5,
        /// How much more the air conditioner gives at the peak than the sensible load, as a share of that; null without
        /// one, or without cooling load.
        cooling_margin_fraction: Option<f64> = 0.35,
    }
}
