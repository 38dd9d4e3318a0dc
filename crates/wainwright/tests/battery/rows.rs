//! Reading the vectors.

/// The rows below the header, each split into cells.
pub fn rows(csv: &str) -> impl Iterator<Item = Vec<&str>> {
    csv.lines().skip(1).map(|line| line.split(',').collect())
}

/// A row of numbers; a cell that holds none is not a number.
pub fn numbers<const N: usize>(cells: &[&str]) -> [f64; N] {
    assert_eq!(cells.len(), N);
    std::array::from_fn(|column| cells[column].parse().unwrap_or(f64::NAN))
}

/// Asserts that two numbers differ by no more than a tolerance.
#[track_caller]
pub fn close(worked_out: f64, expected: f64, tolerance: f64) {
    assert!((worked_out - expected).abs() <= tolerance, "{worked_out} instead of {expected}");
}
