//! Weather that is made: its parts against figures worked out apart from this code, and the laws that the whole keeps.

#![allow(clippy::unwrap_used, reason = "what cannot be unwrapped here fails its test")]

#[path = "sky_synthetic/laws.rs"]
mod laws;
#[path = "sky_synthetic/parts.rs"]
mod parts;
#[path = "sky_synthetic/places.rs"]
mod places;
#[path = "sky_synthetic/rows.rs"]
mod rows;
#[path = "sky_synthetic/textbook.rs"]
mod textbook;

use wainwright::sky::clock::Clock;
use wainwright::sky::sun::{DELTA_T_S, Direction, Observer, SunTable};
use wainwright::sky::weather::Place;

/// Where the sun stands in the middle of each step.
fn sun_of(place: &Place, clock: &Clock) -> Vec<Direction> {
    let first_unix_s = clock.first_middle_unix_s(place.utc_offset_h);
    let table = SunTable::new(first_unix_s, clock.step_h() * 3600.0, clock.count(), DELTA_T_S).unwrap();
    table.seen_from(Observer::new(place.latitude_rad, place.longitude_rad, place.altitude_m)).collect()
}

/// A place by degrees, on the clock of its meridian.
fn place(latitude_deg: f64, longitude_deg: f64, altitude_m: f64) -> Place {
    Place {
        latitude_rad: latitude_deg.to_radians(),
        longitude_rad: longitude_deg.to_radians(),
        altitude_m,
        utc_offset_h: (longitude_deg / 15.0).round(),
    }
}
