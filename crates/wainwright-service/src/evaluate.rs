//! Every question put to one build, for the command line.

use std::fmt::Write as _;

use serde_json::{Map, Value};
use wainwright::question::{Answer, ForEachQuestion, Question, ask, for_each_question};
use wainwright::{Build, Refusal};

/// What all questions say of a build.
pub struct Evaluation {
    /// For people.
    pub text: String,
    /// For programs: each report under its question's name, `null` where the build has too little for it.
    pub json: Value,
    /// Is a rating, a law or a standard broken?
    pub has_violation: bool,
}

/// Puts every question to a build.
pub fn evaluate(build: &Build) -> Evaluation {
    let mut asking = Asking { build, text: String::new(), json: Map::new(), has_violation: false };
    for_each_question(&mut asking);
    Evaluation { text: asking.text, json: asking.json.into(), has_violation: asking.has_violation }
}

struct Asking<'a> {
    build: &'a Build,
    text: String,
    json: Map<String, Value>,
    has_violation: bool,
}

impl ForEachQuestion for Asking<'_> {
    fn question<Q: Question>(&mut self) {
        if !self.text.is_empty() {
            self.text.push('\n');
        }
        let report = match ask::<Q>(self.build) {
            Ok(report) => {
                self.has_violation |= report.has_violation();
                // Writing to a string cannot fail.
                _ = report.write_text(&mut self.text);
                serde_json::to_value(report).unwrap_or_default()
            }
            Err(refusal) => {
                self.text.push_str(&unasked::<Q>(&refusal));
                Value::Null
            }
        };
        self.json.insert(Q::NAME.to_owned(), report);
    }
}

/// Why a question was not put.
fn unasked<Q: Question>(refusal: &Refusal) -> String {
    let mut text = format!("{}\n  not worked out:\n", Q::NAME.replace('_', " ").to_uppercase());
    for line in refusal.to_string().lines() {
        _ = writeln!(text, "  {line}");
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;

    #[test]
    fn every_question_answers_the_demonstration_builds() {
        for demo in demo::ALL {
            let evaluation = evaluate(&Build::from_json(demo.json.as_bytes()).unwrap());
            assert!(
                evaluation.json.as_object().unwrap().values().all(|report| !report.is_null()),
                "{}",
                demo.name
            );
        }
    }

    #[test]
    fn a_build_without_a_section_says_what_is_missing() {
        let evaluation = evaluate(&Build::from_json(b"{}").unwrap());
        assert_eq!(evaluation.json["payload"], Value::Null);
        assert!(evaluation.text.contains("/trailer is missing"), "{}", evaluation.text);
        assert!(!evaluation.has_violation);
    }
}
