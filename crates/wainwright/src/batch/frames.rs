//! Rows that differ in the masses and places of parts and cargo alone are one frame: circuits, energy and heat are worked
//! out once for all of them.

use indexmap::IndexSet;
use serde_json::Value;

use super::column::{Column, Target, row_error};
use super::report::RowError;
use crate::options::request::Packages;

/// No frame: the row cannot be worked out.
const NONE: u32 = u32::MAX;

/// The frames of a table.
#[derive(Debug)]
pub struct Frames {
    /// The frame of each row; none where all are of one.
    of_row: Option<Vec<u32>>,
    /// The rows in the order of their frames; none where that is their own.
    order: Option<Vec<u32>>,
    /// Where each frame begins in that order, and where the last ends.
    starts: Vec<u32>,
    /// Is every row visited, or the first of each frame?
    each_row: bool,
    bad: Vec<RowError>,
}

impl Frames {
    /// The frames of a table, without the rows of which a cell cannot be used.
    ///
    /// - `each_row`  do rows of a frame differ in anything that is wanted?
    /// - `base`      the build that the columns vary
    pub fn of(
        columns: &[Column],
        rows: usize,
        base: &Value,
        packages: Option<&Packages>,
        each_row: bool,
    ) -> Self {
        let mut bad = Vec::new();
        // Most columns are in order from end to end, which is seen at once.
        let doubtful: Vec<&Column> = columns.iter().filter(|column| !column.is_in_order()).collect();
        for row in (0..rows).filter(|_| !doubtful.is_empty()) {
            if let Some(first) = doubtful.iter().position(|column| column.fault(row, packages).is_some()) {
                let wrong = doubtful[first..].iter().filter_map(|column| column.fault(row, packages));
                bad.extend(row_error(row, wrong.collect(), base));
            }
        }
        let keyed: Vec<&Column> = columns
            .iter()
            .filter(|column| !matches!(column.target, Target::Field { is_mass: true, .. }))
            .collect();
        if keyed.is_empty() && bad.is_empty() {
            let starts = if rows == 0 { vec![0] } else { vec![0, rows as u32] };
            return Self { of_row: None, order: None, starts, each_row, bad };
        }
        let mut of_row = vec![0; rows];
        bad.iter().for_each(|error| of_row[error.row as usize] = NONE);
        let mut known: IndexSet<Box<[u64]>, foldhash::fast::RandomState> = IndexSet::default();
        let mut counts: Vec<u32> = Vec::new();
        let mut key = vec![0; keyed.len()];
        for (row, frame) in of_row.iter_mut().enumerate().filter(|(_, frame)| **frame != NONE) {
            key.iter_mut().zip(&keyed).for_each(|(bits, column)| *bits = column.bits(row));
            let place = known.get_index_of(&key[..]).unwrap_or_else(|| {
                counts.push(0);
                known.insert_full(key.clone().into_boxed_slice()).0
            });
            *frame = place as u32;
            counts[*frame as usize] += 1;
        }
        let mut starts = Vec::with_capacity(counts.len() + 1);
        starts.push(0);
        let mut start = 0;
        for count in &counts {
            start += count;
            starts.push(start);
        }
        let mut next = starts.clone();
        let mut order = vec![0; start as usize];
        for (row, frame) in of_row.iter().enumerate().filter(|(_, frame)| **frame != NONE) {
            order[next[*frame as usize] as usize] = row as u32;
            next[*frame as usize] += 1;
        }
        Self { of_row: Some(of_row), order: Some(order), starts, each_row, bad }
    }

    /// How many frames there are.
    pub fn count(&self) -> usize {
        self.starts.len() - 1
    }

    /// How many visits it takes: one for each row that can be worked out, or one for each frame.
    pub fn visits(&self) -> usize {
        if !self.each_row {
            return self.count();
        }
        self.starts.last().map_or(0, |end| *end as usize)
    }

    /// The frame of a visit, and the visit after its last.
    pub fn frame_at(&self, visit: usize) -> (u32, usize) {
        if !self.each_row {
            return (visit as u32, visit + 1);
        }
        let frame = self.starts.partition_point(|start| *start as usize <= visit) - 1;
        (frame as u32, self.starts[frame + 1] as usize)
    }

    /// How many rows a frame has.
    pub fn len_of(&self, frame: u32) -> usize {
        (self.starts[frame as usize + 1] - self.starts[frame as usize]) as usize
    }

    /// Is a visit the first of its frame?
    pub fn is_first(&self, visit: usize) -> bool {
        !self.each_row || self.starts.binary_search(&(visit as u32)).is_ok()
    }

    /// The row of a visit.
    pub fn row(&self, visit: usize) -> usize {
        let place = if self.each_row { visit } else { self.starts[visit] as usize };
        self.order.as_ref().map_or(place, |order| order[place] as usize)
    }

    /// A figure of each visit, where rows are visited, as one of each row.
    pub fn by_row(&self, figures: Vec<f64>, rows: usize) -> Vec<f64> {
        let Some(order) = &self.order else { return figures };
        let mut by_row = vec![f64::NAN; rows];
        order.iter().zip(figures).for_each(|(row, figure)| by_row[*row as usize] = figure);
        by_row
    }

    /// The rows of a frame.
    pub fn rows_of(&self, frame: u32) -> impl Iterator<Item = u32> + '_ {
        let places = self.starts[frame as usize]..self.starts[frame as usize + 1];
        places.map(|place| self.order.as_ref().map_or(place, |order| order[place as usize]))
    }

    /// The rows of which a cell cannot be used.
    pub fn bad(&self) -> &[RowError] {
        &self.bad
    }

    /// A figure of each frame as one of each row.
    pub fn spread(&self, figures: &[f64], rows: usize) -> Vec<f64> {
        match &self.of_row {
            None => vec![figures.first().copied().unwrap_or(f64::NAN); rows],
            Some(of_row) => {
                of_row.iter().map(|frame| figures.get(*frame as usize).copied().unwrap_or(f64::NAN)).collect()
            }
        }
    }
}
