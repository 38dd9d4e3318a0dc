//! Chance that can be repeated: a seed gives the same numbers in every run.

use std::f64::consts::TAU;

use oorandom::Rand64;

/// A stream of random numbers: the permuted congruential generator PCG-XSL-RR-128/64 (O'Neill 2014, Harvey Mudd College
/// HMC-CS-2014-0905).
#[derive(Debug, Clone)]
pub struct Chance {
    generator: Rand64,
    /// The second of two normal numbers that come together.
    kept: Option<f64>,
}

impl Chance {
    /// The stream of a seed.
    pub fn new(seed: u64) -> Self {
        Self { generator: Rand64::new(u128::from(seed)), kept: None }
    }

    /// A number from 0 to below 1, each as likely as the other.
    pub fn uniform(&mut self) -> f64 {
        self.generator.rand_float()
    }

    /// A normal number of mean 0 and standard deviation 1.
    ///
    /// `√(−2 ln u₁) cos 2πu₂`, and with the sine the next one; u uniform, u₁ above 0
    ///
    /// Source: Box and Muller 1958, Annals of Mathematical Statistics 29, 610–611.
    pub fn normal(&mut self) -> f64 {
        if let Some(kept) = self.kept.take() {
            return kept;
        }
        let radius = (-2.0 * (1.0 - self.uniform()).ln()).sqrt();
        let (sin, cos) = (TAU * self.uniform()).sin_cos();
        self.kept = Some(radius * sin);
        radius * cos
    }
}

/// The next number of a normal series in which each one remembers the one before: mean 0, standard deviation 1.
///
/// `x' = φ x + √(1 − φ²) n`
///
/// - `before`       the number before x
/// - `correlation`  correlation of neighbours φ, −1 to 1
/// - `normal`       a normal number of its own n, mean 0, standard deviation 1
///
/// Source: the autoregressive process of first order, Box and Jenkins 1970, Time Series Analysis.
pub fn autoregressive(before: f64, correlation: f64, normal: f64) -> f64 {
    correlation * before + (1.0 - correlation * correlation).sqrt() * normal
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_generator_is_the_one_it_was() {
        // Other numbers here mean other weather for every seed in use.
        let mut generator = Rand64::new(1);
        let drawn = [generator.rand_u64(), generator.rand_u64()];
        assert_eq!(drawn, [4_491_435_843_050_078_335, 6_423_928_555_577_756_314]);
    }

    #[test]
    fn normal_numbers_have_their_moments() {
        let mut chance = Chance::new(7);
        let numbers: Vec<f64> = (0..100_000).map(|_| chance.normal()).collect();
        let moment = |power| numbers.iter().map(|x| x.powi(power)).sum::<f64>() / 100_000.0;
        // Three standard errors: 1, √2, √15 and √96 over √100 000.
        for (power, expected, open) in [(1, 0.0, 0.0095), (2, 1.0, 0.0134), (3, 0.0, 0.037), (4, 3.0, 0.093)]
        {
            assert!((moment(power) - expected).abs() < open, "{power}: {}", moment(power));
        }
    }

    #[test]
    fn a_series_remembers_as_much_as_it_should() {
        let (mut chance, mut x) = (Chance::new(3), 0.0);
        let series: Vec<f64> = (0..100_000)
            .map(|_| {
                x = autoregressive(x, 0.4, chance.normal());
                x
            })
            .collect();
        let mean_of = |lag: usize| {
            series.iter().zip(&series[lag..]).map(|(a, b)| a * b).sum::<f64>() / (series.len() - lag) as f64
        };
        assert!((mean_of(0) - 1.0).abs() < 0.02, "{}", mean_of(0));
        assert!((mean_of(1) - 0.4).abs() < 0.015, "{}", mean_of(1));
    }
}
