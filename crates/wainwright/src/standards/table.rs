//! Tables of published standards, read from the data files that stand beside the sources.
//!
//! A blank cell, and a cell that cannot be read, is no value. That no cell is of the second sort is held by a test
//! over all files.

use super::size::Size;

/// One row of a table. No cell holds a comma.
pub(crate) struct Row {
    header: &'static str,
    cells: &'static str,
}

/// The rows of a table: a line of names, then the rows; lines that begin with `#` say where it is from.
pub(crate) fn rows(csv: &'static str) -> impl Iterator<Item = Row> {
    let mut lines = csv.lines().filter(|line| !line.starts_with('#'));
    let header = lines.next().unwrap_or_default();
    lines.map(move |cells| Row { header, cells })
}

impl Row {
    /// A cell, by the name of its column; blank where the table has no such column.
    pub(crate) fn text(&self, column: &str) -> &'static str {
        let place = self.header.split(',').position(|name| name == column);
        place.and_then(|place| self.cells.split(',').nth(place)).unwrap_or_default()
    }

    /// A cell as a number; `None` where it is blank.
    pub(crate) fn number(&self, column: &str) -> Option<f64> {
        self.text(column).parse().ok()
    }
}

/// Columns of a table that has a row for each size. A place with no figure is `None`.
pub(super) type BySize<const N: usize> = [[Option<f64>; N]; Size::ALL.len()];

/// Reads a table by size; of several rows for one size the last counts.
pub(super) fn by_size<const N: usize>(csv: &'static str, columns: [&str; N]) -> BySize<N> {
    let mut table = [[None; N]; Size::ALL.len()];
    for row in rows(csv) {
        if let Some(size) = Size::of(row.text("size")) {
            table[size.index()] = columns.map(|column| row.number(column));
        }
    }
    table
}

/// Columns of a table whose rows are bands of a quantity, one above another.
pub(super) struct Bands<const N: usize>(Vec<(f64, [Option<f64>; N])>);

impl<const N: usize> Bands<N> {
    /// Reads bands in rising order; one whose upper end is blank has none.
    pub(super) fn of(rows: impl Iterator<Item = Row>, upper_end: &str, columns: [&str; N]) -> Self {
        let band = |row: Row| {
            (row.number(upper_end).unwrap_or(f64::INFINITY), columns.map(|column| row.number(column)))
        };
        Self(rows.map(band).collect())
    }

    /// A column's figure in the band of a value, or none above the last band. Between the whole numbers at which one
    /// band ends and the next begins, a value belongs to the upper one.
    pub(super) fn at(&self, value: f64, column: usize) -> Option<f64> {
        self.0.iter().find(|(upper_end, _)| value <= *upper_end).and_then(|(_, figures)| figures[column])
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Columns that hold words, or figures in a form of their own, which their modules test.
    const WORDS: [&str; 20] = [
        "size",
        "letter",
        "hp",
        "volts",
        "plug",
        "circuit_ratings_a",
        "section",
        "kind",
        "family",
        "ratings_a",
        "at_v",
        "reverse_cycle",
        "louvered_sides",
        "tag",
        "file",
        "id",
        "name",
        "state",
        "coast",
        "station",
    ];

    #[test]
    fn every_cell_of_every_table_is_blank_or_can_be_read() {
        let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("data");
        let mut tables = 0;
        for file in std::fs::read_dir(folder).unwrap() {
            let path = file.unwrap().path();
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            let csv: &'static str = std::fs::read_to_string(&path).unwrap().leak();
            assert!(csv.starts_with("# "), "{name} does not say where it is from");
            for row in rows(csv) {
                let columns: Vec<&str> = row.header.split(',').collect();
                assert_eq!(row.cells.split(',').count(), columns.len(), "{name}: {}", row.cells);
                for column in columns.into_iter().filter(|column| !WORDS.contains(column)) {
                    let number = row.number(column);
                    assert!(
                        row.text(column).is_empty() || number.is_some_and(f64::is_finite),
                        "{name}, {column}: {}",
                        row.cells
                    );
                }
            }
            tables += 1;
        }
        assert!(tables >= 18);
    }

    #[test]
    fn a_column_the_table_does_not_have_reads_as_blank() {
        let row = rows("# From nowhere\na,b\n1,\n").next().unwrap();
        assert_eq!((row.number("a"), row.number("b"), row.number("c")), (Some(1.0), None, None));
    }

    #[test]
    fn a_value_between_two_bands_belongs_to_the_upper_one() {
        let bands = Bands::of(rows("to,f\n10,1\n15,\n,3\n"), "to", ["f"]);
        let at = |value| bands.at(value, 0);
        assert_eq!([at(10.0), at(10.5), at(15.5), at(f64::NAN)], [Some(1.0), None, Some(3.0), None]);
    }
}
