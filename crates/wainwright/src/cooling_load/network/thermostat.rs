//! What a thermostat asks of a plant.

use super::nodes::{Drive, State};
use super::response::Response;

/// Between which temperatures the air may float.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Setpoints {
    /// Below this it is heated [°C]; −∞ for no heating.
    pub heat_c: f64,
    /// Above this it is cooled [°C], no lower than the other; ∞ for no cooling.
    pub cool_c: f64,
}

impl Setpoints {
    /// No heating and no cooling.
    pub const NONE: Self = Self { heat_c: f64::NEG_INFINITY, cool_c: f64::INFINITY };
}

/// What heater and cooler give at most.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plant {
    /// Heat the heater gives to the air [W], 0 or more.
    pub heat_w: f64,
    /// Heat the cooler takes from the air [W], 0 or more: its sensible capacity.
    pub cool_w: f64,
}

impl Plant {
    /// As much as is asked for.
    pub const UNLIMITED: Self = Self { heat_w: f64::INFINITY, cool_w: f64::INFINITY };
}

/// A step under a thermostat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Held {
    /// Heat the plant gave to the air on the mean through the step [W]: above 0 heating, below 0 cooling.
    pub power_w: f64,
    /// The state at the end of the step.
    pub after: State,
}

/// Heat into the air by which it ends a step at the nearer setpoint.
///
/// `Φ = (T_set − T_a) / r`, no more than the plant gives, T_a the air at the end of the step without it and r
/// [`Response::air_k_per_w`]; 0 where T_a lies between the setpoints
///
/// - `free_air_c`   air at the end of the step without plant T_a [°C]
/// - `air_k_per_w`  r [K/W], above 0
/// - `setpoints`    between which the air may float
/// - `plant`        what it gives at most
///
/// Returns Φ [W]: above 0 heating, below 0 cooling.
///
/// Source: the network is linear in what drives it.
pub fn required_w(free_air_c: f64, air_k_per_w: f64, setpoints: Setpoints, plant: Plant) -> f64 {
    if free_air_c < setpoints.heat_c {
        ((setpoints.heat_c - free_air_c) / air_k_per_w).min(plant.heat_w)
    } else if free_air_c > setpoints.cool_c {
        ((setpoints.cool_c - free_air_c) / air_k_per_w).max(-plant.cool_w)
    } else {
        0.0
    }
}

/// A step under a thermostat.
///
/// - `response`   the network over the step
/// - `before`     the state at its beginning
/// - `drive`      what else drives the network
/// - `setpoints`  between which the air may float
/// - `plant`      what it gives at most
#[inline]
pub fn hold(response: &Response, before: &State, drive: &Drive, setpoints: Setpoints, plant: Plant) -> Held {
    hold_from(response.step(before, drive), response, setpoints, plant)
}

/// A step under a thermostat, where its end without plant is known: [`hold`] from there on.
///
/// - `free`       the state at the end of the step without plant
/// - `response`   the network over the step
/// - `setpoints`  between which the air may float
/// - `plant`      what it gives at most
#[inline]
pub fn hold_from(free: State, response: &Response, setpoints: Setpoints, plant: Plant) -> Held {
    let power_w = required_w(free.air_c, response.air_k_per_w(), setpoints, plant);
    if power_w == 0.0 {
        return Held { power_w, after: free };
    }
    let rise = response.rise_k_per_w();
    let after = State {
        air_c: free.air_c + power_w * rise.air_c,
        mass_c: free.mass_c + power_w * rise.mass_c,
        floor_load_c: free.floor_load_c + power_w * rise.floor_load_c,
    };
    Held { power_w, after }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cooling_load::network::fixture::{AFTERNOON, BODY, drives, networks, states, ventilations};
    use proptest::prelude::*;

    const COMFORT: Setpoints = Setpoints { heat_c: 20.0, cool_c: 25.0 };
    const ROOM_UNIT: Plant = Plant { heat_w: 1500.0, cool_w: 1465.0 };

    #[test]
    fn between_the_setpoints_nothing_is_asked() {
        assert_eq!(required_w(20.0, 1e-3, COMFORT, ROOM_UNIT), 0.0);
        assert_eq!(required_w(25.0, 1e-3, COMFORT, ROOM_UNIT), 0.0);
        assert_eq!(required_w(-60.0, 1e-3, Setpoints::NONE, Plant::UNLIMITED), 0.0);
    }

    #[test]
    fn a_plant_gives_no_more_than_it_has() {
        assert_eq!(required_w(26.0, 1e-3, COMFORT, ROOM_UNIT), -1000.0);
        assert_eq!(required_w(27.0, 1e-3, COMFORT, ROOM_UNIT), -1465.0);
        assert_eq!(required_w(19.0, 1e-3, COMFORT, ROOM_UNIT), 1000.0);
        assert_eq!(required_w(18.0, 1e-3, COMFORT, ROOM_UNIT), 1500.0);
        assert_eq!(required_w(27.0, 1e-3, COMFORT, Plant { cool_w: 0.0, ..ROOM_UNIT }), 0.0);
    }

    #[test]
    fn what_is_no_number_asks_for_nothing() {
        assert_eq!(required_w(f64::NAN, 1e-3, COMFORT, ROOM_UNIT), 0.0);
    }

    #[test]
    fn beyond_its_capacity_the_air_is_warmer_than_set() {
        let response = BODY.response(8.0, 300.0);
        let drive = Drive { air_w: 0.0, ..AFTERNOON };
        let held = hold(&response, &State::even(35.0), &drive, COMFORT, ROOM_UNIT);
        assert_eq!(held.power_w, -1465.0);
        assert!(held.after.air_c > 25.0);
    }

    proptest! {
        #[test]
        fn the_air_ends_at_the_setpoint_and_the_rest_as_if_the_power_had_been_given(
            network in networks(), h_ve in ventilations(), state in states(), drive in drives(),
        ) {
            let response = network.response(h_ve, 300.0);
            let held = hold(&response, &state, &drive, COMFORT, Plant::UNLIMITED);
            let given = Drive { air_w: drive.air_w + held.power_w, ..drive };
            let after = response.step(&state, &given);
            let scale = 1.0 + held.power_w.abs() * response.air_k_per_w();
            prop_assert!((after.air_c - held.after.air_c).abs() < 1e-10 * scale);
            prop_assert!((after.mass_c - held.after.mass_c).abs() < 1e-10 * scale);
            prop_assert!((after.floor_load_c - held.after.floor_load_c).abs() < 1e-10 * scale);
            match held.power_w {
                0.0 => prop_assert!((20.0..=25.0).contains(&held.after.air_c)),
                heat_w if heat_w > 0.0 => prop_assert!((held.after.air_c - 20.0).abs() < 1e-10 * scale),
                _ => prop_assert!((held.after.air_c - 25.0).abs() < 1e-10 * scale),
            }
        }
    }
}
