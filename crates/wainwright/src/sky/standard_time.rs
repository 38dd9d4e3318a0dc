//! How far standard time may be off the sun's: a clock far from it shows that the sign of a longitude is wrong.

/// Clocks run this much off the sun at most [h]: the widest zone in use is some 3.5 h wide of its meridian.
/// `common practice`
const OFF_THE_SUN_MOST_H: f64 = 4.5;
/// Within the polar circles a place may keep any clock [degree].
const POLAR_DEG: f64 = 66.6;

/// How far standard time is ahead of the mean sun's.
///
/// `Δ = z − λ / 15`, brought to −12 to 12: days are counted from either side of the date line
///
/// - `longitude_deg`  longitude λ [degree], positive east, −180 to 180
/// - `utc_offset_h`   local standard time less universal time z [h], −12 to 14
///
/// Returns Δ [h].
///
/// Source: the earth turns by 15 degrees in an hour.
pub fn ahead_of_sun_h(longitude_deg: f64, utc_offset_h: f64) -> f64 {
    (utc_offset_h - longitude_deg / 15.0 + 12.0).rem_euclid(24.0) - 12.0
}

/// May a place keep such a clock? Within the polar circles any; elsewhere one at most 4.5 h off the sun.
///
/// - `latitude_deg`                   latitude [degree], positive north, −90 to 90
/// - `longitude_deg`, `utc_offset_h`  as in [`ahead_of_sun_h`]
///
/// What is not known (NaN) is not held against it.
pub fn is_usual(latitude_deg: f64, longitude_deg: f64, utc_offset_h: f64) -> bool {
    let off_h = ahead_of_sun_h(longitude_deg, utc_offset_h).abs();
    !(latitude_deg.abs() < POLAR_DEG && off_h > OFF_THE_SUN_MOST_H)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn clocks_of_the_earth_are_usual_and_a_longitude_of_the_wrong_sign_is_not() {
        // Kiritimati keeps +14 h at 157° west, western China +8 h at 74° east, a polar station what it will.
        for (latitude_deg, longitude_deg, utc_offset_h) in [
            (44.1, -121.3, -8.0),
            (1.9, -157.4, 14.0),
            (39.5, 74.0, 8.0),
            (-90.0, 0.0, 12.0),
            (-17.0, 178.0, 12.0),
        ] {
            assert!(is_usual(latitude_deg, longitude_deg, utc_offset_h), "{longitude_deg}");
        }
        assert!(!is_usual(44.1, 121.3, -8.0));
        assert!(is_usual(0.0, 0.0, 4.5) && !is_usual(0.0, 0.0, 4.6) && !is_usual(0.0, 0.0, -4.6));
    }

    #[test]
    fn what_is_not_known_is_usual() {
        for unknown in [(f64::NAN, 121.3, -8.0), (44.1, f64::NAN, -8.0), (44.1, 121.3, f64::NAN)] {
            assert!(is_usual(unknown.0, unknown.1, unknown.2));
        }
    }

    #[test]
    fn the_date_line_is_no_day_off() {
        assert!((ahead_of_sun_h(-157.5, 14.0) - 0.5).abs() < 1e-12);
        assert_eq!(ahead_of_sun_h(180.0, -12.0), 0.0);
    }
}
