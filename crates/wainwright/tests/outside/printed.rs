//! Comparison with printed figures.

/// Asserts that a value rounds to a printed figure: within half a unit of its last digit. Commas group its digits.
#[track_caller]
pub fn assert_printed(value: f64, printed: &str) {
    let digits = printed.replace(',', "");
    let expected: f64 = digits.parse().unwrap();
    let decimals = digits.split_once('.').map_or(0, |(_, after)| after.len());
    // The last factor lets an exact tie, such as 0.5 of a digit, fall either way.
    let half_a_digit = 0.5 * 10f64.powi(-(decimals as i32)) * (1.0 + 1e-9);
    assert!((value - expected).abs() <= half_a_digit, "{value} is not {printed}");
}
