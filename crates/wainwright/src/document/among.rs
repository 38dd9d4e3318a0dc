//! A number that must be one of a few.

use std::borrow::Cow;

use serde_json::{Value, json};

use super::schema::Definitions;
use super::{FaultCode, Faults, Kind, Place, Slot};

/// One of a few numbers, such as the temperature ratings that a table has columns for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Among(pub &'static [f64]);

impl Among {
    fn listed(self) -> String {
        self.0.iter().map(f64::to_string).collect::<Vec<_>>().join(", ")
    }
}

impl Kind for Among {
    type Value = f64;

    fn expected(self) -> Cow<'static, str> {
        format!("one of {}", self.listed()).into()
    }

    fn blank(self) -> f64 {
        f64::NAN
    }

    fn schema(self, _: &mut Definitions) -> Value {
        let least = self.0.iter().copied().fold(f64::INFINITY, f64::min);
        let most = self.0.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        json!({"type": "number", "format": "double", "enum": self.0, "minimum": least, "maximum": most})
    }

    fn slot<'v>(self, value: &'v mut f64, keys: &[&str]) -> Option<Slot<'v>> {
        keys.is_empty().then_some(Slot::Real(value))
    }

    fn number(self, value: f64, at: &Place, faults: &mut Faults) -> f64 {
        if self.0.contains(&value) {
            return value;
        }
        if let Some(fault) =
            faults.add(at, FaultCode::NotOneOf, format!("must be {}; got {value}", self.expected()))
        {
            fault.known = self.0.iter().map(f64::to_string).collect();
        }
        self.blank()
    }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{chest, fault};
    use super::*;

    #[test]
    fn a_number_of_the_list_is_read_and_another_is_answered_with_the_list() {
        assert_eq!(chest(r#"{"length_in": 1, "rating_c": 75.0}"#).unwrap().0.rating_c, Some(75.0));
        let slip = fault(r#"{"length_in": 1, "rating_c": 70}"#);
        assert_eq!((slip.code, slip.pointer.as_str()), (FaultCode::NotOneOf, "/rating_c"));
        assert_eq!(slip.detail, "must be one of 60, 75, 90; got 70");
        assert_eq!(slip.known, ["60", "75", "90"]);
        assert_eq!(
            fault(r#"{"length_in": 1, "rating_c": "75"}"#).detail,
            r#"must be one of 60, 75, 90; got the text "75""#
        );
    }
}
