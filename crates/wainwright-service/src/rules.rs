//! The list of every rule that builds are held against.

use serde_json::{Map, Value, json};
use wainwright::question::{ForEachQuestion, Question, for_each_question};

/// Every rule of every question, once, with the questions that hold builds against it.
pub fn rules() -> Value {
    struct Collect(Map<String, Value>);
    impl ForEachQuestion for Collect {
        fn question<Q: Question>(&mut self) {
            for rule in Q::RULES {
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
                    questions.push(Q::NAME.into());
                }
            }
        }
    }
    let mut collect = Collect(Map::new());
    for_each_question(&mut collect);
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
