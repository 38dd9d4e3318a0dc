//! Sol-air temperatures under the older clear sky of the ASHRAE Handbook.

use std::f64::consts::FRAC_PI_2;

use crate::rows::cases;
use wainwright::cooling_load::envelope::sol_air::sol_air_c;
use wainwright::sky::sun::Direction;
use wainwright::sky::transposition::{beam_w_m2, ground_w_m2};
use wainwright::units::{M2_K_W_PER_R, M2_PER_FT2, celsius, fahrenheit, kelvin, w_from_btu_h};

/// Constants of the sky on 21 July: apparent irradiance outside the air A [W/m²], extinction B, diffuse share C; `from memory`.
const A_W_M2: f64 = 1085.0;
const B: f64 = 0.207;
const C: f64 = 0.136;
const LATITUDE_DEG: f64 = 40.0;
const DECLINATION_DEG: f64 = 20.6;
/// Watts in a square meter of one BTU/(h·ft²), as the vectors round it.
const W_M2_PER_BTU_H_FT2: f64 = 3.1546;
/// Film outside [W/(m²·K)]: 3.0 BTU/(h·ft²·°F).
const FILM_W_M2_K: f64 = 3.0 / M2_K_W_PER_R;

/// Where the sun stands at an hour of solar time.
fn sun(solar_hour: f64) -> Direction {
    let (sin_latitude, cos_latitude) = LATITUDE_DEG.to_radians().sin_cos();
    let (sin_declination, cos_declination) = DECLINATION_DEG.to_radians().sin_cos();
    let (sin_hour, cos_hour) = (15.0 * (solar_hour - 12.0)).to_radians().sin_cos();
    Direction {
        east: -cos_declination * sin_hour,
        north: sin_declination * cos_latitude - cos_declination * sin_latitude * cos_hour,
        up: sin_declination * sin_latitude + cos_declination * cos_latitude * cos_hour,
    }
}

/// All that falls on a plane.
///
/// Source: ASHRAE Handbook Fundamentals to 2005, clear sky by A, B and C; light of the sky on walls by the ratio of
/// Threlkeld. `from memory`
fn falling_w_m2(sun: &Direction, plane: &Direction) -> f64 {
    // The vectors take the sun for down below half a degree.
    let dni = if sun.up > 0.01 { A_W_M2 * (-B / sun.up).exp() } else { 0.0 };
    let cos = sun.cos_angle(plane);
    let upright = plane.up < 0.5;
    let sky = if upright { (0.55 + 0.437 * cos + 0.313 * cos * cos).max(0.45) } else { 1.0 };
    let ghi = dni * (C + sun.up.max(0.0));
    beam_w_m2(dni, cos) + C * dni * sky + if upright { ground_w_m2(ghi, 0.2, 0.0) } else { 0.0 }
}

#[test]
fn every_row_of_the_sol_air_temperatures() {
    let faces = ["n", "ne", "e", "se", "s", "sw", "w", "nw", "hor"];
    for case in cases(include_str!("sol_air.csv"), 24) {
        let sun = sun(case.number("solar_hour"));
        let air_c = celsius(case.number("t_air_f"));
        for (eighth, face) in faces.into_iter().enumerate() {
            let flat = face == "hor";
            let azimuth_rad = (45.0 * eighth as f64).to_radians();
            let plane = Direction::faced(if flat { 0.0 } else { FRAC_PI_2 }, azimuth_rad);
            let falling_btu_h_ft2 = falling_w_m2(&sun, &plane) / W_M2_PER_BTU_H_FT2;
            case.holds(&format!("it_{face}_btu_h_ft2"), falling_btu_h_ft2);
            let falling_w_m2 = w_from_btu_h(falling_btu_h_ft2) / M2_PER_FT2;
            // By rule 7 °F on a flat face.
            let sky_loss_w_m2 = if flat { kelvin(7.0) * FILM_W_M2_K } else { 0.0 };
            // α/h_o is 0.15 of a light face and 0.30 of a dark one, h·ft²·°F/BTU.
            for (name, absorptance) in [("light", 0.45), ("dark", 0.90)] {
                let sol_air_c = sol_air_c(air_c, falling_w_m2, absorptance, sky_loss_w_m2, FILM_W_M2_K);
                case.holds(&format!("{name}_{face}_f"), fahrenheit(sol_air_c));
            }
        }
    }
}
