//! Weather files of an invented place, made for tests.

use std::fmt::Write as _;

use jiff::civil::{Date, date};

use super::super::clock::Clock;

/// Invented weather of whole days, to be written as a file.
#[derive(Debug, Clone)]
pub(super) struct Invented {
    pub(super) clock: Clock,
    /// Air, dew point, global, beam, diffuse, wind: a row a record, in the units of `Weather`.
    pub(super) rows: Vec<[f64; 6]>,
}

impl Invented {
    /// Days of an invented climate: bright from 7 to 17 h.
    pub(super) fn days(first: Date, days: usize, records_per_hour: u32) -> Self {
        let step_min = 60 / records_per_hour;
        let count = days * 24 * records_per_hour as usize;
        let clock = Clock::new(first.at(0, 0, 0, 0), step_min, count).unwrap();
        let rows = (0..count)
            .map(|i| {
                let hour = f64::from(clock.stamp(i).hour());
                let bright = (5.0 - (hour - 12.0).abs()).max(0.0) * 100.0;
                [10.0 + hour / 4.0, 5.0, bright, bright * 1.5, bright / 2.0, 2.5]
            })
            .collect();
        Self { clock, rows }
    }

    /// A year.
    pub(super) fn year() -> Self {
        Self::days(date(2025, 1, 1), 365, 1)
    }

    /// As an EPW file.
    pub(super) fn epw(&self) -> String {
        let records_per_hour = 60 / self.clock.step_min();
        let (first, last) = (self.clock.stamp(0), self.clock.stamp(self.rows.len() - 1));
        let mut text = format!(
            "LOCATION,Heron Flats,NC,USA,invented,000000,36.10,-79.95,-5.0,273.0\n\
             DESIGN CONDITIONS,0\nTYPICAL/EXTREME PERIODS,0\nGROUND TEMPERATURES,0\n\
             HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0\nCOMMENTS 1,invented figures, no weather\nCOMMENTS 2,none\n\
             DATA PERIODS,1,{records_per_hour},Data,Sunday,{:2}/{:2},{:2}/{:2}\n",
            first.month(),
            first.day(),
            last.month(),
            last.day()
        );
        for (i, [air, dew, ghi, dni, dhi, wind]) in self.rows.iter().enumerate() {
            let begin = self.clock.stamp(i);
            let minute = u32::try_from(begin.minute()).unwrap() + self.clock.step_min();
            let energy = |irradiance: f64| irradiance / f64::from(records_per_hour);
            writeln!(
                text,
                "{},{},{},{},{minute},?9?9,{air},{dew},70,98000,0,0,300,{},{},{},0,0,0,0,180,{wind},5,5,20,77777,9,999999999,15,0.1,0,88,0.2,0,0",
                1990 + i % 10,
                begin.month(),
                begin.day(),
                begin.hour() + 1,
                energy(*ghi),
                energy(*dni),
                energy(*dhi)
            )
            .unwrap();
        }
        text
    }

    /// As a TMY3 file with few columns.
    pub(super) fn tmy3(&self) -> String {
        let mut text = "000000,\"HERON FLATS, INVENTED\",NC,-5.0,36.100,-79.950,273\n\
            Date (MM/DD/YYYY),Time (HH:MM),GHI (W/m^2),GHI source,DNI (W/m^2),DHI (W/m^2),Dry-bulb (C),Dew-point (C),\
            Wspd (m/s),PresWth (METAR code)\n"
            .to_owned();
        for (i, [air, dew, ghi, dni, dhi, wind]) in self.rows.iter().enumerate() {
            let begin = self.clock.stamp(i);
            let (month, day, hour) = (begin.month(), begin.day(), begin.hour() + 1);
            let year = 1990 + i % 10;
            writeln!(
                text,
                "{month:02}/{day:02}/{year},{hour:02}:00,{ghi},1,{dni},{dhi},{air},{dew},{wind},0"
            )
            .unwrap();
        }
        text
    }
}

/// A day of invented weather as an EPW file.
pub(crate) fn invented_day() -> String {
    Invented::days(date(2025, 6, 1), 1, 1).epw()
}

/// A text with one field of a line replaced; line and column from 1 on.
pub(super) fn with(text: &str, line: usize, column: usize, field: &str) -> String {
    let lines = text.lines().enumerate().map(|(i, row)| {
        let mut fields: Vec<&str> = row.split(',').collect();
        if i + 1 == line {
            fields[column - 1] = field;
        }
        fields.join(",")
    });
    lines.collect::<Vec<_>>().join("\n")
}

/// A text with its lines put through a function of line number, from 1 on, and line.
pub(super) fn lines_as(text: &str, of: impl Fn(usize, &str) -> Vec<String>) -> String {
    let lines = text.lines().enumerate().flat_map(|(i, line)| of(i + 1, line));
    lines.collect::<Vec<_>>().join("\n")
}
