//! Numbers: a quantity within bounds, and a count.

use std::borrow::Cow;

use serde_json::{Value, json};

use super::schema::Definitions;
use super::{FaultCode, Faults, Kind, Place, Slot};

/// A number between two bounds, both allowed.
///
/// The same row gives the check, its sentence and the published `minimum` and `maximum`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bound {
    /// The least value allowed.
    pub minimum: f64,
    /// The greatest value allowed.
    pub maximum: f64,
}

impl Bound {
    /// A number from `minimum` to `maximum`.
    pub const fn new(minimum: f64, maximum: f64) -> Self {
        Self { minimum, maximum }
    }

    #[cold]
    fn out_of_bounds(self, value: f64, at: &Place, faults: &mut Faults) -> f64 {
        if value < self.minimum {
            let detail = format!("must be {} or more; got {}", self.minimum, shown(value));
            if let Some(fault) = faults.add(at, FaultCode::BelowMinimum, detail) {
                fault.minimum = Some(self.minimum);
            }
        } else {
            let detail = format!("must be {} or less; got {}", self.maximum, shown(value));
            if let Some(fault) = faults.add(at, FaultCode::AboveMaximum, detail) {
                fault.maximum = Some(self.maximum);
            }
        }
        f64::NAN
    }
}

impl Kind for Bound {
    type Value = f64;

    fn expected(self) -> Cow<'static, str> {
        "a number".into()
    }

    fn blank(self) -> f64 {
        f64::NAN
    }

    fn schema(self, _: &mut Definitions) -> Value {
        json!({"type": "number", "format": "double", "minimum": self.minimum, "maximum": self.maximum})
    }

    fn slot<'v>(self, value: &'v mut f64, keys: &[&str]) -> Option<Slot<'v>> {
        keys.is_empty().then_some(Slot::Real(value))
    }

    fn number(self, value: f64, at: &Place, faults: &mut Faults) -> f64 {
        // Written so that NaN fails too.
        if value >= self.minimum && value <= self.maximum {
            value
        } else {
            self.out_of_bounds(value, at, faults)
        }
    }
}

/// A whole number between two bounds, both allowed. `2.0` is whole.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Whole {
    /// The least count allowed.
    pub minimum: u32,
    /// The greatest count allowed.
    pub maximum: u32,
}

impl Kind for Whole {
    type Value = u32;

    fn expected(self) -> Cow<'static, str> {
        "a whole number".into()
    }

    fn blank(self) -> u32 {
        self.minimum
    }

    fn schema(self, _: &mut Definitions) -> Value {
        json!({"type": "integer", "format": "int32", "minimum": self.minimum, "maximum": self.maximum})
    }

    fn slot<'v>(self, value: &'v mut u32, keys: &[&str]) -> Option<Slot<'v>> {
        keys.is_empty().then_some(Slot::Whole(value))
    }

    fn number(self, value: f64, at: &Place, faults: &mut Faults) -> u32 {
        if value.fract() != 0.0 {
            faults.add(at, FaultCode::NotWhole, format!("must be a whole number; got {}", shown(value)));
            return self.blank();
        }
        let bound = Bound::new(self.minimum.into(), self.maximum.into());
        let value = bound.number(value, at, faults);
        if value.is_nan() { self.blank() } else { value as u32 }
    }
}

/// A number as it may come back: never hundreds of digits.
fn shown(value: f64) -> String {
    let plain = value == 0.0 || (1e-6..1e15).contains(&value.abs());
    if plain { value.to_string() } else { format!("{value:e}") }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{chest, fault, faults};
    use super::*;

    #[test]
    fn both_bounds_are_allowed() {
        for value in ["-4.5", "1200", "1.2e3", "0", "-0"] {
            assert_eq!(faults(&format!(r#"{{"length_in": {value}}}"#)), Vec::<String>::new());
        }
    }

    #[test]
    fn past_a_bound_number_and_bound_are_named() {
        let low = fault(r#"{"length_in": -4.500001}"#);
        assert_eq!((low.code, low.minimum, low.maximum), (FaultCode::BelowMinimum, Some(-4.5), None));
        assert_eq!(low.detail, "must be -4.5 or more; got -4.500001");
        let high = fault(r#"{"length_in": 1200.5}"#);
        assert_eq!((high.code, high.minimum, high.maximum), (FaultCode::AboveMaximum, None, Some(1200.0)));
        assert_eq!(high.detail, "must be 1200 or less; got 1200.5");
    }

    #[test]
    fn enormous_and_minute_numbers_come_back_short() {
        assert_eq!(fault(r#"{"length_in": 1e300}"#).detail, "must be 1200 or less; got 1e300");
        assert_eq!(
            fault(r#"{"length_in": 18446744073709551615}"#).detail,
            "must be 1200 or less; got 1.8446744073709552e19"
        );
        assert_eq!(
            fault(r#"{"length_in": 1, "count": 1e-200}"#).detail,
            "must be a whole number; got 1e-200"
        );
    }

    #[test]
    fn whole_floats_are_counts() {
        for value in ["1", "4", "4.0", "0.3e1"] {
            assert_eq!(faults(&format!(r#"{{"length_in": 1, "count": {value}}}"#)), Vec::<String>::new());
        }
        assert_eq!(chest(r#"{"length_in": 1, "count": 2.0}"#).unwrap().0.count, Some(2));
    }

    #[test]
    fn a_count_with_a_fraction_or_past_its_bounds_is_refused() {
        let half = fault(r#"{"length_in": 1, "count": 2.5}"#);
        assert_eq!(
            (half.code, half.detail.as_str()),
            (FaultCode::NotWhole, "must be a whole number; got 2.5")
        );
        let none = fault(r#"{"length_in": 1, "count": 0}"#);
        assert_eq!((none.code, none.detail.as_str()), (FaultCode::BelowMinimum, "must be 1 or more; got 0"));
        let many = fault(r#"{"length_in": 1, "count": 5}"#);
        assert_eq!((many.code, many.detail.as_str()), (FaultCode::AboveMaximum, "must be 4 or less; got 5"));
        assert_eq!(fault(r#"{"length_in": 1, "count": 1e300}"#).code, FaultCode::AboveMaximum);
    }

    #[test]
    fn another_type_than_a_number_is_named() {
        for (value, found) in [
            (r#""86""#, r#"the text "86""#),
            ("true", "true"),
            ("[86]", "a list"),
            (r#"{"lb": 86}"#, "an object"),
        ] {
            let fault = fault(&format!(r#"{{"length_in": {value}}}"#));
            assert_eq!(fault.code, FaultCode::WrongType);
            assert_eq!(fault.detail, format!("must be a number; got {found}"));
        }
    }
}
