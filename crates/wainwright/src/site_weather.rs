//! The build's weather in SI: whichever form it is given in, a series of even steps and the sun in the middle of each.

use std::borrow::Cow;

use jiff::civil::date;

use crate::build::{Build, ClearSky, DesignDay, Hourly, Monthly, Site, WeatherForm};
use crate::document::Faults;
use crate::report::Assumptions;
use crate::sky::air_mass::extraterrestrial_w_m2;
use crate::sky::air_temperature::{AirMeans, DailyRange};
use crate::sky::almanac;
use crate::sky::clear_year::clear_year;
use crate::sky::clock::{Clock, Day, TYPICAL_YEAR};
use crate::sky::decomposition::erbs;
use crate::sky::places::{self, KnownPlace};
use crate::sky::sun::{Direction, Observer};
use crate::sky::synthetic::{Climate, DaysBy, Shortfall, USUAL_WIND_M_S, synthetic};
use crate::sky::transposition::GRASS_ALBEDO;
use crate::sky::turbidity::{Source as TurbiditySource, Turbidity};
use crate::sky::weather::{Place, Weather};
use crate::sky::weather_file::{Format, WeatherFile};
use crate::units::{celsius, ft, kelvin, m_from_ft, m_s, mph};

/// Temperature of the air where nothing is said of it [°C]: 68 °F.
const USUAL_AIR_C: f64 = 20.0;
/// Days that a design day is repeated for.
const DESIGN_DAYS: usize = 7;
/// Which of all possible years is made where no number is given.
const USUAL_SEED: u32 = 1;
const PRACTICE: &str = "common practice";

/// The weather of a build and the sun above it.
#[derive(Debug, Clone)]
pub struct SiteWeather<'b> {
    /// Where the sun is reckoned for: the site, or the station that the weather is from.
    pub place: Place,
    /// The weather.
    pub weather: Cow<'b, Weather>,
    /// Its days.
    pub days: Vec<Day>,
    /// Where the sun stands in the middle of each step.
    pub suns: Vec<Direction>,
    /// What it was made from.
    pub origin: Origin<'b>,
    /// Months whose given mean the sun cannot give at the place.
    pub shortfalls: Vec<Shortfall>,
    /// Share of its light that the ground throws back.
    pub albedo: f64,
}

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
    fn place(&self) -> Option<Place> {
        match self {
            Self::Place(known) => Some(known.place),
            Self::File(file) | Self::Text(file) => Some(file.place),
            _ => None,
        }
    }
}

/// The form that a build's weather has, where it has one.
fn origin(weather: &WeatherForm) -> Option<Origin<'_>> {
    if let Some(file) = weather.weather_file() {
        return Some(if weather.file.is_some() { Origin::File(file) } else { Origin::Text(file) });
    }
    if let Some(known) = weather.place.as_deref().and_then(places::find) {
        return Some(Origin::Place(known));
    }
    let forms = [
        (weather.clear_sky.is_some(), Origin::ClearSky),
        (weather.monthly.is_some(), Origin::Monthly),
        (weather.design_day.is_some(), Origin::DesignDay),
        (weather.hourly.is_some(), Origin::Hourly),
    ];
    forms.into_iter().find_map(|(given, origin)| given.then_some(origin))
}

/// Notes what a question cannot do without to know the weather.
///
/// - `question`  what the question is called, for people
pub fn missing(build: &Build, question: &str, faults: &mut Faults) {
    let Some(site) = &build.site else {
        faults.missing_section(
            "/site",
            &format!("is missing; {question} needs to know where it stands and the weather there"),
        );
        return;
    };
    let Some(weather) = &site.weather else {
        faults.missing_section(
            "/site/weather",
            &format!("is missing; {question} needs the weather in one of its forms, such as {{\"place\": \"golden_co\"}}"),
        );
        return;
    };
    if origin(weather).is_some_and(|origin| origin.place().is_some()) {
        return;
    }
    for (name, given) in [("latitude_deg", site.latitude_deg), ("longitude_deg", site.longitude_deg)] {
        if given.is_none() {
            let detail = format!("is missing; {question} needs to know where the sun stands");
            faults.missing_section(&format!("/site/{name}"), &detail);
        }
    }
}

impl<'b> SiteWeather<'b> {
    /// The weather of a build; none where [`missing`] finds something missing.
    pub fn of(build: &'b Build) -> Option<Self> {
        let site = build.site.as_ref()?;
        let form = site.weather.as_ref()?;
        let origin = origin(form)?;
        let place = match origin.place() {
            Some(place) => place,
            None => place_of(site)?,
        };
        let clock = match (&origin, &form.hourly, &form.design_day) {
            (Origin::File(file) | Origin::Text(file), ..) => file.weather.clock,
            (Origin::Hourly, Some(hourly), _) => {
                Clock::new(hourly.start, hourly.step_min, hourly.ghi_w_m2.len())?
            }
            (Origin::DesignDay, _, Some(day)) => design_clock(day)?,
            _ => Clock::typical_hours(),
        };
        let observer = Observer::new(place.latitude_rad, place.longitude_rad, place.altitude_m);
        let suns: Vec<Direction> = almanac::suns(&clock, place.utc_offset_h)?.seen_from(observer).collect();
        let seed = u64::from(site.seed.unwrap_or(USUAL_SEED));
        let mut shortfalls = Vec::new();
        let mut made = |climate: &Climate| {
            let made = synthetic(&place, &clock, &suns, climate, DaysBy::Distribution, seed)?;
            shortfalls = made.shortfalls;
            Some(made.weather)
        };
        let weather = match origin {
            Origin::File(file) | Origin::Text(file) => Cow::Borrowed(&file.weather),
            Origin::Place(known) => Cow::Owned(made(&known.climate())?),
            Origin::Monthly => Cow::Owned(made(&climate_of(form.monthly.as_ref()?)?)?),
            Origin::ClearSky => Cow::Owned(clear(form.clear_sky.as_ref()?, &place, &clock, &suns)?),
            Origin::DesignDay => Cow::Owned(design(form.design_day.as_ref()?, &place, &clock, &suns)?),
            Origin::Hourly => Cow::Owned(series(form.hourly.as_ref()?, clock, &suns)),
        };
        let albedo = site.albedo.unwrap_or(GRASS_ALBEDO);
        Some(Self { place, days: clock.days(), weather, suns, origin, shortfalls, albedo })
    }

    /// Notes every default that was used.
    pub fn assume(&self, build: &Build, all: &mut Assumptions) {
        let Some(site) = &build.site else { return };
        let at = |field: &str| format!("/site/{field}");
        if let Some(place) = self.origin.place() {
            let of_station = "that of the station whose weather it is; sun and beam belong together";
            for (name, given, value, unit) in [
                ("latitude_deg", site.latitude_deg, place.latitude_rad.to_degrees(), "degree"),
                ("longitude_deg", site.longitude_deg, place.longitude_rad.to_degrees(), "degree"),
                ("elevation_ft", site.elevation_ft, ft(place.altitude_m), "ft"),
                ("utc_offset_h", site.utc_offset_h, place.utc_offset_h, "h"),
            ] {
                if given.is_none() {
                    all.add(at(name), value, Some(unit), of_station, "its file");
                }
            }
        } else {
            if site.elevation_ft.is_none() {
                all.add(at("elevation_ft"), 0.0, Some("ft"), "sea level", PRACTICE);
            }
            if site.utc_offset_h.is_none() {
                let reason = "the standard time of its meridian, one hour for each 15 degrees";
                all.add(at("utc_offset_h"), self.place.utc_offset_h, Some("h"), reason, PRACTICE);
            }
        }
        if site.heading_deg.is_none() {
            all.add(at("heading_deg"), 0.0, Some("degree"), "its tongue points north", PRACTICE);
        }
        if site.albedo.is_none() {
            all.add(at("albedo"), GRASS_ALBEDO, Some("fraction"), "grass or bare soil", PRACTICE);
        }
        if site.seed.is_none() && matches!(self.origin, Origin::Place(_) | Origin::Monthly) {
            all.add(at("seed"), f64::from(USUAL_SEED), None, "the first of all possible years", PRACTICE);
        }
        let Some(form) = &site.weather else { return };
        let hazy = |given: Option<f64>, name: &str, all: &mut Assumptions| {
            if given.is_none() {
                let turbidity = Turbidity::of(self.place.latitude_rad, self.place.longitude_rad);
                let mean = turbidity.months.iter().sum::<f64>() / 12.0;
                let reason = match turbidity.source {
                    TurbiditySource::Table => "mean of the place's twelve months, which count one by one",
                    TurbiditySource::UnitedStates => {
                        "mean over land of the contiguous United States, outside of which no table is built in"
                    }
                };
                all.add(at(name), mean, None, reason, "Remund and others 2003 (SoDa), through pvlib's table");
            }
        };
        let wind = |given: bool, name: &str, all: &mut Assumptions| {
            if !given {
                all.add(
                    at(name),
                    mph(USUAL_WIND_M_S),
                    Some("mph"),
                    "mean of many stations",
                    "FAO-56, chapter 3 (from memory)",
                );
            }
        };
        let by_clearness = "each day's range follows from how clear it is";
        if let Some(sky) = &form.clear_sky {
            hazy(sky.linke_turbidity, "weather/clear_sky/linke_turbidity", all);
            if sky.mean_f.is_none() {
                let reason = "mild air all year; a clear sky says nothing of temperature";
                all.add(at("weather/clear_sky/mean_f"), 68.0, Some("°F"), reason, PRACTICE);
            } else if sky.range_f.is_none() {
                all.add_words(
                    at("weather/clear_sky/range_f"),
                    "by clearness".to_owned(),
                    by_clearness,
                    "FAO-56, eq. 50 (from memory)",
                );
            }
            wind(sky.wind_mph.is_some(), "weather/clear_sky/wind_mph", all);
        }
        if let Some(monthly) = &form.monthly {
            if monthly.range_f.is_none() {
                all.add_words(
                    at("weather/monthly/range_f"),
                    "by clearness".to_owned(),
                    by_clearness,
                    "FAO-56, eq. 50 (from memory)",
                );
            }
            wind(monthly.wind_mph.is_some(), "weather/monthly/wind_mph", all);
        }
        if let Some(day) = &form.design_day {
            hazy(day.linke_turbidity, "weather/design_day/linke_turbidity", all);
            wind(day.wind_mph.is_some(), "weather/design_day/wind_mph", all);
        }
        if let Some(hourly) = &form.hourly {
            if hourly.dni_w_m2.is_none() {
                let reason = "split off the global irradiance by how clear each step is";
                all.add_words(
                    at("weather/hourly/dni_w_m2"),
                    "by clearness".to_owned(),
                    reason,
                    "Erbs, Klein and Duffie 1982",
                );
            }
            wind(hourly.wind_mph.is_some(), "weather/hourly/wind_mph", all);
        }
    }
}

/// Where a site is; none where it does not say.
fn place_of(site: &Site) -> Option<Place> {
    let longitude_deg = site.longitude_deg?;
    Some(Place {
        latitude_rad: site.latitude_deg?.to_radians(),
        longitude_rad: longitude_deg.to_radians(),
        altitude_m: m_from_ft(site.elevation_ft.unwrap_or(0.0)),
        utc_offset_h: site.utc_offset_h.unwrap_or((longitude_deg / 15.0).round()),
    })
}

/// Twelve figures, each turned by a function; none of another number of them.
fn twelve(figures: &[f64], turned: fn(f64) -> f64) -> Option<[f64; 12]> {
    Some(<[f64; 12]>::try_from(figures).ok()?.map(turned))
}

fn mean(figures: &[f64; 12]) -> f64 {
    figures.iter().sum::<f64>() / 12.0
}

fn climate_of(monthly: &Monthly) -> Option<Climate> {
    let range = match &monthly.range_f {
        Some(range_f) => DailyRange::Given(twelve(range_f, kelvin)?),
        None => DailyRange::Inland,
    };
    Some(Climate {
        ghi_kwh_m2_d: twelve(&monthly.ghi_kwh_m2_day, |kwh| kwh)?,
        air: AirMeans { mean_c: twelve(&monthly.mean_f, celsius)?, range },
        wind_m_s: match &monthly.wind_mph {
            Some(wind_mph) => Some(twelve(wind_mph, m_s)?),
            None => None,
        },
    })
}

/// Turbidity of a day: what is given, or that of the place.
fn turbidity_of(given: Option<f64>, place: &Place) -> impl Fn(&Day) -> f64 {
    let table = Turbidity::of(place.latitude_rad, place.longitude_rad);
    move |day| given.unwrap_or_else(|| table.on(day.date))
}

fn clear(sky: &ClearSky, place: &Place, clock: &Clock, suns: &[Direction]) -> Option<Weather> {
    let air = match &sky.mean_f {
        None => AirMeans::constant(USUAL_AIR_C),
        Some(mean_f) => AirMeans {
            mean_c: twelve(mean_f, celsius)?,
            range: match &sky.range_f {
                Some(range_f) => DailyRange::Given(twelve(range_f, kelvin)?),
                None => DailyRange::Inland,
            },
        },
    };
    let wind_m_s = match &sky.wind_mph {
        Some(wind_mph) => mean(&twelve(wind_mph, m_s)?),
        None => USUAL_WIND_M_S,
    };
    clear_year(place, clock, suns, turbidity_of(sky.linke_turbidity, place), &air, wind_m_s)
}

/// Hours of a design day and of those after it. The last days of a year run on into the next.
fn design_clock(day: &DesignDay) -> Option<Clock> {
    let after = jiff::Span::new().days(i64::from(day.day_of_year) - 1);
    let first = date(TYPICAL_YEAR, 1, 1).checked_add(after).ok()?;
    Clock::new(first.at(0, 0, 0, 0), 60, 24 * DESIGN_DAYS)
}

fn design(day: &DesignDay, place: &Place, clock: &Clock, suns: &[Direction]) -> Option<Weather> {
    let mean_c = celsius((day.max_f + day.min_f) / 2.0);
    let range_k = kelvin(day.max_f - day.min_f);
    let air = AirMeans { mean_c: [mean_c; 12], range: DailyRange::Given([range_k; 12]) };
    let wind_m_s = day.wind_mph.map_or(USUAL_WIND_M_S, m_s);
    let turbidity = turbidity_of(day.linke_turbidity, place);
    let mut weather = clear_year(place, clock, suns, turbidity, &air, wind_m_s)?;
    weather.dew_point_c = day.dew_point_f.map(|dew_point_f| vec![celsius(dew_point_f); clock.count()]);
    Some(weather)
}

fn series(hourly: &Hourly, clock: Clock, suns: &[Direction]) -> Weather {
    let ghi_w_m2 = hourly.ghi_w_m2.clone();
    let (dni_w_m2, dhi_w_m2) = match (&hourly.dni_w_m2, &hourly.dhi_w_m2) {
        (Some(dni_w_m2), Some(dhi_w_m2)) => (dni_w_m2.clone(), dhi_w_m2.clone()),
        _ => split(&ghi_w_m2, &clock, suns),
    };
    let celsius_of = |list: &Vec<f64>| list.iter().copied().map(celsius).collect();
    Weather {
        clock,
        dni_w_m2,
        dhi_w_m2,
        air_c: celsius_of(&hourly.dry_bulb_f),
        dew_point_c: hourly.dew_point_f.as_ref().map(celsius_of),
        wind_m_s: match &hourly.wind_mph {
            Some(wind_mph) => wind_mph.iter().copied().map(m_s).collect(),
            None => vec![USUAL_WIND_M_S; ghi_w_m2.len()],
        },
        ghi_w_m2,
    }
}

/// Beam and diffuse of each step by its clearness.
fn split(ghi_w_m2: &[f64], clock: &Clock, suns: &[Direction]) -> (Vec<f64>, Vec<f64>) {
    let mut both = (Vec::with_capacity(ghi_w_m2.len()), Vec::with_capacity(ghi_w_m2.len()));
    for day in clock.days() {
        let outside_w_m2 = extraterrestrial_w_m2(day.day_of_year());
        for step in day.steps {
            let sky = erbs(ghi_w_m2[step], suns[step].zenith_rad(), outside_w_m2);
            both.0.push(sky.dni_w_m2);
            both.1.push(sky.dhi_w_m2);
        }
    }
    both
}

#[cfg(test)]
mod tests {
    use super::*;

    fn build(site: &str) -> Build {
        Build::from_json(format!(r#"{{"site": {site}}}"#).as_bytes()).unwrap()
    }

    fn faults(json: &str) -> Vec<String> {
        let build = Build::from_json(json.as_bytes()).unwrap();
        let mut faults = Faults::default();
        missing(&build, "energy budget", &mut faults);
        faults.list().iter().map(|fault| format!("{} {}", fault.pointer, fault.detail)).collect()
    }

    const HERE: &str = r#""latitude_deg": 44.1, "longitude_deg": -121.3, "elevation_ft": 3600"#;

    #[test]
    fn every_form_gives_a_series_with_its_sun() {
        let twelve = |figure: f64| vec![figure.to_string(); 12].join(",");
        let monthly = format!(
            r#"{{"monthly": {{"ghi_kwh_m2_day": [{}], "mean_f": [{}]}}}}"#,
            twelve(4.0),
            twelve(50.0)
        );
        for (form, form_name, steps) in [
            (r#"{"clear_sky": {}}"#, "clear_sky", 8760),
            (monthly.as_str(), "monthly", 8760),
            (r#"{"design_day": {"day_of_year": 203, "max_f": 97, "min_f": 64}}"#, "design_day", 168),
            (
                r#"{"hourly": {"start": "2024-02-29T10:00", "step_min": 15, "ghi_w_m2": [500, 510], "dry_bulb_f": [50, 51]}}"#,
                "hourly",
                2,
            ),
            (r#"{"place": "golden_co"}"#, "place", 8760),
        ] {
            let build = build(&format!(r#"{{{HERE}, "weather": {form}}}"#));
            let site = SiteWeather::of(&build).unwrap();
            assert_eq!(site.origin.form(), form_name);
            let weather = &site.weather;
            for list in
                [&weather.ghi_w_m2, &weather.dni_w_m2, &weather.dhi_w_m2, &weather.air_c, &weather.wind_m_s]
            {
                assert_eq!(list.len(), steps, "{form_name}");
                assert!(list.iter().all(|figure| figure.is_finite()), "{form_name}");
            }
            assert_eq!(site.suns.len(), steps);
            assert!(!site.origin.meaning().is_empty());
        }
    }

    #[test]
    fn a_place_brings_its_own_latitude_and_the_rest_says_what_is_missing() {
        assert_eq!(faults(r#"{"site": {"weather": {"place": "golden_co"}}}"#), Vec::<String>::new());
        assert_eq!(
            faults(r#"{"site": {"weather": {"clear_sky": {}}, "longitude_deg": -100}}"#),
            ["/site/latitude_deg is missing; energy budget needs to know where the sun stands"]
        );
        assert!(faults(r#"{"site": {"latitude_deg": 44}}"#)[0].starts_with("/site/weather is missing; "));
        assert!(faults("{}")[0].starts_with("/site is missing; "));
    }

    #[test]
    fn beam_of_a_series_that_gives_none_is_split_off() {
        let build = build(&format!(
            r#"{{{HERE}, "utc_offset_h": -8, "weather": {{"hourly": {{"start": "2025-06-21T12:00", "step_min": 60,
            "ghi_w_m2": [900], "dry_bulb_f": [50], "wind_mph": [10]}}}}}}"#
        ));
        let site = SiteWeather::of(&build).unwrap();
        let weather = &site.weather;
        let closure = weather.dni_w_m2[0] * site.suns[0].up + weather.dhi_w_m2[0];
        assert!((closure - 900.0).abs() < 1e-9 && weather.dni_w_m2[0] > 500.0);
        assert!((weather.air_c[0] - 10.0).abs() < 1e-12 && (weather.wind_m_s[0] - 4.4704).abs() < 1e-12);
    }

    #[test]
    fn the_last_design_day_runs_on_into_the_next_year() {
        let day = |day_of_year| DesignDay {
            day_of_year,
            max_f: 40.0,
            min_f: 20.0,
            dew_point_f: Some(15.0),
            wind_mph: None,
            linke_turbidity: Some(3.0),
        };
        assert_eq!(design_clock(&day(365)).unwrap().days()[0].date, date(2025, 12, 31));
        assert_eq!(design_clock(&day(366)).unwrap().days()[0].date, date(2026, 1, 1));
    }
}
