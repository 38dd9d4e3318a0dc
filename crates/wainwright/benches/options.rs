//! Time of option packages: `cargo bench -p wainwright --bench options`.
//!
//! - `answer`: one answer to the present choice of the demonstration catalogue, and of one cut to 40 options; before
//!   the table the median and the p99 of a thousand are printed; the p99 is to stay below 50 ms on one core
//! - `search`: all choices of 2^12 and of 2^20, masses and ratings above all

#![expect(clippy::expect_used, reason = "a benchmark that cannot read its request must stop")]
#![expect(clippy::print_stdout, reason = "a figure that the table does not have")]

use std::time::Instant;

use divan::{Bencher, black_box};
use serde_json::{Value, json};
use wainwright::NamedFiles;
use wainwright::operation::Operation;
use wainwright::options::{PackageOptions, demonstration};
use wainwright::search::Search;

fn main() {
    for (name, request) in [("demonstration", demo()), ("40 options", forty())] {
        let text = request.to_string();
        let mut times: Vec<_> = (0..1_000).map(|_| timed(text.as_bytes())).collect();
        times.sort_unstable();
        println!("{name}: median {:?}, p99 {:?}", times[500], times[990]);
    }
    divan::main();
}

fn timed(request: &[u8]) -> std::time::Duration {
    let begun = Instant::now();
    black_box(PackageOptions::answer(request, &NamedFiles::default())).expect("the request is a good one");
    begun.elapsed()
}

fn demo() -> Value {
    let mut request = demonstration();
    request["chosen"] = json!([]);
    request
}

/// The demonstration with options of parts alone added until there are forty.
fn forty() -> Value {
    let mut request = demo();
    let count = |request: &Value| {
        let groups = request["groups"].as_object().expect("groups");
        groups.values().map(|group| group["options"].as_object().expect("options").len()).sum::<usize>()
    };
    for i in count(&request)..40 {
        request["groups"]["extras"]["options"][format!("box_{i}")] = part(i);
    }
    assert_eq!(count(&request), 40);
    request
}

/// An option that adds a part.
fn part(i: usize) -> Value {
    let part = json!({"mass_lb": 7 + i, "x_in": 60 + 11 * i, "y_in": 3 * i, "z_in": 40});
    json!({"price_usd": 13 * i + 40, "patch": {"parts": {format!("box_{i}"): part}}})
}

#[divan::bench_group(max_time = 5)]
mod answer {
    use super::*;

    #[divan::bench]
    fn demonstration(bencher: Bencher) {
        let request = demo().to_string();
        bencher.bench(|| PackageOptions::answer(black_box(request.as_bytes()), &NamedFiles::default()));
    }

    #[divan::bench]
    fn forty_options(bencher: Bencher) {
        let request = forty().to_string();
        bencher.bench(|| PackageOptions::answer(black_box(request.as_bytes()), &NamedFiles::default()));
    }
}

/// A search over the demonstration's batteries, arrays and water tanks, and parts until there are so many choices.
fn search(parts: usize) -> String {
    let mut request = demo();
    let options: serde_json::Map<String, Value> = (0..parts).map(|i| (format!("box_{i}"), part(i))).collect();
    request["groups"]["boxes"] = json!({"choose": "any", "options": options});
    request["vary"] = json!(["battery", "solar", "water", "boxes"]);
    request["weights"] = json!({"price_usd": 1, "payload_left_lb": 0.5, "autonomy_h": 20});
    request.to_string()
}

#[divan::bench_group(sample_count = 5, sample_size = 1)]
mod search_all {
    use super::*;

    #[divan::bench]
    fn two_to_the_12th(bencher: Bencher) {
        let request = search(6);
        bencher.bench(|| {
            Search::answer(black_box(request.as_bytes()), &NamedFiles::default()).expect("answered")
        });
    }

    #[divan::bench]
    fn two_to_the_20th(bencher: Bencher) {
        let request = search(14);
        bencher.bench(|| {
            Search::answer(black_box(request.as_bytes()), &NamedFiles::default()).expect("answered")
        });
    }
}
