//! Every default that the weather of a build used.

use super::made::USUAL_AIR_C;
use super::{Origin, SiteWeather, USUAL_SEED};
use crate::build::{Build, Site, WeatherForm};
use crate::report::Assumptions;
use crate::sky::synthetic::USUAL_WIND_M_S;
use crate::sky::transposition::GRASS_ALBEDO;
use crate::sky::turbidity::{Source, Turbidity};
use crate::sky::weather::Place;
use crate::units::{fahrenheit, ft, mph};

const PRACTICE: &str = "common practice";
/// Where the daily range of temperature is from that follows from how clear a day is.
const HARGREAVES: &str = "FAO-56, eq. 50 (from memory)";

fn at(field: &str) -> String {
    format!("/site/{field}")
}

impl SiteWeather<'_> {
    /// Notes every default that was used.
    pub fn assume(&self, build: &Build, all: &mut Assumptions) {
        let Some(site) = &build.site else { return };
        match self.origin.place() {
            Some(station) => of_station(site, &station, all),
            None => of_place(site, &self.place, all),
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
        if let Some(form) = &site.weather {
            of_form(form, &self.place, all);
        }
    }
}

/// What is taken from the station that the weather is from.
fn of_station(site: &Site, station: &Place, all: &mut Assumptions) {
    let reason = "that of the station whose weather it is; sun and beam belong together";
    for (name, given, value, unit) in [
        ("latitude_deg", site.latitude_deg, station.latitude_rad.to_degrees(), "degree"),
        ("longitude_deg", site.longitude_deg, station.longitude_rad.to_degrees(), "degree"),
        ("elevation_ft", site.elevation_ft, ft(station.altitude_m), "ft"),
        ("utc_offset_h", site.utc_offset_h, station.utc_offset_h, "h"),
    ] {
        if given.is_none() {
            all.add(at(name), value, Some(unit), reason, "its file");
        }
    }
}

/// What is taken where the place alone is given.
fn of_place(site: &Site, place: &Place, all: &mut Assumptions) {
    if site.elevation_ft.is_none() {
        all.add(at("elevation_ft"), 0.0, Some("ft"), "sea level", PRACTICE);
    }
    if site.utc_offset_h.is_none() {
        let reason = "the standard time of its meridian, one hour for each 15 degrees";
        all.add(at("utc_offset_h"), place.utc_offset_h, Some("h"), reason, PRACTICE);
    }
}

/// What its form of weather leaves open.
fn of_form(form: &WeatherForm, place: &Place, all: &mut Assumptions) {
    if let Some(sky) = &form.clear_sky {
        haze(sky.linke_turbidity, "weather/clear_sky/linke_turbidity", place, all);
        if sky.mean_f.is_none() {
            let reason = "mild air all year; a clear sky says nothing of temperature";
            let mean_f = fahrenheit(USUAL_AIR_C);
            all.add(at("weather/clear_sky/mean_f"), mean_f, Some("°F"), reason, PRACTICE);
        } else if sky.range_f.is_none() {
            range("weather/clear_sky/range_f", all);
        }
        wind(sky.wind_mph.is_some(), "weather/clear_sky/wind_mph", all);
    }
    if let Some(monthly) = &form.monthly {
        if monthly.range_f.is_none() {
            range("weather/monthly/range_f", all);
        }
        wind(monthly.wind_mph.is_some(), "weather/monthly/wind_mph", all);
    }
    if let Some(day) = &form.design_day {
        haze(day.linke_turbidity, "weather/design_day/linke_turbidity", place, all);
        wind(day.wind_mph.is_some(), "weather/design_day/wind_mph", all);
    }
    if let Some(hourly) = &form.hourly {
        if hourly.dni_w_m2.is_none() {
            let (words, reason) =
                ("by clearness", "split off the global irradiance by how clear each step is");
            let citation = "Erbs, Klein and Duffie 1982";
            all.add_words(at("weather/hourly/dni_w_m2"), words.to_owned(), reason, citation);
        }
        wind(hourly.wind_mph.is_some(), "weather/hourly/wind_mph", all);
    }
}

fn haze(given: Option<f64>, name: &str, place: &Place, all: &mut Assumptions) {
    if given.is_some() {
        return;
    }
    let turbidity = Turbidity::of(place.latitude_rad, place.longitude_rad);
    let mean = turbidity.months.iter().sum::<f64>() / 12.0;
    let reason = match turbidity.source {
        Source::Table => "mean of the place's twelve months, which count one by one",
        Source::UnitedStates => {
            "mean over land of the contiguous United States, outside of which no table is built in"
        }
    };
    all.add(at(name), mean, None, reason, "Remund and others 2003 (SoDa), through pvlib's table");
}

fn range(name: &str, all: &mut Assumptions) {
    let reason = "each day's range follows from how clear it is";
    all.add_words(at(name), "by clearness".to_owned(), reason, HARGREAVES);
}

fn wind(given: bool, name: &str, all: &mut Assumptions) {
    if !given {
        let (reason, citation) = ("mean of many stations", "FAO-56, chapter 3 (from memory)");
        all.add(at(name), mph(USUAL_WIND_M_S), Some("mph"), reason, citation);
    }
}
