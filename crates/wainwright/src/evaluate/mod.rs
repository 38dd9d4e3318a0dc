//! The whole build: every question put to it, one answer that agrees with itself.

mod coupled;
mod findings;
mod margins;
mod report;
pub mod rounds;
mod text;
mod verdict;

pub use report::{BoxAir, EvaluateReport, HandedOver, Margins, Verdict};

use crate::axle_load::AxleLoad;
use crate::build::Build;
use crate::circuit_load::CircuitLoad;
use crate::cooling_load::CoolingLoad;
use crate::document::{Faults, Refusal};
use crate::energy_budget::EnergyBudget;
use crate::payload::Payload;
use crate::question::{Answer, Question, ask};
use crate::report::{Assumption, Caution, Engine, Findings, Rule};

/// The question: what do all questions say of this build, taken together?
#[derive(Debug, Clone, Copy)]
pub struct Evaluate;

impl Question for Evaluate {
    const NAME: &'static str = "evaluate";
    const PATH: &'static str = "evaluate";
    const SUMMARY: &'static str = "Every question put to the build, one list of findings and one verdict";
    const DESCRIPTION: &'static str = "Reads the whole build. Answers with the report of every question, `null` with a note \
        where the build has too little for it; with all findings in one list, gravest first; with a verdict to read before \
        anything else, and with the margins by which builds are compared. The questions answer with each other's numbers: \
        circuits and battery carry the air conditioner as long as the heat of the box asks for it, refrigerators and battery \
        stand in the air of the box, and what everything draws or loses is heat in it. So a figure may differ a little from \
        that of the question asked alone; `handed_over` says what was exchanged, in how many rounds, and whether it settled.";
    const RULES: &'static [&'static Rule] = findings::RULES;
    type Report = EvaluateReport;

    fn missing(_: &Build, _: &mut Faults) {}

    fn answer(build: &Build) -> EvaluateReport {
        let mut all = Gathered::default();
        let payload = all.take::<Payload>(ask::<Payload>(build));
        let axle_load = all.take::<AxleLoad>(ask::<AxleLoad>(build));
        let coupled = coupled::coupled(build);
        let circuit_load = all.take::<CircuitLoad>(coupled.circuit_load);
        let energy_budget = all.take::<EnergyBudget>(coupled.energy_budget);
        let cooling_load = all.take::<CoolingLoad>(coupled.cooling_load);
        if let Some(handed_over) = &coupled.handed_over {
            findings::judge(build, handed_over, &mut all.findings);
        }
        let findings = all.findings.in_order();
        EvaluateReport {
            verdict: verdict::verdict(&findings, all.not_worked_out),
            margins: margins::margins(
                payload.as_ref(),
                axle_load.as_ref(),
                energy_budget.as_ref(),
                cooling_load.as_ref(),
            ),
            payload,
            axle_load,
            circuit_load,
            energy_budget,
            cooling_load,
            handed_over: coupled.handed_over.as_ref().map(report::handed_over),
            findings,
            assumptions: in_order(build, all.assumptions),
            cautions: all.cautions,
            engine: Engine::THIS,
        }
    }
}

/// What the questions say, gathered.
#[derive(Default)]
struct Gathered {
    findings: Findings,
    assumptions: Vec<Assumption>,
    cautions: Vec<Caution>,
    not_worked_out: Vec<&'static str>,
}

impl Gathered {
    /// Takes the answer of a question; none where the build has too little for it, which is noted.
    fn take<Q: Question>(&mut self, answer: Result<Q::Report, Refusal>) -> Option<Q::Report> {
        match answer {
            Ok(report) => {
                report.findings().iter().for_each(|finding| self.findings.add(finding.clone()));
                for assumption in report.assumptions() {
                    // One assumption that two questions make is made once.
                    if !self.assumptions.contains(assumption) {
                        self.assumptions.push(assumption.clone());
                    }
                }
                for caution in report.cautions() {
                    if !self.cautions.contains(caution) {
                        self.cautions.push(*caution);
                    }
                }
                Some(report)
            }
            Err(refusal) => {
                self.not_worked_out.push(Q::NAME);
                self.findings.add(findings::not_worked_out::<Q>(&refusal));
                None
            }
        }
    }
}

/// Assumptions in the order of the document.
fn in_order(build: &Build, mut assumptions: Vec<Assumption>) -> Vec<Assumption> {
    assumptions.sort_by_cached_key(|assumption| build.position(&assumption.pointer));
    assumptions
}

#[cfg(test)]
mod tests;
