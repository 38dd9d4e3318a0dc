//! Axles sprung each on their own (rubber torsion): the hitch height decides how they share.
//!
//! Rigid body on linear rates, small slopes. Rates of rubber torsion axles scatter by about 15 % and creep
//! (`common practice`), so the results are as good as the rates.
//!
//! Moments are of everything aboard about the ball. Where unsprung masses bear on their own axle, pass the
//! moment of the sprung masses and add each unsprung mass to its axle's load.

/// Most axles a group may have.
pub const MAX_AXLES: usize = 3;

/// An axle on its own springs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Axle {
    /// Distance behind the ball [m], > 0.
    pub x_m: f64,
    /// Vertical rate of both wheels together, springs and tires in series [kg/m], > 0.
    pub rate_kg_per_m: f64,
    /// Height above the ground, at this axle, of the body's line through the ball at which the axle is just
    /// unloaded [m].
    pub free_height_m: f64,
}

/// How the body stands and what each axle carries.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stance {
    /// Slope of the body's line through the ball, rear-up positive.
    pub slope: f64,
    /// Load of each axle [kg]; 0 for one that has lifted and for places beyond the last axle.
    pub loads_kg: [f64; MAX_AXLES],
}

impl Stance {
    /// Load of all axles together [kg].
    pub fn axles_kg(&self) -> f64 {
        self.loads_kg.iter().sum()
    }
}

/// Loads as straight lines of the moment about the ball while every axle carries: `N_j = α_j + β_j M`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AffineLoads {
    /// α_j [kg].
    pub at_no_moment_kg: [f64; MAX_AXLES],
    /// β_j [kg per kg·m], > 0.
    pub per_moment_per_m: [f64; MAX_AXLES],
}

/// Sums over axles: Σ k x, Σ k x² and Σ k x (c − h_b).
fn sums(axles: impl Iterator<Item = Axle>, ball_height_m: f64) -> [f64; 3] {
    axles.fold([0.0; 3], |[first, second, free], a| {
        let kx = a.rate_kg_per_m * a.x_m;
        [first + kx, second + kx * a.x_m, free + kx * (a.free_height_m - ball_height_m)]
    })
}

/// Rate of two springs one above the other: `1/k = 1/k_s + 1/k_t`.
///
/// - `suspension_kg_per_m`  rate of the suspension, both wheels [kg/m], > 0
/// - `tires_kg_per_m`       rate of the tires, both wheels [kg/m], > 0
///
/// Returns the rate of the axle [kg/m].
///
/// Source: springs in series.
pub fn series_rate_kg_per_m(suspension_kg_per_m: f64, tires_kg_per_m: f64) -> f64 {
    1.0 / (1.0 / suspension_kg_per_m + 1.0 / tires_kg_per_m)
}

/// Slope of the body and loads of the axles at a ball height, with lift-off.
///
/// `N_j = k_j max(0, c_j − h_b − θ x_j)`, θ from `Σ N_j x_j = M`
///
/// - `axles`          1 to [`MAX_AXLES`] axles
/// - `ball_height_m`  height of the ball h_b [m]
/// - `moment_kg_m`    Σ w x about the ball M [kg·m], > 0
///
/// Returns the one solution. With no moment no axle carries: all loads are 0.
///
/// The sum falls with θ and is convex, so a slope solved with some axles pulling downwards is too small, and
/// those axles are lifted at the true slope as well: dropping them and solving again ends in at most as many
/// steps as there are axles.
///
/// Source: equilibrium of moments about the ball.
pub fn stance(axles: &[Axle], ball_height_m: f64, moment_kg_m: f64) -> Stance {
    debug_assert!(!axles.is_empty() && axles.len() <= MAX_AXLES);
    let deflection_m = |a: &Axle, slope: f64| a.free_height_m - ball_height_m - slope * a.x_m;
    let mut carries = [true; MAX_AXLES];
    let mut slope = 0.0;
    for _ in axles {
        let carrying = axles.iter().zip(carries).filter(|(_, c)| *c).map(|(a, _)| *a);
        let [_, second, free] = sums(carrying, ball_height_m);
        slope = (free - moment_kg_m) / second;
        let mut lifted = false;
        for (axle, carries) in axles.iter().zip(&mut carries) {
            if *carries && deflection_m(axle, slope) < 0.0 {
                *carries = false;
                lifted = true;
            }
        }
        if !lifted || !carries[..axles.len()].contains(&true) {
            break;
        }
    }
    let mut loads_kg = [0.0; MAX_AXLES];
    for (load, axle) in loads_kg.iter_mut().zip(axles) {
        *load = axle.rate_kg_per_m * deflection_m(axle, slope).max(0.0);
    }
    Stance { slope, loads_kg }
}

/// Loads as straight lines of the moment, true while every axle carries.
///
/// `β_j = k_j x_j / S₂`, `α_j = k_j (c_j − h_b) − β_j S_c`, with `S₂ = Σ k x²`, `S_c = Σ k x (c − h_b)`
///
/// - `axles`          1 to [`MAX_AXLES`] axles
/// - `ball_height_m`  height of the ball h_b [m]
///
/// Returns the lines; they hold from [`least_moment_kg_m`] upwards, without end, since every β is positive.
///
/// Source: [`stance`] solved for all axles carrying.
pub fn affine_loads(axles: &[Axle], ball_height_m: f64) -> AffineLoads {
    let [_, second, free] = sums(axles.iter().copied(), ball_height_m);
    let mut lines = AffineLoads { at_no_moment_kg: [0.0; MAX_AXLES], per_moment_per_m: [0.0; MAX_AXLES] };
    for (j, a) in axles.iter().enumerate() {
        let per_moment = a.rate_kg_per_m * a.x_m / second;
        lines.per_moment_per_m[j] = per_moment;
        lines.at_no_moment_kg[j] = a.rate_kg_per_m * (a.free_height_m - ball_height_m) - per_moment * free;
    }
    lines
}

/// Least moment about the ball at which every axle still carries.
///
/// `M ≥ max_j (−α_j / β_j)`
///
/// - `axles`          1 to [`MAX_AXLES`] axles
/// - `ball_height_m`  height of the ball [m]
///
/// Returns the moment [kg·m]; every greater one loads all axles.
///
/// Source: [`affine_loads`] set to zero.
pub fn least_moment_kg_m(axles: &[Axle], ball_height_m: f64) -> f64 {
    let lines = affine_loads(axles, ball_height_m);
    (0..axles.len())
        .map(|j| -lines.at_no_moment_kg[j] / lines.per_moment_per_m[j])
        .fold(f64::NEG_INFINITY, f64::max)
}

/// Change of each axle's load as the ball rises, while every axle carries.
///
/// `dN_j/dh_b = k_j (−1 + x_j S₁/S₂)`, with `S₁ = Σ k x`, `S₂ = Σ k x²`
///
/// - `axles`  1 to [`MAX_AXLES`] axles
///
/// Returns the changes [kg/m]: the front axle loses, the rear axle gains, the tongue gains what they lose in all.
///
/// Source: derivative of [`affine_loads`].
pub fn loads_per_ball_height_kg_per_m(axles: &[Axle]) -> [f64; MAX_AXLES] {
    let [first, second, _] = sums(axles.iter().copied(), 0.0);
    let mut changes = [0.0; MAX_AXLES];
    for (change, a) in changes.iter_mut().zip(axles) {
        *change = a.rate_kg_per_m * (a.x_m * first / second - 1.0);
    }
    changes
}

/// Free height that makes the trailer stand level with a wanted axle load.
///
/// `c = h_b + N / k`
///
/// - `ball_height_m`  height of the ball h_b [m]
/// - `load_kg`        load of the axle N [kg], 0 or more
/// - `rate_kg_per_m`  the axle's rate k [kg/m], > 0
///
/// Returns the free height [m].
///
/// Source: [`stance`] at slope zero.
pub fn level_free_height_m(ball_height_m: f64, load_kg: f64, rate_kg_per_m: f64) -> f64 {
    ball_height_m + load_kg / rate_kg_per_m
}

/// How far the ball sinks under each kilogram of tongue load as the tow vehicle squats, without bars.
///
/// `(WB + OH)² / (WB² k_R) + OH² / (WB² k_F)`
///
/// - `wheelbase_m`          WB [m], > 0
/// - `overhang_m`           rear axle to ball OH [m], 0 or more
/// - `front_rate_kg_per_m`  rate of the tow vehicle's front axle k_F [kg/m], > 0
/// - `rear_rate_kg_per_m`   rate of its rear axle k_R [kg/m], > 0
///
/// Returns the sink [m/kg].
///
/// Source: the axles' deflections under the loads of [`super::tow_vehicle::coupled`].
pub fn ball_sink_m_per_kg(
    wheelbase_m: f64,
    overhang_m: f64,
    front_rate_kg_per_m: f64,
    rear_rate_kg_per_m: f64,
) -> f64 {
    let rear = (wheelbase_m + overhang_m) / wheelbase_m;
    let front = overhang_m / wheelbase_m;
    rear * rear / rear_rate_kg_per_m + front * front / front_rate_kg_per_m
}

/// Ball height at which the tongue load and the sink it causes agree.
///
/// `h_b = h_0 − s T(h_b)`
///
/// - `axles`                   1 to [`MAX_AXLES`] axles
/// - `unloaded_ball_height_m`  height of the ball before coupling h_0 [m]
/// - `sink_m_per_kg`           sink for each kilogram of tongue s [m/kg], see [`ball_sink_m_per_kg`]
/// - `gross_kg`                mass of the trailer [kg]
/// - `moment_kg_m`             Σ w x about the ball [kg·m], > 0
///
/// Returns the height [m]; [`stance`] there gives the loads.
///
/// Newton's steps, the tongue's slope from the axles that carry: exact in two while none lifts.
///
/// Source: [`stance`] and [`ball_sink_m_per_kg`] solved together.
pub fn sunk_ball_height_m(
    axles: &[Axle],
    unloaded_ball_height_m: f64,
    sink_m_per_kg: f64,
    gross_kg: f64,
    moment_kg_m: f64,
) -> f64 {
    const STEPS: usize = 20;
    const SETTLED_M: f64 = 1e-12;
    let mut height_m = unloaded_ball_height_m;
    for _ in 0..STEPS {
        let stance = stance(axles, height_m, moment_kg_m);
        let tongue_kg = gross_kg - stance.axles_kg();
        let carrying = || {
            let loaded = axles.iter().zip(stance.loads_kg);
            loaded.filter(|(_, load)| *load > 0.0).map(|(a, _)| *a)
        };
        let [first, second, _] = sums(carrying(), 0.0);
        let rates: f64 = carrying().map(|a| a.rate_kg_per_m).sum();
        let tongue_per_m = if second > 0.0 { rates - first * first / second } else { 0.0 };
        let excess_m = height_m + sink_m_per_kg * tongue_kg - unloaded_ball_height_m;
        height_m -= excess_m / (1.0 + sink_m_per_kg * tongue_per_m);
        if excess_m.abs() < SETTLED_M {
            break;
        }
    }
    height_m
}

/// Share of the group's load that one axle may carry where its rates are not known (`common practice`).
pub const SHARE_BOUND_WITHOUT_RATES: f64 = 0.60;

/// Bound on one axle's load where the rates are not known: 60 % of the group's (`common practice`).
///
/// - `axles_kg`    load of the group [kg]
/// - `axle_count`  number of axles, 1 to 3; a single axle carries all
///
/// Returns the load to compare with the axle's rating [kg], beside the equal share.
pub fn load_bound_without_rates_kg(axles_kg: f64, axle_count: usize) -> f64 {
    match axle_count {
        1 => axles_kg,
        _ => SHARE_BOUND_WITHOUT_RATES * axles_kg,
    }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::*;
    use super::*;
    use crate::units::{inches, kg, kg_per_m, lb, m};

    fn axle(x_in: f64, rate_lb_per_in: f64, free_height_in: f64) -> Axle {
        Axle { x_m: m(x_in), rate_kg_per_m: kg_per_m(rate_lb_per_in), free_height_m: m(free_height_in) }
    }

    fn tandem() -> [Axle; 2] {
        AXLE_X_IN.map(|x| axle(x, 900.0, 21.04888304))
    }

    fn tongue_lb(stance: &Stance) -> f64 {
        lb(totals().mass_kg - stance.axles_kg())
    }

    #[test]
    fn loads_follow_the_ball_height() {
        for (height_in, front, rear, tongue) in [
            (19.0, "1843.995", "1843.995", "548.0105"),
            (17.0, "2018.064", "1698.517", "519.4195"),
            (18.0, "1931.029", "1771.256", "533.7150"),
            (20.0, "1756.960", "1916.734", "562.3061"),
            (22.0, "1582.891", "2062.212", "590.8971"),
        ] {
            let s = stance(&tandem(), m(height_in), totals().x_kg_m);
            assert_printed(lb(s.loads_kg[0]), front);
            assert_printed(lb(s.loads_kg[1]), rear);
            assert_printed(tongue_lb(&s), tongue);
        }
    }

    #[test]
    fn raising_the_ball_unloads_the_front_axle() {
        let per_m = loads_per_ball_height_kg_per_m(&tandem());
        assert_printed(lb(per_m[0] * m(1.0)), "-87.03454");
        assert_printed(lb(per_m[1] * m(1.0)), "72.73901");
    }

    #[test]
    fn front_axle_lifts_at_a_high_ball_and_the_rear_carries_all() {
        let t = totals();
        let level = stance(&tandem(), m(19.0), t.x_kg_m);
        let per_m = loads_per_ball_height_kg_per_m(&tandem());
        let lift_off_m = m(19.0) - level.loads_kg[0] / per_m[0];
        assert_printed(inches(lift_off_m), "40.187");
        let just_below = stance(&tandem(), lift_off_m - 1e-6, t.x_kg_m);
        assert!(just_below.loads_kg[0] > 0.0);
        let above = stance(&tandem(), lift_off_m + 0.01, t.x_kg_m);
        assert_eq!(above.loads_kg[0], 0.0);
        assert_printed(lb(above.loads_kg[1]), "3385.111");
        assert_printed(tongue_lb(&above), "850.8889");
    }

    fn triple() -> [Axle; 3] {
        [axle(156.0, 900.0, 22.0), axle(190.0, 800.0, 22.0), axle(224.0, 900.0, 22.0)]
    }

    #[test]
    fn triple_is_solved_as_printed() {
        let s = stance(&triple(), m(19.0), totals().x_kg_m);
        assert_printed(s.slope, "0.008143376");
        assert_printed(lb(s.loads_kg[0]), "1556.670");
        assert_printed(lb(s.loads_kg[1]), "1162.207");
        assert_printed(lb(s.loads_kg[2]), "1058.295");
        assert_printed(tongue_lb(&s), "458.8277");
    }

    #[test]
    fn moments_balance_whatever_lifts() {
        let moment = totals().x_kg_m;
        for axles in [&tandem()[..], &triple()[..]] {
            for height_in in (-10..80).map(f64::from) {
                let s = stance(axles, m(height_in), moment);
                let carried: f64 = axles.iter().zip(s.loads_kg).map(|(a, n)| a.x_m * n).sum();
                assert!((carried / moment - 1.0).abs() < 1e-12, "at {height_in} in");
            }
        }
    }

    #[test]
    fn no_moment_loads_no_axle() {
        assert_eq!(stance(&tandem(), m(19.0), 0.0).axles_kg(), 0.0);
        assert_eq!(stance(&triple(), m(19.0), -5.0).axles_kg(), 0.0);
    }

    #[test]
    fn straight_lines_agree_with_the_stance_down_to_the_least_moment() {
        let least = least_moment_kg_m(&triple(), m(19.0));
        let lines = affine_loads(&triple(), m(19.0));
        for moment in [least, least * 1.5, totals().x_kg_m] {
            let s = stance(&triple(), m(19.0), moment);
            for j in 0..3 {
                let line = lines.at_no_moment_kg[j] + lines.per_moment_per_m[j] * moment;
                assert!((line - s.loads_kg[j]).abs() < 1e-8);
            }
        }
        let below = stance(&triple(), m(19.0), least * 0.99);
        assert!(below.loads_kg.contains(&0.0));
    }

    #[test]
    fn level_free_height_is_the_one_printed() {
        let height = level_free_height_m(m(19.0), totals().x_kg_m / m(190.0) / 2.0, kg_per_m(900.0));
        assert_printed(inches(height), "21.04888304");
    }

    #[test]
    fn two_equal_springs_in_series_are_half_as_stiff() {
        assert_eq!(series_rate_kg_per_m(1000.0, 1000.0), 500.0);
    }

    #[test]
    fn ball_sinks_under_the_tongue() {
        let sink = ball_sink_m_per_kg(m(145.0), m(48.0), kg_per_m(700.0), kg_per_m(600.0));
        assert_printed(inches(sink * kg(548.0105)), "1.7039");
    }

    #[test]
    fn sunk_ball_carries_the_tongue_that_sinks_it() {
        let t = totals();
        let sink = ball_sink_m_per_kg(m(145.0), m(48.0), kg_per_m(700.0), kg_per_m(600.0));
        // The last two lift an axle.
        for height_in in [19.0, 21.0, 45.0, -5.0] {
            let sunk = sunk_ball_height_m(&tandem(), m(height_in), sink, t.mass_kg, t.x_kg_m);
            let tongue = t.mass_kg - stance(&tandem(), sunk, t.x_kg_m).axles_kg();
            assert!((m(height_in) - sunk - sink * tongue).abs() < 1e-11);
        }
    }

    #[test]
    fn bound_without_rates_is_sixty_percent_of_a_group_and_all_of_a_single_axle() {
        assert_eq!(load_bound_without_rates_kg(1000.0, 2), 600.0);
        assert_eq!(load_bound_without_rates_kg(1000.0, 1), 1000.0);
    }
}
