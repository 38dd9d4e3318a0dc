//! The list of every rule that builds are held against.

use serde_json::{Map, Value, json};
use wainwright::operation::{ForEachOperation, Operation, for_each_operation};
use wainwright::question::{ForEachQuestion, Question, for_each_question};
use wainwright::report::Rule;

/// Every rule of every question, once, with the questions that hold builds against it.
pub fn rules() -> Value {
    struct Collect(Map<String, Value>);
    impl Collect {
        fn add(&mut self, name: &'static str, rules: &[&Rule]) {
            for rule in rules {
                let entry = self.0.entry(rule.code).or_insert_with(|| {
                    json!({
                        "code": rule.code,
                        "severity": rule.severity,
                        "meaning": rule.meaning,
                        "unit": rule.unit,
                        "limit_kind": rule.limit_kind,
                        "citation": rule.citation,
                        "questions": [],
                    })
                });
                if let Value::Array(questions) = &mut entry["questions"] {
                    questions.push(name.into());
                }
            }
        }
    }
    impl ForEachQuestion for Collect {
        fn question<Q: Question>(&mut self) {
            self.add(Q::NAME, Q::RULES);
        }
    }
    impl ForEachOperation for Collect {
        fn operation<O: Operation>(&mut self) {
            self.add(O::NAME, O::RULES);
        }
    }
    let mut collect = Collect(Map::new());
    for_each_question(&mut collect);
    for_each_operation(&mut collect);
    json!({"rules": collect.0.into_iter().map(|(_, rule)| rule).collect::<Vec<_>>()})
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_code_stands_once() {
        let rules = rules();
        let codes: Vec<&str> =
            rules["rules"].as_array().unwrap().iter().map(|r| r["code"].as_str().unwrap()).collect();
        let mut unique = codes.clone();
        unique.sort_unstable();
        unique.dedup();
        assert_eq!(codes.len(), unique.len());
        assert!(codes.contains(&"gross_over_gvwr"));
    }
}
