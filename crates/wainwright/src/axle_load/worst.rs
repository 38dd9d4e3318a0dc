//! Exact worst cases over every tank fill and every choice of cargo.
//!
//! Tanks fill independently of one another from empty to full; each piece of cargo is aboard or not; of cargo
//! that shares a stand at most one piece is aboard. A straight line over such a set has its extremes where every
//! member is at an end, and the members do not interact: the extreme is a sum of each member's own.

use super::independent::MAX_AXLES;
use super::lift;
use super::line::Line;
use super::rig::{Loads, Rig};
use crate::build::Build;
use crate::loading::Loading;
use crate::masses::Totals;

/// What may vary, and what does not.
#[derive(Debug, Clone, PartialEq)]
pub struct Choices {
    /// What is always aboard.
    pub fixed: Totals,
    /// Every option: a full tank or a piece of cargo; options of one group stand together.
    options: Vec<Totals>,
    /// Which tank or cargo each option is.
    sources: Vec<Source>,
    /// First option of each group, and one past the last group's end.
    groups: Vec<usize>,
}

/// What an option is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Source {
    /// The tank of this index, full.
    Tank(usize),
    /// The cargo of this index, aboard.
    Cargo(usize),
}

/// Least and greatest of something.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Range<T> {
    /// Least.
    pub min: T,
    /// Greatest.
    pub max: T,
}

/// An extreme, and how to find the state that produces it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Extreme {
    /// The value.
    pub value: f64,
    /// The state that produces it.
    pub witness: Witness,
}

/// A state, named so that it costs nothing to carry.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Witness {
    /// In every group the option with the greatest value of this line, if that is above zero.
    Greatest(Line),
    /// One option of each group, or none; and how full a tank is that is neither empty nor full.
    Corner {
        /// Four bits for each group: 0 for none of its options, else one more than the option's index.
        picks: u64,
        /// The group that is in part full, and how full.
        partial: Option<(usize, f64)>,
    },
}

impl Choices {
    /// The choices of a build: each tank a group; each piece of cargo, or all that share a stand, a group.
    pub fn of(build: &Build, loading: &Loading) -> Self {
        let mut choices = Self {
            fixed: loading.fixed(),
            options: Vec::with_capacity(loading.tanks.len() + loading.cargo.len()),
            sources: Vec::with_capacity(loading.tanks.len() + loading.cargo.len()),
            groups: Vec::with_capacity(loading.tanks.len() + loading.cargo.len() + 1),
        };
        for (index, full) in loading.tanks.iter().enumerate() {
            choices.end_group();
            choices.add(Source::Tank(index), *full);
        }
        let stand = |cargo: &'_ crate::build::Cargo| cargo.stand.clone();
        for (index, (_, cargo)) in build.cargo().enumerate() {
            if cargo.stand.is_some() && build.cargo().take(index).any(|(_, other)| other.stand == cargo.stand)
            {
                continue; // stands in the group of the first that shares its stand
            }
            choices.end_group();
            choices.add(Source::Cargo(index), loading.cargo[index]);
            let Some(stand) = stand(cargo) else { continue };
            for (other, (_, sharing)) in build.cargo().enumerate().skip(index + 1) {
                if sharing.stand.as_ref() == Some(&stand) {
                    choices.add(Source::Cargo(other), loading.cargo[other]);
                }
            }
        }
        choices.end_group();
        choices
    }

    fn end_group(&mut self) {
        self.groups.push(self.options.len());
    }

    fn add(&mut self, source: Source, totals: Totals) {
        self.sources.push(source);
        self.options.push(totals);
    }

    /// Where the options of each group stand among all.
    pub fn ends(&self) -> impl ExactSizeIterator<Item = std::ops::Range<usize>> + Clone {
        self.groups.windows(2).map(|ends| ends[0]..ends[1])
    }

    /// Options and sources, group by group.
    pub fn groups(&self) -> impl ExactSizeIterator<Item = (&[Totals], &[Source])> + Clone {
        self.ends().map(|ends| (&self.options[ends.clone()], &self.sources[ends]))
    }

    /// The options of a group.
    pub fn group(&self, group: usize) -> &[Totals] {
        &self.options[self.groups[group]..self.groups[group + 1]]
    }

    /// One of all options.
    pub fn option(&self, option: usize) -> &Totals {
        &self.options[option]
    }

    /// The same choices with one source left out.
    #[must_use]
    pub fn without(&self, source: Source) -> Self {
        let mut rest =
            Self { fixed: self.fixed, options: Vec::new(), sources: Vec::new(), groups: Vec::new() };
        for (options, sources) in self.groups() {
            rest.end_group();
            for (option, kept) in options.iter().zip(sources).filter(|(_, s)| **s != source) {
                rest.add(*kept, *option);
            }
        }
        rest.end_group();
        rest
    }

    /// Greatest value of a line over all choices: `F_0 + Σ max(0, max over the group's options)`.
    pub fn greatest(&self, line: &Line) -> f64 {
        self.groups().fold(line.of(&self.fixed), |sum, (options, _)| sum + best(options, line))
    }

    /// Greatest value of a line over all choices in which one source is in.
    pub fn greatest_with(&self, source: Source, line: &Line) -> f64 {
        self.groups().fold(line.of(&self.fixed), |sum, (options, sources)| {
            sum + match sources.iter().position(|s| *s == source) {
                Some(index) => line.part_of(&options[index]),
                None => best(options, line),
            }
        })
    }

    /// Greatest value of a line over all choices among the sources allowed.
    pub fn greatest_among(&self, line: &Line, allowed: impl Fn(Source) -> bool) -> f64 {
        self.groups().fold(line.of(&self.fixed), |sum, (options, sources)| {
            let values =
                options.iter().zip(sources).filter(|(_, s)| allowed(**s)).map(|(o, _)| line.part_of(o));
            sum + values.fold(0.0, f64::max)
        })
    }

    /// Masses aboard where every group is at its best for a line.
    pub(super) fn at_greatest(&self, line: &Line) -> Totals {
        self.groups().fold(self.fixed, |sum, (options, _)| match best_option(options, line) {
            Some(index) => sum + options[index],
            None => sum,
        })
    }

    /// Gives a source another mass or place.
    pub fn put(&mut self, source: Source, totals: Totals) {
        for (option, _) in self.options.iter_mut().zip(&self.sources).filter(|(_, known)| **known == source) {
            *option = totals;
        }
    }

    /// Least and greatest value of a line.
    pub fn line(&self, line: Line) -> Range<Extreme> {
        let below = line.times(-1.0);
        Range {
            min: Extreme { value: 0.0 - self.greatest(&below), witness: Witness::Greatest(below) },
            max: Extreme { value: self.greatest(&line), witness: Witness::Greatest(line) },
        }
    }

    /// Least and greatest quotient of two lines, the lower one above zero in every state: see `climb`.
    pub fn quotient(&self, numerator: Line, denominator: Line) -> Range<Extreme> {
        Range {
            min: self.least_quotient(numerator, denominator),
            max: self.greatest_quotient(numerator, denominator),
        }
    }

    /// Least quotient of two lines, as in [`Choices::quotient`].
    pub fn least_quotient(&self, numerator: Line, denominator: Line) -> Extreme {
        let turned = self.greatest_quotient(numerator.times(-1.0), denominator);
        Extreme { value: -turned.value, ..turned }
    }

    /// Greatest quotient of two lines, as in [`Choices::quotient`].
    pub fn greatest_quotient(&self, numerator: Line, denominator: Line) -> Extreme {
        let lines = [numerator, denominator];
        let parts = |option: &Totals| lines.map(|line| line.part_of(option));
        let groups = self.groups().map(|(options, _)| options.iter().map(parts));
        let value = climb(lines.map(|line| line.of(&self.fixed)), groups);
        Extreme { value, witness: Witness::Greatest(numerator - denominator.times(value)) }
    }

    /// Fill of each tank and whether each piece of cargo is aboard, in the state of a witness.
    pub fn state(&self, witness: &Witness, fill: &mut [f64], aboard: &mut [bool]) {
        for (g, (options, sources)) in self.groups().enumerate() {
            let (index, amount) = match witness {
                Witness::Greatest(line) => (best_option(options, line), 1.0),
                Witness::Corner { picks, partial } => {
                    let amount = partial.filter(|(group, _)| *group == g).map_or(1.0, |(_, amount)| amount);
                    (((picks >> (4 * g) & 15) as usize).checked_sub(1), amount)
                }
            };
            match index.map(|index| sources[index]) {
                Some(Source::Tank(tank)) => fill[tank] = amount,
                Some(Source::Cargo(cargo)) => aboard[cargo] = true,
                None => {}
            }
        }
    }
}

/// Greatest quotient of two sums over groups of which one option each, or none, counts.
///
/// `λ* = max N/D` is the only zero of `max (N − λ D)`, which is a sum over the groups for every λ: each takes the option with
/// the greatest part, if that is above 0. Raising λ to the quotient of what they take climbs strictly and ends, usually in two or
/// three steps.
///
/// - `fixed`   numerator and denominator of what counts in any case, the denominator above 0
/// - `groups`  what each option of a group adds to either, to the denominator 0 or more
///
/// Source: parametric iteration for linear-fractional programs (W. Dinkelbach, Management Science 13, 1967,
/// from memory).
#[inline]
pub(super) fn climb(
    fixed: [f64; 2],
    groups: impl Iterator<Item = impl Iterator<Item = [f64; 2]>> + Clone,
) -> f64 {
    let mut value = fixed[0] / fixed[1];
    loop {
        let mut sums = fixed;
        for options in groups.clone() {
            let (mut greatest, mut adds) = (0.0, [0.0; 2]);
            for [numerator, denominator] in options {
                let gain = numerator - value * denominator;
                if gain > greatest {
                    (greatest, adds) = (gain, [numerator, denominator]);
                }
            }
            sums = [sums[0] + adds[0], sums[1] + adds[1]];
        }
        let next = sums[0] / sums[1];
        if next <= value || next.is_nan() {
            return value;
        }
        value = next;
    }
}

/// What the best option of a group adds to a line, or 0 for none of them.
pub(super) fn best(options: &[Totals], line: &Line) -> f64 {
    options.iter().fold(0.0, |best: f64, option| best.max(line.part_of(option)))
}

fn best_option(options: &[Totals], line: &Line) -> Option<usize> {
    let mut found = None;
    let mut best = 0.0;
    for (index, option) in options.iter().enumerate() {
        let value = line.part_of(option);
        if value > best {
            (found, best) = (Some(index), value);
        }
    }
    found
}

/// Worst cases of every load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Worst {
    /// Everything aboard [kg].
    pub gross: Range<Extreme>,
    /// Tongue load [kg].
    pub tongue: Range<Extreme>,
    /// Tongue load over gross mass.
    pub tongue_fraction: Range<Extreme>,
    /// Load of each axle [kg].
    pub axle: [Range<Extreme>; MAX_AXLES],
    /// Load of the wheels on the left of each axle [kg].
    pub left: [Range<Extreme>; MAX_AXLES],
    /// Load of the wheels on the right of each axle [kg].
    pub right: [Range<Extreme>; MAX_AXLES],
    /// Some state lifts an axle, and the figures come from a search of all corners.
    pub lift: Lift,
}

/// Whether an axle can lift.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lift {
    /// Never.
    No,
    /// Yes, and every corner was looked at: the figures are exact.
    Exact,
    /// Yes, with too many variables to look at every corner: the figures enclose the truth.
    Bounded,
}

/// Worst cases of every load over all choices.
pub fn worst(choices: &Choices, rig: &Rig) -> Worst {
    let none = choices.line(Line::default());
    let mut worst = Worst {
        gross: choices.line(Line::GROSS),
        tongue: choices.line(rig.tongue),
        tongue_fraction: choices.quotient(rig.tongue, Line::GROSS),
        axle: [none; MAX_AXLES],
        left: [none; MAX_AXLES],
        right: [none; MAX_AXLES],
        lift: Lift::No,
    };
    for j in 0..rig.count {
        worst.axle[j] = choices.line(rig.axle[j]);
        worst.left[j] = choices.line(rig.wheel(j, false));
        worst.right[j] = choices.line(rig.wheel(j, true));
    }
    let least_moment = choices.line(Line::MOMENT).min.value;
    if rig.springs.is_some_and(|springs| least_moment < springs.least_moment_kg_m) {
        lift::widen(choices, rig, &mut worst);
    }
    worst
}

impl Worst {
    /// Takes the loads of one state into account.
    pub(super) fn include(&mut self, rig: &Rig, gross_kg: f64, loads: &Loads, witness: Witness) {
        let widen = |range: &mut Range<Extreme>, value: f64| {
            if value < range.min.value {
                range.min = Extreme { value, witness };
            }
            if value > range.max.value {
                range.max = Extreme { value, witness };
            }
        };
        widen(&mut self.tongue, loads.tongue_kg);
        widen(&mut self.tongue_fraction, loads.tongue_kg / gross_kg);
        for j in 0..rig.count {
            widen(&mut self.axle[j], loads.axle_kg[j]);
            widen(&mut self.left[j], loads.sides[j].left_kg);
            widen(&mut self.right[j], loads.sides[j].right_kg);
        }
    }
}
