//! Weather files: EPW and TMY3, read whole or refused with every fault at its line and column.
//!
//! Records are stamped at their end in local standard time: the one stamped 14:00 covers what is before. They must
//! follow one another without a gap from the first to the last. Years are not heeded, since those of a typical year
//! differ from month to month. [`fill`] says what stands in place of missing figures.

mod column;
mod epw;
mod fault;
pub mod fill;
#[cfg(test)]
mod fixture;
#[cfg(test)]
pub(crate) use fixture::invented_day;
mod library;
mod lines;
mod place;
mod rows;
mod stamps;
mod tmy3;

use std::sync::Arc;

use super::weather::{Place, Weather};
pub use column::Column;
use fault::{At, FileFaults};
pub use fault::{FileFault, FileRefusal, LISTED};
pub use fill::{Filled, Filling};
use fill::{Irradiances, interpolate};
pub use library::WeatherLibrary;
use lines::{Lines, fields};
use rows::{Rows, Series};

/// Greatest length of a file [bytes]: a year in quarter hours with all its columns. `common practice`
pub const TEXT_MOST_BYTES: usize = 8 * 1024 * 1024;

/// How a weather file is laid out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Format {
    /// EPW.
    Epw,
    /// TMY3.
    Tmy3,
}

/// What a weather file holds.
#[derive(Debug, Clone, PartialEq)]
pub struct WeatherFile {
    /// How it was laid out.
    pub format: Format,
    /// What the station is called, with its state and country where they are given.
    pub station: String,
    /// Where the station is.
    pub place: Place,
    /// The weather there.
    pub weather: Arc<Weather>,
    /// Which figures are not those of the file, column by column.
    pub filled: Vec<Filled>,
}

/// What is read of a file before gaps are filled.
struct Parts {
    format: Format,
    station: String,
    /// None where it is at fault.
    place: Option<Place>,
    rows: Rows,
}

/// Reads the text of a weather file.
///
/// # Errors
///
/// What is wrong with it: the first [`LISTED`] faults with line and column, and how many more there are.
pub fn read(text: &str) -> Result<WeatherFile, FileRefusal> {
    let mut faults = FileFaults::default();
    let file = read_noting(text, &mut faults);
    file.filter(|_| faults.is_empty()).ok_or_else(|| faults.refusal())
}

/// Reads the bytes of a weather file. What is not UTF-8, as in a name in another encoding, does not matter where no
/// figure stands.
///
/// # Errors
///
/// As for [`read`].
pub fn read_bytes(bytes: &[u8]) -> Result<WeatherFile, FileRefusal> {
    match bytes.len() {
        0..=TEXT_MOST_BYTES => read(&String::from_utf8_lossy(bytes)),
        length => {
            let mut faults = FileFaults::default();
            note_length(length, &mut faults);
            Err(faults.refusal())
        }
    }
}

fn note_length(length: usize, faults: &mut FileFaults) {
    faults
        .add(At::line(1), || format!("the file must have {TEXT_MOST_BYTES} bytes or fewer; it has {length}"));
}

fn read_noting(text: &str, faults: &mut FileFaults) -> Option<WeatherFile> {
    if text.len() > TEXT_MOST_BYTES {
        note_length(text.len(), faults);
        return None;
    }
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    // Blanks after the last row, and the mark that old systems end a text with.
    let text = text.trim_end_matches(|c: char| c.is_whitespace() || c == '\u{1a}');
    let lines = Lines::of(text);
    let mut heads = lines.clone().map(|(_, line)| line);
    let (first, second) = (heads.next().unwrap_or_default(), heads.next().unwrap_or_default());
    let is_epw = fields(first).first().is_some_and(|word| word.eq_ignore_ascii_case(epw::FIRST_WORD));
    let parts = match () {
        () if is_epw => epw::read(lines, faults),
        () if tmy3::has_names(second) => tmy3::read(lines, faults),
        () => {
            let looks = looks_like(text);
            faults.add(At::line(1), || {
                format!(
                    "must begin with {}, as an EPW file does, or be followed by the names of TMY3's columns; {looks}",
                    epw::FIRST_WORD
                )
            });
            None
        }
    };
    parts?.complete(faults)
}

/// What a text that is no weather file seems to be.
fn looks_like(text: &str) -> &'static str {
    let text = text.trim_start();
    let begins = |with: &[&str]| with.iter().any(|with| text.starts_with(with));
    match () {
        () if text.is_empty() => "the file is empty",
        () if begins(&["PK\u{3}\u{4}"]) => {
            "this looks like a zip archive, whose files must be taken out of it"
        }
        () if text.chars().take(1000).any(|c| c == '\0') => {
            "this looks like binary data or text in UTF-16; plain text in UTF-8 is right"
        }
        () if begins(&["%PDF"]) => "this looks like PDF",
        () if begins(&["<"]) => "this looks like HTML or XML, such as a page that offers the file",
        () if begins(&["{", "["]) => "this looks like JSON",
        () if text.contains('\u{fffd}') => "this looks like binary data",
        () => "this looks like neither",
    }
}

impl Parts {
    /// Fills the gaps. None, with the faults noted, where the file is refused.
    fn complete(self, faults: &mut FileFaults) -> Option<WeatherFile> {
        let Self { format, station, place, rows } = self;
        let Rows { first_line, count, series, stamps } = rows;
        let clock = stamps.clock(count)?;
        let [Some(mut air), dew_point, Some(mut ghi), Some(mut dni), Some(mut dhi), Some(mut wind)] = series
        else {
            return None;
        };
        let mut dew_point = dew_point.filter(|series| series.figures.iter().any(|figure| !figure.is_nan()));
        let mut filled = Vec::new();
        let columns = [
            (Column::Air, Some(&mut air)),
            (Column::DewPoint, dew_point.as_mut()),
            (Column::Wind, Some(&mut wind)),
        ];
        for (column, series) in columns.into_iter().filter_map(|(column, series)| Some((column, series?))) {
            let count = interpolate(series, clock.step_min(), first_line, faults);
            filled.push(Filled { column, how: Filling::Interpolated, count });
        }
        for (column, series) in [(Column::Ghi, &ghi), (Column::Dni, &dni), (Column::Dhi, &dhi)] {
            filled.push(Filled { column, how: Filling::BelowZero, count: series.below_zero });
        }
        // Where the sun stood is known only with the place, and with stamps that are right.
        let place = place.filter(|_| stamps.are_right())?;
        let mut irradiances = Irradiances { ghi: &mut ghi, dni: &mut dni, dhi: &mut dhi };
        filled.extend(irradiances.fill(&place, &clock, first_line, faults)?);
        filled.retain(|filled| filled.count > 0);
        filled.sort_by_key(|filled| (filled.column, filled.how));
        let weather = Weather {
            clock,
            ghi_w_m2: ghi.figures,
            dni_w_m2: dni.figures,
            dhi_w_m2: dhi.figures,
            air_c: air.figures,
            dew_point_c: dew_point.map(|series: Series| series.figures),
            wind_m_s: wind.figures,
        };
        Some(WeatherFile { format, station, place, weather: Arc::new(weather), filled })
    }
}

#[cfg(test)]
mod tests;
