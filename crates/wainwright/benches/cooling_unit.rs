//! Time of a cooling unit at one state: `cargo bench -p wainwright --bench cooling_unit`.
//!
//! - `wet_step`: a state like that of the five minutes before, the coil taking water
//! - `dry_step`: the same in a room too dry for that
//! - `first`: a state nothing is known of

#![expect(clippy::expect_used, reason = "a benchmark that cannot build its unit must stop")]

use divan::{Bencher, black_box};
use wainwright::cooling_load::equipment::curves::ROOM_UNIT;
use wainwright::cooling_load::equipment::rating::{FLOW_M3_S_PER_W, SENSIBLE_FRACTION, power_w};
use wainwright::cooling_load::equipment::unit::{CoolingUnit, Rating};
use wainwright::units::w_from_btu_h;

fn main() {
    divan::main();
}

fn unit() -> CoolingUnit {
    let capacity_w = w_from_btu_h(5000.0);
    let rating = Rating {
        capacity_w,
        power_w: power_w(capacity_w, 11.0),
        sensible_fraction: SENSIBLE_FRACTION,
        flow_m3_s: FLOW_M3_S_PER_W * capacity_w,
    };
    CoolingUnit::rated(&rating, ROOM_UNIT).expect("a coil can have the usual rating")
}

/// A step of five minutes on a hot afternoon: 0.1 K in the room, 0.05 g of water, 0.1 K outdoors.
fn step(bencher: Bencher<'_, '_>, room_ratio: f64) {
    let unit = unit();
    let before = unit.at(26.0, room_ratio, 36.0, 98_000.0, None);
    bencher.bench(|| {
        unit.at(
            black_box(26.1),
            black_box(room_ratio + 5e-5),
            black_box(36.1),
            black_box(98_000.0),
            Some(black_box(&before)),
        )
    });
}

#[divan::bench]
fn wet_step(bencher: Bencher<'_, '_>) {
    step(bencher, 0.011);
}

#[divan::bench]
fn dry_step(bencher: Bencher<'_, '_>) {
    step(bencher, 0.004);
}

#[divan::bench]
fn first(bencher: Bencher<'_, '_>) {
    let unit = unit();
    bencher.bench(|| unit.at(black_box(26.1), black_box(0.011), black_box(36.1), black_box(98_000.0), None));
}
