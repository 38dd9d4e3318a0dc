//! Invented builds that show what the service does: examples of the contract, and its own trial at start.

/// A demonstration build.
pub struct Demo {
    /// Its name.
    pub name: &'static str,
    /// What it shows.
    pub summary: &'static str,
    /// Its JSON.
    pub json: &'static str,
}

/// All demonstration builds. The first is the example of every answer.
pub const ALL: &[Demo] = &[
    Demo {
        name: "heron",
        summary: "Two equalized axles, one quad bike (invented)",
        json: include_str!("../../../tests/builds/heron.json"),
    },
    Demo {
        name: "pika",
        summary: "One axle, one dirt bike (invented)",
        json: include_str!("../../../tests/builds/pika.json"),
    },
    Demo {
        name: "bison",
        summary: "Two axles on springs of their own, two side-by-sides (invented)",
        json: include_str!("../../../tests/builds/bison.json"),
    },
];
