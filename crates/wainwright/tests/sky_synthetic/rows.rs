//! Files of cases: a line of names, then the rows; lines that begin with `#` say where they are from.

/// One case: its row, and what the columns are called.
pub struct Case {
    header: &'static str,
    pub cells: &'static str,
}

/// Every row of a file.
pub fn cases(csv: &'static str, count: usize) -> impl Iterator<Item = Case> {
    let mut lines = csv.lines().filter(|line| !line.starts_with('#'));
    let header = lines.next().unwrap();
    assert_eq!(lines.clone().count(), count);
    lines.map(move |cells| Case { header, cells })
}

impl Case {
    /// A cell, by the name of its column.
    pub fn text(&self, column: &str) -> &'static str {
        let place = self.header.split(',').position(|name| name == column).unwrap();
        self.cells.split(',').nth(place).unwrap()
    }

    /// A cell as a number.
    pub fn number(&self, column: &str) -> f64 {
        self.text(column).parse().unwrap()
    }

    /// Asserts that a value rounds to a cell's figure.
    #[track_caller]
    pub fn holds(&self, column: &str, value: f64) {
        let printed = self.text(column);
        let decimals = printed.split_once('.').map_or(0, |(_, after)| after.len());
        let open = 0.5 * 10f64.powi(-(decimals as i32)) * (1.0 + 1e-9);
        assert!(
            (value - self.number(column)).abs() <= open,
            "{column}: {value}, not {printed}\n{}",
            self.cells
        );
    }
}
