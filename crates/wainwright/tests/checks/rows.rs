//! The rows of the file, and how a test stands for one.

use std::collections::{BTreeMap, BTreeSet};

const CSV: &str = include_str!("circuits.csv");

/// Splits a line at its commas; a cell in quotation marks may hold commas.
fn cells(line: &str) -> Vec<String> {
    let mut cells = vec![String::new()];
    let mut quoted = false;
    for c in line.chars() {
        match c {
            '"' => quoted = !quoted,
            ',' if !quoted => cells.push(String::new()),
            c => cells.last_mut().unwrap().push(c),
        }
    }
    cells
}

/// Expected text by id.
fn expected() -> BTreeMap<String, String> {
    CSV.lines().skip(1).map(cells).map(|mut row| (row.remove(0), row.remove(1))).collect()
}

/// Asserts that a row's text is what was worked out here, to its last digit.
#[track_caller]
pub fn same(id: &str, worked_out: impl AsRef<str>) {
    assert_eq!(worked_out.as_ref(), expected()[id], "{id}");
}

/// Declares tests: the test's name, the row's id, and the text worked out by the code.
macro_rules! rows {
    ($($name:ident $id:literal => $worked_out:expr;)+) => {
        /// The rows that are tested here.
        pub const IDS: &[&str] = &[$($id),+];

        $(
            #[test]
            fn $name() {
                super::rows::same($id, $worked_out);
            }
        )+
    };
}
pub(super) use rows;

#[test]
fn every_row_is_a_test_once() {
    use super::{currents, sources, together, wire};
    let all = [currents::IDS, sources::IDS, together::IDS, wire::IDS].concat();
    let tested: BTreeSet<String> = all.iter().map(|id| (*id).to_owned()).collect();
    assert_eq!(all.len(), tested.len());
    assert_eq!(tested, expected().into_keys().collect());
}
