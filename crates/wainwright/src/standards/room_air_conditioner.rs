//! Power of a room air conditioner, from the least efficiency the law allows.

use std::sync::LazyLock;

use super::table::{Bands, rows};

/// Build of a room air conditioner.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Build {
    /// Cools only, louvered sides: the usual window unit.
    Louvered,
    /// Cools only, no louvered sides: through the wall.
    Unlouvered,
    /// Cools and heats by reverse cycle, louvered sides.
    ReverseCycleLouvered,
    /// Cools and heats by reverse cycle, no louvered sides.
    ReverseCycleUnlouvered,
    /// For casement windows only.
    CasementOnly,
    /// For casement and sliding windows.
    CasementSlider,
}

/// Which standard it was made under.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Made {
    /// From 2014-06-01.
    From2014,
    /// From 2026-05-26.
    From2026,
}

/// The builds in the order of [`Build`].
static LEAST_CEER: LazyLock<[Bands<2>; 6]> = LazyLock::new(|| {
    let csv = include_str!("../../data/room_air_conditioner_ceer.csv");
    [
        ("no", "yes"),
        ("no", "no"),
        ("yes", "yes"),
        ("yes", "no"),
        ("casement_only", ""),
        ("casement_slider", ""),
    ]
    .map(|build| {
        let of_build =
            rows(csv).filter(move |row| (row.text("reverse_cycle"), row.text("louvered_sides")) == build);
        Bands::of(of_build, "capacity_high_btu_h", ["from_2014", "from_2026"])
    })
});

/// Least combined energy efficiency ratio (CEER) the law allows.
///
/// - `capacity_btu_h`  cooling capacity [Btu/h], 0 or more; between two printed bands it belongs to the larger
/// - `build`           build of the unit
/// - `made`            standard it was made under
///
/// Returns the ratio [Btu/Wh], or none below nothing.
///
/// Source: 10 CFR 430.32(b); 88 FR 34298 for that of 2026. Figures `from memory`.
pub fn least_ceer(capacity_btu_h: f64, build: Build, made: Made) -> Option<f64> {
    LEAST_CEER[build as usize].at(capacity_btu_h, made as usize)
}

/// Power at full cooling. The ratio counts power on standby too, so that running power is slightly less.
///
/// `P = Q / CEER`
///
/// - `capacity_btu_h`  cooling capacity Q [Btu/h]
/// - `ceer`            combined energy efficiency ratio [Btu/Wh], above 0
///
/// Returns the power [W].
///
/// Source: definition of the ratio, 10 CFR 430, Appendix F to Subpart B (`from memory`).
pub fn running_w(capacity_btu_h: f64, ceer: f64) -> f64 {
    capacity_btu_h / ceer
}

#[cfg(test)]
mod tests {
    use super::*;

    const BUILDS: [Build; 6] = [
        Build::Louvered,
        Build::Unlouvered,
        Build::ReverseCycleLouvered,
        Build::ReverseCycleUnlouvered,
        Build::CasementOnly,
        Build::CasementSlider,
    ];

    #[test]
    fn every_build_has_a_least_ratio_at_every_capacity() {
        for build in BUILDS {
            for capacity in [0.0, 5000.0, 5999.5, 8000.0, 14_000.0, 20_000.0, 36_000.0] {
                let older = least_ceer(capacity, build, Made::From2014).unwrap();
                assert!(older < least_ceer(capacity, build, Made::From2026).unwrap());
            }
        }
    }

    #[test]
    fn a_unit_of_8000_btu_is_held_to_a_stricter_ratio_than_one_just_below() {
        assert_eq!(least_ceer(8000.0, Build::Louvered, Made::From2014), Some(10.9));
        assert_eq!(least_ceer(8000.0, Build::Louvered, Made::From2026), Some(16.0));
        assert_eq!(least_ceer(7999.0, Build::Louvered, Made::From2026), Some(13.7));
        assert_eq!(running_w(8000.0, 16.0), 500.0);
        assert_eq!(running_w(8000.0, 10.9).round(), 734.0);
    }
}
