//! Roots of a real polynomial of the fourth degree.

/// A root: a pair a + bi, a − bi counts as two.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Root {
    /// Real part.
    pub re: f64,
    /// Imaginary part, exactly 0 for a real root.
    pub im: f64,
}

/// The four roots of `c₀ + c₁ x + c₂ x² + c₃ x³ + c₄ x⁴`.
///
/// - `coefficients`  c₀ to c₄, c₄ not 0
///
/// Returns the roots; those of a complex pair stand together.
///
/// The polynomial is split in two real quadratics by Ferrari's method, and each is then refined on the undivided
/// polynomial by Bairstow's, so that the cancellation of the closed form does not show. Near a multiple root about
/// half the digits remain, as for any method that starts from coefficients.
///
/// Source: L. Ferrari's and L. Bairstow's methods, as in any text on numerical analysis (`from memory`).
pub fn roots(coefficients: [f64; 5]) -> [Root; 4] {
    let [c0, c1, c2, c3, c4] = coefficients;
    let monic = [c0 / c4, c1 / c4, c2 / c4, c3 / c4];
    let [first, second] = factors(monic).map(|factor| refined(monic, factor));
    let ([a, b], [c, d]) = (quadratic_roots(first), quadratic_roots(second));
    [a, b, c, d]
}

/// A quadratic `x² + p x + q`.
#[derive(Debug, Clone, Copy)]
struct Quadratic {
    p: f64,
    q: f64,
}

/// Two quadratics whose product is the monic quartic, by Ferrari's method.
fn factors([c0, c1, c2, c3]: [f64; 4]) -> [Quadratic; 2] {
    // x = y − c₃/4 leaves y⁴ + f y² + g y + h = (y² + s y + m)(y² − s y + n).
    let shift = c3 / 4.0;
    let square = shift * shift;
    let f = c2 - 6.0 * square;
    let g = c1 - 2.0 * c2 * shift + 8.0 * square * shift;
    let h = c0 - c1 * shift + c2 * square - 3.0 * square * square;
    let s_square = greatest_cubic_root(2.0 * f, f * f - 4.0 * h, -g * g).max(0.0);
    let s = s_square.sqrt();
    let sum = f + s_square;
    // n − m = g/s; with no s the quartic is quadratic in y².
    let difference = if s > 0.0 { g / s } else { (sum * sum - 4.0 * h).max(0.0).sqrt() };
    let back = |s: f64, constant: f64| Quadratic { p: s + 2.0 * shift, q: square + s * shift + constant };
    [back(s, (sum - difference) / 2.0), back(-s, (sum + difference) / 2.0)]
}

/// Greatest real root of `u³ + a u² + b u + c`, in Viète's and Cardano's forms.
fn greatest_cubic_root(a: f64, b: f64, c: f64) -> f64 {
    let q = (a * a - 3.0 * b) / 9.0;
    let r = (2.0 * a * a * a - 9.0 * a * b + 27.0 * c) / 54.0;
    let q_cube = q * q * q;
    if r * r < q_cube {
        let angle = (r / q_cube.sqrt()).acos() + std::f64::consts::TAU;
        return -2.0 * q.sqrt() * (angle / 3.0).cos() - a / 3.0;
    }
    let one = -(r.abs() + (r * r - q_cube).sqrt()).cbrt().copysign(r);
    let other = if one == 0.0 { 0.0 } else { q / one };
    one + other - a / 3.0
}

/// A quadratic factor brought nearer to dividing the monic quartic without remainder, by Bairstow's steps.
fn refined([c0, c1, c2, c3]: [f64; 4], start: Quadratic) -> Quadratic {
    const STEPS: usize = 4;
    let mut factor = start;
    for _ in 0..STEPS {
        let Quadratic { p, q } = factor;
        // Quotient x² + k₁ x + k₀, remainder r₁ x + r₀.
        let k1 = c3 - p;
        let k0 = c2 - q - p * k1;
        let r1 = c1 - q * k1 - p * k0;
        let r0 = c0 - q * k0;
        // The quotient's own remainder s₁ x + s₀ by the factor is how the first remainder moves.
        let s1 = k1 - p;
        let s0 = k0 - q;
        let determinant = s0 * (s0 - p * s1) + q * s1 * s1;
        let dp = (s0 * r1 - s1 * r0) / determinant;
        let dq = (q * s1 * r1 + (s0 - p * s1) * r0) / determinant;
        if !(dp.is_finite() && dq.is_finite()) {
            break;
        }
        factor = Quadratic { p: p + dp, q: q + dq };
    }
    factor
}

/// Roots of a quadratic, without cancellation.
fn quadratic_roots(Quadratic { p, q }: Quadratic) -> [Root; 2] {
    let middle = -p / 2.0;
    let discriminant = middle * middle - q;
    if discriminant < 0.0 {
        let im = (-discriminant).sqrt();
        return [Root { re: middle, im }, Root { re: middle, im: -im }];
    }
    let far = middle + discriminant.sqrt().copysign(middle);
    let near = if far == 0.0 { 0.0 } else { q / far };
    [far, near].map(|re| Root { re, im: 0.0 })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Coefficients of (x² + p x + q)(x² + r x + s), times a factor.
    fn product(p: f64, q: f64, r: f64, s: f64, factor: f64) -> [f64; 5] {
        [q * s, p * s + q * r, q + s + p * r, p + r, 1.0].map(|c| c * factor)
    }

    /// Real parts, then imaginary parts, each in rising order.
    fn sorted(roots: [Root; 4]) -> [[f64; 4]; 2] {
        [roots.map(|r| r.re), roots.map(|r| r.im)].map(|mut values| {
            values.sort_by(f64::total_cmp);
            values
        })
    }

    #[track_caller]
    fn assert_roots(coefficients: [f64; 5], expected: [[f64; 4]; 2], tolerance: f64) {
        let found = sorted(roots(coefficients));
        for (found, expected) in found.iter().flatten().zip(expected.iter().flatten()) {
            assert!((found - expected).abs() <= tolerance, "{found} is not {expected}");
        }
    }

    #[test]
    fn four_real_roots_are_found() {
        let c = product(-3.0, 2.0, -7.0, 12.0, 5.0);
        assert_roots(c, [[1.0, 2.0, 3.0, 4.0], [0.0; 4]], 1e-13);
    }

    #[test]
    fn two_pairs_are_found() {
        let c = product(2.0, 5.0, 0.2, 9.01, 1e6);
        assert_roots(c, [[-1.0, -1.0, -0.1, -0.1], [-3.0, -2.0, 2.0, 3.0]], 1e-13);
    }

    #[test]
    fn roots_far_apart_keep_their_digits() {
        let c = product(1000.001, 1.0, 0.02, 1.0001, 1.0);
        assert_roots(c, [[-1000.0, -0.01, -0.01, -0.001], [-1.0, 0.0, 0.0, 1.0]], 1e-12);
    }

    #[test]
    fn even_and_pure_powers_are_found() {
        assert_roots(product(0.0, 1.0, 0.0, 4.0, 1.0), [[0.0; 4], [-2.0, -1.0, 1.0, 2.0]], 1e-14);
        assert_roots([0.0, 0.0, 0.0, 0.0, 2.0], [[0.0; 4]; 2], 0.0);
        let i = std::f64::consts::FRAC_1_SQRT_2;
        assert_roots([1.0, 0.0, 0.0, 0.0, 1.0], [[-i, -i, i, i], [-i, -i, i, i]], 1e-14);
    }

    #[test]
    fn double_root_keeps_half_its_digits() {
        let c = product(2.0, 1.0, 3.0, 7.0, 1.0);
        let found = roots(c);
        let near = found.iter().filter(|r| (r.re + 1.0).hypot(r.im) < 1e-6).count();
        assert_eq!(near, 2, "{found:?}");
    }
}
