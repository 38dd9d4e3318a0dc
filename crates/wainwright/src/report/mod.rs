//! What every report is made of: findings, assumptions, cautions, and the schema of each field.

mod assumption;
mod caution;
mod described;
mod finding;
mod json;
pub mod shared_cautions;
pub mod shared_rules;

pub use assumption::{AssumedValue, Assumption, Assumptions};
pub use caution::Caution;
pub(crate) use described::report;
pub use described::{Described, Engine};
pub(crate) use finding::rules;
pub use finding::{Finding, Findings, LimitKind, Rule, Severity};
pub use json::Json;

use std::fmt::Write as _;

/// A figure for people: at most `digits` decimals, thousands grouped, no needless zeros.
pub fn figure(value: f64, digits: usize) -> String {
    let rounded = format!("{:.digits$}", value.abs());
    let (whole, decimals) = rounded.split_once('.').unwrap_or((&rounded, ""));
    grouped(value, whole, decimals.trim_end_matches('0'))
}

/// A figure of a table for people: `digits` decimals, thousands grouped, so that a column lines up.
pub fn fixed(value: f64, digits: usize) -> String {
    let rounded = format!("{:.digits$}", value.abs());
    let (whole, decimals) = rounded.split_once('.').unwrap_or((&rounded, ""));
    grouped(value, whole, decimals)
}

fn grouped(value: f64, whole: &str, decimals: &str) -> String {
    let mut text = String::with_capacity(whole.len() + decimals.len() + 4);
    let is_zero = whole == "0" && decimals.bytes().all(|digit| digit == b'0');
    if value < 0.0 && !is_zero {
        text.push('-');
    }
    for (i, digit) in whole.chars().enumerate() {
        if i > 0 && (whole.len() - i).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    if !decimals.is_empty() {
        _ = write!(text, ".{decimals}");
    }
    text
}

/// A share for people, in percent with one decimal.
pub fn percent(fraction: f64) -> String {
    format!("{} %", figure(fraction * 100.0, 1))
}

/// A share of a table for people, in percent with one decimal.
pub fn percent_fixed(fraction: f64) -> String {
    format!("{} %", fixed(fraction * 100.0, 1))
}

/// True where `value` is above `limit` by more than rounding can explain.
///
/// Loads are sums of converted figures: a build exactly at a rating may come out a few units in the last
/// place above it, and that is no violation.
pub fn exceeds(value: f64, limit: f64) -> bool {
    value - limit > 1e-9 * limit.abs().max(1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_are_grouped_and_trimmed() {
        assert_eq!(figure(3937.928, 1), "3,937.9");
        assert_eq!(figure(7700.0, 1), "7,700");
        assert_eq!(figure(-0.04, 1), "0");
        assert_eq!(figure(-1234567.25, 2), "-1,234,567.25");
        assert_eq!(percent(0.14949), "14.9 %");
        assert_eq!(percent(0.1), "10 %");
    }

    #[test]
    fn figures_of_a_table_line_up() {
        assert_eq!(fixed(7700.0, 1), "7,700.0");
        assert_eq!(fixed(-0.04, 1), "0.0");
        assert_eq!(fixed(-1234567.25, 1), "-1,234,567.2");
        assert_eq!(fixed(12.0, 0), "12");
        assert_eq!(percent_fixed(0.1), "10.0 %");
    }

    #[test]
    fn a_value_at_its_limit_does_not_exceed_it() {
        assert!(!exceeds(0.1 + 0.2, 0.3));
        assert!(exceeds(0.300_001, 0.3));
        assert!(!exceeds(f64::NAN, 0.3));
    }
}
