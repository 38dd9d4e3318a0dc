//! Time of an evaluation: `cargo bench -p wainwright --bench evaluate`.
//!
//! - `evaluate`: all five questions of a demonstration build, coupled
//! - `read`, `to_json`: the build read from JSON, the report written to JSON
//! - `payload`, `axle_load`, `circuit_load`, `energy_budget`, `cooling_load`: each question by itself

#![expect(clippy::expect_used, reason = "a benchmark that cannot read its build must stop")]

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

/// The demonstration builds.
const BUILDS: [(&str, &str); 3] = [
    ("pika", include_str!("../../../tests/builds/pika.json")),
    ("heron", include_str!("../../../tests/builds/heron.json")),
    ("bison", include_str!("../../../tests/builds/bison.json")),
];

fn main() {
    divan::main();
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
