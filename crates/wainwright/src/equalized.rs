//! Axles that share their load through equalisers: single, tandem and triple groups on leaf springs.
//!
//! Holds while the equaliser is free within its travel and the hitch stands within about 3 in of level
//! (`common practice`). The reaction of brake torque, which shifts load between axles on springs without
//! radius rods, is left out.

/// Shares of the front and the rear axle of a tandem from the arms of its equaliser.
///
/// `s_f = e_r / (e_f + e_r)`, `s_r = e_f / (e_f + e_r)`
///
/// - `front_arm_m`  pivot to the front spring's end [m], > 0
/// - `rear_arm_m`   pivot to the rear spring's end [m], > 0
///
/// Returns two shares that sum to 1. Axles are centred on their springs.
///
/// Source: moments about the equaliser's pivot.
pub fn tandem_shares(front_arm_m: f64, rear_arm_m: f64) -> [f64; 2] {
    let arms_m = front_arm_m + rear_arm_m;
    [rear_arm_m / arms_m, front_arm_m / arms_m]
}

/// Share of each axle of a group with equal arms: `s = 1 / n`.
///
/// - `axle_count`  1 to 3
///
/// Source: moments about each equaliser's pivot.
pub fn equal_share(axle_count: usize) -> f64 {
    1.0 / axle_count as f64
}

/// Station at which a group of axles may be thought of as one.
///
/// `L = Σ s_j x_j`
///
/// - `shares`      share of each axle, sum 1
/// - `stations_m`  each axle's distance behind the ball [m], as many as shares
///
/// Returns the station [m].
///
/// Source: resultant of parallel forces.
pub fn group_station_m(shares: &[f64], stations_m: &[f64]) -> f64 {
    debug_assert_eq!(shares.len(), stations_m.len());
    shares.iter().zip(stations_m).map(|(s, x)| s * x).sum()
}

/// Load on the whole axle group.
///
/// `A = M / L`
///
/// - `moment_kg_m`  Σ w x of everything aboard about the ball [kg·m]
/// - `group_x_m`    the group's station [m], > 0
///
/// Returns the load [kg]. Below zero the group would lift: nothing is clipped.
///
/// Source: equilibrium of moments about the ball.
#[inline]
pub fn group_load_kg(moment_kg_m: f64, group_x_m: f64) -> f64 {
    moment_kg_m / group_x_m
}

/// Load of one axle of the group, its unsprung mass bearing on itself.
///
/// `A_j = s_j (Σ_S w x) / L + u_j`, the sum over the sprung masses S
///
/// - `share`               the axle's share s_j, 0 to 1
/// - `sprung_moment_kg_m`  Σ w x of the sprung masses about the ball [kg·m]
/// - `group_x_m`           the group's station L [m], > 0
/// - `unsprung_kg`         axle, hubs, wheels and tires u_j [kg]; 0 when counted among the sprung masses
///
/// Returns the load on the ground [kg], unclipped.
///
/// Source: equilibrium of moments about the ball.
#[inline]
pub fn axle_load_kg(share: f64, sprung_moment_kg_m: f64, group_x_m: f64, unsprung_kg: f64) -> f64 {
    share * group_load_kg(sprung_moment_kg_m, group_x_m) + unsprung_kg
}

/// Load of the coupler on the ball.
///
/// `T = W − A`
///
/// - `gross_kg`  mass of the whole trailer [kg]
/// - `axles_kg`  load on all its axles [kg]
///
/// Returns the load [kg], down on the ball. Below zero the uncoupled trailer tips onto its tail.
///
/// Source: equilibrium of vertical forces.
#[inline]
pub fn tongue_load_kg(gross_kg: f64, axles_kg: f64) -> f64 {
    gross_kg - axles_kg
}

/// What one more kilogram at a place adds to the tongue: `∂T/∂w = 1 − x / L`.
///
/// - `x_m`        distance behind the ball [m]
/// - `group_x_m`  the group's station [m], > 0
///
/// Returns kilograms a kilogram; the rest, `x / L`, goes on the axles.
///
/// Source: equilibrium of moments about the ball.
#[inline]
pub fn tongue_per_kg(x_m: f64, group_x_m: f64) -> f64 {
    1.0 - x_m / group_x_m
}

/// What moving the axle group rearward adds to the tongue: `∂T/∂L = M / L²`.
///
/// - `moment_kg_m`  Σ w x about the ball [kg·m]
/// - `group_x_m`    the group's station [m], > 0
///
/// Returns the change [kg/m].
///
/// Source: derivative of [`group_load_kg`].
pub fn tongue_per_station_kg_per_m(moment_kg_m: f64, group_x_m: f64) -> f64 {
    moment_kg_m / (group_x_m * group_x_m)
}

/// Load on the ball with the whole trailer pitched, the axle force acting at hub height.
///
/// `X' = X cos φ + (h − h_b) sin φ`, `L' = L cos φ + (z_h − h_b) sin φ`, `T = W (1 − X'/L')`
///
/// - `gross_kg`       mass W [kg]
/// - `center_x_m`     centre of gravity behind the ball X [m]
/// - `center_z_m`     height of the centre of gravity, trailer level, h [m]
/// - `group_x_m`      the group's station L [m], > 0
/// - `hub_height_m`   height of the hubs z_h [m]
/// - `ball_height_m`  height of the ball h_b [m]
/// - `pitch_rad`      pitch φ, nose-up positive [rad], a few degrees
///
/// Returns the load [kg].
///
/// Source: equilibrium of moments about the ball.
pub fn pitched_tongue_load_kg(
    gross_kg: f64,
    center_x_m: f64,
    center_z_m: f64,
    group_x_m: f64,
    hub_height_m: f64,
    ball_height_m: f64,
    pitch_rad: f64,
) -> f64 {
    let (sin, cos) = pitch_rad.sin_cos();
    let center_m = center_x_m * cos + (center_z_m - ball_height_m) * sin;
    let group_m = group_x_m * cos + (hub_height_m - ball_height_m) * sin;
    gross_kg * (1.0 - center_m / group_m)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::axle_load::fixture::*;
    use crate::units::{inches, kg, lb, m};

    #[test]
    fn group_and_tongue_balance_the_trailer() {
        let t = totals();
        let axles = group_load_kg(t.x_kg_m, m(GROUP_X_IN));
        let tongue = tongue_load_kg(t.mass_kg, axles);
        assert_printed(lb(axles), "3687.9895");
        assert_printed(lb(tongue), "548.01053");
        assert_printed(tongue / t.mass_kg, "0.12936981");
    }

    #[test]
    fn tongue_rises_as_the_axles_move_back() {
        let per_m = tongue_per_station_kg_per_m(totals().x_kg_m, m(GROUP_X_IN));
        assert_printed(lb(per_m * m(1.0)), "19.41");
    }

    #[test]
    fn tongue_falls_when_mass_moves_back() {
        let group = m(GROUP_X_IN);
        let moved = tongue_per_kg(m(110.0), group) - tongue_per_kg(m(100.0), group);
        assert!((moved + 10.0 / GROUP_X_IN).abs() < 1e-12);
        assert_eq!(tongue_per_kg(group, group), 0.0);
    }

    #[test]
    fn equal_arms_share_equally_with_unsprung_masses_lumped_or_apart() {
        let t = totals();
        let lumped = axle_load_kg(equal_share(2), t.x_kg_m, m(GROUP_X_IN), 0.0);
        let unsprung_moment: f64 = AXLE_X_IN.iter().map(|&x| kg(330.0) * m(x)).sum();
        let apart = axle_load_kg(equal_share(2), t.x_kg_m - unsprung_moment, m(GROUP_X_IN), kg(330.0));
        assert_printed(lb(lumped), "1844.0");
        assert_printed(lb(apart), "1844.0");
        assert!((lumped - apart).abs() < 1e-9);
    }

    #[test]
    fn unequal_arms_load_the_axle_of_the_shorter_arm_more() {
        let shares = tandem_shares(m(5.5), m(6.5));
        assert_printed(shares[0], "0.5416667");
        assert_printed(shares[1], "0.4583333");
        let group = group_station_m(&shares, &AXLE_X_IN.map(m));
        assert_printed(inches(group), "188.58333");
        let t = totals();
        let axles = group_load_kg(t.x_kg_m, group);
        assert_printed(lb(axles), "3715.694");
        assert_printed(lb(axle_load_kg(shares[0], t.x_kg_m, group, 0.0)), "2012.668");
        assert_printed(lb(axle_load_kg(shares[1], t.x_kg_m, group, 0.0)), "1703.027");
        assert_printed(lb(tongue_load_kg(t.mass_kg, axles)), "520.3058");
    }

    #[test]
    fn triple_with_equal_arms_acts_at_the_mean_station() {
        let share = equal_share(3);
        let group = group_station_m(&[share; 3], &[156.0, 190.0, 224.0].map(m));
        assert!((inches(group) - 190.0).abs() < 1e-12);
    }

    #[test]
    fn nose_up_takes_load_off_the_ball() {
        let t = totals();
        let tongue_lb = |degrees: f64| {
            lb(pitched_tongue_load_kg(
                t.mass_kg,
                t.center_x_m(),
                t.center_z_m(),
                m(GROUP_X_IN),
                m(HUB_HEIGHT_IN),
                m(BALL_HEIGHT_IN),
                degrees.to_radians(),
            ))
        };
        assert_printed(tongue_lb(0.0), "548.0105");
        assert_printed(tongue_lb(1.0), "538.05");
        assert_printed(tongue_lb(2.0), "528.08");
        assert_printed(tongue_lb(-2.0), "567.91");
    }
}
