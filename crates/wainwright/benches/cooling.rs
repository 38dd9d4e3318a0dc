//! Time of a cooling load: `cargo bench -p wainwright --bench cooling`.
//!
//! - `design_day`: the hot day in steps of five minutes, from the light on the faces: what drives the box, and a lap with the
//!   air conditioner from where the box has come to rest
//! - `course_of_a_day`, `lap_with_an_air_conditioner`: its two halves
//! - `lap_of_an_ideal_plant`: a lap with as much cooling as is asked for
//! - `light_of_a_day`: sun and light on the faces through the hot day
//! - `year_of_hours`: a year with air conditioner and heater; what drives the box is there
//! - `light_of_a_year`: light on the faces through that year, and what drives the box; the sun is there
//! - `day_of_a_network`, `year_of_a_network`: the network alone with a plant of fixed capacity, which `cooling_peer.py` does
//!   by other means
//! - `smallest_size`, `changes`: the smallest air conditioner that holds the box, and what single changes would help
//! - `setup`, `numbers`, `question`, `question_to_json`: the whole question of a demonstration build, each with all before it,
//!   `numbers` alone

#![expect(clippy::expect_used, reason = "a benchmark that cannot read its build must stop")]
#![expect(clippy::print_stdout, reason = "the same year by other means is held against what it prints")]

use divan::{Bencher, black_box};
use wainwright::Build;
use wainwright::cooling_load::CoolingLoad;
use wainwright::cooling_load::changes::effects;
use wainwright::cooling_load::course::Course;
use wainwright::cooling_load::heater::Heater;
use wainwright::cooling_load::hot_day::RunDay;
use wainwright::cooling_load::lap::{Plan, Room};
use wainwright::cooling_load::network::thermostat::{Plant, Setpoints, hold};
use wainwright::cooling_load::network::{Drive, FloorLoad, Network, State};
use wainwright::cooling_load::numbers::numbers;
use wainwright::cooling_load::outdoors::Outdoors;
use wainwright::cooling_load::season::{Comfort, season};
use wainwright::cooling_load::setup::Setup;
use wainwright::cooling_load::sizes::smallest_btu_h;
use wainwright::question::Question;

/// Greensboro's typical year (TMY3, a work of the United States government).
const GREENSBORO: &str = include_str!("../tests/energy_year/greensboro.csv");
/// A demonstration build with air conditioner and heater.
const HERON: &str = include_str!("../../../tests/builds/heron.json");
/// The demonstration builds.
const BUILDS: [(&str, &str); 3] = [
    ("pika", include_str!("../../../tests/builds/pika.json")),
    ("heron", HERON),
    ("bison", include_str!("../../../tests/builds/bison.json")),
];

fn main() {
    let drives = year();
    let (cooled_wh, heated_wh) = walk(&drives, 3600.0);
    println!("year of a network: {cooled_wh:.6} Wh cooled, {heated_wh:.6} Wh heated");
    divan::main();
}

fn read(json: &str) -> Build {
    Build::from_json(json.as_bytes()).expect("the demonstration builds are good ones")
}

fn made_ready(build: &Build) -> Setup<'_> {
    Setup::of(build).expect("the demonstration builds have every section")
}

/// Where the box stands at midnight once its day comes back to itself.
fn settled(setup: &Setup) -> Room {
    let cooler = setup.cooler.as_ref().expect("the build has an air conditioner");
    let mut room = Room::even(setup.around.cool_c, setup.ratio);
    RunDay::cooled(&setup.case, cooler, setup.around.cool_c, &mut room);
    room
}

/// What drives the hot day, from the light.
fn course(setup: &Setup) -> Course {
    let mut course = Course::of(&setup.around.outdoors, &setup.case.sums);
    course.air_kg_s.clone_from(&setup.case.course.air_kg_s);
    let base = &setup.case.course;
    course.sensible_by_hour_w = base.sensible_by_hour_w;
    course.water_by_hour_kg_s = base.water_by_hour_kg_s;
    course
}

/// A lap through the hot day: electricity of its steps [W].
fn lap(setup: &Setup, course: &Course, room: &Room, plan: Plan) -> f64 {
    let (mut room, mut sum_w) = (*room, 0.0);
    setup.case.walker().walk(course, &mut room, plan, |step| sum_w += step.electric_w - step.power_w);
    sum_w
}

fn unit<'s>(setup: &'s Setup) -> Plan<'s> {
    let setpoints = Setpoints { heat_c: f64::NEG_INFINITY, cool_c: setup.around.cool_c };
    let cooler = setup.cooler.as_ref().expect("the build has an air conditioner");
    Plan::Unit { cooler, setpoints, heater: Heater::NONE }
}

#[divan::bench]
fn design_day(bencher: Bencher) {
    let build = read(HERON);
    let setup = made_ready(&build);
    let room = settled(&setup);
    bencher.bench_local(|| lap(&setup, &course(black_box(&setup)), &room, unit(&setup)));
}

#[divan::bench]
fn course_of_a_day(bencher: Bencher) {
    let build = read(HERON);
    let setup = made_ready(&build);
    bencher.bench_local(|| course(black_box(&setup)));
}

#[divan::bench]
fn lap_with_an_air_conditioner(bencher: Bencher) {
    let build = read(HERON);
    let setup = made_ready(&build);
    let room = settled(&setup);
    bencher.bench_local(|| lap(black_box(&setup), &setup.case.course, &room, unit(&setup)));
}

#[divan::bench]
fn lap_of_an_ideal_plant(bencher: Bencher) {
    let build = read(HERON);
    let setup = made_ready(&build);
    let room = settled(&setup);
    let setpoints = Setpoints { heat_c: f64::NEG_INFINITY, cool_c: setup.around.cool_c };
    let plan = Plan::Ideal { setpoints, ratio: setup.ratio };
    bencher.bench_local(|| lap(black_box(&setup), &setup.case.course, &room, plan));
}

#[divan::bench]
fn light_of_a_day(bencher: Bencher) {
    let build = read(HERON);
    let setup = made_ready(&build);
    bencher.bench_local(|| Outdoors::of_hot_day(black_box(&setup.site), &setup.hot_day, &setup.faces));
}

#[divan::bench]
fn light_of_a_year(bencher: Bencher) {
    let build = read(HERON);
    let setup = made_ready(&build);
    bencher.bench_local(|| Course::of_weather(black_box(&setup.site), &setup.faces, &setup.case.sums));
}

#[divan::bench]
fn year_of_hours(bencher: Bencher) {
    let build = read(HERON);
    let setup = made_ready(&build);
    let (around, site) = (&setup.around, &setup.site);
    let mut course = Course::of_weather(site, &setup.faces, &setup.case.sums);
    course.air_kg_s = setup.exchange.air_kg_s(
        (&course.outdoor_c, &course.outdoor_ratio),
        |step| site.weather.wind_m_s[step],
        around.cool_c,
        around.pressure_pa,
    );
    let base = &setup.case.course;
    course.sensible_by_hour_w = base.sensible_by_hour_w;
    course.water_by_hour_kg_s = base.water_by_hour_kg_s;
    let comfort = Comfort {
        cooler: setup.cooler.as_ref(),
        cool_c: around.cool_c,
        heater: setup.heater,
        heat_c: setup.heat_c,
    };
    bencher.bench_local(|| {
        season(site, &setup.case.of, black_box(&course), setup.case.air_kg, &comfort, |_| {})
    });
}

#[divan::bench]
fn smallest_size(bencher: Bencher) {
    let build = read(HERON);
    let setup = made_ready(&build);
    let room = settled(&setup);
    let cooler = setup.cooler.as_ref().expect("the build has an air conditioner");
    bencher.bench_local(|| smallest_btu_h(black_box(&setup.case), cooler, setup.around.cool_c, &room));
}

#[divan::bench]
fn changes(bencher: Bencher) {
    let build = read(HERON);
    let setup = made_ready(&build);
    let room = settled(&setup);
    let cooler = setup.cooler.as_ref();
    bencher.bench_local(|| {
        effects(black_box(&setup.around), &setup.body, setup.exchange, setup.ratio, cooler, &room, true)
    });
}

#[divan::bench(args = BUILDS.map(|(name, _)| name))]
fn setup(bencher: Bencher, name: &str) {
    let build = named(name);
    bencher.bench_local(|| Setup::of(black_box(&build)).map(|setup| setup.ratio));
}

#[divan::bench(name = "numbers", args = BUILDS.map(|(name, _)| name))]
fn all_numbers(bencher: Bencher, name: &str) {
    let build = named(name);
    let setup = made_ready(&build);
    bencher.bench_local(|| numbers(&build, black_box(&setup), setup.walk_weather()).peak_hour);
}

#[divan::bench(args = BUILDS.map(|(name, _)| name))]
fn question(bencher: Bencher, name: &str) {
    let build = named(name);
    bencher.bench_local(|| CoolingLoad::answer(black_box(&build)));
}

#[divan::bench(args = BUILDS.map(|(name, _)| name))]
fn question_to_json(bencher: Bencher, name: &str) {
    let build = named(name);
    bencher
        .bench_local(|| serde_json::to_vec(&CoolingLoad::answer(black_box(&build))).map(|json| json.len()));
}

fn named(name: &str) -> Build {
    read(BUILDS.iter().find(|(other, _)| *other == name).map_or("", |(_, json)| json))
}

/// A body with a motorcycle on its floor.
const NETWORK: Network = Network {
    air_j_k: 72_000.0,
    mass_j_k: 620_000.0,
    surface_to_air_w_k: 160.0,
    mass_to_surface_w_k: 315.0,
    outside_to_mass_w_k: 58.0,
    windows_w_k: 4.0,
    floor_load: Some(FloorLoad { heat_j_k: 260_000.0, to_surface_w_k: 50.0 }),
};
const VENTILATION_W_K: f64 = 6.0;
const SETPOINTS: Setpoints = Setpoints { heat_c: 18.0, cool_c: 24.0 };
const PLANT: Plant = Plant { heat_w: 1500.0, cool_w: 1465.0 };

/// What drives it through the year, hour by hour: 0.02 K for each watt on level ground outside, 0.5 W through windows.
fn year() -> Vec<Drive> {
    let lines = GREENSBORO.lines().filter(|line| !line.starts_with('#')).skip(1);
    lines
        .map(|line| {
            let mut cells = line.split(',').map(|cell| cell.parse().expect("the weather holds numbers"));
            let ghi_w_m2: f64 = cells.next().expect("the first column is the light");
            let air_c: f64 = cells.nth(2).expect("the fourth column is the air");
            Drive {
                outdoor_c: air_c,
                supply_c: air_c,
                equivalent_c: air_c + 0.02 * ghi_w_m2,
                air_w: 60.0,
                surface_w: 20.0 + 0.12 * ghi_w_m2,
                mass_w: 40.0 + 0.38 * ghi_w_m2,
                floor_load_w: 0.0,
            }
        })
        .collect()
}

/// Walks it from 20 °C through steps: heat taken out and heat given [Wh].
fn walk(drives: &[Drive], step_s: f64) -> (f64, f64) {
    let response = NETWORK.response(VENTILATION_W_K, step_s);
    let mut state = State::even(20.0);
    let (mut cooled_w, mut heated_w) = (0.0, 0.0);
    for drive in drives {
        let held = hold(&response, &state, drive, SETPOINTS, PLANT);
        state = held.after;
        cooled_w -= held.power_w.min(0.0);
        heated_w += held.power_w.max(0.0);
    }
    (cooled_w * step_s / 3600.0, heated_w * step_s / 3600.0)
}

#[divan::bench]
fn year_of_a_network(bencher: Bencher) {
    let drives = year();
    bencher.bench_local(|| walk(black_box(&drives), 3600.0));
}

/// The 21st of July, each hour in twelve steps.
#[divan::bench]
fn day_of_a_network(bencher: Bencher) {
    let year = year();
    let july = 24 * 201;
    let drives: Vec<Drive> = (0..288).map(|step| year[july + step / 12]).collect();
    bencher.bench_local(|| walk(black_box(&drives), 300.0));
}
