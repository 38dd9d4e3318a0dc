//! Framing of walls, roofs and floors, by published rules.

use std::sync::LazyLock;

use super::table::rows;
use crate::document::Options;

/// What posts, bows and cross-members are made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Framing {
    /// Steel tube.
    Steel,
    /// Aluminum tube.
    Aluminum,
    /// Wood.
    Wood,
}

impl Options for Framing {
    const WORDS: &'static [(&'static str, Self)] =
        &[("steel", Self::Steel), ("aluminum", Self::Aluminum), ("wood", Self::Wood)];
}

/// Share of a wall's area, less openings, that wood framing takes up where nothing is known.
///
/// Source: 24 CFR 3280.509(b), for manufactured homes.
pub const WALL_SHARE: f64 = 0.15;
/// Share of a floor's or a ceiling's area that wood framing takes up where nothing is known.
///
/// Source: 24 CFR 3280.509(b), for manufactured homes.
pub const FLOOR_SHARE: f64 = 0.10;

/// Spacing of studs in a house, center to center.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StudSpacing {
    /// 16 in (406 mm).
    Inches16,
    /// 24 in (610 mm).
    Inches24,
}

/// R of the insulation, then the factor in the order of [`StudSpacing`].
static STEEL_STUDS: LazyLock<Vec<(f64, [f64; 2])>> = LazyLock::new(|| {
    rows(include_str!("../../data/steel_stud_factors_90_1.csv"))
        .map(|row| {
            let number = |column| row.number(column).unwrap_or(f64::NAN);
            (number("cavity_r"), ["at_16_in", "at_24_in"].map(number))
        })
        .collect()
});

/// Share of its resistance that insulation keeps between a house's steel studs: open channels 3.5 in deep or deeper, with
/// plasterboard on both sides. A trailer's tubes between thinner insulation keep about as much.
///
/// - `cavity_r`  R marked on the insulation [h·ft²·°F/BTU], one of the table: 11, 13, 15, 19, 21, 25
/// - `spacing`   spacing of the studs
///
/// Returns the share, or none for another R.
///
/// Source: ANSI/ASHRAE/IES 90.1, Table A9.2-2; all but 0.46 `from memory`.
pub fn steel_stud_factor(cavity_r: f64, spacing: StudSpacing) -> Option<f64> {
    STEEL_STUDS.iter().find(|(r, _)| *r == cavity_r).map(|(_, factors)| factors[spacing as usize])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn studs_closer_together_and_thicker_insulation_leave_less_of_it() {
        for spacing in [StudSpacing::Inches16, StudSpacing::Inches24] {
            let column: Vec<f64> = [11.0, 13.0, 15.0, 19.0, 21.0, 25.0]
                .map(|cavity_r| steel_stud_factor(cavity_r, spacing).unwrap())
                .to_vec();
            assert!(column.windows(2).all(|pair| 1.0 > pair[0] && pair[0] > pair[1] && pair[1] > 0.0));
        }
        for (_, [near, far]) in &*STEEL_STUDS {
            assert!(near < far);
        }
        assert_eq!(STEEL_STUDS.len(), 6);
        assert_eq!(steel_stud_factor(13.0, StudSpacing::Inches16), Some(0.46));
        assert_eq!(steel_stud_factor(12.0, StudSpacing::Inches16), None);
    }

    #[test]
    fn every_word_is_in_its_place() {
        for (place, (_, framing)) in Framing::WORDS.iter().enumerate() {
            assert_eq!(*framing as usize, place);
        }
    }
}
