//! The questions asked one by one, each number carried over by hand, and the whole build beside them.

use serde_json::{Value, json};
use wainwright::Build;
use wainwright::circuit_load::CircuitLoad;
use wainwright::cooling_load::gains::{ByHour, HOURS, Indoors, gains};
use wainwright::cooling_load::hot_day::RunDay;
use wainwright::cooling_load::lap::Room;
use wainwright::cooling_load::setup::Setup;
use wainwright::drawn_power::demand::Course;
use wainwright::energy_budget::setup::{Handed, Setup as EnergySetup};
use wainwright::evaluate::EvaluateReport;
use wainwright::question::ask;
use wainwright::site_weather::SiteWeather;
use wainwright::units::{celsius, fahrenheit};

use crate::builds::{evaluated, off_grid, read, with};

/// The hot day, gone through again and again from a cold start with what each round says of the next.
fn hot_day_by_hand(build: &Build, rounds: usize) -> (Indoors, f64) {
    let mut setup = Setup::with(build, SiteWeather::of(build).unwrap(), Some("cooler")).unwrap();
    let cooler = setup.cooler.unwrap();
    let (cool_c, month) = (setup.around.cool_c, setup.hot_day.date.month().unsigned_abs());
    let mut indoors = Indoors::even(cool_c);
    for _ in 0..rounds {
        setup.live(gains(build, &setup.electrics, month, cool_c, &indoors));
        let day = RunDay::cooled(&setup.case, &cooler, cool_c, &mut Room::even(cool_c, setup.ratio));
        for (hour, run) in day.hours.iter().enumerate() {
            indoors.air_c[hour] = run.air_c;
            indoors.run_fraction[hour] = run.run_fraction;
            indoors.cooler_w[hour] = run.electric_w;
        }
    }
    (indoors, (0..HOURS).map(|hour| setup.around.gains.equipment_w(hour)).sum())
}

fn hours(report: &EvaluateReport, figure: impl Fn(usize) -> f64) -> ByHour {
    assert_eq!(report.cooling_load.as_ref().unwrap().hours.len(), HOURS);
    std::array::from_fn(figure)
}

#[test]
fn the_hot_day_is_what_twenty_rounds_by_hand_come_to() {
    for document in [off_grid(), with(off_grid(), "/electrical/sources/inverter/efficiency", json!(0.6))] {
        let (indoors, equipment_wh) = hot_day_by_hand(&read(&document), 20);
        let report = evaluated(&document);
        let cooling = report.cooling_load.as_ref().unwrap();
        let handed = report.handed_over.as_ref().unwrap();
        assert!(handed.settled && handed.hot_day_rounds >= 3, "{handed:?}");
        let indoor_f = hours(&report, |hour| cooling.hours[hour].indoor_f);
        let electric_w = hours(&report, |hour| cooling.hours[hour].electric_w);
        for hour in 0..HOURS {
            assert!((indoor_f[hour] - fahrenheit(indoors.air_c[hour])).abs() < 0.01, "hour {hour}");
            // A tenth of a watt of heat is less than a tenth of a watt of current.
            assert!((electric_w[hour] - indoors.cooler_w[hour]).abs() < 0.1, "hour {hour}");
        }
        assert!((handed.equipment_hot_day_wh - equipment_wh).abs() < 24.0 * handed.tolerance_w);
    }
}

/// The mean current of a source in an hour, by circuit load asked alone.
fn expected_a(document: &Value, source: &str, hour: usize) -> f64 {
    let report = ask::<CircuitLoad>(&read(document)).unwrap();
    report.modes["away"].sources[source].hours[hour].expected_a
}

#[test]
fn circuits_carry_the_air_conditioner_as_its_hours_say_it() {
    let document = off_grid();
    let report = evaluated(&document);
    let cooling = report.cooling_load.as_ref().unwrap();
    let coupled = &report.circuit_load.as_ref().unwrap().modes["away"].sources;
    let run_fraction: Vec<f64> = cooling.hours.iter().map(|hour| hour.run_fraction).collect();
    assert!(run_fraction.iter().any(|share| *share > 0.3) && run_fraction.contains(&0.0));
    for hour in [4, 10, 13, 15, 17, 21] {
        // By hand: the part says in which hours it runs, and what it takes in in this one.
        let draw = document["parts"]["cooler"]["electrical"].clone();
        let share = run_fraction[hour];
        let running_w = if share > 0.0 { cooling.hours[hour].electric_w / share } else { 520.0 };
        let said = with(draw, "/on_fraction", json!(run_fraction));
        let by_hand =
            with(document.clone(), "/parts/cooler/electrical", with(said, "/power_w", json!(running_w)));
        let got_a = coupled["inverter"].hours[hour].expected_a;
        let expected_a = expected_a(&by_hand, "inverter", hour);
        assert!((got_a - expected_a).abs() < 1e-9 * expected_a.max(1.0), "hour {hour}: {got_a} {expected_a}");
    }
}

#[test]
fn the_battery_feeds_what_the_box_asks_for_by_hand() {
    let document = off_grid();
    let build = read(&document);
    let report = evaluated(&document);
    let handed = report.handed_over.as_ref().unwrap();
    assert!(handed.settled && handed.box_air.as_ref().unwrap().cooled);
    // By hand: the box through the weather with the heat of each step written out, again and again.
    let site = SiteWeather::of(&build).unwrap();
    let setup = Setup::with(&build, site.clone(), Some("cooler")).unwrap();
    let mut course = setup.weather_course();
    let gains = &setup.around.gains;
    course.sensible_by_hour_w = std::array::from_fn(|hour| gains.people_w[hour] + gains.cooking_w[hour]);
    let (count, step_min) = (course.count(), site.weather.clock.step_min());
    let demand = setup.electrics.sum();
    let mut air_c = vec![setup.around.cool_c; count];
    let (mut share, mut power_w) = (vec![0.0; count], vec![0.0; count]);
    course.sensible_w = vec![0.0; count];
    for _ in 0..12 {
        let now = Course { share: &share, power_w: &power_w };
        demand.fill(&site.days, step_min, &air_c, Some(now), &mut course.sensible_w);
        setup.walk_course(&course, &setup.comfort(), |step| {
            air_c[step.index] = step.before.air_c;
            share[step.index] = step.run_fraction;
            power_w[step.index] = step.electric_w;
        });
    }
    let course = Course { share: &share, power_w: &power_w };
    let by_hand = Handed { box_c: &air_c, cooler: Some(("cooler", course)) };
    let energy = EnergySetup::with(&build, site, Some(&by_hand)).unwrap();
    let load_wh_per_day = energy.load_w.iter().sum::<f64>() * 24.0 / count as f64;
    let got = report.energy_budget.as_ref().unwrap().load_wh_per_day;
    assert!((got - load_wh_per_day).abs() < 1e-4 * load_wh_per_day, "{got} {load_wh_per_day}");
    let warmest_c = air_c.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    assert!((celsius(handed.box_air.as_ref().unwrap().warmest_f) - warmest_c).abs() < 0.01);
}
