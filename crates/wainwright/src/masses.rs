//! Point masses and their sums.
//!
//! Axes: origin on the ground under the coupler ball's centre, x rearward, y to the right, z up.

/// A mass at a place.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct PointMass {
    /// Mass [kg], 0 or more.
    pub mass_kg: f64,
    /// Distance behind the ball [m]; ahead of it is negative.
    pub x_m: f64,
    /// Distance right of the centreline [m]; left is negative.
    pub y_m: f64,
    /// Height above the ground [m].
    pub z_m: f64,
}

/// Total mass and first moments of a set of point masses.
///
/// Sums, so that sets add and subtract: everything a loading state needs is one `Totals`.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Totals {
    /// Σ m [kg].
    pub mass_kg: f64,
    /// Σ m·x [kg·m].
    pub x_kg_m: f64,
    /// Σ m·y [kg·m].
    pub y_kg_m: f64,
    /// Σ m·z [kg·m].
    pub z_kg_m: f64,
}

impl Totals {
    /// Distance of the centre of gravity behind the ball [m]; NaN for no mass at all.
    pub fn center_x_m(&self) -> f64 {
        self.x_kg_m / self.mass_kg
    }

    /// Distance of the centre of gravity right of the centreline [m]; NaN for no mass at all.
    pub fn center_y_m(&self) -> f64 {
        self.y_kg_m / self.mass_kg
    }

    /// Height of the centre of gravity above the ground [m]; NaN for no mass at all.
    pub fn center_z_m(&self) -> f64 {
        self.z_kg_m / self.mass_kg
    }

    /// The same masses, each multiplied by `factor`: a tank at a fill, a part by its quantity.
    #[must_use]
    pub fn times(self, factor: f64) -> Self {
        Self {
            mass_kg: self.mass_kg * factor,
            x_kg_m: self.x_kg_m * factor,
            y_kg_m: self.y_kg_m * factor,
            z_kg_m: self.z_kg_m * factor,
        }
    }
}

impl From<PointMass> for Totals {
    fn from(p: PointMass) -> Self {
        Self {
            mass_kg: p.mass_kg,
            x_kg_m: p.mass_kg * p.x_m,
            y_kg_m: p.mass_kg * p.y_m,
            z_kg_m: p.mass_kg * p.z_m,
        }
    }
}

impl std::ops::Add for Totals {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self {
            mass_kg: self.mass_kg + other.mass_kg,
            x_kg_m: self.x_kg_m + other.x_kg_m,
            y_kg_m: self.y_kg_m + other.y_kg_m,
            z_kg_m: self.z_kg_m + other.z_kg_m,
        }
    }
}

impl std::ops::Sub for Totals {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        self + other.times(-1.0)
    }
}

impl std::ops::AddAssign for Totals {
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl std::iter::Sum for Totals {
    fn sum<I: Iterator<Item = Self>>(items: I) -> Self {
        items.fold(Self::default(), |sum, item| sum + item)
    }
}
