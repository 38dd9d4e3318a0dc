//! What was wrong with a document.

use std::borrow::Cow;
use std::fmt::Write as _;

use serde::Serialize;

use super::{Keyed, Place, order, place::is_long};

/// At most this many faults are listed; the rest are counted.
const LISTED: usize = 100;
/// At most this many characters of the caller's own text come back in a sentence.
pub(super) const ECHOED: usize = 64;
/// Among at most so many names the nearest is looked for.
const COMPARED: usize = 1_000;

/// The kind of a fault. Callers branch on it; it is never renamed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum FaultCode {
    /// A number below the least allowed.
    BelowMinimum,
    /// A number above the greatest allowed.
    AboveMaximum,
    /// A number with a fraction where a count belongs.
    NotWhole,
    /// Text where a number belongs, a list where an object belongs, and the like.
    WrongType,
    /// A member that the document cannot do without.
    MissingField,
    /// A section that the question cannot do without.
    MissingSection,
    /// A member that nothing reads.
    UnknownField,
    /// A name that refers to nothing in the document, or to no weather file.
    UnknownId,
    /// The same key twice in one object.
    DuplicateKey,
    /// A key with characters outside `[A-Za-z0-9_-]`, or too long.
    BadId,
    /// More entries than are accepted.
    TooMany,
    /// Text longer than is accepted.
    TooLong,
    /// A word that is not in the list of words.
    NotOneOf,
    /// Two members that cannot both be so.
    Contradiction,
    /// Two chosen options that set one member to different values.
    ConflictingOptions,
}

impl FaultCode {
    /// All codes with their meaning, for the published list.
    pub const ALL: &[(FaultCode, &str)] = &[
        (Self::BelowMinimum, "a number below the least allowed (`minimum`)"),
        (Self::AboveMaximum, "a number above the greatest allowed (`maximum`)"),
        (Self::NotWhole, "a number with a fraction where a count belongs"),
        (Self::WrongType, "another JSON type than the field holds"),
        (Self::MissingField, "a member the document cannot do without"),
        (Self::MissingSection, "a section or place the question cannot do without"),
        (Self::UnknownField, "a member that nothing reads (`suggestion` where one is near)"),
        (Self::UnknownId, "a name that refers to nothing (`known` lists what there is)"),
        (Self::DuplicateKey, "the same key twice in one object"),
        (Self::BadId, "a key outside [A-Za-z0-9_-]{1,64}"),
        (Self::TooMany, "more entries than are accepted (`maximum`)"),
        (Self::TooLong, "text longer than is accepted (`maximum`)"),
        (Self::NotOneOf, "a word outside the list (`known`)"),
        (Self::Contradiction, "two members that cannot both be so"),
        (
            Self::ConflictingOptions,
            "two chosen options that set one member to different values (`other_pointer` is the other's)",
        ),
    ];
}

/// One fault of a document.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Fault {
    /// JSON Pointer to the place. A missing member is pointed at where it would stand.
    pub pointer: String,
    /// The kind of fault.
    pub code: FaultCode,
    /// What is wrong there and what would be right, for a person. Reads on from the pointer.
    pub detail: String,
    /// The least value allowed, where one was passed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub minimum: Option<f64>,
    /// The greatest value, length or count allowed, where one was passed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub maximum: Option<f64>,
    /// The nearest known name.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub suggestion: Option<Cow<'static, str>>,
    /// The names there are.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub known: Vec<String>,
    /// Where the other of two things stands that cannot both be so.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub other_pointer: Option<String>,
    /// The place in the build that a request's patches make, where the fault is one of that build.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub in_build: Option<String>,
}

impl Fault {
    /// The place, for a person: the pointer with unprintable characters escaped.
    fn place(&self) -> String {
        if self.pointer.is_empty() { "the document".to_owned() } else { printable(&self.pointer) }
    }
}

/// The faults of one document.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Faults {
    list: Vec<Fault>,
    left_out: usize,
    pub(super) too_deep: bool,
}

impl Faults {
    /// True when nothing was wrong.
    pub fn is_empty(&self) -> bool {
        self.list.is_empty()
    }

    /// The faults, at most 100.
    pub fn list(&self) -> &[Fault] {
        &self.list
    }

    /// How many faults were met beyond those listed.
    pub fn left_out(&self) -> usize {
        self.left_out
    }

    /// How many faults there are in all.
    pub fn count(&self) -> usize {
        self.list.len() + self.left_out
    }

    /// True when a fault stands at this pointer or at something around it, so that what was read there is
    /// not what the document says.
    pub fn spoil(&self, pointer: &str) -> bool {
        let around = |fault: &Fault| pointer.strip_prefix(fault.pointer.as_str());
        self.list.iter().filter_map(around).any(|rest| rest.is_empty() || rest.starts_with('/'))
    }

    /// True when there is a fault of this kind.
    pub fn has(&self, code: FaultCode) -> bool {
        self.list.iter().any(|f| f.code == code)
    }

    /// Notes a fault. Returns it for its extra members, unless the list is full.
    pub fn add(&mut self, at: &Place, code: FaultCode, detail: String) -> Option<&mut Fault> {
        self.add_at(|| at.pointer(), code, detail)
    }

    /// Notes a fault at a JSON Pointer. Returns it for its extra members, unless the list is full.
    pub fn add_at_pointer(&mut self, pointer: String, code: FaultCode, detail: String) -> Option<&mut Fault> {
        self.add_at(|| pointer, code, detail)
    }

    fn is_full(&self) -> bool {
        self.list.len() == LISTED
    }

    fn add_at(
        &mut self,
        pointer: impl FnOnce() -> String,
        code: FaultCode,
        detail: String,
    ) -> Option<&mut Fault> {
        if self.is_full() {
            self.left_out += 1;
            return None;
        }
        self.list.push(Fault {
            pointer: pointer(),
            code,
            detail,
            minimum: None,
            maximum: None,
            suggestion: None,
            known: Vec::new(),
            other_pointer: None,
            in_build: None,
        });
        self.list.last_mut()
    }

    /// A member whose JSON type is another than the field's.
    #[cold]
    pub fn wrong_type(&mut self, at: &Place, expected: &str, found: &str) {
        self.add(at, FaultCode::WrongType, format!("must be {expected}; got {found}"));
    }

    /// A member that must be there and is not.
    #[cold]
    pub fn missing(&mut self, at: &Place, expected: &str) {
        self.add(at, FaultCode::MissingField, format!("is missing; give {expected}"));
    }

    /// A section or place that this question cannot do without.
    #[cold]
    pub fn missing_section(&mut self, pointer: &str, detail: &str) {
        self.add_at(|| pointer.to_owned(), FaultCode::MissingSection, detail.to_owned());
    }

    /// A member that no field reads.
    #[cold]
    pub fn unknown_field(&mut self, at: &Place, noun: &str, name: &str, known: &'static [&'static str]) {
        let near = nearest_name(name, known.iter().copied());
        let mut detail = if is_long(name) {
            format!("has a member {}, which is not a field of {noun}; ", echo_of_length(name))
        } else {
            format!("is not a field of {noun}; ")
        };
        match near {
            Some(near) => _ = write!(detail, "did you mean {near}?"),
            None => _ = write!(detail, "its fields are {}", known.join(", ")),
        }
        if let Some(fault) = self.add(at, FaultCode::UnknownField, detail) {
            fault.suggestion = near.map(Cow::Borrowed);
        }
    }

    /// A key of a map that cannot be an id.
    #[cold]
    pub fn bad_key(&mut self, at: &Place, key: &str) {
        let detail = if is_long(key) {
            format!("has a key {}; a key is 1 to 64 letters, digits, _ or -", echo_of_length(key))
        } else {
            "cannot be a key; use 1 to 64 letters, digits, _ or -".to_owned()
        };
        self.add(at, FaultCode::BadId, detail);
    }

    /// Notes a name that refers to no entry of the map at pointer `map`, unless what was read of either is
    /// spoiled by another fault.
    pub fn check_reference<T>(&mut self, at: &Place, name: &str, map: &str, entries: Option<&Keyed<T>>) {
        if !entries.is_some_and(|entries| entries.contains_key(name)) {
            self.unknown_id(at, name, map, entries);
        }
    }

    #[cold]
    fn unknown_id<T>(&mut self, at: &Place, name: &str, map: &str, entries: Option<&Keyed<T>>) {
        if self.is_full() {
            self.left_out += 1;
            return;
        }
        if self.spoil(map) || self.spoil(&at.pointer()) {
            return;
        }
        let known = entries.into_iter().flat_map(|entries| entries.keys()).map(String::as_str);
        self.unknown_name(at, name, map, known);
    }

    /// A name that is not among those known. `group` is what those are in.
    #[cold]
    pub fn unknown_name<'k>(
        &mut self,
        at: &Place,
        name: &str,
        group: &str,
        known: impl Iterator<Item = &'k str> + Clone,
    ) {
        let near = nearest(name, known.clone());
        let mut detail = format!("names {}, which is not in {group}", echo(name));
        match near {
            Some(near) => _ = write!(detail, "; did you mean {near}?"),
            None if known.clone().next().is_none() => detail.push_str("; nothing is there"),
            None => {}
        }
        let suggestion = near.map(|near| Cow::Owned(near.to_owned()));
        let known = known.take(LISTED).map(str::to_owned).collect();
        if let Some(fault) = self.add(at, FaultCode::UnknownId, detail) {
            fault.suggestion = suggestion;
            fault.known = known;
        }
    }

    /// The same key twice in one object.
    #[cold]
    pub fn duplicate_key(&mut self, at: &Place) {
        self.add(at, FaultCode::DuplicateKey, "is given more than once; keep one".to_owned());
    }

    /// Two members that cannot both be so, unless what was read here is spoiled by another fault.
    #[cold]
    pub fn contradiction(&mut self, at: &Place, detail: String) {
        if !self.spoil(&at.pointer()) {
            self.add(at, FaultCode::Contradiction, detail);
        }
    }

    /// A member, or an object, that says nothing without one of some members beside it: a contradiction at `at`, unless
    /// one of them stands there under a name that was taken for its misspelling.
    #[cold]
    pub fn contradiction_without(&mut self, names: &[&str], object: &Place, at: &Place, detail: String) {
        if !self.misspells(object, names) {
            self.contradiction(at, detail);
        }
    }

    /// Has an object a member that no field reads and that is near one of some names?
    fn misspells(&self, object: &Place, names: &[&str]) -> bool {
        let object = object.pointer();
        let is_in_it =
            |fault: &Fault| fault.pointer.rsplit_once('/').is_some_and(|(around, _)| around == object);
        let is_meant = |fault: &Fault| fault.suggestion.as_deref().is_some_and(|near| names.contains(&near));
        let unknown = self.list.iter().filter(|fault| fault.code == FaultCode::UnknownField);
        unknown.filter(|fault| is_in_it(fault)).any(is_meant)
    }

    /// Takes in the faults of a document that stands within this one, at the pointer `at`.
    pub fn add_inner(&mut self, at: &str, inner: Self) {
        for fault in inner.list {
            if self.is_full() {
                self.left_out += 1;
            } else {
                self.list.push(Fault { pointer: format!("{at}{}", fault.pointer), ..fault });
            }
        }
        self.left_out += inner.left_out;
    }

    /// The faults as they stand in the document, from its start to its end. `json` is its text.
    #[must_use]
    pub fn in_document_order(mut self, json: &[u8]) -> Self {
        let ranks = order::ranks(json, &self.list);
        let mut ranked: Vec<_> = ranks.into_iter().zip(self.list).collect();
        ranked.sort_by_key(|(rank, _)| *rank);
        self.list = ranked.into_iter().map(|(_, fault)| fault).collect();
        self
    }

    /// The same faults, each at another place: `place` gives it for a pointer.
    #[must_use]
    pub(crate) fn moved(mut self, place: impl Fn(&str) -> String) -> Self {
        for fault in &mut self.list {
            fault.pointer = place(&fault.pointer);
        }
        self
    }

    /// The faults of a build that was made of pieces, told where its pieces stand: `place` gives the place in the
    /// request of a place in the build.
    #[must_use]
    pub(crate) fn told_at(mut self, place: impl Fn(&str) -> String) -> Self {
        for fault in &mut self.list {
            let pointer = place(&fault.pointer);
            fault.in_build = Some(std::mem::replace(&mut fault.pointer, pointer));
        }
        self
    }

    /// All that was noted in `others`, after what was noted here.
    pub fn append(&mut self, others: Self) {
        for fault in others.list {
            if self.is_full() {
                self.left_out += 1;
            } else {
                self.list.push(fault);
            }
        }
        self.left_out += others.left_out;
    }

    /// The document is fine, or it is refused with all that was noted.
    pub fn into_result(self) -> Result<(), Refusal> {
        if self.is_empty() { Ok(()) } else { Err(Refusal::Faults(self)) }
    }
}

/// Why a document was not taken.
#[derive(Debug, Clone, PartialEq)]
pub enum Refusal {
    /// The text could not be read as JSON at all.
    Unreadable {
        /// What was wrong, for a person.
        detail: String,
        /// Line, counted from 1.
        line: usize,
        /// Column, counted from 1.
        column: usize,
        /// The nesting limit, where that was passed.
        limit: Option<u16>,
    },
    /// It is JSON, but not a document that can be worked with.
    Faults(Faults),
    /// It is in order, but would take more work than is done for one request. Nothing was begun.
    TooMuchWork {
        /// What it would take and what would take less, for a person.
        detail: String,
        /// How much it would take.
        work: u64,
        /// How much is done.
        limit: u64,
    },
}

impl std::fmt::Display for Refusal {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Unreadable { detail, line, column, .. } => {
                write!(f, "line {line}, column {column}: {detail}")
            }
            Self::TooMuchWork { detail, .. } => f.write_str(detail),
            Self::Faults(faults) => {
                for (i, fault) in faults.list.iter().enumerate() {
                    let line_break = if i == 0 { "" } else { "\n" };
                    write!(f, "{line_break}{} {}", fault.place(), fault.detail)?;
                }
                match faults.left_out {
                    0 => Ok(()),
                    n => write!(f, "\nand {n} more"),
                }
            }
        }
    }
}

impl std::error::Error for Refusal {}

/// The caller's own text as it may come back: short, in quotes, unprintable characters escaped as in JSON.
pub(crate) fn echo(text: &str) -> String {
    let mut shown = String::from('"');
    text.chars().take(ECHOED).for_each(|c| push_printable(&mut shown, c));
    if is_long(text) {
        shown.push('…');
    }
    shown.push('"');
    shown
}

/// Text that is too long to come back whole, with its length.
fn echo_of_length(text: &str) -> String {
    format!("{} of {} characters", echo(text), text.chars().count())
}

/// Text with unprintable characters escaped as in JSON.
fn printable(text: &str) -> String {
    let mut shown = String::with_capacity(text.len());
    text.chars().for_each(|c| push_printable(&mut shown, c));
    shown
}

fn push_printable(shown: &mut String, c: char) {
    let is_printable = matches!(c, '"' | '\'' | '\\') || c.escape_debug().len() == 1;
    match c {
        c if is_printable => shown.push(c),
        c => c.encode_utf16(&mut [0; 2]).iter().for_each(|unit| _ = write!(shown, "\\u{unit:04x}")),
    }
}

/// Is `name` the field's name with the unit left off, as in `mass` for `mass_lb`?
fn is_without_unit(name: &str, field: &str) -> bool {
    !name.is_empty() && field.strip_prefix(name).is_some_and(|rest| rest.starts_with('_'))
}

/// The field that is meant by `name`: the one it is without its unit, or else the nearest.
pub(crate) fn nearest_name<'k>(name: &str, known: impl Iterator<Item = &'k str> + Clone) -> Option<&'k str> {
    known.clone().find(|field| is_without_unit(name, field)).or_else(|| nearest(name, known))
}

/// The known name nearest to `name`, if one is near enough to be a slip of the keyboard.
pub(super) fn nearest<'k>(name: &str, known: impl Iterator<Item = &'k str>) -> Option<&'k str> {
    if is_long(name) {
        return None;
    }
    known
        .take(COMPARED)
        .map(|k| (1 + k.len().min(name.len()) / 4, k))
        .filter(|(slips, k)| k.len().abs_diff(name.len()) <= *slips)
        .map(|(slips, k)| (strsim::osa_distance(name, k), slips, k))
        .filter(|(distance, slips, _)| distance <= slips)
        .min_by_key(|(distance, ..)| *distance)
        .map(|(.., k)| k)
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{chest, faults};
    use super::*;

    #[test]
    fn a_hundred_faults_are_listed_and_the_rest_counted() {
        for (unknown, listed, left_out) in [(99, 99, 0), (100, 100, 0), (101, 100, 1), (250, 100, 150)] {
            let members: Vec<String> = (0..unknown).map(|i| format!(r#""zz{i}": 0"#)).collect();
            let json = format!(r#"{{"length_in": 1, {}}}"#, members.join(","));
            let (_, faults) = chest(&json).unwrap();
            assert_eq!((faults.list().len(), faults.left_out()), (listed, left_out));
            assert_eq!(faults.count(), unknown);
            let text = Refusal::Faults(faults).to_string();
            assert_eq!(text.ends_with(&format!("\nand {left_out} more")), left_out > 0);
        }
    }

    #[test]
    fn every_code_is_in_the_published_list_once() {
        let words: Vec<String> =
            FaultCode::ALL.iter().map(|(code, _)| serde_json::to_string(code).unwrap()).collect();
        let distinct: std::collections::BTreeSet<_> = words.iter().collect();
        assert_eq!(distinct.len(), words.len());
        assert_eq!(words.first().unwrap(), "\"below_minimum\"");
        assert_eq!(FaultCode::ALL.last().unwrap().0, FaultCode::ConflictingOptions);
        assert_eq!(FaultCode::ConflictingOptions as usize + 1, FaultCode::ALL.len());
    }

    #[test]
    fn a_fault_is_written_without_members_it_does_not_have() {
        let (_, faults) = chest(r#"{"length_in": -12}"#).unwrap();
        assert_eq!(
            serde_json::to_string(&faults.list()[0]).unwrap(),
            r#"{"pointer":"/length_in","code":"below_minimum","detail":"must be -4.5 or more; got -12","minimum":-4.5}"#
        );
    }

    #[test]
    fn faults_of_a_document_are_all_reported_in_its_order() {
        assert_eq!(
            faults(r#"{"count": 9, "lid": {"width_in": true, "x": 0}, "name": "abcdef"}"#),
            [
                "/count must be 4 or less; got 9",
                "/lid/width_in must be a number; got true",
                "/lid/x is not a field of a drawer; its fields are width_in, color",
                "/name must have 5 characters or fewer; got 6",
                "/length_in is missing; give a number"
            ]
        );
    }

    #[test]
    fn faults_of_a_document_within_stand_at_its_place() {
        let (_, inner) = chest(r#"{"length_in": 1, "count": 9, "lid": []}"#).unwrap();
        let (_, mut faults) = chest(r#"{"length_in": true}"#).unwrap();
        faults.add_inner("/a/b", inner);
        let pointers: Vec<_> = faults.list().iter().map(|fault| fault.pointer.as_str()).collect();
        assert_eq!(pointers, ["/length_in", "/a/b/count", "/a/b/lid"]);
        let many: Vec<String> = (0..120).map(|i| format!(r#""zz{i}": 0"#)).collect();
        let (_, inner) = chest(&format!(r#"{{"length_in": 1, {}}}"#, many.join(","))).unwrap();
        faults.add_inner("", inner);
        assert_eq!((faults.list().len(), faults.count()), (100, 123));
    }

    #[test]
    fn a_fault_spoils_its_place_and_what_is_below_it() {
        let (_, faults) = chest(r#"{"length_in": 1, "lid": []}"#).unwrap();
        for (pointer, spoiled) in
            [("/lid", true), ("/lid/a/0", true), ("/lids", false), ("", false), ("/a", false)]
        {
            assert_eq!(faults.spoil(pointer), spoiled, "{pointer}");
        }
        assert!(chest("[]").unwrap().1.spoil("/anything"));
    }

    #[test]
    fn text_comes_back_short_and_printable() {
        assert_eq!(echo("trail bike"), r#""trail bike""#);
        assert_eq!(echo(&"é".repeat(64)), format!("\"{}\"", "é".repeat(64)));
        assert_eq!(echo(&"é".repeat(65)), format!("\"{}…\"", "é".repeat(64)));
        assert_eq!(echo("a\u{7f}\u{202e}\u{1}'\u{e0001}"), r#""a\u007f\u202e\u0001'\udb40\udc01""#);
    }

    #[test]
    fn the_nearest_name_is_one_or_a_few_slips_away() {
        let known = ["trail_bike", "atv", "gear"];
        for (name, near) in [
            ("trials_bike", Some("trail_bike")),
            ("atc", Some("atv")),
            ("geer", Some("gear")),
            ("egar", Some("gear")),
            ("kayak", None),
            ("", None),
        ] {
            assert_eq!(nearest(name, known.into_iter()), near, "{name}");
        }
        assert_eq!(nearest(&"a".repeat(65), ["a"].into_iter()), None);
    }
}
