//! Section `site`: where it stands, which way it faces, and the weather there.

use std::sync::Arc;

use jiff::civil::DateTime;
use serde_json::{Value, json};

use super::weather_file::{FileName, FileText, GivenFile};
use crate::bounds;
use crate::document::{Bound, Faults, List, Place, Section, Stamp, record};
use crate::sky::places;
use crate::sky::weather_file::{WeatherFile, WeatherLibrary};

/// Twelve figures, one a month.
const fn twelve(of: Bound) -> List<Bound> {
    List { of, most: bounds::MONTHS }
}

/// A figure for each step of a series.
const fn steps(of: Bound) -> List<Bound> {
    List { of, most: bounds::MOST_STEPS }
}

record! {
    /// Where it stands, which way it faces, and the weather there.
    pub struct Site: "the site" {
        /// Latitude, north of the equator positive.
        optional latitude_deg: f64 = bounds::LATITUDE_DEG, 44.1;
        /// Longitude, east of Greenwich positive: in America it is below 0.
        optional longitude_deg: f64 = bounds::LONGITUDE_DEG, -121.3;
        /// Height above sea level.
        optional elevation_ft: f64 = bounds::ELEVATION_FT, 3600.0;
        /// Local standard time less universal time. Daylight saving is left out.
        optional utc_offset_h: f64 = bounds::UTC_OFFSET_H, -8.0;
        /// The direction in which the tongue points, clockwise from north. It turns the arrays on the trailer.
        optional heading_deg: f64 = bounds::AZIMUTH_DEG, 0.0;
        /// Share of its light that the ground throws back.
        optional albedo: f64 = bounds::FRACTION, 0.2;
        /// The weather, in one of its forms.
        optional weather: WeatherForm = Section::of();
        /// Which of all possible years is made from monthly means: the same number gives the same year.
        optional seed: u32 = bounds::SEED, 1;
    }
}

record! {
    /// The weather, in exactly one of its forms.
    pub struct WeatherForm: "the weather" {
        /// A sky without clouds, all year.
        optional clear_sky: ClearSky = Section::of();
        /// Twelve monthly means, from which a year with clear and grey days is made.
        optional monthly: Monthly = Section::of(), Value::Null;
        /// One day, clear, again and again.
        optional design_day: DesignDay = Section::of(), Value::Null;
        /// A series of your own.
        optional hourly: Hourly = Section::of(), Value::Null;
        /// A place that is built in; its monthly means are made into a year.
        optional place: String = bounds::NAME, "golden_co", aside;
        /// The name of an EPW or TMY3 file in the folder that was given to the service.
        optional file: GivenFile = FileName, "my_town.epw", aside;
        /// An EPW or TMY3 file as text.
        optional text: GivenFile = FileText, "LOCATION,My town,...", aside;
    }
}

record! {
    /// A sky without clouds.
    pub struct ClearSky: "the clear sky" {
        /// How hazy it is: so many clean, dry atmospheres would dim the sun as much. Left out, that of the place and the
        /// month in the contiguous United States.
        optional linke_turbidity: f64 = bounds::LINKE_TURBIDITY, 3.0;
        /// Mean temperature of the air in each month.
        optional mean_f: Vec<f64> = twelve(bounds::OUTDOOR_F), json!([31, 34, 40, 46, 54, 61, 69, 68, 60, 49, 38, 31]);
        /// From the coldest to the warmest hour of a mean day of each month.
        optional range_f: Vec<f64> = twelve(bounds::RANGE_F), json!([17, 20, 24, 27, 29, 31, 37, 37, 35, 29, 20, 16]);
        /// Mean wind of each month.
        optional wind_mph: Vec<f64> = twelve(bounds::WIND_MPH), json!([7, 7, 8, 8, 8, 7, 7, 6, 6, 6, 7, 7]);
    }
}

record! {
    /// Twelve monthly means.
    pub struct Monthly: "the monthly weather" {
        /// Sunlight on level ground in a mean day of each month.
        required ghi_kwh_m2_day: Vec<f64> = twelve(bounds::DAILY_KWH_M2), json!([1.7, 2.6, 4.0, 5.3, 6.4, 7.1, 7.4, 6.3, 4.9, 3.1, 1.8, 1.4]);
        /// Mean temperature of the air.
        required mean_f: Vec<f64> = twelve(bounds::OUTDOOR_F), json!([31, 34, 40, 46, 54, 61, 69, 68, 60, 49, 38, 31]);
        /// From the coldest to the warmest hour of a mean day. Left out, it follows from how clear the days are.
        optional range_f: Vec<f64> = twelve(bounds::RANGE_F), json!([17, 20, 24, 27, 29, 31, 37, 37, 35, 29, 20, 16]);
        /// Mean wind.
        optional wind_mph: Vec<f64> = twelve(bounds::WIND_MPH), json!([7, 7, 8, 8, 8, 7, 7, 6, 6, 6, 7, 7]);
    }
}

record! {
    /// One clear day.
    pub struct DesignDay: "the design day" {
        /// Its day of the year: 1 is the first of January, 203 the 22nd of July.
        required day_of_year: u32 = bounds::DAY_OF_YEAR, 203;
        /// Temperature of its warmest hour.
        required max_f: f64 = bounds::OUTDOOR_F, 97.0;
        /// Temperature of its coldest hour.
        required min_f: f64 = bounds::OUTDOOR_F, 64.0;
        /// Its dew point.
        optional dew_point_f: f64 = bounds::OUTDOOR_F, 50.0;
        /// Its wind.
        optional wind_mph: f64 = bounds::WIND_MPH, 6.0;
        /// How hazy it is, as for the clear sky.
        optional linke_turbidity: f64 = bounds::LINKE_TURBIDITY, 3.0;
    }
}

record! {
    /// A series in even steps of local standard time. Each figure is the mean of the step that begins there.
    pub struct Hourly: "the hourly weather" {
        /// When the first step begins.
        required start: DateTime = Stamp, "2025-01-01T00:00";
        /// Length of a step.
        required step_min: u32 = bounds::STEP_MIN, 60;
        /// Sunlight on level ground.
        required ghi_w_m2: Vec<f64> = steps(bounds::IRRADIANCE_W_M2), json!([0, 120, 340]);
        /// Light straight from the sun, on a plane that faces it. Left out, it is split off by how clear each step is.
        optional dni_w_m2: Vec<f64> = steps(bounds::IRRADIANCE_W_M2), json!([0, 300, 520]);
        /// Light from the rest of the sky on level ground. Belongs beside `dni_w_m2`.
        optional dhi_w_m2: Vec<f64> = steps(bounds::IRRADIANCE_W_M2), json!([0, 60, 90]);
        /// Temperature of the air.
        required dry_bulb_f: Vec<f64> = steps(bounds::OUTDOOR_F), json!([28, 31, 36]);
        /// Dew point.
        optional dew_point_f: Vec<f64> = steps(bounds::OUTDOOR_F), json!([24, 24, 25]);
        /// Wind.
        optional wind_mph: Vec<f64> = steps(bounds::WIND_MPH), json!([3, 4, 6]);
    }
}

impl Site {
    pub(super) fn check(&self, at: &Place, faults: &mut Faults) {
        let Some(weather) = &self.weather else { return };
        weather.check(&at.key("weather"), faults);
    }
}

impl WeatherForm {
    /// The weather file that is named, or given as text.
    pub fn weather_file(&self) -> Option<&Arc<WeatherFile>> {
        self.file.as_ref().or(self.text.as_ref())?.file.as_ref()
    }

    /// Looks for the file that is named.
    pub(super) fn find_file(&mut self, library: &WeatherLibrary, at: &Place, faults: &mut Faults) {
        if let Some(file) = &mut self.file {
            file.find(library, &at.key("file"), faults);
        }
    }

    /// Which of the forms are given, by name.
    fn given(&self) -> impl Iterator<Item = &'static str> {
        let forms = [
            ("clear_sky", self.clear_sky.is_some()),
            ("monthly", self.monthly.is_some()),
            ("design_day", self.design_day.is_some()),
            ("hourly", self.hourly.is_some()),
            ("place", self.place.is_some()),
            ("file", self.file.is_some()),
            ("text", self.text.is_some()),
        ];
        forms.into_iter().filter_map(|(name, given)| given.then_some(name))
    }

    fn check(&self, at: &Place, faults: &mut Faults) {
        let mut given = self.given();
        match (given.next(), given.next()) {
            (None, _) => {
                let forms = "clear_sky, monthly, design_day, hourly, place, file and text";
                faults.contradiction(at, format!("says nothing; give one of {forms}"));
            }
            (Some(one), Some(other)) => {
                faults.contradiction(
                    &at.key(other),
                    format!("cannot stand beside {one}; give one form of weather"),
                );
            }
            _ => {}
        }
        if let Some(place) = &self.place
            && places::find(place).is_none()
        {
            let known = places::all().iter().map(|known| known.id);
            faults.unknown_name(&at.key("place"), place, "the places built in", known);
        }
        if let Some(sky) = &self.clear_sky {
            let lists = [("mean_f", &sky.mean_f), ("range_f", &sky.range_f), ("wind_mph", &sky.wind_mph)];
            check_months(
                lists.into_iter().filter_map(|(name, list)| Some((name, list.as_ref()?))),
                &at.key("clear_sky"),
                faults,
            );
            if sky.range_f.is_some() && sky.mean_f.is_none() {
                let place = at.key("clear_sky");
                faults.contradiction(
                    &place.key("range_f"),
                    "says nothing without mean_f; give both".to_owned(),
                );
            }
        }
        if let Some(monthly) = &self.monthly {
            let lists = [
                ("ghi_kwh_m2_day", Some(&monthly.ghi_kwh_m2_day)),
                ("mean_f", Some(&monthly.mean_f)),
                ("range_f", monthly.range_f.as_ref()),
                ("wind_mph", monthly.wind_mph.as_ref()),
            ];
            check_months(
                lists.into_iter().filter_map(|(name, list)| Some((name, list?))),
                &at.key("monthly"),
                faults,
            );
        }
        if let Some(day) = &self.design_day
            && day.min_f > day.max_f
        {
            let detail = format!("must be max_f, {}, or less; got {}", day.max_f, day.min_f);
            let place = at.key("design_day");
            faults.contradiction(&place.key("min_f"), detail);
        }
        if let Some(hourly) = &self.hourly {
            hourly.check(&at.key("hourly"), faults);
        }
    }
}

/// Every list has a figure for each month.
fn check_months<'a>(
    lists: impl Iterator<Item = (&'static str, &'a Vec<f64>)>,
    at: &Place,
    faults: &mut Faults,
) {
    for (name, list) in lists.filter(|(_, list)| list.len() != bounds::MONTHS) {
        let detail = format!("must have {} figures, one a month; has {}", bounds::MONTHS, list.len());
        faults.contradiction(&at.key(name), detail);
    }
}

impl Hourly {
    fn check(&self, at: &Place, faults: &mut Faults) {
        let count = self.ghi_w_m2.len();
        let lists = [
            ("dni_w_m2", self.dni_w_m2.as_ref()),
            ("dhi_w_m2", self.dhi_w_m2.as_ref()),
            ("dry_bulb_f", Some(&self.dry_bulb_f)),
            ("dew_point_f", self.dew_point_f.as_ref()),
            ("wind_mph", self.wind_mph.as_ref()),
        ];
        if count == 0 {
            faults.contradiction(&at.key("ghi_w_m2"), "is empty; give a figure for each step".to_owned());
        }
        for (name, list) in lists.into_iter().filter_map(|(name, list)| Some((name, list?))) {
            if list.len() != count && !faults.spoil(&at.key("ghi_w_m2").pointer()) {
                let detail = format!("must have {count} figures, as many as ghi_w_m2; has {}", list.len());
                faults.contradiction(&at.key(name), detail);
            }
        }
        let beside = [
            ("dni_w_m2", &self.dni_w_m2, "dhi_w_m2", &self.dhi_w_m2),
            ("dhi_w_m2", &self.dhi_w_m2, "dni_w_m2", &self.dni_w_m2),
        ];
        for (name, list, other, missing) in beside {
            if list.is_some() && missing.is_none() {
                faults.contradiction(
                    &at.key(name),
                    format!("says nothing without {other}; give both or neither"),
                );
            }
        }
        if !(1950..=2100).contains(&self.start.year()) && !faults.spoil(&at.key("start").pointer()) {
            let detail = format!("must lie in the years 1950 to 2100; got {}", self.start.year());
            faults.contradiction(&at.key("start"), detail);
        }
        if !60_u32.is_multiple_of(self.step_min) && !faults.spoil(&at.key("step_min").pointer()) {
            let detail = format!("must divide an hour: 60, 30, 20, 15, 10 or less; got {}", self.step_min);
            faults.contradiction(&at.key("step_min"), detail);
        }
    }
}
