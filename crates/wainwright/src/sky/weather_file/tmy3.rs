//! TMY3: a line about the station, a line of names, then a row for each hour of a typical year.
//!
//! Columns are found by their names, so that a file with fewer of them, or in another order, is read as well.
//! Irradiances are the means over the hour before the stamp. Temperatures and wind are those at the stamp, and are
//! given for that hour.

use super::column::{Column, Written};
use super::fault::{At, FileFaults};
use super::lines::{Lines, fields};
use super::place::{self, PlaceFigure};
use super::rows::{Layout, Named, Stamping};
use super::stamps::{MonthDay, Stamp, Stamps};
use super::{Format, Parts};
use crate::document::echo;

const DATE: &str = "Date (MM/DD/YYYY)";
const TIME: &str = "Time (HH:MM)";

/// The columns of figures, what they hold and their units.
const FIGURES: [(&str, Column, &str); 6] = [
    ("Dry-bulb (C)", Column::Air, "°C"),
    ("Dew-point (C)", Column::DewPoint, "°C"),
    ("GHI (W/m^2)", Column::Ghi, "W/m²"),
    ("DNI (W/m^2)", Column::Dni, "W/m²"),
    ("DHI (W/m^2)", Column::Dhi, "W/m²"),
    ("Wspd (m/s)", Column::Wind, "m/s"),
];

/// Mark of a missing figure.
const MISSING: f64 = -9900.0;

/// Latitude, longitude, time zone and elevation of the first line.
const PLACE: [PlaceFigure; 4] = [
    PlaceFigure::latitude(4),
    PlaceFigure::longitude(5),
    PlaceFigure::utc_offset(3),
    PlaceFigure::altitude(6),
];

/// Is this the line of names?
pub(super) fn has_names(line: &str) -> bool {
    let fields = fields(line);
    FIGURES.iter().any(|(name, ..)| place_of(&fields, name).is_some())
}

fn place_of(fields: &[&str], name: &str) -> Option<usize> {
    fields.iter().position(|field| field.eq_ignore_ascii_case(name))
}

/// Reads a TMY3 file. None, with its faults noted, where its header leaves nothing to go on with.
pub(super) fn read(mut lines: Lines, faults: &mut FileFaults) -> Option<Parts> {
    let (line, station) = lines.next()?;
    let station = fields(station);
    let place = place::read(&station, PLACE, line, faults);
    let station = place::name(station.get(1..3).unwrap_or_default());
    let (line, names) = lines.next()?;
    let layout = layout(&fields(names), line, faults)?;
    // January 1 and December 31 are days.
    let (first, last) = (MonthDay::new(1, 1)?, MonthDay::new(12, 31)?);
    let rows = layout.rows(lines, last, Stamps::new(first, 60), &DateAndTime, faults);
    Some(Parts { format: Format::Tmy3, station, place, rows })
}

/// Where the columns stand. None where one is missing that cannot be done without: any but the dew point.
fn layout(names: &[&str], line: usize, faults: &mut FileFaults) -> Option<Layout<2>> {
    let mut find = |name: &'static str, is_needed: bool| {
        let place = place_of(names, name);
        if place.is_none() && is_needed {
            faults.add(At::absent(line, name), || "is missing among the names of the columns".into());
        }
        place.map(|place| Named { place, name })
    };
    let stamp = [DATE, TIME].map(|name| find(name, true));
    let found = FIGURES.map(|(name, column, unit)| {
        let is_needed = column != Column::DewPoint;
        let written = Written { column, unit, missing: MISSING, scale: 1.0 };
        (is_needed, written, find(name, is_needed))
    });
    let [Some(date), Some(time)] = stamp else { return None };
    if found.iter().any(|(is_needed, _, named)| *is_needed && named.is_none()) {
        return None;
    }
    let figures = found.into_iter().filter_map(|(_, written, named)| Some((written, named?))).collect();
    Some(Layout { stamp: [date, time], figures, width: Some(names.len()) })
}

/// A date MM/DD/YYYY and a time HH:MM, 01:00 to 24:00. 00:00 of the next day will do for 24:00; the year is not heeded.
struct DateAndTime;

impl Stamping<2> for DateAndTime {
    fn read(
        &self,
        fields: &[&str; 2],
        at: impl Fn(usize) -> At<'static>,
        faults: &mut FileFaults,
    ) -> Option<Stamp> {
        let (day, minute) = (month_day(fields[0]), minute(fields[1]));
        if day.is_none() {
            faults.add(at(0), || format!("must be a date MM/DD/YYYY; got {}", echo(fields[0])));
        }
        if minute.is_none() {
            faults.add(at(1), || {
                format!(
                    "must be a full hour, 01:00 to 24:00, the one that the record ends; got {}",
                    echo(fields[1])
                )
            });
        }
        Some(Stamp { day: day?, minute: minute? })
    }

    fn differing(&self, a: Stamp, b: Stamp) -> usize {
        usize::from(a.day == b.day)
    }
}

fn month_day(date: &str) -> Option<MonthDay> {
    let mut parts = date.split('/');
    let (month, day, year) = (parts.next()?.parse().ok()?, parts.next()?.parse().ok()?, parts.next()?);
    let is_year = (1..=4).contains(&year.len()) && year.bytes().all(|byte| byte.is_ascii_digit());
    MonthDay::new(month, day).filter(|_| is_year && parts.next().is_none())
}

/// Minute of the day.
fn minute(time: &str) -> Option<u32> {
    let (hour, minute) = time.split_once(':')?;
    let hour: u32 = hour.parse().ok()?;
    (hour <= 24 && minute == "00").then_some(hour * 60)
}
