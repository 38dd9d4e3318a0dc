//! Reading the vectors.

/// The rows below the notes and the header, each split into cells.
pub fn rows(csv: &str) -> impl Iterator<Item = Vec<&str>> {
    csv.lines().filter(|line| !line.starts_with('#')).skip(1).map(|line| line.split(',').collect())
}

/// A row of numbers; a cell that holds none is not a number.
pub fn numbers<const N: usize>(cells: &[&str]) -> [f64; N] {
    assert_eq!(cells.len(), N);
    std::array::from_fn(|column| cells[column].parse().unwrap_or(f64::NAN))
}

/// Asserts that a row's number is as expected, to no more than a tolerance.
#[track_caller]
pub fn close(row: &[&str], worked_out: f64, expected: f64, tolerance: f64) {
    assert!((worked_out - expected).abs() <= tolerance, "{row:?}: {worked_out} instead of {expected}");
}

/// Asserts that a row's number is as printed, to the last digit printed.
#[track_caller]
pub fn as_printed(row: &[&str], worked_out: f64, printed: &str) {
    let decimals = printed.split_once('.').map_or(0, |(_, decimals)| decimals.len());
    assert_eq!(format!("{worked_out:.decimals$}"), printed, "{row:?}");
}
