//! Section `site`: where it stands, which way it faces, and the weather there.

use std::sync::Arc;

use jiff::civil::DateTime;
use serde_json::{Value, json};

use super::place_name::PlaceName;
use super::weather_file::{FileName, FileText, GivenFile};
use crate::bounds;
use crate::document::{Bound, Faults, List, Place, Record, Section, Stamp, record};
use crate::sky::standard_time;
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
        /// The hot day that cooling is sized for. Left out, the weather's own, or that of a station near by.
        optional cooling_design: DesignDay = Section::of();
        /// The cold night that heating is sized for. Left out, the weather's own, or that of a station near by.
        optional heating_design: DesignNight = Section::of();
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
        optional place: String = PlaceName, "golden_co", aside;
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
    /// A cold night.
    pub struct DesignNight: "the design night" {
        /// Temperature of its air: all but 1 percent of the hours of a year are warmer.
        required dry_bulb_f: f64 = bounds::OUTDOOR_F, 5.0;
        /// Its wind.
        optional wind_mph: f64 = bounds::WIND_MPH, 15.0;
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
        self.check_clock(at, faults);
        if let Some(weather) = &self.weather {
            weather.check(&at.key("weather"), faults);
        }
        if let Some(day) = &self.cooling_design {
            day.check(&at.key("cooling_design"), faults);
            if let Some(night) = &self.heating_design
                && night.dry_bulb_f > day.max_f
            {
                let detail = format!(
                    "must be max_f of cooling_design, {}, or less: the coldest night is no hotter than the hottest day; got {}",
                    day.max_f, night.dry_bulb_f
                );
                let place = at.key("heating_design");
                faults.contradiction(&place.key("dry_bulb_f"), detail);
            }
        }
    }

    /// Latitude and longitude that are swapped cannot be told; a longitude of the wrong sign shows by the clock.
    fn check_clock(&self, at: &Place, faults: &mut Faults) {
        if let (Some(latitude_deg), Some(longitude_deg), Some(utc_offset_h)) =
            (self.latitude_deg, self.longitude_deg, self.utc_offset_h)
            && !standard_time::is_usual(latitude_deg, longitude_deg, utc_offset_h)
        {
            let sun_h = (longitude_deg / 1.5).round() / 10.0;
            let detail = format!(
                "must be near {sun_h}, the sun's time at longitude_deg {longitude_deg} (east of Greenwich positive, west \
                 negative); got {utc_offset_h}"
            );
            faults.contradiction(&at.key("utc_offset_h"), detail);
        }
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
        if let Some(one) = given.next() {
            for other in given {
                let detail = format!("cannot stand beside {one}; give one form of weather");
                faults.contradiction(&at.key(other), detail);
            }
        } else {
            let forms = <Self as Record>::FIELDS;
            let detail = format!("says nothing; give one of {}", forms.join(", "));
            faults.contradiction_without(forms, at, at, detail);
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
                let detail = "says nothing without mean_f; give both".to_owned();
                faults.contradiction_without(&["mean_f"], &place, &place.key("range_f"), detail);
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
            // A month without sun is one beyond a polar circle; no place has twelve.
            let ghi = &monthly.ghi_kwh_m2_day;
            if ghi.len() == bounds::MONTHS && ghi.iter().all(|kwh| *kwh == 0.0) {
                let place = at.key("monthly");
                let detail = "is 0 all year; give the sunlight of a mean day of each month".to_owned();
                faults.contradiction(&place.key("ghi_kwh_m2_day"), detail);
            }
        }
        if let Some(day) = &self.design_day {
            day.check(&at.key("design_day"), faults);
        }
        if let Some(hourly) = &self.hourly {
            hourly.check(&at.key("hourly"), faults);
        }
    }
}

impl DesignDay {
    fn check(&self, at: &Place, faults: &mut Faults) {
        for (name, value_f) in [("min_f", Some(self.min_f)), ("dew_point_f", self.dew_point_f)] {
            if let Some(value_f) = value_f
                && value_f > self.max_f
            {
                let detail = format!("must be max_f, {}, or less; got {value_f}", self.max_f);
                faults.contradiction(&at.key(name), detail);
            }
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

/// By so much a dew point may be above the air by rounding [°F].
const ROUNDING_F: f64 = 1.0;

impl Hourly {
    /// No air holds more water than it can: the first step in which it would, and how many there are.
    fn check_dew_point(&self, at: &Place, faults: &mut Faults) {
        let pairs = self.dew_point_f.iter().flatten().zip(&self.dry_bulb_f).enumerate();
        let mut beyond = pairs.filter(|(_, (dew_f, air_f))| **dew_f > **air_f + ROUNDING_F);
        let Some((step, (dew_f, air_f))) = beyond.next() else { return };
        let more = match beyond.count() {
            0 => String::new(),
            more => format!(", and so in {more} more"),
        };
        if !faults.spoil(&at.key("dry_bulb_f").index(step).pointer()) {
            let detail = format!(
                "must be dry_bulb_f, {air_f}, or less: humidity is 100 percent there; got {dew_f}{more}"
            );
            let place = at.key("dew_point_f");
            faults.contradiction(&place.index(step), detail);
        }
    }

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
        self.check_dew_point(at, faults);
        let beside = [
            ("dni_w_m2", &self.dni_w_m2, "dhi_w_m2", &self.dhi_w_m2),
            ("dhi_w_m2", &self.dhi_w_m2, "dni_w_m2", &self.dni_w_m2),
        ];
        for (name, list, other, missing) in beside {
            if list.is_some() && missing.is_none() {
                let detail = format!("says nothing without {other}; give both or neither");
                faults.contradiction_without(&[other], at, &at.key(name), detail);
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

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use crate::FaultCode;
    use crate::build::fixture::{assert_contradiction, fault_with, faults_with, lines_with};

    const WEATHER: &str = "/site/weather";

    fn hourly(changes: &[(&str, Value)]) -> Vec<String> {
        let mut series = json!({
            "start": "2025-01-01T00:00", "step_min": 60, "ghi_w_m2": [0, 120, 340], "dni_w_m2": [0, 300, 520],
            "dhi_w_m2": [0, 60, 90], "dry_bulb_f": [28, 31, 36], "dew_point_f": [24, 24, 25], "wind_mph": [3, 4, 6],
        });
        for (name, value) in changes {
            series[*name] = value.clone();
        }
        lines_with(&[(WEATHER, json!({"hourly": series}))])
            .into_iter()
            .map(|line| line.strip_prefix("/site/weather/hourly/").unwrap().to_owned())
            .collect()
    }

    #[test]
    fn air_holds_no_more_water_than_it_can() {
        let humid = [("dew_point_f", json!([24, 33.5, 38.5])), ("dry_bulb_f", json!([28, 31, 36]))];
        assert_eq!(
            hourly(&humid),
            [
                "dew_point_f/1 must be dry_bulb_f, 31, or less: humidity is 100 percent there; got 33.5, and so in 1 more",
            ]
        );
        // A degree may be rounding.
        assert_eq!(hourly(&[("dew_point_f", json!([29, 32, 37]))]), Vec::<String>::new());
    }

    #[test]
    fn a_longitude_of_the_wrong_sign_is_seen_by_the_clock() {
        assert_contradiction(
            "/site/longitude_deg",
            json!(121.3),
            "/site/utc_offset_h",
            "must be near 8.1, the sun's time at longitude_deg 121.3 (east of Greenwich positive, west negative); got -8",
        );
        let polar = [("/site/latitude_deg", json!(78)), ("/site/longitude_deg", json!(121.3))];
        assert_eq!(faults_with(&polar), []);
        for (member, value) in [
            ("latitude_deg", json!(441)),
            ("longitude_deg", json!("-121.3")),
            ("longitude_deg", json!(1213)),
            ("utc_offset_h", json!(-800)),
        ] {
            let at = format!("/site/{member}");
            assert_eq!(fault_with(&[(&at, value)]).pointer, at);
        }
        for left_out in ["latitude_deg", "longitude_deg", "utc_offset_h"] {
            assert_eq!(faults_with(&[(&format!("/site/{left_out}"), json!(null))]), []);
        }
    }

    #[test]
    fn weather_has_one_form() {
        assert_contradiction(
            WEATHER,
            json!({}),
            WEATHER,
            "says nothing; give one of clear_sky, monthly, design_day, hourly, place, file, text",
        );
        assert_eq!(
            lines_with(&[(
                WEATHER,
                json!({"place": "golden_co", "clear_sky": {}, "design_day": {"day_of_year": 1, "max_f": 50, "min_f": 40}})
            )]),
            [
                "/site/weather/place cannot stand beside clear_sky; give one form of weather",
                "/site/weather/design_day cannot stand beside clear_sky; give one form of weather",
            ]
        );
        assert_eq!(lines_with(&[(WEATHER, json!(null))]), Vec::<String>::new());
        let misspelled = fault_with(&[(WEATHER, json!({"clearsky": {}}))]);
        assert_eq!(
            (misspelled.code, misspelled.suggestion.as_deref()),
            (FaultCode::UnknownField, Some("clear_sky"))
        );
    }

    #[test]
    fn a_place_that_is_not_there_is_answered_with_those_that_are() {
        let fault = fault_with(&[(WEATHER, json!({"place": "golden"}))]);
        assert_eq!((fault.code, fault.pointer.as_str()), (FaultCode::UnknownId, "/site/weather/place"));
        assert!(
            fault.detail.starts_with("names \"golden\", which is not in the places built in"),
            "{}",
            fault.detail
        );
        assert!(fault.known.contains(&"golden_co".to_owned()));
        assert_eq!(fault_with(&[(WEATHER, json!({"place": 7}))]).code, FaultCode::WrongType);
        assert_eq!(fault_with(&[(WEATHER, json!({"place": "x".repeat(201)}))]).code, FaultCode::UnknownId);
    }

    #[test]
    fn every_list_of_months_has_twelve() {
        let short = json!([1, 2]);
        let monthly = json!({"ghi_kwh_m2_day": [], "mean_f": short, "range_f": short, "wind_mph": short});
        assert_eq!(
            lines_with(&[(WEATHER, json!({"monthly": monthly}))]),
            [("ghi_kwh_m2_day", 0), ("mean_f", 2), ("range_f", 2), ("wind_mph", 2)].map(
                |(name, has)| format!(
                    "/site/weather/monthly/{name} must have 12 figures, one a month; has {has}"
                )
            )
        );
        let clear = json!({"mean_f": short, "range_f": short, "wind_mph": short});
        assert_eq!(
            lines_with(&[(WEATHER, json!({"clear_sky": clear}))]),
            ["mean_f", "range_f", "wind_mph"].map(|name| format!(
                "/site/weather/clear_sky/{name} must have 12 figures, one a month; has 2"
            ))
        );
    }

    #[test]
    fn a_range_of_temperatures_needs_their_mean() {
        let ranges = json!(vec![9; 12]);
        assert_contradiction(
            WEATHER,
            json!({"clear_sky": {"range_f": ranges}}),
            "/site/weather/clear_sky/range_f",
            "says nothing without mean_f; give both",
        );
        for sky in
            [json!({"range_f": ranges, "mean_c": ranges}), json!({"range_f": ranges, "mean_f": "mild"})]
        {
            fault_with(&[(WEATHER, json!({"clear_sky": sky}))]);
        }
    }

    #[test]
    fn no_place_is_without_sun_all_year() {
        assert_contradiction(
            "/site/weather/monthly/ghi_kwh_m2_day",
            json!(vec![0; 12]),
            "/site/weather/monthly/ghi_kwh_m2_day",
            "is 0 all year; give the sunlight of a mean day of each month",
        );
        let mut polar = [0.0; 12];
        polar[6] = 5.0;
        assert_eq!(faults_with(&[("/site/weather/monthly/ghi_kwh_m2_day", json!(polar))]), []);
        let mut unread = json!(vec![0; 12]);
        unread[3] = json!("dark");
        let fault = fault_with(&[("/site/weather/monthly/ghi_kwh_m2_day", unread)]);
        assert_eq!(fault.pointer, "/site/weather/monthly/ghi_kwh_m2_day/3");
    }

    #[test]
    fn a_design_day_is_warmest_at_its_warmest() {
        let day = |max_f: Value, min_f: i32, dew_point_f: i32| {
            lines_with(&[(
                WEATHER,
                json!({"design_day": {"day_of_year": 203, "max_f": max_f, "min_f": min_f, "dew_point_f": dew_point_f}}),
            )])
        };
        assert_eq!(day(json!(97), 97, 97), Vec::<String>::new());
        assert_eq!(
            day(json!(64), 97, 80),
            [
                "/site/weather/design_day/min_f must be max_f, 64, or less; got 97",
                "/site/weather/design_day/dew_point_f must be max_f, 64, or less; got 80",
            ]
        );
        assert_eq!(
            day(json!("hot"), 97, 80),
            ["/site/weather/design_day/max_f must be a number; got the text \"hot\""]
        );
        assert_eq!(day(json!(null), 97, 80), ["/site/weather/design_day/max_f is missing; give a number"]);
    }

    #[test]
    fn the_day_that_cooling_is_sized_for_is_held_to_the_same() {
        let at = |member: &str| format!("/site/cooling_design/{member}");
        for (member, value) in [("min_f", 98), ("dew_point_f", 99)] {
            assert_contradiction(
                &at(member),
                json!(value),
                &at(member),
                &format!("must be max_f, 97, or less; got {value}"),
            );
            assert_eq!(faults_with(&[(&at(member), json!(97))]), []);
        }
        for (member, value, detail) in [
            ("day_of_year", json!(367), "must be 366 or less; got 367"),
            ("max_f", json!(150), "must be 140 or less; got 150"),
            ("linke_turbidity", json!(0.5), "must be 1 or more; got 0.5"),
            ("wind_mph", json!(-6), "must be 0 or more; got -6"),
            ("max_f", json!("hot"), "must be a number; got the text \"hot\""),
        ] {
            let fault = fault_with(&[(&at(member), value)]);
            assert_eq!((fault.pointer, fault.detail.as_str()), (at(member), detail));
        }
        // Beside a weather that is a day itself both may stand: one is lived through, the other is sized for.
        let day = json!({"design_day": {"day_of_year": 1, "max_f": 50, "min_f": 40}});
        assert_eq!(faults_with(&[(WEATHER, day)]), []);
    }

    #[test]
    fn the_night_that_heating_is_sized_for_has_its_bounds() {
        for (member, value, detail) in [
            ("dry_bulb_f", json!(-131), "must be -130 or more; got -131"),
            ("dry_bulb_f", json!(null), "is missing; give a number"),
            ("wind_mph", json!(-1), "must be 0 or more; got -1"),
            ("dry_bulb_f", json!("cold"), "must be a number; got the text \"cold\""),
        ] {
            let at = format!("/site/heating_design/{member}");
            let fault = fault_with(&[(&at, value)]);
            assert_eq!((fault.pointer, fault.detail.as_str()), (at, detail));
        }
        let misspelled = fault_with(&[("/site/heating_design", json!({"dry_bulb_f": 5, "wind": 15}))]);
        assert_eq!(misspelled.suggestion.as_deref(), Some("wind_mph"));
        assert_eq!(fault_with(&[("/site/heating_design", json!(5))]).pointer, "/site/heating_design");
    }

    #[test]
    fn a_series_is_even_and_whole() {
        assert_eq!(hourly(&[]), Vec::<String>::new());
        assert_eq!(
            hourly(&[("ghi_w_m2", json!([0, 120]))]),
            ["dni_w_m2", "dhi_w_m2", "dry_bulb_f", "dew_point_f", "wind_mph"]
                .map(|name| format!("{name} must have 2 figures, as many as ghi_w_m2; has 3"))
        );
        assert_eq!(hourly(&[("ghi_w_m2", json!([]))]), ["ghi_w_m2 is empty; give a figure for each step"]);
        assert_eq!(
            hourly(&[("dhi_w_m2", json!(null))]),
            ["dni_w_m2 says nothing without dhi_w_m2; give both or neither"]
        );
        assert_eq!(
            hourly(&[("dni_w_m2", json!(null))]),
            ["dhi_w_m2 says nothing without dni_w_m2; give both or neither"]
        );
        assert_eq!(
            hourly(&[("step_min", json!(45))]),
            ["step_min must divide an hour: 60, 30, 20, 15, 10 or less; got 45"]
        );
        for year in [1949, 2101] {
            assert_eq!(
                hourly(&[("start", json!(format!("{year}-01-01T00:00")))]),
                [format!("start must lie in the years 1950 to 2100; got {year}")]
            );
        }
    }

    #[test]
    fn several_mistakes_in_a_series_are_all_named() {
        assert_eq!(
            hourly(&[
                ("start", json!("1900-01-01T00:00")),
                ("step_min", json!(7)),
                ("dni_w_m2", json!([0, 9000, 520])),
                ("wind_mph", json!([3])),
            ]),
            [
                "start must lie in the years 1950 to 2100; got 1900",
                "step_min must divide an hour: 60, 30, 20, 15, 10 or less; got 7",
                "dni_w_m2/1 must be 2000 or less; got 9000",
                "wind_mph must have 3 figures, as many as ghi_w_m2; has 1",
            ]
        );
    }

    #[test]
    fn what_could_not_be_read_is_at_fault_alone() {
        for (name, value) in [
            ("start", json!("2025-01-01")),
            ("start", json!(null)),
            ("step_min", json!(0)),
            ("step_min", json!("hour")),
            ("ghi_w_m2", json!("sunny")),
            ("ghi_w_m2", json!(null)),
            ("ghi_w_m2", json!([0, null, 340])),
            ("dni_w_m2", json!(7)),
            ("dry_bulb_f", json!(null)),
            ("dew_point_f", json!({})),
            ("wind_mph", json!([3, 4, -6])),
        ] {
            let lines = hourly(&[(name, value)]);
            assert_eq!(lines.len(), 1, "{lines:?}");
            assert!(lines[0].starts_with(name), "{lines:?}");
        }
        for form in ["clear_sky", "monthly", "design_day", "hourly"] {
            // With no member of its own read, a section of another type is one fault.
            let mut weather = json!({});
            weather[form] = json!([]);
            assert_eq!(fault_with(&[(WEATHER, weather)]).pointer, format!("{WEATHER}/{form}"));
        }
        assert_eq!(fault_with(&[(WEATHER, json!("sunny"))]).pointer, WEATHER);
        assert_eq!(fault_with(&[("/site", json!([]))]).pointer, "/site");
    }
}
