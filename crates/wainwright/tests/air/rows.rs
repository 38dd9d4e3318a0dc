//! Reading the vectors.

/// The rows below the note and the header, each split into cells.
pub fn rows(csv: &str) -> impl Iterator<Item = Vec<&str>> {
    csv.lines().filter(|line| !line.starts_with('#')).skip(1).map(|line| line.split(',').collect())
}

/// A row of numbers.
pub fn numbers<const N: usize>(cells: &[&str]) -> [f64; N] {
    assert_eq!(cells.len(), N);
    std::array::from_fn(|column| cells[column].parse().unwrap())
}

/// Asserts that a row's number is as expected, to no more than a tolerance.
#[track_caller]
pub fn close(row: &[&str], worked_out: f64, expected: f64, tolerance: f64) {
    assert!((worked_out - expected).abs() <= tolerance, "{row:?}: {worked_out} instead of {expected}");
}

/// Asserts that a row's number is as printed: to half the last digit, or 1e-9 of it where more digits are printed.
#[track_caller]
pub fn as_printed(row: &[&str], worked_out: f64, printed: &str) {
    let expected: f64 = printed.parse().unwrap();
    let decimals = printed.split_once('.').map_or(0, |(_, decimals)| decimals.len());
    let half_digit = 0.5 * 10_f64.powi(-(decimals as i32));
    close(row, worked_out, expected, half_digit.max(1e-9 * expected.abs()) * (1.0 + 1e-6));
}
