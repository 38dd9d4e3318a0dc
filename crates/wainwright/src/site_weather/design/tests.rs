use serde_json::json;

use super::*;
use crate::air::dew_point::dew_point_c;
use crate::air::humidity::vapor_pa;
use crate::units::fahrenheit;

/// In the middle of the ocean: no station speaks for it.
const FAR: &str = r#""latitude_deg": 20, "longitude_deg": -150, "utc_offset_h": -10"#;

fn build(site: &str) -> Build {
    Build::from_json(format!(r#"{{"site": {{{site}}}}}"#).as_bytes()).unwrap()
}

fn design(site: &str) -> (HotDay, ColdNight) {
    let build = build(site);
    let weather = SiteWeather::of(&build).unwrap();
    (weather.hot_day(&build), weather.cold_night(&build))
}

/// A series of hours of a year without a leap day from the first of January on.
fn series(hours: usize, air_f: impl Fn(usize) -> f64, dew_f: Option<f64>) -> String {
    let air: Vec<f64> = (0..hours).map(air_f).collect();
    let mut hourly =
        json!({"start": "2023-01-01T00:00", "step_min": 60, "ghi_w_m2": vec![0; hours], "dry_bulb_f": air});
    if let Some(dew_f) = dew_f {
        hourly["dew_point_f"] = json!(vec![dew_f; hours]);
    }
    format!(r#"{FAR}, "weather": {{"hourly": {hourly}}}"#)
}

#[track_caller]
fn assert_f(celsius: f64, expected_f: f64) {
    let got_f = fahrenheit(celsius);
    assert!((got_f - expected_f).abs() < 1e-9, "{got_f} °F, not {expected_f}");
}

/// The dew point of a day [°F] at a pressure.
fn dew_f(day: &HotDay, pressure_pa: f64) -> f64 {
    fahrenheit(dew_point_c(vapor_pa(day.ratio, pressure_pa)))
}

#[test]
fn what_is_given_comes_first() {
    let (day, night) = design(
        r#""weather": {"place": "golden_co"}, "elevation_ft": 6000,
        "cooling_design": {"day_of_year": 213, "max_f": 101, "min_f": 71, "dew_point_f": 55, "wind_mph": 5, "linke_turbidity": 4},
        "heating_design": {"dry_bulb_f": -20, "wind_mph": 10}"#,
    );
    assert_eq!((day.origin, night.origin), (DesignOrigin::Given, DesignOrigin::Given));
    assert_f(day.max_c, 101.0);
    assert!((day.range_k - 30.0 / 1.8).abs() < 1e-12);
    assert_eq!((day.date, day.ratio_is_known), (date(2025, 8, 1), true));
    assert_eq!((day.wind_m_s, day.linke_turbidity), (Some(m_s(5.0)), Some(4.0)));
    // At the pressure of the station whose weather it is.
    assert!((dew_f(&day, standard_pa(1829.0)) - 55.0).abs() < 1e-6);
    assert_f(night.air_c, -20.0);
    assert_eq!(night.wind_m_s, Some(m_s(10.0)));
}

#[test]
fn a_day_without_dew_point_is_saturated_in_its_coldest_hour() {
    let (day, _) = design(&format!(
        r#"{FAR}, "weather": {{"clear_sky": {{}}}}, "cooling_design": {{"day_of_year": 366, "max_f": 95, "min_f": 68}}"#
    ));
    assert!(!day.ratio_is_known);
    assert!((dew_f(&day, standard_pa(0.0)) - 68.0).abs() < 1e-6);
    assert_eq!((day.wind_m_s, day.linke_turbidity), (None, None));
    // The last day of a leap year is the first of the next in one without.
    assert_eq!(day.date, date(2026, 1, 1));
}

#[test]
fn weather_that_is_a_day_is_its_own_hot_day_and_no_cold_night() {
    let form =
        r#""weather": {"design_day": {"day_of_year": 202, "max_f": 95, "min_f": 65, "dew_point_f": 60}}"#;
    let (day, night) = design(&format!("{FAR}, {form}"));
    assert_eq!((day.origin, day.date), (DesignOrigin::DesignDay, date(2025, 7, 21)));
    assert_f(day.max_c, 95.0);
    assert_eq!(night.origin, DesignOrigin::ShortSeries);
    // The mean of its coldest hour, whose beginning it is.
    assert!((65.0..65.5).contains(&fahrenheit(night.air_c)));
    // Near a station its own counts.
    let (_, night) =
        design(&format!(r#""latitude_deg": 39.74, "longitude_deg": -105.18, "elevation_ft": 6000, {form}"#));
    assert!(matches!(night.origin, DesignOrigin::Station(station, _) if station.station == "Golden"));
    assert_eq!(night.air_c, -15.5);
}

/// 0.4 percent of 8,760 hours are 35.04: 35 hours may be hotter than the design day's warmest. One percent are 87.6: 87 may be
/// colder than the design night.
#[test]
fn of_a_year_few_hours_are_beyond_its_design_weather() {
    let year = |hot: usize, cold: usize| {
        let air_f = move |hour: usize| match hour {
            _ if (4800..4800 + hot).contains(&hour) => 100.0,
            _ if hour < cold => 0.0,
            _ => 50.0,
        };
        design(&series(8760, air_f, None))
    };
    for (hot, expected_f) in [(35, 50.0), (36, 100.0)] {
        let (day, _) = year(hot, 0);
        assert_eq!(day.origin, DesignOrigin::Series);
        assert_f(day.max_c, expected_f);
    }
    for (cold, expected_f) in [(87, 50.0), (88, 0.0)] {
        let (_, night) = year(0, cold);
        assert_eq!((night.origin, night.wind_m_s), (DesignOrigin::Series, None));
        assert_f(night.air_c, expected_f);
    }
}

#[test]
fn the_hot_day_of_a_year_has_the_range_and_the_dew_point_of_its_month() {
    // Every day of July from 60 °F to 90 °F; on two of them 100 °F through 40 hours in all.
    let july = (181 * 24)..(212 * 24);
    let air_f = |hour: usize| match hour {
        _ if (4800..4840).contains(&hour) => 100.0,
        _ if july.contains(&hour) && hour % 24 == 15 => 90.0,
        _ => 60.0,
    };
    let (day, _) = design(&series(8760, air_f, Some(54.0)));
    assert_f(day.max_c, 100.0);
    assert_eq!(day.date, date(2023, 7, 21));
    // 4,800 is midnight of the 20th: that day is hot throughout and has no range, the next has 40 °F, 29 have 30 °F.
    assert!((day.range_k - (29.0 * 30.0 + 40.0) / 31.0 / 1.8).abs() < 1e-9, "{}", day.range_k);
    assert!(day.ratio_is_known && (dew_f(&day, standard_pa(0.0)) - 54.0).abs() < 1e-6);
    let (unknown, _) = design(&series(8760, air_f, None));
    assert!(!unknown.ratio_is_known);
    let coldest_f = fahrenheit(unknown.max_c - unknown.range_k);
    assert!((dew_f(&unknown, standard_pa(0.0)) - coldest_f).abs() < 1e-6);
}

#[test]
fn of_a_short_series_the_extremes_count() {
    let (day, night) = design(&series(8759, |hour| if hour == 100 { 90.0 } else { 50.0 }, None));
    assert_eq!((day.origin, night.origin), (DesignOrigin::ShortSeries, DesignOrigin::ShortSeries));
    assert_f(day.max_c, 90.0);
    assert_f(night.air_c, 50.0);
    assert_eq!(day.date, date(2023, 1, 21));
    let (one, night) = design(&series(1, |_| 70.0, Some(50.0)));
    assert_f(one.max_c, 70.0);
    assert_eq!((one.range_k, night.air_c), (0.0, one.max_c));
}

#[test]
fn a_station_near_by_speaks_for_a_place_of_means() {
    let (day, night) = design(r#""weather": {"place": "golden_co"}"#);
    let DesignOrigin::Station(station, away_m) = day.origin else { panic!("{:?}", day.origin) };
    assert_eq!((station.station, station.state), ("Golden", "CO"));
    assert!(away_m < 2000.0, "{away_m}");
    assert_eq!((day.max_c, day.range_k, day.date), (33.0, 15.2, date(2025, 7, 21)));
    assert_eq!((night.air_c, night.wind_m_s), (-15.5, None));
    // Its wet bulb of 15.7 °C at its own pressure.
    assert_eq!(day.ratio, ratio_of_wet_bulb(33.0, 15.7, standard_pa(1829.0)));
    assert!(day.ratio_is_known);
}

/// Tampa lies at 27.97° north; a degree is 69.1 miles of a sphere of 3,958.8.
#[test]
fn beyond_fifty_miles_or_a_thousand_feet_no_station_speaks() {
    let origins = |latitude_deg: f64, elevation_ft: f64| {
        let site = format!(
            r#""latitude_deg": {latitude_deg}, "longitude_deg": -82.53, "elevation_ft": {elevation_ft}, "weather": {{"clear_sky": {{}}}}"#
        );
        let (day, night) = design(&site);
        let near = |origin: DesignOrigin| matches!(origin, DesignOrigin::Station(station, _) if station.station == "Tampa");
        assert_eq!(near(day.origin), near(night.origin));
        near(day.origin)
    };
    let fifty_miles_deg = 50.0 / 3958.8 * 180.0 / std::f64::consts::PI;
    assert!(origins(27.97 + 0.999 * fifty_miles_deg, 0.0));
    assert!(!origins(27.97 + 1.001 * fifty_miles_deg, 0.0));
    // It lies at 6 m, 20 ft.
    assert!(origins(27.97, 1019.0));
    assert!(!origins(27.97, 1020.0));
}

#[test]
fn a_station_that_does_not_know_its_cold_speaks_for_the_heat_alone() {
    let (day, night) = design(
        r#""latitude_deg": 33.45, "longitude_deg": -111.98, "elevation_ft": 1100, "weather": {"monthly": {
        "ghi_kwh_m2_day": [3, 4, 5, 7, 8, 8, 7, 7, 6, 5, 4, 3], "mean_f": [54, 58, 63, 70, 79, 88, 93, 92, 86, 75, 62, 53]}}"#,
    );
    assert!(matches!(day.origin, DesignOrigin::Station(station, _) if station.station == "Phoenix"));
    assert_eq!(day.max_c, 43.4);
    assert_eq!(night.origin, DesignOrigin::Means);
}

/// 4.3 K beyond a mean afternoon of the hottest month where its range is given, and 10 K below the mean of the coldest.
#[test]
fn far_from_stations_means_and_an_allowance_are_all_there_is() {
    let mut means_f = [50; 12];
    (means_f[1], means_f[8]) = (20, 80);
    let monthly = json!({"ghi_kwh_m2_day": [4, 4, 4, 4, 4, 4, 4, 4, 4, 4, 4, 4], "mean_f": means_f, "range_f": [18, 18, 18, 18, 18, 18, 18, 18, 18, 18, 18, 18]});
    let site = json!({"latitude_deg": 20, "longitude_deg": -150, "weather": {"monthly": monthly}});
    let build = Build::from_json(json!({"site": site}).to_string().as_bytes()).unwrap();
    let weather = SiteWeather::of(&build).unwrap();
    let (day, night) = (weather.hot_day(&build), weather.cold_night(&build));
    assert_eq!((day.origin, night.origin), (DesignOrigin::Means, DesignOrigin::Means));
    assert_eq!((day.date, day.ratio_is_known), (date(2025, 9, 21), false));
    assert!((fahrenheit(day.max_c) - (80.0 + 9.0 + 4.3 * 1.8)).abs() < 0.5, "{}", fahrenheit(day.max_c));
    assert!((fahrenheit(night.air_c) - 2.0).abs() < 0.5, "{}", fahrenheit(night.air_c));
    assert!((day.range_k - 10.0).abs() < 0.5, "{}", day.range_k);
    let dew = dew_f(&day, weather.pressure_pa());
    assert!((dew - 71.0).abs() < 0.7, "{dew}");
}
