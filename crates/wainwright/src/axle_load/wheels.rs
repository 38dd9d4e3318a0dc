//! Left and right wheels. The ball takes no roll moment, so the wheels take all of it.

/// Loads of an axle's two sides.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Sides {
    /// Load on the left [kg].
    pub left_kg: f64,
    /// Load on the right [kg].
    pub right_kg: f64,
}

/// Loads of an axle's two sides.
///
/// `R_j = A_j/2 + r_j W Y / t_j`, `L_j = A_j/2 − r_j W Y / t_j`
///
/// - `axle_load_kg`   load of the axle A_j [kg]
/// - `roll_share`     the axle's share of the roll moment r_j, 0 to 1: for an equalised group the axle's share
///   of the load, since each side's equaliser works alone; else from [`roll_shares`]
/// - `lateral_kg_m`   Σ w y = W Y of everything aboard, right positive [kg·m]
/// - `track_m`        wheel centre to wheel centre t_j [m], > 0
///
/// Returns the loads. Below zero a wheel has lifted and the linear model is void: nothing is clipped.
///
/// Source: equilibrium of roll moments.
pub fn sides(axle_load_kg: f64, roll_share: f64, lateral_kg_m: f64, track_m: f64) -> Sides {
    let shift_kg = roll_share * lateral_kg_m / track_m;
    Sides { left_kg: axle_load_kg / 2.0 - shift_kg, right_kg: axle_load_kg / 2.0 + shift_kg }
}

/// Shares of the roll moment among axles sprung on their own.
///
/// `r_j = k_j t_j² / Σ k t²`
///
/// - `rates_kg_per_m`  each axle's vertical rate k_j [kg/m], > 0
/// - `tracks_m`        each axle's track t_j [m], > 0
///
/// Returns the shares, which sum to 1.
///
/// Source: springs in parallel on a rigid body that rolls.
pub fn roll_shares<const N: usize>(rates_kg_per_m: [f64; N], tracks_m: [f64; N]) -> [f64; N] {
    let mut shares = rates_kg_per_m;
    for (share, track) in shares.iter_mut().zip(tracks_m) {
        *share *= track * track;
    }
    let sum: f64 = shares.iter().sum();
    shares.map(|stiffness| stiffness / sum)
}

#[cfg(test)]
mod tests {
    use super::super::fixture::*;
    use super::super::independent::{self, Axle};
    use super::*;
    use crate::equalized;
    use crate::units::{kg_per_m, lb, m};

    #[test]
    fn heavy_side_is_where_the_mass_is() {
        let t = totals();
        let load = equalized::axle_load_kg(0.5, t.x_kg_m, m(GROUP_X_IN), 0.0);
        let s = sides(load, 0.5, t.y_kg_m, m(TRACK_IN));
        assert_printed(lb(s.right_kg), "896.7213");
        assert_printed(lb(s.left_kg), "947.2734");
    }

    #[test]
    fn stiffer_axle_takes_more_roll() {
        let shares = roll_shares([900.0, 700.0].map(kg_per_m), [m(TRACK_IN); 2]);
        assert_printed(shares[0], "0.5625");
        assert_printed(shares[1], "0.4375");
    }

    #[test]
    fn unequal_tracks_count_squared() {
        assert_eq!(roll_shares([1.0, 1.0], [1.0, 2.0]), [0.2, 0.8]);
    }

    const RATE_LB_PER_IN: f64 = 900.0;
    const FREE_HEIGHT_IN: f64 = 21.04888304;
    const RAISED_BALL_IN: f64 = 20.0;

    /// The same trailer as four springs under a rigid body hung from the ball: unknown slopes p (rear up) and
    /// q (right up), each wheel at (x, ±t/2) pressing with half the axle's rate. Pounds and inches.
    fn four_wheels_lb() -> [[f64; 2]; 2] {
        let (moment, lateral) =
            ITEMS_LB_IN.iter().fold((0.0, 0.0), |(mx, my), [w, x, y, _]| (mx + w * x, my + w * y));
        let (k, lift) = (RATE_LB_PER_IN / 2.0, FREE_HEIGHT_IN - RAISED_BALL_IN);
        let wheels = AXLE_X_IN.map(|x| [-TRACK_IN / 2.0, TRACK_IN / 2.0].map(|y| (x, y)));
        let (mut xx, mut xy, mut yy, mut bx, mut by) = (0.0, 0.0, 0.0, -moment, -lateral);
        for (x, y) in wheels.into_iter().flatten() {
            xx += k * x * x;
            xy += k * x * y;
            yy += k * y * y;
            bx += k * lift * x;
            by += k * lift * y;
        }
        let det = xx * yy - xy * xy;
        let (p, q) = ((bx * yy - by * xy) / det, (by * xx - bx * xy) / det);
        wheels.map(|pair| pair.map(|(x, y)| k * (lift - p * x - q * y)))
    }

    #[test]
    fn axle_by_axle_agrees_with_four_springs_under_one_body() {
        let t = totals();
        let axles = AXLE_X_IN.map(|x| Axle {
            x_m: m(x),
            rate_kg_per_m: kg_per_m(RATE_LB_PER_IN),
            free_height_m: m(FREE_HEIGHT_IN),
        });
        let stance = independent::stance(&axles, m(RAISED_BALL_IN), t.x_kg_m);
        let shares = roll_shares(axles.map(|a| a.rate_kg_per_m), [m(TRACK_IN); 2]);
        let body = four_wheels_lb();
        for (j, [right, left]) in [["853.2040", "903.7562"], ["933.0908", "983.6429"]].into_iter().enumerate()
        {
            let s = sides(stance.loads_kg[j], shares[j], t.y_kg_m, m(TRACK_IN));
            assert_printed(lb(s.right_kg), right);
            assert_printed(lb(s.left_kg), left);
            assert_printed(body[j][1], right);
            assert_printed(body[j][0], left);
        }
    }
}
