//! One word of a list of words.

use std::borrow::Cow;
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

    fn expected(self) -> Cow<'static, str> {
        let words: Vec<&str> = T::WORDS.iter().map(|(word, _)| *word).collect();
        format!("one of {}", words.join(", ")).into()
    }

    fn blank(self) -> T {
        T::WORDS[0].1
    }

    fn schema(self, _: &mut Definitions) -> Value {
        let words: Vec<&str> = T::WORDS.iter().map(|(word, _)| *word).collect();
        json!({"type": "string", "enum": words})
    }

    fn number(self, value: f64, at: &Place, faults: &mut Faults) -> T {
        let written = value.to_string();
        match T::WORDS.iter().find(|(word, _)| *word == written) {
            Some((word, _)) => {
                let detail = format!("must be text; write \"{word}\" in quotes");
                if let Some(fault) = faults.add(at, FaultCode::WrongType, detail) {
                    fault.suggestion = Some((*word).into());
                }
            }
            None => faults.wrong_type(at, &self.expected(), "a number"),
        }
        self.blank()
    }

    fn text(self, value: &str, at: &Place, faults: &mut Faults) -> T {
        if let Some((_, option)) = T::WORDS.iter().find(|(word, _)| *word == value) {
            return *option;
        }
        let words = || T::WORDS.iter().map(|(word, _)| *word);
        // What is spelled like a number is not meant as a number that is spelled like it.
        let near = if value.parse::<f64>().is_ok() { None } else { nearest(value, words()) };
        let mut detail = format!("must be {}; got {}", self.expected(), echo(value));
        if let Some(near) = near {
            detail.push_str(&format!("; did you mean {near}?"));
        }
        if let Some(fault) = faults.add(at, FaultCode::NotOneOf, detail) {
            fault.suggestion = near.map(Into::into);
            fault.known = words().map(str::to_owned).collect();
        }
        self.blank()
    }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{Color, chest, fault};
    use super::*;

    #[test]
    fn a_word_of_the_list_is_read() {
        assert_eq!(chest(r#"{"length_in": 1, "color": "green"}"#).unwrap().0.color, Some(Color::Green));
    }

    #[test]
    fn a_word_outside_the_list_is_answered_with_the_list() {
        let slip = fault(r#"{"length_in": 1, "color": "grene"}"#);
        assert_eq!(slip.code, FaultCode::NotOneOf);
        assert_eq!(slip.detail, r#"must be one of red, green; got "grene"; did you mean green?"#);
        assert_eq!(
            (slip.suggestion.as_deref(), slip.known),
            (Some("green"), vec!["red".into(), "green".into()])
        );
        let other = fault(r#"{"length_in": 1, "color": "Zinc"}"#);
        assert_eq!(other.detail, r#"must be one of red, green; got "Zinc""#);
        assert_eq!(other.suggestion, None);
    }

    #[test]
    fn another_type_than_text_is_answered_with_the_list() {
        assert_eq!(
            fault(r#"{"length_in": 1, "color": 3}"#).detail,
            "must be one of red, green; got a number"
        );
    }
}
