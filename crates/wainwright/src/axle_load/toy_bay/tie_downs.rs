//! Tie-downs: what they hold each way, and what the securement rules for commercial vehicles ask of them.
//!
//! The rules of 49 CFR 393.100 to 393.136 bind commercial vehicles and are a good guide for everyone else. They set
//! two tests that must not be mixed: larger forces against **breaking strength** (393.102(a)(1)) and smaller ones
//! against the **working load limit**, WLL (393.102(a)(2)).

use crate::build::{Attachment, Pull, Side};
use crate::units::{KG_PER_LB, M_PER_IN};

/// Which way the toy would move; a tie-down holds it where it pulls the other way.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Motion {
    /// Toward the tow vehicle, as in braking.
    Forward,
    /// Toward the ramp.
    Rearward,
    /// To the left.
    Left,
    /// To the right.
    Right,
}

/// One tie-down.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TieDown {
    /// Working load limit of the whole assembly, anchors included [kg], 0 or more; see [`assembly_wll`].
    pub wll_kg: f64,
    /// Breaking strength of the whole assembly [kg]; None where it is not known.
    pub breaking_strength_kg: Option<f64>,
    /// Angle to the floor `θ` [rad], 0 to π/2.
    pub floor_angle_rad: f64,
    /// Angle between its run seen from above and the trailer's long axis `φ` [rad], 0 to π/2.
    pub axis_angle_rad: f64,
    /// Which way along the trailer it pulls the toy.
    pub pulls: Pull,
    /// Which way across the trailer it pulls the toy.
    pub side: Side,
    /// How it runs.
    pub attachment: Attachment,
}

impl TieDown {
    /// Share of its strength that acts level against a motion of the toy.
    ///
    /// `cos θ cos φ` fore and aft, `cos θ sin φ` sideways
    ///
    /// - `motion`  which way the toy would move
    ///
    /// Returns 0 to 1; zero for one that does not pull against this motion.
    ///
    /// Source: geometry.
    pub fn hold(&self, motion: Motion) -> f64 {
        if self.attachment == Attachment::OverToOtherSide {
            return 0.0;
        }
        match (motion, self.pulls, self.side) {
            (Motion::Forward, Pull::Rearward, _) | (Motion::Rearward, Pull::Forward, _) => {
                self.floor_angle_rad.cos() * self.axis_angle_rad.cos()
            }
            (Motion::Left, _, Side::Right) | (Motion::Right, _, Side::Left) => {
                self.floor_angle_rad.cos() * self.axis_angle_rad.sin()
            }
            _ => 0.0,
        }
    }

    /// Share of its WLL that counts toward the aggregate.
    ///
    /// Returns one half, or one for a tie-down over the toy to the other side.
    ///
    /// Source: 49 CFR 393.106(d).
    pub fn aggregate_share(&self) -> f64 {
        match self.attachment {
            Attachment::Direct | Attachment::OverSameSide => 0.5,
            Attachment::OverToOtherSide => 1.0,
        }
    }
}

/// Accelerations a securement must withstand, each alone, in multiples of gravity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Accelerations {
    /// Braking: the toy would move forward.
    pub forward: f64,
    /// The toy would move rearward.
    pub rearward: f64,
    /// The toy would move to either side.
    pub sideways: f64,
}

/// What the forces must stay within breaking strength at: 49 CFR 393.102(a)(1).
pub const AGAINST_BREAKING_STRENGTH: Accelerations =
    Accelerations { forward: 0.8, rearward: 0.5, sideways: 0.5 };
/// What the forces must stay within the WLL at: 49 CFR 393.102(a)(2).
pub const AGAINST_WLL: Accelerations = Accelerations { forward: 0.435, rearward: 0.5, sideways: 0.25 };

/// Friction of a rubber tire on dry plywood: common practice.
pub const DRY_PLYWOOD_FRICTION: f64 = 0.4;
/// Friction of a rubber tire on wet plywood: common practice.
pub const WET_PLYWOOD_FRICTION: f64 = 0.2;

/// Tie-downs on a machine on wheels: four, common practice.
///
/// The law asks for four on machines of 10,000 lb and more (49 CFR 393.130, from memory).
pub const WHEELED_MACHINE_COUNT: u32 = 4;

/// WLL of unmarked synthetic webbing: width [in], WLL [lb]. 49 CFR 393.108, table for synthetic webbing.
pub const UNMARKED_WEBBING: [(f64, f64); 4] = [(1.75, 1750.0), (2.0, 2000.0), (3.0, 3000.0), (4.0, 4000.0)];

/// Level force that a motion at the rule's acceleration puts on the tie-downs.
///
/// `F = k m`
///
/// - `mass_kg`        toy and everything on it `m` [kg], 0 or more
/// - `accelerations`  `k`, [`AGAINST_BREAKING_STRENGTH`] or [`AGAINST_WLL`]
/// - `motion`         which way the toy would move
///
/// Returns the force as the mass that would weigh it [kg]. The forward force against breaking strength compared
/// with a WLL is a stricter rule of one's own, not the law's.
///
/// Source: 49 CFR 393.102(a).
pub fn demand(mass_kg: f64, accelerations: Accelerations, motion: Motion) -> f64 {
    mass_kg
        * match motion {
            Motion::Forward => accelerations.forward,
            Motion::Rearward => accelerations.rearward,
            Motion::Left | Motion::Right => accelerations.sideways,
        }
}

/// What the tie-downs hold against a motion within their working load limits.
///
/// `C = Σ WLL cos θ cos φ` fore and aft, `C = Σ WLL cos θ sin φ` sideways, over those that pull against the motion
///
/// To be compared with [`demand`] at [`AGAINST_WLL`]. Even sharing is taken for granted: a slack strap shares less.
///
/// - `tie_downs`  all tie-downs on the toy
/// - `motion`     which way the toy would move
///
/// Returns the force [kg]; zero where none pulls against the motion.
///
/// Source: equilibrium of forces; 49 CFR 393.102(a)(2).
pub fn wll_capacity(tie_downs: &[TieDown], motion: Motion) -> f64 {
    tie_downs.iter().fold(0.0, |sum, tie_down| sum + tie_down.wll_kg * tie_down.hold(motion))
}

/// What the tie-downs hold against a motion before they break.
///
/// `C = Σ B cos θ cos φ` fore and aft, `C = Σ B cos θ sin φ` sideways, over those that pull against the motion
///
/// To be compared with [`demand`] at [`AGAINST_BREAKING_STRENGTH`].
///
/// - `tie_downs`  all tie-downs on the toy
/// - `motion`     which way the toy would move
///
/// Returns the force [kg], zero where none pulls against the motion; None where the breaking strength `B` of
/// one that does is not known.
///
/// Source: equilibrium of forces; 49 CFR 393.102(a)(1).
pub fn breaking_capacity(tie_downs: &[TieDown], motion: Motion) -> Option<f64> {
    tie_downs
        .iter()
        .filter(|tie_down| tie_down.hold(motion) > 0.0)
        .try_fold(0.0, |sum, tie_down| Some(sum + tie_down.breaking_strength_kg? * tie_down.hold(motion)))
}

/// What friction under the tires holds besides, shown apart and not counted by default.
///
/// `F = µ (m + Σ P sin θ)`
///
/// - `friction`            coefficient `µ`, 0 or more
/// - `mass_kg`             toy and everything on it `m` [kg], 0 or more
/// - `pretension_down_kg`  downward share of the straps' pretension `Σ P sin θ` [kg], 0 or more
///
/// Returns the force [kg], the same every way. Pretension over a compressed suspension is lost over bumps.
///
/// Source: dry friction.
pub fn friction_hold(friction: f64, mass_kg: f64, pretension_down_kg: f64) -> f64 {
    friction * (mass_kg + pretension_down_kg)
}

/// WLL of a tie-down made of parts: the least of webbing or chain, fittings, tensioner and anchor points.
///
/// - `part_wll_kg`  WLL of each part [kg]
///
/// Returns the WLL [kg]; None without a part.
///
/// Source: 49 CFR 393.108(a).
pub fn assembly_wll(part_wll_kg: &[f64]) -> Option<f64> {
    part_wll_kg.iter().copied().reduce(f64::min)
}

/// WLL of unmarked synthetic webbing by its width.
///
/// - `width_m`  width [m], > 0; between two widths of the table the narrower counts
///
/// Returns the WLL [kg]; None for webbing narrower than the table begins.
///
/// Source: 49 CFR 393.108, table for synthetic webbing.
pub fn unmarked_webbing_wll(width_m: f64) -> Option<f64> {
    UNMARKED_WEBBING
        .iter()
        .rev()
        .find(|(width_in, _)| width_in * M_PER_IN <= width_m)
        .map(|(_, wll_lb)| wll_lb * KG_PER_LB)
}

/// Aggregate WLL of the tie-downs on a toy.
///
/// `Σ WLL/2` of those to an anchor on it or over it back to the same side, `+ Σ WLL` of those over it to the other
///
/// - `tie_downs`  all tie-downs on the toy
///
/// Returns the aggregate [kg], to be no less than [`required_aggregate_wll`].
///
/// Source: 49 CFR 393.106(d).
pub fn aggregate_wll(tie_downs: &[TieDown]) -> f64 {
    tie_downs.iter().fold(0.0, |sum, tie_down| sum + tie_down.wll_kg * tie_down.aggregate_share())
}

/// Aggregate WLL asked for: half the weight.
///
/// `m / 2`
///
/// - `mass_kg`  toy and everything on it `m` [kg], 0 or more
///
/// Returns the aggregate [kg].
///
/// Source: 49 CFR 393.106(d).
pub fn required_aggregate_wll(mass_kg: f64) -> f64 {
    0.5 * mass_kg
}

/// Least WLL of each of n equal direct tie-downs that together reach the aggregate asked for.
///
/// `n WLL / 2 = m / 2`, so `WLL = m / n`
///
/// - `mass_kg`  toy and everything on it `m` [kg], 0 or more
/// - `count`    number of tie-downs `n`, 1 or more
///
/// Returns the WLL [kg], by the aggregate alone; infinite for none.
///
/// Source: 49 CFR 393.106(d).
pub fn least_direct_wll(mass_kg: f64, count: u32) -> f64 {
    mass_kg / f64::from(count)
}

/// Least number of tie-downs on an article that nothing blocks at its front.
///
/// One up to 5 ft and 1,100 lb; two up to 5 ft and heavier, or up to 10 ft; then one more for each further
/// 10 ft or part of it.
///
/// - `length_m`  length of the article [m], > 0
/// - `mass_kg`   its mass [kg], 0 or more
///
/// Returns the count. A machine on wheels gets [`WHEELED_MACHINE_COUNT`] in the trade.
///
/// Source: 49 CFR 393.110(b).
pub fn least_count(length_m: f64, mass_kg: f64) -> u32 {
    const FIVE_FT_M: f64 = 60.0 * M_PER_IN;
    const TEN_FT_M: f64 = 120.0 * M_PER_IN;
    // A length converted from whole feet must not gain a tie-down by rounding.
    const ROUNDING: f64 = 1.0 - 1e-12;
    const LIGHT_KG: f64 = 1100.0 * KG_PER_LB;
    if length_m * ROUNDING <= FIVE_FT_M && mass_kg * ROUNDING <= LIGHT_KG {
        return 1;
    }
    1 + (length_m * ROUNDING / TEN_FT_M).ceil() as u32
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{kg, lb, m};

    const TOY_LB: f64 = 790.0;
    const MOTIONS: [Motion; 4] = [Motion::Forward, Motion::Rearward, Motion::Left, Motion::Right];

    fn strap(pulls: Pull, side: Side) -> TieDown {
        TieDown {
            wll_kg: kg(400.0),
            breaking_strength_kg: Some(kg(1200.0)),
            floor_angle_rad: 45.0_f64.to_radians(),
            axis_angle_rad: 30.0_f64.to_radians(),
            pulls,
            side,
            attachment: Attachment::Direct,
        }
    }

    fn four_straps() -> [TieDown; 4] {
        [
            strap(Pull::Forward, Side::Left),
            strap(Pull::Forward, Side::Right),
            strap(Pull::Rearward, Side::Left),
            strap(Pull::Rearward, Side::Right),
        ]
    }

    #[test]
    fn four_small_straps_hold_a_utility_atv_by_both_tests_of_the_law() {
        let straps = four_straps();
        assert_eq!(format!("{:.6}", straps[2].hold(Motion::Forward)), "0.612372");

        let wll_lb = |motion| lb(wll_capacity(&straps, motion));
        assert_eq!(format!("{:.1}", wll_lb(Motion::Forward)), "489.9");
        assert_eq!(format!("{:.1}", wll_lb(Motion::Rearward)), "489.9");
        assert_eq!(format!("{:.2}", wll_lb(Motion::Left)), "282.84");
        assert_eq!(format!("{:.2}", wll_lb(Motion::Right)), "282.84");

        let breaking_lb = |motion| lb(breaking_capacity(&straps, motion).unwrap());
        assert_eq!(format!("{:.1}", breaking_lb(Motion::Forward)), "1469.7");
        assert_eq!(format!("{:.1}", breaking_lb(Motion::Left)), "848.5");

        let demand_lb = |accelerations, motion| lb(demand(kg(TOY_LB), accelerations, motion));
        assert_eq!(format!("{:.2}", demand_lb(AGAINST_WLL, Motion::Forward)), "343.65");
        assert_eq!(format!("{:.0}", demand_lb(AGAINST_WLL, Motion::Rearward)), "395");
        assert_eq!(format!("{:.1}", demand_lb(AGAINST_WLL, Motion::Left)), "197.5");
        assert_eq!(format!("{:.0}", demand_lb(AGAINST_BREAKING_STRENGTH, Motion::Forward)), "632");
        assert_eq!(format!("{:.0}", demand_lb(AGAINST_BREAKING_STRENGTH, Motion::Right)), "395");

        for motion in MOTIONS {
            assert!(wll_lb(motion) >= demand_lb(AGAINST_WLL, motion));
            assert!(breaking_lb(motion) >= demand_lb(AGAINST_BREAKING_STRENGTH, motion));
        }
    }

    #[test]
    fn the_mixed_rule_is_stricter_than_the_law() {
        let held = wll_capacity(&four_straps(), Motion::Forward);
        assert!(held < demand(kg(TOY_LB), AGAINST_BREAKING_STRENGTH, Motion::Forward));
        assert!(held > demand(kg(TOY_LB), AGAINST_WLL, Motion::Forward));
    }

    #[test]
    fn direct_straps_count_half_toward_half_the_weight() {
        assert_eq!(format!("{:.0}", lb(aggregate_wll(&four_straps()))), "800");
        assert_eq!(format!("{:.0}", lb(required_aggregate_wll(kg(TOY_LB)))), "395");
        assert_eq!(format!("{:.1}", lb(least_direct_wll(kg(TOY_LB), 4))), "197.5");
        assert_eq!(format!("{:.1}", lb(least_direct_wll(kg(1450.0), 4))), "362.5");
    }

    #[test]
    fn least_direct_straps_just_reach_the_aggregate() {
        let wll_kg = least_direct_wll(500.0, 4);
        let straps = four_straps().map(|strap| TieDown { wll_kg, ..strap });
        assert_eq!(aggregate_wll(&straps), required_aggregate_wll(500.0));
    }

    #[test]
    fn a_strap_over_the_toy_counts_by_the_side_it_comes_down_on() {
        let over = |attachment| [TieDown { attachment, ..strap(Pull::Forward, Side::Left) }];
        assert_eq!(format!("{:.0}", lb(aggregate_wll(&over(Attachment::OverSameSide)))), "200");
        assert_eq!(format!("{:.0}", lb(aggregate_wll(&over(Attachment::OverToOtherSide)))), "400");
        for motion in MOTIONS {
            assert_eq!(wll_capacity(&over(Attachment::OverToOtherSide), motion), 0.0);
        }
    }

    #[test]
    fn a_strap_holds_only_against_the_way_it_pulls() {
        let one = [strap(Pull::Rearward, Side::Left)];
        assert!(wll_capacity(&one, Motion::Forward) > 0.0);
        assert!(wll_capacity(&one, Motion::Right) > 0.0);
        assert_eq!(wll_capacity(&one, Motion::Rearward), 0.0);
        assert_eq!(wll_capacity(&one, Motion::Left), 0.0);
    }

    #[test]
    fn one_unknown_breaking_strength_leaves_the_ways_it_pulls_unknown() {
        let mut straps = four_straps();
        straps[0].breaking_strength_kg = None;
        assert_eq!(breaking_capacity(&straps, Motion::Rearward), None);
        assert_eq!(breaking_capacity(&straps, Motion::Right), None);
        assert!(breaking_capacity(&straps, Motion::Forward).is_some());
        assert!(breaking_capacity(&straps, Motion::Left).is_some());
        assert_eq!(breaking_capacity(&[], Motion::Forward), Some(0.0));
    }

    #[test]
    fn friction_holds_its_share_of_weight_and_pretension() {
        assert_eq!(format!("{:.6}", friction_hold(DRY_PLYWOOD_FRICTION, 350.0, 50.0)), "160.000000");
    }

    #[test]
    fn the_weakest_part_decides() {
        assert_eq!(assembly_wll(&[700.0, 400.0, 500.0]), Some(400.0));
        assert_eq!(assembly_wll(&[]), None);
    }

    #[test]
    fn unmarked_webbing_counts_by_its_width() {
        let wll_lb =
            |width_in: f64| unmarked_webbing_wll(m(width_in)).map(|wll_kg| format!("{:.0}", lb(wll_kg)));
        // 49 CFR 393.108, table for synthetic webbing.
        for (width_in, wll) in [(1.75, "1750"), (2.0, "2000"), (3.0, "3000"), (4.0, "4000")] {
            assert_eq!(wll_lb(width_in).as_deref(), Some(wll));
        }
        assert_eq!(wll_lb(2.5).as_deref(), Some("2000"));
        assert_eq!(wll_lb(1.0), None);
    }

    #[test]
    fn tie_downs_are_counted_by_length_and_weight() {
        // 49 CFR 393.110(b): length [in], mass [lb], count.
        for (length_in, mass_lb, count) in [
            (60.0, 1100.0, 1),
            (60.0, 1101.0, 2),
            (61.0, 300.0, 2),
            (120.0, 5000.0, 2),
            (121.0, 300.0, 3),
            (240.0, 300.0, 3),
            (241.0, 300.0, 4),
        ] {
            assert_eq!(least_count(m(length_in), kg(mass_lb)), count, "{length_in} in, {mass_lb} lb");
        }
    }

    #[test]
    fn whole_tens_of_feet_gain_no_tie_down_by_rounding() {
        for tens in 1..=50 {
            assert_eq!(least_count(m(120.0 * f64::from(tens)), 100.0), 1 + tens);
        }
    }
}
