//! The rows of a file: where their figures stand, and what they hold.

use std::iter::Peekable;

use super::column::{Figure, Written};
use super::fault::{At, FileFaults};
use super::lines::{Lines, bare};
use super::stamps::{MonthDay, Stamp, Stamps};
use crate::document::echo;

/// A column that is read: its place in the row, from 0 on, and its name.
#[derive(Debug, Clone, Copy)]
pub(super) struct Named<'a> {
    pub(super) place: usize,
    pub(super) name: &'a str,
}

impl<'a> Named<'a> {
    /// This column of a line.
    pub(super) fn at(self, line: usize) -> At<'a> {
        At::column(line, self.place + 1, self.name)
    }
}

/// The columns of the stamp, `N` of them, and how they are read.
pub(super) trait Stamping<const N: usize> {
    /// Reads the end of a record. None, with its faults noted, where it cannot be read.
    fn read(
        &self,
        fields: &[&str; N],
        at: impl Fn(usize) -> At<'static>,
        faults: &mut FileFaults,
    ) -> Option<Stamp>;

    /// The first of the columns in which two stamps differ.
    fn differing(&self, a: Stamp, b: Stamp) -> usize;
}

/// Where in a row the columns stand that are read.
#[derive(Debug)]
pub(super) struct Layout<const N: usize> {
    /// The columns of the stamp.
    pub(super) stamp: [Named<'static>; N],
    /// The figures: how each is written and where it stands.
    pub(super) figures: Vec<(Written, Named<'static>)>,
    /// How many columns a row has; None for as many as the first row.
    pub(super) width: Option<usize>,
}

/// What the rows of a file hold.
#[derive(Debug)]
pub(super) struct Rows {
    /// Line of the first of them.
    pub(super) first_line: usize,
    /// How many there are.
    pub(super) count: usize,
    /// Their figures, by [`Column`](super::column::Column).
    pub(super) series: [Option<Series>; 6],
    /// Their stamps.
    pub(super) stamps: Stamps,
}

/// One column of figures.
#[derive(Debug, Clone)]
pub(super) struct Series {
    /// Where it stands.
    pub(super) named: Named<'static>,
    /// A figure a row, in the unit of the column; NaN where it is missing.
    pub(super) figures: Vec<f64>,
    /// How many irradiances were a little below 0.
    pub(super) below_zero: usize,
}

impl<const N: usize> Layout<N> {
    /// For each column of a row its place in the list of stamp and figures.
    fn slots(&self) -> Vec<Option<usize>> {
        let mut slots = Vec::new();
        let columns = self.stamp.iter().chain(self.figures.iter().map(|(_, named)| named));
        for (slot, named) in columns.enumerate() {
            slots.resize(slots.len().max(named.place + 1), None);
            slots[named.place] = Some(slot);
        }
        slots
    }

    /// Reads the rows from here to the end of the file, which is to be the end of a day.
    ///
    /// A row of another width, or a figure that is none, stands for a blank, so that one slip is one fault.
    pub(super) fn rows(
        &self,
        lines: Lines,
        end: MonthDay,
        mut stamps: Stamps,
        stamping: &impl Stamping<N>,
        faults: &mut FileFaults,
    ) -> Rows {
        let slots = self.slots();
        let mut width = self.width;
        let mut stamp = [""; N];
        let mut fields = vec![""; self.figures.len()];
        let mut series: Vec<Series> = self.figures.iter().map(|(_, named)| Series::of(*named)).collect();
        let first_line = lines.number() + 1;
        let (mut count, mut last_line) = (0, lines.number());
        let mut lines = lines.peekable();
        while let Some((line, row)) = lines.next() {
            if stamps.has_reached(end) {
                faults.add(At::line(line), || {
                    format!("must not be there: the row before ends {end} 24:00, the end of the data")
                });
                break;
            }
            (count, last_line) = (count + 1, line);
            let columns = split(row, &slots, &mut stamp, &mut fields);
            let expected = *width.get_or_insert(columns.max(slots.len()));
            if columns != expected {
                self.note_width(line, columns, expected, &mut lines, faults);
                stamps.pass();
                series.iter_mut().for_each(|series| series.figures.push(0.0));
                continue;
            }
            match stamping.read(&stamp, |part| self.stamp[part].at(line), faults) {
                None => stamps.pass(),
                Some(given) => {
                    let differing = stamping.differing(stamps.expected(), given);
                    if let Err(detail) = stamps.take(given) {
                        faults.add(self.stamp[differing].at(line), || detail);
                    }
                }
            }
            for ((field, (written, named)), series) in fields.iter().zip(&self.figures).zip(&mut series) {
                let figure = written.read(field).unwrap_or_else(|| {
                    faults.add(named.at(line), || format!("{}; got {}", written.allowed(), echo(field)));
                    Figure::Known(0.0)
                });
                series.push(figure);
            }
        }
        if count == 0 {
            faults.add(At::line(last_line), || "rows of data must follow".into());
        } else if !stamps.has_reached(end) {
            let last = stamps.last();
            faults.add(At::line(last_line), || {
                format!(
                    "is the last row, and ends {last}; rows must go on to {end} 24:00, the end of the data"
                )
            });
        }
        let mut by_column: [Option<Series>; 6] = Default::default();
        for ((written, _), series) in self.figures.iter().zip(series) {
            by_column[written.column as usize] = Some(series);
        }
        Rows { first_line, count, series: by_column, stamps }
    }

    fn note_width(
        &self,
        line: usize,
        columns: usize,
        expected: usize,
        rest: &mut Peekable<Lines>,
        faults: &mut FileFaults,
    ) {
        // Where columns are missing, the first of them; otherwise the first one too many.
        let place = columns.min(expected);
        let of_figures = self.figures.iter().map(|(_, named)| named);
        let name = self.stamp.iter().chain(of_figures).find(|named| named.place == place);
        let at = Named { place, name: name.map_or("", |named| named.name) }.at(line);
        let ending =
            if rest.peek().is_none() && columns < expected { "; the file ends within it" } else { "" };
        faults.add(at, || format!("the row has {columns} columns; {expected} are right{ending}"));
    }
}

impl Series {
    fn of(named: Named<'static>) -> Self {
        Self { named, figures: Vec::new(), below_zero: 0 }
    }

    fn push(&mut self, figure: Figure) {
        self.below_zero += usize::from(figure == Figure::BelowZero);
        self.figures.push(match figure {
            Figure::Known(value) => value,
            Figure::BelowZero => 0.0,
            Figure::Missing => f64::NAN,
        });
    }
}

/// Puts the fields of a row where their slots say. Returns how many columns it has.
fn split<'r>(row: &'r str, slots: &[Option<usize>], stamp: &mut [&'r str], fields: &mut [&'r str]) -> usize {
    let (mut column, mut start) = (0, 0);
    let mut put = |column: usize, field: &'r str| {
        if let Some(Some(slot)) = slots.get(column) {
            let wanted = match slot.checked_sub(stamp.len()) {
                None => stamp.get_mut(*slot),
                Some(slot) => fields.get_mut(slot),
            };
            if let Some(wanted) = wanted {
                *wanted = bare(field);
            }
        }
    };
    for (i, byte) in row.bytes().enumerate() {
        if byte == b',' {
            put(column, &row[start..i]);
            (column, start) = (column + 1, i + 1);
        }
    }
    put(column, &row[start..]);
    column + 1
}
