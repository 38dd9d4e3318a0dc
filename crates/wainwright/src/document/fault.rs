//! What was wrong with a document.

use std::borrow::Cow;
use std::fmt::Write as _;

use serde::Serialize;

use super::Place;

/// At most this many faults are listed; the rest are counted.
const LISTED: usize = 100;
/// At most this many characters of the caller's own text come back in a sentence.
const ECHOED: usize = 64;

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
    /// A name that refers to nothing in the document.
    UnknownId,
    /// The same key twice in one object.
    DuplicateKey,
    /// A key or a name with characters outside `[A-Za-z0-9_-]`, or too long.
    BadId,
    /// More entries than are accepted.
    TooMany,
    /// Text longer than is accepted.
    TooLong,
    /// A word that is not in the list of words.
    NotOneOf,
    /// Two members that cannot both be so.
    Contradiction,
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
        (Self::UnknownId, "a name that refers to nothing in the document (`known` lists what there is)"),
        (Self::DuplicateKey, "the same key twice in one object"),
        (Self::BadId, "a key outside [A-Za-z0-9_-]{1,64}"),
        (Self::TooMany, "more entries than are accepted (`maximum`)"),
        (Self::TooLong, "text longer than is accepted (`maximum`)"),
        (Self::NotOneOf, "a word outside the list (`known`)"),
        (Self::Contradiction, "two members that cannot both be so"),
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
}

/// The faults of one document, in the order they were met.
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

    /// True when a fault stands at exactly this pointer.
    pub fn at(&self, pointer: &str) -> bool {
        self.list.iter().any(|f| f.pointer == pointer)
    }

    /// True when there is a fault of this kind.
    pub fn has(&self, code: FaultCode) -> bool {
        self.list.iter().any(|f| f.code == code)
    }

    /// Notes a fault. Returns it for its extra members, unless the list is full.
    pub fn add(&mut self, at: &Place, code: FaultCode, detail: String) -> Option<&mut Fault> {
        self.add_at(|| at.pointer(), code, detail)
    }

    fn add_at(
        &mut self,
        pointer: impl FnOnce() -> String,
        code: FaultCode,
        detail: String,
    ) -> Option<&mut Fault> {
        if self.list.len() == LISTED {
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
        let nearest = nearest(name, known.iter().copied());
        let mut detail = format!("is not a field of {noun}; ");
        match nearest {
            Some(near) => _ = write!(detail, "did you mean {near}?"),
            None => _ = write!(detail, "its fields are {}", known.join(", ")),
        }
        if let Some(fault) = self.add(at, FaultCode::UnknownField, detail) {
            fault.suggestion = nearest.map(Cow::Borrowed);
        }
    }

    /// A name that refers to no entry of a map.
    #[cold]
    pub fn unknown_id<'k>(
        &mut self,
        at: &Place,
        name: &str,
        map: &str,
        known: impl Iterator<Item = &'k str> + Clone,
    ) {
        let mut detail = format!("names {}, which is not in {map}", echo(name));
        if let Some(near) = nearest(name, known.clone()) {
            _ = write!(detail, "; did you mean {near}?");
        }
        if let Some(fault) = self.add(at, FaultCode::UnknownId, detail) {
            fault.suggestion = nearest(name, known.clone()).map(|n| Cow::Owned(n.to_owned()));
            fault.known = known.take(LISTED).map(str::to_owned).collect();
        }
    }

    /// The same key twice in one object.
    #[cold]
    pub fn duplicate_key(&mut self, at: &Place) {
        self.add(at, FaultCode::DuplicateKey, "stands here twice; keep one of the two".to_owned());
    }

    /// Two members that cannot both be so.
    #[cold]
    pub fn contradiction(&mut self, at: &Place, detail: String) {
        self.add(at, FaultCode::Contradiction, detail);
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
}

impl std::fmt::Display for Refusal {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Unreadable { detail, line, column, .. } => {
                write!(f, "line {line}, column {column}: {detail}")
            }
            Self::Faults(faults) => {
                for (i, fault) in faults.list.iter().enumerate() {
                    let pointer = if fault.pointer.is_empty() { "the document" } else { &fault.pointer };
                    let line_break = if i == 0 { "" } else { "\n" };
                    write!(f, "{line_break}{pointer} {}", fault.detail)?;
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

/// The caller's own text as it may come back: short, control characters escaped.
pub(super) fn echo(text: &str) -> String {
    let mut shown: String = text.chars().take(ECHOED).flat_map(|c| c.escape_debug()).collect();
    if text.chars().nth(ECHOED).is_some() {
        shown.push('…');
    }
    format!("\"{shown}\"")
}

/// The known name nearest to `name`, if one is near enough to be a slip of the keyboard.
pub(super) fn nearest<'k>(name: &str, known: impl Iterator<Item = &'k str>) -> Option<&'k str> {
    if name.len() > ECHOED {
        return None;
    }
    known
        .map(|k| (strsim::damerau_levenshtein(name, k), k))
        .filter(|(distance, k)| *distance <= 1 + k.len().min(name.len()) / 4)
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, k)| k)
}
