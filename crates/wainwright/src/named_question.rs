//! Questions by their names, for what is asked with a name in the request.

use std::sync::LazyLock;

use serde_json::Value;

use crate::build::Build;
use crate::document::schema::Definitions;
use crate::document::{Faults, Refusal};
use crate::question::{Answer, ForEachQuestion, Question, ask, for_each_question};
use crate::report::{Assumption, Described, Finding, Rule};

/// A question, its type left behind.
#[derive(Debug)]
pub struct NamedQuestion {
    /// Its name.
    pub name: &'static str,
    /// Every rule its findings come from.
    pub rules: &'static [&'static Rule],
    /// Its report's schema.
    pub schema: fn(&mut Definitions) -> Value,
    ask: fn(&Build, bool) -> Result<Answered, Refusal>,
    ask_for: fn(&Build, &[&str]) -> Result<Value, Refusal>,
    missing: fn(&Build, &mut Faults),
}

/// What a question answered.
#[derive(Debug, Clone, Default)]
pub struct Answered {
    /// The report as JSON; null where it was not asked for.
    pub report: Value,
    /// What was found.
    pub findings: Vec<Finding>,
    /// Every default that was used.
    pub assumptions: Vec<Assumption>,
}

impl NamedQuestion {
    /// Puts the question to a build; the report's JSON is made where `with_report` asks for it.
    ///
    /// # Errors
    ///
    /// What the question needs and the build does not have.
    pub fn ask(&self, build: &Build, with_report: bool) -> Result<Answered, Refusal> {
        (self.ask)(build, with_report)
    }

    /// The JSON of its answer, as far as some of its figures need it.
    ///
    /// - `wanted`  the first key of every figure that is wanted
    ///
    /// # Errors
    ///
    /// What the question needs and the build does not have.
    pub fn ask_for(&self, build: &Build, wanted: &[&str]) -> Result<Value, Refusal> {
        (self.ask_for)(build, wanted)
    }

    /// Has a build all that the question cannot do without?
    pub fn is_answered_by(&self, build: &Build) -> bool {
        let mut faults = Faults::default();
        (self.missing)(build, &mut faults);
        faults.is_empty()
    }

    /// Is the rule with this code one of the question's?
    pub fn has_rule(&self, code: &str) -> bool {
        self.rules.iter().any(|rule| rule.code == code)
    }
}

/// Every question, in the order of the documentation.
pub static QUESTIONS: LazyLock<Vec<NamedQuestion>> = LazyLock::new(|| {
    let mut list = List(Vec::new());
    for_each_question(&mut list);
    list.0
});

/// The question of a name.
pub fn named(name: &str) -> Option<&'static NamedQuestion> {
    QUESTIONS.iter().find(|question| question.name == name)
}

struct List(Vec<NamedQuestion>);

impl ForEachQuestion for List {
    fn question<Q: Question>(&mut self) {
        self.0.push(NamedQuestion {
            name: Q::NAME,
            rules: Q::RULES,
            schema: <Q::Report as Described>::schema,
            ask: answered::<Q>,
            ask_for: part::<Q>,
            missing: Q::missing,
        });
    }
}

fn answered<Q: Question>(build: &Build, with_report: bool) -> Result<Answered, Refusal> {
    let report = ask::<Q>(build)?;
    Ok(Answered {
        report: if with_report { json(&report) } else { Value::Null },
        findings: report.findings().to_vec(),
        assumptions: report.assumptions().to_vec(),
    })
}

fn part<Q: Question>(build: &Build, wanted: &[&str]) -> Result<Value, Refusal> {
    let mut faults = Faults::default();
    Q::missing(build, &mut faults);
    faults.into_result()?;
    Ok(Q::part(build, wanted).unwrap_or_else(|| json(&Q::answer(build))))
}

/// A report as JSON: an object of plain values can always be written.
fn json(report: &impl serde::Serialize) -> Value {
    serde_json::to_value(report).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_question_asked_by_its_name_answers_as_it_always_does() {
        let build =
            Build::from_json(br#"{"trailer": {"gvwr_lb": 3000, "bare": {"mass_lb": 2180}}}"#).unwrap();
        let payload = named("payload").unwrap();
        let answered = payload.ask(&build, true).unwrap();
        let report = ask::<crate::payload::Payload>(&build).unwrap();
        let left_lb = report.states["delivered"].payload_left_lb;
        assert_eq!(answered.report["states"]["delivered"]["payload_left_lb"], left_lb);
        assert_eq!(answered.report["findings"].as_array().unwrap().len(), answered.findings.len());
        assert!(payload.ask(&build, false).unwrap().report.is_null());
        assert!(payload.has_rule("gross_over_gvwr") && !payload.has_rule("axle_over_gawr"));
        assert!(named("axle_load").unwrap().ask(&build, true).is_err());
        assert!(named("weight").is_none());
    }
}
