//! Text.

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

    fn expected(self) -> &'static str {
        "text"
    }

    fn blank(self) -> String {
        String::new()
    }

    fn schema(self, _: &mut Definitions) -> Value {
        json!({"type": "string", "maxLength": self.longest})
    }

    fn text(self, value: &str, at: &Place, faults: &mut Faults) -> String {
        let length = value.chars().count();
        if length > self.longest {
            let detail = format!("must have {} characters or fewer; got {length}", self.longest);
            if let Some(fault) = faults.add(at, FaultCode::TooLong, detail) {
                fault.maximum = Some(self.longest as f64);
            }
            return self.blank();
        }
        value.to_owned()
    }
}
