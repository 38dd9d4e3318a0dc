//! Worst cases that are wanted again and again, while the masses and places of a few sources change.
//!
//! What a source adds to a line is worked out where it changes, and nowhere else. The same sums in the same order as in
//! [`worst`](super::worst), to the bit.

use super::line::Line;
use super::worst::{Choices, Source, best, climb};

/// The greatest value of a line over all choices.
#[derive(Debug, Clone, PartialEq)]
pub struct GreatestLoad {
    line: Line,
    /// What each group adds at its best.
    at_best: Vec<f64>,
    /// The groups of which a source changes.
    changing: Vec<usize>,
}

impl GreatestLoad {
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Build;
    use crate::loading::Loading;
    use crate::masses::{PointMass, Totals};

    /// Invented: a tank, and three pieces of cargo of which two share a stand.
    const BUILD: &[u8] = br#"{
        "trailer": {"gvwr_lb": 7000, "bare": {"mass_lb": 2000, "x_in": 150}},
        "tanks": {"fresh": {"fluid": "fresh_water", "capacity_gal": 20, "x_in": 60}},
        "cargo": {"atv": {"mass_lb": 700, "x_in": 200, "stand": "bay"}, "box": {"mass_lb": 90, "x_in": 20},
                  "bike": {"mass_lb": 260, "x_in": 170, "stand": "bay"}}
    }"#;

    #[test]
    fn what_changed_counts_as_if_it_had_always_been_so() {
        let build = Build::from_json(BUILD).unwrap();
        let loading = Loading::of(&build).unwrap();
        let mut choices = Choices::of(&build, &loading);
        let bike = Source::Cargo(2);
        let lines = [Line { x: -0.25, ..Line::GROSS }, Line::GROSS];
        let mut greatest = GreatestLoad::of(lines[0], &choices, |source| source == bike);
        let mut quotient = GreatestQuotient::of(lines, &choices, |source| source == bike);
        let mut found = Vec::new();
        for (mass_kg, x_m) in [(118.0, 4.3), (500.0, 0.5), (0.0, 2.0), (900.0, 6.0)] {
            choices.put(bike, Totals::from(PointMass { mass_kg, x_m, y_m: 0.0, z_m: 1.0 }));
            choices.fixed.mass_kg += 1.0;
            assert_eq!(greatest.now(&choices), choices.greatest(&lines[0]));
            assert_eq!(quotient.now(&choices), choices.greatest_quotient(lines[0], lines[1]).value);
            found.push(greatest.now(&choices));
        }
        // Half a ton before the group counts, and what stands behind it does not.
        assert!(found[1] > found[0] + 400.0 && found[2] < found[0] + 3.0, "{found:?}");
    }
}
