//! One word of a list of words.

use std::marker::PhantomData;

use serde_json::{Value, json};

use super::fault::{echo, nearest};
use super::schema::Definitions;
use super::{FaultCode, Faults, Kind, Place};

/// A closed list of words.
pub trait Options: Copy + 'static {
    /// The words and what each stands for; the first is the blank.
    const WORDS: &'static [(&'static str, Self)];
}

/// One word of `T`'s list.
#[derive(Debug)]
pub struct Choice<T>(PhantomData<T>);

impl<T> Choice<T> {
    /// One word of `T`'s list.
    pub const fn of() -> Self {
        Self(PhantomData)
    }
}

impl<T> Clone for Choice<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Choice<T> {}

impl<T: Options> Kind for Choice<T> {
    type Value = T;

    fn expected(self) -> &'static str {
        "one of the words listed for it"
    }

    fn blank(self) -> T {
        T::WORDS[0].1
    }

    fn schema(self, _: &mut Definitions) -> Value {
        let words: Vec<&str> = T::WORDS.iter().map(|(word, _)| *word).collect();
        json!({"type": "string", "enum": words})
    }

    fn text(self, value: &str, at: &Place, faults: &mut Faults) -> T {
        if let Some((_, option)) = T::WORDS.iter().find(|(word, _)| *word == value) {
            return *option;
        }
        let words: Vec<&'static str> = T::WORDS.iter().map(|(word, _)| *word).collect();
        let detail = format!("must be one of {}; got {}", words.join(", "), echo(value));
        if let Some(fault) = faults.add(at, FaultCode::NotOneOf, detail) {
            fault.suggestion = nearest(value, words.iter().copied()).map(Into::into);
            fault.known = words.iter().map(|&w| w.to_owned()).collect();
        }
        self.blank()
    }
}
