//! EPW: eight lines of headers, then a row for each record in columns of fixed places.
//!
//! Irradiation of a record is in Wh/m² over its minutes, and is given as the mean over them. Temperatures and wind are
//! those at its end, and are given for the record.

use super::column::{Column, Written};
use super::fault::{At, FileFaults};
use super::lines::{Lines, fields};
use super::place::{self, PlaceFigure};
use super::rows::{Layout, Named, Stamping};
use super::stamps::{MonthDay, Stamp, Stamps};
use super::{Format, Parts};
use crate::document::echo;

/// The word that an EPW file begins with.
pub(super) const FIRST_WORD: &str = "LOCATION";
/// The word of the last of the header's lines.
const LAST_WORD: &str = "DATA PERIODS";

/// Latitude, longitude, time zone and elevation of the first line.
const PLACE: [PlaceFigure; 4] = [
    PlaceFigure::latitude(6),
    PlaceFigure::longitude(7),
    PlaceFigure::utc_offset(8),
    PlaceFigure::altitude(9),
];

/// The columns of the stamp.
const STAMP: [Named<'static>; 4] = [
    Named { place: 1, name: "month" },
    Named { place: 2, name: "day" },
    Named { place: 3, name: "hour" },
    Named { place: 4, name: "minute" },
];

/// Mark of a missing temperature [°C] (`from memory`).
const TEMPERATURE_MISSING: f64 = 99.9;
/// Mark of a missing irradiation [Wh/m²] (`from memory`).
const IRRADIATION_MISSING: f64 = 9999.0;
/// Mark of a missing wind [m/s] (`from memory`).
const WIND_MISSING: f64 = 999.0;

/// What the data are, as the last line of the header says.
#[derive(Debug)]
struct Period {
    records_per_hour: u32,
    first: MonthDay,
    last: MonthDay,
}

/// Reads an EPW file. None, with its faults noted, where its header leaves nothing to go on with.
pub(super) fn read(mut lines: Lines, faults: &mut FileFaults) -> Option<Parts> {
    let (line, location) = lines.next()?;
    let location = fields(location);
    let place = place::read(&location, PLACE, line, faults);
    let station = place::name(location.get(1..4).unwrap_or_default());
    let period = period(&mut lines, faults)?;
    let stamps = Stamps::new(period.first, 60 / period.records_per_hour);
    let stamping = HourAndMinute { records_per_hour: period.records_per_hour };
    let rows = layout(period.records_per_hour).rows(lines, period.last, stamps, &stamping, faults);
    Some(Parts { format: Format::Epw, station, place, rows })
}

/// Passes over the header and reads its last line.
fn period(lines: &mut Lines, faults: &mut FileFaults) -> Option<Period> {
    let mut last = 1;
    for (line, text) in lines {
        let fields = fields(text);
        let word = fields.first().copied().unwrap_or_default();
        if word.eq_ignore_ascii_case(LAST_WORD) {
            return period_of(&fields, line, faults);
        }
        // A row of data: its year.
        if word.starts_with(|c: char| c.is_ascii_digit()) {
            break;
        }
        last = line;
    }
    faults.add(At::line(last), || {
        format!("must come after a line {LAST_WORD},1,1,Data,Sunday,1/1,12/31, the last of the header")
    });
    None
}

fn period_of(fields: &[&str], line: usize, faults: &mut FileFaults) -> Option<Period> {
    let field = |place: usize| fields.get(place).copied().unwrap_or_default();
    let mut wrong = |place: usize, name: &str, right: &str| {
        faults.add(At::column(line, place + 1, name), || {
            format!("must be {right}; got {}", echo(field(place)))
        });
    };
    let is_one = field(1).parse() == Ok(1);
    if !is_one {
        wrong(1, "number of data periods", "1");
    }
    let records_per_hour =
        field(2).parse().ok().filter(|&count| (1..=60).contains(&count) && 60 % count == 0);
    if records_per_hour.is_none() {
        wrong(2, "records per hour", "1, 2, 4 or another whole part of 60");
    }
    let [first, last] = [(5, "start day"), (6, "end day")].map(|(place, name)| {
        let day = month_day(field(place));
        if day.is_none() {
            wrong(place, name, "month and day, such as 1/1");
        }
        day
    });
    Some(Period { records_per_hour: records_per_hour?, first: first?, last: last? }).filter(|_| is_one)
}

/// Reads a day such as 1/ 1. A year may follow and is not heeded.
fn month_day(text: &str) -> Option<MonthDay> {
    let mut parts = text.split('/').map(|part| part.trim().parse().ok());
    MonthDay::new(parts.next()??, parts.next()??)
}

fn layout(records_per_hour: u32) -> Layout<4> {
    let temperature = |column| Written { column, unit: "°C", missing: TEMPERATURE_MISSING, scale: 1.0 };
    let irradiation = |column| Written {
        column,
        unit: "Wh/m²",
        missing: IRRADIATION_MISSING,
        scale: f64::from(records_per_hour),
    };
    let wind = Written { column: Column::Wind, unit: "m/s", missing: WIND_MISSING, scale: 1.0 };
    let figures = vec![
        (temperature(Column::Air), Named { place: 6, name: "dry bulb temperature" }),
        (temperature(Column::DewPoint), Named { place: 7, name: "dew point temperature" }),
        (irradiation(Column::Ghi), Named { place: 13, name: "global horizontal radiation" }),
        (irradiation(Column::Dni), Named { place: 14, name: "direct normal radiation" }),
        (irradiation(Column::Dhi), Named { place: 15, name: "diffuse horizontal radiation" }),
        (wind, Named { place: 21, name: "wind speed" }),
    ];
    Layout { stamp: STAMP, figures, width: None }
}

/// Month, day, hour and minute. Hour 1 is the first of a day; the minute is the record's last one within it.
struct HourAndMinute {
    records_per_hour: u32,
}

impl Stamping<4> for HourAndMinute {
    fn read(
        &self,
        fields: &[&str; 4],
        at: impl Fn(usize) -> At<'static>,
        faults: &mut FileFaults,
    ) -> Option<Stamp> {
        let [month, day, hour, minute] = fields.map(|field| field.parse::<u8>().ok());
        let step_min = 60 / self.records_per_hour;
        let is_hour = |hour: &u8| (1..=24).contains(hour);
        let is_minute = |minute: &u8| *minute <= 60 && u32::from(*minute).is_multiple_of(step_min);
        let (hour, minute) = (hour.filter(is_hour), minute.filter(is_minute));
        let mut wrong = |part: usize, right: String| {
            faults.add(at(part), || format!("must be {right}; got {}", echo(fields[part])));
        };
        if hour.is_none() {
            wrong(2, "1 to 24, the hour that the record ends".into());
        }
        if minute.is_none() {
            wrong(3, format!("0 or 60 or between them by {step_min}, the minute at which the record ends"));
        }
        let day = MonthDay::new(month.unwrap_or_default(), day.unwrap_or_default());
        if day.is_none() {
            let is_month = month.is_some_and(|month| (1..=12).contains(&month));
            wrong(usize::from(is_month), if is_month { "a day of the month" } else { "1 to 12" }.into());
        }
        // Minute 0 is how many files write the end of the hour.
        let minute = Some(u32::from(minute?)).filter(|&minute| minute > 0).unwrap_or(60);
        Some(Stamp { day: day?, minute: (u32::from(hour?) - 1) * 60 + minute })
    }

    fn differing(&self, a: Stamp, b: Stamp) -> usize {
        match () {
            () if a.day.month != b.day.month => 0,
            () if a.day != b.day => 1,
            () if (a.minute - 1) / 60 != (b.minute - 1) / 60 => 2,
            () => 3,
        }
    }
}
