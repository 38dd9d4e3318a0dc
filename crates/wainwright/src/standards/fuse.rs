//! Families of overcurrent devices: usual ratings, voltages, interrupting ratings, and when a blade fuse opens.
//!
//! Usual figures stand in for the maker's, who always has the last word.

use std::sync::LazyLock;

use super::overcurrent::{RATINGS_A, SMALL_RATINGS_A, first_not_below};
use super::table::{Bands, rows};
use crate::document::Options;
use crate::report::exceeds;

/// A family of overcurrent devices.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Family {
    /// Molded-case breaker of an AC branch circuit.
    Breaker,
    /// Regular blade fuse.
    Blade,
    /// High-current blade fuse.
    BladeHighCurrent,
    /// Small bolt-down fuse, 30 mm between bolts.
    BoltDownSmall,
    /// Large bolt-down fuse, 51 mm between bolts.
    BoltDownLarge,
    /// Fuse that stands on a battery's terminal post.
    TerminalPost,
    /// ANL bolt-down limiter.
    Anl,
    /// Class T fuse.
    ClassT,
    /// Class J fuse.
    ClassJ,
    /// Surface-mounted thermal breaker.
    ThermalBreaker,
}

impl Options for Family {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("breaker", Self::Breaker),
        ("blade", Self::Blade),
        ("blade_high_current", Self::BladeHighCurrent),
        ("bolt_down_small", Self::BoltDownSmall),
        ("bolt_down_large", Self::BoltDownLarge),
        ("terminal_post", Self::TerminalPost),
        ("anl", Self::Anl),
        ("class_t", Self::ClassT),
        ("class_j", Self::ClassJ),
        ("thermal_breaker", Self::ThermalBreaker),
    ];
}

/// What a family is usually made for.
#[derive(Clone, Default)]
struct Usual {
    /// Least and greatest rating [A].
    range_a: (f64, f64),
    /// Voltage rating, direct current [V].
    dc_v: Option<f64>,
    /// Voltage, rising [V], and interrupting rating at it [A]: direct current.
    interrupting_dc: Vec<(f64, f64)>,
}

/// The families in the order of [`Family`].
static USUAL: LazyLock<[Usual; 10]> = LazyLock::new(|| {
    let csv = include_str!("../../data/fuse_families.csv");
    [
        "molded_breaker_ac_branch",
        "blade_regular",
        "blade_high_current",
        "bolt_down_small_sf30",
        "bolt_down_large_sf51",
        "terminal_post",
        "bolt_down_anl",
        "class_t",
        "class_j",
        "thermal_breaker_surface",
    ]
    .map(|family| {
        let mut usual = Usual::default();
        for row in rows(csv).filter(|row| row.text("family") == family) {
            usual.dc_v = row.number("dc_v");
            if let Some((least, greatest)) = row.text("ratings_a").split_once('-') {
                usual.range_a = (least.parse().unwrap_or(0.0), greatest.parse().unwrap_or(0.0));
            }
            // A figure for alternating current says nothing of direct current.
            usual.interrupting_dc.extend(row.number("at_v").zip(row.number("interrupt_a")));
        }
        usual
    })
});

/// Rating at the least listed voltage that is not below the circuit's.
fn interrupting_a(listed: &[(f64, f64)], at_v: f64) -> Option<f64> {
    listed.iter().find(|(listed_v, _)| !exceeds(at_v, *listed_v)).map(|(_, a)| *a)
}

impl Family {
    fn usual(self) -> &'static Usual {
        &USUAL[self as usize]
    }

    /// Usual voltage rating for direct current [V]: the greatest charging voltage must not be above it. None where it
    /// is for the maker to say.
    ///
    /// Source: ISO 8820 for blade and bolt-down fuses; high-current blade fuses and the others `from memory`, thermal
    /// breakers `common practice`.
    pub fn dc_v(self) -> Option<f64> {
        self.usual().dc_v
    }

    /// Usual interrupting rating on direct current.
    ///
    /// - `at_v`  greatest voltage of the circuit [V]
    ///
    /// Returns the rating [A] at the least listed voltage that is not below `at_v`, or none where no figure is known
    /// for so high a voltage.
    ///
    /// Source: as [`Self::dc_v`].
    pub fn interrupting_a(self, at_v: f64) -> Option<f64> {
        interrupting_a(&self.usual().interrupting_dc, at_v)
    }

    /// Least and greatest rating it is usually made in [A].
    ///
    /// Source: as [`Self::dc_v`].
    pub fn rating_range_a(self) -> (f64, f64) {
        self.usual().range_a
    }

    /// The ratings of its series, rising [A]: those within [`Self::rating_range_a`] are made.
    fn series_a(self) -> (&'static [f64], &'static [f64]) {
        match self {
            Self::Breaker | Self::ClassT | Self::ClassJ => (&SMALL_RATINGS_A, &RATINGS_A),
            Self::Blade => (&BLADE_A, &[]),
            Self::BladeHighCurrent => (&BLADE_HIGH_CURRENT_A, &[]),
            Self::BoltDownSmall => (&BOLT_DOWN_SMALL_A, &[]),
            Self::BoltDownLarge | Self::Anl | Self::TerminalPost => (&BOLT_DOWN_LARGE_A, &[]),
            Self::ThermalBreaker => (&THERMAL_BREAKER_A, &[]),
        }
    }
}

/// Ratings of regular blade fuses [A], `common practice`.
pub const BLADE_A: [f64; 13] = [1.0, 2.0, 3.0, 4.0, 5.0, 7.5, 10.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0];
/// Ratings of high-current blade fuses [A], `common practice`.
pub const BLADE_HIGH_CURRENT_A: [f64; 7] = [20.0, 30.0, 40.0, 50.0, 60.0, 70.0, 80.0];
/// Ratings of small bolt-down fuses [A], `common practice`.
pub const BOLT_DOWN_SMALL_A: [f64; 11] =
    [30.0, 40.0, 50.0, 60.0, 70.0, 80.0, 100.0, 125.0, 150.0, 175.0, 200.0];
/// Ratings of large bolt-down fuses [A], `common practice`. Terminal-post fuses and ANL limiters come in them too,
/// each in its range.
pub const BOLT_DOWN_LARGE_A: [f64; 17] = [
    30.0, 40.0, 50.0, 60.0, 80.0, 100.0, 125.0, 150.0, 175.0, 200.0, 225.0, 250.0, 300.0, 350.0, 400.0,
    450.0, 500.0,
];
/// Ratings of surface-mounted thermal breakers [A], `common practice`.
pub const THERMAL_BREAKER_A: [f64; 11] =
    [25.0, 30.0, 40.0, 50.0, 60.0, 70.0, 80.0, 100.0, 120.0, 150.0, 200.0];

/// Smallest rating of a family that is enough.
///
/// - `family`      family of devices
/// - `at_least_a`  current it must be rated for [A]
///
/// Returns the rating [A], or none where the family is not made so large.
///
/// Source: series of each family, `common practice`; breakers, class T and class J: NEC 240.6(A), `from memory`.
pub fn next_rating_a(family: Family, at_least_a: f64) -> Option<f64> {
    let (least_a, greatest_a) = family.rating_range_a();
    let (small, large) = family.series_a();
    first_not_below(small.iter().chain(large), at_least_a.max(least_a))
        .filter(|rating_a| *rating_a <= greatest_a)
}

/// Multiple of its rating that a blade fuse carries for 100 hours at least.
///
/// Source: ISO 8820-3, `from memory`.
pub const BLADE_HOLDS_MULTIPLE: f64 = 1.10;

/// Multiple of the rating and shortest time to open [s].
const BLADE_LEAST_S: [(f64, f64); 4] =
    [(BLADE_HOLDS_MULTIPLE, 360_000.0), (1.35, 0.75), (2.0, 0.15), (3.5, 0.08)];
/// Multiple of the rating and longest time to open [s].
const BLADE_MOST_S: [(f64, f64); 4] = [(1.35, 600.0), (2.0, 5.0), (3.5, 0.5), (6.0, 0.1)];

/// When a blade fuse opens.
///
/// `ln t` runs straight over `ln m` between the published points: 110 %, 135 %, 200 %, 350 %, 600 % of the rating
///
/// - `multiple`  current as a multiple of the rating m
///
/// Returns the shortest and the longest time [s]. The longest is infinite below 135 %, where nothing is promised; the
/// shortest is 0 above 350 %. None up to [`BLADE_HOLDS_MULTIPLE`]: it holds.
///
/// Source: operating times of ISO 8820-3 and SAE J1284, `from memory`.
pub fn blade_opening_s(multiple: f64) -> Option<(f64, f64)> {
    let (longest_at, longest_s) = BLADE_MOST_S[BLADE_MOST_S.len() - 1];
    (multiple > BLADE_HOLDS_MULTIPLE).then(|| {
        let least = between(&BLADE_LEAST_S, multiple).unwrap_or(0.0);
        let most = if multiple > longest_at { Some(longest_s) } else { between(&BLADE_MOST_S, multiple) };
        (least, most.unwrap_or(f64::INFINITY))
    })
}

/// Time at a multiple, straight between points on logarithmic scales; none outside them.
fn between(points: &[(f64, f64)], multiple: f64) -> Option<f64> {
    points.windows(2).find_map(|pair| {
        let [(low, low_s), (high, high_s)] = [pair[0], pair[1]];
        let part = (multiple / low).ln() / (high / low).ln();
        (low <= multiple && multiple <= high).then(|| low_s * (high_s / low_s).powf(part))
    })
}

static MARINE_INTERRUPTING: LazyLock<Bands<2>> = LazyLock::new(|| {
    let csv = include_str!("../../data/interrupting_marine.csv");
    Bands::of(rows(csv).filter(|row| row.text("kind") == "dc_cca"), "high", ["main_a", "branch_a"])
});

/// Least interrupting ratings beside 12 and 24 V batteries. Above 2200 A cold cranking or 500 Ah the battery's own
/// short-circuit current counts, if it is greater.
///
/// - `cold_cranking_a`  total cold-cranking amperes of the connected batteries [A], 0 or more
///
/// Returns those of the main and of the branch devices [A].
///
/// Source: ABYC E-11, Table V.A, as reprinted.
pub fn marine_interrupting_a(cold_cranking_a: f64) -> (f64, f64) {
    // The last band has no end and all have both figures: a test holds it.
    let figure = |column| MARINE_INTERRUPTING.at(cold_cranking_a, column).unwrap_or(f64::INFINITY);
    (figure(0), figure(1))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn families() -> impl Iterator<Item = Family> {
        Family::WORDS.iter().map(|(_, family)| *family)
    }

    #[test]
    fn every_family_has_its_row() {
        for (place, (word, family)) in Family::WORDS.iter().enumerate() {
            assert_eq!(*family as usize, place);
            let (least_a, greatest_a) = family.rating_range_a();
            assert!(0.0 < least_a && least_a < greatest_a, "{word}");
        }
        let silent = families().filter(|family| family.interrupting_a(12.0).is_none());
        assert_eq!(silent.collect::<Vec<_>>(), [Family::Breaker, Family::ClassJ]);
        assert_eq!(Family::Breaker.dc_v(), None);
        assert_eq!(Family::ClassT.dc_v(), Some(125.0));
    }

    #[test]
    fn interrupting_rating_is_read_at_the_voltage_listed_next() {
        let at = [12.0, 14.0, 14.6, 32.0, 58.0, 58.5].map(|v| Family::TerminalPost.interrupting_a(v));
        assert_eq!(at, [Some(10_000.0), Some(10_000.0), Some(5_000.0), Some(5_000.0), Some(2_000.0), None]);
        assert!(families().all(|family| family.usual().interrupting_dc.is_sorted_by(|a, b| a.0 < b.0)));
    }

    #[test]
    fn a_breaker_of_a_branch_circuit_has_no_figure_for_direct_current() {
        assert_eq!(Family::Breaker.interrupting_a(12.0), None);
    }

    #[test]
    fn the_next_rating_is_one_the_family_is_made_in() {
        assert_eq!(next_rating_a(Family::Blade, 6.0), Some(7.5));
        assert_eq!(next_rating_a(Family::Blade, 40.1), None);
        assert_eq!(next_rating_a(Family::BladeHighCurrent, 1.0), Some(20.0));
        assert_eq!(next_rating_a(Family::BoltDownLarge, 30.0), Some(40.0));
        assert_eq!(next_rating_a(Family::TerminalPost, 301.0), None);
        assert_eq!(next_rating_a(Family::Anl, 166.0), Some(175.0));
        assert_eq!(next_rating_a(Family::Breaker, 9.0), Some(15.0));
        assert_eq!(next_rating_a(Family::ClassT, 2.0), Some(3.0));
        assert_eq!(next_rating_a(Family::ClassJ, 601.0), None);
        for family in families() {
            let (least_a, greatest_a) = family.rating_range_a();
            let first = next_rating_a(family, 0.0).unwrap();
            assert!(least_a <= first && first <= greatest_a);
            let (small, large) = family.series_a();
            assert!(small.is_sorted() && large.is_sorted());
        }
    }

    #[test]
    fn blade_fuses_open_at_the_published_times() {
        let near = |got: Option<(f64, f64)>, least: f64, most: f64| {
            let (l, m) = got.unwrap();
            assert!((l - least).abs() < 1e-9 && (m == most || (m - most).abs() < 1e-9), "{l} {m}");
        };
        assert_eq!(blade_opening_s(1.0), None);
        assert_eq!(blade_opening_s(1.1), None);
        near(blade_opening_s(1.35), 0.75, 600.0);
        near(blade_opening_s(2.0), 0.15, 5.0);
        near(blade_opening_s(3.5), 0.08, 0.5);
        near(blade_opening_s(6.0), 0.0, 0.1);
        near(blade_opening_s(60.0), 0.0, 0.1);
        assert_eq!(blade_opening_s(1.3).unwrap().1, f64::INFINITY);
    }

    #[test]
    fn a_greater_overload_never_opens_a_blade_fuse_later() {
        let times: Vec<(f64, f64)> =
            (1..800).filter_map(|step| blade_opening_s(f64::from(step) / 100.0)).collect();
        assert!(times.iter().all(|(least, most)| least < most));
        assert!(times.windows(2).all(|pair| pair[0].0 >= pair[1].0 && pair[0].1 >= pair[1].1));
    }

    #[test]
    fn more_cranking_amperes_ask_for_more_interrupting_rating() {
        let at = [0.0, 650.0, 650.5, 1100.0, 1101.0, 9000.0].map(marine_interrupting_a);
        assert_eq!(at[..2], [(1500.0, 750.0); 2]);
        assert_eq!(at[2..4], [(3000.0, 1500.0); 2]);
        assert_eq!(at[4..], [(5000.0, 2500.0); 2]);
    }
}
