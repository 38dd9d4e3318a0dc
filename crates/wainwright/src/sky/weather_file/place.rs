//! The place of a station.

use super::super::standard_time;
use super::super::weather::Place;
use super::fault::{At, FileFaults};
use crate::document::echo;

/// Characters of a station's name that are kept.
const NAME_MOST: usize = 100;

/// One of the figures of a place: its column from 0 on, its name and its range.
#[derive(Debug, Clone, Copy)]
pub(super) struct PlaceFigure {
    pub(super) place: usize,
    pub(super) name: &'static str,
    range: (f64, f64),
    unit: &'static str,
}

impl PlaceFigure {
    /// Latitude, in degrees, positive north.
    pub(super) const fn latitude(place: usize) -> Self {
        Self { place, name: "latitude", range: (-90.0, 90.0), unit: "degrees, positive north" }
    }

    /// Longitude, in degrees, positive east.
    pub(super) const fn longitude(place: usize) -> Self {
        Self { place, name: "longitude", range: (-180.0, 180.0), unit: "degrees, positive east" }
    }

    /// Local standard time less universal time, in hours: from the date line to the date line.
    pub(super) const fn utc_offset(place: usize) -> Self {
        Self { place, name: "time zone", range: (-12.0, 14.0), unit: "hours ahead of universal time" }
    }

    /// Height above sea level, in meters: the Dead Sea to the highest summit.
    pub(super) const fn altitude(place: usize) -> Self {
        Self { place, name: "elevation", range: (-500.0, 9000.0), unit: "meters" }
    }

    /// Reads it from the fields of a line.
    fn read(self, fields: &[&str], line: usize, faults: &mut FileFaults) -> Option<f64> {
        let field = fields.get(self.place).copied().unwrap_or_default();
        let (least, most) = self.range;
        let value = field.parse().ok().filter(|value| (least..=most).contains(value));
        if value.is_none() {
            let got = if field.is_empty() { "nothing".to_owned() } else { echo(field) };
            faults.add(self.at(line), || format!("must be {least} to {most} {}; got {got}", self.unit));
        }
        value
    }

    fn at(self, line: usize) -> At<'static> {
        At::column(line, self.place + 1, self.name)
    }
}

/// Reads a place from the fields of a line.
///
/// - `figures`  latitude, longitude, time zone and elevation
///
/// A clock far from the sun is at fault too: the sign of a longitude is easily wrong.
pub(super) fn read(
    fields: &[&str],
    figures: [PlaceFigure; 4],
    line: usize,
    faults: &mut FileFaults,
) -> Option<Place> {
    let [latitude_deg, longitude_deg, utc_offset_h, altitude_m] =
        figures.map(|figure| figure.read(fields, line, faults));
    let (latitude_deg, longitude_deg, utc_offset_h) = (latitude_deg?, longitude_deg?, utc_offset_h?);
    if !standard_time::is_usual(latitude_deg, longitude_deg, utc_offset_h) {
        let off_h = standard_time::ahead_of_sun_h(longitude_deg, utc_offset_h);
        faults.add(figures[1].at(line), || {
            format!(
                "must go with the time zone: at {longitude_deg} degrees, positive east, the sun's time is {off_h:.1} h off {utc_offset_h} h"
            )
        });
        return None;
    }
    Some(Place {
        latitude_rad: latitude_deg.to_radians(),
        longitude_rad: longitude_deg.to_radians(),
        altitude_m: altitude_m?,
        utc_offset_h,
    })
}

/// The name of a station from its parts, without those that say nothing.
pub(super) fn name(parts: &[&str]) -> String {
    let named: Vec<&str> = parts.iter().copied().filter(|part| !matches!(*part, "" | "-")).collect();
    named.join(", ").chars().filter(|c| !c.is_control()).take(NAME_MOST).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    const FIGURES: [PlaceFigure; 4] = [
        PlaceFigure::latitude(0),
        PlaceFigure::longitude(1),
        PlaceFigure::utc_offset(2),
        PlaceFigure::altitude(3),
    ];

    fn read_line(line: &str) -> Result<Place, String> {
        let fields: Vec<&str> = line.split(',').collect();
        let mut faults = FileFaults::default();
        read(&fields, FIGURES, 1, &mut faults).ok_or_else(|| faults.refusal().to_string())
    }

    #[test]
    fn a_place_is_on_the_earth() {
        let place = read_line("36.1,-79.95,-5,273").unwrap();
        assert_eq!((place.latitude_rad.to_degrees(), place.utc_offset_h), (36.1, -5.0));
        for (line, column) in [
            ("95,-79.95,-5,273", "column 1, latitude: must be -90 to 90 degrees, positive north; got \"95\""),
            ("36.1,280,-5,273", "column 2, longitude"),
            ("36.1,-79.95,x,273", "column 3, time zone"),
            ("36.1,-79.95,-5,nan", "column 4, elevation"),
            ("36.1,-79.95,-5", "column 4, elevation: must be -500 to 9000 meters; got nothing"),
        ] {
            let refusal = read_line(line).unwrap_err();
            assert!(refusal.starts_with(&format!("line 1, {column}")), "{refusal}");
        }
        assert_eq!(read_line("95,200,99,-1e9").unwrap_err().lines().count(), 4);
    }

    #[test]
    fn a_longitude_of_the_wrong_sign_is_seen_by_the_clock() {
        let refusal = read_line("36.1,79.95,-5,273").unwrap_err();
        assert!(refusal.contains("column 2, longitude: must go with the time zone"), "{refusal}");
        // Kiritimati keeps +14 h at 157° west, western China +8 h at 74° east, a polar station what it will.
        for right in ["1.9,-157.4,14,3", "39.5,74,8,1300", "-90,0,12,2835"] {
            assert!(read_line(right).is_ok(), "{right}");
        }
    }

    #[test]
    fn a_name_is_short_and_printable() {
        assert_eq!(name(&["Heron\tLake", "-", "", "NC"]), "HeronLake, NC");
        assert_eq!(name(&[&"é".repeat(1000)]).chars().count(), 100);
    }
}
