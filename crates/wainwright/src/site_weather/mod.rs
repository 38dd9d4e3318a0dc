//! The build's weather in SI: whichever form it is given in, a series of even steps and the sun in the middle of each.

mod assumptions;
mod design;
mod made;
mod origin;

use std::cell::RefCell;
use std::sync::{Arc, LazyLock, OnceLock};

use crate::build::{Build, Site, WeatherForm};
use crate::document::Faults;
use crate::memo::Recent;
use crate::sky::almanac;
use crate::sky::clock::{Clock, Day};
use crate::sky::places::{self, KnownPlace};
use crate::sky::sun::{Direction, Observer};
use crate::sky::synthetic::{Climate, DaysBy, Shortfall, Synthetic, synthetic};
use crate::sky::transposition::GRASS_ALBEDO;
use crate::sky::weather::{Place, Weather};
use crate::units::m_from_ft;

pub use design::{ColdNight, DesignOrigin, HotDay};
use made::{clear, climate_of, design, design_clock, series};
pub use origin::Origin;

/// Which of all possible years is made where no number is given.
const USUAL_SEED: u32 = 1;

/// The weather of a build and the sun above it.
#[derive(Debug, Clone)]
pub struct SiteWeather<'b> {
    /// Where the sun is reckoned for: the site, or the station that the weather is from.
    pub place: Place,
    /// The weather.
    pub weather: Arc<Weather>,
    /// Its days.
    pub days: Arc<[Day]>,
    /// Where the sun stands in the middle of each step.
    pub suns: Arc<[Direction]>,
    /// What it was made from.
    pub origin: Origin<'b>,
    /// Months whose given mean the sun cannot give at the place.
    pub shortfalls: Vec<Shortfall>,
    /// Share of its light that the ground throws back.
    pub albedo: f64,
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
        let Above { suns, days } = above(&place, &clock)?;
        let seed = u64::from(site.seed.unwrap_or(USUAL_SEED));
        let made = match origin {
            Origin::File(file) | Origin::Text(file) => Made::plain(Arc::clone(&file.weather)),
            Origin::Place(known) if seed == u64::from(USUAL_SEED) => {
                usual_year(known, &clock, &suns)?.clone()
            }
            Origin::Hourly => Made::plain(Arc::new(series(form.hourly.as_ref()?, clock, &suns))),
            Origin::Place(_) | Origin::Monthly | Origin::ClearSky | Origin::DesignDay => {
                let from = MadeFrom { place, clock, seed, form: form.clone() };
                made(from, || match origin {
                    Origin::Place(known) => synthetic_year(&place, &clock, &suns, &known.climate(), seed),
                    Origin::Monthly => {
                        let climate = climate_of(form.monthly.as_ref()?)?;
                        synthetic_year(&place, &clock, &suns, &climate, seed)
                    }
                    Origin::ClearSky => {
                        let sky = clear(form.clear_sky.as_ref()?, &place, &clock, &suns)?;
                        Some(Made::plain(Arc::new(sky)))
                    }
                    _ => {
                        let day = design(form.design_day.as_ref()?, &place, &clock, &suns)?;
                        Some(Made::plain(Arc::new(day)))
                    }
                })?
            }
        };
        let albedo = site.albedo.unwrap_or(GRASS_ALBEDO);
        Some(Self { place, days, weather: made.weather, suns, origin, shortfalls: made.shortfalls, albedo })
    }
}

/// The sun above a place, and the days of its clock.
#[derive(Debug, Clone)]
struct Above {
    suns: Arc<[Direction]>,
    days: Arc<[Day]>,
}

/// Series longer than this are not kept: a year of quarters of an hour.
const MOST_KEPT: usize = 4 * 8784;
/// So many places, so many weathers are kept.
const KEPT: usize = 4;

thread_local! {
    static ABOVE: RefCell<Recent<(Place, Clock), Above>> = const { RefCell::new(Recent::new(KEPT)) };
    static MADE: RefCell<Recent<MadeFrom, Made>> = const { RefCell::new(Recent::new(KEPT)) };
}

/// The sun above a place through a series; none beyond the years of its algorithm.
fn above(place: &Place, clock: &Clock) -> Option<Above> {
    let known = ABOVE.with_borrow_mut(|above| above.find(|key| *key == (*place, *clock)));
    if known.is_some() {
        return known;
    }
    let observer = Observer::new(place.latitude_rad, place.longitude_rad, place.altitude_m);
    let suns = almanac::suns(clock, place.utc_offset_h)?.seen_from(observer).collect();
    let above = Above { suns, days: clock.days().into() };
    if clock.count() <= MOST_KEPT {
        ABOVE.with_borrow_mut(|all| all.keep((*place, *clock), above.clone()));
    }
    Some(above)
}

/// Weather that was made, and months whose given mean the sun cannot give.
#[derive(Debug, Clone)]
struct Made {
    weather: Arc<Weather>,
    shortfalls: Vec<Shortfall>,
}

impl Made {
    fn plain(weather: Arc<Weather>) -> Self {
        Self { weather, shortfalls: Vec::new() }
    }
}

/// All that weather is made from.
#[derive(Debug, PartialEq)]
struct MadeFrom {
    place: Place,
    clock: Clock,
    seed: u64,
    form: WeatherForm,
}

/// Weather made from figures, or the same made before.
fn made(from: MadeFrom, make: impl FnOnce() -> Option<Made>) -> Option<Made> {
    let known = MADE.with_borrow_mut(|made| made.find(|key| *key == from));
    if known.is_some() {
        return known;
    }
    let made = make()?;
    MADE.with_borrow_mut(|all| all.keep(from, made.clone()));
    Some(made)
}

/// A year in a likely order.
fn synthetic_year(
    place: &Place,
    clock: &Clock,
    suns: &[Direction],
    climate: &Climate,
    seed: u64,
) -> Option<Made> {
    let Synthetic { weather, shortfalls } =
        synthetic(place, clock, suns, climate, DaysBy::Distribution, seed)?;
    Some(Made { weather: Arc::new(weather), shortfalls })
}

/// The usual year of a place that is built in: made once, since every question asks for the same.
///
/// - `clock`, `suns`  those of the typical year at the place
fn usual_year(known: &KnownPlace, clock: &Clock, suns: &[Direction]) -> Option<&'static Made> {
    static YEARS: LazyLock<Vec<OnceLock<Option<Made>>>> =
        LazyLock::new(|| places::all().iter().map(|_| OnceLock::new()).collect());
    let index = places::all().iter().position(|other| other.id == known.id)?;
    let make = || synthetic_year(&known.place, clock, suns, &known.climate(), u64::from(USUAL_SEED));
    YEARS.get(index)?.get_or_init(make).as_ref()
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::build::DesignDay;
    use jiff::civil::date;

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
