//! Energy across the questions: what circuits carry, the battery gives and the box receives.

use serde_json::{Value, json};
use wainwright::cooling_load::gains::electrics::Electrics;
use wainwright::cooling_load::setup::Setup;
use wainwright::energy_budget::setup::{Handed, Setup as EnergySetup};
use wainwright::evaluate::rounds::live_weather;
use wainwright::site_weather::SiteWeather;

use crate::builds::{BISON, HERON, evaluated, off_grid, read, with};

/// On the hot day: the mean current at the battery, what the air conditioner takes outdoors, and the heat in the box.
fn assert_hot_day_balances(document: &Value, idle_w: f64) {
    let report = evaluated(document);
    let circuits = &report.circuit_load.as_ref().unwrap().modes["away"];
    let cooling = report.cooling_load.as_ref().unwrap();
    let (battery, inverter) = (&circuits.sources["bank"], &circuits.sources["inverter"]);
    // A battery's current is reckoned at the voltage at which the inverter shuts off, where it is greatest.
    let lowest_v = inverter.input_w.unwrap() / inverter.input_a.unwrap();
    let efficiency = document.pointer("/electrical/sources/inverter/efficiency").unwrap().as_f64().unwrap();
    let mut heat_wh = 0.0;
    for hour in &cooling.hours {
        let h = hour.hour as usize;
        let through_w = 120.0 * inverter.hours[h].expected_a / efficiency;
        let direct_w = 12.8 * (battery.hours[h].expected_a - through_w / lowest_v);
        let given_w = through_w + direct_w + idle_w;
        heat_wh += given_w - hour.electric_w;
    }
    let received_wh = report.handed_over.as_ref().unwrap().equipment_hot_day_wh;
    // Circuits take the run of the round before the last: what that changed is within the tolerance, hour by hour.
    assert!((heat_wh - received_wh).abs() < 24.0 * 0.1, "{heat_wh} given, {received_wh} received");
}

#[test]
fn on_the_hot_day_what_the_battery_gives_and_does_not_leave_is_heat_in_the_box() {
    assert_hot_day_balances(&off_grid(), 12.0);
    let wasteful = with(off_grid(), "/electrical/sources/inverter/efficiency", json!(0.65));
    assert_hot_day_balances(&with(wasteful, "/electrical/sources/inverter/idle_w", json!(0)), 0.0);
}

/// Through the weather: what the battery is asked for, less what the air conditioner takes outdoors, is the heat of
/// everything that draws power.
fn assert_weather_balances(document: &Value, followed: Option<&str>, mode: &str, standby_w: f64) {
    let build = read(document);
    let site = SiteWeather::of(&build).unwrap();
    let setup = Setup::with(&build, site.clone(), followed).unwrap();
    let electrics = Electrics::of(&build, Some(mode), followed);
    let comfort = setup.comfort();
    let mut course = setup.weather_course();
    let walk = live_weather(&setup, &mut course, &electrics, &comfort);
    assert!(walk.rounds.settled());
    let cooler = followed.map(|id| (id, walk.course()));
    let handed = Handed { box_c: &walk.air_c, cooler };
    let energy = EnergySetup::with(&build, site.clone(), Some(&handed)).unwrap();
    let mut heat_w = vec![0.0; energy.count()];
    let step_min = site.weather.clock.step_min();
    electrics.sum().fill(&site.days, step_min, &walk.air_c, Some(walk.course()), &mut heat_w);
    for (step, heat_w) in heat_w.iter().enumerate() {
        let outdoors_w = if followed.is_some() { walk.cooler_w[step] } else { 0.0 };
        let left_w = energy.load_w[step] - standby_w - outdoors_w - heat_w;
        assert!(left_w.abs() < 1e-9 * energy.load_w[step].max(1.0), "step {step}: {left_w}");
    }
}

#[test]
fn through_a_year_what_the_battery_gives_is_heat_in_the_box_to_the_last_digit() {
    assert_weather_balances(&off_grid(), Some("cooler"), "away", standby_w(&off_grid()));
    let curved = with(off_grid(), "/electrical/sources/inverter/part_load", json!("curve"));
    let curved = with(curved, "/electrical/sources/inverter/off_when_unused", json!(true));
    assert_weather_balances(&curved, Some("cooler"), "away", standby_w(&curved));
    let at_weekends = with(off_grid(), "/parts/fridge/electrical/weekdays", json!(["sat", "sun"]));
    let in_summer = with(at_weekends, "/parts/lamps/electrical/months", json!([6, 7, 8]));
    assert_weather_balances(&in_summer, Some("cooler"), "away", standby_w(&in_summer));
}

/// What the solar controller takes for itself.
fn standby_w(document: &Value) -> f64 {
    let build = read(document);
    EnergySetup::of(&build).unwrap().harvester.standby_w
}

#[test]
fn the_demonstration_builds_agree_with_themselves() {
    for json in [HERON, BISON] {
        let document: Value = serde_json::from_str(json).unwrap();
        let report = evaluated(&document);
        let handed = report.handed_over.as_ref().unwrap();
        assert!(handed.settled, "{handed:?}");
        // One figure for the electricity of the hot day, wherever it is read.
        let of_cooling = report.cooling_load.as_ref().unwrap().cooling_kwh_per_day.unwrap() * 1000.0;
        let of_circuits = handed.air_conditioner_hot_day_wh.unwrap();
        assert!((of_cooling - of_circuits).abs() < 24.0 * handed.tolerance_w, "{of_cooling} {of_circuits}");
    }
}
