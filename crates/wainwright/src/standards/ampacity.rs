//! What building wire may carry, by the National Electrical Code.

use std::sync::LazyLock;

use super::size::Size;
use super::table::{Bands, BySize, by_size, rows};
use crate::document::Options;

/// Metal of a conductor.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Material {
    /// Copper.
    Copper,
    /// Aluminum.
    Aluminum,
}

impl Options for Material {
    const WORDS: &'static [(&'static str, Self)] = &[("copper", Self::Copper), ("aluminum", Self::Aluminum)];
}

/// Temperature column of the ampacity table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Column {
    /// 60 °C: equipment of 100 A or less that is not marked otherwise; NM-B cable.
    C60,
    /// 75 °C: equipment so marked, and above 100 A.
    C75,
    /// 90 °C: dry THHN, THWN-2, XHHW-2; the start of corrections, no equipment's.
    C90,
}

impl Column {
    /// Temperature of the column [°C].
    pub fn rating_c(self) -> f64 {
        [60.0, 75.0, 90.0][self as usize]
    }

    /// Greatest column that an insulation may use.
    ///
    /// - `insulation_c`  temperature rating of the insulation [°C]
    ///
    /// Returns the column, or none for insulation rated below 60 °C.
    pub fn up_to(insulation_c: f64) -> Option<Self> {
        [Self::C90, Self::C75, Self::C60].into_iter().find(|column| column.rating_c() <= insulation_c)
    }
}

static AMPACITY: LazyLock<BySize<6>> = LazyLock::new(|| {
    by_size(
        include_str!("../../data/ampacity_310_16.csv"),
        ["cu_60", "cu_75", "cu_90", "al_60", "al_75", "al_90"],
    )
});

static AMBIENT: LazyLock<Bands<3>> = LazyLock::new(|| {
    let csv = include_str!("../../data/ambient_factors_310_15_b1.csv");
    Bands::of(rows(csv), "ambient_high_c", ["f60", "f75", "f90"])
});

static BUNDLE: LazyLock<Bands<1>> = LazyLock::new(|| {
    Bands::of(rows(include_str!("../../data/bundle_factors_310_15_c1.csv")), "n_high", ["factor"])
});

/// Added to the ambient temperature of a raceway or cable less than 7/8 in above a sunlit roof [K].
///
/// Source: NEC 310.15(B)(2), 310.15(B)(3)(c) in the 2017 edition, `from memory`.
pub const ROOFTOP_ADDER_K: f64 = 33.0;

/// Ampacity at 30 °C of up to three loaded conductors in a raceway, cable or the ground.
///
/// - `size`      the conductor's
/// - `material`  its metal
/// - `column`    temperature column
///
/// Returns the current [A], or none where the table has no figure: sizes below 14 AWG (copper) or 12 AWG (aluminum)
/// but for copper in the 90 °C column.
///
/// Source: NEC Table 310.16, editions 2011 and later (310.15(B)(16) until 2017). 3 AWG copper at 90 °C, 6 AWG and
/// 300 kcmil aluminum `from memory`.
pub fn table_a(size: Size, material: Material, column: Column) -> Option<f64> {
    AMPACITY[size.index()][3 * material as usize + column as usize]
}

/// Factor of ambient temperature, as printed.
///
/// - `column`     temperature column the ampacity was taken from
/// - `ambient_c`  ambient temperature [°C]; between two printed bands it belongs to the hotter one
///
/// Returns the factor, 1 at 26 to 30 °C, or none where the conductor is not permitted.
///
/// Source: NEC Table 310.15(B)(1), (310.15(B)(1)(1) in 2023, 310.15(B)(2)(a) until 2017).
pub fn ambient_factor(column: Column, ambient_c: f64) -> Option<f64> {
    AMBIENT.at(ambient_c, column as usize)
}

/// Factor of ambient temperature, without bands.
///
/// `k = √((T_r − T_a)/(T_r − 30))`
///
/// - `rating_c`   temperature rating of the insulation T_r [°C], above 30
/// - `ambient_c`  ambient temperature T_a [°C]
///
/// Returns the factor, or none at the rating and above it: there is no temperature left to rise.
///
/// Source: NEC 310.15(B)(1), equation for ambient temperatures other than those shown. Every printed cell is its value
/// at the upper edge of the band.
pub fn ambient_factor_equation(rating_c: f64, ambient_c: f64) -> Option<f64> {
    (ambient_c < rating_c).then(|| ((rating_c - ambient_c) / (rating_c - 30.0)).sqrt())
}

/// Factor for conductors bundled over more than 24 in.
///
/// - `conductors`  current-carrying conductors together; grounding conductors do not count, nor a neutral that carries
///   only the imbalance of two legs
///
/// Returns the factor, 1 up to three.
///
/// Source: NEC Table 310.15(C)(1) (310.15(B)(3)(a) until 2017).
pub fn bundle_factor(conductors: u32) -> f64 {
    // The last band has no end.
    BUNDLE.at(f64::from(conductors), 0).unwrap_or(0.0)
}

/// Ampacity after correction for ambient temperature and bundling, before any limit of terminals.
///
/// `I_z = I_table k_T k_n`
///
/// - `size`, `material`, `column`  as in [`table_a`]: the insulation's column
/// - `ambient_c`                   as in [`ambient_factor`]
/// - `conductors`                  as in [`bundle_factor`]
///
/// Returns the current [A], or none where the table has no figure or the place is too hot.
///
/// Source: NEC 310.15(B) and (C).
pub fn corrected_a(
    size: Size,
    material: Material,
    column: Column,
    ambient_c: f64,
    conductors: u32,
) -> Option<f64> {
    Some(table_a(size, material, column)? * ambient_factor(column, ambient_c)? * bundle_factor(conductors))
}

#[cfg(test)]
mod tests {
    use super::*;

    const COLUMNS: [Column; 3] = [Column::C60, Column::C75, Column::C90];

    #[test]
    fn cells_that_are_printed_are_read() {
        let figures = |material| {
            COLUMNS
                .map(|column| Size::ALL.iter().filter(|s| table_a(**s, material, column).is_some()).count())
        };
        assert_eq!(figures(Material::Copper), [18, 18, 20]);
        assert_eq!(figures(Material::Aluminum), [17, 17, 17]);
        assert_eq!(table_a(Size::AWG_3, Material::Copper, Column::C90), Some(115.0));
        assert_eq!(table_a(Size::ALL[13], Material::Aluminum, Column::C75), Some(155.0));
        assert_eq!(table_a(Size::AWG_14, Material::Aluminum, Column::C60), None);
    }

    #[test]
    fn a_larger_wire_or_a_hotter_column_never_carries_less() {
        for material in [Material::Copper, Material::Aluminum] {
            for pair in Size::ALL.windows(2) {
                for column in COLUMNS {
                    // Where the smaller has no figure, `None` is below every figure.
                    assert!(
                        table_a(pair[0], material, column) < table_a(pair[1], material, column).or(Some(0.1))
                    );
                }
                let row = COLUMNS.map(|column| table_a(pair[1], material, column));
                assert!(row.is_sorted());
            }
        }
    }

    #[test]
    fn insulation_uses_the_greatest_column_not_above_it() {
        let columns = [59.9, 60.0, 74.0, 75.0, 89.0, 105.0].map(Column::up_to);
        use Column::{C60, C75, C90};
        assert_eq!(columns, [None, Some(C60), Some(C60), Some(C75), Some(C75), Some(C90)]);
    }

    #[test]
    fn a_temperature_between_bands_belongs_to_the_hotter_one() {
        assert_eq!(ambient_factor(Column::C90, 45.0), Some(0.87));
        assert_eq!(ambient_factor(Column::C90, 45.5), Some(0.82));
        assert_eq!(ambient_factor(Column::C60, -40.0), Some(1.29));
        assert_eq!(ambient_factor(Column::C60, 55.0), Some(0.41));
        assert_eq!(ambient_factor(Column::C60, 55.1), None);
        assert_eq!(ambient_factor(Column::C90, 85.1), None);
    }

    #[test]
    fn no_printed_factor_is_above_the_equation() {
        for column in COLUMNS {
            for tenth in 100..850 {
                let ambient_c = f64::from(tenth) / 10.0;
                if let Some(printed) = ambient_factor(column, ambient_c) {
                    // Half a digit of the printed figure.
                    assert!(
                        printed <= ambient_factor_equation(column.rating_c(), ambient_c).unwrap() + 0.005
                    );
                }
            }
        }
        assert_eq!(ambient_factor_equation(90.0, 90.0), None);
    }

    #[test]
    fn every_conductor_more_carries_no_more() {
        let factors: Vec<f64> = (0..60).map(bundle_factor).collect();
        assert!(factors.windows(2).all(|pair| pair[0] >= pair[1]));
        assert_eq!(
            [3, 4, 9, 10, 20, 21, 40, 41, u32::MAX].map(bundle_factor),
            [1.0, 0.8, 0.7, 0.5, 0.5, 0.45, 0.4, 0.35, 0.35]
        );
    }
}
