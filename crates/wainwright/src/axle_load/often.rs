//! Worst cases that are wanted again and again, while the masses and places of a few sources change.
//!
//! What a source adds to a line is worked out where it changes, and nowhere else. The same sums in the same order as in
//! [`worst`](super::worst), to the bit.

use super::line::Line;
use super::worst::{Choices, Source, best, climb};

/// The greatest value of a line over all choices.
#[derive(Debug, Clone, PartialEq)]
pub struct Greatest {
    line: Line,
    /// What each group adds at its best.
    at_best: Vec<f64>,
    /// The groups of which a source changes.
    changing: Vec<usize>,
}

impl Greatest {
    /// A line made ready.
    ///
    /// - `changes`  which sources do
    pub fn of(line: Line, choices: &Choices, changes: impl Fn(Source) -> bool) -> Self {
        let at_best = choices.groups().map(|(options, _)| best(options, &line)).collect();
        let changing = choices.groups().enumerate();
        let changing = changing.filter(|(_, (_, sources))| sources.iter().any(|source| changes(*source)));
        Self { line, at_best, changing: changing.map(|(group, _)| group).collect() }
    }

    /// The greatest value, as the choices are now: that of [`Choices::greatest`].
    #[inline]
    pub fn now(&mut self, choices: &Choices) -> f64 {
        for group in &self.changing {
            self.at_best[*group] = best(choices.group(*group), &self.line);
        }
        self.at_best.iter().fold(self.line.of(&choices.fixed), |sum, at_best| sum + at_best)
    }
}

/// The greatest quotient of two lines over all choices.
#[derive(Debug, Clone, PartialEq)]
pub struct GreatestQuotient {
    lines: [Line; 2],
    /// What each option adds to either.
    parts: Vec<[f64; 2]>,
    /// The options that change.
    changing: Vec<usize>,
}

impl GreatestQuotient {
    /// A quotient made ready.
    ///
    /// - `changes`  which sources do
    pub fn of(lines: [Line; 2], choices: &Choices, changes: impl Fn(Source) -> bool) -> Self {
        let options = || choices.groups().flat_map(|(options, sources)| options.iter().zip(sources));
        let parts = options().map(|(option, _)| lines.map(|line| line.part_of(option))).collect();
        let changing = options().enumerate().filter(|(_, (_, source))| changes(**source));
        Self { lines, parts, changing: changing.map(|(option, _)| option).collect() }
    }

    /// The greatest quotient, as the choices are now: that of [`Choices::greatest_quotient`].
    #[inline]
    pub fn now(&mut self, choices: &Choices) -> f64 {
        for option in &self.changing {
            self.parts[*option] = self.lines.map(|line| line.part_of(choices.option(*option)));
        }
        let groups = choices.ends().map(|ends| self.parts[ends].iter().copied());
        climb(self.lines.map(|line| line.of(&choices.fixed)), groups)
    }
}
