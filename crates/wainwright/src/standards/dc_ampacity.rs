//! What stranded copper in open air may carry: law for boats, a recognized guide for trailers.

use std::sync::LazyLock;

use super::ampacity::ambient_factor_equation;
use super::size::Size;
use super::table::{Bands, BySize, by_size, rows};

/// Temperature rating of a conductor's insulation.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Insulation {
    /// 60 °C.
    T60,
    /// 75 °C.
    T75,
    /// 80 °C: PVC of GPT and HDT wire.
    T80,
    /// 90 °C.
    T90,
    /// 105 °C: boat cable.
    T105,
    /// 125 °C: cross-linked polyethylene of GXL, SXL and TXL wire.
    T125,
    /// 200 °C.
    T200,
}

impl Insulation {
    /// All, the coolest first.
    pub const ALL: [Self; 7] =
        [Self::T60, Self::T75, Self::T80, Self::T90, Self::T105, Self::T125, Self::T200];

    /// The greatest rating of the table that is not above an insulation's.
    ///
    /// - `rating_c`  temperature rating of the insulation [°C]
    ///
    /// Returns it, or none below 60 °C.
    pub fn at_most(rating_c: f64) -> Option<Self> {
        Self::ALL.into_iter().rev().find(|insulation| insulation.rating_c() <= rating_c)
    }

    /// The rating [°C].
    pub fn rating_c(self) -> f64 {
        [60.0, 75.0, 80.0, 90.0, 105.0, 125.0, 200.0][self as usize]
    }
}

static AMPACITY: LazyLock<BySize<7>> = LazyLock::new(|| {
    by_size(
        include_str!("../../data/dc_ampacity_33_cfr_183_425.csv"),
        ["t60", "t75", "t80", "t90", "t105", "t125", "t200"],
    )
});

/// Factors of a kind, by what the kind counts.
fn factors(kind: &'static str) -> Bands<1> {
    let csv = include_str!("../../data/dc_factors_33_cfr_183_425.csv");
    Bands::of(rows(csv).filter(move |row| row.text("kind") == kind), "high", ["factor"])
}

static ENGINE_SPACE: LazyLock<Bands<1>> = LazyLock::new(|| factors("engine_space"));
static BUNDLE: LazyLock<Bands<1>> = LazyLock::new(|| factors("bundle"));

/// Voltage from which bundled conductors carry less by this table [V].
///
/// Source: 33 CFR 183.435(b).
pub const BUNDLE_FROM_V: f64 = 50.0;

/// Ampacity of stranded copper in open air at 30 °C.
///
/// - `size`        18 AWG to 4/0
/// - `insulation`  its temperature rating
///
/// Returns the current [A], or none above 4/0.
///
/// Source: 33 CFR 183.425, Table 5; ABYC E-11 has the same figures.
pub fn table_a(size: Size, insulation: Insulation) -> Option<f64> {
    AMPACITY[size.index()][insulation as usize]
}

/// Factor in an engine space, taken as 50 °C.
///
/// - `insulation`  temperature rating
///
/// Returns the factor.
///
/// Source: 33 CFR 183.425, Table 5, note; all but that of 105 °C `from memory`.
pub fn engine_space_factor(insulation: Insulation) -> f64 {
    // Every rating has its row: a test holds it.
    ENGINE_SPACE.at(insulation.rating_c(), 0).unwrap_or(0.0)
}

/// Factor of ambient temperature.
///
/// `k = √((T_r − T_a)/(T_r − 30))`
///
/// - `insulation`  temperature rating T_r
/// - `ambient_c`   ambient temperature T_a [°C]
///
/// Returns the factor, above 1 below 30 °C; none at the rating and above it.
///
/// Source: the equation of NEC 310.15(B)(1), which at 50 °C gives the regulation's own factors to 0.01 up to 125 °C.
pub fn ambient_factor(insulation: Insulation, ambient_c: f64) -> Option<f64> {
    ambient_factor_equation(insulation.rating_c(), ambient_c)
}

/// Factor for bundled conductors.
///
/// - `conductors`  current-carrying conductors together
/// - `volts`       of the circuit [V]
///
/// Returns the factor, 1 below [`BUNDLE_FROM_V`].
///
/// Source: 33 CFR 183.425, Table 5, notes, and 183.435(b).
pub fn bundle_factor(conductors: u32, volts: f64) -> f64 {
    if volts < BUNDLE_FROM_V {
        return 1.0;
    }
    // The last band has no end.
    BUNDLE.at(f64::from(conductors), 0).unwrap_or(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fifteen_sizes_have_seven_figures_that_grow_with_size() {
        for insulation in Insulation::ALL {
            let column: Vec<f64> =
                Size::ALL.into_iter().filter_map(|size| table_a(size, insulation)).collect();
            assert_eq!(column.len(), 15);
            assert!(column.is_sorted());
        }
        assert_eq!(table_a(Size::AWG_12, Insulation::T105), Some(45.0));
        assert_eq!(table_a(Size::ALL[15], Insulation::T105), None);
    }

    #[test]
    fn hotter_insulation_never_carries_less() {
        for size in Size::ALL {
            assert!(Insulation::ALL.map(|insulation| table_a(size, insulation)).is_sorted());
        }
    }

    #[test]
    fn insulation_counts_as_the_rating_not_above_it() {
        let found = [59.0, 60.0, 70.0, 89.0, 110.0, 150.0, 250.0].map(Insulation::at_most);
        use Insulation::{T60, T80, T105, T125, T200};
        assert_eq!(found, [None, Some(T60), Some(T60), Some(T80), Some(T105), Some(T125), Some(T200)]);
    }

    #[test]
    fn engine_space_factors_are_the_equations_at_50_degrees() {
        for insulation in &Insulation::ALL[..6] {
            let worked_out = ambient_factor(*insulation, 50.0).unwrap();
            assert!((engine_space_factor(*insulation) - worked_out).abs() < 0.01);
        }
        assert_eq!(engine_space_factor(Insulation::T60), 0.58);
        assert_eq!(engine_space_factor(Insulation::T105), 0.85);
        assert_eq!(engine_space_factor(Insulation::T200), 1.0);
        assert_eq!(ambient_factor(Insulation::T60, 60.0), None);
    }

    #[test]
    fn bundles_count_from_50_volts() {
        assert_eq!(bundle_factor(30, 48.0), 1.0);
        let at_50 = [0, 2, 3, 4, 6, 7, 24, 25].map(|conductors| bundle_factor(conductors, 50.0));
        assert_eq!(at_50, [1.0, 1.0, 0.7, 0.6, 0.6, 0.5, 0.5, 0.4]);
    }
}
