//! What the weather of a build was made from, and what that means.

use std::borrow::Cow;

use crate::sky::places::KnownPlace;
use crate::sky::weather::Place;
use crate::sky::weather_file::{Format, WeatherFile};

/// What weather was made from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Origin<'b> {
    /// A sky without clouds.
    ClearSky,
    /// Monthly means in the build.
    Monthly,
    /// One clear day, again and again.
    DesignDay,
    /// A series in the build.
    Hourly,
    /// A place that is built in.
    Place(&'static KnownPlace),
    /// A weather file that is named.
    File(&'b WeatherFile),
    /// A weather file given as text.
    Text(&'b WeatherFile),
}

impl Origin<'_> {
    /// The name of its form in the build.
    pub fn form(&self) -> &'static str {
        match self {
            Self::ClearSky => "clear_sky",
            Self::Monthly => "monthly",
            Self::DesignDay => "design_day",
            Self::Hourly => "hourly",
            Self::Place(_) => "place",
            Self::File(_) => "file",
            Self::Text(_) => "text",
        }
    }

    /// Is it the weather of a station?
    pub fn is_station(&self) -> bool {
        self.place().is_some()
    }

    /// The weather file, where it is from one.
    pub fn file(&self) -> Option<&WeatherFile> {
        match self {
            Self::File(file) | Self::Text(file) => Some(file),
            _ => None,
        }
    }

    /// What it is and what that means, for people.
    pub fn meaning(&self) -> Cow<'static, str> {
        match self {
            Self::ClearSky => "A sky without clouds all year: the most that the sun can give, and more than any real month does.".into(),
            Self::Monthly => "A year made from the monthly means given, with clear and grey days in a likely order. It has no winter worse than the mean.".into(),
            Self::DesignDay => "One clear day, again and again.".into(),
            Self::Hourly => "The series given.".into(),
            Self::Place(known) => format!(
                "A year made from the monthly means of {}, {} (NREL typical year), with clear and grey days in a likely order. \
                 A place 100 miles or 3,000 ft away can differ by 10 to 20 percent, and a real winter can be worse.",
                known.name, known.state
            )
            .into(),
            Self::File(file) | Self::Text(file) => {
                let format = match file.format {
                    Format::Epw => "EPW",
                    Format::Tmy3 => "TMY3",
                };
                format!(
                    "The {format} file of {}. A typical year is put together from usual months: a real winter can be worse.",
                    file.station
                )
                .into()
            }
        }
    }

    /// Does it bring a place of its own?
    pub(super) fn place(&self) -> Option<Place> {
        match self {
            Self::Place(known) => Some(known.place),
            Self::File(file) | Self::Text(file) => Some(file.place),
            _ => None,
        }
    }
}
