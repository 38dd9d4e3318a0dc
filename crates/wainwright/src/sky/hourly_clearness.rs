//! How clearness wanders from hour to hour within a day, by the day's own: the model TAG (time-dependent,
//! autoregressive, Gaussian).

/// What the day alone decides.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HourlyClearness {
    lambda: f64,
    eta: f64,
    kappa: f64,
    a: f64,
    b: f64,
    /// Correlation of the deviations of neighbouring hours φ₁.
    pub correlation: f64,
}

impl HourlyClearness {
    /// The hours of a day.
    ///
    /// ```text
    /// λ = −0.19 + 1.12 K + 0.24 exp(−8 K)     η = 0.32 − 1.6 (K − 0.5)²     κ = 0.19 + 2.27 K² − 2.51 K³
    /// A = 0.14 exp[−20 (K − 0.35)²]           B = 3 (K − 0.45)² + 16 K⁵
    /// φ₁ = 0.38 + 0.06 cos(7.4 K − 2.5)
    /// ```
    ///
    /// - `clearness`  clearness of the day K, 0 to 1
    ///
    /// Source: Aguiar and Collares-Pereira 1992, Solar Energy 49, 167–174 (`from memory`).
    pub fn of_day(clearness: f64) -> Self {
        let k = clearness;
        Self {
            lambda: -0.19 + 1.12 * k + 0.24 * (-8.0 * k).exp(),
            eta: 0.32 - 1.6 * (k - 0.5).powi(2),
            kappa: 0.19 + k * k * (2.27 - 2.51 * k),
            a: 0.14 * (-20.0 * (k - 0.35).powi(2)).exp(),
            b: 3.0 * (k - 0.45).powi(2) + 16.0 * k.powi(5),
            correlation: 0.38 + 0.06 * (7.4 * k - 2.5).cos(),
        }
    }

    /// Mean clearness of an hour of such days.
    ///
    /// `k_tm = λ + η exp(−κ / sin h)`
    ///
    /// - `sin_elevation`  sine of the sun's elevation in the hour's middle sin h, above 0 and to 1
    ///
    /// Source: as [`of_day`](Self::of_day).
    pub fn mean(&self, sin_elevation: f64) -> f64 {
        self.lambda + self.eta * (-self.kappa / sin_elevation).exp()
    }

    /// Standard deviation of the clearness of an hour of such days.
    ///
    /// `σ = A exp[B (1 − sin h)]`
    ///
    /// - `sin_elevation`  sine of the sun's elevation in the hour's middle sin h, 0 to 1
    ///
    /// Source: as [`of_day`](Self::of_day).
    pub fn deviation(&self, sin_elevation: f64) -> f64 {
        self.a * (self.b * (1.0 - sin_elevation)).exp()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn clear_days_are_steady_and_middling_ones_are_not() {
        let at = |k| HourlyClearness::of_day(k).deviation(0.7);
        assert!(at(0.75) < 0.03 && at(0.4) > 0.12 && at(0.1) < at(0.4));
    }

    #[test]
    fn air_dims_the_low_sun() {
        let day = HourlyClearness::of_day(0.6);
        assert!(day.mean(1e-3) < day.mean(0.1) && day.mean(0.1) < day.mean(0.9));
        assert!(day.mean(1e-300).is_finite());
    }
}
