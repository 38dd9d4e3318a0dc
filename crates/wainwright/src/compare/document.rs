//! What changed in the document.

use serde_json::Value;

use super::report::DocumentChange;
use crate::report::Json;

/// Lists of more items are told by their number.
const LISTED: usize = 24;
/// Of longer text the start is told.
const TOLD: usize = 200;

/// Every place at which two documents differ, in the order of the first, then of the second.
///
/// `null` is the same as nothing, and a number the same however it is written. What stands in only one of them is one
/// entry. Lists of objects of the same length are compared item by item, other lists as a whole.
pub fn changes(before: &Value, after: &Value) -> Vec<DocumentChange> {
    let mut changes = Vec::new();
    walk(before, after, &mut String::new(), &mut changes);
    changes
}

fn walk(before: &Value, after: &Value, pointer: &mut String, changes: &mut Vec<DocumentChange>) {
    match (before, after) {
        (Value::Object(some), Value::Object(others)) => {
            let keys = some.keys().chain(others.keys().filter(|key| !some.contains_key(*key)));
            for key in keys {
                let of = |members: &'_ serde_json::Map<String, Value>| {
                    members.get(key).cloned().unwrap_or_default()
                };
                step(&of(some), &of(others), key, pointer, changes);
            }
        }
        (Value::Array(some), Value::Array(others)) if are_alike(some, others) => {
            for (index, (one, other)) in some.iter().zip(others).enumerate() {
                step(one, other, &index.to_string(), pointer, changes);
            }
        }
        _ if is_same(before, after) => {}
        _ => changes.push(DocumentChange {
            pointer: pointer.clone(),
            kind: match (before.is_null(), after.is_null()) {
                (true, _) => "added",
                (_, true) => "removed",
                _ => "changed",
            },
            before: Json(told(before)),
            after: Json(told(after)),
        }),
    }
}

/// Goes on with a member or an item.
fn step(before: &Value, after: &Value, key: &str, pointer: &mut String, changes: &mut Vec<DocumentChange>) {
    let length = pointer.len();
    pointer.push('/');
    pointer.push_str(&key.replace('~', "~0").replace('/', "~1"));
    walk(before, after, pointer, changes);
    pointer.truncate(length);
}

/// Are these lists of as many objects?
fn are_alike(some: &[Value], others: &[Value]) -> bool {
    some.len() == others.len() && some.iter().chain(others).all(Value::is_object)
}

/// The same, however numbers are written?
fn is_same(one: &Value, other: &Value) -> bool {
    match (one, other) {
        (Value::Number(one), Value::Number(other)) => one.as_f64() == other.as_f64(),
        (Value::Array(some), Value::Array(others)) => {
            some.len() == others.len() && some.iter().zip(others).all(|(one, other)| is_same(one, other))
        }
        _ => one == other,
    }
}

/// What is told of a value.
fn told(value: &Value) -> Value {
    match value {
        Value::Array(items) if items.len() > LISTED => format!("{} items", items.len()).into(),
        Value::Array(items) => items.iter().map(told).collect(),
        Value::Object(members) => members
            .iter()
            .map(|(key, member)| (key.clone(), told(member)))
            .collect::<serde_json::Map<_, _>>()
            .into(),
        Value::String(text) if text.chars().nth(TOLD).is_some() => {
            text.chars().take(TOLD).chain(['…']).collect::<String>().into()
        }
        _ => value.clone(),
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    #[track_caller]
    fn told_of(before: Value, after: Value) -> Vec<(String, &'static str, Value, Value)> {
        let all = changes(&before, &after).into_iter();
        all.map(|change| (change.pointer, change.kind, change.before.0, change.after.0)).collect()
    }

    #[test]
    fn a_part_that_is_added_or_removed_is_one_entry() {
        let before = json!({"parts": {"bench": {"mass_lb": 40, "x_in": 3}, "galley": {"mass_lb": 165}}});
        let after =
            json!({"parts": {"galley": {"mass_lb": 180.5, "x_in": 90}, "sink": {"mass_lb": 8}}, "name": "B"});
        assert_eq!(
            told_of(before, after),
            [
                ("/parts/bench".into(), "removed", json!({"mass_lb": 40, "x_in": 3}), Value::Null),
                ("/parts/galley/mass_lb".into(), "changed", json!(165), json!(180.5)),
                ("/parts/galley/x_in".into(), "added", Value::Null, json!(90)),
                ("/parts/sink".into(), "added", Value::Null, json!({"mass_lb": 8})),
                ("/name".into(), "added", Value::Null, json!("B")),
            ]
        );
    }

    #[test]
    fn order_null_and_the_way_a_number_is_written_change_nothing() {
        let before = json!({"a": 1, "b": {"c": null, "d": [1, 2.0]}});
        let after = json!({"b": {"d": [1.0, 2]}, "a": 1.0, "e": null});
        assert!(changes(&before, &after).is_empty());
    }

    #[test]
    fn lists_are_compared_as_a_whole_but_for_lists_of_objects() {
        let before = json!({"aboard": ["atv"], "layers": [{"r": 1}, {"r": 2}], "hours": vec![0; 25]});
        let after = json!({"aboard": ["atv", "gear"], "layers": [{"r": 1}, {"r": 3}], "hours": vec![1; 30]});
        assert_eq!(
            told_of(before, after),
            [
                ("/aboard".into(), "changed", json!(["atv"]), json!(["atv", "gear"])),
                ("/layers/1/r".into(), "changed", json!(2), json!(3)),
                ("/hours".into(), "changed", json!("25 items"), json!("30 items")),
            ]
        );
    }

    #[test]
    fn long_text_is_told_by_its_start() {
        let text = told_of(json!({"text": "x".repeat(201)}), json!({"text": "y".repeat(200)}));
        assert_eq!(text[0].2, format!("{}…", "x".repeat(200)));
        assert_eq!(text[0].3, "y".repeat(200));
    }
}
