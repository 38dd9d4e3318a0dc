//! What is to hold, read and checked, and held against an answer.

use serde_json::Value;

use super::request::{SolveTarget, Until};
use crate::document::{FaultCode, Faults, Place, echo, nearest_name};
use crate::figures;
use crate::named_question::{Answered, NamedQuestion, QUESTIONS, named};
use crate::report::Finding;

/// At most so many names come back with a fault.
const LISTED: usize = 100;
/// What stands at the start of a path into the answer of evaluate beside the names of questions.
const OF_EVALUATE: [&str; 2] = ["margins", "verdict"];

/// What is to hold.
pub struct Target {
    /// The question that is asked.
    pub question: &'static NamedQuestion,
    /// What of its answer is looked at.
    pub wanted: Wanted,
}

/// What of an answer is looked at.
#[derive(Debug, Clone, PartialEq)]
pub enum Wanted {
    /// A figure, by the keys that lead to it in the question's answer.
    Figure {
        /// The keys.
        keys: Vec<String>,
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
            Wanted::Figure { keys, .. } => {
                let keys: Vec<&str> = keys.iter().map(String::as_str).collect();
                figures::unit(self.question.name, &keys)
            }
            Wanted::Finding { code, .. } => self.question.rules.iter().find(|rule| rule.code == code)?.unit,
        }
    }

    /// What is seen of it in an answer.
    pub fn look(&self, answered: &Answered) -> Seen {
        match &self.wanted {
            Wanted::Figure { keys, must, limit } => {
                let keys: Vec<&str> = keys.iter().map(String::as_str).collect();
                let figure = figures::find(&answered.report, &keys).ok().and_then(Value::as_f64);
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
        let Wanted::Figure { keys, .. } = &self.wanted else { return };
        let keys: Vec<&str> = keys.iter().map(String::as_str).collect();
        let name = self.question.name;
        match figures::find(&answered.report, &keys) {
            Ok(Value::Number(_)) => {}
            Ok(Value::Null) => {
                let detail =
                    "leads to null: this build has no such figure; what the field says of null tells why";
                faults.add(at, FaultCode::WrongType, detail.to_owned());
            }
            Ok(other) => not_a_figure(other, name, &keys, at, faults),
            Err(astray) => {
                let found: Vec<&str> =
                    [name].into_iter().chain(keys[..astray.found].iter().copied()).collect();
                no_such_key(&found, &keys[astray.found..], &astray.known, at, faults);
            }
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
    let mut keys: Vec<&str> = path.split('.').collect();
    let first = keys[0];
    let question = if OF_EVALUATE.contains(&first) {
        named("evaluate")?
    } else if let Some(question) = named(first) {
        keys.remove(0);
        question
    } else {
        let known: Vec<&str> = QUESTIONS.iter().map(|question| question.name).chain(OF_EVALUATE).collect();
        no_such_key(&[], &keys, &known, &at.key("figure"), faults);
        return None;
    };
    let (_, limit, must) = bound?;
    let keys = keys.into_iter().map(str::to_owned).collect();
    Some(Target { question, wanted: Wanted::Figure { keys, must, limit } })
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

/// Notes a path into an answer that leads nowhere.
///
/// - `found`  the keys that lead somewhere
/// - `rest`  those after them, the first of which leads nowhere
fn no_such_key(found: &[&str], rest: &[&str], known: &[&str], at: &Place, faults: &mut Faults) {
    let key = rest.first().copied().unwrap_or_default();
    let near = nearest_name(key, known.iter().copied());
    let whole = near.map(|near| {
        found.iter().copied().chain([near]).chain(rest.iter().skip(1).copied()).collect::<Vec<_>>().join(".")
    });
    let place = if found.is_empty() { "what can be asked".to_owned() } else { found.join(".") };
    let mut detail = format!("leads nowhere: {place} has no {}", echo(key));
    let shown: Vec<&str> = known.iter().copied().take(LISTED).collect();
    match &whole {
        Some(whole) => detail.push_str(&format!("; did you mean {whole}?")),
        None if shown.is_empty() => {}
        None => detail.push_str(&format!("; it has {}", shown.join(", "))),
    }
    if let Some(fault) = faults.add(at, FaultCode::UnknownId, detail) {
        fault.suggestion = whole.map(Into::into);
        fault.known = shown.into_iter().map(str::to_owned).collect();
    }
}

/// Notes a path into an answer that leads to something else than a number.
fn not_a_figure(value: &Value, question: &str, keys: &[&str], at: &Place, faults: &mut Faults) {
    let path = [question].into_iter().chain(keys.iter().copied()).collect::<Vec<_>>().join(".");
    let inside: Vec<String> = match value {
        Value::Object(members) => {
            let numbers = members.iter().filter(|(_, member)| member.is_number());
            numbers.map(|(name, _)| format!("{path}.{name}")).take(LISTED).collect()
        }
        _ => Vec::new(),
    };
    let what = match value {
        Value::String(_) => "text",
        Value::Bool(_) => "true or false",
        Value::Array(_) => "a list; name one of its items by its index, from 0, or by its name",
        _ => "no figure of its own",
    };
    let mut detail = format!("leads to {what}; give a path to a figure");
    if let Some(first) = inside.first() {
        detail.push_str(&format!(", such as {first}"));
    }
    if let Some(fault) = faults.add(at, FaultCode::WrongType, detail) {
        fault.known = inside;
    }
}
