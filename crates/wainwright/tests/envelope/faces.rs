//! Light on the faces of a body: vectors, and laws on any sky.

use std::sync::LazyLock;

use proptest::prelude::*;

use crate::rows::{Case, cases};
use wainwright::build::Facing as Face;
use wainwright::cooling_load::envelope::heading::plane;
use wainwright::sky::air_mass::extraterrestrial_w_m2;
use wainwright::sky::irradiance::Irradiance;
use wainwright::sky::plane::{Falling, Plane};
use wainwright::sky::sun::Direction;

/// 21 August.
const DAY_OF_YEAR: u16 = 233;
const ALBEDO: f64 = 0.2;

/// What falls on a face.
fn falling(face: Face, heading_deg: f64, sky: Irradiance, sun: &Direction, day_of_year: u16) -> Falling {
    let stands = plane(face, heading_deg);
    Plane::new(stands.tilt_rad, stands.azimuth_rad, ALBEDO).falling(
        sky,
        sun,
        1.0 / extraterrestrial_w_m2(day_of_year),
    )
}

/// Sun and sky of an hour: zenith and azimuth [degrees], then GHI, DNI and DHI [W/m²].
static HOURS: LazyLock<Vec<[f64; 5]>> = LazyLock::new(|| {
    let columns = ["zenith_deg", "azimuth_deg", "ghi", "dni", "dhi"];
    let hours = cases(include_str!("faces_sun.csv"), 24);
    hours.map(|case| columns.map(|column| case.number(column))).collect()
});

/// Half a unit of the last digit in which they are printed.
const HALF_DIGITS: [f64; 5] = [0.5e-5, 0.5e-5, 0.5e-3, 0.5e-3, 0.5e-3];

/// Beam, sky, ground [W/m²] and angle of incidence [degrees] on a face in an hour.
fn on_face(face: Face, heading_deg: f64, hour: [f64; 5]) -> [f64; 4] {
    let [zenith_deg, azimuth_deg, ghi_w_m2, dni_w_m2, dhi_w_m2] = hour;
    let sun = Direction::faced(zenith_deg.to_radians(), azimuth_deg.to_radians());
    let falling = falling(face, heading_deg, Irradiance { ghi_w_m2, dni_w_m2, dhi_w_m2 }, &sun, DAY_OF_YEAR);
    let incidence_deg = falling.cos_incidence.acos().to_degrees();
    [falling.beam_w_m2, falling.sky_w_m2, falling.ground_w_m2, incidence_deg]
}

fn face(case: &Case) -> Face {
    match case.text("face") {
        "front" => Face::Front,
        "right" => Face::Right,
        "rear" => Face::Rear,
        "left" => Face::Left,
        "roof" => Face::Roof,
        other => panic!("{other}"),
    }
}

#[test]
fn every_row_of_the_faces() {
    for case in cases(include_str!("faces.csv"), 360) {
        let (face, heading_deg) = (face(&case), case.number("heading_deg"));
        let stands = plane(face, heading_deg);
        assert_eq!(stands.tilt_rad, case.number("tilt_deg").to_radians());
        assert_eq!(stands.azimuth_rad, case.number("azimuth_deg").to_radians());

        let hour = HOURS[case.number("hour_start_lst") as usize];
        let worked_out = on_face(face, heading_deg, hour);
        // What the digits of the sun and the sky leave open, beside those of the row.
        let mut open = [0.5e-3, 0.5e-3, 0.5e-3, 0.5e-4];
        for (place, half_digit) in HALF_DIGITS.into_iter().enumerate() {
            let mut moved = hour;
            moved[place] += half_digit;
            let moved = on_face(face, heading_deg, moved);
            for ((open, moved), worked_out) in open.iter_mut().zip(moved).zip(worked_out) {
                *open += (moved - worked_out).abs();
            }
        }
        let columns = ["beam", "sky_haydavies", "ground_0_2", "incidence_deg"];
        for ((column, value), open) in columns.into_iter().zip(worked_out).zip(open) {
            // Rounding may fall on the very edge.
            let open = open * (1.0 + 1e-6);
            let expected = case.number(column);
            assert!((value - expected).abs() <= open, "{column}: {value} ± {open}\n{}", case.cells);
        }
    }
}

prop_compose! {
    /// A sky with the sun up.
    fn sky_and_sun()(
        zenith_deg in 0.0..88.9f64,
        azimuth_deg in 0.0..360.0f64,
        dni_w_m2 in 0.0..1000.0f64,
        dhi_w_m2 in 0.0..400.0f64,
    ) -> (Irradiance, Direction) {
        let sun = Direction::faced(zenith_deg.to_radians(), azimuth_deg.to_radians());
        (Irradiance { ghi_w_m2: dni_w_m2 * sun.up + dhi_w_m2, dni_w_m2, dhi_w_m2 }, sun)
    }
}

proptest! {
    #[test]
    fn a_roof_takes_what_falls_on_level_ground(
        (sky, sun) in sky_and_sun(),
        heading_deg in -360.0..720.0f64,
        day_of_year in 1..=366u16,
    ) {
        let roof = falling(Face::Roof, heading_deg, sky, &sun, day_of_year);
        prop_assert!((roof.beam_w_m2 + roof.sky_w_m2 - sky.ghi_w_m2).abs() < 1e-9);
        prop_assert_eq!(roof.ground_w_m2, 0.0);
    }

    #[test]
    fn an_underside_sees_the_ground_alone(
        (sky, sun) in sky_and_sun(),
        heading_deg in 0.0..360.0f64,
    ) {
        let floor = falling(Face::Floor, heading_deg, sky, &sun, 200);
        prop_assert!(floor.beam_w_m2 == 0.0 && floor.sky_w_m2.abs() < 1e-9);
        prop_assert!((floor.ground_w_m2 - ALBEDO * sky.ghi_w_m2).abs() < 1e-9);
    }

    #[test]
    fn a_quarter_turn_puts_every_wall_to_the_bit_where_another_was(
        (sky, sun) in sky_and_sun(),
        sixteenths in 0..5760i32,
        turns in 1..4usize,
    ) {
        let walls = [Face::Front, Face::Right, Face::Rear, Face::Left];
        let on = |face, heading_deg| falling(face, heading_deg, sky, &sun, 233);
        let heading_deg = f64::from(sixteenths) / 16.0;
        for (place, face) in walls.into_iter().enumerate() {
            let turned = on(face, heading_deg + 90.0 * turns as f64);
            prop_assert_eq!(turned, on(walls[(place + turns) % 4], heading_deg));
        }
    }
}
