//! Sizes of conductors: American Wire Gauge, and thousands of circular mils above 4/0.

use std::sync::LazyLock;

use super::table::{BySize, by_size};
use crate::document::Options;
use crate::units::{M_PER_IN, mm2};

/// A standard size of conductor. A greater one has the larger area.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Size(u8);

const NAMES: [&str; 20] = [
    "18", "16", "14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0", "3/0", "4/0", "250k", "300k",
    "350k", "400k", "500k",
];

impl Size {
    /// Every size, by growing area.
    pub const ALL: [Self; 20] = {
        let mut all = [Self(0); 20];
        let mut place = 0;
        while place < all.len() {
            all[place] = Self(place as u8);
            place += 1;
        }
        all
    };

    /// 18 AWG, the smallest size.
    pub const AWG_18: Self = Self(0);
    /// 16 AWG.
    pub const AWG_16: Self = Self(1);
    /// 14 AWG.
    pub const AWG_14: Self = Self(2);
    /// 12 AWG.
    pub const AWG_12: Self = Self(3);
    /// 10 AWG.
    pub const AWG_10: Self = Self(4);
    /// 8 AWG.
    pub const AWG_8: Self = Self(5);
    /// 6 AWG.
    pub const AWG_6: Self = Self(6);
    /// 4 AWG.
    pub const AWG_4: Self = Self(7);
    /// 3 AWG.
    pub const AWG_3: Self = Self(8);
    /// 2 AWG.
    pub const AWG_2: Self = Self(9);
    /// 1/0 AWG.
    pub const AWG_1_0: Self = Self(11);
    /// 2/0 AWG.
    pub const AWG_2_0: Self = Self(12);
    /// 4/0 AWG, the largest of the gauge.
    pub const AWG_4_0: Self = Self(14);

    /// Its name: a gauge number, or thousands of circular mils with a k.
    pub const fn name(self) -> &'static str {
        NAMES[self.index()]
    }

    /// The size of a name, or none where no size is called so.
    pub const fn of(name: &str) -> Option<Self> {
        let mut place = 0;
        while place < NAMES.len() {
            if same(NAMES[place].as_bytes(), name.as_bytes()) {
                return Some(Self(place as u8));
            }
            place += 1;
        }
        None
    }

    /// Its place in [`Self::ALL`].
    pub const fn index(self) -> usize {
        self.0 as usize
    }

    /// Nominal area [mm²].
    ///
    /// Source: NEC Chapter 9, Table 8.
    pub fn area_mm2(self) -> f64 {
        // Every size has a row: a test holds it.
        NOMINAL_CMIL[self.index()][0].map_or(f64::NAN, mm2)
    }

    /// Smallest area a marine cable of this size may have [mm²], 3 to 11 % below the nominal one; none for 3 AWG and
    /// for sizes above 4/0, which are not made so.
    ///
    /// Source: least areas of SAE conductors, which ABYC E-11 takes over, as in a cable maker's table.
    pub fn marine_area_mm2(self) -> Option<f64> {
        MARINE_CMIL[self.index()][0].map(mm2)
    }
}

static NOMINAL_CMIL: LazyLock<BySize<1>> =
    LazyLock::new(|| by_size(include_str!("../../data/resistance_dc_chapter_9_table_8.csv"), ["area_cmil"]));
static MARINE_CMIL: LazyLock<BySize<1>> =
    LazyLock::new(|| by_size(include_str!("../../data/dc_ampacity_33_cfr_183_425.csv"), ["area_abyc_cmil"]));

/// True for the same bytes. Comparison of text is not to be had in constants.
const fn same(a: &[u8], b: &[u8]) -> bool {
    let mut place = 0;
    while place < a.len() && place < b.len() && a[place] == b[place] {
        place += 1;
    }
    place == a.len() && place == b.len()
}

impl Options for Size {
    const WORDS: &'static [(&'static str, Self)] = &{
        let mut words = [("", Self(0)); NAMES.len()];
        let mut place = 0;
        while place < words.len() {
            words[place] = (NAMES[place], Self::ALL[place]);
            place += 1;
        }
        words
    };
}

/// By which areas cable is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Areas {
    /// The gauge's own.
    Nominal,
    /// The smaller ones of marine cable.
    Marine,
}

impl Options for Areas {
    const WORDS: &'static [(&'static str, Self)] = &[("awg", Self::Nominal), ("marine", Self::Marine)];
}

impl Areas {
    /// Area of a size [mm²], or none where it is not made so.
    pub fn area_mm2(self, size: Size) -> Option<f64> {
        match self {
            Self::Nominal => Some(size.area_mm2()),
            Self::Marine => size.marine_area_mm2(),
        }
    }
}

/// Diameter of a solid wire.
///
/// `d = 0.005 in · 92^((36 − n)/39)`
///
/// - `number`  gauge number n, −3 (4/0), −2 (3/0), −1 (2/0), 0 (1/0), 1 and up
///
/// Returns the diameter [m].
///
/// Source: definition of the American Wire Gauge, as in ASTM B258 (`from memory`).
pub fn awg_diameter_m(number: i32) -> f64 {
    0.005 * M_PER_IN * 92f64.powf(f64::from(36 - number) / 39.0)
}

/// Area of a solid wire.
///
/// `A = π d²/4`
///
/// - `number`  gauge number as in [`awg_diameter_m`]
///
/// Returns the area [mm²].
///
/// Source: as [`awg_diameter_m`].
pub fn awg_area_mm2(number: i32) -> f64 {
    let diameter_mm = awg_diameter_m(number) * 1e3;
    std::f64::consts::FRAC_PI_4 * diameter_mm * diameter_mm
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::cmil;

    #[test]
    fn every_size_is_found_by_its_name_and_no_other_is() {
        for size in Size::ALL {
            assert_eq!(Size::of(size.name()), Some(size));
        }
        for name in ["", "1", "1/", "1/0", "1/00", "250", "250k", "250 kcmil", "15", "07"] {
            assert_eq!(Size::of(name).is_some(), NAMES.contains(&name), "{name}");
        }
    }

    #[test]
    fn constants_are_the_sizes_they_are_called() {
        use Size as S;
        let named = [S::AWG_18, S::AWG_16, S::AWG_14, S::AWG_12, S::AWG_10, S::AWG_8, S::AWG_6, S::AWG_4];
        assert_eq!(named.map(S::name), ["18", "16", "14", "12", "10", "8", "6", "4"]);
        let large = [S::AWG_3, S::AWG_2, S::AWG_1_0, S::AWG_2_0, S::AWG_4_0];
        assert_eq!(large.map(S::name), ["3", "2", "1/0", "2/0", "4/0"]);
    }

    #[test]
    fn a_later_size_has_the_larger_area() {
        for pair in Size::ALL.windows(2) {
            assert!(pair[0] < pair[1] && pair[0].area_mm2() < pair[1].area_mm2());
        }
        let marine: Vec<f64> = Size::ALL.into_iter().filter_map(Size::marine_area_mm2).collect();
        assert_eq!(marine.len(), 14);
        assert!(marine.windows(2).all(|pair| pair[0] < pair[1]));
    }

    #[test]
    fn marine_cable_is_3_to_11_percent_smaller() {
        for size in Size::ALL {
            if let Some(marine) = size.marine_area_mm2() {
                let less = 1.0 - marine / size.area_mm2();
                assert!((0.02..0.12).contains(&less), "{}: {less}", size.name());
            }
        }
        assert_eq!(Size::AWG_3.marine_area_mm2(), None);
        assert_eq!(Areas::Marine.area_mm2(Size::ALL[15]), None);
    }

    #[test]
    fn nominal_areas_are_the_gauges_own_to_half_a_percent() {
        let numbers = [18, 16, 14, 12, 10, 8, 6, 4, 3, 2, 1, 0, -1, -2, -3];
        for (size, number) in Size::ALL.into_iter().zip(numbers) {
            assert!((size.area_mm2() / awg_area_mm2(number) - 1.0).abs() < 0.005, "{}", size.name());
        }
        assert_eq!(cmil(Size::ALL[15].area_mm2()).round(), 250_000.0);
    }
}
