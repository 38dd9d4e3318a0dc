//! The door: JSON text in, a record out.

use serde::de::DeserializeSeed;

use serde_json::Value;

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
    let text = std::str::from_utf8(json).map_err(|error| not_utf8(json, error.valid_up_to()))?;
    let mut faults = Faults::default();
    let mut input = serde_json::Deserializer::from_str(text);
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
        Err(error) => Err(unreadable(explain(&error), error.line(), error.column())),
    }
}

/// Reads a record from JSON that was read before, as [`read`] reads it from text.
///
/// # Errors
///
/// It is nested deeper than [`NESTING_LIMIT`].
pub fn read_value<R: Record>(json: &Value) -> Result<(R, Faults), Refusal> {
    let mut faults = Faults::default();
    let seed = Seed { kind: Section::<R>::of(), at: &Place::ROOT, faults: &mut faults };
    match seed.deserialize(json) {
        Ok(record) => Ok((record, faults)),
        Err(_) => Err(Refusal::Unreadable {
            detail: format!("objects and lists may lie {NESTING_LIMIT} deep inside one another, no deeper"),
            line: 1,
            column: 1,
            limit: Some(NESTING_LIMIT),
        }),
    }
}

/// A text refused at a place. The parser counts columns of a fresh line from 0, people from 1.
fn unreadable(detail: &str, line: usize, column: usize) -> Refusal {
    Refusal::Unreadable { detail: detail.to_owned(), line, column: column.max(1), limit: None }
}

/// A text with a byte that UTF-8 does not have at index `at`.
fn not_utf8(json: &[u8], at: usize) -> Refusal {
    let before = &json[..at];
    let line_start = before.iter().rposition(|byte| *byte == b'\n').map_or(0, |newline| newline + 1);
    let line = 1 + before.iter().filter(|byte| **byte == b'\n').count();
    unreadable("a byte here is not UTF-8; send the text as UTF-8", line, at - line_start + 1)
}

/// The parser's complaint in the words of a person.
fn explain(error: &serde_json::Error) -> &'static str {
    if error.is_eof() {
        return "the text ends before the JSON does; was it cut off?";
    }
    let text = error.to_string();
    match text.split(" at line ").next().unwrap_or(&text) {
        "number out of range" => {
            "this number is too large for a double; write one within the range of its field"
        }
        "invalid number" => "this is not a number as JSON writes it, as in -12 or 0.5 or 1e3",
        "expected value" => {
            "a JSON value belongs here: an object, a list, text in double quotes, a number, true, false or null"
        }
        "expected ident" => "only true, false and null may stand without quotes",
        "expected `:`" => "a colon belongs here, between a member's name and its value",
        "expected `,` or `}`" => "a comma or the end of the object, }, belongs here",
        "expected `,` or `]`" => "a comma or the end of the list, ], belongs here",
        "trailing comma" => "the comma before this is followed by nothing; remove it",
        "trailing characters" => "text follows after the end of the JSON object; remove it",
        "key must be a string" => "a member's name in double quotes belongs here",
        "control character (\\u0000-\\u001F) found while parsing a string" => {
            "a line break or another control character stands in text; write it escaped, as in \\n"
        }
        "invalid escape" => {
            "this is no escape; JSON has \\\" \\\\ \\/ \\b \\f \\n \\r \\t and \\u with four hex digits"
        }
        "invalid unicode code point"
        | "lone leading surrogate in hex escape"
        | "unexpected end of hex escape" => {
            "this escape is half of a pair; characters beyond \\uffff take two, as in \\ud83d\\ude9a"
        }
        _ => "this is not JSON",
    }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::Chest;
    use super::*;

    #[track_caller]
    fn refused(json: &[u8]) -> (String, usize, usize) {
        match read::<Chest>(json) {
            Err(Refusal::Unreadable { detail, line, column, limit: None }) => (detail, line, column),
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn an_empty_body_is_named() {
        for empty in ["", "  ", "\r\n\t"] {
            assert_eq!(refused(empty.as_bytes()), ("the body is empty; send a JSON object".into(), 1, 1));
        }
    }

    #[test]
    fn a_byte_order_mark_is_named() {
        let (detail, line, column) = refused(b"\xef\xbb\xbf{}");
        assert_eq!(detail, "the text starts with a byte-order mark; send UTF-8 without one");
        assert_eq!((line, column), (1, 1));
    }

    #[test]
    fn bytes_that_are_not_utf8_are_found() {
        let not = "a byte here is not UTF-8; send the text as UTF-8";
        assert_eq!(refused(b"{\"name\":\n \"caf\xe9\"}"), (not.into(), 2, 6));
        assert_eq!(refused(b"\xff\xfe{\0}\0"), (not.into(), 1, 1));
        assert_eq!(refused(b"{\"name\": \"\xed\xa0\x80\"}").0, not);
    }

    #[test]
    fn text_that_is_cut_off_is_named_wherever_it_is_cut() {
        let whole = r#"{"length_in": 1.5, "name": "a\n", "labels": ["b"], "locked": true}"#;
        for end in 1..whole.len() {
            let cut = refused(&whole.as_bytes()[..end]);
            assert_eq!(cut.0, "the text ends before the JSON does; was it cut off?", "{}", &whole[..end]);
            assert_eq!((cut.1, cut.2), (1, end));
        }
        assert_eq!(refused(b"{\n").1, 2);
        assert_eq!(refused(b"{\n").2, 1);
    }

    #[test]
    fn every_complaint_of_the_parser_is_said_in_plain_words() {
        for (json, detail) in [
            (r#"{"length_in": 1e999}"#, "this number is too large"),
            (r#"{"length_in": -1e999}"#, "this number is too large"),
            (r#"{"length_in": NaN}"#, "a JSON value belongs here"),
            (r#"{"length_in": Infinity}"#, "a JSON value belongs here"),
            (r#"{"length_in": 'a'}"#, "a JSON value belongs here"),
            (r#"{"length_in": }"#, "a JSON value belongs here"),
            (r#"{"length_in": nul}"#, "only true, false and null"),
            (r#"{"length_in": 01}"#, "this is not a number as JSON writes it"),
            (r#"{"length_in": -}"#, "this is not a number as JSON writes it"),
            (r#"{"length_in": 1.}"#, "this is not a number as JSON writes it"),
            (r#"{"length_in": 1e}"#, "this is not a number as JSON writes it"),
            (r#"{"length_in": 0x1F}"#, "a comma or the end of the object"),
            (r#"{"length_in" 1}"#, "a colon belongs here"),
            (r#"{"length_in": 1 "count": 2}"#, "a comma or the end of the object"),
            (r#"{"labels": ["a" "b"]}"#, "a comma or the end of the list"),
            (r#"{"length_in": 1,}"#, "the comma before this is followed by nothing"),
            (r#"{"labels": ["a",]}"#, "the comma before this is followed by nothing"),
            (r#"{"length_in": 1} {}"#, "text follows after the end"),
            (r#"{"length_in": 1}]"#, "text follows after the end"),
            (r#"{length_in: 1}"#, "a member's name in double quotes belongs here"),
            (r#"{1: 1}"#, "a member's name in double quotes belongs here"),
            ("{\"name\": \"a\nb\"}", "a line break or another control character"),
            ("{\"na\u{1}me\": 1}", "a line break or another control character"),
            (r#"{"name": "\x41"}"#, "this is no escape"),
            (r#"{"name": "\u00g0"}"#, "this is no escape"),
            (r#"{"name": "\ud83d"}"#, "this escape is half of a pair"),
            (r#"{"name": "\ud83d\u0041"}"#, "this escape is half of a pair"),
            (r#"{"name": "\ude9a"}"#, "this escape is half of a pair"),
            (r#"{"a\q": 1}"#, "this is no escape"),
            ("// a comment\n{}", "a JSON value belongs here"),
        ] {
            let (said, line, column) = refused(json.as_bytes());
            assert!(said.starts_with(detail), "{json}: {said}");
            assert!(line >= 1 && column >= 1);
        }
    }

    #[test]
    fn the_place_is_counted_from_1() {
        assert_eq!(refused(b"x"), (refused(b"x").0, 1, 1));
        let (_, line, column) = refused(b"{\n  \"length_in\": 1,\n  \"count\": +2\n}");
        assert_eq!((line, column), (3, 12));
    }

    #[test]
    fn a_refusal_reads_as_a_sentence_with_its_place() {
        let refusal = read::<Chest>(b"{\n}}").unwrap_err();
        assert_eq!(
            refusal.to_string(),
            "line 2, column 2: text follows after the end of the JSON object; remove it"
        );
    }
}
