//! Narrowing a bracket: two values, of which one passes and the other does not.

use super::sample::{Sample, Tries};
use crate::input::Range;

/// Real values this near to one another, relative to their size, are told apart no further.
const NEAR: f64 = 1e-9;
/// The same relative to the width of the range, for values near 0.
const NEAR_IN_RANGE: f64 = 1e-12;

/// Two values next to one another, of which one passes and the other does not.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bracket {
    /// The end that passes.
    pub inside: Sample,
    /// The end that does not.
    pub outside: Sample,
}

impl Bracket {
    /// How far apart its ends are.
    pub fn width(&self) -> f64 {
        (self.inside.x - self.outside.x).abs()
    }

    /// The value halfway; none where the ends are near enough.
    fn middle(&self, range: &Range) -> Option<f64> {
        range.between(self.inside.x, self.outside.x, self.near(range))
    }

    /// The distance at which its ends are near enough.
    fn near(&self, range: &Range) -> f64 {
        let (low, high) = range.ends().unwrap_or_default();
        (NEAR * self.inside.x.abs().max(self.outside.x.abs())).max(NEAR_IN_RANGE * (high - low))
    }

    /// The least that this distance can become as it is narrowed.
    fn least_near(&self, range: &Range) -> f64 {
        let (low, high) = range.ends().unwrap_or_default();
        let (one, other) = (self.inside.x, self.outside.x);
        let smallest = if one.signum() == other.signum() { one.abs().min(other.abs()) } else { 0.0 };
        (NEAR * smallest).max(NEAR_IN_RANGE * (high - low)).max(f64::MIN_POSITIVE)
    }

    fn take(&mut self, sample: Sample) {
        if sample.passes { self.inside = sample } else { self.outside = sample }
    }

    /// Halves it at most so many times.
    pub fn halve(&mut self, range: &Range, times: u32, tries: &mut impl Tries) {
        for _ in 0..times {
            let Some(middle) = self.middle(range) else { return };
            self.take(tries.at(middle));
        }
    }

    /// Narrows it until its ends are neighbors, or as near as makes no difference.
    ///
    /// By the Illinois variant of false position where the slack on both sides is known (Dowell and Jarratt 1971, "A
    /// modified regula falsi method for computing the root of an equation"; from memory), each estimate moved so far
    /// toward the middle that no more than one step is lost against halving (the projection of Oliveira and Takahashi
    /// 2020, "An enhancement of the bisection method average performance preserving minmax optimality"; from memory); by
    /// halving elsewhere.
    pub fn narrow(&mut self, range: &Range, tries: &mut impl Tries) {
        let least_near = self.least_near(range);
        let mut steps_left = (self.width() / least_near).log2().ceil().max(0.0) as i32 + 1;
        // An end that stays twice weighs half: the next estimate then falls on its side.
        let (mut inside_weight, mut outside_weight) = (1.0, 1.0);
        let mut was_inside = None;
        while let Some(middle) = self.middle(range) {
            steps_left -= 1;
            let x = match (range, self.inside.slack, self.outside.slack) {
                (Range::Real { .. }, Some(inside), Some(outside)) if inside > outside => {
                    let (inside, outside) = (inside * inside_weight, outside * outside_weight);
                    let estimate = (inside * self.outside.x - outside * self.inside.x) / (inside - outside);
                    let radius = least_near / 2.0 * 2.0_f64.powi(steps_left) - self.width() / 2.0;
                    self.project(estimate, middle, self.near(range), radius)
                }
                _ => middle,
            };
            let sample = tries.at(x);
            if was_inside == Some(sample.passes) {
                let stays = if sample.passes { &mut outside_weight } else { &mut inside_weight };
                *stays /= 2.0;
            } else {
                (inside_weight, outside_weight) = (1.0, 1.0);
            }
            was_inside = Some(sample.passes);
            self.take(sample);
        }
    }

    /// An estimate moved toward the middle: off the ends, and no farther from the middle than the radius.
    fn project(&self, estimate: f64, middle: f64, near: f64, radius: f64) -> f64 {
        let off_end = (self.width() / 2.0 - near / 2.0).max(0.0);
        let most = radius.max(0.0).min(off_end);
        let x = middle + (estimate - middle).clamp(-most, most);
        // Rounding may put it on an end all the same.
        if x == self.inside.x || x == self.outside.x { middle } else { x }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    struct Function<F>(F, u32);

    impl<F: Fn(f64) -> f64> Tries for Function<F> {
        fn at(&mut self, x: f64) -> Sample {
            self.1 += 1;
            let slack = (self.0)(x);
            Sample { x, answered: true, passes: slack >= 0.0, slack: Some(slack) }
        }
    }

    const RANGE: Range = Range::Real { low: -100.0, high: 100.0 };

    fn narrowed(function: impl Fn(f64) -> f64, inside: f64, outside: f64) -> (Bracket, u32) {
        let mut tries = Function(function, 0);
        let mut bracket = Bracket { inside: tries.at(inside), outside: tries.at(outside) };
        assert!(bracket.inside.passes && !bracket.outside.passes);
        bracket.narrow(&RANGE, &mut tries);
        (bracket, tries.1 - 2)
    }

    #[test]
    fn the_root_of_a_smooth_function_is_found_in_a_few_steps() {
        let (bracket, tried) = narrowed(|x| x * x * x - 2.0, 60.0, -50.0);
        let root = 2.0_f64.cbrt();
        assert!(bracket.width() <= 1.3e-9 && bracket.inside.x >= root && bracket.outside.x <= root);
        assert!(tried < 25, "{tried}");
        let (bracket, tried) = narrowed(|x| (5.0 - x) / (x + 200.0), -3.0, 44.0);
        assert!((bracket.inside.x - 5.0).abs() <= 5e-9, "{bracket:?}");
        assert!(tried < 15, "{tried}");
    }

    #[test]
    fn a_step_is_found_as_fast_as_by_halving() {
        let (bracket, tried) = narrowed(|x| if x < 7.25 { 3.0 } else { -1000.0 }, 0.0, 100.0);
        assert!(bracket.width() <= 7.3e-9 && bracket.inside.x < 7.25 && bracket.outside.x >= 7.25);
        // The range has 200 units, of which 1e-12 are told apart; values of 7.25 no further than 7.25e-9.
        assert!(tried <= 2 + (100.0_f64 / 2e-10).log2().ceil() as u32, "{tried}");
    }

    #[test]
    fn what_either_is_or_is_not_is_halved() {
        struct Flag(u32);
        impl Tries for Flag {
            fn at(&mut self, x: f64) -> Sample {
                self.0 += 1;
                Sample { x, answered: true, passes: x > 31.4, slack: None }
            }
        }
        let mut flag = Flag(0);
        let mut bracket = Bracket { inside: flag.at(90.0), outside: flag.at(10.0) };
        bracket.narrow(&RANGE, &mut flag);
        assert!(bracket.width() <= 3.2e-8 && bracket.inside.x > 31.4 && bracket.outside.x <= 31.4);
        let whole = Range::Whole { low: 0.0, high: 100.0 };
        let mut bracket = Bracket { inside: flag.at(90.0), outside: flag.at(10.0) };
        bracket.narrow(&whole, &mut flag);
        assert_eq!((bracket.inside.x, bracket.outside.x), (32.0, 31.0));
    }

    #[test]
    fn a_root_at_zero_is_found_by_the_width_of_the_range() {
        let (bracket, tried) = narrowed(|x| x, 100.0, -1.0);
        assert!(bracket.width() <= 2e-10 && tried < 50, "{bracket:?} {tried}");
    }
}
