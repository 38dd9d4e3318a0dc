//! Static stability: tipping sideways, and the height of the centre of gravity.
//!
//! Rigid models: springs, tires and slosh make the real trailer tip 10 to 20 % earlier (`common practice`).

/// Static stability factor of a vehicle.
///
/// `SSF = t / (2 h)`
///
/// - `track_m`     t [m]
/// - `center_z_m`  height of the centre of gravity h [m], > 0
///
/// Returns the factor: the lateral acceleration in g at which a rigid vehicle tips.
///
/// Source: NHTSA's definition, half the track over the height of the centre of gravity.
pub fn static_stability_factor(track_m: f64, center_z_m: f64) -> f64 {
    track_m / (2.0 * center_z_m)
}

/// Lateral acceleration at which a trailer, free to roll on its ball, tips about ball and outer tires.
///
/// `a = [(1 − f) t/2 − Y] / (h − f h_b)`
///
/// - `tongue_fraction`  f = T/W, 0 to 1
/// - `track_m`          t [m]
/// - `offset_m`         offset of the centre of gravity towards the side it tips to Y [m]
/// - `center_z_m`       height of the centre of gravity h [m], > f h_b
/// - `ball_height_m`    height of the ball h_b [m]
///
/// Returns the acceleration [g]; with no tongue load and no offset it is the static stability factor.
///
/// Source: inner wheel load set to zero; yaw balance shares the side force as 1 − f on the tires and f on the ball.
pub fn tip_lateral_g(
    tongue_fraction: f64,
    track_m: f64,
    offset_m: f64,
    center_z_m: f64,
    ball_height_m: f64,
) -> f64 {
    ((1.0 - tongue_fraction) * track_m / 2.0 - offset_m) / (center_z_m - tongue_fraction * ball_height_m)
}

/// Side slope on which the trailer tips: `atan a`.
///
/// - `tip_lateral_g`  from [`tip_lateral_g`] [g]
///
/// Returns the angle [rad].
///
/// Source: gravity's component along the slope over that square to it.
pub fn tip_slope_rad(tip_lateral_g: f64) -> f64 {
    tip_lateral_g.atan()
}

/// Height of the centre of gravity from the tongue load of the tilted trailer.
///
/// `h = h_b + [(1 − T_φ/W) L' − X cos φ] / sin φ`, `L' = L cos φ + (z_h − h_b) sin φ`
///
/// - `gross_kg`          mass W [kg]
/// - `center_x_m`        centre of gravity behind the ball X [m]
/// - `group_x_m`         station of the axle group L [m]
/// - `hub_height_m`      height of the hubs z_h [m]
/// - `ball_height_m`     height of the ball, trailer level, h_b [m]
/// - `tilt_rad`          nose-up tilt φ [rad], not 0; 8° or more unless the scale is fine
/// - `tilted_tongue_kg`  load measured at the ball while tilted T_φ [kg]
///
/// Returns the height [m]. Not for axles sprung each on their own, whose sharing changes with the tilt.
///
/// Source: [`crate::equalized::pitched_tongue_load_kg`] solved for h.
pub fn center_height_by_tilt_m(
    gross_kg: f64,
    center_x_m: f64,
    group_x_m: f64,
    hub_height_m: f64,
    ball_height_m: f64,
    tilt_rad: f64,
    tilted_tongue_kg: f64,
) -> f64 {
    let (sin, cos) = tilt_rad.sin_cos();
    let group_m = group_x_m * cos + (hub_height_m - ball_height_m) * sin;
    let carried = 1.0 - tilted_tongue_kg / gross_kg;
    ball_height_m + (carried * group_m - center_x_m * cos) / sin
}

/// A tank with upright walls.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PrismaticTank {
    /// Mass of its contents when full [kg], > 0.
    pub full_kg: f64,
    /// Height of its bottom above the ground [m].
    pub bottom_z_m: f64,
    /// Inside height from bottom to full [m], 0 or more.
    pub depth_m: f64,
}

/// Height of everything's centre of gravity with a tank filled in part.
///
/// `h = [m h₀ + q (z_b + α q)] / (m + q)`, `α = H / (2 w_full)`
///
/// - `rest_kg`    mass of all but the tank's contents m [kg], > 0
/// - `rest_z_m`   height of its centre of gravity h₀ [m]
/// - `tank`       bottom z_b, depth H, full mass w_full
/// - `filled_kg`  mass of the contents q [kg], 0 to full
///
/// Returns the height [m].
///
/// Source: weighted mean; the contents' centre is half-way up what is filled.
pub fn center_height_with_fill_m(rest_kg: f64, rest_z_m: f64, tank: PrismaticTank, filled_kg: f64) -> f64 {
    let contents_z_m = tank.bottom_z_m + tank.depth_m * filled_kg / (2.0 * tank.full_kg);
    (rest_kg * rest_z_m + filled_kg * contents_z_m) / (rest_kg + filled_kg)
}

/// Contents of a tank that put everything's centre of gravity lowest: its surface then stands at that height.
///
/// root of `α q² + 2 α m q + (z_b − h₀) m = 0`, `α = H / (2 w_full)`, clipped to the tank
///
/// - `rest_kg`   mass of all but the tank's contents m [kg], > 0
/// - `rest_z_m`  height of its centre of gravity h₀ [m]
/// - `tank`      bottom z_b, depth H, full mass w_full
///
/// Returns the mass of the contents [kg]: 0 for a tank wholly above the rest's centre, full for one wholly below.
///
/// Source: derivative of [`center_height_with_fill_m`] set to zero.
pub fn lowest_center_fill_kg(rest_kg: f64, rest_z_m: f64, tank: PrismaticTank) -> f64 {
    let below_m = rest_z_m - tank.bottom_z_m;
    if below_m <= 0.0 {
        return 0.0;
    }
    let half_rise_m_per_kg = tank.depth_m / (2.0 * tank.full_kg);
    let root_kg = (rest_kg * rest_kg + below_m * rest_kg / half_rise_m_per_kg).sqrt() - rest_kg;
    root_kg.min(tank.full_kg)
}

#[cfg(test)]
mod tests {
    use super::super::fixture::*;
    use super::*;
    use crate::equalized::pitched_tongue_load_kg;
    use crate::units::{inches, kg, lb, m};

    fn tongue_fraction() -> f64 {
        1.0 - totals().center_x_m() / m(GROUP_X_IN)
    }

    #[test]
    fn stability_factor_is_half_track_over_height() {
        let ssf = static_stability_factor(m(TRACK_IN), totals().center_z_m());
        assert_printed(ssf, "1.02409");
    }

    #[test]
    fn trailer_tips_earlier_towards_its_heavy_side() {
        let t = totals();
        let tip = |offset_m| {
            let f = tongue_fraction();
            tip_lateral_g(f, m(TRACK_IN), offset_m, t.center_z_m(), m(BALL_HEIGHT_IN))
        };
        let heavy = tip(t.center_y_m().abs());
        assert_printed(heavy, "0.924252");
        assert_printed(tip_slope_rad(heavy).to_degrees(), "42.746");
        assert_printed(tip(0.0), "0.950304");
    }

    #[test]
    fn with_no_tongue_load_it_tips_at_the_stability_factor() {
        let tip = tip_lateral_g(0.0, 2.0, 0.0, 1.1, 0.5);
        assert!((tip - static_stability_factor(2.0, 1.1)).abs() < 1e-15);
    }

    fn height_by_tilt_in(tilted_tongue_lb: f64) -> f64 {
        let t = totals();
        inches(center_height_by_tilt_m(
            t.mass_kg,
            t.center_x_m(),
            m(GROUP_X_IN),
            m(HUB_HEIGHT_IN),
            m(BALL_HEIGHT_IN),
            6f64.to_radians(),
            kg(tilted_tongue_lb),
        ))
    }

    #[test]
    fn tilt_test_finds_the_height() {
        assert_printed(height_by_tilt_in(487.8867), "39.7915");
        let error_in = height_by_tilt_in(487.8867) - height_by_tilt_in(492.8867);
        assert_printed(error_in.abs(), "2.13");
        let t = totals();
        let tongue = pitched_tongue_load_kg(
            t.mass_kg,
            t.center_x_m(),
            t.center_z_m(),
            m(GROUP_X_IN),
            m(HUB_HEIGHT_IN),
            m(BALL_HEIGHT_IN),
            6f64.to_radians(),
        );
        assert_printed(lb(tongue), "487.8867");
    }

    fn tank(depth_in: f64) -> PrismaticTank {
        PrismaticTank { full_kg: kg(250.2), bottom_z_m: m(10.0), depth_m: m(depth_in) }
    }

    /// Height with no clipping, so that the root itself shows.
    fn height_in(tank: PrismaticTank, filled_kg: f64) -> f64 {
        let t = totals();
        inches(center_height_with_fill_m(t.mass_kg, t.center_z_m(), tank, filled_kg))
    }

    #[test]
    fn shallow_tank_is_best_full() {
        let t = totals();
        let shallow = tank(12.0);
        assert_eq!(lowest_center_fill_kg(t.mass_kg, t.center_z_m(), shallow), shallow.full_kg);
        assert_printed(height_in(shallow, shallow.full_kg), "38.46467");
        // The same rise for each kilogram, with walls high enough to reach the root.
        let taller =
            PrismaticTank { full_kg: 4.0 * shallow.full_kg, depth_m: 4.0 * shallow.depth_m, ..shallow };
        let root = lowest_center_fill_kg(t.mass_kg, t.center_z_m(), taller);
        assert_printed(lb(root), "581.27");
    }

    #[test]
    fn tall_tank_is_best_filled_up_to_the_centre_of_gravity() {
        let t = totals();
        let tall = tank(60.0);
        let fill = lowest_center_fill_kg(t.mass_kg, t.center_z_m(), tall);
        assert_printed(lb(fill), "122.4606");
        assert_printed(height_in(tall, fill), "39.36706");
        assert_printed(height_in(tall, 0.0), "39.79155");
        assert_printed(height_in(tall, tall.full_kg), "39.80317");
        let surface_in = 10.0 + 60.0 * fill / tall.full_kg;
        assert!((surface_in - height_in(tall, fill)).abs() < 1e-9);
    }

    #[test]
    fn tank_above_the_rest_is_best_empty_and_a_flat_one_below_full() {
        let high = PrismaticTank { full_kg: 100.0, bottom_z_m: 1.5, depth_m: 0.0 };
        assert_eq!(lowest_center_fill_kg(2_000.0, 1.0, high), 0.0);
        let flat = PrismaticTank { bottom_z_m: 0.3, ..high };
        assert_eq!(lowest_center_fill_kg(2_000.0, 1.0, flat), 100.0);
    }
}
