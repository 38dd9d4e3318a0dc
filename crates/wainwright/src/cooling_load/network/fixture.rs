//! Networks and what drives them, for tests.

use proptest::prelude::*;

use super::nodes::{Drive, FloorLoad, Network, State};

/// A body of plywood and foam, invented.
pub const BODY: Network = Network {
    air_j_k: 7.0e4,
    mass_j_k: 5.0e5,
    surface_to_air_w_k: 150.0,
    mass_to_surface_w_k: 220.0,
    outside_to_mass_w_k: 60.0,
    windows_w_k: 6.0,
    floor_load: None,
};

/// A motorcycle, invented.
pub const MOTORCYCLE: FloorLoad = FloorLoad { heat_j_k: 1.0e5, to_surface_w_k: 20.0 };

/// A hot afternoon with a cooler on.
pub const AFTERNOON: Drive = Drive {
    outdoor_c: 35.0,
    supply_c: 36.0,
    equivalent_c: 45.0,
    air_w: -1400.0,
    surface_w: 200.0,
    mass_w: 300.0,
    floor_load_w: 10.0,
};

/// Largest difference of two states [K].
pub fn apart_k(one: &State, other: &State) -> f64 {
    let pairs = one.to_array().into_iter().zip(other.to_array());
    pairs.map(|(one, other)| (one - other).abs()).fold(0.0, f64::max)
}

/// A number of any size from one power of ten to another.
fn magnitude(powers: std::ops::Range<f64>) -> impl Strategy<Value = f64> {
    powers.prop_map(|power| 10.0_f64.powf(power))
}

/// Networks from sluggish to stiff, with and without windows and floor load.
pub fn networks() -> impl Strategy<Value = Network> {
    let windows = prop_oneof![Just(0.0), magnitude(-1.0..3.0)];
    let load = (magnitude(2.0..7.0), magnitude(-1.0..4.0))
        .prop_map(|(heat_j_k, to_surface_w_k)| FloorLoad { heat_j_k, to_surface_w_k });
    let capacities = (magnitude(2.0..6.0), magnitude(3.0..8.0));
    let conductances = (magnitude(0.0..5.0), magnitude(0.0..5.0), magnitude(-1.0..4.0));
    (capacities, conductances, windows, prop::option::of(load)).prop_map(
        |((air_j_k, mass_j_k), (air, mass, outside), windows_w_k, floor_load)| Network {
            air_j_k,
            mass_j_k,
            surface_to_air_w_k: air,
            mass_to_surface_w_k: mass,
            outside_to_mass_w_k: outside,
            windows_w_k,
            floor_load,
        },
    )
}

/// Heat carried by air that is exchanged [W/K], none at times.
pub fn ventilations() -> impl Strategy<Value = f64> {
    prop_oneof![Just(0.0), magnitude(-1.0..4.0)]
}

/// Lengths of a step [s].
pub fn steps() -> impl Strategy<Value = f64> {
    magnitude(0.0..4.0)
}

/// What drives a network, within the bounds of weather and of usual equipment.
pub fn drives() -> impl Strategy<Value = Drive> {
    let outside = (-40.0..50.0f64, -40.0..50.0f64, -40.0..90.0f64);
    let heat = (-5000.0..5000.0f64, 0.0..2000.0f64, 0.0..2000.0f64, 0.0..100.0f64);
    (outside, heat).prop_map(
        |((outdoor_c, supply_c, equivalent_c), (air_w, surface_w, mass_w, floor_load_w))| Drive {
            outdoor_c,
            supply_c,
            equivalent_c,
            air_w,
            surface_w,
            mass_w,
            floor_load_w,
        },
    )
}

/// Temperatures from winter to a hot soak.
pub fn states() -> impl Strategy<Value = State> {
    (-20.0..70.0f64, -20.0..70.0f64, -20.0..70.0f64).prop_map(|(air_c, mass_c, floor_load_c)| State {
        air_c,
        mass_c,
        floor_load_c,
    })
}
