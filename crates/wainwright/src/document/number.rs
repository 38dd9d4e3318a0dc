//! Numbers: a quantity within bounds, and a count.

use serde_json::{Value, json};

use super::schema::Definitions;
use super::{FaultCode, Faults, Kind, Place};

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
            let detail = format!("must be {} or more; got {value}", self.minimum);
            if let Some(fault) = faults.add(at, FaultCode::BelowMinimum, detail) {
                fault.minimum = Some(self.minimum);
            }
        } else {
            let detail = format!("must be {} or less; got {value}", self.maximum);
            if let Some(fault) = faults.add(at, FaultCode::AboveMaximum, detail) {
                fault.maximum = Some(self.maximum);
            }
        }
        f64::NAN
    }
}

impl Kind for Bound {
    type Value = f64;

    fn expected(self) -> &'static str {
        "a number"
    }

    fn blank(self) -> f64 {
        f64::NAN
    }

    fn schema(self, _: &mut Definitions) -> Value {
        json!({"type": "number", "format": "double", "minimum": self.minimum, "maximum": self.maximum})
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

    fn expected(self) -> &'static str {
        "a whole number"
    }

    fn blank(self) -> u32 {
        self.minimum
    }

    fn schema(self, _: &mut Definitions) -> Value {
        json!({"type": "integer", "format": "int32", "minimum": self.minimum, "maximum": self.maximum})
    }

    fn number(self, value: f64, at: &Place, faults: &mut Faults) -> u32 {
        if value.fract() != 0.0 {
            faults.add(at, FaultCode::NotWhole, format!("must be a whole number; got {value}"));
            return self.blank();
        }
        let bound = Bound::new(self.minimum.into(), self.maximum.into());
        let value = bound.number(value, at, faults);
        if value.is_nan() { self.blank() } else { value as u32 }
    }
}
