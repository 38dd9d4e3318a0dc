//! The door: JSON text in, a record out.

use serde::de::DeserializeSeed;

use super::{Faults, NESTING_LIMIT, Place, Record, Refusal, Section, Seed};

/// Reads a record from JSON text.
///
/// Returns it with the faults met on the way; a record with faults has blanks in it and must not be used.
/// `Err` where the text is not JSON, or nested deeper than [`NESTING_LIMIT`].
pub fn read<R: Record>(json: &[u8]) -> Result<(R, Faults), Refusal> {
    if json.starts_with(b"\xef\xbb\xbf") {
        return Err(unreadable("the text starts with a byte-order mark; send UTF-8 without one", 1, 1));
    }
    if json.iter().all(u8::is_ascii_whitespace) {
        return Err(unreadable("the body is empty; send a JSON object", 1, 1));
    }
    let mut faults = Faults::default();
    let mut input = serde_json::Deserializer::from_slice(json);
    let seed = Seed { kind: Section::<R>::of(), at: &Place::ROOT, faults: &mut faults };
    let result = match seed.deserialize(&mut input) {
        Ok(record) => input.end().map(|()| record),
        Err(error) => Err(error),
    };
    match result {
        Ok(record) => Ok((record, faults)),
        Err(error) if faults.too_deep => Err(Refusal::Unreadable {
            detail: format!("objects and lists may lie {NESTING_LIMIT} deep inside one another, no deeper"),
            line: error.line(),
            column: error.column(),
            limit: Some(NESTING_LIMIT),
        }),
        Err(error) => Err(unreadable(&explain(&error), error.line(), error.column())),
    }
}

fn unreadable(detail: &str, line: usize, column: usize) -> Refusal {
    Refusal::Unreadable { detail: detail.to_owned(), line, column, limit: None }
}

/// The parser's complaint, without its trailing place and in the words of a person.
fn explain(error: &serde_json::Error) -> String {
    if error.is_eof() {
        return "the text ends before the JSON does; was it cut off?".to_owned();
    }
    let text = error.to_string();
    let what = text.split(" at line ").next().unwrap_or(&text);
    match what {
        "number out of range" => {
            "a number here is too large to be held; write one within the field's range".to_owned()
        }
        "trailing characters" => "text follows after the end of the JSON object; remove it".to_owned(),
        "trailing comma" => "a comma here is followed by nothing; remove it".to_owned(),
        "expected value" => "a JSON value belongs here".to_owned(),
        "key must be a string" => "a member's name in double quotes belongs here".to_owned(),
        "recursion limit exceeded" => {
            format!("objects and lists may lie {NESTING_LIMIT} deep inside one another, no deeper")
        }
        other => format!("this is not JSON: {other}"),
    }
}
