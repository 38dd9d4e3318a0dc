//! What the columns of a table hold.

use std::borrow::Cow;

/// The cells of a column, one a row.
#[derive(Debug, Clone)]
pub enum Cells<'c> {
    /// Numbers.
    Numbers {
        /// The numbers; whatever, where there is none.
        values: Cow<'c, [f64]>,
        /// Where there is none; nowhere, where this is none.
        nulls: Option<Vec<bool>>,
    },
    /// Text: each cell by its place among the texts that there are, none where there is none.
    Texts {
        /// The texts that there are.
        words: Vec<String>,
        /// The place of each cell's.
        cells: Vec<Option<u32>>,
    },
    /// True or false.
    Flags(Vec<Option<bool>>),
}

impl Cells<'_> {
    /// How many there are.
    pub fn len(&self) -> usize {
        match self {
            Self::Numbers { values, .. } => values.len(),
            Self::Texts { cells, .. } => cells.len(),
            Self::Flags(cells) => cells.len(),
        }
    }

    /// Is there none?
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// What they are, for people.
    pub(super) fn noun(&self) -> &'static str {
        match self {
            Self::Numbers { .. } => "numbers",
            Self::Texts { .. } => "text",
            Self::Flags(_) => "true and false",
        }
    }

    /// Is there nothing but nulls, of which nobody knows what they would be?
    pub(super) fn is_all_null(&self) -> bool {
        match self {
            Self::Numbers { nulls, .. } => nulls.as_ref().is_some_and(|nulls| nulls.iter().all(|null| *null)),
            Self::Texts { cells, .. } => cells.iter().all(Option::is_none),
            Self::Flags(cells) => cells.iter().all(Option::is_none),
        }
    }
}
