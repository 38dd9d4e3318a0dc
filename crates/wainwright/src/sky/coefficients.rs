//! Tables of coefficients, read from data files.

/// Reads the last columns of a table: a line of names, then the rows; lines that begin with `#` say where it is from.
/// A cell that is missing or cannot be read is NaN.
pub(super) fn last_columns<const COLUMNS: usize, const ROWS: usize>(csv: &str) -> [[f64; COLUMNS]; ROWS] {
    let mut table = [[f64::NAN; COLUMNS]; ROWS];
    let lines = csv.lines().filter(|line| !line.starts_with('#')).skip(1);
    for (row, line) in table.iter_mut().zip(lines) {
        for (cell, text) in row.iter_mut().rev().zip(line.rsplit(',')) {
            *cell = text.parse().unwrap_or(f64::NAN);
        }
    }
    table
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_last_columns_are_read_and_what_is_missing_is_not_a_number() {
        let [first, second] = last_columns::<2, 2>("# From nowhere\na,b,c\n1,2,3\n");
        assert_eq!(first, [2.0, 3.0]);
        assert!(second.iter().all(|cell| cell.is_nan()));
    }
}
