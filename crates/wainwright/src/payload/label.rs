//! The figures of the cargo capacity label, and when it must be corrected.

use crate::units::{KG_PER_LB, L_PER_GAL};

/// Part of the GVWR that may be added to a completed vehicle before its label must be corrected.
///
/// Source: 49 CFR 571.110, 72 FR 68442 (summary seen; paragraph S10 from memory).
pub const RELABEL_FRACTION: f64 = 0.015;
/// Mass that may be added whatever the GVWR [lb]. Source as [`RELABEL_FRACTION`].
pub const RELABEL_LB: f64 = 100.0;
/// Density that the label states water at [lb/gal]. It is not the same as [`LABEL_WATER_KG_PER_L`].
///
/// Source: 49 CFR 571.110 S9.3 (figures from memory).
pub const LABEL_WATER_LB_PER_GAL: f64 = 8.3;
/// Density that the label states water at [kg/L]. Source as [`LABEL_WATER_LB_PER_GAL`].
pub const LABEL_WATER_KG_PER_L: f64 = 1.0;

/// Cargo carrying capacity as printed: whole pounds and whole kilograms, both rounded down, never below 0.
///
/// `CCC = GVWR - UVW`
///
/// - `gvwr_kg`      gross vehicle weight rating [kg]
/// - `unloaded_kg`  unloaded mass, propane full [kg]
///
/// Returns (pounds, kilograms). A whole number reached but for rounding (a part in 10⁹) counts as reached.
///
/// Source: 49 CFR 571.110 S9.3 (at second hand); rounding down is common practice.
pub fn cargo_capacity(gvwr_kg: f64, unloaded_kg: f64) -> (f64, f64) {
    let capacity_kg = (gvwr_kg - unloaded_kg).max(0.0);
    let down = |value: f64| (value * (1.0 + 1e-9)).floor();
    (down(capacity_kg / KG_PER_LB), down(capacity_kg))
}

/// Mass of a full load of water as the label states it, not rounded.
///
/// - `water_l`  content of all fresh-water tanks [L]
///
/// Returns (pounds, kilograms), each at its own legal density, so that one is not the other converted.
///
/// Source: 49 CFR 571.110 S9.3 (d) (densities from memory).
pub fn water_label(water_l: f64) -> (f64, f64) {
    (water_l / L_PER_GAL * LABEL_WATER_LB_PER_GAL, water_l * LABEL_WATER_KG_PER_L)
}

/// Mass added to a completed vehicle above which its label must be corrected [kg].
///
/// `min(0.015 * GVWR, 100 lb)`
///
/// - `gvwr_kg`  gross vehicle weight rating [kg]
///
/// Source: 49 CFR 571.110, 72 FR 68442 (summary seen; paragraph S10 from memory).
pub fn relabel_threshold(gvwr_kg: f64) -> f64 {
    (RELABEL_FRACTION * gvwr_kg).min(RELABEL_LB * KG_PER_LB)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{kg, l, lb};

    #[test]
    fn relabel_threshold_is_the_lesser_of_100_lb_and_one_and_a_half_percent() {
        assert_eq!(format!("{:.1}", lb(relabel_threshold(kg(7000.0)))), "100.0");
        assert_eq!(format!("{:.2}", lb(relabel_threshold(kg(5000.0)))), "75.00");
    }

    #[test]
    fn label_capacity_is_rounded_down_in_both_units() {
        assert_eq!(format!("{:.1}", kg(7000.0 - 4236.0)), "1253.7");
        assert_eq!(cargo_capacity(kg(7000.0), kg(4236.0)), (2764.0, 1253.0));
        assert_eq!(cargo_capacity(kg(4000.0), kg(4236.0)), (0.0, 0.0));
    }

    #[test]
    fn label_water_has_a_density_for_each_unit() {
        let (pounds, kilograms) = water_label(l(30.0));
        assert_eq!(format!("{pounds:.1}"), "249.0");
        assert_eq!(format!("{kilograms:.1}"), "113.6");
        assert_eq!(format!("{:.1}", lb(kilograms)), "250.4");
        assert_eq!(format!("{:.4}", lb(l(1.0))), "8.3454");
    }

    /// Steam-table densities of water (from memory) over 7.48052 gal/ft3.
    #[test]
    fn handbook_water_is_between_8_33_and_8_35_lb_per_gal() {
        let gal_per_ft3 = 1728.0 / 231.0;
        for (density, expected) in [(62.43, "8.346"), (62.37, "8.338"), (62.30, "8.328")] {
            assert_eq!(format!("{:.3}", density / gal_per_ft3), expected);
        }
    }
}
