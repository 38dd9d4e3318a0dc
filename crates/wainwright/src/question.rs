//! The shape that all questions share: one build in, one report out.

use std::fmt;

use serde::Serialize;

use crate::build::Build;
use crate::document::{Faults, Refusal};
use crate::report::{Assumption, Caution, Described, Finding, Rule, Severity};
use crate::text::ending;

/// A question that can be put to a build.
///
/// Route, Python method, evaluation and published contract of a question all follow from this.
pub trait Question: 'static {
    /// Its name in `snake_case`: the Python method and the key in an evaluation.
    const NAME: &'static str;
    /// Its last path segment over HTTP.
    const PATH: &'static str;
    /// What it answers, in a line.
    const SUMMARY: &'static str;
    /// What it reads and what it answers, in a paragraph.
    const DESCRIPTION: &'static str;
    /// Every rule its findings come from.
    const RULES: &'static [&'static Rule];
    /// What it answers with.
    type Report: Answer;

    /// Notes every section or member that the question cannot do without and the build does not have.
    fn missing(build: &Build, faults: &mut Faults);

    /// The answer, for a build in which nothing is missing.
    fn answer(build: &Build) -> Self::Report;

    /// The JSON of its answer with some members alone, for a build in which nothing is missing; none where there is no
    /// shorter way to them than the whole.
    ///
    /// - `wanted`  the first key of every figure that is wanted
    fn part(build: &Build, wanted: &[&str]) -> Option<serde_json::Value> {
        _ = (build, wanted);
        None
    }

    /// The violations among its findings, in the order of the report, for a build in which nothing is missing.
    ///
    /// A question that can tell them at less cost than its answer does so here.
    fn violations(build: &Build) -> Vec<Finding> {
        let is_one = |severity: Severity| severity == Severity::Violation;
        if !Self::RULES.iter().any(|rule| is_one(rule.severity)) {
            return Vec::new();
        }
        Self::answer(build).findings().iter().filter(|finding| is_one(finding.severity)).cloned().collect()
    }
}

/// A report, as far as all reports are alike.
pub trait Answer: Serialize + Described + Clone + PartialEq + fmt::Debug + Send + Sync + 'static {
    /// What was found, in the order of the report.
    fn findings(&self) -> &[Finding];

    /// Every default that was used, in the order of the document.
    fn assumptions(&self) -> &[Assumption];

    /// What goes with every report of its subject.
    fn cautions(&self) -> &[Caution];

    /// Its figures for people, as plain text.
    fn write_figures(&self, out: &mut dyn fmt::Write) -> fmt::Result;

    /// The whole report for people, as plain text: its figures, and how every report ends.
    fn write_text(&self, out: &mut dyn fmt::Write) -> fmt::Result {
        self.write_figures(out)?;
        ending(out, self.findings(), self.assumptions(), self.cautions())
    }

    /// Is a rating, a law or a standard broken?
    fn has_violation(&self) -> bool {
        self.findings().iter().any(|finding| finding.severity == Severity::Violation)
    }
}

/// Puts a question to a build.
///
/// # Errors
///
/// The sections and members that the question needs and the build does not have, all together.
pub fn ask<Q: Question>(build: &Build) -> Result<Q::Report, Refusal> {
    let mut faults = Faults::default();
    Q::missing(build, &mut faults);
    faults.into_result()?;
    Ok(Q::answer(build))
}

/// Does something with every question, each with its own type.
pub trait ForEachQuestion {
    /// Does it with `Q`.
    fn question<Q: Question>(&mut self);
}

/// Every question, in the order of the documentation. A new question is one line here.
pub fn for_each_question(visitor: &mut impl ForEachQuestion) {
    visitor.question::<crate::payload::Payload>();
    visitor.question::<crate::axle_load::AxleLoad>();
    visitor.question::<crate::circuit_load::CircuitLoad>();
    visitor.question::<crate::energy_budget::EnergyBudget>();
    visitor.question::<crate::cooling_load::CoolingLoad>();
    visitor.question::<crate::evaluate::Evaluate>();
}
