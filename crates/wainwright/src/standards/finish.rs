//! How much sun an outside face takes up, and how well it gives off heat to the sky.

use std::sync::LazyLock;

use super::table::rows;
use crate::document::Options;

/// Look of an outside face.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Finish {
    /// White, as it is in service: dirt takes up 0.05 to 0.15 more than when new, `common practice`.
    White,
    /// White, new and clean.
    WhiteNew,
    /// Silver paint.
    Silver,
    /// Aluminum without paint. It takes up no more sun than white, but hardly gives off heat, and so runs hotter.
    BareAluminum,
    /// Tan, beige.
    Tan,
    /// Mid gray.
    Gray,
    /// Red, green or blue.
    DarkColor,
    /// Black, charcoal.
    Black,
}

impl Options for Finish {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("white", Self::White),
        ("white_new", Self::WhiteNew),
        ("silver", Self::Silver),
        ("bare_aluminum", Self::BareAluminum),
        ("tan", Self::Tan),
        ("gray", Self::Gray),
        ("dark_color", Self::DarkColor),
        ("black", Self::Black),
    ];
}

/// What a face takes up and gives off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Radiant {
    /// Share of the sun's heat it takes up, 0 to 1.
    pub absorptance: f64,
    /// Heat it gives off, by that of a black face as warm, 0 to 1.
    pub emittance: f64,
}

/// The finishes in the order of [`Finish`].
static RADIANT: LazyLock<Vec<Radiant>> = LazyLock::new(|| {
    rows(include_str!("../../data/finishes.csv"))
        .map(|row| Radiant {
            absorptance: row.number("absorptance").unwrap_or(f64::NAN),
            emittance: row.number("emittance").unwrap_or(f64::NAN),
        })
        .collect()
});

/// What a face takes up and gives off, by its look.
///
/// - `finish`  the look of the face
///
/// Source: published reflectances of roofs for white, silver and black; colors between them are `common practice`, bare
/// aluminum is `from memory`.
pub fn radiant(finish: Finish) -> Radiant {
    // Every finish has its row: a test holds it.
    RADIANT[finish as usize]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_finish_has_its_row() {
        let names = rows(include_str!("../../data/finishes.csv")).map(|row| row.text("name"));
        assert!(names.eq(Finish::WORDS.iter().map(|(word, _)| *word)));
        for (place, (word, finish)) in Finish::WORDS.iter().enumerate() {
            assert_eq!(*finish as usize, place);
            let Radiant { absorptance, emittance } = radiant(*finish);
            assert!((0.0..=1.0).contains(&absorptance) && (0.0..=1.0).contains(&emittance), "{word}");
        }
    }

    /// Solar reflectances of a published table of roofs: bright white coating 0.80, white membrane from 0.70, white metal
    /// 0.60 to 0.70, aluminum coating 0.55, dark to 0.19, black 0.05.
    #[test]
    fn finishes_lie_within_the_published_reflectances() {
        let reflectance = |finish| 1.0 - radiant(finish).absorptance;
        assert!((0.70..=0.80).contains(&reflectance(Finish::WhiteNew)));
        assert!((0.60..=0.70).contains(&reflectance(Finish::White)));
        assert!((reflectance(Finish::Silver) - 0.55).abs() < 1e-12);
        assert!((0.05..=0.19).contains(&reflectance(Finish::Black)));
    }
}
