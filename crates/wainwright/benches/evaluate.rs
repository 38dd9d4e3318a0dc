//! Time of an evaluation: `cargo bench -p wainwright --bench evaluate`.
//!
//! - `evaluate`: all five questions of a demonstration build, coupled
//! - `read`, `to_json`: the build read from JSON, the report written to JSON
//! - `payload`, `axle_load`, `circuit_load`, `energy_budget`, `cooling_load`: each question by itself
//!
//! Before that it prints how many evaluations a core makes in a second, and where their time goes.

#![expect(clippy::expect_used, reason = "a benchmark that cannot read its build must stop")]
#![expect(clippy::print_stdout, reason = "it prints what it measures")]

use std::time::Instant;

use divan::{Bencher, black_box};
use wainwright::Build;
use wainwright::axle_load::AxleLoad;
use wainwright::circuit_load::CircuitLoad;
use wainwright::cooling_load::CoolingLoad;
use wainwright::energy_budget::EnergyBudget;
use wainwright::evaluate::Evaluate;
use wainwright::payload::Payload;
use wainwright::question::Question;

/// The allocator of the service.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

/// Calls that a median is of.
const CALLS: usize = 301;
/// The demonstration builds.
const BUILDS: [(&str, &str); 3] = [
    ("pika", include_str!("../../../tests/builds/pika.json")),
    ("heron", include_str!("../../../tests/builds/heron.json")),
    ("bison", include_str!("../../../tests/builds/bison.json")),
];

fn main() {
    for (name, _) in BUILDS {
        print_shares(name);
    }
    divan::main();
}

/// Time of one call [ms]: the median of many.
fn median_ms<T>(mut call: impl FnMut() -> T) -> f64 {
    let mut times: Vec<f64> = (0..CALLS)
        .map(|_| {
            let begun = Instant::now();
            black_box(call());
            begun.elapsed().as_secs_f64() * 1000.0
        })
        .collect();
    times.sort_by(f64::total_cmp);
    times[CALLS / 2]
}

/// How many evaluations a core makes in a second, and what of their time each question would take by itself; the rest is
/// what they tell each other.
fn print_shares(name: &str) {
    let build = read_build(name);
    let whole_ms = median_ms(|| Evaluate::answer(&build));
    let alone = [
        ("payload", median_ms(|| Payload::answer(&build))),
        ("axle load", median_ms(|| AxleLoad::answer(&build))),
        ("circuit load", median_ms(|| CircuitLoad::answer(&build))),
        ("energy budget", median_ms(|| EnergyBudget::answer(&build))),
        ("cooling load", median_ms(|| CoolingLoad::answer(&build))),
    ];
    let rest_ms = whole_ms - alone.iter().map(|(_, ms)| ms).sum::<f64>();
    let shares: Vec<String> =
        alone.iter().chain(&[("exchange", rest_ms)]).map(|(what, ms)| format!("{what} {ms:.3}")).collect();
    println!(
        "{name}: {:.0} evaluations/s on one core, {whole_ms:.3} ms: {}",
        1000.0 / whole_ms,
        shares.join(", ")
    );
}

fn read_build(name: &str) -> Build {
    let (_, json) = BUILDS.iter().find(|(other, _)| *other == name).expect("it is in the list");
    Build::from_json(json.as_bytes()).expect("the demonstration builds are good ones")
}

fn bench<Q: Question>(bencher: Bencher, name: &str) {
    let build = read_build(name);
    bencher.bench_local(|| Q::answer(black_box(&build)));
}

#[divan::bench(args = BUILDS.map(|(name, _)| name))]
fn evaluate(bencher: Bencher, name: &str) {
    bench::<Evaluate>(bencher, name);
}

#[divan::bench(args = BUILDS.map(|(name, _)| name))]
fn read(bencher: Bencher, name: &str) {
    bencher.bench_local(|| read_build(black_box(name)));
}

#[divan::bench(args = BUILDS.map(|(name, _)| name))]
fn to_json(bencher: Bencher, name: &str) {
    let report = Evaluate::answer(&read_build(name));
    bencher.bench_local(|| serde_json::to_vec(black_box(&report)).expect("a report can be written"));
}

#[divan::bench(args = BUILDS.map(|(name, _)| name))]
fn payload(bencher: Bencher, name: &str) {
    bench::<Payload>(bencher, name);
}

#[divan::bench(args = BUILDS.map(|(name, _)| name))]
fn axle_load(bencher: Bencher, name: &str) {
    bench::<AxleLoad>(bencher, name);
}

#[divan::bench(args = BUILDS.map(|(name, _)| name))]
fn circuit_load(bencher: Bencher, name: &str) {
    bench::<CircuitLoad>(bencher, name);
}

#[divan::bench(args = BUILDS.map(|(name, _)| name))]
fn energy_budget(bencher: Bencher, name: &str) {
    bench::<EnergyBudget>(bencher, name);
}

#[divan::bench(args = BUILDS.map(|(name, _)| name))]
fn cooling_load(bencher: Bencher, name: &str) {
    bench::<CoolingLoad>(bencher, name);
}
