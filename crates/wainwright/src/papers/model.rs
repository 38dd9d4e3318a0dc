//! What the papers say, before it is written in one form or the other.

use super::drawing::Drawing;

/// The papers of one build.
#[derive(Debug)]
pub struct Paper {
    /// What the build is called.
    pub name: String,
    /// What stands under the name.
    pub subtitle: String,
    /// What stands at the end of every page, where the form has pages.
    pub foot: &'static str,
    /// The sections, each from a page of its own on.
    pub sections: Vec<Section>,
}

/// One section.
#[derive(Debug)]
pub struct Section {
    /// Its heading; empty for the first, which stands under the title.
    pub heading: &'static str,
    /// What is in it.
    pub blocks: Vec<Block>,
}

/// A piece of a section.
#[derive(Debug)]
pub enum Block {
    /// A heading within the section.
    Heading(String),
    /// A paragraph.
    Text(String),
    /// What is to be read before anything else: a few words, and a sentence.
    Verdict(String, String),
    /// A list of sentences.
    List(Vec<String>),
    /// A table.
    Table(Table),
    /// A drawing.
    Figure(Figure),
    /// What rules say, each with what would put it right.
    Notes(Vec<Note>),
    /// Pieces that stay on one page.
    Together(Vec<Block>),
    /// Lines to be written on by hand, each with what belongs there.
    Lines(Vec<&'static str>),
}

/// A drawing with the words under it.
#[derive(Debug)]
pub struct Figure {
    /// The drawing.
    pub drawing: Drawing,
    /// What it shows, and what its marks mean.
    pub caption: String,
    /// The same as a table, for a form without drawings; none where a table follows anyway.
    pub data: Option<Table>,
}

/// What a rule says.
#[derive(Debug)]
pub struct Note {
    /// How grave it is, in a word.
    pub severity: &'static str,
    /// What is found.
    pub message: String,
    /// What would put it right.
    pub remedy: String,
    /// Where the rule is from, and what it looked at; empty where that is told elsewhere.
    pub source: String,
}

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Column {
    /// Words, to the left.
    Words,
    /// A place in the build, to the left.
    Place,
    /// Figures, to the right.
    Figures,
    /// Nothing: it is filled in by hand.
    Blank,
}

/// A table.
#[derive(Debug)]
pub struct Table {
    /// Each column's head and kind.
    pub columns: Vec<(String, Column)>,
    /// The rows, a cell for each column.
    pub rows: Vec<Vec<String>>,
}

impl Table {
    /// A table without rows.
    pub fn new(columns: &[(&str, Column)]) -> Self {
        Self {
            columns: columns.iter().map(|(head, kind)| ((*head).to_owned(), *kind)).collect(),
            rows: Vec::new(),
        }
    }

    /// Adds a column at the right.
    pub fn column(&mut self, head: String, kind: Column) {
        self.columns.push((head, kind));
    }

    /// Adds a row.
    pub fn row(&mut self, cells: Vec<String>) {
        debug_assert_eq!(cells.len(), self.columns.len());
        self.rows.push(cells);
    }
}

impl Section {
    /// A section without anything in it.
    pub fn new(heading: &'static str) -> Self {
        Self { heading, blocks: Vec::new() }
    }

    /// Adds a heading.
    pub fn heading(&mut self, text: impl Into<String>) {
        self.blocks.push(Block::Heading(text.into()));
    }

    /// Adds a paragraph.
    pub fn text(&mut self, text: impl Into<String>) {
        self.blocks.push(Block::Text(text.into()));
    }

    /// Adds a list, unless it has nothing in it.
    pub fn list(&mut self, items: Vec<String>) {
        if !items.is_empty() {
            self.blocks.push(Block::List(items));
        }
    }

    /// Adds a table, unless it has no rows.
    pub fn table(&mut self, table: Table) {
        if !table.rows.is_empty() {
            self.blocks.push(Block::Table(table));
        }
    }

    /// Adds a drawing. A heading right before it stays with it.
    pub fn figure(&mut self, drawing: Drawing, caption: impl Into<String>, data: Option<Table>) {
        self.blocks.push(Block::Figure(Figure { drawing, caption: caption.into(), data }));
    }
}
