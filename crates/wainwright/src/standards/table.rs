//! Tables of published standards, read from the data files that stand beside the sources.

/// The rows of a table: lines that are neither comment nor header, split at commas. No cell holds a comma.
pub(super) fn rows(csv: &'static str) -> impl Iterator<Item = Vec<&'static str>> {
    csv.lines().filter(|line| !line.starts_with('#')).skip(1).map(|line| line.split(',').collect())
}

/// A cell as a number; `None` where it is blank.
pub(super) fn number(cell: &str) -> Option<f64> {
    cell.parse().ok()
}
