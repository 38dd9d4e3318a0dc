//! Published worked examples of loads and of the neutral of two legs. Each test names its source; tolerance: the digits
//! published.

use serde_json::json;
use wainwright::Build;
use wainwright::circuit_load::current::{Phasor, power_factor_a};
use wainwright::circuit_load::drawn::load;
use wainwright::circuit_load::split_phase::neutral_a;
use wainwright::circuit_load::wiring::Wiring;

use super::printed::assert_printed;

/// Source: NEC Annex D, example D1(a). A neutral load of 14,550 VA on a 240 V feeder is 61 A.
#[test]
fn the_neutral_of_a_dwelling_carries_61_a() {
    assert_printed(power_factor_a(14_550.0, 240.0, 1.0), "61");
}

/// Source: a code forum on the single-phase neutral: 5 A and 8 A on the two legs leave 3 A, 10 A and 10 A on the same leg
/// add to 20 A. Another text: 16 A and 10 A leave 6 A.
#[test]
fn the_neutral_carries_the_difference_of_two_legs_and_the_sum_on_one() {
    let neutral_a = |a: f64, b: f64, same_leg| neutral_a(Phasor::of(a, 1.0), Phasor::of(b, 1.0), same_leg);
    assert_printed(neutral_a(5.0, 8.0, false), "3");
    assert_printed(neutral_a(16.0, 10.0, false), "6");
    assert_printed(neutral_a(10.0, 10.0, true), "20");
}

/// `common practice`: a room unit of 5,000 Btu/h takes about 420 W and less than 4.5 A at 120 V. With any power factor
/// such a unit has, the current is in keeping with that, in a build as well.
#[test]
fn a_room_unit_of_420_w_draws_less_than_4_5_a() {
    for hundredths in 80..=100 {
        let power_factor = f64::from(hundredths) / 100.0;
        let by_hand_a = power_factor_a(420.0, 120.0, power_factor);
        let document = json!({
            "parts": {"unit": {"mass_lb": 40, "electrical": {"circuit": "cooler", "power_w": 420,
                "kind": "room_air_conditioner", "power_factor": power_factor}}},
            "electrical": {"sources": {"shore": {"kind": "shore", "voltage_v": 120}}, "circuits": {"cooler": {}}}
        });
        let build = Build::from_json(document.to_string().as_bytes()).unwrap();
        let wiring = Wiring::of(&build).unwrap();
        let drawn = load(&wiring.loads[0], 120.0, true);
        assert!(by_hand_a < 4.5 && drawn.current_a < 4.5);
        assert!((drawn.current_a - by_hand_a).abs() < 1e-12);
        assert!((drawn.power_w - 420.0).abs() < 1e-9);
    }
}
