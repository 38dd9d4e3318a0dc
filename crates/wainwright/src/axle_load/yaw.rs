//! Yaw inertia: how unwilling a trailer is to swing.
//!
//! Moments of inertia about the ball's vertical axis add and subtract like masses, so a state's sum is made of its
//! items' sums and moved to another axis at the end. The shell's own inertia is as large as all the rest: leave it out
//! and the trailer looks twice as nimble as it is.

use crate::masses::{PointMass, Totals};

/// Own yaw inertia of a body spread evenly over a rectangle.
///
/// `I = w (l² + b²) / 12`
///
/// - `mass_kg`   w [kg]
/// - `length_m`  l [m]
/// - `width_m`   b [m]
///
/// Returns the inertia about its own centre [kg·m²].
///
/// Source: moment of inertia of a uniform rectangular plate.
pub fn rectangle_kg_m2(mass_kg: f64, length_m: f64, width_m: f64) -> f64 {
    mass_kg * (length_m * length_m + width_m * width_m) / 12.0
}

/// Yaw inertia of one item about the ball.
///
/// `I = w (x² + y²) + I_own`
///
/// - `item`       its mass w and place x, y
/// - `own_kg_m2`  inertia about its own centre [kg·m²], 0 for a small thing
///
/// Returns the inertia [kg·m²]; the trailer's is the sum over its items.
///
/// Source: parallel-axis theorem.
pub fn about_ball_kg_m2(item: PointMass, own_kg_m2: f64) -> f64 {
    item.mass_kg * (item.x_m * item.x_m + item.y_m * item.y_m) + own_kg_m2
}

/// Yaw inertia about the centre of gravity.
///
/// `I_cg = I_ball − W (X² + Y²)`
///
/// - `about_ball_kg_m2`  I_ball of everything aboard [kg·m²]
/// - `totals`            everything aboard, mass above 0
///
/// Returns the inertia [kg·m²].
///
/// Source: parallel-axis theorem.
pub fn about_center_kg_m2(about_ball_kg_m2: f64, totals: &Totals) -> f64 {
    let (x, y) = (totals.x_kg_m, totals.y_kg_m);
    about_ball_kg_m2 - (x * x + y * y) / totals.mass_kg
}

/// Yaw inertia about the axle group, on the centreline.
///
/// `I_axle = I_cg + W (X − L)² + W Y² = I_ball − 2 L W X + W L²`
///
/// - `about_ball_kg_m2`  I_ball of everything aboard [kg·m²]
/// - `totals`            everything aboard
/// - `group_x_m`         station of the axle group L [m]
///
/// Returns the inertia [kg·m²].
///
/// Source: parallel-axis theorem.
pub fn about_group_kg_m2(about_ball_kg_m2: f64, totals: &Totals, group_x_m: f64) -> f64 {
    about_ball_kg_m2 + group_x_m * (totals.mass_kg * group_x_m - 2.0 * totals.x_kg_m)
}

/// Radius of gyration: distance at which the whole mass would have the same inertia.
///
/// `k = √(I / W)`
///
/// - `inertia_kg_m2`  I [kg·m²]
/// - `mass_kg`        W [kg], > 0
///
/// Returns the radius [m].
///
/// Source: definition.
pub fn radius_of_gyration_m(inertia_kg_m2: f64, mass_kg: f64) -> f64 {
    (inertia_kg_m2 / mass_kg).sqrt()
}

#[cfg(test)]
mod tests {
    use super::super::fixture::*;
    use super::*;
    use crate::units::{KG_PER_LB, M_PER_IN, inches, kg, m};

    const KG_M2_PER_LB_IN2: f64 = KG_PER_LB * M_PER_IN * M_PER_IN;
    /// One slug weighs 32.174 lb where gravity is 32.174 ft/s².
    const KG_M2_PER_SLUG_FT2: f64 = 32.174 * 144.0 * KG_M2_PER_LB_IN2;

    fn point_masses_about_ball() -> f64 {
        items().map(|item| about_ball_kg_m2(item, 0.0)).iter().sum()
    }

    #[test]
    fn point_masses_have_the_printed_inertia() {
        let inertia = about_center_kg_m2(point_masses_about_ball(), &totals());
        assert_printed(inertia / KG_M2_PER_LB_IN2, "4,783,910.5");
        assert_printed(inertia / KG_M2_PER_SLUG_FT2, "1032.56");
        assert_printed(inertia, "1399.96");
        let radius = radius_of_gyration_m(inertia, totals().mass_kg);
        assert_printed(inches(radius), "33.606");
    }

    #[test]
    fn shell_alone_has_as_much_again() {
        let own = rectangle_kg_m2(kg(1950.0), m(192.0), m(84.0));
        assert_printed(own / KG_M2_PER_LB_IN2, "7,137,000");
        assert_printed(own / KG_M2_PER_SLUG_FT2, "1540.45");
        let whole = about_center_kg_m2(point_masses_about_ball() + own, &totals());
        assert_printed(whole, "3488.531127");
    }

    #[test]
    fn other_axes_follow_by_parallel_shift() {
        let t = totals();
        let ball = point_masses_about_ball();
        let center = about_center_kg_m2(ball, &t);
        let (x, y) = (t.center_x_m(), t.center_y_m());
        let group_x_m = m(GROUP_X_IN);
        let shifted = center + t.mass_kg * ((x - group_x_m).powi(2) + y * y);
        assert!((about_group_kg_m2(ball, &t, group_x_m) / shifted - 1.0).abs() < 1e-12);
        let at_ball = about_group_kg_m2(ball, &t, 0.0);
        assert_eq!(at_ball, ball);
    }
}
