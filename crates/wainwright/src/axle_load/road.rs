//! Loads on the move: braking, grade, drag and cornering.
//!
//! Steady states of a rigid trailer: rolling resistance, the wheels' own inertia, bounce and slosh are left out.
//! Decelerations and lateral accelerations are in g, forces in the kilograms that would weigh them.

use crate::masses::Totals;
use crate::units::STANDARD_GRAVITY_M_S2;

/// Deceleration of a stop that the rules ask of a combination [g] (14 ft/s², 49 CFR 393.52(d), `from memory`).
pub const LEGAL_STOP_G: f64 = 0.44;
/// Deceleration of an emergency stop [g] (`common practice`).
pub const EMERGENCY_STOP_G: f64 = 0.70;

/// What acts on a trailer on the move.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Motion {
    /// Deceleration [g], braking positive.
    pub deceleration_g: f64,
    /// Slope of the road [rad], uphill positive.
    pub grade_rad: f64,
    /// The trailer's own brake force at the ground [kg].
    pub brake_kg: f64,
    /// Aerodynamic drag [kg].
    pub drag_kg: f64,
    /// Height at which the drag acts [m].
    pub drag_height_m: f64,
}

/// What a trailer on the move puts on ball and axles.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RoadLoads {
    /// Load on the ball, square to the road [kg].
    pub tongue_kg: f64,
    /// Load on the axles, square to the road [kg].
    pub axles_kg: f64,
    /// Push of the trailer on the tow vehicle along the road [kg]; negative where it is pulled.
    pub push_kg: f64,
}

/// Loads of an axle group's heavy and light side [kg].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CorneringSides {
    /// Side that carries more, all axles together [kg].
    pub heavy_kg: f64,
    /// The other; below zero it has lifted [kg].
    pub light_kg: f64,
}

/// Loads on ball and axles under deceleration, on a grade, with the trailer's brakes and drag.
///
/// `T = W cos γ (1 − X/L) + [W (a − sin γ)(h − h_b) + B h_b − D (h_D − h_b)] / L`,
/// `A = W cos γ − T`, push `= W (a − sin γ) − B − D`
///
/// - `totals`         everything aboard
/// - `group_x_m`      station of the axle group L [m], > 0
/// - `ball_height_m`  height of the ball h_b [m]
/// - `motion`         deceleration a, grade γ, brake force B, drag D at height h_D
///
/// Returns the loads.
///
/// Source: equilibrium of the decelerated trailer about the ball (d'Alembert).
pub fn road_loads(totals: &Totals, group_x_m: f64, ball_height_m: f64, motion: Motion) -> RoadLoads {
    let (sin, cos) = motion.grade_rad.sin_cos();
    let along_g = motion.deceleration_g - sin;
    let pitching_kg_m = along_g * (totals.z_kg_m - totals.mass_kg * ball_height_m)
        + motion.brake_kg * ball_height_m
        - motion.drag_kg * (motion.drag_height_m - ball_height_m);
    let tongue_kg = cos * (totals.mass_kg - totals.x_kg_m / group_x_m) + pitching_kg_m / group_x_m;
    RoadLoads {
        tongue_kg,
        axles_kg: totals.mass_kg * cos - tongue_kg,
        push_kg: totals.mass_kg * along_g - motion.brake_kg - motion.drag_kg,
    }
}

/// Brake force of a trailer that brakes a share of its own mass.
///
/// `B = β W (a − sin γ)`
///
/// - `gross_kg`        mass W [kg]
/// - `brake_share`     β: 0 unbraked, 1 stopping itself
/// - `deceleration_g`  a [g]
/// - `grade_rad`       γ [rad], uphill positive
///
/// Returns the force [kg].
///
/// Source: definition of the share.
pub fn brake_force_kg(gross_kg: f64, brake_share: f64, deceleration_g: f64, grade_rad: f64) -> f64 {
    brake_share * gross_kg * (deceleration_g - grade_rad.sin())
}

/// Aerodynamic drag.
///
/// `D = ρ V² C_D S / 2`
///
/// - `frontal_area_m2`   S [m²]
/// - `drag_coefficient`  C_D, about 0.5 for a box behind a pickup (`common practice`)
/// - `speed_m_s`         speed through the air V [m/s]
/// - `air_kg_m3`         density of the air ρ [kg/m³]; 1.225 at sea level, 59 °F
///
/// Returns the force [kg].
///
/// Source: definition of the drag coefficient.
pub fn drag_kg(frontal_area_m2: f64, drag_coefficient: f64, speed_m_s: f64, air_kg_m3: f64) -> f64 {
    0.5 * air_kg_m3 * speed_m_s * speed_m_s * drag_coefficient * frontal_area_m2 / STANDARD_GRAVITY_M_S2
}

/// Loads of the two sides of the axle group in a steady turn towards the light side.
///
/// `R + L = A`, `R − L = 2 W [|Y| + a_y (h − f h_b)] / t`
///
/// - `totals`         everything aboard, with height h and offset Y of its centre of gravity
/// - `tongue_kg`      load on the ball at rest T = f W [kg]; it takes its share of the side force
/// - `ball_height_m`  height of the ball h_b [m]
/// - `track_m`        t [m], > 0
/// - `lateral_g`      lateral acceleration a_y [g], 0 or more
///
/// Returns the loads of the side towards which the mass lies and the turn throws it, and of the other.
///
/// Source: equilibrium of roll moments; yaw balance gives the ball the side force a_y f W.
pub fn cornering_sides(
    totals: &Totals,
    tongue_kg: f64,
    ball_height_m: f64,
    track_m: f64,
    lateral_g: f64,
) -> CorneringSides {
    let axles_kg = totals.mass_kg - tongue_kg;
    let roll_kg_m = totals.y_kg_m.abs() + lateral_g * (totals.z_kg_m - tongue_kg * ball_height_m);
    CorneringSides {
        heavy_kg: axles_kg / 2.0 + roll_kg_m / track_m,
        light_kg: axles_kg / 2.0 - roll_kg_m / track_m,
    }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::*;
    use super::*;
    use crate::equalized;
    use crate::units::{KG_PER_LB, M_PER_IN, lb, m, m_s};

    const M_PER_FT: f64 = 12.0 * M_PER_IN;

    fn loads(motion: Motion) -> RoadLoads {
        road_loads(&totals(), m(GROUP_X_IN), m(BALL_HEIGHT_IN), motion)
    }

    fn braking(deceleration_g: f64, brake_share: f64, grade_rad: f64) -> RoadLoads {
        loads(Motion {
            deceleration_g,
            grade_rad,
            brake_kg: brake_force_kg(totals().mass_kg, brake_share, deceleration_g, grade_rad),
            ..Motion::default()
        })
    }

    #[test]
    fn at_rest_the_tongue_is_the_static_one() {
        let rest = loads(Motion::default());
        assert_printed(lb(rest.tongue_kg), "548.0105");
        assert_eq!(rest.push_kg, 0.0);
    }

    #[test]
    fn braking_loads_the_ball() {
        for (a, share, tongue, push) in
            [(0.35, 0.0, "710.2503", "1482.6"), (0.35, 1.0, "858.5103", "0"), (0.5, 0.6, "906.8616", "847.2")]
        {
            let r = braking(a, share, 0.0);
            assert_printed(lb(r.tongue_kg), tongue);
            assert_printed(lb(r.push_kg), push);
        }
        assert_printed(lb(braking(0.35, 0.0, 0.0).axles_kg), "3525.7497");
        assert_printed(lb(braking(0.35, 1.0, 0.0).axles_kg), "3377.4897");
    }

    #[test]
    fn self_braked_and_unbraked_trailers_follow_the_short_forms() {
        let t = totals();
        let rest = loads(Motion::default()).tongue_kg;
        let per_g = |height_m: f64| t.mass_kg * height_m / m(GROUP_X_IN);
        let braked = braking(0.4, 1.0, 0.0).tongue_kg - rest;
        let unbraked = braking(0.4, 0.0, 0.0).tongue_kg - rest;
        assert!((braked - 0.4 * per_g(t.center_z_m())).abs() < 1e-9);
        assert!((unbraked - 0.4 * per_g(t.center_z_m() - m(BALL_HEIGHT_IN))).abs() < 1e-9);
    }

    #[test]
    fn climbing_lightens_the_ball_and_descending_loads_it() {
        let up = braking(0.0, 0.0, 0.08f64.atan());
        assert_printed(lb(up.tongue_kg), "509.3000");
        assert_printed(lb(up.axles_kg), "3713.210");
        let down = braking(0.0, 0.0, -(0.08f64.atan()));
        assert_printed(lb(down.tongue_kg), "583.2305");
    }

    #[test]
    fn braking_downhill_adds_both() {
        let grade = -(0.06f64.atan());
        let force = brake_force_kg(totals().mass_kg, 0.8, 0.3, grade);
        assert_printed(lb(force), "1219.603");
        assert_printed(lb(braking(0.3, 0.8, grade).tongue_kg), "835.8123");
    }

    #[test]
    fn drag_above_the_ball_lightens_the_tongue() {
        let air = 0.0765 * KG_PER_LB / M_PER_FT.powi(3);
        let drag = drag_kg(60.0 * M_PER_FT * M_PER_FT, 0.5, m_s(65.0), air);
        assert_printed(lb(drag), "324.1");
        let windy = loads(Motion { drag_kg: drag, drag_height_m: m(60.0), ..Motion::default() });
        let rest = loads(Motion::default());
        assert_printed(lb(windy.tongue_kg - rest.tongue_kg), "-69.95");
        assert_eq!(windy.push_kg, -drag);
    }

    #[test]
    fn turn_loads_the_outer_side() {
        let t = totals();
        let tongue = equalized::tongue_load_kg(t.mass_kg, equalized::group_load_kg(t.x_kg_m, m(GROUP_X_IN)));
        let s = cornering_sides(&t, tongue, m(BALL_HEIGHT_IN), m(TRACK_IN), 0.3);
        assert_printed(lb(s.heavy_kg), "2476.675");
        assert_printed(lb(s.light_kg), "1211.314");
    }

    #[test]
    fn legal_stop_covers_fourteen_feet_a_second_squared() {
        let stop_g = 14.0 * M_PER_FT / STANDARD_GRAVITY_M_S2;
        assert_printed(stop_g, "0.4351");
        assert!(stop_g < LEGAL_STOP_G);
        assert_printed(17.0 * M_PER_FT / STANDARD_GRAVITY_M_S2, "0.5284");
    }
}
