//! Laws of every network, from sluggish to stiff.

use proptest::prelude::*;

use super::fixture::{apart_k, drives, networks, states, steps, ventilations};
use super::nodes::{Drive, State};

proptest! {
    #[test]
    fn a_step_is_two_of_half_its_length(
        network in networks(), h_ve in ventilations(), step_s in steps(), state in states(), drive in drives(),
    ) {
        let half = network.response(h_ve, step_s / 2.0);
        let middle = half.step(&state, &drive);
        let end = half.step(&middle, &drive);
        let whole = network.response(h_ve, step_s);
        let scale = 100.0 + end.to_array().into_iter().map(f64::abs).fold(0.0, f64::max);
        prop_assert!(apart_k(&end, &whole.step(&state, &drive)) < 1e-10 * scale);
        let mean = State::from_array(std::array::from_fn(|of| {
            0.5 * (half.mean(&state, &drive).to_array()[of] + half.mean(&middle, &drive).to_array()[of])
        }));
        prop_assert!(apart_k(&mean, &whole.mean(&state, &drive)) < 1e-10 * scale);
    }

    #[test]
    fn where_it_rests_it_stays(
        network in networks(), h_ve in ventilations(), step_s in steps(), drive in drives(),
    ) {
        let rest = network.steady(h_ve, &drive).unwrap();
        let response = network.response(h_ve, step_s);
        let scale = 100.0 + rest.to_array().into_iter().map(f64::abs).fold(0.0, f64::max);
        prop_assert!(apart_k(&response.step(&rest, &drive), &rest) < 1e-9 * scale);
        prop_assert!(apart_k(&response.mean(&rest, &drive), &rest) < 1e-9 * scale);
    }

    #[test]
    fn without_heat_set_free_it_stays_within_what_surrounds_it(
        network in networks(), h_ve in ventilations(), step_s in steps(), state in states(), drive in drives(),
    ) {
        let drive = Drive { air_w: 0.0, surface_w: 0.0, mass_w: 0.0, floor_load_w: 0.0, ..drive };
        let around = [
            drive.outdoor_c, drive.supply_c, drive.equivalent_c,
            state.air_c, state.mass_c, state.floor_load_c,
        ];
        let least_c = around.into_iter().fold(f64::INFINITY, f64::min);
        let most_c = around.into_iter().fold(f64::NEG_INFINITY, f64::max);
        let response = network.response(h_ve, step_s);
        for found in [response.step(&state, &drive), response.mean(&state, &drive)] {
            for at_c in found.to_array() {
                prop_assert!(at_c > least_c - 1e-9 && at_c < most_c + 1e-9, "{at_c}");
            }
        }
    }

    #[test]
    fn heat_into_the_air_warms_everything(
        network in networks(), h_ve in ventilations(), step_s in steps(),
    ) {
        let response = network.response(h_ve, step_s);
        prop_assert!(response.air_k_per_w() > 0.0);
        prop_assert!(response.rise_k_per_w().mass_c > -1e-15);
        // No more than if none of it left the air.
        prop_assert!(response.air_k_per_w() <= (1.0 + 1e-12) * step_s / network.air_j_k);
    }
}
