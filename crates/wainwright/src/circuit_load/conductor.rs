//! Choice of the smallest conductor that is enough, and what it was chosen for.
//!
//! Each criterion gives the smallest size that meets it, or none where no size does. Every larger size that is made
//! meets it too, so that the largest of the answers, or the next that is made, meets them all.

use serde::Serialize;

use crate::document::schema::Definitions;
use crate::report::{Described, exceeds};
use crate::standards::ampacity::{self, Column, Material, bundle_factor};
use crate::standards::overcurrent::{parallel_allowed, permits, small_conductor_cap_a};
use crate::standards::size::{Areas, Size};
use crate::standards::{cord, dc_ampacity};

/// How a line-voltage circuit is wired.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WireKind {
    /// Cable or wires in a raceway, fixed.
    Cable,
    /// Flexible cord, copper.
    Cord,
}

/// A line-voltage conductor and its surroundings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AcWire {
    /// Metal.
    pub material: Material,
    /// Temperature rating of the insulation [°C], 60 or more.
    pub insulation_c: f64,
    /// Temperature column of the terminals; a cord has none.
    pub terminal: Column,
    /// Ambient temperature [°C].
    pub ambient_c: f64,
    /// Current-carrying conductors together, its own circuit's among them.
    pub bundled: u32,
    /// How it is wired.
    pub kind: WireKind,
}

impl AcWire {
    /// Ampacity before any correction, which the current with a quarter of its continuous part added must not exceed.
    ///
    /// - `size`  the conductor's
    ///
    /// Returns the current [A]: of a cable in the column of the terminals or, if that is cooler, of the insulation; of a
    /// cord by its own table. None where the table has no figure, and for cable below 14 AWG.
    ///
    /// Source: NEC 110.14(C), 210.19(A)(1), 215.2(A)(1); least size 310.3(A), `from memory`.
    pub fn uncorrected_a(&self, size: Size) -> Option<f64> {
        match self.kind {
            WireKind::Cable if size < Size::AWG_14 => None,
            WireKind::Cable => {
                let column = self.terminal.min(Column::up_to(self.insulation_c)?);
                ampacity::table_a(size, self.material, column)
            }
            WireKind::Cord => cord::ampacity_a(size, self.bundled),
        }
    }

    /// Ampacity after correction for ambient temperature and bundling.
    ///
    /// - `size`  the conductor's
    ///
    /// Returns the current [A], or none where the table has no figure or the place is too hot.
    ///
    /// Source: NEC 310.15(B) and (C); cords 400.5(A), which takes the same factors, `from memory`.
    pub fn corrected_a(&self, size: Size) -> Option<f64> {
        let column = Column::up_to(self.insulation_c)?;
        match self.kind {
            WireKind::Cable => {
                ampacity::corrected_a(size, self.material, column, self.ambient_c, self.bundled)
            }
            WireKind::Cord => {
                let ambient_factor = ampacity::ambient_factor(column, self.ambient_c)?;
                Some(cord::ampacity_a(size, self.bundled)? * ambient_factor * bundle_factor(self.bundled))
            }
        }
    }

    /// Current it may carry in its place.
    ///
    /// `min(uncorrected, corrected)`
    ///
    /// - `size`  the conductor's
    ///
    /// Returns the current [A], or none where it may not be used so.
    ///
    /// Source: NEC 110.14(C) with 310.15.
    pub fn usable_a(&self, size: Size) -> Option<f64> {
        Some(self.uncorrected_a(size)?.min(self.corrected_a(size)?))
    }
}

/// What heats a conductor to its rating at 30 °C: the ampacity of its insulation in its bundle, and that rating.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Basis {
    /// Ampacity at 30 °C [A].
    pub ampacity_a: f64,
    /// Temperature that it heats the conductor to [°C].
    pub rating_c: f64,
}

impl AcWire {
    /// What heats it to its rating at 30 °C; none where the table has no figure.
    ///
    /// - `size`  the conductor's
    pub fn basis(&self, size: Size) -> Option<Basis> {
        let column = Column::up_to(self.insulation_c)?;
        let table_a = match self.kind {
            WireKind::Cable => ampacity::table_a(size, self.material, column)?,
            WireKind::Cord => cord::ampacity_a(size, self.bundled)?,
        };
        Some(Basis { ampacity_a: table_a * bundle_factor(self.bundled), rating_c: column.rating_c() })
    }
}

impl DcWire {
    /// What heats it to its rating at 30 °C; none where the table has no figure.
    ///
    /// - `size`  the conductor's
    pub fn basis(&self, size: Size) -> Option<Basis> {
        let insulation = dc_ampacity::Insulation::at_most(self.insulation_c)?;
        Some(Basis { ampacity_a: dc_ampacity::table_a(size, insulation)?, rating_c: insulation.rating_c() })
    }
}

/// A low-voltage conductor, stranded copper, and its surroundings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DcWire {
    /// Temperature rating of the insulation [°C], 60 or more.
    pub insulation_c: f64,
    /// Ambient temperature [°C].
    pub ambient_c: f64,
    /// True where it lies in an engine space, which counts as 50 °C at least.
    pub engine_space: bool,
    /// Current-carrying conductors together, its own circuit's among them.
    pub bundled: u32,
    /// Voltage of the circuit [V].
    pub volts: f64,
}

/// Ambient temperature of an engine space [°C].
///
/// Source: 33 CFR 183.425, Table 5, note.
const ENGINE_SPACE_C: f64 = 50.0;

impl DcWire {
    /// Current it may carry in its place.
    ///
    /// `I_table k_T k_n`
    ///
    /// - `size`  the conductor's
    ///
    /// Returns the current [A], or none above 4/0 and where the place is too hot. Below 30 °C it is the table's: the
    /// regulation gives nothing for cold.
    ///
    /// Source: 33 CFR 183.425, Table 5; other temperatures than 30 °C as in [`dc_ampacity::ambient_factor`].
    pub fn usable_a(&self, size: Size) -> Option<f64> {
        let insulation = dc_ampacity::Insulation::at_most(self.insulation_c)?;
        let temperature_factor = if self.engine_space && self.ambient_c <= ENGINE_SPACE_C {
            dc_ampacity::engine_space_factor(insulation)
        } else {
            dc_ampacity::ambient_factor(insulation, self.ambient_c)?.min(1.0)
        };
        let bundle_factor = dc_ampacity::bundle_factor(self.bundled, self.volts);
        Some(dc_ampacity::table_a(size, insulation)? * temperature_factor * bundle_factor)
    }
}

/// The smallest size that fits.
fn least(fits: impl Fn(Size) -> bool) -> Option<Size> {
    Size::ALL.into_iter().find(|size| fits(*size))
}

/// Smallest line-voltage conductor by ampacity.
///
/// - `wire`        conductor and surroundings
/// - `required_a`  the current with a quarter of its continuous part added [A]: the ampacity before corrections
/// - `load_a`      the current [A]: the ampacity after corrections
///
/// Returns the size, or none where no size is enough. Of conductors in parallel the currents are each one's.
///
/// Source: NEC 210.19(A)(1), 215.2(A)(1).
pub fn ac_by_ampacity(wire: &AcWire, required_a: f64, load_a: f64) -> Option<Size> {
    least(|size| {
        wire.uncorrected_a(size).is_some_and(|a| !exceeds(required_a, a))
            && wire.usable_a(size).is_some_and(|a| !exceeds(load_a, a))
    })
}

/// Smallest line-voltage conductor that an overcurrent device protects.
///
/// - `wire`          conductor and surroundings
/// - `device_a`      rating of the device [A]
/// - `may_round_up`  as in [`permits`]; a cord never may
/// - `parallel`      conductors that share the current, 1 or more
///
/// Returns the size, or none where no size is enough.
///
/// Source: NEC 240.4(B) and (D), 310.10(G); cords 240.5(A), `from memory`.
pub fn ac_by_device(wire: &AcWire, device_a: f64, may_round_up: bool, parallel: u32) -> Option<Size> {
    least(|size| {
        let capped = wire.kind == WireKind::Cable
            && small_conductor_cap_a(size, wire.material).is_some_and(|cap_a| exceeds(device_a, cap_a));
        !capped
            && parallel_allowed(size, parallel)
            && wire.usable_a(size).is_some_and(|a| {
                permits(device_a, f64::from(parallel) * a, may_round_up && wire.kind == WireKind::Cable)
            })
    })
}

/// Smallest low-voltage conductor by ampacity.
///
/// - `wire`        conductor and surroundings
/// - `required_a`  current it must be fit for [A]
///
/// Returns the size, or none where no size is enough.
///
/// Source: 33 CFR 183.425.
pub fn dc_by_ampacity(wire: &DcWire, required_a: f64) -> Option<Size> {
    least(|size| wire.usable_a(size).is_some_and(|a| !exceeds(required_a, a)))
}

/// Smallest low-voltage conductor that an overcurrent device protects: the device is not above its ampacity.
///
/// - `wire`      conductor and surroundings
/// - `device_a`  rating of the device [A]
///
/// Returns the size, or none where no size is enough.
///
/// Source: ABYC E-11, `from memory`, without its leave to go to 150 %.
pub fn dc_by_device(wire: &DcWire, device_a: f64) -> Option<Size> {
    dc_by_ampacity(wire, device_a)
}

/// Smallest conductor by voltage drop.
///
/// - `allowed_v`  voltage that may be lost [V]
/// - `drop_v`     voltage a size loses [V], never more for a larger size; none where no figure is known
///
/// Returns the size, or none where no size is enough.
pub fn by_drop(allowed_v: f64, drop_v: impl Fn(Size) -> Option<f64>) -> Option<Size> {
    least(|size| drop_v(size).is_some_and(|v| !exceeds(v, allowed_v)))
}

/// Smallest conductor by area, for the circular-mil method.
///
/// - `areas`       nominal areas, or the smaller ones of marine cable
/// - `needed_mm2`  area it must have [mm²]
///
/// Returns the size, or none where no size is enough.
pub fn by_area(areas: Areas, needed_mm2: f64) -> Option<Size> {
    least(|size| areas.area_mm2(size).is_some_and(|mm2| !exceeds(needed_mm2, mm2)))
}

/// What a conductor's size was chosen for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum BoundBy {
    /// Current it must carry.
    Ampacity,
    /// Voltage it may lose.
    Drop,
    /// Overcurrent device ahead of it.
    Device,
    /// Least size that was asked for.
    Minimum,
}

impl BoundBy {
    /// All words.
    pub const WORDS: &'static [&'static str] = &["ampacity", "drop", "device", "minimum"];

    /// Its word.
    pub fn word(self) -> &'static str {
        Self::WORDS[self as usize]
    }
}

impl Described for BoundBy {
    fn schema(_: &mut Definitions) -> serde_json::Value {
        serde_json::json!({"type": "string", "enum": Self::WORDS})
    }
}

/// The smallest conductor that meets every criterion, and which of them asked for it: the first of ampacity, device,
/// drop and minimum that asks for so large a size.
///
/// - `by_ampacity`, `by_drop`, `by_device`  the smallest size by each; none where no size is enough. A criterion that
///   asks for nothing gives the smallest size, [`Size::AWG_18`]
/// - `minimum`                              least size asked for, if any
///
/// Returns the size and what bound it, or none where a criterion cannot be met.
pub fn smallest(
    by_ampacity: Option<Size>,
    by_drop: Option<Size>,
    by_device: Option<Size>,
    minimum: Option<Size>,
) -> Option<(Size, BoundBy)> {
    let mut chosen = (by_ampacity?, BoundBy::Ampacity);
    let others = [(by_device?, BoundBy::Device), (by_drop?, BoundBy::Drop)];
    for other in others.into_iter().chain(minimum.map(|size| (size, BoundBy::Minimum))) {
        if other.0 > chosen.0 {
            chosen = other;
        }
    }
    Some(chosen)
}

/// The size itself, or the next larger one that is made: marine cable has no 3 AWG, the table of cords has gaps, that
/// of low-voltage wire ends at 4/0.
///
/// - `size`     size that is enough
/// - `is_made`  true for the sizes to choose from, such as those with an [`AcWire::usable_a`]
///
/// Returns the size, or none where no larger one is made either.
pub fn made(size: Size, is_made: impl Fn(Size) -> bool) -> Option<Size> {
    least(|larger| larger >= size && is_made(larger))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::circuit_load::drop::dc_v;
    use crate::standards::resistance::dc_75c_ohm_per_m;

    const CABLE: AcWire = AcWire {
        material: Material::Copper,
        insulation_c: 90.0,
        terminal: Column::C60,
        ambient_c: 30.0,
        bundled: 2,
        kind: WireKind::Cable,
    };
    const CORD: AcWire = AcWire { insulation_c: 60.0, kind: WireKind::Cord, ..CABLE };
    const BOAT_CABLE: DcWire =
        DcWire { insulation_c: 105.0, ambient_c: 30.0, engine_space: false, bundled: 2, volts: 12.0 };

    #[test]
    fn a_larger_size_carries_no_less_wherever_a_smaller_is_enough() {
        let hot = AcWire { ambient_c: 47.0, bundled: 7, ..CABLE };
        let aluminum = AcWire { material: Material::Aluminum, terminal: Column::C75, ..CABLE };
        for wire in [CABLE, hot, aluminum] {
            assert!(Size::ALL.windows(2).all(|pair| wire.usable_a(pair[0]) <= wire.usable_a(pair[1])));
        }
        let dc = Size::ALL.map(|size| BOAT_CABLE.usable_a(size));
        assert!(dc[..15].is_sorted() && dc[15..].iter().all(Option::is_none));
    }

    #[test]
    fn terminals_limit_a_cool_wire_and_corrections_a_hot_one() {
        assert_eq!(CABLE.usable_a(Size::AWG_12), Some(20.0));
        let hot = AcWire { ambient_c: 70.0, ..CABLE };
        assert_eq!(hot.usable_a(Size::AWG_12), Some(30.0 * 0.58));
        assert_eq!(AcWire { bundled: 10, ..hot }.usable_a(Size::AWG_12), Some(30.0 * 0.58 * 0.5));
        assert_eq!(AcWire { ambient_c: 90.0, ..CABLE }.usable_a(Size::AWG_12), None);
    }

    #[test]
    fn insulation_cooler_than_the_terminals_limits_both() {
        let wire = AcWire { insulation_c: 60.0, terminal: Column::C75, ..CABLE };
        assert_eq!(wire.uncorrected_a(Size::AWG_12), Some(20.0));
        assert_eq!(AcWire { insulation_c: 50.0, ..CABLE }.usable_a(Size::AWG_12), None);
    }

    #[test]
    fn cable_is_never_below_14_awg() {
        let wire = AcWire { terminal: Column::C90, ..CABLE };
        assert_eq!(ac_by_ampacity(&wire, 1.0, 1.0), Some(Size::AWG_14));
        assert_eq!(wire.usable_a(Size::AWG_16), None);
    }

    #[test]
    fn cords_have_a_table_of_their_own() {
        assert_eq!(CORD.usable_a(Size::AWG_16), Some(13.0));
        assert_eq!(ac_by_device(&CORD, 30.0, true, 1), Some(Size::AWG_10));
        assert_eq!(ac_by_device(&CORD, 50.0, true, 1), Some(Size::AWG_6));
        assert_eq!(AcWire { bundled: 3, ..CORD }.usable_a(Size::AWG_10), Some(25.0));
        assert_eq!(AcWire { bundled: 4, ..CORD }.usable_a(Size::AWG_10), Some(20.0));
        assert_eq!(AcWire { ambient_c: 40.0, ..CORD }.usable_a(Size::AWG_10), Some(30.0 * 0.82));
    }

    #[test]
    fn the_continuous_quarter_counts_before_corrections_only() {
        // 16 A continuous ask for 20 A at the terminals and 16 A corrected: 12 AWG, whose corrected figure is 21 A.
        let wire = AcWire { bundled: 9, ..CABLE };
        assert_eq!(ac_by_ampacity(&wire, 20.0, 16.0), Some(Size::AWG_12));
        assert_eq!(ac_by_ampacity(&wire, 20.1, 16.0), Some(Size::AWG_10));
        assert_eq!(ac_by_ampacity(&wire, 1000.0, 16.0), None);
    }

    #[test]
    fn a_circuit_of_receptacles_may_not_round_its_device_up() {
        let wire = AcWire { ambient_c: 45.0, bundled: 6, ..CABLE };
        assert_eq!(ac_by_device(&wire, 30.0, true, 1), Some(Size::AWG_10));
        assert_eq!(ac_by_device(&wire, 30.0, false, 1), Some(Size::AWG_8));
    }

    #[test]
    fn small_conductors_are_capped_whatever_they_may_carry() {
        let wire = AcWire { terminal: Column::C75, ..CABLE };
        assert_eq!(wire.usable_a(Size::AWG_14), Some(20.0));
        assert_eq!(ac_by_device(&wire, 20.0, false, 1), Some(Size::AWG_12));
        let aluminum = AcWire { material: Material::Aluminum, ..wire };
        assert_eq!(ac_by_device(&aluminum, 20.0, false, 1), Some(Size::AWG_10));
    }

    #[test]
    fn parallel_conductors_share_from_1_0_up() {
        let wire = AcWire { terminal: Column::C75, ..CABLE };
        assert_eq!(ac_by_device(&wire, 200.0, false, 2), Some(Size::AWG_1_0));
        assert_eq!(ac_by_device(&wire, 350.0, false, 2), Some(Size::AWG_2_0));
    }

    #[test]
    fn an_engine_space_counts_as_50_degrees_at_least() {
        let engine_space = DcWire { engine_space: true, ..BOAT_CABLE };
        assert_eq!(engine_space.usable_a(Size::AWG_10), Some(60.0 * 0.85));
        let hotter = DcWire { ambient_c: 70.0, ..engine_space };
        assert_eq!(
            hotter.usable_a(Size::AWG_10),
            DcWire { engine_space: false, ..hotter }.usable_a(Size::AWG_10)
        );
        assert!(hotter.usable_a(Size::AWG_10) < engine_space.usable_a(Size::AWG_10));
    }

    #[test]
    fn cold_gives_a_low_voltage_wire_nothing_extra() {
        assert_eq!(DcWire { ambient_c: -10.0, ..BOAT_CABLE }.usable_a(Size::AWG_10), Some(60.0));
        assert_eq!(DcWire { ambient_c: 105.0, ..BOAT_CABLE }.usable_a(Size::AWG_10), None);
        assert_eq!(DcWire { bundled: 4, volts: 50.0, ..BOAT_CABLE }.usable_a(Size::AWG_10), Some(36.0));
    }

    #[test]
    fn the_smallest_wire_by_drop_is_the_first_within_it() {
        let by = |allowed_v| {
            by_drop(allowed_v, |size| Some(dc_v(10.0, 3.0, dc_75c_ohm_per_m(size, Material::Copper), false)))
        };
        for size in Size::ALL {
            let own_v = dc_v(10.0, 3.0, dc_75c_ohm_per_m(size, Material::Copper), false);
            assert_eq!(by(own_v), Some(size));
        }
        assert_eq!(by(1e-3), None);
        assert_eq!(by_drop(1.0, |_| None), None);
    }

    #[test]
    fn the_largest_of_the_criteria_binds_and_ties_go_in_order() {
        let [small, large] = [Some(Size::AWG_14), Some(Size::AWG_8)];
        assert_eq!(smallest(large, small, small, small), Some((Size::AWG_8, BoundBy::Ampacity)));
        assert_eq!(smallest(small, large, small, small), Some((Size::AWG_8, BoundBy::Drop)));
        assert_eq!(smallest(small, small, large, None), Some((Size::AWG_8, BoundBy::Device)));
        assert_eq!(smallest(small, small, small, large), Some((Size::AWG_8, BoundBy::Minimum)));
        assert_eq!(smallest(large, large, large, large), Some((Size::AWG_8, BoundBy::Ampacity)));
        assert_eq!(smallest(small, large, large, large), Some((Size::AWG_8, BoundBy::Device)));
        assert_eq!(smallest(small, large, small, large), Some((Size::AWG_8, BoundBy::Drop)));
    }

    #[test]
    fn a_criterion_that_cannot_be_met_leaves_no_size() {
        let any = Some(Size::AWG_14);
        assert_eq!(smallest(None, any, any, None), None);
        assert_eq!(smallest(any, None, any, None), None);
        assert_eq!(smallest(any, any, None, None), None);
    }

    #[test]
    fn words_stand_in_the_order_of_the_criteria() {
        let all = [BoundBy::Ampacity, BoundBy::Drop, BoundBy::Device, BoundBy::Minimum];
        assert_eq!(all.map(BoundBy::word), BoundBy::WORDS);
    }

    #[test]
    fn a_size_that_is_not_made_gives_way_to_the_next() {
        let marine = |size| made(size, |size| Areas::Marine.area_mm2(size).is_some());
        assert_eq!(marine(Size::AWG_3), Some(Size::AWG_2));
        assert_eq!(marine(Size::AWG_4), Some(Size::AWG_4));
        assert_eq!(marine(Size::ALL[15]), None);
        assert_eq!(made(Size::AWG_3, |size| CORD.usable_a(size).is_some()), Some(Size::AWG_2));
    }
}
