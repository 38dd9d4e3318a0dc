//! Tail-tip: what a toy on the ramp does to a trailer that no tow vehicle holds down.
//!
//! Wheels chocked, level ground. An equalized axle group turns about its centre while the equalizer is free, and
//! about its last axle once the equalizer is at its stop. With independent suspensions the load on the jack follows
//! from their stiffness while all axles carry; the point of no return is the same.

use crate::masses::Totals;

/// Factor on the moment of a machine that is driven in fast and brakes at its stop: 1.3, common practice.
pub const BRAKED_STOP_FACTOR: f64 = 1.3;

/// A toy as two axle loads.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ToyAxles {
    /// Load on the axle that goes in first, the rider's share included [kg], 0 or more.
    pub front_kg: f64,
    /// Load on the other axle, the rider's share included [kg], 0 or more.
    pub rear_kg: f64,
    /// Distance between the two [m], > 0.
    pub wheelbase_m: f64,
}

/// The ramp as the moments about a pivot see it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RampSpan {
    /// Horizontal distance from the hinge to the ramp's foot [m], > 0.
    pub reach_m: f64,
    /// Distance of the hinge behind the pivot [m], > 0.
    pub hinge_arm_m: f64,
}

/// Moment that keeps the nose down, about a pivot under the axles.
///
/// `M = W (x_p − X)`
///
/// - `aboard`     everything that stands on the trailer
/// - `pivot_x_m`  pivot behind the ball `x_p` [m]: centre of the axle group or the last axle
///
/// Returns the moment [kg·m]. Below zero the trailer turns onto its tail about this pivot.
///
/// Source: equilibrium of moments.
pub fn restoring_moment(aboard: &Totals, pivot_x_m: f64) -> f64 {
    aboard.mass_kg * pivot_x_m - aboard.x_kg_m
}

/// Load on the jack of the unhitched trailer.
///
/// `J = W (L − X) / (L − x_j)`, with a toy of mass m at x counted in: `J = [W (L − X) − m (x − L)] / (L − x_j)`
///
/// - `aboard`     everything that stands on the trailer, the toy on the ramp included
/// - `group_x_m`  centre of the axle group behind the ball `L` [m], > `jack_x_m`
/// - `jack_x_m`   jack foot behind the ball `x_j` [m]
///
/// Returns the load [kg]. Below zero the jack has lifted off.
///
/// Source: equilibrium of moments.
pub fn jack_load(aboard: &Totals, group_x_m: f64, jack_x_m: f64) -> f64 {
    restoring_moment(aboard, group_x_m) / (group_x_m - jack_x_m)
}

/// Mass that just brings the unhitched trailer to turn about a pivot.
///
/// `m = W (x_p − X) / (x − x_p)`
///
/// About the centre of the axle group it is the mass at first lift of the jack, the limit. About the last axle
/// it is the point of no return, the physical end. With a single axle the two are the same.
///
/// - `rest`       everything on the trailer but this mass
/// - `pivot_x_m`  pivot behind the ball `x_p` [m]
/// - `x_m`        where the mass stands behind the ball `x` [m]
///
/// Returns the mass [kg]; below zero for a trailer that turns by itself. None for a place that is not behind
/// the pivot, where no mass can tip the trailer.
///
/// Source: equilibrium of moments.
pub fn tipping_mass(rest: &Totals, pivot_x_m: f64, x_m: f64) -> Option<f64> {
    (x_m > pivot_x_m).then(|| restoring_moment(rest, pivot_x_m) / (x_m - pivot_x_m))
}

/// Moment about the pivot of one axle of a toy on its way in.
///
/// `p ≤ 0: w (1 − |p|/D)(x_h − x_p)`, `p > 0: w (x_h − p − x_p)`
///
/// On the ramp the ground under its foot carries a share, so that only the rest reaches the hinge.
///
/// - `load_kg`   load of the axle `w` [kg], 0 or more
/// - `inward_m`  how far it is inside the hinge `p` [m]; below 0 on the ramp
/// - `ramp`      the ramp, its foot on the ground
///
/// Returns the moment [kg·m], tail-down above zero; zero for an axle not yet on the ramp.
///
/// Source: equilibrium of moments; the ramp as a beam on hinge and foot.
fn axle_moment(load_kg: f64, inward_m: f64, ramp: RampSpan) -> f64 {
    if inward_m > 0.0 {
        load_kg * (ramp.hinge_arm_m - inward_m)
    } else {
        load_kg * (1.0 + inward_m / ramp.reach_m).max(0.0) * ramp.hinge_arm_m
    }
}

/// Moment about the pivot of a toy on its way in.
///
/// The sum of its two axles' moments. Piecewise linear in the travel; no place gives more than the greater of
/// the two with the front axle (`front_inward_m` = 0) or the rear axle (`front_inward_m` = wheelbase) on the hinge.
///
/// - `toy`             the axle loads
/// - `ramp`            the ramp, its foot on the ground
/// - `front_inward_m`  how far the front axle is inside the hinge [m]; below 0 on the ramp
///
/// Returns the moment [kg·m], tail-down above zero.
///
/// Source: equilibrium of moments.
pub fn loading_moment(toy: ToyAxles, ramp: RampSpan, front_inward_m: f64) -> f64 {
    axle_moment(toy.front_kg, front_inward_m, ramp)
        + axle_moment(toy.rear_kg, front_inward_m - toy.wheelbase_m, ramp)
}

/// Moment about the pivot with the toy's front axle on the hinge and its rear axle on the ramp.
///
/// `M₁ = [w_f + w_r max(0, 1 − b/D)] (x_h − x_p)`
///
/// - `toy`   the axle loads
/// - `ramp`  the ramp, its foot on the ground
///
/// Returns the moment [kg·m].
///
/// Source: equilibrium of moments.
pub fn front_axle_on_hinge_moment(toy: ToyAxles, ramp: RampSpan) -> f64 {
    loading_moment(toy, ramp, 0.0)
}

/// Moment about the pivot with the toy's rear axle on the hinge and its front axle on the floor.
///
/// `M₂ = w_r (x_h − x_p) + w_f (x_h − b − x_p)`
///
/// - `toy`   the axle loads
/// - `ramp`  the ramp, its foot on the ground
///
/// Returns the moment [kg·m].
///
/// Source: equilibrium of moments.
pub fn rear_axle_on_hinge_moment(toy: ToyAxles, ramp: RampSpan) -> f64 {
    loading_moment(toy, ramp, toy.wheelbase_m)
}

/// Moment about the pivot of a whole mass standing on the hinge line: the bound on every way of loading it.
///
/// `M = m (x_h − x_p)`
///
/// Reached where the ramp's foot hangs over a hollow, with loose ramps pulled away, or with a porch full of people.
///
/// - `mass_kg`      toy and rider [kg], 0 or more
/// - `hinge_arm_m`  distance of the hinge behind the pivot `x_h − x_p` [m], > 0
///
/// Returns the moment [kg·m].
///
/// Source: equilibrium of moments.
pub fn standing_moment(mass_kg: f64, hinge_arm_m: f64) -> f64 {
    mass_kg * hinge_arm_m
}

/// Load on the rear stabilizers together, once the jack has lifted off.
///
/// `R_s = W (X − L) / (x_s − L)`, with a toy of mass m at x counted in: `R_s = [m (x − L) − W (L − X)] / (x_s − L)`
///
/// - `aboard`          everything that stands on the trailer, the toy on the ramp included
/// - `group_x_m`       centre of the axle group behind the ball `L` [m]
/// - `stabilizer_x_m`  stabilizers behind the ball `x_s` [m], > `group_x_m`
///
/// Returns the load [kg]; zero while the jack still carries. Set before loading: they carry nothing until the
/// tail has come down to them.
///
/// Source: equilibrium of moments.
pub fn stabilizer_load(aboard: &Totals, group_x_m: f64, stabilizer_x_m: f64) -> f64 {
    (-restoring_moment(aboard, group_x_m) / (stabilizer_x_m - group_x_m)).max(0.0)
}

/// Pull of the ball upward on the tow vehicle's rear, coupled, level and without stabilizers.
///
/// `−T = W (X − L) / L`, if positive
///
/// - `aboard`     everything that stands on the trailer, the toy on the ramp included
/// - `group_x_m`  centre of the axle group behind the ball `L` [m], > 0
///
/// Returns the pull [kg]; zero while the coupler still presses down. The coupler latch and the tow vehicle's
/// parking brake, which usually holds the rear wheels, are its limits.
///
/// Source: equilibrium of moments.
pub fn ball_uplift(aboard: &Totals, group_x_m: f64) -> f64 {
    (-restoring_moment(aboard, group_x_m) / group_x_m).max(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::axle_load::toy_bay::ramp;
    use crate::masses::PointMass;
    use crate::units::{kg, lb, lb_in, m};
    use proptest::prelude::*;

    /// Items of mass [lb] at x [in]: an invented tandem trailer with axles at 173 and 207 in.
    const TRAILER: [(f64, f64); 9] = [
        (1950.0, 176.0),
        (330.0, 173.0),
        (330.0, 207.0),
        (820.0, 172.0),
        (310.0, 120.0),
        (260.0, 150.0),
        (105.0, 92.0),
        (55.0, 70.0),
        (76.0, 18.0),
    ];

    const TOY: (f64, f64, f64) = (360.0, 430.0, 50.0);

    fn at(mass_lb: f64, x_in: f64) -> Totals {
        PointMass { mass_kg: kg(mass_lb), x_m: m(x_in), y_m: 0.0, z_m: 0.0 }.into()
    }

    fn trailer() -> Totals {
        TRAILER.iter().map(|&(mass_lb, x_in)| at(mass_lb, x_in)).sum()
    }

    fn toy() -> ToyAxles {
        ToyAxles { front_kg: kg(TOY.0), rear_kg: kg(TOY.1), wheelbase_m: m(TOY.2) }
    }

    fn ramp_about(pivot_in: f64) -> RampSpan {
        RampSpan { reach_m: ramp::reach(m(72.0), m(22.0)), hinge_arm_m: m(262.0 - pivot_in) }
    }

    #[test]
    fn first_lift_comes_long_before_the_point_of_no_return() {
        let mass_lb = |pivot_in: f64, x_in: f64| lb(tipping_mass(&trailer(), m(pivot_in), m(x_in)).unwrap());
        assert_eq!(format!("{:.2}", mass_lb(190.0, 262.0)), "1446.14");
        assert_eq!(format!("{:.2}", mass_lb(207.0, 262.0)), "3202.44");
        assert_eq!(format!("{:.2}", mass_lb(190.0, 300.0)), "946.56");
    }

    #[test]
    fn no_mass_ahead_of_the_pivot_tips_the_trailer() {
        assert_eq!(tipping_mass(&trailer(), m(190.0), m(190.0)), None);
        assert_eq!(tipping_mass(&trailer(), m(190.0), m(100.0)), None);
    }

    #[test]
    fn moments_about_the_axle_group_match_the_pencil() {
        let ramp = ramp_about(190.0);
        assert_eq!(format!("{:.1}", lb_in(front_axle_on_hinge_moment(toy(), ramp))), "34300.1");
        assert_eq!(format!("{:.0}", lb_in(rear_axle_on_hinge_moment(toy(), ramp))), "38880");
        assert_eq!(format!("{:.0}", lb_in(standing_moment(kg(790.0), ramp.hinge_arm_m))), "56880");
    }

    #[test]
    fn moments_about_the_last_axle_match_the_pencil() {
        let ramp = ramp_about(207.0);
        assert_eq!(format!("{:.1}", lb_in(front_axle_on_hinge_moment(toy(), ramp))), "26201.5");
        assert_eq!(format!("{:.0}", lb_in(rear_axle_on_hinge_moment(toy(), ramp))), "25450");
        assert_eq!(format!("{:.0}", lb_in(standing_moment(kg(790.0), ramp.hinge_arm_m))), "43450");
    }

    #[test]
    fn the_trailers_own_weight_holds_the_nose_down() {
        let about = |aboard: &Totals, pivot_in: f64| lb_in(restoring_moment(aboard, m(pivot_in)));
        // 4236·190 − 700,718 and 4236·207 − 700,718.
        assert_eq!(format!("{:.2}", about(&trailer(), 190.0)), "104122.00");
        assert_eq!(format!("{:.2}", about(&trailer(), 207.0)), "176134.00");
        // From the centre of gravity rounded to 165.41974 in.
        assert_eq!(format!("{:.2}", about(&at(4236.0, 165.41974), 190.0)), "104121.98");
        assert_eq!(format!("{:.2}", about(&at(4236.0, 165.41974), 207.0)), "176133.98");
    }

    #[test]
    fn stabilizers_carry_only_once_the_jack_has_lifted() {
        let load_lb = |toy_lb: f64| lb(stabilizer_load(&(trailer() + at(toy_lb, 262.0)), m(190.0), m(256.0)));
        assert_eq!(format!("{:.2}", load_lb(1600.0)), "167.85");
        assert_eq!(load_lb(1400.0), 0.0);
    }

    #[test]
    fn stabilizers_and_axles_together_carry_everything_aboard() {
        let aboard = trailer() + at(1600.0, 262.0);
        let stabilizers = stabilizer_load(&aboard, m(190.0), m(256.0));
        let axles = aboard.mass_kg - stabilizers;
        let moment = axles * m(190.0) + stabilizers * m(256.0);
        assert!((moment - aboard.x_kg_m).abs() < 1e-9 * moment);
    }

    #[test]
    fn the_jack_reads_the_tongue_load_taken_to_its_own_place() {
        assert_eq!(format!("{:.1}", lb(jack_load(&trailer(), m(190.0), m(8.0)))), "572.1");
        assert_eq!(format!("{:.2}", lb(jack_load(&trailer(), m(190.0), 0.0))), "548.01");
    }

    #[test]
    fn a_toy_on_the_ramp_takes_load_off_the_coupler() {
        // A jack under the ball itself carries what the coupler would.
        let tongue_lb = |x_in: f64| lb(jack_load(&(trailer() + at(790.0, x_in)), m(190.0), 0.0));
        assert_eq!(format!("{:.1}", tongue_lb(262.0)), "248.6");
        assert_eq!(format!("{:.2}", tongue_lb(300.0)), "90.64");
        assert_eq!(ball_uplift(&(trailer() + at(790.0, 300.0)), m(190.0)), 0.0);
    }

    #[test]
    fn the_ball_pulls_up_once_the_trailer_would_tip() {
        let aboard = trailer() + at(1600.0, 262.0);
        // 1600·72/190 − 548.01053
        assert_eq!(format!("{:.2}", lb(ball_uplift(&aboard, m(190.0)))), "58.31");
    }

    #[test]
    fn the_tipping_mass_just_lifts_the_jack() {
        let mass_kg = tipping_mass(&trailer(), m(190.0), m(262.0)).unwrap();
        let aboard = trailer() + at(lb(mass_kg), 262.0);
        assert!(jack_load(&aboard, m(190.0), m(8.0)).abs() < 1e-9);
    }

    proptest! {
        #[test]
        fn no_place_on_the_way_in_exceeds_the_two_at_the_hinge(
            front_kg in 0.0..400.0,
            rear_kg in 0.0..400.0,
            wheelbase_m in 0.5..3.0,
            reach_m in 0.3..3.0,
            hinge_arm_m in 0.1..4.0,
        ) {
            let toy = ToyAxles { front_kg, rear_kg, wheelbase_m };
            let ramp = RampSpan { reach_m, hinge_arm_m };
            let most = front_axle_on_hinge_moment(toy, ramp).max(rear_axle_on_hinge_moment(toy, ramp));
            for step in 0..=600 {
                let front_inward_m = -reach_m + 0.02 * f64::from(step);
                prop_assert!(loading_moment(toy, ramp, front_inward_m) <= most + 1e-9);
            }
            prop_assert!(most <= standing_moment(front_kg + rear_kg, hinge_arm_m) + 1e-9);
        }
    }
}
