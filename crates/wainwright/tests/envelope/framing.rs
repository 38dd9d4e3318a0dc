//! Walls with posts.

use crate::rows::{Case, cases};
use wainwright::cooling_load::envelope::framing::{Post, bridge, framed_u_w_m2_k, framing_factor};
use wainwright::cooling_load::envelope::layers::{Path, limits, resistance_m2_k_w};
use wainwright::standards::framing::Framing;
use wainwright::units::{m, r_value};

/// Conductivity of the foam that runs through, and of the plywood [W/(m·K)].
const FOAM_W_M_K: f64 = 0.026;
const PLYWOOD_W_M_K: f64 = 0.13;

/// Half a unit of the last digit in which the vectors print ψ [W/(m·K)].
const HALF_DIGIT_W_M_K: f64 = 0.5e-5;

fn post(case: &Case) -> Post {
    Post {
        framing: match case.text("framing") {
            "steel" => Framing::Steel,
            "aluminum" => Framing::Aluminum,
            "wood" => Framing::Wood,
            other => panic!("{other}"),
        },
        depth_m: m(case.number("depth_in")),
        insulation_w_m_k: case.number("k_ins"),
        lining_m: match case.text("inner") {
            "plywood_1/8" => 0.0032,
            "plywood_3/8" => 0.0095,
            other => panic!("{other}"),
        },
        foam_m2_k_w: case.number("break_m") / FOAM_W_M_K,
    }
}

/// Asserts that a value is that of a cell, to its last digit and what else is left open.
#[track_caller]
fn near(case: &Case, column: &str, value: f64, open: f64) {
    let printed = case.text(column);
    let decimals = printed.split_once('.').map_or(0, |(_, after)| after.len());
    let open = open + 0.5 * 10f64.powi(-(decimals as i32)) * (1.0 + 1e-9);
    assert!((value - case.number(column)).abs() <= open, "{column}: {value}, not {printed}\n{}", case.cells);
}

#[test]
fn every_row_of_the_posts() {
    for case in cases(include_str!("framing.csv"), 54) {
        let post = post(&case);
        let spacing_m = m(case.number("spacing_in"));
        let lining_m2_k_w = resistance_m2_k_w(post.lining_m, PLYWOOD_W_M_K);
        let between_m2_k_w = resistance_m2_k_w(post.depth_m, post.insulation_w_m_k);
        let rest_m2_k_w = 0.13 + 0.04 + lining_m2_k_w + post.foam_m2_k_w;
        let clear_u = 1.0 / (rest_m2_k_w + between_m2_k_w);
        case.holds("u_clear", clear_u);
        case.holds("r_clear_ip", r_value(1.0 / clear_u));

        let worked_out = bridge(post);
        // Ours is that of 16 in: posts further apart draw a little more, for their fields no longer meet.
        let open_w_m_k = if case.text("spacing_in") == "16" { 0.0 } else { 4e-4 * worked_out.psi_w_m_k };
        near(&case, "psi_w_mk", worked_out.psi_w_m_k, open_w_m_k);
        near(&case, "f_rsi_min", worked_out.least_factor, if open_w_m_k > 0.0 { 3e-4 } else { 0.0 });

        let framed_u = framed_u_w_m2_k(clear_u, worked_out.psi_w_m_k, spacing_m);
        let open_u = (open_w_m_k + HALF_DIGIT_W_M_K) / spacing_m;
        let open_r = open_u / (framed_u * framed_u);
        near(&case, "u_2d", framed_u, open_u);
        near(&case, "r_2d_ip", r_value(1.0 / framed_u), r_value(open_r));
        let factor = framing_factor(framed_u, rest_m2_k_w, between_m2_k_w);
        near(&case, "framed_layer_factor", factor, open_r / between_m2_k_w);
    }
}

#[test]
fn paths_side_by_side_are_the_upper_limit_and_let_too_little_through() {
    for case in cases(include_str!("framing.csv"), 54) {
        let post = post(&case);
        let (width_m, post_m2_k_w) = match post.framing {
            Framing::Wood => (m(1.5), resistance_m2_k_w(post.depth_m, 0.12)),
            Framing::Steel | Framing::Aluminum => (m(1.0), 1e-4),
        };
        let share = width_m / m(case.number("spacing_in"));
        let core = [
            Path {
                share: 1.0 - share,
                resistance_m2_k_w: resistance_m2_k_w(post.depth_m, post.insulation_w_m_k),
            },
            Path { share, resistance_m2_k_w: post_m2_k_w },
        ];
        let lining = [Path::whole(resistance_m2_k_w(post.lining_m, PLYWOOD_W_M_K))];
        let foam = [Path::whole(post.foam_m2_k_w)];
        let wall = limits(&[&lining, &foam, &core], 0.13, 0.04).unwrap();
        case.holds("u_parallel_paths", 1.0 / wall.upper_m2_k_w);
        let too_little_percent = (100.0 - 100.0 / wall.upper_m2_k_w / case.number("u_2d")).round();
        let usual = if post.framing == Framing::Wood { 0.0..=2.0 } else { 8.0..=28.0 };
        assert!(usual.contains(&too_little_percent), "{too_little_percent}\n{}", case.cells);
    }
}
