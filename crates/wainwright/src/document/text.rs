//! Text.

use std::borrow::Cow;

use serde_json::{Value, json};

use super::schema::Definitions;
use super::{FaultCode, Faults, Kind, Place};

/// Text of at most so many characters.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Text {
    /// The greatest number of characters.
    pub longest: usize,
}

impl Kind for Text {
    type Value = String;

    fn expected(self) -> Cow<'static, str> {
        "text".into()
    }

    fn blank(self) -> String {
        String::new()
    }

    fn schema(self, _: &mut Definitions) -> Value {
        json!({"type": "string", "maxLength": self.longest})
    }

    fn text(self, value: &str, at: &Place, faults: &mut Faults) -> String {
        if self.fits(value, at, faults) { value.to_owned() } else { self.blank() }
    }
}

impl Text {
    /// Is the text short enough? Where it is not, that is noted.
    pub(crate) fn fits(self, value: &str, at: &Place, faults: &mut Faults) -> bool {
        let length = value.chars().count();
        if length > self.longest {
            let detail = format!("must have {} characters or fewer; got {length}", self.longest);
            if let Some(fault) = faults.add(at, FaultCode::TooLong, detail) {
                fault.maximum = Some(self.longest as f64);
            }
        }
        length <= self.longest
    }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{chest, fault};
    use super::*;

    #[test]
    fn length_is_counted_in_characters() {
        let (chest, faults) = chest(r#"{"length_in": 1, "name": "ééééé"}"#).unwrap();
        assert!(faults.is_empty());
        assert_eq!(chest.name.unwrap(), "ééééé");
    }

    #[test]
    fn text_that_is_too_long_is_counted_and_does_not_come_back() {
        let fault = fault(&format!(r#"{{"length_in": 1, "name": "{}"}}"#, "x".repeat(9000)));
        assert_eq!((fault.code, fault.maximum), (FaultCode::TooLong, Some(5.0)));
        assert_eq!(fault.detail, "must have 5 characters or fewer; got 9000");
    }

    #[test]
    fn a_number_is_no_text() {
        let fault = fault(r#"{"length_in": 1, "name": 5}"#);
        assert_eq!((fault.code, fault.detail.as_str()), (FaultCode::WrongType, "must be text; got a number"));
    }
}
