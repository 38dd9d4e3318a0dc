//! Time of the calculation for one build of 15 parts, 3 tanks and 2 toys: `cargo bench -p wainwright`.
//!
//! - `read`: JSON text to a checked build
//! - `masses`: the build in SI, with its loading states
//! - `numbers`: the numeric core, from the build, `masses` included; `numbers_towed` the same behind a tow vehicle
//! - `answer`: numbers and words, the whole report
//! - `serialize`: the report to JSON text

#![expect(clippy::expect_used, reason = "a benchmark that cannot read its build must stop")]

use divan::{Bencher, black_box};
use wainwright::axle_load::AxleLoad;
use wainwright::axle_load::numbers::{numbers as axle_numbers, road_conditions};
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
