//! Time of a year of hours: `cargo bench -p wainwright --bench energy`.
//!
//! - `sun_from_table`: directions of the sun for a place, the year's table being there
//! - `year_of_a_configuration`: a plane, its cells, the controller, the load and the battery; the sun is there
//! - `year_of_an_array`: the plane, its cells and the controller of that alone
//! - `year_of_a_demand`: what a lamp, a refrigerator and a constant draw ask of the bus
//! - `year_of_a_bank`: another battery behind the same array, whose harvest is there
//! - `thousand_banks`: the same for a thousand of them
//! - `year_of_a_lead_bank`: a battery of two wells
//! - `question`: the whole question of each demonstration build, weather to words

#![expect(clippy::expect_used, reason = "a benchmark that cannot read its weather must stop")]

use divan::{Bencher, black_box};
use wainwright::Build;
use wainwright::build::Schedule;
use wainwright::drawn_power::demand::{ColdBox, Demand, Load};
use wainwright::energy_budget::EnergyBudget;
use wainwright::energy_budget::array::Array;
use wainwright::energy_budget::cell_temperature::INSULATED_LOSS_W_PER_M2_K;
use wainwright::energy_budget::harvest::{self, Controller, Source};
use wainwright::energy_budget::kinetic_battery::KineticBattery;
use wainwright::energy_budget::ledger::{Bank, Conditions, Flows, Ledger};
use wainwright::energy_budget::setup::Setup;
use wainwright::question::Question;
use wainwright::sky::almanac;
use wainwright::sky::clock::{Clock, Day};
use wainwright::sky::sun::{Direction, Observer};
use wainwright::sky::weather::Weather;

/// Greensboro's typical year (TMY3, a work of the United States government).
const GREENSBORO: &str = include_str!("../tests/energy_year/greensboro.csv");

fn main() {
    divan::main();
}

struct Case {
    weather: Weather,
    days: Vec<Day>,
    suns: Vec<Direction>,
    usable: Vec<f64>,
    acceptance: Vec<f64>,
}

const BANK: Bank = Bank {
    rated_wh: 2560.0,
    nominal_v: 12.8,
    charge_efficiency: 0.98,
    discharge_efficiency: 0.98,
    most_charge_w: f64::INFINITY,
    most_discharge_w: f64::INFINITY,
    self_discharge_per_h: 0.0,
    absorption_h: 0.0,
    wells: None,
    reconnect_soc: None,
};

fn observer() -> Observer {
    Observer::new(36.1_f64.to_radians(), (-79.95_f64).to_radians(), 273.0)
}

fn case() -> Case {
    let lines = GREENSBORO.lines().filter(|line| !line.starts_with('#')).skip(1);
    let rows: Vec<Vec<f64>> = lines
        .map(|line| line.split(',').map(|cell| cell.parse().expect("the weather holds numbers")).collect())
        .collect();
    let column = |index: usize| rows.iter().map(|row| row[index]).collect::<Vec<f64>>();
    let clock = Clock::typical_hours();
    let weather = Weather {
        clock,
        ghi_w_m2: column(0),
        dni_w_m2: column(1),
        dhi_w_m2: column(2),
        air_c: column(3),
        dew_point_c: None,
        wind_m_s: vec![0.0; rows.len()],
    };
    let table = almanac::suns(&clock, -5.0).expect("the typical year has a sun");
    Case {
        days: clock.days(),
        suns: table.seen_from(observer()).collect(),
        usable: vec![0.9; rows.len()],
        acceptance: vec![1.0; rows.len()],
        weather,
    }
}

fn source() -> Source {
    let facing = (20_f64.to_radians(), std::f64::consts::PI, 0.2);
    let mut array = Array::new(facing, 400.0, -0.0035, INSULATED_LOSS_W_PER_M2_K);
    array.loss = 0.08;
    Source { array, strings: None, least_v: 0.0 }
}

fn load(case: &Case, load_w: &mut [f64]) {
    for (hour, (load_w, &air_c)) in load_w.iter_mut().zip(&case.weather.air_c).enumerate() {
        let evening_w = if (18..23).contains(&(hour % 24)) { 40.0 } else { 0.0 };
        *load_w = 10.0 + evening_w + 50.0 * ((air_c - 4.0) / 100.0).clamp(0.0, 1.0);
    }
}

fn harvest(case: &Case, given_w: &mut [f64]) {
    given_w.fill(0.0);
    let controller = Controller::Mppt { efficiency: 0.97 };
    harvest::add(&[source()], controller, &case.weather, &case.days, &case.suns, given_w);
}

/// What goes unmet in the year [Wh].
fn unmet_wh(case: &Case, bank: Bank, given_w: &[f64], load_w: &[f64]) -> f64 {
    let ledger = Ledger::new(bank, 1.0);
    let flows = Flows {
        sun_w: given_w,
        sun_scale: 1.0,
        most_sun_w: 384.0,
        load_w,
        others: &[],
        conditions: Conditions { usable: &case.usable, acceptance: &case.acceptance },
    };
    let mut unmet_wh = 0.0;
    ledger.walk(&mut ledger.at_rest(1.0), &flows, 0..given_w.len(), |_, step| {
        unmet_wh += step.unmet_wh;
        true
    });
    unmet_wh
}

#[divan::bench]
fn sun_from_table(bencher: Bencher) {
    let table = almanac::suns(&Clock::typical_hours(), -5.0).expect("the typical year has a sun");
    let mut suns = Vec::with_capacity(8760);
    bencher.bench_local(|| {
        suns.clear();
        suns.extend(table.seen_from(black_box(observer())));
        black_box(suns.len())
    });
}

#[divan::bench]
fn year_of_a_configuration(bencher: Bencher) {
    let case = case();
    let (mut given_w, mut load_w) = (vec![0.0; 8760], vec![0.0; 8760]);
    bencher.bench_local(|| {
        harvest(black_box(&case), &mut given_w);
        load(&case, &mut load_w);
        unmet_wh(&case, BANK, &given_w, &load_w)
    });
}

#[divan::bench]
fn year_of_an_array(bencher: Bencher) {
    let case = case();
    let mut given_w = vec![0.0; 8760];
    bencher.bench_local(|| harvest(black_box(&case), &mut given_w));
}

#[divan::bench]
fn year_of_a_demand(bencher: Bencher) {
    let case = case();
    let mut load_w = vec![0.0; 8760];
    let mut evening = [0.0; 24];
    evening[18..23].fill(1.0);
    let always = Schedule::ALWAYS;
    let lamps = Load {
        running_w: 40.0,
        schedule: Schedule { on_fraction: Some(&evening), ..always },
        usual_share: 1.0,
    };
    let refrigerator =
        ColdBox { leak_w_per_k: 0.6, inside_c: 4.0, running_w: 45.0, per_w: 1.0, schedule: always };
    let demand =
        Demand { loads: vec![lamps], cold_boxes: vec![refrigerator], constant_w: 10.0, ..Demand::default() };
    bencher.bench_local(|| demand.fill(black_box(&case.days), 60, &case.weather.air_c, None, &mut load_w));
}

#[divan::bench]
fn year_of_a_bank(bencher: Bencher) {
    let case = case();
    let (mut given_w, mut load_w) = (vec![0.0; 8760], vec![0.0; 8760]);
    harvest(&case, &mut given_w);
    load(&case, &mut load_w);
    bencher.bench_local(|| unmet_wh(black_box(&case), BANK, &given_w, &load_w));
}

#[divan::bench]
fn thousand_banks(bencher: Bencher) {
    let case = case();
    let (mut given_w, mut load_w) = (vec![0.0; 8760], vec![0.0; 8760]);
    harvest(&case, &mut given_w);
    load(&case, &mut load_w);
    bencher.bench_local(|| {
        (1..=1000)
            .map(|n| unmet_wh(black_box(&case), BANK.scaled(f64::from(n) / 500.0), &given_w, &load_w))
            .sum::<f64>()
    });
}

#[divan::bench]
fn year_of_a_lead_bank(bencher: Bencher) {
    let case = case();
    let (mut given_w, mut load_w) = (vec![0.0; 8760], vec![0.0; 8760]);
    harvest(&case, &mut given_w);
    load(&case, &mut load_w);
    let bank = Bank { wells: KineticBattery::from_exponent(200.0, 1.1), absorption_h: 1.5, ..BANK };
    bencher.bench_local(|| unmet_wh(black_box(&case), bank, &given_w, &load_w));
}

/// The demonstration builds: lead-acid behind a PWM controller; lithium; lithium with a generator that starts by itself.
const BUILDS: [(&str, &str); 3] = [
    ("pika", include_str!("../../../tests/builds/pika.json")),
    ("heron", include_str!("../../../tests/builds/heron.json")),
    ("bison", include_str!("../../../tests/builds/bison.json")),
];

#[divan::bench(args = BUILDS.map(|(name, _)| name))]
fn question(bencher: Bencher, name: &str) {
    let json = BUILDS.iter().find(|(other, _)| *other == name).map_or("", |(_, json)| json);
    let build = Build::from_json(json.as_bytes()).expect("the demonstration builds are good ones");
    bencher.bench_local(|| EnergyBudget::answer(black_box(&build)));
}

#[divan::bench(args = BUILDS.map(|(name, _)| name))]
fn setup(bencher: Bencher, name: &str) {
    let json = BUILDS.iter().find(|(other, _)| *other == name).map_or("", |(_, json)| json);
    let build = Build::from_json(json.as_bytes()).expect("the demonstration builds are good ones");
    bencher.bench_local(|| Setup::of(black_box(&build)).map(|setup| setup.count()));
}
