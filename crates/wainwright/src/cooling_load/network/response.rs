//! How the network answers over a step of given length, worked out once and used for many steps.

use super::links::Links;
use super::modes::{Matrix, Modes, settling};
use super::nodes::{Drive, Network, State};

/// The answer of a network over a step.
///
/// `x' = A x + b` with constant b: `x₁ = e^{AΔ} x₀ + Δ φ₁(AΔ) b`, and the mean over the step
/// `φ₁(AΔ) x₀ + Δ φ₂(AΔ) b`
///
/// Scaled by the roots of the heat capacities A is symmetric, and its eigenvalues are real and 0 or less: the functions
/// of it are those of its eigenvalues. Nothing is truncated, however stiff the network or long the step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Response {
    network: Network,
    links: Links,
    step_s: f64,
    /// What is left of each temperature.
    left: Matrix,
    /// What heat into each adds to each temperature [K/W].
    added: Matrix,
    /// Mean over the step, of the temperatures before it.
    mean_left: Matrix,
    /// Mean over the step of what heat adds [K/W].
    mean_added: Matrix,
}

impl Network {
    /// Makes the network ready for steps of a length.
    ///
    /// - `ventilation_w_k`  heat carried by air that is exchanged H_ve [W/K], 0 or more
    /// - `step_s`           length of a step Δ [s], 0 or more
    pub fn response(&self, ventilation_w_k: f64, step_s: f64) -> Response {
        let links = self.links(ventilation_w_k);
        let load_j_k = self.floor_load.map_or(1.0, |load| load.heat_j_k);
        let per_root = [self.air_j_k, self.mass_j_k, load_j_k].map(|heat_j_k| 1.0 / heat_j_k.sqrt());
        let [air_mass, air_load, mass_load] = links.between;
        let [air_out, mass_out, load_out] = links.out;
        let scaled = |i: usize, j: usize, conductance_w_k: f64| conductance_w_k * per_root[i] * per_root[j];
        let modes = Modes::of([
            [-scaled(0, 0, air_mass + air_load + air_out), scaled(0, 1, air_mass), scaled(0, 2, air_load)],
            [0.0, -scaled(1, 1, air_mass + mass_load + mass_out), scaled(1, 2, mass_load)],
            [0.0, 0.0, -scaled(2, 2, air_load + mass_load + load_out)],
        ]);
        // Rounding may lift a rate of 0 a hair above it.
        let [one, two, three] = modes.values.map(|per_s| settling((per_s * step_s).min(0.0)));
        let [left, mean, mean_of_mean] = std::array::from_fn(|of| modes.with([one[of], two[of], three[of]]));

        let per_temperature =
            |symmetric: &Matrix| entries(|i, j| symmetric[i][j] * per_root[i] / per_root[j]);
        let per_heat =
            |symmetric: &Matrix| entries(|i, j| symmetric[i][j] * per_root[i] * per_root[j] * step_s);
        let mut response = Response {
            network: *self,
            links,
            step_s,
            left: per_temperature(&left),
            added: per_heat(&mean),
            mean_left: per_temperature(&mean),
            mean_added: per_heat(&mean_of_mean),
        };
        if self.floor_load.is_none() {
            response.let_the_floor_go_with_the_mass();
        }
        response
    }
}

fn entries(entry: impl Fn(usize, usize) -> f64) -> Matrix {
    std::array::from_fn(|i| std::array::from_fn(|j| entry(i, j)))
}

/// `left x + added q`
#[inline]
fn forward(left: &Matrix, x: [f64; 3], added: &Matrix, q: [f64; 3]) -> State {
    let row = |i: usize| {
        left[i][0] * x[0]
            + left[i][1] * x[1]
            + left[i][2] * x[2]
            + (added[i][0] * q[0] + added[i][1] * q[1] + added[i][2] * q[2])
    };
    State { air_c: row(0), mass_c: row(1), floor_load_c: row(2) }
}

impl Response {
    fn let_the_floor_go_with_the_mass(&mut self) {
        for matrix in [&mut self.left, &mut self.added, &mut self.mean_left, &mut self.mean_added] {
            for row in matrix.iter_mut() {
                row[2] = 0.0;
            }
            matrix[2] = matrix[1];
        }
    }

    /// The network it is the response of.
    pub fn network(&self) -> &Network {
        &self.network
    }

    /// Heat carried by air that is exchanged H_ve [W/K].
    pub fn ventilation_w_k(&self) -> f64 {
        self.links.ventilation_w_k
    }

    /// Length of a step [s].
    pub fn step_s(&self) -> f64 {
        self.step_s
    }

    /// The state at the end of a step.
    ///
    /// - `before`  the state at its beginning
    /// - `drive`   what drives the network through it
    #[inline]
    pub fn step(&self, before: &State, drive: &Drive) -> State {
        forward(&self.left, before.to_array(), &self.added, self.links.heat_w(drive))
    }

    /// The state on the mean over a step.
    ///
    /// - `before`  the state at its beginning
    /// - `drive`   what drives the network through it
    #[inline]
    pub fn mean(&self, before: &State, drive: &Drive) -> State {
        forward(&self.mean_left, before.to_array(), &self.mean_added, self.links.heat_w(drive))
    }

    /// How much each watt into the air through a step adds to the state at its end [K/W].
    #[inline]
    pub fn rise_k_per_w(&self) -> State {
        State::from_array([self.added[0][0], self.added[1][0], self.added[2][0]])
    }

    /// How much each watt into the air through a step adds to the air at its end [K/W], above 0.
    #[inline]
    pub fn air_k_per_w(&self) -> f64 {
        self.added[0][0]
    }

    /// Where the network comes to rest, as by [`Network::steady`].
    pub fn steady(&self, drive: &Drive) -> Option<State> {
        self.network.steady(self.ventilation_w_k(), drive)
    }

    /// What is left of each temperature after a step, by row.
    #[inline]
    pub(super) fn left(&self) -> &Matrix {
        &self.left
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cooling_load::network::fixture::{AFTERNOON, BODY, MOTORCYCLE, apart_k};

    #[test]
    fn air_alone_decays_to_where_its_heat_goes() {
        let alone = Network { air_j_k: 1.2e6, surface_to_air_w_k: 0.0, ..BODY };
        let drive = Drive { supply_c: 35.0, air_w: -1465.0, ..AFTERNOON };
        let after = alone.response(45.0, 3600.0).step(&State::even(60.0), &drive);
        let rest_c = 35.0 - 1465.0 / 45.0;
        let expected_c = rest_c + (60.0 - rest_c) * (-45.0 * 3600.0 / 1.2e6_f64).exp();
        assert!((after.air_c - expected_c).abs() < 1e-12, "{}", after.air_c);
    }

    #[test]
    fn two_halves_that_settle_alike_and_do_not_touch() {
        let apart = Network {
            air_j_k: 1e5,
            mass_j_k: 1e5,
            surface_to_air_w_k: 0.0,
            windows_w_k: 0.0,
            outside_to_mass_w_k: 50.0,
            ..BODY
        };
        let drive = Drive { supply_c: 30.0, equivalent_c: 30.0, ..Drive::default() };
        let after = apart.response(50.0, 600.0).step(&State::even(20.0), &drive);
        let expected_c = 30.0 - 10.0 * (-0.3_f64).exp();
        assert!((after.air_c - expected_c).abs() < 1e-13 && (after.mass_c - expected_c).abs() < 1e-13);
    }

    #[test]
    fn without_a_load_its_place_goes_with_the_mass() {
        let response = BODY.response(8.0, 300.0);
        let after = response.step(&State::even(30.0), &AFTERNOON);
        assert_eq!(after.floor_load_c, after.mass_c);
        let elsewhere = State { floor_load_c: 99.0, ..State::even(30.0) };
        assert_eq!(response.step(&elsewhere, &AFTERNOON), after);
    }

    #[test]
    fn a_closed_box_keeps_all_its_heat() {
        let closed = Network { outside_to_mass_w_k: 0.0, windows_w_k: 0.0, ..BODY };
        let drive = Drive { air_w: 1000.0, ..Drive::default() };
        let response = closed.response(0.0, 3600.0);
        let after = response.step(&State::even(20.0), &drive);
        let stored_j = closed.air_j_k * (after.air_c - 20.0) + closed.mass_j_k * (after.mass_c - 20.0);
        assert!((stored_j / 3.6e6 - 1.0).abs() < 1e-12, "{stored_j}");
        assert_eq!(response.steady(&drive), None);
    }

    #[test]
    fn no_time_changes_nothing() {
        let network = Network { floor_load: Some(MOTORCYCLE), ..BODY };
        let (response, state) = (network.response(8.0, 0.0), State { air_c: 25.0, ..State::even(40.0) });
        assert!(apart_k(&response.step(&state, &AFTERNOON), &state) < 1e-13);
        assert!(apart_k(&response.mean(&state, &AFTERNOON), &state) < 1e-13);
    }

    #[test]
    fn what_is_no_number_does_no_harm() {
        let network = Network { air_j_k: f64::NAN, ..BODY };
        assert!(network.response(8.0, 300.0).step(&State::even(20.0), &AFTERNOON).air_c.is_nan());
    }
}
