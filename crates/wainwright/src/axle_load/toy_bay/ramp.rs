//! The rear ramp door: how steep it lies and what clearance the toy needs over its hinge.

/// Ramp angle above which machines with little ground clearance are hard to load [rad]: 18°, common practice.
pub const STEEP_FOR_LOW_MACHINES_RAD: f64 = 18.0_f64.to_radians();
/// Ramp angle above which a motorcycle is hard to walk up [rad]: 20°, common practice.
pub const STEEP_FOR_WALKING_RAD: f64 = 20.0_f64.to_radians();

/// Angle of the ramp to the ground.
///
/// `θ = asin(H / R)`
///
/// - `length_m`       ramp length from hinge to foot `R` [m], > 0
/// - `deck_height_m`  height of the hinge above the ground at the foot `H` [m], 0 to `length_m`
///
/// Returns the angle [rad]; NaN for a ramp too short to reach the ground. A trailer standing nose-high adds
/// its pitch to the angle at the hinge. The toy's approach angle must be no less than θ.
///
/// Source: geometry.
pub fn angle(length_m: f64, deck_height_m: f64) -> f64 {
    (deck_height_m / length_m).asin()
}

/// Ramp length that gives a wanted angle.
///
/// `R = H / sin θ`
///
/// - `angle_rad`      wanted angle to the ground `θ` [rad], above 0 to π/2
/// - `deck_height_m`  height of the hinge above the ground at the foot `H` [m], 0 or more
///
/// Returns the length [m]; it grows without bound towards 0 rad.
///
/// Source: geometry.
pub fn length_for_angle(angle_rad: f64, deck_height_m: f64) -> f64 {
    deck_height_m / angle_rad.sin()
}

/// Horizontal reach of the ramp behind its hinge.
///
/// `D = √(R² − H²)`
///
/// - `length_m`       ramp length from hinge to foot `R` [m], > 0
/// - `deck_height_m`  height of the hinge above the ground at the foot `H` [m], 0 to `length_m`
///
/// Returns the reach [m]; NaN for a ramp too short to reach the ground.
///
/// Source: geometry.
pub fn reach(length_m: f64, deck_height_m: f64) -> f64 {
    (length_m * length_m - deck_height_m * deck_height_m).sqrt()
}

/// Ground clearance a toy needs midway between its axles to pass over the hinge without touching.
///
/// `g = (b/2) tan(θ/2) − r (1/cos(θ/2) − 1)`
///
/// The crest stands highest between the axles when both are equally far from it; the term in r is the
/// shift of the wheel centres along the normals of ramp and floor.
///
/// - `wheelbase_m`    wheelbase of the toy `b` [m], > 0
/// - `angle_rad`      angle between ramp and floor `θ` [rad], 0 to below π/2
/// - `tire_radius_m`  radius of its tires `r` [m], 0 or more; 0 where it is not known, which is the safe side
///
/// Returns the clearance [m]. Holds while the tires reach past the crest, `b/2 ≥ r sin(θ/2)`.
///
/// Source: geometry.
pub fn breakover_clearance(wheelbase_m: f64, angle_rad: f64, tire_radius_m: f64) -> f64 {
    let half_rad = 0.5 * angle_rad;
    0.5 * wheelbase_m * half_rad.tan() - tire_radius_m * (1.0 / half_rad.cos() - 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{inches, m};

    // Own check values: deck 22 in, ramp 72 in, wheelbase 50 in, tires of 12 in radius.

    #[test]
    fn a_72_in_ramp_lies_at_18_degrees_from_a_22_in_deck() {
        assert_eq!(format!("{:.3}", angle(m(72.0), m(22.0)).to_degrees()), "17.792");
        assert_eq!(format!("{:.4}", inches(reach(m(72.0), m(22.0)))), "68.5565");
    }

    #[test]
    fn a_gentler_ramp_is_longer() {
        let length_in = |degrees: f64| inches(length_for_angle(degrees.to_radians(), m(22.0)));
        assert_eq!(format!("{:.2}", length_in(15.0)), "85.00");
        assert_eq!(format!("{:.2}", length_in(18.0)), "71.19");
    }

    #[test]
    fn tires_lessen_the_clearance_needed_over_the_hinge() {
        let clearance_in =
            |radius_in: f64| inches(breakover_clearance(m(50.0), angle(m(72.0), m(22.0)), m(radius_in)));
        assert_eq!(format!("{:.4}", clearance_in(0.0)), "3.9130");
        assert_eq!(format!("{:.4}", clearance_in(12.0)), "3.7669");
    }

    #[test]
    fn a_ramp_that_cannot_reach_the_ground_has_no_angle() {
        assert!(angle(1.0, 1.1).is_nan());
        assert!(reach(1.0, 1.1).is_nan());
    }

    /// Rolls two wheels over the crest and measures how far the crest stands above the level a toy without
    /// any ground clearance would have there.
    fn deepest_crest(wheelbase_m: f64, angle_rad: f64, radius_m: f64) -> f64 {
        // Crest at the origin, both sides falling by half the angle; `s` is how far along its side a wheel touches.
        let (sin, cos) = (0.5 * angle_rad).sin_cos();
        let center = |s: f64, side: f64| (side * (s * cos + radius_m * sin), radius_m * cos - s * sin);
        let mut deepest = f64::NEG_INFINITY;
        for step in 0..=2000 {
            let (rear_x, rear_z) = center(wheelbase_m * f64::from(step) / 2000.0, -1.0);
            let gap = |s: f64| {
                let (front_x, front_z) = center(s, 1.0);
                (front_x - rear_x).hypot(front_z - rear_z) - wheelbase_m
            };
            let (mut near, mut far) = (0.0, 2.0 * wheelbase_m);
            if gap(near) > 0.0 {
                continue;
            }
            for _ in 0..60 {
                let middle = 0.5 * (near + far);
                if gap(middle) > 0.0 { far = middle } else { near = middle }
            }
            let (front_x, front_z) = center(near, 1.0);
            // Distance of the crest below the line of the wheel centres.
            let below = (front_x * rear_z - front_z * rear_x) / wheelbase_m;
            deepest = deepest.max(radius_m - below);
        }
        deepest
    }

    #[test]
    fn the_crest_stands_highest_with_both_axles_equally_far() {
        for (wheelbase_m, angle_rad, radius_m) in [(1.27, 0.31, 0.0), (1.27, 0.31, 0.3), (2.0, 0.4, 0.35)] {
            let swept = deepest_crest(wheelbase_m, angle_rad, radius_m);
            let formula = breakover_clearance(wheelbase_m, angle_rad, radius_m);
            assert!((swept - formula).abs() < 1e-6, "{swept} against {formula}");
        }
    }
}
