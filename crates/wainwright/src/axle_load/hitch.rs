//! Coupler, ball, chains and jack: strengths, limits by class, and the loads on them.
//!
//! Ball couplings for trailers of at most 10,000 lb. Of two states' tables that adapt SAE J684, Maryland's and New
//! York's, the figures agree but for vertical tension; the larger is taken.
//! The lowest part of the chain governs: a formula never raises a marked rating.

use crate::units::{KG_PER_LB, M_PER_IN};

/// Class of a coupling by the gross trailer weight it is meant for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum CouplerClass {
    /// To 2,000 lb.
    One,
    /// To 3,500 lb.
    Two,
    /// To 5,000 lb.
    Three,
    /// To 10,000 lb.
    Four,
}

/// How the hitch carries the tongue.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HitchMode {
    /// All on the ball.
    WeightCarrying,
    /// Spring bars lever part of it to the tow vehicle's front axle and the trailer's axles.
    WeightDistributing,
}

/// Least breaking strengths of a coupling and its ball [kg].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CouplingStrengths {
    /// Fore and aft, tension and compression [kg].
    pub longitudinal_kg: f64,
    /// Sideways [kg].
    pub transverse_kg: f64,
    /// Upwards, as Maryland has it [kg].
    pub vertical_tension_maryland_kg: f64,
    /// Upwards, as New York has it [kg].
    pub vertical_tension_new_york_kg: f64,
    /// Downwards [kg].
    pub vertical_compression_kg: f64,
}

impl CouplingStrengths {
    /// Upwards, the larger of the two states' figures [kg].
    pub fn vertical_tension_kg(&self) -> f64 {
        self.vertical_tension_maryland_kg.max(self.vertical_tension_new_york_kg)
    }
}

/// Forces a hitch must bear in proof, each line of the table its own load case.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HitchProof {
    /// Weight-carrying: vertical force, with an equal compressive longitudinal one [kg].
    pub vertical_kg: f64,
    /// Weight-carrying: longitudinal force, tension or compression [kg].
    pub longitudinal_kg: f64,
    /// The vertical force that goes with it [kg].
    pub vertical_with_longitudinal_kg: f64,
    /// Weight-carrying: sideways, left or right [kg].
    pub transverse_kg: f64,
    /// Weight-distributing: vertical force [kg].
    pub distributing_vertical_kg: f64,
    /// The moment that goes with it [kg·m].
    pub distributing_moment_kg_m: f64,
    /// Weight-distributing: longitudinal force [kg].
    pub distributing_longitudinal_kg: f64,
}

/// The least of several limits and its place in the list.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Governing {
    /// Index of the limit.
    pub index: usize,
    /// The limit [kg].
    pub limit_kg: f64,
}

/// Class of the coupling that a gross trailer weight asks for.
///
/// - `gross_kg`  mass of the loaded trailer, or its GVWR [kg]
///
/// Returns the class, or none above 10,000 lb.
///
/// Source: SAE J684 as adapted in Md. COMAR 11.13.08.04 and 15 NYCRR 57.3.
pub fn coupler_class(gross_kg: f64) -> Option<CouplerClass> {
    const LIMITS_LB: [(f64, CouplerClass); 4] = [
        (2_000.0, CouplerClass::One),
        (3_500.0, CouplerClass::Two),
        (5_000.0, CouplerClass::Three),
        (10_000.0, CouplerClass::Four),
    ];
    let mut limits = LIMITS_LB.into_iter();
    limits.find(|(limit_lb, _)| gross_kg <= limit_lb * KG_PER_LB).map(|(_, class)| class)
}

/// Least breaking strengths of a coupling and its ball.
///
/// - `class`     class of the coupling
/// - `rated_kg`  gross trailer weight it is rated for G [kg]; counts in class 4 alone
///
/// Returns the strengths.
///
/// Source: Md. COMAR 11.13.08.10, table; 15 NYCRR 57.5, table 1. In class 4: 3 G, G, 1.3 G (Maryland) or
/// 3,800 lb + G/50 (New York), 1.4 G.
pub fn coupling_strengths(class: CouplerClass, rated_kg: f64) -> CouplingStrengths {
    let table = |row: [f64; 5]| {
        let [longitudinal, transverse, maryland, new_york, compression] = row.map(|lb| lb * KG_PER_LB);
        CouplingStrengths {
            longitudinal_kg: longitudinal,
            transverse_kg: transverse,
            vertical_tension_maryland_kg: maryland,
            vertical_tension_new_york_kg: new_york,
            vertical_compression_kg: compression,
        }
    };
    match class {
        CouplerClass::One => table([6_000.0, 2_000.0, 2_500.0, 2_500.0, 2_500.0]),
        CouplerClass::Two => table([10_500.0, 3_000.0, 4_500.0, 3_900.0, 4_500.0]),
        CouplerClass::Three => table([15_000.0, 4_000.0, 7_000.0, 3_900.0, 7_000.0]),
        CouplerClass::Four => CouplingStrengths {
            longitudinal_kg: 3.0 * rated_kg,
            transverse_kg: rated_kg,
            vertical_tension_maryland_kg: 1.3 * rated_kg,
            vertical_tension_new_york_kg: 3_800.0 * KG_PER_LB + rated_kg / 50.0,
            vertical_compression_kg: 1.4 * rated_kg,
        },
    }
}

/// Forces a hitch must bear in proof.
///
/// With R in lb: `V = L = 0.47 R + 480`; `L = 0.23 R + 1530` with `V = 0.15 R`; `T = 0.20 R + 500`;
/// weight-distributing `V = 0.045 R + 1650` with `M = 51,000 lb·in`, `L = 0.067 R + 2070`
///
/// - `rated_kg`  gross trailer weight the hitch is rated for R [kg], to 10,000 lb
///
/// Returns the forces.
///
/// Source: Md. COMAR 11.13.08.10, table; 15 NYCRR 57.5, table 1.
pub fn hitch_proof(rated_kg: f64) -> HitchProof {
    let line = |slope: f64, constant_lb: f64| slope * rated_kg + constant_lb * KG_PER_LB;
    HitchProof {
        vertical_kg: line(0.47, 480.0),
        longitudinal_kg: line(0.23, 1_530.0),
        vertical_with_longitudinal_kg: line(0.15, 0.0),
        transverse_kg: line(0.20, 500.0),
        distributing_vertical_kg: line(0.045, 1_650.0),
        distributing_moment_kg_m: 51_000.0 * KG_PER_LB * M_PER_IN,
        distributing_longitudinal_kg: line(0.067, 2_070.0),
    }
}

/// Greatest recommended static tongue load of a class.
///
/// - `class`     class of the coupling
/// - `mode`      how the hitch carries the tongue
/// - `rated_kg`  gross trailer weight the hitch is rated for [kg]; counts in classes 3 and 4
///
/// Returns the load [kg]: class 1 200 lb or 300 lb with bars, class 2 300 lb or 500 lb, classes 3 and 4 15 % of the
/// rating with bars and none stated without.
///
/// Source: table of recommended maxima in a towing-safety newsletter, no standard named: `common practice`.
pub fn static_tongue_kg(class: CouplerClass, mode: HitchMode, rated_kg: f64) -> Option<f64> {
    use HitchMode::{WeightCarrying, WeightDistributing};
    match (class, mode) {
        (CouplerClass::One, WeightCarrying) => Some(200.0 * KG_PER_LB),
        (CouplerClass::One, WeightDistributing) => Some(300.0 * KG_PER_LB),
        (CouplerClass::Two, WeightCarrying) => Some(300.0 * KG_PER_LB),
        (CouplerClass::Two, WeightDistributing) => Some(500.0 * KG_PER_LB),
        (CouplerClass::Three | CouplerClass::Four, WeightDistributing) => Some(0.15 * rated_kg),
        (CouplerClass::Three | CouplerClass::Four, WeightCarrying) => None,
    }
}

/// Least breaking strength of each safety chain with its hook and attachment, by class.
///
/// - `class`    class of the coupling
/// - `gvwr_kg`  GVWR of the trailer [kg]; counts in class 4
///
/// Returns the strength [kg]: 2,000, 3,500 and 5,000 lb, in class 4 the GVWR.
///
/// Source: derived from SAE J684, read second-hand.
pub fn chain_strength_by_class_kg(class: CouplerClass, gvwr_kg: f64) -> f64 {
    match class {
        CouplerClass::One => 2_000.0 * KG_PER_LB,
        CouplerClass::Two => 3_500.0 * KG_PER_LB,
        CouplerClass::Three => 5_000.0 * KG_PER_LB,
        CouplerClass::Four => gvwr_kg,
    }
}

/// Least breaking strength of each safety chain with its hook and attachment: all that it may have to hold.
///
/// `max(W, GVWR)`
///
/// - `gross_kg`  greatest mass of the loaded trailer W [kg]
/// - `gvwr_kg`   GVWR of the trailer [kg]
///
/// Returns the strength [kg]. A breaking strength: working load limits are a quarter to a third of it
/// (`common practice`) and are not to be compared with it.
///
/// Source: New Hampshire RSA 266:63 for the gross weight; SAE J684, second-hand, for the GVWR.
pub fn chain_strength_kg(gross_kg: f64, gvwr_kg: f64) -> f64 {
    gross_kg.max(gvwr_kg)
}

/// Load on the tongue jack, trailer uncoupled and level.
///
/// `J = T L / (L − x_j)`
///
/// - `tongue_kg`  tongue load T [kg]
/// - `group_x_m`  station of the axle group L [m], > `jack_x_m`
/// - `jack_x_m`   jack foot behind the ball x_j [m]
///
/// Returns the load [kg]; below zero the trailer tips onto its tail.
///
/// Source: equilibrium of moments about the axle group.
pub fn jack_load_kg(tongue_kg: f64, group_x_m: f64, jack_x_m: f64) -> f64 {
    tongue_kg * group_x_m / (group_x_m - jack_x_m)
}

/// Tongue load while a toy stands somewhere on its way in over the ramp.
///
/// `T(x) = T_rest + m (1 − x/L)`
///
/// - `rest_tongue_kg`  tongue load without the toy [kg]
/// - `toy_kg`          mass that bears on the trailer m [kg]
/// - `toy_x_m`         where it bears, behind the ball x [m]
/// - `group_x_m`       station of the axle group L [m], > 0
///
/// Returns the load [kg]; below zero the tail goes down unless the coupler is latched and the rear propped.
///
/// Source: equilibrium of moments about the axle group.
pub fn loading_tongue_kg(rest_tongue_kg: f64, toy_kg: f64, toy_x_m: f64, group_x_m: f64) -> f64 {
    rest_tongue_kg + toy_kg * (1.0 - toy_x_m / group_x_m)
}

/// The least of several limits: what governs the gross weight, or the tongue.
///
/// - `limits_kg`  the limits in an order of the caller's [kg]; none where a limit is unknown
///
/// Returns the least and its index, the first of equals, or none when all are unknown.
pub fn governing(limits_kg: &[Option<f64>]) -> Option<Governing> {
    let known = limits_kg.iter().enumerate();
    known
        .filter_map(|(index, limit)| limit.map(|limit_kg| Governing { index, limit_kg }))
        .min_by(|a, b| a.limit_kg.total_cmp(&b.limit_kg))
}

#[cfg(test)]
mod tests {
    use super::super::fixture::assert_printed;
    use super::*;
    use crate::units::{kg, lb, lb_in, m};

    #[test]
    fn class_is_by_gross_trailer_weight() {
        for (gross_lb, class) in [
            (2_000.0, Some(CouplerClass::One)),
            (2_001.0, Some(CouplerClass::Two)),
            (3_500.0, Some(CouplerClass::Two)),
            (5_000.0, Some(CouplerClass::Three)),
            (5_001.0, Some(CouplerClass::Four)),
            (10_000.0, Some(CouplerClass::Four)),
            (10_001.0, None),
        ] {
            assert_eq!(coupler_class(kg(gross_lb)), class, "{gross_lb} lb");
        }
    }

    #[test]
    fn class_four_strengths_scale_with_the_rating() {
        let s = coupling_strengths(CouplerClass::Four, kg(7_000.0));
        assert_printed(lb(s.longitudinal_kg), "21,000");
        assert_printed(lb(s.transverse_kg), "7,000");
        assert_printed(lb(s.vertical_tension_maryland_kg), "9,100");
        assert_printed(lb(s.vertical_tension_new_york_kg), "3,940");
        assert_printed(lb(s.vertical_compression_kg), "9,800");
        assert_printed(lb(s.vertical_tension_kg()), "9,100");
    }

    #[test]
    fn proof_forces_are_as_printed() {
        let p = hitch_proof(kg(7_000.0));
        assert_printed(lb(p.vertical_kg), "3770");
        assert_printed(lb(p.longitudinal_kg), "3140");
        assert_printed(lb(p.vertical_with_longitudinal_kg), "1050");
        assert_printed(lb(p.transverse_kg), "1900");
        assert_printed(lb(p.distributing_vertical_kg), "1965");
        assert_printed(lb(p.distributing_longitudinal_kg), "2539");
        assert_printed(lb_in(p.distributing_moment_kg_m), "51,000");
    }

    #[test]
    fn static_tongue_is_tabled_by_class_and_mode() {
        use HitchMode::{WeightCarrying, WeightDistributing};
        let tongue = |class, mode| static_tongue_kg(class, mode, kg(7_000.0));
        assert_eq!(tongue(CouplerClass::One, WeightCarrying), Some(kg(200.0)));
        assert_eq!(tongue(CouplerClass::One, WeightDistributing), Some(kg(300.0)));
        assert_eq!(tongue(CouplerClass::Two, WeightCarrying), Some(kg(300.0)));
        assert_eq!(tongue(CouplerClass::Two, WeightDistributing), Some(kg(500.0)));
        let distributing = tongue(CouplerClass::Four, WeightDistributing).unwrap();
        assert_printed(lb(distributing), "1050.0");
        assert_eq!(tongue(CouplerClass::Four, WeightCarrying), None);
    }

    #[test]
    fn chain_holds_the_heavier_of_load_and_rating() {
        assert_eq!(chain_strength_kg(3_000.0, 3_200.0), 3_200.0);
        assert_eq!(chain_strength_kg(3_300.0, 3_200.0), 3_300.0);
        assert_eq!(chain_strength_by_class_kg(CouplerClass::Three, kg(4_000.0)), kg(5_000.0));
        assert_eq!(chain_strength_by_class_kg(CouplerClass::Four, kg(7_000.0)), kg(7_000.0));
    }

    #[test]
    fn jack_behind_the_ball_carries_more_than_the_tongue() {
        let jack = jack_load_kg(kg(548.0105), m(190.0), m(8.0));
        assert_printed(lb(jack), "572.1");
    }

    #[test]
    fn toy_on_the_ramp_lightens_the_tongue() {
        let tongue_lb = |x| lb(loading_tongue_kg(kg(548.01), kg(790.0), m(x), m(190.0)));
        assert_printed(tongue_lb(262.0), "248.6");
        assert_printed(tongue_lb(300.0), "90.64");
    }

    #[test]
    fn least_known_limit_governs() {
        let limits = [Some(8_000.0), None, Some(6_000.0), Some(6_000.0)];
        let least = governing(&limits).unwrap();
        assert_eq!((least.index, least.limit_kg), (2, 6_000.0));
        assert_eq!(governing(&[None, None]), None);
        assert_eq!(governing(&[]), None);
    }
}
