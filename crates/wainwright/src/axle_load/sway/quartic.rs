//! Roots of a real polynomial of the fourth degree.

use std::ops::{Add, Div, Mul, Sub};

/// A root, a complex number. One that is not real comes with its mirror image, as a pair.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Root {
    /// Real part.
    pub re: f64,
    /// Imaginary part, exactly 0 for a real root.
    pub im: f64,
}

/// The four roots of `c₀ + c₁ x + c₂ x² + c₃ x³ + c₄ x⁴`.
///
/// - `coefficients`  c₀ to c₄, c₄ not 0, of sizes whose squares are finite
///
/// Returns the roots; those of a pair stand together.
///
/// Laguerre's method from zero finds a small root, which is divided out with its mirror image, until none is left; each
/// is then refined on the undivided polynomial by Newton's. Near a multiple root fewer digits remain, as for any
/// method that starts from coefficients.
///
/// Source: E. Laguerre's method, as in any text on numerical analysis (`from memory`).
pub fn roots(coefficients: [f64; 5]) -> [Root; 4] {
    let mut found = [Root::real(0.0); 4];
    let mut rest = coefficients;
    let mut degree = 4;
    while degree > 0 {
        let place = 4 - degree;
        let root = small_root(&rest[..=degree]);
        if root.im.abs() <= NEARLY_REAL * root.re.abs() {
            found[place] = refined(&coefficients, Root::real(root.re));
            divide(&mut rest[..=degree], [-root.re, 1.0, 0.0]);
            degree -= 1;
        } else {
            let one = refined(&coefficients, root);
            found[place] = one;
            found[place + 1] = Root { re: one.re, im: -one.im };
            let square = root.re * root.re + root.im * root.im;
            divide(&mut rest[..=degree], [square, -2.0 * root.re, 1.0]);
            degree -= 2;
        }
    }
    found
}

/// Imaginary part over real part at which a root counts as real: a pair so close is a double root but for rounding.
const NEARLY_REAL: f64 = 1e-9;

impl Root {
    fn real(re: f64) -> Self {
        Self { re, im: 0.0 }
    }

    fn size(self) -> f64 {
        (self.re * self.re + self.im * self.im).sqrt()
    }

    fn scaled(self, factor: f64) -> Self {
        Self { re: self.re * factor, im: self.im * factor }
    }

    /// Principal square root.
    fn sqrt(self) -> Self {
        let size = self.size();
        let re = ((size + self.re.abs()) / 2.0).sqrt();
        if re == 0.0 {
            return self;
        }
        let im = self.im / (2.0 * re);
        if self.re >= 0.0 { Self { re, im } } else { Self { re: im.abs(), im: re.copysign(self.im) } }
    }
}

impl Add for Root {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self { re: self.re + other.re, im: self.im + other.im }
    }
}

impl Sub for Root {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        self + other.scaled(-1.0)
    }
}

impl Mul for Root {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        Self { re: self.re * other.re - self.im * other.im, im: self.re * other.im + self.im * other.re }
    }
}

impl Div for Root {
    type Output = Self;
    fn div(self, other: Self) -> Self {
        let mirror = Self { re: other.re, im: -other.im };
        (self * mirror).scaled(1.0 / (other.re * other.re + other.im * other.im))
    }
}

/// Value, first and half the second derivative of a polynomial, and the rounding error to expect of the value.
fn at(coefficients: &[f64], x: Root) -> ([Root; 3], f64) {
    let size = x.size();
    let mut values = [Root::real(0.0); 3];
    let mut bound = 0.0;
    for &c in coefficients.iter().rev() {
        values[2] = values[2] * x + values[1];
        values[1] = values[1] * x + values[0];
        values[0] = values[0] * x + Root::real(c);
        bound = bound * size + c.abs();
    }
    (values, bound * f64::EPSILON)
}

/// A root of a polynomial, in general the one nearest to zero, by Laguerre's steps.
fn small_root(coefficients: &[f64]) -> Root {
    const STEPS: usize = 60;
    // One step in ten is shortened, to leave the rare cycle.
    const SHORTENED: usize = 10;
    let degree = (coefficients.len() - 1) as f64;
    let mut x = Root::real(0.0);
    for step in 1..=STEPS {
        let ([value, slope, half_curve], error) = at(coefficients, x);
        if value.size() <= error {
            break;
        }
        let g = slope / value;
        let g_square = g * g;
        let h = g_square - (half_curve / value).scaled(2.0);
        let spread = (h.scaled(degree) - g_square).scaled(degree - 1.0).sqrt();
        let (plus, minus) = (g + spread, g - spread);
        let longer = if plus.size() >= minus.size() { plus } else { minus };
        let full = if longer.size() > 0.0 {
            Root::real(degree) / longer
        } else {
            Root { re: 1.0 + x.size(), im: 1.0 }
        };
        let next = x - if step % SHORTENED == 0 { full.scaled(0.5) } else { full };
        if next == x {
            break;
        }
        x = next;
    }
    x
}

/// Divides a polynomial by `d₀ + d₁ x + d₂ x²`, its leading coefficient 1; the quotient takes the low places.
fn divide(polynomial: &mut [f64], divisor: [f64; 3]) {
    let order = if divisor[2] == 1.0 { 2 } else { 1 };
    let degree = polynomial.len() - 1;
    for place in (order..=degree).rev() {
        for back in 1..=order {
            polynomial[place - back] -= polynomial[place] * divisor[order - back];
        }
    }
    polynomial.copy_within(order.., 0);
}

/// A root refined by two of Newton's steps, each taken only if it brings the value nearer to zero.
fn refined(coefficients: &[f64; 5], start: Root) -> Root {
    let mut x = start;
    let ([mut value, mut slope, _], _) = at(coefficients, x);
    for _ in 0..2 {
        let next = x - value / slope;
        let ([next_value, next_slope, _], _) = at(coefficients, next);
        if next_value.size() < value.size() {
            (x, value, slope) = (next, next_value, next_slope);
        }
    }
    x
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
    fn multiple_roots_keep_some_of_their_digits() {
        let double = roots(product(2.0, 1.0, 3.0, 7.0, 1.0));
        let near = |tolerance: f64| move |r: &&Root| (r.re + 1.0).hypot(r.im) < tolerance;
        assert_eq!(double.iter().filter(near(1e-7)).count(), 2, "{double:?}");
        let quadruple = roots(product(2.0, 1.0, 2.0, 1.0, 1.0));
        assert_eq!(quadruple.iter().filter(near(1e-3)).count(), 4, "{quadruple:?}");
    }

    #[test]
    fn complex_roots_come_with_their_mirror_images() {
        let [_, im] = sorted(roots(product(2.0, 5.0, 0.2, 9.01, 1.0)));
        assert_eq!([im[0], im[1]], [-im[3], -im[2]]);
    }
}
