//! Places in the United States whose climate is known by a typical year of records.

use std::sync::LazyLock;

use super::air_temperature::{AirMeans, DailyRange};
use super::coefficients::last_columns;
use super::synthetic::Climate;
use super::weather::Place;

/// Monthly means of typical years.
const TABLE: &str = include_str!("../../data/climate_monthly_us.csv");

/// How many places there are.
const COUNT: usize = 13;

static PLACES: LazyLock<Vec<KnownPlace>> = LazyLock::new(read);

/// A place and its climate.
///
/// Irradiation is the mean day's of each month [kWh/(m² d)].
#[derive(Debug, Clone, PartialEq)]
pub struct KnownPlace {
    /// Its id.
    pub id: &'static str,
    /// Its name.
    pub name: &'static str,
    /// The state it lies in.
    pub state: &'static str,
    /// Whether it lies on the coast of a large body of water.
    pub coast: bool,
    /// Name of the file of the typical year, by its publisher.
    pub file: &'static str,
    /// Where it is.
    pub place: Place,
    /// Global horizontal irradiation.
    pub ghi_kwh_m2_d: [f64; 12],
    /// Beam irradiation of a plane that faces the sun.
    pub dni_kwh_m2_d: [f64; 12],
    /// Diffuse horizontal irradiation.
    pub dhi_kwh_m2_d: [f64; 12],
    /// Mean clearness, by the sun of the month's mean day and a solar constant of 1367 W/m².
    pub clearness: [f64; 12],
    /// Mean air temperature [°C].
    pub air_c: [f64; 12],
    /// Mean wind [m/s].
    pub wind_m_s: [f64; 12],
}

impl KnownPlace {
    /// What weather is made from. Daily ranges of air temperature are not known.
    pub fn climate(&self) -> Climate {
        let range = if self.coast { DailyRange::Coast } else { DailyRange::Inland };
        Climate {
            ghi_kwh_m2_d: self.ghi_kwh_m2_d,
            air: AirMeans { mean_c: self.air_c, range },
            wind_m_s: Some(self.wind_m_s),
        }
    }
}

/// All places, by id.
///
/// Source: NREL TMY data set 2008.
pub fn all() -> &'static [KnownPlace] {
    &PLACES
}

/// A place by its id, such as `golden_co`.
pub fn find(id: &str) -> Option<&'static KnownPlace> {
    all().iter().find(|place| place.id == id)
}

fn read() -> Vec<KnownPlace> {
    let figures = last_columns::<10, { COUNT * 12 }>(TABLE);
    let words = TABLE.lines().filter(|line| !line.starts_with('#')).skip(1).step_by(12);
    let place = |(line, months): (&'static str, &[[f64; 10]])| {
        let mut words = line.split(',');
        let [file, id, name, state, coast] = std::array::from_fn(|_| words.next().unwrap_or_default());
        let column = |column: usize| std::array::from_fn(|month| months[month][column]);
        let [latitude_deg, longitude_deg, utc_offset_h, altitude_m, ..] = months[0];
        KnownPlace {
            id,
            name,
            state,
            coast: coast == "yes",
            file,
            place: Place {
                latitude_rad: latitude_deg.to_radians(),
                longitude_rad: longitude_deg.to_radians(),
                altitude_m,
                utc_offset_h,
            },
            ghi_kwh_m2_d: column(4),
            dni_kwh_m2_d: column(5),
            dhi_kwh_m2_d: column(6),
            clearness: column(7),
            air_c: column(8),
            wind_m_s: column(9),
        }
    };
    words.zip(figures.chunks_exact(12)).map(place).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_place_is_there_by_its_id() {
        assert_eq!(all().len(), COUNT);
        for place in all() {
            assert_eq!(find(place.id), Some(place));
            assert!(place.id.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'_'));
            assert!(!place.name.is_empty() && !place.state.is_empty() && !place.file.is_empty());
            assert_eq!(all().iter().filter(|other| other.id == place.id).count(), 1);
        }
        assert_eq!(find("atlantis"), None);
    }

    #[test]
    fn every_month_of_every_place_stands_in_the_table_in_order() {
        let rows = TABLE.lines().filter(|line| !line.starts_with('#')).skip(1);
        assert_eq!(rows.clone().count(), COUNT * 12);
        for (n, row) in rows.enumerate() {
            let cells: Vec<&str> = row.split(',').collect();
            assert_eq!((cells[1], cells[5]), (all()[n / 12].id, (n % 12 + 1).to_string().as_str()));
        }
    }

    #[test]
    fn figures_are_of_their_kind() {
        for place in all() {
            let latitude_deg = place.place.latitude_rad.to_degrees();
            assert!((25.0..60.0).contains(&latitude_deg) && place.place.longitude_rad < -1.0);
            assert!((-9.0..=-5.0).contains(&place.place.utc_offset_h));
            for month in 0..12 {
                assert!((0.4..9.0).contains(&place.ghi_kwh_m2_d[month]));
                assert!(place.dhi_kwh_m2_d[month] < place.ghi_kwh_m2_d[month]);
                assert!((0.2..0.8).contains(&place.clearness[month]));
                assert!((-15.0..35.0).contains(&place.air_c[month]) && place.wind_m_s[month] > 0.5);
            }
        }
    }

    #[test]
    fn a_place_stands_as_it_was_printed() {
        let golden = find("golden_co").unwrap();
        assert_eq!((golden.ghi_kwh_m2_d[0], golden.ghi_kwh_m2_d[6]), (2.317, 6.175));
        assert_eq!(golden.clearness[0], 0.5426);
    }
}
