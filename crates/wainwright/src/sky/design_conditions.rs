//! The hot days and cold nights that stations of the United States size their buildings for.

use std::sync::LazyLock;

use super::coefficients::last_columns;
use super::great_circle::distance_m;
use super::weather::Place;

const TABLE: &str = include_str!("../../data/design_conditions_us.csv");
/// Stations in the table.
const COUNT: usize = 13;

/// Design conditions of a station.
#[derive(Debug, Clone, PartialEq)]
pub struct DesignConditions {
    /// Its name.
    pub station: &'static str,
    /// The state it lies in.
    pub state: &'static str,
    /// Where it is.
    pub place: Place,
    /// Air temperature that all but 1 percent of the hours of a year exceed [°C], where it is known.
    pub cold_c: Option<f64>,
    /// Its hottest month, 1 to 12.
    pub hot_month: u8,
    /// Mean of the daily ranges of that month [K].
    pub hot_range_k: f64,
    /// Air temperature that 0.4 percent of the hours of a year exceed [°C].
    pub hot_c: f64,
    /// Mean wet bulb that comes with it [°C].
    pub hot_wet_bulb_c: f64,
}

static STATIONS: LazyLock<Vec<DesignConditions>> = LazyLock::new(|| {
    let figures = last_columns::<8, COUNT>(TABLE);
    let lines = TABLE.lines().filter(|line| !line.starts_with('#')).skip(1);
    let station = |(line, figures): (&'static str, [f64; 8])| {
        let mut words = line.split(',');
        let [station, state] = std::array::from_fn(|_| words.next().unwrap_or_default());
        let [latitude_deg, longitude_deg, altitude_m, cold_c, hot_month, hot_range_k, hot_c, hot_wet_bulb_c] =
            figures;
        let place = Place {
            latitude_rad: latitude_deg.to_radians(),
            longitude_rad: longitude_deg.to_radians(),
            altitude_m,
            utc_offset_h: (longitude_deg / 15.0).round(),
        };
        DesignConditions {
            station,
            state,
            place,
            cold_c: Some(cold_c).filter(|cold_c| cold_c.is_finite()),
            hot_month: hot_month as u8,
            hot_range_k,
            hot_c,
            hot_wet_bulb_c,
        }
    };
    lines.zip(figures).map(station).collect()
});

/// All stations.
///
/// Source: as the table says.
pub fn all() -> &'static [DesignConditions] {
    &STATIONS
}

/// The station nearest to a place, and how far it is [m]; stations that lie more than `apart_m` higher or lower are left
/// out.
pub fn nearest(place: &Place, apart_m: f64) -> Option<(&'static DesignConditions, f64)> {
    let level = |station: &&DesignConditions| (station.place.altitude_m - place.altitude_m).abs() <= apart_m;
    let away = |station: &'static DesignConditions| (station, distance_m(place, &station.place));
    all().iter().filter(level).map(away).min_by(|one, other| one.1.total_cmp(&other.1))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_figure_is_read() {
        assert_eq!(all().len(), COUNT);
        for station in all() {
            let figures =
                [station.place.latitude_rad, station.hot_range_k, station.hot_c, station.hot_wet_bulb_c];
            assert!(figures.iter().all(|figure| figure.is_finite()), "{}", station.station);
            assert!(station.hot_wet_bulb_c < station.hot_c && (1..=12).contains(&station.hot_month));
        }
        assert_eq!(all().iter().filter(|station| station.cold_c.is_none()).count(), 1);
    }

    #[test]
    fn the_nearest_lies_about_as_high() {
        let here = |altitude_m| Place { altitude_m, ..all()[3].place };
        assert_eq!(
            nearest(&here(1650.0), 300.0).map(|(station, away_m)| (station.station, away_m)),
            Some(("Denver International", 0.0))
        );
        assert_ne!(nearest(&here(0.0), 300.0).unwrap().0.state, "CO");
    }
}
