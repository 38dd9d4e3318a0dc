//! Resistance and reactance of conductors.

use std::sync::LazyLock;

use super::ampacity::Material;
use super::size::Size;
use super::table::{BySize, by_size};
use crate::units::ohm_per_m;

/// What a line-voltage conductor lies in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Conduit {
    /// Cable sheath or plastic conduit.
    NonMagnetic,
    /// Steel conduit.
    Steel,
}

static DC_OHM_PER_KFT: LazyLock<BySize<2>> = LazyLock::new(|| {
    by_size(include_str!("../../data/resistance_dc_chapter_9_table_8.csv"), ["cu_uncoated", "al"])
});

static AC_OHM_PER_KFT: LazyLock<BySize<6>> = LazyLock::new(|| {
    by_size(
        include_str!("../../data/impedance_ac_chapter_9_table_9.csv"),
        ["r_cu_pvc", "r_cu_steel", "r_al_pvc", "r_al_steel", "xl_pvc_al", "xl_steel"],
    )
});

/// Temperature of the tables [°C].
const TABLE_C: f64 = 75.0;

/// Direct-current resistance of a stranded, uncoated conductor at 75 °C.
///
/// - `size`      the conductor's
/// - `material`  its metal
///
/// Returns the resistance of one conductor [Ω/m].
///
/// Source: NEC Chapter 9, Table 8.
pub fn dc_75c_ohm_per_m(size: Size, material: Material) -> f64 {
    // Every size has a row: a test holds it.
    DC_OHM_PER_KFT[size.index()][material as usize].map_or(f64::NAN, ohm_per_m)
}

/// Resistance at another temperature than 75 °C.
///
/// `r = r₇₅ (1 + α (T − 75))`, α = 0.00323/K copper, 0.00330/K aluminum
///
/// - `ohm_per_m_75c`  resistance at 75 °C r₇₅, in any unit
/// - `material`       metal of the conductor
/// - `conductor_c`    its temperature T [°C], −100 to 250
///
/// Returns the resistance in the unit of `ohm_per_m_75c`.
///
/// Source: NEC Chapter 9, Table 8, note 2.
pub fn at_ohm_per_m(ohm_per_m_75c: f64, material: Material, conductor_c: f64) -> f64 {
    ohm_per_m_75c * (1.0 + temperature_coefficient_per_k(material) * (conductor_c - TABLE_C))
}

/// Rise of resistance with temperature, as a fraction of that at 75 °C [1/K].
///
/// - `material`  metal of the conductor
///
/// Source: NEC Chapter 9, Table 8, note 2.
pub fn temperature_coefficient_per_k(material: Material) -> f64 {
    match material {
        Material::Copper => 0.003_23,
        Material::Aluminum => 0.003_30,
    }
}

/// Alternating-current resistance at 75 °C and 60 Hz. Up to 1/0 it is the direct-current one, rounded.
///
/// - `size`      14 AWG to 4/0; aluminum from 12 AWG
/// - `material`  metal of the conductor
/// - `conduit`   what it lies in
///
/// Returns the resistance of one conductor [Ω/m], or none for a size the table does not have.
///
/// Source: NEC Chapter 9, Table 9, columns for PVC and steel conduit.
pub fn ac_75c_ohm_per_m(size: Size, material: Material, conduit: Conduit) -> Option<f64> {
    AC_OHM_PER_KFT[size.index()][2 * material as usize + conduit as usize].map(ohm_per_m)
}

/// Reactance at 60 Hz.
///
/// - `size`     14 AWG to 4/0
/// - `conduit`  what the conductor lies in
///
/// Returns the reactance of one conductor [Ω/m], or none for a size the table does not have.
///
/// Source: NEC Chapter 9, Table 9.
pub fn reactance_ohm_per_m(size: Size, conduit: Conduit) -> Option<f64> {
    AC_OHM_PER_KFT[size.index()][4 + conduit as usize].map(ohm_per_m)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::ohm_per_kft;

    #[test]
    fn every_size_has_a_resistance_and_a_larger_one_a_smaller() {
        for material in [Material::Copper, Material::Aluminum] {
            let column = Size::ALL.map(|size| dc_75c_ohm_per_m(size, material));
            assert!(column.iter().all(|r| r.is_finite() && *r > 0.0));
            assert!(column.windows(2).all(|pair| pair[0] > pair[1]));
        }
    }

    #[test]
    fn resistance_is_that_of_stranded_wire() {
        let r = dc_75c_ohm_per_m(Size::AWG_12, Material::Copper);
        assert!((ohm_per_kft(r) - 1.98).abs() < 1e-12);
    }

    #[test]
    fn resistance_times_area_is_nearly_the_same_for_all_sizes() {
        for (material, least, most) in
            [(Material::Copper, 0.0210, 0.0218), (Material::Aluminum, 0.0347, 0.0354)]
        {
            for size in Size::ALL {
                let resistivity = dc_75c_ohm_per_m(size, material) * size.area_mm2();
                assert!((least..most).contains(&resistivity), "{}: {resistivity}", size.name());
            }
        }
    }

    #[test]
    fn thirteen_sizes_have_an_impedance() {
        let count =
            |cell: &dyn Fn(Size) -> Option<f64>| Size::ALL.iter().filter(|s| cell(**s).is_some()).count();
        for conduit in [Conduit::NonMagnetic, Conduit::Steel] {
            assert_eq!(count(&|size| reactance_ohm_per_m(size, conduit)), 13);
            assert_eq!(count(&|size| ac_75c_ohm_per_m(size, Material::Copper, conduit)), 13);
            assert_eq!(count(&|size| ac_75c_ohm_per_m(size, Material::Aluminum, conduit)), 12);
        }
        assert_eq!(reactance_ohm_per_m(Size::AWG_16, Conduit::Steel), None);
    }

    #[test]
    fn steel_has_more_reactance_and_no_less_resistance() {
        for size in Size::ALL.into_iter().filter(|size| reactance_ohm_per_m(*size, Conduit::Steel).is_some())
        {
            let x = |conduit| reactance_ohm_per_m(size, conduit).unwrap();
            let r = |conduit| ac_75c_ohm_per_m(size, Material::Copper, conduit).unwrap();
            assert!(x(Conduit::Steel) > x(Conduit::NonMagnetic));
            assert!(r(Conduit::Steel) >= r(Conduit::NonMagnetic));
        }
    }

    #[test]
    fn the_ac_resistance_is_the_dc_one_but_for_rounding() {
        for size in Size::ALL {
            if let Some(ac) = ac_75c_ohm_per_m(size, Material::Copper, Conduit::NonMagnetic) {
                assert!(
                    (ac / dc_75c_ohm_per_m(size, Material::Copper) - 1.0).abs() < 0.04,
                    "{}",
                    size.name()
                );
            }
        }
    }
}
