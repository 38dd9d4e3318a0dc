//! Figures of a report by their paths: the keys that lead to one, joined by dots.
//!
//! An item of a list is named by its index from 0 or, where its first member is text that no other item of the list
//! has, by that text: `payload.categories.furniture.mass_lb`.

use std::sync::LazyLock;

use indexmap::IndexSet;
use serde_json::Value;

use crate::document::schema::{Definitions, unit_of};
use crate::document::{FaultCode, Faults, Place, echo, nearest_name};
use crate::named_question::{NamedQuestion, QUESTIONS, named};

/// At most so many names come back with a fault.
const LISTED: usize = 100;
/// What stands at the start of a path into the answer of evaluate beside the names of questions.
const OF_EVALUATE: [&str; 2] = ["margins", "verdict"];

/// A figure of a question's answer.
#[derive(Debug, Clone)]
pub struct Figure {
    /// The question.
    pub question: &'static NamedQuestion,
    /// The keys that lead to it in the question's report.
    pub keys: Vec<String>,
}

impl Figure {
    /// The figure that a path names, its first key a question; none where it names none, which is noted.
    pub fn read(path: &str, at: &Place, faults: &mut Faults) -> Option<Self> {
        let mut keys: Vec<&str> = path.split('.').collect();
        let first = keys[0];
        let question = if OF_EVALUATE.contains(&first) {
            named("evaluate")?
        } else if let Some(question) = named(first) {
            keys.remove(0);
            question
        } else {
            let known: Vec<&str> =
                QUESTIONS.iter().map(|question| question.name).chain(OF_EVALUATE).collect();
            no_such_key(&[], &keys, &known, at, faults);
            return None;
        };
        Some(Self { question, keys: keys.into_iter().map(str::to_owned).collect() })
    }

    /// Its value in a report of its question; none where that has no such figure.
    pub fn of(&self, report: &Value) -> Option<f64> {
        find(report, &self.keys()).ok().and_then(Value::as_f64)
    }

    /// Its unit.
    pub fn unit(&self) -> Option<&'static str> {
        unit(self.question.name, &self.keys())
    }

    /// Notes what is wrong with its path, by a report of its question.
    ///
    /// - `at`  where the path stands in the request
    pub fn check(&self, report: &Value, at: &Place, faults: &mut Faults) {
        let (keys, name) = (self.keys(), self.question.name);
        match find(report, &keys) {
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

    /// Does its path lead to a figure, or to or through null, in a report of its question? Says where it goes astray otherwise.
    pub fn is_there(&self, report: &Value) -> Result<(), String> {
        let keys = self.keys();
        let is_there = match find(report, &keys) {
            Ok(found) => found.is_number() || found.is_null(),
            Err(astray) => find(report, &keys[..astray.found]).is_ok_and(Value::is_null),
        };
        if is_there {
            return Ok(());
        }
        let mut faults = Faults::default();
        self.check(report, &Place::ROOT, &mut faults);
        let detail = faults.list().first().map_or("leads nowhere", |fault| fault.detail.as_str());
        Err(format!("{} {detail}", self.path()))
    }

    /// Its path, its question first.
    pub fn path(&self) -> String {
        let keys = self.keys.iter().map(String::as_str);
        std::iter::once(self.question.name).chain(keys).collect::<Vec<_>>().join(".")
    }

    fn keys(&self) -> Vec<&str> {
        self.keys.iter().map(String::as_str).collect()
    }
}

/// A path that leads nowhere.
#[derive(Debug, Clone, PartialEq)]
pub struct Astray<'k> {
    /// How many of its keys lead somewhere.
    pub found: usize,
    /// The keys there are at that place.
    pub known: Vec<&'k str>,
}

/// The value that a path leads to.
///
/// # Errors
///
/// Where the path goes astray.
pub fn find<'v>(report: &'v Value, keys: &[&str]) -> Result<&'v Value, Astray<'v>> {
    let mut here = report;
    for (found, key) in keys.iter().enumerate() {
        let next = match here {
            Value::Object(members) => members.get(*key),
            Value::Array(items) => item(items, key),
            _ => None,
        };
        here = next.ok_or_else(|| Astray { found, known: keys_of(here) })?;
    }
    Ok(here)
}

fn item<'v>(items: &'v [Value], key: &str) -> Option<&'v Value> {
    let by_name = || names(items)?.iter().position(|name| *name == key);
    let index = by_name().or_else(|| key.parse().ok())?;
    items.get(index)
}

fn keys_of(value: &Value) -> Vec<&str> {
    match value {
        Value::Object(members) => members.keys().map(String::as_str).collect(),
        Value::Array(items) => names(items).unwrap_or_default(),
        _ => Vec::new(),
    }
}

/// The name of each item of a list, where all have one of their own.
pub fn names(items: &[Value]) -> Option<Vec<&str>> {
    let name = |item: &'_ Value| item.as_object()?.values().next()?.as_str().map(str::len);
    if items.is_empty() || !items.iter().all(|item| name(item).is_some()) {
        return None;
    }
    let names: Vec<&str> =
        items.iter().filter_map(|item| item.as_object()?.values().next()?.as_str()).collect();
    let distinct: IndexSet<&str> = names.iter().copied().collect();
    (distinct.len() == names.len()).then_some(names)
}

/// The schemas of all reports: that of each question by its name, and what they refer to.
static SCHEMAS: LazyLock<(Vec<(&str, Value)>, Definitions)> = LazyLock::new(|| {
    let mut definitions = Definitions::new();
    let of = QUESTIONS.iter().map(|question| (question.name, (question.schema)(&mut definitions))).collect();
    (of, definitions)
});

/// The unit of the figure at a path into a question's report, where a name on the way says one.
///
/// A figure that is called `value`, `min` or `max` has the unit of what it is the value of.
pub fn unit(question: &str, keys: &[&str]) -> Option<&'static str> {
    let mut schema = &SCHEMAS.0.iter().find(|(name, _)| *name == question)?.1;
    let mut names = Vec::new();
    for key in keys {
        let object = definition(schema);
        schema = match (object["properties"].get(*key), object.get("additionalProperties")) {
            (Some(property), _) => {
                names.push(*key);
                property
            }
            (None, Some(entry)) => entry,
            (None, None) => &object["items"],
        };
    }
    let mut names = names.into_iter().rev();
    names.by_ref().find(|name| !matches!(*name, "value" | "min" | "max")).and_then(unit_of)
}

/// What a schema says in the end, past references and `null`.
fn definition(schema: &Value) -> &Value {
    if let Some(reference) = schema["$ref"].as_str() {
        return reference.rsplit('/').next().and_then(|name| SCHEMAS.1.get(name)).unwrap_or(&Value::Null);
    }
    match schema["anyOf"].get(0) {
        Some(first) => definition(first),
        None => schema,
    }
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

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    #[test]
    fn a_path_leads_through_objects_and_lists() {
        let report = json!({"months": [{"month": 1, "kwh": 2.5}], "categories": [{"category": "water", "mass_lb": 7}]});
        assert_eq!(find(&report, &["months", "0", "kwh"]), Ok(&json!(2.5)));
        assert_eq!(find(&report, &["categories", "water", "mass_lb"]), Ok(&json!(7)));
        assert_eq!(find(&report, &["categories", "0", "mass_lb"]), Ok(&json!(7)));
        let astray = find(&report, &["categories", "gas"]).unwrap_err();
        assert_eq!((astray.found, astray.known), (1, vec!["water"]));
        assert_eq!(find(&report, &["month"]).unwrap_err().known, ["months", "categories"]);
        assert!(
            find(&report, &["months", "1"]).is_err() && find(&report, &["months", "0", "kwh", "x"]).is_err()
        );
    }

    #[test]
    fn items_have_names_where_no_two_have_the_same() {
        assert_eq!(names(&[json!({"part": "a", "x": 1}), json!({"part": "b"})]), Some(vec!["a", "b"]));
        for items in [json!([]), json!([{"part": "a"}, {"part": "a"}]), json!([{"hour": 1}]), json!(["a"])] {
            assert_eq!(names(items.as_array().unwrap()), None);
        }
    }

    #[test]
    fn the_unit_is_that_of_the_name_nearest_to_the_figure() {
        for (question, path, unit_there) in [
            ("payload", "states.outbound.payload_left_lb", Some("lb")),
            ("axle_load", "worst.tongue_lb.max.value", Some("lb")),
            ("axle_load", "worst.axles.tag_lb.max.value", None),
            ("axle_load", "states.a_lb.moving", None),
            ("energy_budget", "months.0.harvest_kwh", Some("kWh")),
            ("evaluate", "energy_budget.autonomy_h", Some("h")),
            ("evaluate", "margins.cooling_margin_fraction", Some("1")),
            ("weight", "x_lb", None),
        ] {
            assert_eq!(unit(question, &path.split('.').collect::<Vec<_>>()), unit_there, "{path}");
        }
    }
}
