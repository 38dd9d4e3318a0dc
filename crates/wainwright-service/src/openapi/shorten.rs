//! Figures of an example, to as many digits as a reader wants.
//!
//! The last digits of a year's sum are those of the mathematical library underneath; the published contract is the same
//! on every machine.

use serde_json::{Number, Value};

/// Decimals of a figure written as d.ddd × 10ⁿ.
const DECIMALS: usize = 5;

/// The same value, its figures to six digits.
pub fn shortened(value: Value) -> Value {
    match value {
        Value::Number(number) if number.is_f64() => {
            short(&number).map_or(Value::Number(number), Value::Number)
        }
        Value::Array(items) => items.into_iter().map(shortened).collect(),
        Value::Object(members) => {
            Value::Object(members.into_iter().map(|(name, value)| (name, shortened(value))).collect())
        }
        other => other,
    }
}

fn short(number: &Number) -> Option<Number> {
    let digits = format!("{:.DECIMALS$e}", number.as_f64()?);
    Number::from_f64(digits.parse().ok()?)
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    #[test]
    fn figures_are_shortened_wherever_they_stand_and_nothing_else_is() {
        let long =
            json!({"a": [1234.567891, -0.000123456789, 0.0], "b": {"c": 7, "d": "1.23456789"}, "e": 1e300});
        let short = json!({"a": [1234.57, -0.000123457, 0.0], "b": {"c": 7, "d": "1.23456789"}, "e": 1e300});
        assert_eq!(shortened(long), short);
    }
}
