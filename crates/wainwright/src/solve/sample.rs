//! What is known of one value of the input, and where values may be.

use crate::input::Range;

/// What came of one value of the input.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sample {
    /// The value.
    pub x: f64,
    /// Was there an answer? Without one it does not pass.
    pub answered: bool,
    /// Does what is asked for hold?
    pub passes: bool,
    /// By how much it holds, below 0 where it does not; none for what either is or is not.
    pub slack: Option<f64>,
}

/// Something that can be tried at any value of the input.
pub trait Tries {
    /// What comes of a value.
    fn at(&mut self, x: f64) -> Sample;
}

impl Range {
    /// A value halfway between two; none where they are neighbors, or as near as makes no difference.
    ///
    /// - `within`  two real values are near enough at this distance
    pub fn between(&self, a: f64, b: f64, within: f64) -> Option<f64> {
        let middle = a / 2.0 + b / 2.0;
        match self {
            Self::Real { .. } => {
                let is_apart = (b - a).abs() > within && middle != a && middle != b;
                is_apart.then_some(middle)
            }
            Self::Whole { .. } => ((b - a).abs() > 1.0).then(|| middle.floor()),
            Self::Listed(_) => None,
        }
    }

    /// The values that are tried first, in ascending order: `cells` even steps, and around the present value steps that
    /// halve toward it `halvings` times.
    pub fn grid(&self, present: Option<f64>, cells: u32, halvings: u32) -> Vec<f64> {
        let Some((low, high)) = self.ends() else { return Vec::new() };
        if let Self::Listed(values) = self {
            return values.clone();
        }
        let step = (high - low) / f64::from(cells);
        let mut points: Vec<f64> = (0..=cells).map(|i| low + step * f64::from(i)).collect();
        // The last step may fall short of the end by rounding.
        points.push(high);
        if let Some(present) = present.filter(|present| self.has(*present)) {
            points.push(present);
            for halving in 1..=halvings {
                let away = step * 0.5_f64.powi(halving as i32);
                points.extend([present - away, present + away]);
            }
        }
        if matches!(self, Self::Whole { .. }) {
            points.iter_mut().for_each(|point| *point = point.round());
        }
        points.retain(|point| (low..=high).contains(point));
        points.sort_by(f64::total_cmp);
        points.dedup();
        points
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_grid_is_even_and_finer_around_the_present_value() {
        let range = Range::Real { low: 0.0, high: 100.0 };
        assert_eq!(range.grid(None, 4, 3), [0.0, 25.0, 50.0, 75.0, 100.0]);
        assert_eq!(range.grid(Some(50.0), 2, 2), [0.0, 25.0, 37.5, 50.0, 62.5, 75.0, 100.0]);
        assert_eq!(range.grid(Some(200.0), 1, 2), [0.0, 100.0]);
        assert_eq!(Range::Whole { low: 0.0, high: 3.0 }.grid(Some(1.0), 10, 4), [0.0, 1.0, 2.0, 3.0]);
        assert_eq!(Range::Listed(vec![60.0, 75.0]).grid(None, 9, 9), [60.0, 75.0]);
        assert_eq!(Range::Real { low: 1.0, high: 0.0 }.grid(None, 4, 0), [0.0; 0]);
        assert_eq!(Range::Real { low: 2.0, high: 2.0 }.grid(Some(2.0), 4, 2), [2.0]);
    }

    #[test]
    fn between_neighbors_there_is_nothing() {
        let real = Range::Real { low: 0.0, high: 9.0 };
        assert_eq!(real.between(1.0, 2.0, 0.1), Some(1.5));
        assert_eq!(real.between(1.0, 2.0, 1.0), None);
        assert_eq!(real.between(1.0, 1.0 + f64::EPSILON, 0.0), None);
        let whole = Range::Whole { low: 0.0, high: 9.0 };
        assert_eq!((whole.between(1.0, 4.0, 0.1), whole.between(4.0, 3.0, 0.1)), (Some(2.0), None));
        assert_eq!(Range::Listed(vec![60.0, 75.0, 90.0]).between(60.0, 75.0, 0.1), None);
    }
}
