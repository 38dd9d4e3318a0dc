//! Boxes, places and weather at the edge of what the cooling load can be asked.

use serde_json::{Value, json};
use wainwright::cooling_load::CoolingLoadReport;

use super::builds::{SIDES, areas, dark, days, number, r_value, report, sides, with};
use super::extremes::assert_sound;

/// A box of 14 by 7 by 6.5 ft, R 5, white, with an air conditioner and a heater, on a hot day of Kansas.
fn plain() -> Value {
    sized(14.0, 7.0, 6.5)
}

fn sized(length_ft: f64, width_ft: f64, height_ft: f64) -> Value {
    json!({
        "envelope": sides(areas(length_ft, width_ft, height_ft), [5.0; 6], [0.3, 0.6, 0.3, 0.3, 0.3, 0.3]),
        "climate": {"cooling": {"capacity_btu_h": 8000, "setpoint_f": 75}, "heating": {"capacity_btu_h": 8000, "setpoint_f": 64}},
        "site": {"latitude_deg": 38, "longitude_deg": -98, "weather": {"hourly": days(2, 70.0, 98.0)},
            "cooling_design": {"day_of_year": 202, "max_f": 98, "min_f": 74, "dew_point_f": 60, "linke_turbidity": 4},
            "heating_design": {"dry_bulb_f": 5}}
    })
}

/// The report of a build, sound in all that must hold of every report.
#[track_caller]
fn sound(build: &Value) -> CoolingLoadReport {
    assert_sound(build).unwrap();
    report(build)
}

fn insulated(r: f64) -> Value {
    SIDES.into_iter().fold(plain(), |build, side| with(build, &r_value(side), json!(r)))
}

#[test]
fn a_box_no_larger_than_a_tent_and_one_as_large_as_a_hall() {
    let tent = sound(&sized(6.0, 3.0, 2.5));
    assert!((tent.envelope.volume_ft3 - 45.0).abs() < 1e-9);
    assert!((100.0..1500.0).contains(&tent.peak.total_btu_h), "{}", tent.peak.total_btu_h);
    assert_eq!(tent.smallest_btu_h, Some(5000.0));
    let hall = sound(&sized(70.0, 70.0, 60.0));
    assert_eq!(
        (hall.smallest_btu_h, hall.cooler.as_ref().and_then(|cooler| cooler.by_room_area_btu_h)),
        (None, None)
    );
    // The unit of the tent hardly stops in it, and does not hold it.
    let cooler = hall.cooler.unwrap();
    assert!(cooler.run_h > 20.0 && hall.held_f.unwrap() > 80.0, "{cooler:?} {:?}", hall.held_f);
    assert!(hall.peak.total_btu_h > 40.0 * tent.peak.total_btu_h);
}

#[test]
fn bare_metal_and_the_best_panels() {
    let [bare, plain, best] = [0.85, 5.0, 60.0].map(|r| sound(&insulated(r)));
    assert!(bare.peak.sensible_btu_h > 2.0 * plain.peak.sensible_btu_h);
    assert!(best.peak.sensible_btu_h < 0.15 * plain.peak.sensible_btu_h + 200.0);
    // Behind metal it is as hot as the metal, behind foam as hot as the mean of day and night.
    assert!(bare.uncooled_f > plain.uncooled_f && plain.uncooled_f > best.uncooled_f);
    assert!(best.envelope.time_constant_h > 10.0 * bare.envelope.time_constant_h);
    // What is only a little worse than its films is still a box.
    let skin = sound(&insulated(0.5));
    assert!(skin.peak.sensible_btu_h > bare.peak.sensible_btu_h);
}

#[test]
fn a_hundred_windows_in_a_box() {
    let windows: serde_json::Map<_, _> = (0..100)
        .map(|index| {
            (format!("w{index}"), json!({"area_ft2": 0.45, "facing": SIDES[index % 6], "shgc": 0.8}))
        })
        .collect();
    let glazed = sound(&with(plain(), "/envelope/windows", Value::Object(windows)));
    let hour = &glazed.hours[glazed.peak.hour as usize];
    assert!(hour.parts.sun_btu_h > 0.4 * glazed.peak.sensible_btu_h, "{hour:?}");
    assert_eq!(glazed.condensation.insides.len(), 106);
}

#[test]
fn without_gaps_no_air_brings_heat() {
    let sealed = sound(&with(plain(), "/envelope/air_changes_per_h", json!(0)));
    assert_eq!((sealed.envelope.air_cfm, sealed.peak.latent_btu_h), (0.0, 0.0));
    assert!(sealed.hours.iter().all(|hour| hour.parts.air_btu_h == 0.0));
    assert_eq!(sealed.heating.air_btu_h, 0.0);
    // At the other end the air is changed a hundred times an hour, and the box is as warm as it.
    let open = sound(&with(plain(), "/envelope/air_changes_per_h", json!(100)));
    for hour in &open.hours {
        assert!((hour.uncooled_f - hour.outdoor_f).abs() < 4.0, "{hour:?}");
    }
}

#[test]
fn at_twenty_thousand_feet_half_the_air_is_left() {
    let [low, high] = [0.0, 20_000.0].map(|feet| sound(&with(plain(), "/site/elevation_ft", json!(feet))));
    assert!((high.design.pressure_psi / low.design.pressure_psi - 0.46).abs() < 0.005);
    let air = |report: &CoolingLoadReport| report.envelope.air_btu_h_f;
    assert!((air(&high) / air(&low) - 0.46).abs() < 0.01, "{} {}", air(&high), air(&low));
    assert!(high.cooler.unwrap().at_peak_btu_h < low.cooler.unwrap().at_peak_btu_h);
    // A clearer sky.
    assert!(high.hours[12].parts.roof_btu_h > low.hours[12].parts.roof_btu_h);
}

#[test]
fn in_the_arctic_nothing_is_cooled_and_all_is_heated() {
    let site = json!({"latitude_deg": 70, "longitude_deg": -150, "weather": {"hourly": dark(48, -40.0)},
        "cooling_design": {"day_of_year": 202, "max_f": 50, "min_f": 38, "dew_point_f": 35},
        "heating_design": {"dry_bulb_f": -60}});
    let arctic = sound(&with(plain(), "/site", site));
    assert_eq!((arctic.peak.total_btu_h, arctic.cooling_kwh_per_day), (0.0, Some(0.0)));
    assert_eq!(arctic.smallest_btu_h, Some(5000.0));
    assert!(arctic.heating.load_btu_h > 11_000.0 && arctic.heating.holds_to_f.unwrap() > -60.0);
    assert!(arctic.months[0].heat_kwh > 0.0 && arctic.months[0].cooling_kwh == 0.0);
    assert!(arctic.findings.iter().any(|finding| finding.code == "heater_too_small"));
}

#[test]
fn in_the_polar_night_no_face_has_sun_and_in_the_polar_day_every_hour_has() {
    let at = |latitude_deg: f64, day_of_year: u32| {
        let day = json!({"day_of_year": day_of_year, "max_f": 70, "min_f": 70, "dew_point_f": 40});
        let window = json!({"one": {"area_ft2": 4, "facing": "left", "u_value": 0.6}});
        let build = with(with(plain(), "/site/cooling_design", day), "/envelope/windows", window);
        sound(&with(build, "/site/latitude_deg", json!(latitude_deg)))
    };
    for (latitude_deg, day_of_year) in [(85.0, 355), (-85.0, 172), (90.0, 1), (-90.0, 180)] {
        let night = at(latitude_deg, day_of_year);
        assert!(night.hours.iter().all(|hour| hour.parts.sun_btu_h == 0.0), "{latitude_deg}");
        for surface in night.envelope.surfaces.values() {
            assert!(surface.sol_air_f <= 70.0 + 1e-9, "{surface:?}");
        }
        assert_eq!(night.peak.total_btu_h, 0.0);
    }
    for (latitude_deg, day_of_year) in [(85.0, 172), (-85.0, 355)] {
        let day = at(latitude_deg, day_of_year);
        assert!(day.hours.iter().all(|hour| hour.parts.sun_btu_h > 0.0), "{latitude_deg}");
    }
}

#[test]
fn through_the_haziest_air_less_sun_comes() {
    let [clear, hazy] =
        [1.0, 10.0].map(|linke| sound(&with(plain(), "/site/cooling_design/linke_turbidity", json!(linke))));
    let roof_f = |report: &CoolingLoadReport| report.envelope.surfaces["roof"].sol_air_f;
    assert!(roof_f(&hazy) < roof_f(&clear) - 5.0);
    assert!(hazy.peak.total_btu_h < clear.peak.total_btu_h);
}

/// A lamp that burns from 11 to 12 h shows which steps belong to which hour.
#[test]
fn a_series_may_begin_within_an_hour() {
    let hours: Vec<f64> = (0..24).map(|hour| f64::from(hour == 11)).collect();
    let lamp = json!({"circuit": "dc", "power_w": 100, "on_fraction": hours});
    let build = with(plain(), "/parts/lamp", json!({"mass_lb": 1, "electrical": lamp}));
    let build = with(build, "/climate", json!({"detail": "steps"}));
    let count = 12;
    let series = json!({"start": "2025-07-04T10:20", "step_min": 15, "ghi_w_m2": vec![0; count], "dry_bulb_f": vec![70; count]});
    let report = sound(&with(build, "/site/weather/hourly", series));
    let trace = report.trace.unwrap();
    assert_eq!((trace.start.as_str(), trace.step_min), ("2025-07-04T10:20", 15));
    // 10:20, 10:35, 10:50; then 11:05, 11:20, 11:35, 11:50; then from 12:05 on. Half of the heat goes to the air.
    let lit: Vec<f64> = [0.0; 3].into_iter().chain([50.0; 4]).chain([0.0; 5]).collect();
    assert_eq!(trace.air_w, lit);
    assert_eq!((report.months.len(), report.months[0].month), (1, 7));
}

#[test]
fn weather_may_be_one_step() {
    let series = json!({"start": "2025-06-10T12:07", "step_min": 1, "ghi_w_m2": [800], "dry_bulb_f": [90]});
    let build = with(plain(), "/site/weather/hourly", series);
    let build = with(with(build, "/site/cooling_design", json!(null)), "/site/heating_design", json!(null));
    let report = sound(&with(build, "/climate/detail", json!("steps")));
    assert_eq!((report.trace.unwrap().air_c.len(), report.months.len()), (1, 1));
    // Of a day of one step its temperature is warmest and coldest.
    assert!((report.design.max_f - 90.0).abs() < 1e-9 && (report.design.min_f - 90.0).abs() < 1e-9);
    assert_eq!((report.design.month, report.design.day), (6, 21));
    assert_eq!(report.heating.load_btu_h, 0.0);
    assert!(report.months[0].run_h <= 1.0 / 60.0);
}

#[test]
fn a_leap_day_is_a_day_of_february() {
    let mut series = dark(72, 60.0);
    series["start"] = json!("2024-02-28T00:00");
    series["dry_bulb_f"] =
        json!((0..72).map(|hour| if hour == 30 { 95.0 } else { 60.0 }).collect::<Vec<_>>());
    let build = with(plain(), "/site/weather/hourly", series);
    let report = sound(&with(build, "/site/cooling_design", json!(null)));
    let months: Vec<_> = report.months.iter().map(|month| (month.year, month.month)).collect();
    assert_eq!(months, [(2024, 2), (2024, 3)]);
    assert_eq!((report.design.month, report.design.day), (2, 21));
    assert!((report.design.max_f - 95.0).abs() < 1e-9);
    // Day 366 of a typical year is the first of the next.
    let last = sound(&with(plain(), "/site/cooling_design/day_of_year", json!(366)));
    assert_eq!((last.design.month, last.design.day), (1, 1));
}

/// The same hours, each in four parts: in the dark nothing else drives the box.
#[test]
fn quarters_of_hours_make_the_same_months() {
    let of = |parts: u32| {
        let air: Vec<f64> =
            (0..48 * parts).map(|step| if (step / parts) % 24 < 12 { 60.0 } else { 95.0 }).collect();
        let series = json!({"start": "2025-07-04T00:00", "step_min": 60 / parts, "ghi_w_m2": vec![0; air.len()], "dry_bulb_f": air});
        let build = with(plain(), "/envelope/air_changes_per_h", json!(0));
        let build = with(build, "/climate", json!({}));
        sound(&with(build, "/site/weather/hourly", series)).months
    };
    let (whole, quarters) = (of(1), of(4));
    // Without a thermostat the steps are exact, and their ends fall together at the full hours.
    assert!((whole[0].warmest_f - quarters[0].warmest_f).abs() < 1e-9);
    assert!((whole[0].coldest_f - quarters[0].coldest_f).abs() < 1e-9);
}

#[test]
fn a_pull_down_may_begin_at_any_hour() {
    for start_hour in [0, 12, 23] {
        let report = sound(&with(plain(), "/climate/cooling/start_hour", json!(start_hour)));
        let found = report.pull_down.unwrap();
        assert_eq!(found.start_hour, start_hour);
        assert!(found.air_h.is_some_and(|h| (0.0..=24.0).contains(&h)), "{found:?}");
        // Before it is switched on the box is as the empty box is at that hour.
        let before = (start_hour + 23) % 24;
        let uncooled_f = report.hours[before as usize].uncooled_f;
        assert!((found.soaked_f - uncooled_f).abs() < 4.0, "{found:?} {uncooled_f}");
    }
}

#[test]
fn a_build_of_roof_walls_and_floor_alone_is_answered() {
    let least = json!({"envelope": plain()["envelope"], "site": {"weather": {"place": "golden_co"}}});
    let report = sound(&least);
    assert_eq!(report.months.len(), 12);
    assert!(
        report.held_f.is_none()
            && report.cooler.is_none()
            && report.airing.is_none()
            && report.trace.is_none()
    );
    assert!(report.smallest_btu_h.is_some() && report.heating.capacity_btu_h.is_none());
    let said = |pointer: &str| report.assumptions.iter().any(|assumed| assumed.pointer == pointer);
    for pointer in [
        "/envelope/volume_ft3",
        "/envelope/air_changes_per_h",
        "/climate/cooling/setpoint_f",
        "/occupancy/people",
    ] {
        assert!(said(pointer), "{pointer}");
    }
    assert_eq!(number(&least, "/envelope/surfaces/roof/area_ft2"), 98.0);
}
