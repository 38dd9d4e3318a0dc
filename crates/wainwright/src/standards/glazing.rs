//! Usual windows, and what covers them.

use std::sync::LazyLock;

use super::table::rows;
use crate::document::Options;

/// A kind of window.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Glazing {
    /// One pane of clear glass.
    SingleGlass,
    /// One pane of tinted glass.
    TintedGlass,
    /// Two panes of clear glass.
    DoubleGlass,
    /// One clear sheet of acrylic.
    SingleAcrylic,
    /// Two clear sheets of acrylic, as in a camper's hinged window.
    DoubleAcrylic,
    /// One white sheet of acrylic, as in the lid of a vent.
    WhiteAcrylic,
}

impl Options for Glazing {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("single_glass", Self::SingleGlass),
        ("tinted_glass", Self::TintedGlass),
        ("double_glass", Self::DoubleGlass),
        ("single_acrylic", Self::SingleAcrylic),
        ("double_acrylic", Self::DoubleAcrylic),
        ("white_acrylic", Self::WhiteAcrylic),
    ];
}

/// What a window lets through.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Window {
    /// Panes one behind another: 1 or 2.
    pub panes: u8,
    /// Transmittance U of the whole unit [W/(m²·K)]. An aluminum frame without a thermal break adds 0.5 to 1,
    /// `common practice`.
    pub u_w_m2_k: f64,
    /// Share of the sun's heat that comes in when it is struck squarely (SHGC), 0 to 1.
    pub shgc: f64,
}

/// The windows in the order of [`Glazing`].
static WINDOWS: LazyLock<Vec<Window>> = LazyLock::new(|| {
    rows(include_str!("../../data/glazings.csv"))
        .map(|row| Window {
            panes: if row.number("panes") == Some(2.0) { 2 } else { 1 },
            u_w_m2_k: row.number("u_w_m2_k").unwrap_or(f64::NAN),
            shgc: row.number("shgc").unwrap_or(f64::NAN),
        })
        .collect()
});

/// What a window of a kind lets through, where its maker states nothing.
///
/// - `glazing`  the kind
///
/// Source: ASHRAE Handbook Fundamentals 2005, chapter 31, for glass; ASHRAE Standard 140 for double glass; acrylic is
/// `common practice`.
pub fn window(glazing: Glazing) -> Window {
    // Every kind has its row: a test holds it.
    WINDOWS[glazing as usize]
}

/// What covers a window.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cover {
    /// Nothing.
    None,
    /// Light, opaque curtain or blind inside.
    Curtain,
    /// Foil-faced panel pressed into the opening inside.
    FoilPanel,
    /// Reflective film on the pane.
    ReflectiveFilm,
    /// Shade outside: awning, cover over the pane.
    OutsideShade,
}

impl Options for Cover {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("none", Self::None),
        ("curtain", Self::Curtain),
        ("foil_panel", Self::FoilPanel),
        ("reflective_film", Self::ReflectiveFilm),
        ("outside_shade", Self::OutsideShade),
    ];
}

/// Share of the sun's heat that still comes in through a covered window, by that of the window bare (IAC).
///
/// - `cover`  what covers it
///
/// Returns the share, 0 to 1: the middle of what is usual.
///
/// Source: `common practice`: curtain 0.6 to 0.7, foil panel 0.3 to 0.4, film on clear glass SHGC 0.25 to 0.45, outside
/// shade 0.15 to 0.25.
pub fn share_past(cover: Cover) -> f64 {
    match cover {
        Cover::None => 1.0,
        Cover::Curtain => 0.65,
        Cover::FoilPanel => 0.35,
        Cover::ReflectiveFilm => 0.4,
        Cover::OutsideShade => 0.2,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::standards::still_air::{HeatFlow, OUTSIDE_M2_K_W, inside_m2_k_w};

    #[test]
    fn every_kind_has_its_row() {
        let names = rows(include_str!("../../data/glazings.csv")).map(|row| row.text("name"));
        assert!(names.eq(Glazing::WORDS.iter().map(|(word, _)| *word)));
        for (place, (word, glazing)) in Glazing::WORDS.iter().enumerate() {
            assert_eq!(*glazing as usize, place);
            let Window { panes, u_w_m2_k, shgc } = window(*glazing);
            assert_eq!(panes, if word.contains("double") { 2 } else { 1 }, "{word}");
            assert!(u_w_m2_k > 0.0 && 0.0 < shgc && shgc < 1.0, "{word}");
        }
    }

    #[test]
    fn a_single_pane_is_little_but_its_surfaces() {
        let surfaces_m2_k_w = inside_m2_k_w(HeatFlow::Horizontal) + OUTSIDE_M2_K_W;
        assert_eq!(format!("{:.1}", 1.0 / (surfaces_m2_k_w + 0.003)), "5.8");
        assert_eq!(window(Glazing::SingleGlass).u_w_m2_k, 5.8);
    }

    #[test]
    fn a_cover_never_lets_in_more() {
        assert!(Cover::WORDS.iter().all(|(_, cover)| (0.0..=1.0).contains(&share_past(*cover))));
        assert!(share_past(Cover::OutsideShade) < share_past(Cover::FoilPanel));
    }
}
