//! The weather, and what of it falls on the faces.

use std::f64::consts::FRAC_PI_2;
use std::sync::OnceLock;

use wainwright::sky::almanac;
use wainwright::sky::clock::Clock;
use wainwright::sky::plane::{Falling, Plane};
use wainwright::sky::planes;
use wainwright::sky::sun::Observer;
use wainwright::sky::weather::Weather;

/// Height of the place [m].
const ALTITUDE_M: f64 = 1650.0;
/// Share of its light that the ground throws back.
///
/// Source: ASHRAE Standard 140-2020.
const ALBEDO: f64 = 0.2;

/// North, east, south and west wall, roof: places in [`Hour::falling`].
pub const SOUTH: usize = 2;
pub const ROOF: usize = 4;

/// An hour.
#[derive(Debug, Clone, Copy)]
pub struct Hour {
    pub air_c: f64,
    pub infrared_w_m2: f64,
    pub wind_m_s: f64,
    pub falling: [Falling; 5],
}

/// The year, hour by hour.
pub fn denver() -> &'static [Hour] {
    static YEAR: OnceLock<Vec<Hour>> = OnceLock::new();
    YEAR.get_or_init(read)
}

fn read() -> Vec<Hour> {
    let csv = include_str!("weather.csv").lines().filter(|line| !line.starts_with('#')).skip(1);
    let rows: Vec<[f64; 6]> = csv
        .map(|line| {
            let cells: Vec<f64> = line.split(',').map(|cell| cell.parse().unwrap()).collect();
            cells.try_into().unwrap()
        })
        .collect();
    let column = |of: usize| rows.iter().map(|row| row[of]).collect::<Vec<f64>>();
    let weather = Weather {
        clock: Clock::typical_hours(),
        ghi_w_m2: column(2),
        dni_w_m2: column(3),
        dhi_w_m2: column(4),
        air_c: column(0),
        dew_point_c: None,
        wind_m_s: column(5),
    };
    assert_eq!(rows.len(), weather.clock.count());
    let observer = Observer::new(39.83_f64.to_radians(), -104.65_f64.to_radians(), ALTITUDE_M);
    let suns: Vec<_> = almanac::suns(&weather.clock, -7.0).unwrap().seen_from(observer).collect();
    let faces: [Plane; 5] = std::array::from_fn(|face| {
        let tilt_rad = if face == ROOF { 0.0 } else { FRAC_PI_2 };
        Plane::new(tilt_rad, face as f64 * FRAC_PI_2, ALBEDO)
    });
    let dark = Falling { cos_incidence: -1.0, beam_w_m2: 0.0, sky_w_m2: 0.0, ground_w_m2: 0.0 };
    let mut hours: Vec<Hour> = rows
        .iter()
        .map(|&[air_c, infrared_w_m2, _, _, _, wind_m_s]| Hour {
            air_c,
            infrared_w_m2,
            wind_m_s,
            falling: [dark; 5],
        })
        .collect();
    planes::walk(&faces, &weather, &weather.clock.days(), &suns, ALTITUDE_M, |_, step, falling| {
        hours[step].falling = falling;
    });
    hours
}
