//! Assumptions: every default that was used.

use std::borrow::Cow;

use serde::Serialize;

use super::described::report;

/// A value that was assumed.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(untagged)]
pub enum AssumedValue {
    /// A number.
    Number(f64),
    /// A word.
    Word(Cow<'static, str>),
    /// Yes or no.
    Flag(bool),
}

impl From<f64> for AssumedValue {
    fn from(value: f64) -> Self {
        Self::Number(value)
    }
}

impl From<bool> for AssumedValue {
    fn from(value: bool) -> Self {
        Self::Flag(value)
    }
}

impl From<&'static str> for AssumedValue {
    fn from(value: &'static str) -> Self {
        Self::Word(Cow::Borrowed(value))
    }
}

report! {
    /// A default that was used because the build does not say.
    pub struct Assumption {
        /// JSON Pointer to where the caller would say it.
        pointer: String = "/parts/galley/z_in",
        /// What was taken.
        value: AssumedValue = 42.0,
        /// Its unit.
        unit: Option<&'static str> = "in",
        /// Why this value.
        reason: &'static str = "taken as high as the bare trailer's center of gravity",
        /// Where it is from.
        citation: &'static str = "common practice",
    }
}

/// Assumptions as they are collected.
#[derive(Debug, Default)]
pub struct Assumptions(Vec<Assumption>);

impl Assumptions {
    /// Notes a default that was used.
    pub fn add(
        &mut self,
        pointer: String,
        value: impl Into<AssumedValue>,
        unit: Option<&'static str>,
        reason: &'static str,
        citation: &'static str,
    ) {
        self.0.push(Assumption { pointer, value: value.into(), unit, reason, citation });
    }

    /// Notes words that were used.
    pub fn add_words(
        &mut self,
        pointer: String,
        words: String,
        reason: &'static str,
        citation: &'static str,
    ) {
        let value = AssumedValue::Word(words.into());
        self.0.push(Assumption { pointer, value, unit: None, reason, citation });
    }

    /// The stated value, or the default, which is noted.
    pub fn or<T: Copy + Into<AssumedValue>>(
        &mut self,
        stated: Option<T>,
        default: T,
        pointer: impl FnOnce() -> String,
        unit: Option<&'static str>,
        reason: &'static str,
        citation: &'static str,
    ) -> T {
        stated.unwrap_or_else(|| {
            self.add(pointer(), default, unit, reason, citation);
            default
        })
    }

    /// All that was assumed, by the position of each pointer in the document.
    pub fn in_order<P: Ord>(mut self, position: impl Fn(&str) -> P) -> Vec<Assumption> {
        self.0.sort_by_cached_key(|assumption| position(&assumption.pointer));
        self.0
    }
}
