//! Heat over each link of the network through a step.

use super::nodes::{Drive, State};
use super::response::Response;

/// Heat over each link, on the mean through a step: in the direction of its name [W].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Flows {
    /// Through the opaque envelope.
    pub outside_to_mass_w: f64,
    /// Through windows and all else without mass, without what shines in.
    pub windows_to_surface_w: f64,
    /// With air that is exchanged.
    pub ventilation_to_air_w: f64,
    /// From the surfaces to the air.
    pub surface_to_air_w: f64,
    /// From the mass to the surfaces.
    pub mass_to_surface_w: f64,
    /// From the load on the floor to the surfaces.
    pub floor_load_to_surface_w: f64,
    /// Stored in the air.
    pub stored_in_air_w: f64,
    /// Stored in the mass.
    pub stored_in_mass_w: f64,
    /// Stored in the load on the floor.
    pub stored_in_floor_load_w: f64,
}

impl Flows {
    /// All that comes from outside [W], without what is set free or shines in.
    pub fn from_outside_w(&self) -> f64 {
        self.outside_to_mass_w + self.windows_to_surface_w + self.ventilation_to_air_w
    }

    /// All that is stored [W].
    pub fn stored_w(&self) -> f64 {
        self.stored_in_air_w + self.stored_in_mass_w + self.stored_in_floor_load_w
    }
}

impl Response {
    /// Heat over each link through a step.
    ///
    /// Each link carries its conductance by the difference of the mean temperatures at its ends. What comes from
    /// outside and what is set free add up to what is stored.
    ///
    /// - `before`  the state at the beginning of the step
    /// - `after`   the state at its end, by [`Response::step`]
    /// - `drive`   what drives the network through it
    pub fn flows(&self, before: &State, after: &State, drive: &Drive) -> Flows {
        let network = self.network();
        let mean = self.mean(before, drive);
        let surface_c = network.surface_c(&mean, drive);
        let stored_w =
            |heat_j_k: f64, before_c: f64, after_c: f64| heat_j_k * (after_c - before_c) / self.step_s();
        let load_j_k = network.floor_load.map_or(0.0, |load| load.heat_j_k);
        Flows {
            outside_to_mass_w: network.outside_to_mass_w_k * (drive.equivalent_c - mean.mass_c),
            windows_to_surface_w: network.windows_w_k * (drive.outdoor_c - surface_c),
            ventilation_to_air_w: self.ventilation_w_k() * (drive.supply_c - mean.air_c),
            surface_to_air_w: network.surface_to_air_w_k * (surface_c - mean.air_c),
            mass_to_surface_w: network.mass_to_surface_w_k * (mean.mass_c - surface_c),
            floor_load_to_surface_w: network.floor_load_w_k() * (mean.floor_load_c - surface_c),
            stored_in_air_w: stored_w(network.air_j_k, before.air_c, after.air_c),
            stored_in_mass_w: stored_w(network.mass_j_k, before.mass_c, after.mass_c),
            stored_in_floor_load_w: stored_w(load_j_k, before.floor_load_c, after.floor_load_c),
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::cooling_load::network::fixture::{drives, networks, states, steps, ventilations};
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn heat_in_is_heat_stored_at_every_node(
            network in networks(), h_ve in ventilations(), step_s in steps(), state in states(), drive in drives(),
        ) {
            let response = network.response(h_ve, step_s);
            let flows = response.flows(&state, &response.step(&state, &drive), &drive);
            let floor_load_w = network.floor_load.map_or(0.0, |_| drive.floor_load_w);
            let nodes = [
                [flows.ventilation_to_air_w, flows.surface_to_air_w, drive.air_w, -flows.stored_in_air_w],
                [flows.outside_to_mass_w, -flows.mass_to_surface_w, drive.mass_w, -flows.stored_in_mass_w],
                [-flows.floor_load_to_surface_w, floor_load_w, 0.0, -flows.stored_in_floor_load_w],
                [
                    flows.windows_to_surface_w + drive.surface_w,
                    flows.mass_to_surface_w,
                    flows.floor_load_to_surface_w,
                    -flows.surface_to_air_w,
                ],
                [
                    flows.from_outside_w(),
                    drive.air_w + drive.surface_w + drive.mass_w,
                    floor_load_w,
                    -flows.stored_w(),
                ],
            ];
            // What the last bits of a temperature are worth as heat stored in a step.
            let load_j_k = network.floor_load.map_or(0.0, |load| load.heat_j_k);
            let heat_j_k = network.air_j_k + network.mass_j_k + load_j_k;
            let rounding_w = 4.0 * f64::EPSILON * 70.0 * heat_j_k / step_s;
            for node in nodes {
                let scale_w = node.iter().fold(0.0, |sum, flow_w| sum + flow_w.abs()) + 1.0;
                let left_over_w: f64 = node.iter().sum();
                prop_assert!(left_over_w.abs() < 1e-9 * scale_w + rounding_w, "{left_over_w} of {scale_w}");
            }
        }
    }
}
