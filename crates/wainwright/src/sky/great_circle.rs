//! How far one place is from another.

use super::weather::Place;

/// Mean radius of the earth [m] (IUGG).
pub const EARTH_RADIUS_M: f64 = 6_371_008.8;

/// The shortest way over the earth from one place to another, the earth taken as a ball.
///
/// `d = 2 R asin √[sin²(Δφ/2) + cos φ₁ cos φ₂ sin²(Δλ/2)]`
///
/// - `one`, `other`  the places; their heights do not count
///
/// Returns d [m], within 0.6 % of the way over the true earth.
///
/// Source: the haversine formula.
pub fn distance_m(one: &Place, other: &Place) -> f64 {
    let half = |a: f64, b: f64| ((a - b) / 2.0).sin().powi(2);
    let across = half(one.latitude_rad, other.latitude_rad)
        + one.latitude_rad.cos() * other.latitude_rad.cos() * half(one.longitude_rad, other.longitude_rad);
    2.0 * EARTH_RADIUS_M * across.clamp(0.0, 1.0).sqrt().asin()
}

#[cfg(test)]
mod tests {
    use std::f64::consts::{FRAC_PI_2, PI};

    use super::*;

    fn at(latitude_deg: f64, longitude_deg: f64) -> Place {
        Place {
            latitude_rad: latitude_deg.to_radians(),
            longitude_rad: longitude_deg.to_radians(),
            altitude_m: 0.0,
            utc_offset_h: 0.0,
        }
    }

    #[test]
    fn poles_and_antipodes() {
        assert!((distance_m(&at(90.0, 0.0), &at(0.0, 77.0)) - FRAC_PI_2 * EARTH_RADIUS_M).abs() < 1e-6);
        assert!((distance_m(&at(30.0, 10.0), &at(-30.0, -170.0)) - PI * EARTH_RADIUS_M).abs() < 1.0);
        assert_eq!(distance_m(&at(40.0, -105.0), &at(40.0, -105.0)), 0.0);
    }
}
