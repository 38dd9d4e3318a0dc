//! The state from which a day comes back to itself.

use super::modes::Matrix;
use super::nodes::{Drive, State};
use super::response::Response;

/// Share of the heat in a capacity that a lap must lose at least: below, rounding would be taken for a loss.
const LEAST_LOST: f64 = 1e-12;

/// The state from which a lap of steps ends where it began.
///
/// `x = (I − Φ)⁻¹ c`: Φ is what a lap leaves of the state, c where it ends from 0 °C
///
/// - `steps`  the lap: each step's response, and what drives the network through it. No thermostat: the lap must be
///   linear in the state
///
/// Returns none where nothing leads out of the box, so that no day is like the one before.
///
/// Source: fixed point of a linear map.
pub fn periodic_start<'a>(steps: impl IntoIterator<Item = (&'a Response, Drive)>) -> Option<State> {
    let mut left: Matrix = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]];
    let mut end = State::even(0.0);
    for (response, drive) in steps {
        end = response.step(&end, &drive);
        left = product(response.left(), &left);
    }
    let [one, two, three] = left;
    let lost = [
        [1.0 - one[0], -one[1], -one[2]],
        [-two[0], 1.0 - two[1], -two[2]],
        [-three[0], -three[1], 1.0 - three[2]],
    ];
    solved(lost, end.to_array()).map(State::from_array)
}

fn product(a: &Matrix, b: &Matrix) -> Matrix {
    std::array::from_fn(|i| {
        std::array::from_fn(|j| a[i][0] * b[0][j] + a[i][1] * b[1][j] + a[i][2] * b[2][j])
    })
}

/// Solves `a x = b` by elimination, without exchanging rows: in `I − Φ`, Φ of shares that add up to less than 1, each
/// diagonal outweighs its row.
fn solved(mut a: Matrix, mut b: [f64; 3]) -> Option<[f64; 3]> {
    for pivot in 0..3 {
        let (line, value) = (a[pivot], b[pivot]);
        if line[pivot].is_nan() || line[pivot] < LEAST_LOST {
            return None;
        }
        for row in pivot + 1..3 {
            let factor = a[row][pivot] / line[pivot];
            a[row] = std::array::from_fn(|column| a[row][column] - factor * line[column]);
            b[row] -= factor * value;
        }
    }
    let third = b[2] / a[2][2];
    let second = (b[1] - a[1][2] * third) / a[1][1];
    let first = (b[0] - a[0][1] * second - a[0][2] * third) / a[0][0];
    Some([first, second, third])
}

#[cfg(test)]
mod tests {
    use std::f64::consts::TAU;

    use super::*;
    use crate::cooling_load::network::Network;
    use crate::cooling_load::network::fixture::{AFTERNOON, BODY, MOTORCYCLE, apart_k, networks};
    use proptest::prelude::*;

    /// A day in steps of half an hour, its nights ventilated.
    fn day(by_day: Response, by_night: Response) -> impl Iterator<Item = (bool, Response, Drive)> {
        (0..48).map(move |step| {
            let wave = (TAU * f64::from(step - 30) / 48.0).cos();
            let night = !(14..40).contains(&step);
            let drive = Drive {
                outdoor_c: 30.0 + 6.0 * wave,
                supply_c: 30.0 + 6.0 * wave,
                equivalent_c: 34.0 + 14.0 * wave,
                surface_w: 300.0 * wave.max(0.0),
                ..Drive::default()
            };
            (night, if night { by_night } else { by_day }, drive)
        })
    }

    fn comes_back(network: &Network) -> f64 {
        let steps: Vec<_> = day(network.response(5.0, 1800.0), network.response(60.0, 1800.0)).collect();
        let start = periodic_start(steps.iter().map(|(_, response, drive)| (response, *drive))).unwrap();
        let end = steps.iter().fold(start, |state, (_, response, drive)| response.step(&state, drive));
        apart_k(&start, &end)
    }

    #[test]
    fn a_constant_day_starts_at_rest() {
        for floor_load in [None, Some(MOTORCYCLE)] {
            let network = Network { floor_load, ..BODY };
            let response = network.response(8.0, 900.0);
            let start = periodic_start((0..96).map(|_| (&response, AFTERNOON))).unwrap();
            let rest = response.steady(&AFTERNOON).unwrap();
            assert!(apart_k(&start, &rest) < 1e-11, "{start:?} {rest:?}");
        }
    }

    #[test]
    fn a_day_of_two_ventilations_comes_back_to_itself() {
        for floor_load in [None, Some(MOTORCYCLE)] {
            assert!(comes_back(&Network { floor_load, ..BODY }) < 1e-11);
        }
    }

    #[test]
    fn a_closed_box_has_no_such_day() {
        let closed = Network { outside_to_mass_w_k: 0.0, windows_w_k: 0.0, ..BODY };
        let response = closed.response(0.0, 900.0);
        assert_eq!(periodic_start((0..96).map(|_| (&response, AFTERNOON))), None);
        assert_eq!(periodic_start([]), None);
    }

    proptest! {
        #[test]
        fn every_linear_day_comes_back_to_itself(network in networks()) {
            prop_assert!(comes_back(&network) < 1e-6, "{}", comes_back(&network));
        }
    }
}
