//! Positions of the sun.
//!
//! Source of the tables: the Solar Position Algorithm (NREL/TP-560-34302) as an independent implementation in another
//! language works it out; the example is that of the report's table A5.1.

use wainwright::sky::sun::*;

use super::rows;

const EXAMPLE: &str = include_str!("spa_example.csv");
const RANDOM: &str = include_str!("spa_random.csv");

/// One row: a place, an instant, the air, and where the sun stands.
struct Row {
    unix_s: f64,
    observer: Observer,
    pressure_pa: f64,
    air_c: f64,
    delta_t_s: f64,
    zenith_deg: f64,
    apparent_zenith_deg: f64,
    azimuth_deg: f64,
}

/// 1,000 random instants of 1990 to 2049 and places from pole to pole, sea level to 3,000 m.
fn random() -> impl Iterator<Item = Row> {
    rows(RANDOM).map(|row| Row {
        unix_s: row[0],
        observer: Observer::new(row[1].to_radians(), row[2].to_radians(), row[3]),
        pressure_pa: 100.0 * row[4],
        air_c: row[5],
        delta_t_s: row[6],
        zenith_deg: row[7],
        apparent_zenith_deg: row[8],
        azimuth_deg: row[9],
    })
}

fn assert_near(got_deg: f64, expected_deg: f64, within_deg: f64) {
    assert!((got_deg - expected_deg).abs() < within_deg, "{got_deg} is not {expected_deg}");
}

/// Source: NREL/TP-560-34302, table A5.1, published figures `from memory`: 2003-10-17 12:30:30 at UTC−7.
#[test]
fn the_published_example_comes_out() {
    let sun = Sun::at(1_066_419_030.0, 67.0).unwrap();
    assert_near(sun.sin_declination.asin().to_degrees(), -9.31434, 5e-6);
    assert_near(sun.hour_angle_rad(-105.1786_f64.to_radians()).to_degrees(), 11.105902, 5e-6);
    assert_near(sun.distance_au, 0.9965422974, 5e-11);
    let seen = sun.seen_from(&Observer::new(39.742476_f64.to_radians(), -105.1786_f64.to_radians(), 1830.14));
    let apparent_deg = apparent_zenith_rad(seen.zenith_rad(), 82_000.0, 11.0).to_degrees();
    let worked_out: Vec<_> = rows(EXAMPLE).collect();
    assert_near(apparent_deg, worked_out[0][1], 1e-6);
    assert_near(apparent_deg, worked_out[0][2], 1e-5);
    assert_near(seen.zenith_rad().to_degrees(), worked_out[1][1], 1e-6);
    assert_near(seen.azimuth_rad().to_degrees(), worked_out[2][1], 1e-6);
    assert_near(seen.azimuth_rad().to_degrees(), worked_out[2][2], 1e-5);
    // A plane tilted 30° that faces 10° east of south: incidence 25.18700°, with the sun where it appears.
    let appears = Direction::faced(apparent_deg.to_radians(), seen.azimuth_rad());
    let plane = Direction::faced(30_f64.to_radians(), 170_f64.to_radians());
    assert_near(appears.cos_angle(&plane).acos().to_degrees(), 25.18700, 1e-5);
}

#[test]
fn a_thousand_positions_agree_to_a_millionth_of_a_degree() {
    assert_eq!(random().count(), 1000);
    for row in random() {
        let seen = Sun::at(row.unix_s, row.delta_t_s).unwrap().seen_from(&row.observer);
        assert_near(seen.zenith_rad().to_degrees(), row.zenith_deg, 1e-6);
        assert_near(seen.azimuth_rad().to_degrees(), row.azimuth_deg, 1e-6);
        let apparent_deg = apparent_zenith_rad(seen.zenith_rad(), row.pressure_pa, row.air_c).to_degrees();
        assert_near(apparent_deg, row.apparent_zenith_deg, 1e-6);
    }
}

#[test]
fn tabulated_directions_are_within_a_hundred_millionth_of_a_degree() {
    let mut largest_deg = 0_f64;
    for row in random() {
        // The third of three hours of a table is the row's instant.
        let table = SunTable::new(row.unix_s - 7200.0, 3600.0, 3, row.delta_t_s).unwrap();
        let seen = table.seen_from(row.observer).nth(2).unwrap();
        let expected = Direction::faced(row.zenith_deg.to_radians(), row.azimuth_deg.to_radians());
        let apart =
            (seen.east - expected.east).hypot(seen.north - expected.north).hypot(seen.up - expected.up);
        largest_deg = largest_deg.max(apart.to_degrees());
    }
    assert!(largest_deg < 1e-8, "{largest_deg}");
}
