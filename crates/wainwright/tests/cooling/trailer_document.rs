//! The invented box as a build: what the question makes of it, beside the vectors.

use serde_json::{Value, json};
use wainwright::units::{btu_h, celsius, ft2, r_value};

use super::builds::{report, sides};
use super::design_days::DAYS;
use super::trailer::{STEPS, TRAILER, Trailer};
use crate::rows::{close, numbers, rows};

/// R that a build states of a side: its film outside is that of 0.04 m²K/W, in place of the vectors' 17 W/(m²·K).
fn stated_r(u_w_m2_k: f64) -> f64 {
    r_value(1.0 / u_w_m2_k - 1.0 / 17.0 + 0.04)
}

fn u_value(u_w_m2_k: f64) -> f64 {
    1.0 / r_value(1.0 / u_w_m2_k)
}

/// The box as a build. People's heat goes by the room here, so that what they give off in the vectors stands among the parts.
fn build(trailer: &Trailer, site: Value) -> Value {
    let Trailer { walls_w_m2_k, roof_w_m2_k, floor_w_m2_k, door_w_m2_k, window_m2, .. } = *trailer;
    let u_w_m2_k = [roof_w_m2_k, floor_w_m2_k, walls_w_m2_k, door_w_m2_k, walls_w_m2_k, walls_w_m2_k];
    let (roof, wall) = (trailer.roof_absorptance, trailer.walls_absorptance);
    let window = |facing: &str| {
        json!({"area_ft2": ft2(window_m2), "facing": facing, "glazing": "single_glass",
        "u_value": u_value(5.8), "shgc": trailer.shgc})
    };
    let mut envelope = sides(
        [98.0, 98.0, 45.5, 45.5, 91.0, 91.0],
        u_w_m2_k.map(stated_r),
        [roof, 0.6, wall, wall, wall, wall],
    );
    envelope["windows"] = json!({"left_window": window("left"), "right_window": window("right")});
    envelope["volume_ft3"] = json!(637);
    envelope["air_changes_per_h"] = json!(60.0 * trailer.air_cfm / 637.0);
    json!({"envelope": envelope, "site": site, "parts": {"people_and_lamps": {"mass_lb": 1, "heat_w": 70.0 * trailer.people + 80.0}},
        "climate": {"cooling": {"capacity_btu_h": 5000, "power_w": 5000.0 / 11.0, "setpoint_f": 77}}})
}

/// By night it is theirs within 0.15 %, by day up to 2.8 % more and 0.4 K warmer: upright faces and windows see a brighter sky by
/// Perez than by Hay and Davies. With such a sky the network of the vectors is within 0.3 % of the question too: what is left
/// is the density and the specific heat of the air that comes in.
#[test]
fn the_question_makes_of_it_what_the_vectors_do_under_a_brighter_sky() {
    let of_box = report(&build(&TRAILER, DAYS[0].site(TRAILER.heading_deg)));
    let under_perez = TRAILER.under_perez(DAYS[0].station);
    let (held, free) = (under_perez.ideal(), under_perez.free());
    let per_hour = STEPS / 24;
    for (cells, hour) in rows(include_str!("trailer_day.csv")).zip(&of_box.hours) {
        let [at, outdoor_c, _, _, ideal_w, _, _, _, _, _, free_c] = numbers(&cells);
        close(&cells, celsius(hour.outdoor_f), outdoor_c, 0.000_501);
        let sensible_w = hour.sensible_btu_h / btu_h(1.0);
        let is_night = !(6.0..20.0).contains(&at);
        let brighter = sensible_w / ideal_w - 1.0;
        let expected = if is_night { -0.0015..0.0025 } else { 0.0..0.028 };
        assert!(expected.contains(&brighter), "{cells:?}: {brighter}");
        let warmer_k = celsius(hour.uncooled_f) - free_c;
        assert!((0.0..0.4).contains(&warmer_k), "{cells:?}: {warmer_k}");

        let steps = at as usize * per_hour..(at as usize + 1) * per_hour;
        let mean = |list: &[f64]| list[steps.clone()].iter().sum::<f64>() / per_hour as f64;
        close(&cells, sensible_w, mean(&held.sensible_w), 0.003 * ideal_w);
        close(&cells, celsius(hour.uncooled_f), mean(&free.air_c), 0.05);
    }
    assert_eq!(of_box.smallest_btu_h, Some(5000.0));
}
