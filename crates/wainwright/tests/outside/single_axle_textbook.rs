//! Source: a statics course's homework on a single-axle trailer. The statement is published; the answers were
//! computed for this test, not published.
//!
//! Trailer of 220 kg with its centre of gravity 1.85 m behind the ball, axle at 2.15 m; load of 540 kg at 3.3 m;
//! g = 9.81 m/s². Asked: the ball's force on the coupler, empty and loaded, and where the load would make it zero.
//!
//! Tolerance: half a unit of the last digit.

use wainwright::equalized::{group_load_kg, tongue_load_kg};

const GRAVITY_M_S2: f64 = 9.81;
const AXLE_X_M: f64 = 2.15;
const TRAILER: [f64; 2] = [220.0, 1.85];
const LOAD_KG: f64 = 540.0;

/// Force of the ball on the coupler, up positive, with masses [kg] at stations [m].
fn ball_force_n(masses: &[[f64; 2]]) -> f64 {
    let gross: f64 = masses.iter().map(|[kg, _]| kg).sum();
    let moment: f64 = masses.iter().map(|[kg, x]| kg * x).sum();
    GRAVITY_M_S2 * tongue_load_kg(gross, group_load_kg(moment, AXLE_X_M))
}

#[test]
fn empty_trailer_rests_on_the_ball() {
    assert!((ball_force_n(&[TRAILER]) - 301.144).abs() <= 0.000_5);
}

#[test]
fn load_behind_the_axle_lifts_the_coupler() {
    let force = ball_force_n(&[TRAILER, [LOAD_KG, 3.3]]);
    assert!((force + 2_532.349).abs() <= 0.000_5);
}

#[test]
fn load_just_behind_the_axle_balances_the_trailer() {
    let x_m = 2.272_22;
    let slope_n_per_m = GRAVITY_M_S2 * LOAD_KG / AXLE_X_M;
    let force = ball_force_n(&[TRAILER, [LOAD_KG, x_m]]);
    assert!(force.abs() <= 0.000_005 * slope_n_per_m);
}
