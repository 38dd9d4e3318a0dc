//! Sunrise and sunset at seven places on five dates of 2024.
//!
//! Source of the table: a bisection for a zenith angle of 90.83337° on the Solar Position Algorithm (NREL/TP-560-34302) as
//! an independent implementation in another language works it out. Columns ending in `_lib` are that
//! implementation's own shortcut, which is minutes off where an event falls on the other side of UTC midnight; they are
//! not used but for the meridian transit.

use wainwright::sky::sunrise::*;

use super::rows;

const CSV: &str = include_str!("sunrise.csv");

/// Days from 1970-01-01 to 2024-01-01, and the date's days after that in a leap year.
fn unix_days(date: &str) -> f64 {
    19_723.0
        + match date {
            "2024-01-15" => 14.0,
            "2024-03-20" => 79.0,
            "2024-06-21" => 172.0,
            "2024-09-22" => 265.0,
            "2024-12-21" => 355.0,
            other => panic!("{other} is not a date of the table"),
        }
}

#[test]
fn rise_and_set_agree_to_a_tenth_of_a_second() {
    let (mut events, mut polar) = (0, 0);
    for (row, line) in rows(CSV).zip(CSV.lines().skip(1)) {
        let [_, latitude_deg, longitude_deg, delta_t_s, transit, _, _, rise, set] = row[..] else {
            panic!("{line}")
        };
        let mean_noon_s = unix_days(&line[..10]) * 86_400.0 + 43_200.0 - longitude_deg * 240.0;
        let (latitude_rad, longitude_rad) = (latitude_deg.to_radians(), longitude_deg.to_radians());
        let day = SolarDay::near(mean_noon_s, latitude_rad, longitude_rad, delta_t_s).unwrap();
        assert!((day.noon_unix_s - transit).abs() < 1.0, "{line}: {}", day.noon_unix_s);
        for (got, expected) in [(day.sunrise_unix_s, rise), (day.sunset_unix_s, set)] {
            match got {
                Some(unix_s) => {
                    assert!((unix_s - expected).abs() < 0.1, "{line}: {unix_s}");
                    events += 1;
                }
                None => {
                    assert!(expected.is_nan(), "{line}");
                    assert_eq!(day.up_at_noon, line.starts_with("2024-06"), "{line}");
                    polar += 1;
                }
            }
        }
    }
    assert_eq!((events, polar), (64, 6));
}
