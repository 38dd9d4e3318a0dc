//! Where a thing may stand, and how heavy a thing may be at its place.
//!
//! Every limit is a straight line of mass and moment, so with everything else at its worst it bounds the place, or
//! the mass, of one thing by a single number.

use super::limits::{Limit, LimitName};
use crate::masses::Totals;

/// A factor this small is none: what rounding leaves where two effects cancel, such as bars that restore the whole of
/// the front axle's load. A tonne moved by a metre would change the load by a milligram.
const NO_FACTOR: f64 = 1e-9;

/// An interval of places [m], and the limits that end it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interval {
    /// Foremost place [m]; minus infinity where nothing bounds it.
    pub min_x_m: f64,
    /// What bounds it forward.
    pub min_by: Option<LimitName>,
    /// Rearmost place [m]; infinity where nothing bounds it.
    pub max_x_m: f64,
    /// What bounds it rearward.
    pub max_by: Option<LimitName>,
}

impl Interval {
    /// Everywhere.
    pub const ANYWHERE: Self =
        Self { min_x_m: f64::NEG_INFINITY, min_by: None, max_x_m: f64::INFINITY, max_by: None };

    /// True where no place is left.
    pub fn is_empty(&self) -> bool {
        self.min_x_m > self.max_x_m
    }

    /// The part of it that is not ahead of `x_m`.
    #[must_use]
    pub fn not_ahead_of(self, x_m: f64, by: LimitName) -> Self {
        if x_m > self.min_x_m { Self { min_x_m: x_m, min_by: Some(by), ..self } } else { self }
    }

    /// The part of it that is not behind `x_m`.
    #[must_use]
    pub fn not_behind(self, x_m: f64, by: LimitName) -> Self {
        if x_m < self.max_x_m { Self { max_x_m: x_m, max_by: Some(by), ..self } } else { self }
    }

    /// The part of it where a thing keeps a limit.
    ///
    /// With the thing at x the limit reads `rest + b m x <= 0`, where b is the limit's factor on the moment.
    ///
    /// - `limit`     the limit
    /// - `mass_kg`   the thing's mass m [kg]
    /// - `rest_kg`   greatest value of the limit over all states, the thing counted as if it stood at the ball [kg]
    ///
    /// A limit that the place does not matter to is passed over.
    #[must_use]
    pub fn keeping(self, limit: &Limit, mass_kg: f64, rest_kg: f64) -> Self {
        let factor = limit.over.x * mass_kg;
        if factor == 0.0 || limit.over.x.abs() < NO_FACTOR {
            self
        } else if factor > 0.0 {
            self.not_behind(-rest_kg / factor, limit.name)
        } else {
            self.not_ahead_of(-rest_kg / factor, limit.name)
        }
    }
}

/// The greatest mass that may stand at a place [kg], and the limit that ends it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Greatest {
    /// The mass [kg]; infinity where nothing bounds it.
    pub mass_kg: f64,
    /// What bounds it.
    pub by: Option<LimitName>,
    /// Least mass that must stand there for the other limits to hold [kg].
    pub least_kg: f64,
    /// A limit is broken however much or little stands there.
    pub hopeless: bool,
}

impl Greatest {
    /// Any mass.
    pub const ANY: Self = Self { mass_kg: f64::INFINITY, by: None, least_kg: 0.0, hopeless: false };

    /// The greatest mass that keeps a limit too.
    ///
    /// With mass m the limit reads `rest + g m <= 0`, where g is what one kilogram at the place adds.
    ///
    /// - `limit`    the limit
    /// - `one`      one kilogram at the place
    /// - `rest_kg`  greatest value of the limit over all states without the thing [kg]
    #[must_use]
    pub fn keeping(self, limit: &Limit, one: &Totals, rest_kg: f64) -> Self {
        let factor = limit.over.part_of(one);
        let ends_at = -rest_kg / factor;
        if factor.abs() < NO_FACTOR {
            Self { hopeless: self.hopeless || rest_kg > 1e-9, ..self }
        } else if factor < 0.0 {
            Self { least_kg: self.least_kg.max(ends_at), ..self }
        } else if ends_at < self.mass_kg {
            Self { mass_kg: ends_at, by: Some(limit.name), ..self }
        } else {
            self
        }
    }

    /// True where some mass keeps every limit.
    pub fn exists(&self) -> bool {
        !self.hopeless && self.mass_kg >= self.least_kg
    }
}

#[cfg(test)]
mod tests {
    use super::super::line::Line;
    use super::*;

    /// A limit that a place, or a mass, matters to by no more than rounding leaves.
    fn cancelled(factor: f64) -> Limit {
        let over = Line { x: factor, ..Line::default() };
        Limit { name: LimitName::TowFrontGawr, over, load: over, bound_kg: 0.0 }
    }

    #[test]
    fn a_limit_that_the_place_does_not_matter_to_is_passed_over() {
        for (factor, rest_kg) in [(1e-17, 100.0), (-1e-17, 100.0), (1e-17, -100.0), (-1e-17, 1e-13)] {
            let kept = Interval::ANYWHERE.keeping(&cancelled(factor), 50.0, rest_kg);
            assert_eq!(kept, Interval::ANYWHERE);
        }
    }

    #[test]
    fn a_limit_that_the_mass_does_not_matter_to_is_kept_or_hopeless() {
        let one = Totals { mass_kg: 1.0, x_kg_m: 1.0, ..Totals::default() };
        let hopeless = |rest_kg| !Greatest::ANY.keeping(&cancelled(1e-17), &one, rest_kg).exists();
        assert!(hopeless(100.0) && !hopeless(-100.0) && !hopeless(1e-13));
    }
}
