//! The ways in which a network settles: a symmetric matrix taken apart into its eigenvectors.

/// A matrix of three rows.
pub(super) type Matrix = [[f64; 3]; 3];

/// Most sweeps over the three pairs. Each about doubles the digits, and six are enough for any matrix met.
const SWEEPS_MOST: usize = 12;

/// A symmetric matrix as `V diag(λ) Vᵀ`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Modes {
    /// Eigenvalues λ, in the order of the columns of V.
    pub values: [f64; 3],
    /// Eigenvectors: the columns of V.
    vectors: Matrix,
}

impl Modes {
    /// Takes a matrix apart by Jacobi's rotations.
    ///
    /// With only one pair of rows coupled a single rotation is the closed form.
    ///
    /// - `a`  the matrix; only what is on and above its diagonal is read
    ///
    /// Source: Golub and Van Loan, Matrix Computations, 8.5 (`from memory`).
    pub fn of(mut a: Matrix) -> Self {
        let mut v = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]];
        for _ in 0..SWEEPS_MOST {
            let mut turned = false;
            for (p, q, other) in [(0, 1, 2), (0, 2, 1), (1, 2, 0)] {
                let coupling = a[p][q];
                // Below this a rotation moves no digit of either eigenvalue.
                if coupling * coupling <= f64::EPSILON * f64::EPSILON * (a[p][p] * a[q][q]).abs() {
                    continue;
                }
                turned = true;
                let half_apart = 0.5 * (a[q][q] - a[p][p]);
                let sign = if half_apart < 0.0 { -1.0 } else { 1.0 };
                let tan = sign * coupling / (half_apart.abs() + half_apart.hypot(coupling));
                let cos = 1.0 / (1.0 + tan * tan).sqrt();
                let sin = tan * cos;
                a[p][p] -= tan * coupling;
                a[q][q] += tan * coupling;
                a[p][q] = 0.0;
                let (to_p, to_q) = (upper(&a, p, other), upper(&a, q, other));
                *upper_mut(&mut a, p, other) = cos * to_p - sin * to_q;
                *upper_mut(&mut a, q, other) = sin * to_p + cos * to_q;
                for row in &mut v {
                    (row[p], row[q]) = (cos * row[p] - sin * row[q], sin * row[p] + cos * row[q]);
                }
            }
            if !turned {
                break;
            }
        }
        Self { values: [a[0][0], a[1][1], a[2][2]], vectors: v }
    }

    /// The matrix with other eigenvalues: `V diag(f) Vᵀ`.
    ///
    /// - `values`  the eigenvalues f, in the order of [`Modes::values`]
    pub fn with(&self, values: [f64; 3]) -> Matrix {
        let v = &self.vectors;
        let entry = |i: usize, j: usize| {
            v[i][0] * v[j][0] * values[0] + v[i][1] * v[j][1] * values[1] + v[i][2] * v[j][2] * values[2]
        };
        let (am, af, mf) = (entry(0, 1), entry(0, 2), entry(1, 2));
        [[entry(0, 0), am, af], [am, entry(1, 1), mf], [af, mf, entry(2, 2)]]
    }
}

fn upper(a: &Matrix, i: usize, j: usize) -> f64 {
    a[i.min(j)][i.max(j)]
}

fn upper_mut(a: &mut Matrix, i: usize, j: usize) -> &mut f64 {
    &mut a[i.min(j)][i.max(j)]
}

/// The exponential function and its two quotients, which give a step, and the mean over it, of what settles.
///
/// `e^z`, `φ₁ = (e^z − 1) / z`, `φ₂ = (φ₁ − 1) / z`; at 0 they are 1, 1 and 1/2
///
/// - `z`  rate by time, 0 or less
///
/// Returns them in that order, to 1e-15 of themselves, `e^z` to 1e-15.
pub(super) fn settling(z: f64) -> [f64; 3] {
    let grown = z.exp_m1();
    let first = if z == 0.0 { 1.0 } else { grown / z };
    // The quotient loses digits as z nears 0, where the series has them all.
    let second = if z < -0.5 { (first - 1.0) / z } else { second_near_zero(z) };
    [grown + 1.0, first, second]
}

/// `φ₂ = Σ z^k / (k + 2)!` to k = 12; what is left out is below 1e-16 for |z| up to 1/2.
fn second_near_zero(z: f64) -> f64 {
    const PER_FACTORIAL: [f64; 13] = {
        let mut terms = [0.5; 13];
        let mut k = 1;
        while k < 13 {
            terms[k] = terms[k - 1] / (k + 2) as f64;
            k += 1;
        }
        terms
    };
    PER_FACTORIAL.iter().rev().fold(0.0, |sum, term| term + z * sum)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn uncoupled_rows_are_left_alone() {
        let modes = Modes::of([[-3.0, 0.0, 0.0], [0.0, -1.0, 0.0], [0.0, 0.0, 0.0]]);
        assert_eq!(modes.values, [-3.0, -1.0, 0.0]);
        assert_eq!(modes.with([1.0, 2.0, 4.0]), [[1.0, 0.0, 0.0], [0.0, 2.0, 0.0], [0.0, 0.0, 4.0]]);
    }

    #[test]
    fn equal_rows_part_into_sum_and_difference() {
        let modes = Modes::of([[-2.0, 1.0, 0.0], [0.0, -2.0, 0.0], [0.0, 0.0, 0.0]]);
        assert_eq!(modes.values, [-3.0, -1.0, 0.0]);
    }

    #[test]
    fn the_quotients_meet_where_their_formulas_change() {
        let [_, first, second] = settling(-0.5);
        assert!(((first - 1.0) / -0.5 / second - 1.0).abs() < 1e-15);
        assert_eq!(settling(0.0), [1.0, 1.0, 0.5]);
        assert_eq!(settling(f64::NEG_INFINITY)[0], 0.0);
    }

    #[test]
    fn the_quotients_at_minus_one() {
        // 1/e, 1 − 1/e and 1/e.
        let per_e = (-1.0_f64).exp();
        for (worked_out, expected) in settling(-1.0).into_iter().zip([per_e, 1.0 - per_e, per_e]) {
            assert!((worked_out - expected).abs() < 2e-16);
        }
    }

    proptest! {
        #[test]
        fn a_matrix_is_put_together_again(entries in prop::array::uniform6(-1.0..1.0f64)) {
            let [xx, xy, xz, yy, yz, zz] = entries;
            let modes = Modes::of([[xx, xy, xz], [0.0, yy, yz], [0.0, 0.0, zz]]);
            let again = modes.with(modes.values);
            for (found, expected) in again.iter().flatten().zip([xx, xy, xz, xy, yy, yz, xz, yz, zz]) {
                prop_assert!((found - expected).abs() < 1e-14, "{found} {expected}");
            }
            let one = modes.with([1.0; 3]);
            prop_assert!((one[0][0] - 1.0).abs() < 1e-14 && one[0][1].abs() < 1e-14);
        }
    }
}
