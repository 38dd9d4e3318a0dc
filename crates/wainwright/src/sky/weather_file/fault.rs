//! What was wrong with a weather file.

use std::fmt::{self, Display, Formatter};

/// At most this many faults are listed; the rest are counted.
pub const LISTED: usize = 20;

/// One thing that is wrong with a weather file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FileFault {
    /// Line, from 1 on.
    pub line: usize,
    /// Column, from 1 on. None where it is the whole line, or a column that is not there.
    pub column: Option<usize>,
    /// What the column is called. None where it has no name here.
    pub name: Option<String>,
    /// What is wrong, and what would be right.
    pub detail: String,
}

impl Display for FileFault {
    fn fmt(&self, f: &mut Formatter) -> fmt::Result {
        write!(f, "line {}", self.line)?;
        if let Some(column) = self.column {
            write!(f, ", column {column}")?;
        }
        if let Some(name) = &self.name {
            write!(f, ", {name}")?;
        }
        write!(f, ": {}", self.detail)
    }
}

/// Why a weather file is refused: its faults in the order of the file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FileRefusal {
    faults: Vec<FileFault>,
    left_out: usize,
}

impl FileRefusal {
    /// The faults, [`LISTED`] at most.
    pub fn list(&self) -> &[FileFault] {
        &self.faults
    }

    /// How many more there are.
    pub fn left_out(&self) -> usize {
        self.left_out
    }
}

impl Display for FileRefusal {
    fn fmt(&self, f: &mut Formatter) -> fmt::Result {
        for (i, fault) in self.faults.iter().enumerate() {
            write!(f, "{}{fault}", if i == 0 { "" } else { "\n" })?;
        }
        match self.left_out {
            0 => Ok(()),
            count => write!(f, "\nand {count} more"),
        }
    }
}

impl std::error::Error for FileRefusal {}

/// Where a fault is.
#[derive(Debug, Clone, Copy)]
pub(super) struct At<'a> {
    line: usize,
    column: Option<usize>,
    name: Option<&'a str>,
}

impl<'a> At<'a> {
    /// A whole line.
    pub(super) fn line(line: usize) -> Self {
        Self { line, column: None, name: None }
    }

    /// A column of a line, both from 1 on.
    pub(super) fn column(line: usize, column: usize, name: &'a str) -> Self {
        Self { line, column: Some(column), name: Some(name).filter(|name| !name.is_empty()) }
    }

    /// A column that is not there.
    pub(super) fn absent(line: usize, name: &'a str) -> Self {
        Self { line, column: None, name: Some(name) }
    }
}

/// The faults found so far.
#[derive(Debug, Default)]
pub(super) struct FileFaults {
    listed: Vec<FileFault>,
    left_out: usize,
}

impl FileFaults {
    /// Notes a fault. Its sentence is made only where it is listed.
    pub(super) fn add(&mut self, at: At, detail: impl FnOnce() -> String) {
        if self.listed.len() == LISTED {
            self.left_out += 1;
            return;
        }
        let name = at.name.map(str::to_owned);
        self.listed.push(FileFault { line: at.line, column: at.column, name, detail: detail() });
    }

    /// Is there none?
    pub(super) fn is_empty(&self) -> bool {
        self.listed.is_empty()
    }

    /// The refusal. What is listed stands in the order of the file.
    pub(super) fn refusal(mut self) -> FileRefusal {
        self.listed.sort_by_key(|fault| (fault.line, fault.column));
        FileRefusal { faults: self.listed, left_out: self.left_out }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn twenty_faults_are_listed_and_the_rest_counted() {
        for (found, ending) in [(20, "wrong"), (21, "\nand 1 more"), (50, "\nand 30 more")] {
            let mut faults = FileFaults::default();
            (0..found).for_each(|i| faults.add(At::column(50 - i, 2, "month"), || "wrong".into()));
            let refusal = faults.refusal();
            assert_eq!((refusal.list().len(), refusal.left_out()), (20, found - 20));
            assert!(refusal.list().is_sorted_by_key(|fault| fault.line));
            assert!(refusal.to_string().ends_with(ending), "{refusal}");
        }
    }

    #[test]
    fn a_fault_says_where_it_is() {
        let shown = |at| {
            let mut faults = FileFaults::default();
            faults.add(at, || "wrong".into());
            faults.refusal().to_string()
        };
        assert_eq!(shown(At::line(7)), "line 7: wrong");
        assert_eq!(shown(At::column(7, 3, "day")), "line 7, column 3, day: wrong");
        assert_eq!(shown(At::column(7, 3, "")), "line 7, column 3: wrong");
        assert_eq!(shown(At::absent(2, "GHI (W/m^2)")), "line 2, GHI (W/m^2): wrong");
    }
}
