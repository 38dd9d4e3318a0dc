//! The interpolated sun against the algorithm itself, at 1,000 random instants of 60 years, and over a year of quarters of
//! an hour.

use wainwright::sky::almanac::interpolated;
use wainwright::sky::sun::*;

use super::rows;

const RANDOM: &str = include_str!("spa_random.csv");

fn angle_deg(one: &Direction, other: &Direction) -> f64 {
    let apart = |a: f64, b: f64| (a - b) * (a - b);
    let chord =
        (apart(one.east, other.east) + apart(one.north, other.north) + apart(one.up, other.up)).sqrt();
    (2.0 * (chord / 2.0).asin()).to_degrees()
}

#[test]
fn between_its_nodes_the_sun_is_where_the_algorithm_has_it() {
    let mut worst_deg = 0.0_f64;
    for row in rows(RANDOM) {
        let observer = Observer::new(row[1].to_radians(), row[2].to_radians(), row[3]);
        let direct = Sun::at(row[0], DELTA_T_S).unwrap().seen_from(&observer);
        let table = interpolated(row[0], 3600.0, 1).unwrap();
        let between = table.seen_from(observer).next().unwrap();
        worst_deg = worst_deg.max(angle_deg(&direct, &between));
    }
    assert!(worst_deg < 1e-6, "{worst_deg}");
}

#[test]
fn a_leap_year_of_quarters_of_an_hour() {
    // 2024-01-01 00:07:30 UTC.
    let first_s = 1_704_067_200.0 + 450.0;
    let table = interpolated(first_s, 900.0, 35_136).unwrap();
    let observer = Observer::new(0.6, -1.4, 300.0);
    let steps = table.seen_from(observer).enumerate().step_by(97);
    for (step, between) in steps {
        let direct = Sun::at(first_s + 900.0 * step as f64, DELTA_T_S).unwrap().seen_from(&observer);
        let apart_deg = angle_deg(&direct, &between);
        assert!(apart_deg < 1e-6, "{step}: {apart_deg}");
    }
}
