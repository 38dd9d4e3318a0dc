//! Time of the calculation for one build of 15 parts, 3 tanks and 2 toys: `cargo bench -p wainwright`.
//!
//! - `read`: JSON text to a checked build
//! - `masses`: the build in SI, with its loading states
//! - `numbers`: the numeric core, from the build, `masses` included; `numbers_towed` the same behind a tow vehicle
//! - `answer`: numbers and words, the whole report
//! - `serialize`: the report to JSON text
//!
//! Circuit load is timed on builds of its own as well: 40 circuits with 60 loads in 4 supply modes, which is to take
//! less than 2 ms in numbers, and 20 loads on one inlet, whose conflicts are to be listed in less than 50 ms.

#![expect(clippy::expect_used, reason = "a benchmark that cannot read its build must stop")]

use divan::{Bencher, black_box};
use serde_json::{Map, Value, json};
use wainwright::axle_load::AxleLoad;
use wainwright::axle_load::numbers::{numbers as axle_numbers, road_conditions};
use wainwright::circuit_load::CircuitLoad;
use wainwright::circuit_load::numbers::numbers as circuit_numbers;
use wainwright::circuit_load::wiring::Wiring;
use wainwright::loading::Loading;
use wainwright::payload::Payload;
use wainwright::question::Question;
use wainwright::{Build, payload};

const BUILD: &[u8] = include_bytes!("../../../tests/builds/bench.json");

fn main() {
    divan::main();
}

fn build() -> Build {
    Build::from_json(BUILD).expect("the benchmark's build is a good one")
}

#[divan::bench]
fn read(bencher: Bencher) {
    bencher.bench(|| Build::from_json(black_box(BUILD)));
}

#[divan::bench]
fn masses(bencher: Bencher) {
    let build = build();
    bencher.bench(|| Loading::of(black_box(&build)));
}

/// The same build behind a tow vehicle, which adds sway, bars and the tow vehicle's limits.
fn towed() -> Build {
    let mut build = build();
    let tow = br#"{"tow_vehicle": {"front_axle_lb": 3260, "rear_axle_lb": 2540, "front_gawr_lb": 3800,
        "rear_gawr_lb": 3900, "gvwr_lb": 7050, "gcwr_lb": 14000, "wheelbase_in": 145, "ball_overhang_in": 48,
        "tow_rating_lb": 8000, "receiver_max_tongue_lb": 1000, "front_load_restoration": 0.5}}"#;
    build.tow_vehicle = Build::from_json(tow).expect("the tow vehicle is a good one").tow_vehicle;
    build
}

mod payload_question {
    use super::*;

    #[divan::bench]
    fn numbers(bencher: Bencher) {
        let build = build();
        bencher.bench(|| {
            let build = black_box(&build);
            let loading = Loading::of(build)?;
            Some(payload::numbers(build.trailer.as_ref()?, &loading))
        });
    }

    #[divan::bench]
    fn answer(bencher: Bencher) {
        let build = build();
        bencher.bench(|| Payload::answer(black_box(&build)));
    }

    #[divan::bench]
    fn serialize(bencher: Bencher) {
        let report = Payload::answer(&build());
        bencher.bench(|| serde_json::to_vec(black_box(&report)));
    }
}

mod axle_load_question {
    use super::*;

    #[divan::bench]
    fn numbers(bencher: Bencher) {
        let build = build();
        bencher.bench(|| {
            let build = black_box(&build);
            axle_numbers(build, &Loading::of(build)?, &road_conditions(build))
        });
    }

    #[divan::bench]
    fn numbers_towed(bencher: Bencher) {
        let build = towed();
        bencher.bench(|| {
            let build = black_box(&build);
            axle_numbers(build, &Loading::of(build)?, &road_conditions(build))
        });
    }

    #[divan::bench]
    fn answer(bencher: Bencher) {
        let build = build();
        bencher.bench(|| AxleLoad::answer(black_box(&build)));
    }

    #[divan::bench]
    fn serialize(bencher: Bencher) {
        let report = AxleLoad::answer(&build());
        bencher.bench(|| serde_json::to_vec(black_box(&report)));
    }
}

/// Entries of a map, each made from its number.
fn entries(count: usize, entry: impl Fn(usize) -> (String, Value)) -> Value {
    (0..count).map(entry).collect::<Map<_, _>>().into()
}

fn read_json(build: &Value) -> Build {
    Build::from_json(build.to_string().as_bytes()).expect("the benchmark's build is a good one")
}

/// 16 line-voltage and 24 low-voltage circuits, 60 loads, and 4 modes: shore, generator, inverter, driveway.
fn many_circuits() -> Build {
    let line_voltage = |circuit: usize| circuit < 16;
    let circuits = entries(40, |i| {
        let (breaker_a, awg) = if line_voltage(i) { (20, "12") } else { (15, "14") };
        let mut circuit = json!({"breaker_a": breaker_a,
            "wire": {"awg": awg, "run_ft": 8 + i % 17, "insulation_c": 90, "ambient_f": 86, "bundled": 2}});
        if line_voltage(i) {
            circuit["receptacle_a"] = json!(20);
            circuit["leg"] = json!(if i % 2 == 0 { "a" } else { "b" });
        } else {
            circuit["device"] = json!("blade");
            circuit["feeder"] = json!("dc_panel");
        }
        (format!("c{i}"), circuit)
    });
    let mut circuits = circuits;
    circuits["dc_panel"] = json!({"breaker_a": 125, "device": "class_t", "wire": {"awg": "2", "run_ft": 4}});
    circuits["inverter_feed"] =
        json!({"breaker_a": 300, "device": "class_t", "wire": {"awg": "4/0", "run_ft": 4}});
    let parts = entries(60, |i| {
        let circuit = i % 40;
        let power_w = if line_voltage(circuit) { 150 + 130 * (i % 9) } else { 6 + 7 * (i % 8) };
        let electrical = json!({"circuit": format!("c{circuit}"), "power_w": power_w, "power_factor": 0.95,
            "continuous": i % 3 == 0, "inrush_multiple": 1 + i % 5, "hours_per_day": 1 + i % 12});
        (format!("p{i}"), json!({"mass_lb": 10, "electrical": electrical}))
    });
    let fed = |lines: usize, source: &str| {
        let mut feeds = entries(lines, |i| (format!("c{i}"), json!(source)));
        feeds["dc_panel"] = json!("battery");
        feeds
    };
    let mut off_grid = fed(8, "inverter");
    off_grid["inverter_feed"] = json!("battery");
    read_json(&json!({
        "parts": parts,
        "electrical": {
            "sources": {
                "shore": {"kind": "shore", "voltage_v": 120, "rating_a": 50, "legs": 2, "lead": {"awg": "6", "run_ft": 30, "cord": true}},
                "generator": {"kind": "generator", "voltage_v": 120, "rating_a": 30, "continuous_w": 3000, "surge_w": 3600},
                "inverter": {"kind": "inverter", "voltage_v": 120, "continuous_w": 3000, "surge_w": 6000, "circuit": "inverter_feed"},
                "battery": {"kind": "battery", "voltage_v": 12.8, "rating_a": 400}
            },
            "circuits": circuits,
            "modes": {
                "plugged_in": {"feeds": fed(16, "shore")},
                "driveway": {"feeds": fed(16, "shore"), "limits_a": {"shore": 30}},
                "generator": {"feeds": fed(12, "generator")},
                "off_grid": {"feeds": off_grid}
            }
        },
        "battery": {"chemistry": "lifepo4", "capacity_ah": 400, "nominal_v": 12.8}
    }))
}

/// 20 loads on circuits of one inlet of 30 A.
fn one_inlet() -> Build {
    let parts = entries(20, |i| {
        let electrical = json!({"circuit": format!("c{}", i % 5), "current_a": 1.3 + 0.7 * (i % 7) as f64});
        (format!("p{i}"), json!({"mass_lb": 10, "electrical": electrical}))
    });
    let circuits = entries(5, |i| (format!("c{i}"), json!({"breaker_a": 20})));
    let sources = json!({"shore": {"kind": "shore", "voltage_v": 120, "rating_a": 30}});
    read_json(&json!({"parts": parts, "electrical": {"sources": sources, "circuits": circuits}}))
}

mod circuit_load_question {
    use super::*;

    fn time_numbers(bencher: Bencher, build: &Build) {
        bencher.bench(|| {
            let build = black_box(build);
            let wiring = Wiring::of(build)?;
            Some(black_box(circuit_numbers(build, &wiring)).modes.len())
        });
    }

    #[divan::bench]
    fn numbers(bencher: Bencher) {
        time_numbers(bencher, &build());
    }

    #[divan::bench]
    fn answer(bencher: Bencher) {
        let build = build();
        bencher.bench(|| CircuitLoad::answer(black_box(&build)));
    }

    #[divan::bench]
    fn serialize(bencher: Bencher) {
        let report = CircuitLoad::answer(&build());
        bencher.bench(|| serde_json::to_vec(black_box(&report)));
    }

    #[divan::bench]
    fn numbers_of_40_circuits_60_loads_4_modes(bencher: Bencher) {
        time_numbers(bencher, &many_circuits());
    }

    #[divan::bench]
    fn answer_of_40_circuits_60_loads_4_modes(bencher: Bencher) {
        let build = many_circuits();
        bencher.bench(|| CircuitLoad::answer(black_box(&build)));
    }

    #[divan::bench]
    fn numbers_of_20_loads_on_one_inlet(bencher: Bencher) {
        time_numbers(bencher, &one_inlet());
    }
}
