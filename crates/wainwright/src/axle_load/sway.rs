//! Sway: does a swing of the trailer die away?
//!
//! True newtons here, not the kilograms that would weigh them: kg, m, s, N.
//!
//! A model for comparing one way of loading with another and with a floor. It leaves out tire relaxation, roll,
//! suspension steer and the driver, all of which lower the damping, and its tire stiffness is a guess unless measured:
//! **it never gives a safe speed.**

pub mod quartic;

use crate::masses::Totals;
use crate::units::{M_S_PER_MPH, STANDARD_GRAVITY_M_S2};
use quartic::{Root, roots};

/// Side force per radian of slip over the load on the tire, where nothing is known: 0.14 a degree
/// (0.12 to 0.20 in vehicle dynamics texts, `from memory`).
pub const CORNERING_COEFFICIENT_PER_RAD: f64 = 0.14 * 180.0 / std::f64::consts::PI;

/// Yaw inertia of a tow vehicle over m·a·b where nothing is known (`common practice`).
pub const TOW_INERTIA_RATIO: f64 = 0.95;

/// Speed at which packages are compared [m/s]: 65 mph (`common practice`).
pub const COMPARISON_SPEED_M_S: f64 = 65.0 * M_S_PER_MPH;

/// Damping ratio at [`COMPARISON_SPEED_M_S`] below which a package is doubtful (`common practice`).
pub const LEAST_DAMPING_RATIO: f64 = 0.10;

/// The tow vehicle as two axles on a line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tow {
    /// Mass m₁, uncoupled [kg].
    pub mass_kg: f64,
    /// Yaw inertia about its centre of gravity I₁ [kg·m²].
    pub yaw_inertia_kg_m2: f64,
    /// Centre of gravity to front axle a [m].
    pub to_front_m: f64,
    /// Centre of gravity to rear axle b [m].
    pub to_rear_m: f64,
    /// Centre of gravity to ball d [m].
    pub to_ball_m: f64,
    /// Cornering stiffness of the front axle C_f [N/rad].
    pub front_n_rad: f64,
    /// Cornering stiffness of the rear axle C_r [N/rad].
    pub rear_n_rad: f64,
}

/// The trailer as one axle group on a line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Trailer {
    /// Mass m₂ [kg].
    pub mass_kg: f64,
    /// Yaw inertia about its centre of gravity I₂ [kg·m²], > 0.
    pub yaw_inertia_kg_m2: f64,
    /// Ball to centre of gravity e [m].
    pub to_center_m: f64,
    /// Centre of gravity to axle group h_t [m], positive with the axles behind.
    pub to_group_m: f64,
    /// Cornering stiffness of all its tires C_t [N/rad].
    pub tires_n_rad: f64,
    /// Rotary damping of a sway device at the ball c [N·m·s/rad], 0 without.
    pub damper_n_m_s_rad: f64,
}

/// How a combination becomes unstable.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Instability {
    /// A swing that grows: sway.
    Oscillatory,
    /// A turn that tightens without swinging: jack-knife, or an oversteering tow vehicle.
    Divergent,
}

/// Speed at which a swing no longer dies away, in the model.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CriticalSpeed {
    /// The speed [m/s].
    pub speed_m_s: f64,
    /// What begins there.
    pub kind: Instability,
}

/// Cornering stiffness of an axle from the load on it: `C = k N`, k = [`CORNERING_COEFFICIENT_PER_RAD`].
///
/// - `load_kg`  load on the axle or group [kg]
///
/// Returns the stiffness [N/rad].
///
/// Source: definition of the cornering coefficient; its value `from memory`.
pub fn cornering_stiffness_n_rad(load_kg: f64) -> f64 {
    CORNERING_COEFFICIENT_PER_RAD * load_kg * STANDARD_GRAVITY_M_S2
}

impl Tow {
    /// The tow vehicle from its axle loads, all else by default.
    ///
    /// `a = WB R₀/(F₀ + R₀)`, `b = WB − a`, `d = b + OH`, `I₁ = 0.95 m a b`, stiffness from the coupled loads
    ///
    /// - `alone_kg`     front and rear axle load, uncoupled F₀, R₀ [kg], sum above 0
    /// - `coupled_kg`   front and rear axle load with the trailer [kg]
    /// - `wheelbase_m`  WB [m]
    /// - `overhang_m`   rear axle to ball OH [m]
    ///
    /// Source: moments about an axle; [`TOW_INERTIA_RATIO`]; [`cornering_stiffness_n_rad`].
    pub fn from_axle_loads(
        alone_kg: [f64; 2],
        coupled_kg: [f64; 2],
        wheelbase_m: f64,
        overhang_m: f64,
    ) -> Self {
        let mass_kg = alone_kg[0] + alone_kg[1];
        let to_front_m = wheelbase_m * alone_kg[1] / mass_kg;
        let to_rear_m = wheelbase_m - to_front_m;
        Self {
            mass_kg,
            yaw_inertia_kg_m2: TOW_INERTIA_RATIO * mass_kg * to_front_m * to_rear_m,
            to_front_m,
            to_rear_m,
            to_ball_m: to_rear_m + overhang_m,
            front_n_rad: cornering_stiffness_n_rad(coupled_kg[0]),
            rear_n_rad: cornering_stiffness_n_rad(coupled_kg[1]),
        }
    }
}

impl Trailer {
    /// The trailer from its masses, tire stiffness by default, no damper.
    ///
    /// `e = X`, `h_t = L − X`, stiffness from the axle load `W X/L`
    ///
    /// - `totals`             everything aboard, mass above 0
    /// - `yaw_inertia_kg_m2`  about the centre of gravity [kg·m²], see [`super::yaw`]
    /// - `group_x_m`          station of the axle group L [m]
    ///
    /// Source: geometry; [`cornering_stiffness_n_rad`].
    pub fn from_totals(totals: &Totals, yaw_inertia_kg_m2: f64, group_x_m: f64) -> Self {
        let to_center_m = totals.center_x_m();
        Self {
            mass_kg: totals.mass_kg,
            yaw_inertia_kg_m2,
            to_center_m,
            to_group_m: group_x_m - to_center_m,
            tires_n_rad: cornering_stiffness_n_rad(totals.x_kg_m / group_x_m),
            damper_n_m_s_rad: 0.0,
        }
    }
}

/// Characteristic polynomial of the combination: `det(λ M − K)` of the linear single-track model `M ẋ = K x`.
///
/// State: the tow vehicle's lateral speed v and yaw rate r, the trailer's angle θ to it and its rate, left positive.
/// With `ℓ = e + h_t`: `F_f = −C_f (v + a r)/V`, `F_r = −C_r (v − b r)/V`,
/// `F_t = −C_t [(v − (d + ℓ) r − ℓ θ̇)/V − θ]`, and
///
/// ```text
/// (m₁+m₂) v̇ − m₂(d+e) ṙ − m₂e θ̈             = F_f + F_r + F_t − (m₁+m₂) V r
/// −m₂d v̇ + (I₁+m₂d(d+e)) ṙ + m₂de θ̈         = a F_f − b F_r − d F_t + m₂d V r + c θ̇
/// −m₂e v̇ + (I₂+m₂e(d+e)) ṙ + (I₂+m₂e²) θ̈   = −ℓ F_t + m₂e V r − c θ̇
/// ```
///
/// - `tow`, `trailer`  the combination
/// - `speed_m_s`       V [m/s], > 0
///
/// Returns the coefficients of 1, λ, λ², λ³, λ⁴. With θ̇ = λ θ the determinant is one of three rows, its columns of
/// degree 1, 1 and 2.
///
/// Source: Newton and Euler for two bodies joined at the ball, linearised; linear 4-state model as in SAE 2008-01-1228.
pub fn characteristic(tow: &Tow, trailer: &Trailer, speed_m_s: f64) -> [f64; 5] {
    let (a, b, d) = (tow.to_front_m, tow.to_rear_m, tow.to_ball_m);
    let (m1, i1) = (tow.mass_kg, tow.yaw_inertia_kg_m2);
    let (m2, i2, e) = (trailer.mass_kg, trailer.yaw_inertia_kg_m2, trailer.to_center_m);
    let arm = e + trailer.to_group_m;
    let damper = trailer.damper_n_m_s_rad;
    let tires = trailer.tires_n_rad;
    let [front, rear, group] = [tow.front_n_rad, tow.rear_n_rad, tires].map(|c| c / speed_m_s);
    let m = m1 + m2;
    // Columns v and r: constant and λ. Column θ: constant, λ and λ².
    let v = [[front + rear + group, m], [a * front - b * rear - d * group, -m2 * d], [-arm * group, -m2 * e]];
    let r = [
        [a * front - b * rear - (d + arm) * group + m * speed_m_s, -m2 * (d + e)],
        [a * a * front + b * b * rear + d * (d + arm) * group - m2 * d * speed_m_s, i1 + m2 * d * (d + e)],
        [arm * (d + arm) * group - m2 * e * speed_m_s, i2 + m2 * e * (d + e)],
    ];
    let theta = [
        [-tires, -arm * group, -m2 * e],
        [d * tires, d * arm * group - damper, m2 * d * e],
        [arm * tires, arm * arm * group + damper, i2 + m2 * e * e],
    ];
    let minor = |i: usize, j: usize| {
        let term = |p: usize, q: usize| v[i][p] * r[j][q] - v[j][p] * r[i][q];
        [term(0, 0), term(0, 1) + term(1, 0), term(1, 1)]
    };
    let mut coefficients = [0.0; 5];
    for (column, minor) in theta.iter().zip([minor(1, 2), minor(2, 0), minor(0, 1)]) {
        for (p, &t) in column.iter().enumerate() {
            for (q, &n) in minor.iter().enumerate() {
                coefficients[p + q] += t * n;
            }
        }
    }
    coefficients
}

/// Eigenvalues of the combination at a speed: roots of [`characteristic`].
///
/// - `tow`, `trailer`  the combination
/// - `speed_m_s`       V [m/s], > 0
///
/// Returns the four eigenvalues [1/s].
///
/// Source: as [`characteristic`].
pub fn eigenvalues(tow: &Tow, trailer: &Trailer, speed_m_s: f64) -> [Root; 4] {
    roots(characteristic(tow, trailer, speed_m_s))
}

/// Damping ratio of the least damped swing.
///
/// `ζ = −Re λ / |λ|`
///
/// - `eigenvalues`  from [`eigenvalues`] [1/s]
///
/// Returns the least over the oscillatory pairs, negative for one that grows; none where nothing swings.
///
/// Source: definition of the damping ratio.
pub fn damping_ratio(eigenvalues: [Root; 4]) -> Option<f64> {
    let pairs = eigenvalues.into_iter().filter(|root| root.im > 0.0);
    pairs.map(|root| -root.re / root.re.hypot(root.im)).min_by(f64::total_cmp)
}

/// Largest real part: above 0 the combination is unstable.
///
/// - `eigenvalues`  from [`eigenvalues`] [1/s]
///
/// Returns the real part [1/s].
///
/// Source: stability of linear systems.
pub fn largest_real_part(eigenvalues: [Root; 4]) -> f64 {
    eigenvalues.into_iter().map(|root| root.re).fold(f64::NEG_INFINITY, f64::max)
}

/// What is unstable at a speed, by the Routh–Hurwitz conditions.
///
/// Stable: all coefficients positive and `c₁ c₂ c₃ > c₄ c₁² + c₀ c₃²`. A real eigenvalue passes zero with c₀.
fn instability(c: [f64; 5]) -> Option<Instability> {
    let [c0, c1, c2, c3, c4] = c;
    if c0 <= 0.0 {
        return Some(Instability::Divergent);
    }
    let stable = c1 > 0.0 && c3 > 0.0 && c1 * c2 * c3 > c4 * c1 * c1 + c0 * c3 * c3;
    (!stable).then_some(Instability::Oscillatory)
}

/// Lowest speed at which the combination becomes unstable.
///
/// Smallest V with max Re λ = 0
///
/// - `tow`, `trailer`  the combination
/// - `limit_m_s`       speed up to which to look [m/s]
///
/// Returns the speed, to about 10 nm/s, and what begins there; none when stable up to the limit. Looked for in steps
/// of 0.5 m/s from 0.5 m/s on: a range of unstable speeds narrower than that may be passed over.
///
/// Source: Routh–Hurwitz conditions on [`characteristic`].
pub fn critical_speed(tow: &Tow, trailer: &Trailer, limit_m_s: f64) -> Option<CriticalSpeed> {
    const STEP_M_S: f64 = 0.5;
    const HALVINGS: usize = 26;
    let at = |speed_m_s| instability(characteristic(tow, trailer, speed_m_s));
    let mut stable_m_s = 0.0;
    let mut found;
    loop {
        let speed_m_s = stable_m_s + STEP_M_S;
        if speed_m_s > limit_m_s {
            return None;
        }
        if let Some(kind) = at(speed_m_s) {
            found = CriticalSpeed { speed_m_s, kind };
            break;
        }
        stable_m_s = speed_m_s;
    }
    for _ in 0..HALVINGS {
        let speed_m_s = (stable_m_s + found.speed_m_s) / 2.0;
        match at(speed_m_s) {
            Some(kind) => found = CriticalSpeed { speed_m_s, kind },
            None => stable_m_s = speed_m_s,
        }
    }
    Some(found)
}

/// Natural frequency of a trailer swinging behind a ball that moves straight ahead.
///
/// `ω_n = √(C D / I_ball)`
///
/// - `tires_n_rad`       cornering stiffness of all trailer tires C [N/rad]
/// - `group_x_m`         ball to axle group D [m]
/// - `about_ball_kg_m2`  yaw inertia about the ball I_ball [kg·m²], > 0
///
/// Returns the angular frequency [rad/s].
///
/// Source: `I_ball ψ̈ + (C D²/V) ψ̇ + C D ψ = 0`, moments about the ball.
pub fn screening_frequency_rad_s(tires_n_rad: f64, group_x_m: f64, about_ball_kg_m2: f64) -> f64 {
    (tires_n_rad * group_x_m / about_ball_kg_m2).sqrt()
}

/// Damping ratio of that swing.
///
/// `ζ = D ω_n / (2 V)`
///
/// - `group_x_m`        ball to axle group D [m]
/// - `frequency_rad_s`  from [`screening_frequency_rad_s`] [rad/s]
/// - `speed_m_s`        V [m/s], > 0
///
/// Returns the ratio. Always positive: it knows no critical speed.
///
/// Source: as [`screening_frequency_rad_s`].
pub fn screening_damping_ratio(group_x_m: f64, frequency_rad_s: f64, speed_m_s: f64) -> f64 {
    group_x_m * frequency_rad_s / (2.0 * speed_m_s)
}

#[cfg(test)]
mod tests {
    use super::super::fixture::*;
    use super::*;
    use crate::units::{kg, m, m_s};
    use std::f64::consts::TAU;

    /// A published car with a trailer: parameters of the truck-trailer example of the open-source multibody package
    /// EoM.jl; the eigenvalues expected of it are computed, not published.
    fn example(e: f64, h_t: f64) -> (Tow, Trailer) {
        let tow = Tow {
            mass_kg: 16_975.0 / 9.81,
            yaw_inertia_kg_m2: 3_508.0,
            to_front_m: 1.289,
            to_rear_m: 1.596,
            to_ball_m: 2.7,
            front_n_rad: 80_000.0,
            rear_n_rad: 80_000.0,
        };
        let trailer = Trailer {
            mass_kg: 2_000.0,
            yaw_inertia_kg_m2: 3_000.0,
            to_center_m: e,
            to_group_m: h_t,
            tires_n_rad: 80_000.0,
            damper_n_m_s_rad: 0.0,
        };
        (tow, trailer)
    }

    /// The tests' trailer behind a pickup of 5600 lb.
    fn pickup() -> (Tow, Trailer) {
        let tow = Tow {
            mass_kg: 2_540.117272,
            yaw_inertia_kg_m2: 7_922.213321,
            to_front_m: 1.512660714,
            to_rear_m: 2.170339286,
            to_ball_m: 3.389539286,
            front_n_rad: 120_000.0,
            rear_n_rad: 130_000.0,
        };
        let trailer = Trailer {
            mass_kg: 1_921.417279,
            yaw_inertia_kg_m2: 3_488.531126,
            to_center_m: 4.201661284,
            to_group_m: 0.624338716,
            tires_n_rad: 150_000.0,
            damper_n_m_s_rad: 0.0,
        };
        (tow, trailer)
    }

    fn ratio((tow, trailer): (Tow, Trailer), mph: f64) -> f64 {
        damping_ratio(eigenvalues(&tow, &trailer, m_s(mph))).unwrap()
    }

    #[track_caller]
    fn assert_has_root(roots: [Root; 4], re: &str, im: &str) {
        let (re_near, im_near): (f64, f64) = (re.parse().unwrap(), im.parse().unwrap());
        let nearest = roots
            .into_iter()
            .min_by(|a, b| {
                let far = |r: &Root| (r.re - re_near).hypot(r.im - im_near);
                far(a).total_cmp(&far(b))
            })
            .unwrap();
        assert_printed(nearest.re, re);
        assert_printed(nearest.im, im);
    }

    #[test]
    fn example_has_the_printed_eigenvalues() {
        for (e, h_t, speed, real, pair, zeta) in [
            (2.9, 0.1, 10.0, ["-10.05723", "-5.98267"], ["-1.00134", "3.01141"], "0.315528"),
            (2.9, 0.1, 18.0, ["-6.47563", "-3.49350"], ["-0.027260", "2.96393"], "0.009197"),
            (2.9, 0.1, 25.0, ["-5.15473", "-2.71355"], ["0.325624", "2.80070"], "-0.115487"),
            (2.7, 0.3, 25.0, ["-5.55460", "-1.06646"], ["-0.307549", "3.01888"], "0.101351"),
            (2.5, 0.5, 25.0, ["-5.80335", "0.128945"], ["-0.814159", "3.59536"], "0.220856"),
        ] {
            let (tow, trailer) = example(e, h_t);
            let roots = eigenvalues(&tow, &trailer, speed);
            assert_has_root(roots, real[0], "0");
            assert_has_root(roots, real[1], "0");
            assert_has_root(roots, pair[0], pair[1]);
            assert_printed(damping_ratio(roots).unwrap(), zeta);
        }
    }

    #[test]
    fn critical_speed_has_an_optimum_between_sway_and_jack_knife() {
        for (e, h_t, speed, kind) in [
            (2.9, 0.1, "18.4001", Instability::Oscillatory),
            (2.7, 0.3, "36.9623", Instability::Divergent),
            (2.5, 0.5, "23.8924", Instability::Divergent),
        ] {
            let (tow, trailer) = example(e, h_t);
            let critical = critical_speed(&tow, &trailer, 100.0).unwrap();
            assert_printed(critical.speed_m_s, speed);
            assert_eq!(critical.kind, kind);
            let growth = largest_real_part(eigenvalues(&tow, &trailer, critical.speed_m_s));
            assert!(growth.abs() < 1e-7, "{growth}");
        }
        let (tow, trailer) = example(2.9, 0.1);
        assert_eq!(critical_speed(&tow, &trailer, 18.0), None);
    }

    #[test]
    fn pickup_and_trailer_have_the_printed_damping() {
        for (mph, zeta) in [(40.0, "0.651963"), (55.0, "0.471003"), (65.0, "0.397882"), (75.0, "0.344502")] {
            assert_printed(ratio(pickup(), mph), zeta);
        }
        let (tow, trailer) = pickup();
        let roots = eigenvalues(&tow, &trailer, COMPARISON_SPEED_M_S);
        assert_has_root(roots, "-1.944322", "4.483217");
        assert_has_root(roots, "-2.744115", "1.474345");
    }

    #[test]
    fn more_tongue_load_damps_the_swing() {
        for (fraction, zeta) in [
            (0.02, "0.181162"),
            (0.05, "0.258706"),
            (0.08, "0.337598"),
            (0.10, "0.374851"),
            (0.15, "0.403695"),
        ] {
            let (tow, trailer) = pickup();
            let moved = Trailer {
                to_center_m: m(GROUP_X_IN) * (1.0 - fraction),
                to_group_m: m(GROUP_X_IN) * fraction,
                ..trailer
            };
            assert_printed(ratio((tow, moved), 65.0), zeta);
        }
    }

    #[test]
    fn more_yaw_inertia_weakens_the_damping_and_a_damper_helps() {
        let (tow, trailer) = pickup();
        for (multiple, zeta) in [(0.5, "0.428290"), (1.5, "0.352089"), (2.0, "0.293819")] {
            let heavier = Trailer { yaw_inertia_kg_m2: multiple * trailer.yaw_inertia_kg_m2, ..trailer };
            assert_printed(ratio((tow, heavier), 65.0), zeta);
        }
        for (damper, zeta) in [(1_000.0, "0.435874"), (3_000.0, "0.511473")] {
            let damped = Trailer { damper_n_m_s_rad: damper, ..trailer };
            assert_printed(ratio((tow, damped), 65.0), zeta);
        }
    }

    #[test]
    fn screening_formula_gives_the_printed_swing() {
        let (_, trailer) = pickup();
        let e = trailer.to_center_m;
        let about_ball = trailer.yaw_inertia_kg_m2 + trailer.mass_kg * e * e;
        let frequency = screening_frequency_rad_s(150_000.0, m(GROUP_X_IN), about_ball);
        assert_printed(frequency, "4.398964");
        assert_printed(frequency / TAU, "0.7001");
        let zeta = screening_damping_ratio(m(GROUP_X_IN), frequency, COMPARISON_SPEED_M_S);
        assert_printed(zeta, "0.365299");
    }

    #[test]
    fn tow_vehicle_alone_is_the_two_wheel_model() {
        let (tow, trailer) = pickup();
        let nothing = Trailer { mass_kg: 0.0, tires_n_rad: 0.0, ..trailer };
        assert_has_root(eigenvalues(&tow, &nothing, 30.0), "-3.506249", "3.477306");
        // λ² + (p) λ + q of lateral speed and yaw rate.
        let Tow { mass_kg, yaw_inertia_kg_m2: i, to_front_m: a, to_rear_m: b, .. } = tow;
        let (f, r, speed) = (tow.front_n_rad, tow.rear_n_rad, 30.0);
        let p = ((f + r) / mass_kg + (a * a * f + b * b * r) / i) / speed;
        let q = f * r * (a + b).powi(2) / (mass_kg * i * speed * speed) + (b * r - a * f) / i;
        assert_printed(-p / 2.0, "-3.506249");
        assert_printed((q - p * p / 4.0).sqrt(), "3.477306");
    }

    #[test]
    fn defaults_rebuild_the_pickup_from_its_axle_loads() {
        let alone = [kg(3_300.0), kg(2_300.0)];
        let tow = Tow::from_axle_loads(alone, [kg(3_118.59), kg(3_029.42)], m(145.0), m(48.0));
        assert_printed(tow.mass_kg, "2540.117272");
        assert_printed(tow.yaw_inertia_kg_m2, "7922.213321");
        assert_printed(tow.to_front_m, "1.512660714");
        assert_printed(tow.to_rear_m, "2.170339286");
        assert_printed(tow.to_ball_m, "3.389539286");
        assert!((tow.front_n_rad / tow.rear_n_rad - 3_118.59 / 3_029.42).abs() < 1e-12);
        let trailer = Trailer::from_totals(&totals(), 3_488.5, m(GROUP_X_IN));
        assert_printed(trailer.mass_kg, "1921.417279");
        assert_printed(trailer.to_center_m, "4.201661284");
        assert_printed(trailer.to_group_m, "0.624338716");
    }

    #[test]
    fn cornering_stiffness_is_fourteen_hundredths_of_the_load_a_degree() {
        let newtons_a_degree = cornering_stiffness_n_rad(1_000.0) * 1f64.to_radians();
        assert!((newtons_a_degree - 0.14 * 9_806.65).abs() < 1e-9);
    }

    type Matrix = [[f64; 4]; 4];

    /// M and K of the state (v, r, θ̇, θ), written out apart from the polynomial.
    fn matrices(tow: &Tow, trailer: &Trailer, speed: f64) -> [Matrix; 2] {
        let (a, b, d) = (tow.to_front_m, tow.to_rear_m, tow.to_ball_m);
        let (m1, m2) = (tow.mass_kg, trailer.mass_kg);
        let (i1, i2) = (tow.yaw_inertia_kg_m2, trailer.yaw_inertia_kg_m2);
        let e = trailer.to_center_m;
        let l = e + trailer.to_group_m;
        let mass = [
            [m1 + m2, -m2 * (d + e), -m2 * e, 0.0],
            [-m2 * d, i1 + m2 * d * (d + e), m2 * d * e, 0.0],
            [-m2 * e, i2 + m2 * e * (d + e), i2 + m2 * e * e, 0.0],
            [0.0, 0.0, 0.0, 1.0],
        ];
        let forces = [
            [1.0, a, 0.0, 0.0].map(|s| -tow.front_n_rad * s / speed),
            [1.0, -b, 0.0, 0.0].map(|s| -tow.rear_n_rad * s / speed),
            [1.0, -(d + l), -l, -speed].map(|s| -trailer.tires_n_rad * s / speed),
        ];
        let arms = [[1.0, 1.0, 1.0], [a, -b, -d], [0.0, 0.0, -l]];
        let turning = [-(m1 + m2), m2 * d, m2 * e].map(|s| s * speed);
        let damper = [0.0, 1.0, -1.0].map(|s| s * trailer.damper_n_m_s_rad);
        let mut k = [[0.0; 4]; 4];
        for row in 0..3 {
            for column in 0..4 {
                k[row][column] = (0..3).map(|f| arms[row][f] * forces[f][column]).sum();
            }
            k[row][1] += turning[row];
            k[row][2] += damper[row];
        }
        k[3][2] = 1.0;
        [mass, k]
    }

    /// M⁻¹ K by elimination with pivoting.
    fn solved(mut mass: Matrix, mut k: Matrix) -> Matrix {
        for i in 0..4 {
            let pivot = (i..4).max_by(|&p, &q| mass[p][i].abs().total_cmp(&mass[q][i].abs()));
            mass.swap(i, pivot.unwrap());
            k.swap(i, pivot.unwrap());
            for row in (0..4).filter(|&row| row != i) {
                let factor = mass[row][i] / mass[i][i];
                for column in 0..4 {
                    mass[row][column] -= factor * mass[i][column];
                    k[row][column] -= factor * k[i][column];
                }
            }
        }
        std::array::from_fn(|i| k[i].map(|value| value / mass[i][i]))
    }

    fn times(a: &Matrix, b: &Matrix) -> Matrix {
        std::array::from_fn(|i| std::array::from_fn(|j| (0..4).map(|n| a[i][n] * b[n][j]).sum()))
    }

    #[test]
    fn eigenvalues_have_the_power_sums_of_the_matrix() {
        let damped = Trailer { damper_n_m_s_rad: 1_000.0, ..pickup().1 };
        for (tow, trailer) in [example(2.9, 0.1), example(2.5, 0.5), pickup(), (pickup().0, damped)] {
            for speed in [2.0, 10.0, 25.0, 50.0] {
                let [mass, k] = matrices(&tow, &trailer, speed);
                let a = solved(mass, k);
                let roots = eigenvalues(&tow, &trailer, speed);
                // Σ λⁿ is the trace of Aⁿ.
                let mut power = a;
                let mut powers = roots;
                for n in 1..=4 {
                    let trace: f64 = (0..4).map(|i| power[i][i]).sum();
                    let sum: f64 = powers.iter().map(|r| r.re).sum();
                    let scale: f64 = powers.iter().map(|r| r.re.hypot(r.im)).sum();
                    assert!((sum - trace).abs() < 1e-11 * scale, "power {n} at {speed} m/s");
                    power = times(&power, &a);
                    powers = std::array::from_fn(|i| Root {
                        re: powers[i].re * roots[i].re - powers[i].im * roots[i].im,
                        im: powers[i].re * roots[i].im + powers[i].im * roots[i].re,
                    });
                }
            }
        }
    }

    #[test]
    fn stability_conditions_agree_with_the_eigenvalues() {
        for h_t in [0.05, 0.1, 0.2, 0.3, 0.4, 0.5] {
            let (tow, trailer) = example(3.0 - h_t, h_t);
            for speed in (1..60).map(f64::from) {
                let unstable = instability(characteristic(&tow, &trailer, speed)).is_some();
                let growth = largest_real_part(eigenvalues(&tow, &trailer, speed));
                assert_eq!(unstable, growth > 0.0, "{h_t} m, {speed} m/s");
            }
        }
    }
}
