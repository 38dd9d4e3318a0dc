//! A document with a field of every kind, for the tests.

use serde_json::json;

use super::{
    Among, Bound, Choice, Faults, Flag, Keyed, List, Map, Options, Refusal, Section, Text, Unread, Whole,
    read, record,
};

/// Two colors.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Color {
    /// Red.
    Red,
    /// Green.
    Green,
}

impl Options for Color {
    const WORDS: &'static [(&'static str, Self)] = &[("red", Self::Red), ("green", Self::Green)];
}

/// Bound of the fixture's lengths.
pub const LENGTH_IN: Bound = Bound::new(-4.5, 1_200.0);
/// Bound of the fixture's count.
pub const COUNT: Whole = Whole { minimum: 1, maximum: 4 };

record! {
    /// Everything.
    pub struct Chest: "a chest" {
        /// Its length.
        required length_in: f64 = LENGTH_IN, 1.0;
        /// Its depth.
        optional depth_in: f64 = LENGTH_IN, 1.0;
        /// A count.
        optional count: u32 = COUNT, 2;
        /// Yes or no.
        optional locked: bool = Flag, true;
        /// A word of a list.
        optional color: Color = Choice::of(), "red";
        /// A number of a list.
        optional rating_c: f64 = Among(&[60.0, 75.0, 90.0]), 75.0;
        /// A name.
        optional name: String = Text { longest: 5 }, "A";
        /// Names.
        optional labels: Vec<String> = List { of: Text { longest: 5 }, most: 3 }, json!(["a"]);
        /// Drawers by id.
        optional drawers: Keyed<Drawer> = Map { of: Section::of(), most: 3, example_id: "top" };
        /// The top.
        optional lid: Drawer = Section::of();
        /// Another question's.
        optional other: () = Unread, json!({});
    }
}

record! {
    /// A drawer.
    pub struct Drawer: "a drawer" {
        /// Its width.
        required width_in: f64 = LENGTH_IN, 1.0;
        /// Its color.
        optional color: Color = Choice::of(), "red";
    }
}

/// Reads a chest.
pub fn chest(json: &str) -> Result<(Chest, Faults), Refusal> {
    read(json.as_bytes())
}

/// The faults of a chest, a line each, as a person reads them.
#[track_caller]
pub fn faults(json: &str) -> Vec<String> {
    let (_, faults) = chest(json).unwrap();
    let text = Refusal::Faults(faults.clone()).to_string();
    if faults.is_empty() { Vec::new() } else { text.lines().map(str::to_owned).collect() }
}

/// Code and sentence of the single fault of a chest.
#[track_caller]
pub fn fault(json: &str) -> super::Fault {
    let (_, faults) = chest(json).unwrap();
    assert_eq!(faults.count(), 1, "{:?}", faults.list());
    faults.list()[0].clone()
}
