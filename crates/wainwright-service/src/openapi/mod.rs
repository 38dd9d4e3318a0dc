//! The published contract (OpenAPI 3.1), put together from what the code declares.
//!
//! Schemas and examples come from the declarations of the calculation, problems from their table, limits from
//! the settings: nothing is written down twice.

mod describe;
mod operations;
mod problems;
mod schemas;
mod shorten;

use serde_json::{Map, Value, json};
use wainwright::document::schema::Definitions;
use wainwright::operation::{ForEachOperation, Operation, for_each_operation};
use wainwright::question::{ForEachQuestion, Question, for_each_question};

use crate::demo;

const INTRODUCTION: &str = "\
The arithmetic of turning an enclosed cargo trailer into a camper that also hauls a toy.

One JSON document, the **build**, goes in; a report comes out: numbers first, then `findings` (what the rules say), \
`assumptions` (every default that was used) and `cautions`. A build that breaks a rating is answered with 200 and a \
finding of severity `violation`; it is no error.

**Repeating is safe.** Nothing is stored: the same body and the same engine version give the same bytes. A request may \
be sent again after any timeout, 429 or 503.

**Errors** are problem details (RFC 9457) on every path. Branch on `type` and on the `code` of each entry in `errors`; \
the sentences may change in any release. A `pointer` is a JSON Pointer (RFC 6901) in its string form, such as \
`/parts/galley/mass_lb`; the empty string is the whole document. All faults of a build come together, at most 100.

**Numbers.** A field's name carries its unit. Figures in JSON are not rounded.

**Limits** are listed by `/v1/limits`. `RateLimit` and `RateLimit-Policy` follow an Internet-Draft and are provisional; \
`Retry-After` is the stable part.

**Compression.** A body may be sent with `Content-Encoding: gzip` or `zstd`; answers are compressed where \
`Accept-Encoding` asks for it.

**Ids.** `X-Request-Id` is taken from the request if it has 1 to 64 letters, digits, `_` or `-`, and is made otherwise. \
It comes back with every answer.

Clients must ignore members of a report that they do not know: later versions add some.";

/// The published contract.
pub fn openapi() -> Value {
    let mut schemas = Definitions::new();
    let mut collect = Collect { paths: Map::new(), tags: Vec::new(), schemas: &mut schemas };
    for_each_question(&mut collect);
    for_each_operation(&mut collect);
    let (mut paths, mut tags) = (collect.paths, collect.tags);
    paths.insert(crate::papers::PATH.to_owned(), json!({"post": operations::papers(&mut schemas)}));
    tags.push(json!({"name": "papers", "description": operations::PAPERS}));
    schemas::add(&mut schemas);
    operations::add_reading(&mut paths);
    tags.push(json!({"name": "service", "description": "The rules, the limits and the state of the service itself"}));
    json!({
        "openapi": "3.1.0",
        "info": {
            "title": "Wainwright",
            "version": env!("CARGO_PKG_VERSION"),
            "description": INTRODUCTION,
            "license": {"name": "MIT OR Apache-2.0", "identifier": "MIT OR Apache-2.0"},
        },
        "tags": tags,
        "paths": paths,
        "components": {
            "schemas": schemas,
            "examples": examples(),
            "headers": describe::headers(),
        },
    })
}

/// The demonstration builds, once for all operations.
fn examples() -> Value {
    let examples = demo::ALL.iter().map(|demo| {
        // The builds are part of the program, and tests read them.
        let build: Value = serde_json::from_str(demo.json).unwrap_or_default();
        (demo.name.to_owned(), json!({"summary": demo.summary, "value": build}))
    });
    Value::Object(examples.collect())
}

struct Collect<'a> {
    paths: Map<String, Value>,
    tags: Vec<Value>,
    schemas: &'a mut Definitions,
}

impl ForEachQuestion for Collect<'_> {
    fn question<Q: Question>(&mut self) {
        self.tags.push(json!({"name": Q::NAME, "description": Q::SUMMARY}));
        self.paths.insert(crate::question::path::<Q>(), json!({"post": operations::ask::<Q>(self.schemas)}));
    }
}

impl ForEachOperation for Collect<'_> {
    fn operation<O: Operation>(&mut self) {
        self.tags.push(json!({"name": O::NAME, "description": O::SUMMARY}));
        let operation = operations::operate::<O>(self.schemas);
        self.paths.insert(crate::question::operation_path::<O>(), json!({"post": operation}));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_is_made_the_same_each_time() {
        assert_eq!(openapi().to_string(), openapi().to_string());
    }

    #[test]
    fn every_reference_resolves() {
        fn references<'a>(value: &'a Value, found: &mut Vec<&'a str>) {
            match value {
                Value::Object(members) => {
                    if let Some(Value::String(reference)) = members.get("$ref") {
                        found.push(reference);
                    }
                    members.values().for_each(|member| references(member, found));
                }
                Value::Array(items) => items.iter().for_each(|item| references(item, found)),
                _ => {}
            }
        }
        let document = openapi();
        let mut found = Vec::new();
        references(&document, &mut found);
        assert!(found.len() > 50);
        for reference in found {
            assert!(document.pointer(reference.trim_start_matches('#')).is_some(), "{reference}");
        }
    }

    #[test]
    fn every_field_has_a_sentence_and_an_example_or_fields_of_its_own() {
        let document = openapi();
        let schemas = document["components"]["schemas"].as_object().unwrap();
        for (name, schema) in schemas {
            assert!(schema["description"].is_string(), "{name}");
            for (field, property) in schema["properties"].as_object().unwrap() {
                let text = property["description"].as_str().unwrap_or_default();
                assert!(text.len() > 3, "{name}.{field} has no description");
                let has_fields = property.to_string().contains("$ref");
                assert!(has_fields || property["examples"].is_array(), "{name}.{field} has no example");
            }
        }
    }

    #[test]
    fn what_json_schema_says_of_a_field_is_kept() {
        let document = openapi();
        let parts = &document["components"]["schemas"]["Build"]["properties"]["parts"];
        assert_eq!(parts["maxProperties"], 10_000);
        assert!(parts["propertyNames"]["pattern"].is_string());
        let mass = &document["components"]["schemas"]["Part"]["properties"]["mass_lb"];
        assert_eq!(mass["x-unit"], "lb");
        assert_eq!(mass["minimum"], 0.0);
    }
}
