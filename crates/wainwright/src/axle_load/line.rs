//! Loads as straight lines of the sums of masses.

use crate::masses::Totals;

/// A load that is a weighted sum of mass and first moments: `F = a W + b M_x + c M_y + d M_z + e`.
///
/// On a level road, with fixed shares and every axle carrying, every load of a trailer is one. From that follow
/// the exact worst cases, the places where a thing may stand and the mass that may stand there.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Line {
    /// a: for each kilogram aboard.
    pub mass: f64,
    /// b: for each kilogram-metre of moment about the ball [1/m].
    pub x: f64,
    /// c: for each kilogram-metre of moment about the centreline [1/m].
    pub y: f64,
    /// d: for each kilogram-metre of moment about the ground [1/m].
    pub z: f64,
    /// e: with nothing aboard [kg].
    pub constant: f64,
}

impl Line {
    /// The whole mass.
    pub const GROSS: Self = Self { mass: 1.0, x: 0.0, y: 0.0, z: 0.0, constant: 0.0 };
    /// The moment about the ball [kg·m].
    pub const MOMENT: Self = Self { mass: 0.0, x: 1.0, y: 0.0, z: 0.0, constant: 0.0 };
    /// The moment about the centreline [kg·m].
    pub const SIDE_MOMENT: Self = Self { mass: 0.0, x: 0.0, y: 1.0, z: 0.0, constant: 0.0 };

    /// The load with these masses aboard [kg].
    pub fn of(&self, totals: &Totals) -> f64 {
        self.part_of(totals) + self.constant
    }

    /// What these masses add to the load [kg].
    pub fn part_of(&self, totals: &Totals) -> f64 {
        self.mass * totals.mass_kg + self.x * totals.x_kg_m + self.y * totals.y_kg_m + self.z * totals.z_kg_m
    }

    /// The line times a factor.
    #[must_use]
    pub fn times(self, factor: f64) -> Self {
        Self {
            mass: self.mass * factor,
            x: self.x * factor,
            y: self.y * factor,
            z: self.z * factor,
            constant: self.constant * factor,
        }
    }

    /// The line and so many kilograms more, whatever is aboard.
    #[must_use]
    pub fn plus(self, constant_kg: f64) -> Self {
        Self { constant: self.constant + constant_kg, ..self }
    }
}

impl std::ops::Add for Line {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self {
            mass: self.mass + other.mass,
            x: self.x + other.x,
            y: self.y + other.y,
            z: self.z + other.z,
            constant: self.constant + other.constant,
        }
    }
}

impl std::ops::Sub for Line {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        self + other.times(-1.0)
    }
}
