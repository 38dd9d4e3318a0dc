//! `cargo xtask python-types`: the classes of `python/wainwright/reports.py`, made from the reports' schemas.

use std::fmt::Write as _;

use serde_json::{Map, Value};
use wainwright::document::schema::Definitions;
use wainwright::operation::{ForEachOperation, Operation, for_each_operation};
use wainwright::question::{ForEachQuestion, Question, for_each_question};
use wainwright::report::Described;

use crate::generated;

const FILE: &str = "python/wainwright/reports.py";
/// A line of a docstring is no longer.
const WIDTH: usize = 110;

/// Words that no field can be called: the keywords of Python 3.14.
const KEYWORDS: &[&str] = &[
    "False", "None", "True", "and", "as", "assert", "async", "await", "break", "class", "continue", "def",
    "del", "elif", "else", "except", "finally", "for", "from", "global", "if", "import", "in", "is",
    "lambda", "nonlocal", "not", "or", "pass", "raise", "return", "try", "while", "with", "yield",
];

const HEAD: &str = r#""""The reports and all they are made of. Units stand in brackets.

Made from the published schemas by `cargo xtask python-types`; edit the reports' declarations instead.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from ._report import Answer, Record, Report
"#;

/// Writes the file, or checks that it is what would be written.
pub fn run(check: bool) -> Result<(), String> {
    generated::write_or_check(FILE, &module()?, check, "cargo xtask python-types")
}

/// The schemas of all reports, which of them answer a question, and which another request.
#[derive(Default)]
struct Reports {
    definitions: Definitions,
    reports: Vec<String>,
    answers: Vec<String>,
}

impl ForEachQuestion for Reports {
    fn question<Q: Question>(&mut self) {
        let reference = <Q::Report as Described>::schema(&mut self.definitions);
        self.reports.extend(referred(&reference).map(str::to_owned));
    }
}

impl ForEachOperation for Reports {
    fn operation<O: Operation>(&mut self) {
        let reference = <O::Answer as Described>::schema(&mut self.definitions);
        self.answers.extend(referred(&reference).map(str::to_owned));
    }
}

fn module() -> Result<String, String> {
    let mut reports = Reports::default();
    for_each_question(&mut reports);
    for_each_operation(&mut reports);
    let mut text = HEAD.to_owned();
    let mut names = vec!["Answer", "Record", "Report"];
    names.extend(reports.definitions.keys().map(String::as_str));
    names.sort_unstable();
    text += "\n__all__ = [\n";
    for name in names {
        _ = writeln!(text, "    \"{name}\",");
    }
    text += "]\n";
    for (name, schema) in &reports.definitions {
        let base = match name {
            name if reports.reports.contains(name) => "Report",
            name if reports.answers.contains(name) => "Answer",
            _ => "Record",
        };
        class(&mut text, name, base, schema)?;
    }
    Ok(text)
}

fn class(text: &mut String, name: &str, base: &str, schema: &Value) -> Result<(), String> {
    // A whole answer has a summary of its own for `repr`, the parts have the usual one.
    let options = if base == "Record" { "" } else { ", repr=False" };
    _ = write!(
        text,
        "\n\n@dataclass(frozen=True, slots=True, kw_only=True{options})\nclass {name}({base}):\n"
    );
    docstring(text, schema);
    text.push('\n');
    for (field, schema) in schema["properties"].as_object().into_iter().flatten() {
        if KEYWORDS.contains(&field.as_str()) {
            return Err(format!(
                "{name}.{field} is a keyword of Python; give the field of the report another name"
            ));
        }
        _ = writeln!(text, "    {field}: {}", annotation(schema));
        docstring(text, schema);
    }
    Ok(())
}

/// The description, wrapped, as a docstring of a class or a field.
fn docstring(text: &mut String, schema: &Value) {
    let Some(description) = schema["description"].as_str() else { return };
    let quoted = format!("\"\"\"{}\"\"\"", description.replace('\\', "\\\\"));
    let mut length = usize::MAX;
    for word in quoted.split_whitespace() {
        let more = word.chars().count();
        if length.saturating_add(1 + more) <= WIDTH {
            text.push(' ');
            length += 1 + more;
        } else {
            text.push_str(if length == usize::MAX { "    " } else { "\n    " });
            length = 4 + more;
        }
        text.push_str(word);
    }
    text.push('\n');
}

/// The Python type of a value of this schema.
fn annotation(schema: &Value) -> String {
    if let Some(name) = referred(schema) {
        return name.to_owned();
    }
    if let Some(either) = schema["anyOf"].as_array() {
        return either.iter().map(annotation).collect::<Vec<_>>().join(" | ");
    }
    if let Some(words) = schema["enum"].as_array() {
        let mut union = words.iter().filter_map(Value::as_str).map(|word| format!("\"{word}\""));
        let literal = format!("Literal[{}]", union.by_ref().collect::<Vec<_>>().join(", "));
        return if words.contains(&Value::Null) { format!("{literal} | None") } else { literal };
    }
    match &schema["type"] {
        Value::String(kind) => of_type(kind, schema),
        Value::Array(kinds) => {
            let kinds = kinds.iter().filter_map(Value::as_str);
            kinds.map(|kind| of_type(kind, schema)).collect::<Vec<_>>().join(" | ")
        }
        _ => "object".to_owned(),
    }
}

fn of_type(kind: &str, schema: &Value) -> String {
    match kind {
        "number" => "float".to_owned(),
        "integer" => "int".to_owned(),
        "boolean" => "bool".to_owned(),
        "string" => "str".to_owned(),
        "null" => "None".to_owned(),
        "array" => format!("tuple[{}, ...]", annotation(&schema["items"])),
        "object" => format!("Mapping[str, {}]", annotation(&schema["additionalProperties"])),
        _ => "object".to_owned(),
    }
}

/// The name of the schema that this one refers to.
fn referred(schema: &Value) -> Option<&str> {
    schema
        .as_object()
        .and_then(|schema: &Map<String, Value>| schema.get("$ref"))?
        .as_str()?
        .rsplit('/')
        .next()
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn a_schema_becomes_the_type_a_person_would_write() {
        let part = json!({"$ref": "#/components/schemas/Part"});
        for (schema, expected) in [
            (json!({"type": "number", "format": "double"}), "float"),
            (json!({"type": ["number", "null"]}), "float | None"),
            (json!({"type": ["string", "null"], "enum": ["a", "b", null]}), "Literal[\"a\", \"b\"] | None"),
            (json!({"anyOf": [part, {"type": "null"}]}), "Part | None"),
            (
                json!({"type": "array", "items": {"type": "array", "items": part}}),
                "tuple[tuple[Part, ...], ...]",
            ),
            (json!({"type": "object", "additionalProperties": part}), "Mapping[str, Part]"),
        ] {
            assert_eq!(annotation(&schema), expected);
        }
    }

    #[test]
    fn a_field_that_python_cannot_name_is_refused() {
        let schema = json!({"properties": {"class": {"type": "integer"}}});
        let refusal = class(&mut String::new(), "Coupling", "Record", &schema).unwrap_err();
        assert!(refusal.starts_with("Coupling.class is a keyword of Python"));
    }

    #[test]
    fn long_descriptions_are_wrapped() {
        let mut text = String::new();
        docstring(&mut text, &json!({"description": "word ".repeat(60).trim()}));
        assert!(text.lines().count() > 1 && text.lines().all(|line| line.len() <= WIDTH));
        assert!(text.starts_with("    \"\"\"word") && text.ends_with("word\"\"\"\n"));
    }
}
