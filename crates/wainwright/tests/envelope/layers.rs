//! Walls of layers, some bridged by wood.

use crate::rows::{Case, cases};
use wainwright::cooling_load::envelope::layers::{Limits, Path, limits, resistance_m2_k_w};
use wainwright::units::{M2_K_W_PER_R, r_value};

/// A layer of one material.
fn whole(thickness_m: f64, conductivity_w_m_k: f64) -> Vec<Path> {
    vec![Path::whole(resistance_m2_k_w(thickness_m, conductivity_w_m_k))]
}

/// A layer of which framing takes up a share.
fn bridged(thickness_m: f64, between_w_m_k: f64, share: f64, framing_w_m_k: f64) -> Vec<Path> {
    let path =
        |share, conductivity| Path { share, resistance_m2_k_w: resistance_m2_k_w(thickness_m, conductivity) };
    vec![path(1.0 - share, between_w_m_k), path(share, framing_w_m_k)]
}

fn layers(case: &str) -> Vec<Vec<Path>> {
    match case {
        "cavity_wall_dry_lining" => vec![
            whole(0.102, 0.77),
            vec![Path::whole(0.18)],
            bridged(0.100, 0.11, 0.066, 0.88),
            bridged(0.089, 0.038, 0.12, 0.13),
            whole(0.0125, 0.25),
        ],
        "lightweight_homogeneous" => vec![whole(0.009, 0.14), whole(0.066, 0.04), whole(0.012, 0.16)],
        "wood_stud_1.5in_eps" => {
            vec![whole(0.0038, 0.13), bridged(0.0381, 0.036, 0.15, 0.12), whole(0.0005, 50.0)]
        }
        "floor_plywood_xps" => vec![whole(0.019, 0.13), bridged(0.0381, 0.029, 0.10, 0.12)],
        "roof_poly_2in" => vec![whole(0.0032, 0.13), whole(0.0508, 0.026), whole(0.0008, 160.0)],
        _ => panic!("{case}"),
    }
}

/// A wall of the vectors.
fn wall(case: &Case) -> Limits {
    let layers = layers(case.text("case"));
    let layers: Vec<&[Path]> = layers.iter().map(Vec::as_slice).collect();
    limits(&layers, case.number("rsi"), case.number("rse")).unwrap()
}

#[test]
fn every_row_of_the_layers() {
    for case in cases(include_str!("layers.csv"), 5) {
        let wall = wall(&case);
        case.holds("r_upper", wall.upper_m2_k_w);
        case.holds("r_lower", wall.lower_m2_k_w);
        case.holds("r_total", wall.total_m2_k_w());
        case.holds("max_rel_error_pct", 100.0 * wall.relative_error());
        case.holds("u_w_m2k", wall.u_w_m2_k());
        case.holds("r_ip", r_value(wall.total_m2_k_w()));
        case.holds("u_ip", wall.u_w_m2_k() * M2_K_W_PER_R);
        assert!(wall.admitted());
    }
}
