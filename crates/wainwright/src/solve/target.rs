//! What is to hold, read and checked, and held against an answer.

use serde_json::Value;

use super::request::{SolveTarget, Until};
use crate::document::{FaultCode, Faults, Place, echo};
use crate::figures::Figure;
use crate::named_question::{Answered, NamedQuestion, QUESTIONS, named};
use crate::report::Finding;

/// What is to hold.
pub struct Target {
    /// The question that is asked.
    pub question: &'static NamedQuestion,
    /// What of its answer is looked at.
    pub wanted: Wanted,
}

/// What of an answer is looked at.
#[derive(Debug, Clone)]
pub enum Wanted {
    /// A figure of the question's answer.
    Figure {
        /// The figure.
        figure: Figure,
        /// What it must be.
        must: Must,
        /// The figure it is held against.
        limit: f64,
    },
    /// A finding.
    Finding {
        /// Its code.
        code: String,
        /// Its subject; none for any.
        subject: Option<String>,
        /// When it holds.
        until: Until,
    },
}

/// What a figure must be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Must {
    /// The limit or more.
    AtLeast,
    /// The limit or less.
    AtMost,
    /// The limit.
    Equal,
}

/// What is seen of a target in an answer.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Seen {
    /// Does it hold? For `equal`: is the figure the limit or more?
    pub passes: bool,
    /// By how much, below 0 where it does not; none for findings, and where there is no figure.
    pub slack: Option<f64>,
    /// The figure; that of the finding where one is raised.
    pub figure: Option<f64>,
    /// The finding, where it is raised.
    pub finding: Option<Finding>,
}

impl Target {
    /// The target that a request has; none where something is wrong with it, which is noted.
    ///
    /// - `build`  the build as JSON, in which the finding's subject is looked up; null where it could not be read
    /// - `varied`  pointer of the input, which may be added to the build
    pub fn read(
        asked: &SolveTarget,
        build: &Value,
        varied: &str,
        at: &Place,
        faults: &mut Faults,
    ) -> Option<Self> {
        match (&asked.figure, &asked.finding) {
            (Some(_), Some(_)) => {
                let detail = "cannot be given beside figure; give one of the two".to_owned();
                faults.contradiction(&at.key("finding"), detail);
                None
            }
            (Some(path), None) => figure(asked, path, at, faults),
            (None, Some(code)) => {
                check_subject(asked, build, varied, at, faults);
                finding(asked, code, at, faults)
            }
            (None, None) => {
                let names = ["figure", "finding"];
                let detail = "needs figure, with at_least, at_most or equal, or finding".to_owned();
                faults.contradiction_without(&names, at, at, detail);
                None
            }
        }
    }

    /// Must the question's report be written out to see it?
    pub fn is_figure(&self) -> bool {
        matches!(self.wanted, Wanted::Figure { .. })
    }

    /// Must a figure be hit?
    pub fn is_equal(&self) -> bool {
        matches!(self.wanted, Wanted::Figure { must: Must::Equal, .. })
    }

    /// The unit of the figure.
    pub fn unit(&self) -> Option<&'static str> {
        match &self.wanted {
            Wanted::Figure { figure, .. } => figure.unit(),
            Wanted::Finding { code, .. } => self.question.rules.iter().find(|rule| rule.code == code)?.unit,
        }
    }

    /// What is seen of it in an answer.
    pub fn look(&self, answered: &Answered) -> Seen {
        match &self.wanted {
            Wanted::Figure { figure, must, limit } => {
                let figure = figure.of(&answered.report);
                let slack = figure.map(|figure| match must {
                    Must::AtLeast | Must::Equal => figure - limit,
                    Must::AtMost => limit - figure,
                });
                Seen { passes: slack.is_some_and(|slack| slack >= 0.0), slack, figure, finding: None }
            }
            Wanted::Finding { code, subject, until } => {
                let is_it = |finding: &&Finding| {
                    finding.code == code && subject.as_ref().is_none_or(|subject| finding.subject == *subject)
                };
                let finding = answered.findings.iter().find(is_it).cloned();
                let passes = finding.is_some() == (*until == Until::Appears);
                Seen { passes, slack: None, figure: finding.as_ref().and_then(|one| one.value), finding }
            }
        }
    }

    /// Notes what is wrong with the figure's path, by the answer to the build as it is.
    ///
    /// - `at`  where the path stands in the request
    pub fn check_figure(&self, answered: &Answered, at: &Place, faults: &mut Faults) {
        if let Wanted::Figure { figure, .. } = &self.wanted {
            figure.check(&answered.report, at, faults);
        }
    }
}

fn figure(asked: &SolveTarget, path: &str, at: &Place, faults: &mut Faults) -> Option<Target> {
    let bounds = [
        ("at_least", asked.at_least, Must::AtLeast),
        ("at_most", asked.at_most, Must::AtMost),
        ("equal", asked.equal, Must::Equal),
    ];
    let mut given = bounds.into_iter().filter_map(|(name, limit, must)| Some((name, limit?, must)));
    let bound = given.next();
    if let Some((name, ..)) = given.next() {
        let detail =
            "cannot be given beside another bound; give one of at_least, at_most and equal".to_owned();
        faults.contradiction(&at.key(name), detail);
    }
    if bound.is_none() {
        let detail = "needs a bound beside it: give one of at_least, at_most and equal".to_owned();
        faults.contradiction_without(&["at_least", "at_most", "equal"], at, &at.key("figure"), detail);
    }
    let without = [("subject", asked.subject.is_some()), ("until", asked.until.is_some())];
    let without = without.into_iter().chain([("question", asked.question.is_some())]);
    for (name, _) in without.filter(|(_, given)| *given) {
        faults.contradiction(&at.key(name), "goes with finding, not with figure; leave it out".to_owned());
    }
    let figure = Figure::read(path, &at.key("figure"), faults)?;
    let (_, limit, must) = bound?;
    Some(Target { question: figure.question, wanted: Wanted::Figure { figure, must, limit } })
}

fn finding(asked: &SolveTarget, code: &str, at: &Place, faults: &mut Faults) -> Option<Target> {
    for (name, bound) in [("at_least", asked.at_least), ("at_most", asked.at_most), ("equal", asked.equal)] {
        if bound.is_some() {
            faults
                .contradiction(&at.key(name), "goes with figure, not with finding; leave it out".to_owned());
        }
    }
    let known = || QUESTIONS.iter().flat_map(|question| question.rules).map(|rule| rule.code);
    let is_known = known().any(|known| known == code);
    if !is_known {
        faults.unknown_name(&at.key("finding"), code, "the codes of findings", known());
    }
    let question = match &asked.question {
        None => QUESTIONS.iter().find(|question| question.has_rule(code))?,
        Some(name) => {
            let Some(question) = named(name) else {
                let names = QUESTIONS.iter().map(|question| question.name);
                faults.unknown_name(&at.key("question"), name, "the questions", names);
                return None;
            };
            if is_known && name != "evaluate" && !question.has_rule(code) {
                let detail = format!("never finds {}; leave it out, or give evaluate", echo(code));
                faults.contradiction(&at.key("question"), detail);
            }
            question
        }
    };
    let (code, subject) = (code.to_owned(), asked.subject.clone());
    let until = asked.until.unwrap_or(Until::Gone);
    Some(Target { question, wanted: Wanted::Finding { code, subject, until } })
}

/// Notes a subject that is nowhere in the build, nor on the way to the input, which may be added to it.
fn check_subject(asked: &SolveTarget, build: &Value, varied: &str, at: &Place, faults: &mut Faults) {
    let Some(subject) = &asked.subject else { return };
    let is_on_the_way =
        varied.strip_prefix(subject.as_str()).is_some_and(|rest| rest.is_empty() || rest.starts_with('/'));
    if build.is_null() || is_on_the_way || build.pointer(subject).is_some() {
        return;
    }
    let detail = format!(
        "names {}, where the build has nothing; give a JSON Pointer into the build such as /trailer/coupler",
        echo(subject)
    );
    faults.add(&at.key("subject"), FaultCode::UnknownId, detail);
}
