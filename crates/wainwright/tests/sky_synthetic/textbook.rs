//! Worked examples of a textbook, worked out again from their inputs.

use std::f64::consts::PI;

use super::rows::cases;
use wainwright::sky::daily::*;
use wainwright::sky::decomposition::erbs_diffuse_share;
use wainwright::sky::hourly_share::global_share;
use wainwright::sky::irradiance::Irradiance;
use wainwright::sky::monthly::{MEAN_DAYS, beam_ratio, diffuse_share, mean_beam_ratio, tilted_j_m2};
use wainwright::sky::sun::Direction;
use wainwright::sky::transposition::{ground_w_m2, hay_davies_w_m2, hdkr_w_m2, isotropic_w_m2};

/// Irradiance facing the sun by the book's solar constant [W/m²].
fn facing_w_m2(day_of_year: u16) -> f64 {
    1367.0 * short_distance_factor(day_of_year)
}

fn rad(deg: f64) -> f64 {
    deg.to_radians()
}

/// Madison, 13 February, 10:30 solar time, and a plane tilted 45° that faces 15° west of south (example 1.6.1).
fn february() -> (Direction, Direction) {
    (direction(rad(43.0), rad(-14.0), rad(-22.5)), Direction::faced(rad(45.0), rad(195.0)))
}

/// The hour of example 2.15.1: 20 February, 9 to 10 h, latitude 40°, a plane tilted 60° to the south over snow.
struct Hour {
    outside: f64,
    clearness: f64,
    diffuse: f64,
    beam_ratio: f64,
}

const HOUR_GHI: f64 = 1.04;
const HOUR_TILT_DEG: f64 = 60.0;

impl Hour {
    fn new() -> Self {
        let declination_rad = declination_rad(51);
        let outside_j_m2 =
            extraterrestrial_hours_j_m2(facing_w_m2(51), rad(40.0), declination_rad, rad(-45.0), rad(-30.0));
        let outside = outside_j_m2 / 1e6;
        let clearness = HOUR_GHI / outside;
        let sun = direction(rad(40.0), declination_rad, rad(-37.5));
        let beam_ratio = beam_ratio(&sun, &Direction::faced(rad(HOUR_TILT_DEG), PI));
        Self { outside, clearness, diffuse: erbs_diffuse_share(clearness), beam_ratio }
    }

    /// Irradiation of the plane, the sky's by a model that takes irradiance: the hour's energies stand for it, beam
    /// facing the sun as the horizontal beam by a cosine of the zenith angle that cancels.
    fn on_plane(&self, sky_of: impl Fn(Irradiance, f64, f64, f64, f64) -> f64) -> f64 {
        let (cos_tilt, cos_zenith) = (rad(HOUR_TILT_DEG).cos(), 0.5);
        let beam = (1.0 - self.diffuse) * HOUR_GHI;
        let sky =
            Irradiance { ghi_w_m2: HOUR_GHI, dni_w_m2: beam / cos_zenith, dhi_w_m2: self.diffuse * HOUR_GHI };
        let outside = self.outside / cos_zenith;
        let cos_incidence = self.beam_ratio * cos_zenith;
        beam * self.beam_ratio
            + sky_of(sky, outside, cos_zenith, cos_incidence, cos_tilt)
            + ground_w_m2(HOUR_GHI, 0.6, cos_tilt)
    }
}

const MADISON_GHI_MJ_M2: [f64; 12] =
    [6.44, 9.89, 12.86, 16.05, 21.36, 23.04, 22.58, 20.33, 14.59, 10.48, 6.37, 5.74];
const MADISON_ALBEDO: [f64; 12] = [0.7, 0.7, 0.4, 0.2, 0.2, 0.2, 0.2, 0.2, 0.2, 0.2, 0.2, 0.4];

/// Example 2.19.1, a month from 0: Madison, latitude 43°, a plane tilted 60° to the south.
fn madison(month: usize, quantity: &str) -> f64 {
    let (latitude_rad, tilt_rad, day) = (rad(43.0), rad(60.0), MEAN_DAYS[month]);
    let declination_rad = declination_rad(day);
    let outside = extraterrestrial_day_j_m2(facing_w_m2(day), latitude_rad, declination_rad) / 1e6;
    let clearness = MADISON_GHI_MJ_M2[month] / outside;
    let diffuse = diffuse_share(clearness, sunset_hour_angle_rad(latitude_rad, declination_rad));
    let ratio = mean_beam_ratio(latitude_rad, declination_rad, tilt_rad);
    match quantity {
        "H0" => outside,
        "K_T" => clearness,
        "Hd/H" => diffuse,
        "R_b" => ratio,
        "H_T" => tilted_j_m2(MADISON_GHI_MJ_M2[month], diffuse, ratio, MADISON_ALBEDO[month], tilt_rad),
        _ => f64::NAN,
    }
}

/// The value of a row, worked out by us.
fn worked_out(example: &str, quantity: &str) -> f64 {
    let share = || global_share(rad(22.5), sunset_hour_angle_rad(rad(43.0), declination_rad(235)));
    let april = (facing_w_m2(105), rad(43.0), declination_rad(105));
    match (example, quantity) {
        ("DB-1.6.1", "declination") => declination_rad(44).to_degrees(),
        ("DB-1.6.1", _) => february().0.cos_angle(&february().1).acos().to_degrees(),
        ("DB-1.6.2", "zenith 13 Feb 09:30 phi43") => {
            direction(rad(43.0), rad(-14.0), rad(-37.5)).zenith_rad().to_degrees()
        }
        ("DB-1.6.2", _) => direction(rad(43.0), rad(23.1), rad(97.5)).zenith_rad().to_degrees(),
        ("DB-1.8.1", _) => beam_ratio(&february().0, &february().1),
        ("DB-1.10.1", _) => extraterrestrial_day_j_m2(april.0, april.1, april.2) / 1e6,
        ("DB-1.10.2", _) => {
            extraterrestrial_hours_j_m2(april.0, april.1, april.2, rad(-30.0), rad(-15.0)) / 1e6
        }
        ("DB-2.13.2", "I = H*r_t with H=31.4") => 31.4 * share(),
        ("DB-2.13.2", _) => share(),
        ("DB-2.15.1", "I0") => Hour::new().outside,
        ("DB-2.15.1", "k_T") => Hour::new().clearness,
        ("DB-2.15.1", "I_d/I") => Hour::new().diffuse,
        ("DB-2.15.1", "R_b") => Hour::new().beam_ratio,
        ("DB-2.15.1", _) => {
            Hour::new().on_plane(|sky, _, _, _, cos_tilt| isotropic_w_m2(sky.dhi_w_m2, cos_tilt))
        }
        ("DB-2.16.1", "I_T Hay-Davies") => Hour::new().on_plane(hay_davies_w_m2),
        ("DB-2.16.1", _) => Hour::new().on_plane(hdkr_w_m2),
        _ => {
            let (month, quantity) = quantity.trim_start_matches("month ").split_once(' ').unwrap();
            madison(month.parse::<usize>().unwrap() - 1, quantity)
        }
    }
}

#[test]
fn every_example_comes_out() {
    for case in cases(include_str!("textbook.csv"), 76) {
        let value = worked_out(case.text("example"), case.text("quantity"));
        // Trailing zeros are not printed: six digits all the same.
        let expected = case.number("recomputed");
        let open = 0.5 * 10f64.powf(expected.abs().log10().floor() - 5.0) * (1.0 + 1e-9);
        assert!((value - expected).abs() <= open, "{value}: {}", case.cells);
    }
}
