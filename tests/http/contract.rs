//! The published contract against what the service does.

use std::collections::BTreeSet;

use serde_json::Value;

use crate::client::{get, post, request};
use crate::running::{questions, run};

const COMMITTED: &str = include_str!("../../openapi/v1.json");

#[test]
fn the_committed_contract_is_the_one_that_is_served() {
    let running = run();
    let served = get("/openapi.json").to(running.at);
    assert_eq!(served.field("content-type"), Some("application/json"));
    let printed = format!("{:#}\n", served.json());
    assert!(
        printed == COMMITTED,
        "openapi/v1.json differs from the code; write it anew: cargo run -- openapi > openapi/v1.json"
    );
}

#[test]
fn every_question_is_in_it_and_its_examples_are_answered() {
    let running = run();
    let contract = get("/openapi.json").to(running.at).json();
    for path in questions() {
        let operation = &contract["paths"][&path]["post"];
        let content = &operation["requestBody"]["content"]["application/json"];
        let examples = content["examples"].as_object().unwrap();
        assert!(!examples.is_empty(), "{path}");
        for (name, reference) in examples {
            let pointer = reference["$ref"].as_str().unwrap().trim_start_matches('#');
            let build = &contract.pointer(pointer).unwrap()["value"];
            let answer = post(&path, build.to_string()).to(running.at);
            assert_eq!(answer.status, 200, "{path} {name}");
            let shown =
                &operation["responses"]["200"]["content"]["application/json"]["examples"][name]["value"];
            assert!(shown.is_null() || is_near(shown, &answer.json()), "{path} {name}");
        }
    }
}

/// The same but for figures beyond the sixth digit, which examples leave out.
fn is_near(shown: &Value, answered: &Value) -> bool {
    match (shown, answered) {
        (Value::Number(one), Value::Number(other)) => {
            let (one, other) = (one.as_f64().unwrap(), other.as_f64().unwrap());
            (one - other).abs() <= 5.1e-6 * other.abs()
        }
        (Value::Array(some), Value::Array(others)) => {
            some.len() == others.len() && some.iter().zip(others).all(|(one, other)| is_near(one, other))
        }
        (Value::Object(some), Value::Object(others)) => {
            some.len() == others.len()
                && some.iter().all(|(name, one)| others.get(name).is_some_and(|other| is_near(one, other)))
        }
        _ => shown == answered,
    }
}

#[test]
fn every_path_in_it_is_there() {
    let running = run();
    running.service.try_out().unwrap();
    let contract = get("/openapi.json").to(running.at).json();
    let mut operations = BTreeSet::new();
    for (path, item) in contract["paths"].as_object().unwrap() {
        for (method, operation) in item.as_object().unwrap() {
            let name = operation["operationId"].as_str().unwrap();
            assert!(operations.insert(name.to_owned()), "{name} stands twice");
            assert_eq!(operation["tags"].as_array().map(Vec::len), Some(1), "{name}");
            let answer =
                request(&method.to_uppercase(), &path.replace("{slug}", "invalid-build")).to(running.at);
            assert!(
                operation["responses"][answer.status.to_string()].is_object(),
                "{path}: {}",
                answer.status
            );
        }
    }
}

#[test]
fn each_status_has_the_shared_schema_and_examples_that_fit_it() {
    let contract: Value = serde_json::from_str(COMMITTED).unwrap();
    for (path, item) in contract["paths"].as_object().unwrap() {
        for operation in item.as_object().unwrap().values() {
            for (status, response) in operation["responses"].as_object().unwrap() {
                assert!(response["headers"]["X-Request-Id"].is_object(), "{path} {status}");
                if status.as_str() < "400" {
                    continue;
                }
                let content = &response["content"]["application/problem+json"];
                assert_eq!(content["schema"]["$ref"], "#/components/schemas/Problem", "{path} {status}");
                let examples = content["examples"].as_object().unwrap();
                assert!(!examples.is_empty(), "{path} {status}");
                for example in examples.values() {
                    assert_eq!(example["value"]["status"].to_string(), *status, "{path}");
                }
            }
        }
    }
}

#[test]
fn limits_and_rules_have_the_members_it_names() {
    let running = run();
    let contract = get("/openapi.json").to(running.at).json();
    let members = |schema: &str| -> BTreeSet<String> {
        contract["components"]["schemas"][schema]["properties"].as_object().unwrap().keys().cloned().collect()
    };
    let keys = |value: &Value| -> BTreeSet<String> { value.as_object().unwrap().keys().cloned().collect() };
    assert_eq!(keys(&get("/v1/limits").to(running.at).json()), members("Limits"));
    let rules = get("/v1/findings").to(running.at).json();
    assert_eq!(keys(&rules), members("RuleList"));
    for rule in rules["rules"].as_array().unwrap() {
        assert_eq!(keys(rule), members("Rule"));
    }
}
