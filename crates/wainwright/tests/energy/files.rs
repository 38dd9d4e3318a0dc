//! Weather files as text: hour-ending stamps, and files that are not whole.

use std::fmt::Write as _;

use serde_json::{Value, json};
use wainwright::{Build, Refusal};

use super::builds::{report, simple, with};

/// Light of an hour of an invented day [W/m²]: global, beam, sky.
fn light(hour: u32) -> [f64; 3] {
    let bright = (5.0 - (f64::from(hour) - 11.0).abs()).max(0.0) * 100.0;
    [bright, bright * 0.9, bright / 2.0]
}

/// Days of a year, by month and day.
fn calendar() -> impl Iterator<Item = (u32, u32)> {
    let lengths = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
    (1..=12).zip(lengths).flat_map(|(month, length)| (1..=length).map(move |day| (month, day)))
}

/// So many days of the year as an EPW file of an invented place.
fn epw(days: usize) -> String {
    let (month, day) = calendar().nth(days - 1).unwrap();
    let mut text = format!(
        "LOCATION,Heron Flats,NC,USA,invented,000000,36.10,-79.95,-5.0,273.0\nDESIGN CONDITIONS,0\n\
         TYPICAL/EXTREME PERIODS,0\nGROUND TEMPERATURES,0\nHOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0\nCOMMENTS 1,invented\n\
         COMMENTS 2,none\nDATA PERIODS,1,1,Data,Sunday, 1/ 1,{month:2}/{day:2}\n"
    );
    for (month, day) in calendar().take(days) {
        for hour in 0..24 {
            let [ghi, dni, dhi] = light(hour);
            writeln!(
                text,
                "1991,{month},{day},{},60,?9?9,20,10,70,98000,0,0,300,{ghi},{dni},{dhi},0,0,0,0,180,2,5,5,20,77777,9,999999999,15,0.1,0,88,0.2,0,0",
                hour + 1
            )
            .unwrap();
        }
    }
    text
}

/// The whole year as a TMY3 file with few columns.
fn tmy3() -> String {
    let mut text = "000000,\"HERON FLATS, INVENTED\",NC,-5.0,36.100,-79.950,273\nDate (MM/DD/YYYY),Time (HH:MM),GHI (W/m^2),\
        DNI (W/m^2),DHI (W/m^2),Dry-bulb (C),Dew-point (C),Wspd (m/s)\n"
        .to_owned();
    for (month, day) in calendar() {
        for hour in 0..24 {
            let [ghi, dni, dhi] = light(hour);
            writeln!(text, "{month:02}/{day:02}/1991,{:02}:00,{ghi},{dni},{dhi},20,10,2", hour + 1).unwrap();
        }
    }
    text
}

fn of_text(text: &str) -> Value {
    let build = with(simple(), "/site", json!({"weather": {"text": text}}));
    with(build, "/stay", json!({"first_hour": 0, "days": 1, "detail": "steps"}))
}

/// The first record of a file ends at 01:00 and its sun stands at 00:30, as in a series that begins at midnight.
#[test]
fn a_file_and_a_series_of_its_hours_give_the_same() {
    let hours = |column: usize| json!((0..48).map(|i| light(i % 24)[column]).collect::<Vec<f64>>());
    let site = json!({"latitude_deg": 36.1, "longitude_deg": -79.95, "elevation_ft": 273.0 / 0.3048, "utc_offset_h": -5,
        "weather": {"hourly": {"start": "2025-01-01T00:00", "step_min": 60, "ghi_w_m2": hours(0),
        "dni_w_m2": hours(1), "dhi_w_m2": hours(2), "dry_bulb_f": vec![68.0; 48], "wind_mph": vec![2.0 / 0.44704; 48]}}});
    let series = report(&with(of_text(""), "/site", site)).steps.unwrap();
    for text in [epw(2), epw(365), tmy3()] {
        let report = report(&of_text(&text));
        assert_eq!(report.weather.form, "text");
        let steps = report.steps.unwrap();
        assert_eq!((steps.start.as_str(), steps.step_min), ("2025-01-01T00:00", 60));
        for hour in 0..24 {
            let (of_file, of_series) = (steps.harvest_w[hour], series.harvest_w[hour]);
            assert!((of_file - of_series).abs() < 1e-9 * of_series.max(1.0), "{hour}: {of_file} {of_series}");
        }
        assert!(steps.harvest_w[9] > 0.0 && steps.harvest_w[0] == 0.0);
    }
}

/// The faults of a text, each with its pointer.
fn faults(text: &str) -> Vec<(String, String)> {
    match Build::from_json(of_text(text).to_string().as_bytes()) {
        Ok(_) => Vec::new(),
        Err(Refusal::Faults(faults)) => {
            faults.list().iter().map(|fault| (fault.pointer.clone(), fault.detail.clone())).collect()
        }
        Err(other) => panic!("{other}"),
    }
}

#[test]
fn a_file_that_is_not_whole_is_refused_at_its_line() {
    let whole = tmy3();
    let without_last = whole.trim_end().rsplit_once('\n').unwrap().0;
    let half = &whole[..whole.len() / 2];
    let year = epw(365);
    let epw_without_last = year.trim_end().rsplit_once('\n').unwrap().0;
    for text in [without_last, half, epw_without_last, &year[..year.len() / 2]] {
        let found = faults(text);
        assert!(!found.is_empty());
        for (pointer, detail) in &found {
            assert_eq!(pointer, "/site/weather/text");
            assert!(detail.starts_with("has a fault at line "), "{detail}");
        }
    }
}
