//! Parts and cargo of which columns give mass or place.

use crate::build::{Bare, Cargo, Part};
use crate::loading::Loading;
use crate::masses::Totals;

/// A member that is a mass or a place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Member {
    /// `mass_lb`.
    Mass,
    /// `x_in`.
    X,
    /// `y_in`.
    Y,
    /// `z_in`.
    Z,
}

impl Member {
    /// The member of a name; none of others than these.
    pub fn of(name: &str) -> Option<Self> {
        Some(match name {
            "mass_lb" => Self::Mass,
            "x_in" => Self::X,
            "y_in" => Self::Y,
            "z_in" => Self::Z,
            _ => return None,
        })
    }
}

/// What has a mass and a place.
pub trait Placed: Clone {
    /// Its member.
    fn put(&mut self, member: Member, value: f64);
    /// What it adds in a bare trailer.
    fn totals(&self, bare: &Bare) -> Totals;
}

macro_rules! placed {
    ($what:ident, $totals:path) => {
        impl Placed for $what {
            fn put(&mut self, member: Member, value: f64) {
                match member {
                    Member::Mass => self.mass_lb = value,
                    Member::X => self.x_in = Some(value),
                    Member::Y => self.y_in = Some(value),
                    Member::Z => self.z_in = Some(value),
                }
            }

            fn totals(&self, bare: &Bare) -> Totals {
                $totals(bare, self)
            }
        }
    };
}
placed!(Part, Loading::of_part);
placed!(Cargo, Loading::of_cargo);

/// One of them that columns vary.
#[derive(Debug)]
pub struct Varied<T> {
    /// Its place among its like.
    pub index: usize,
    item: T,
    /// The members that columns give, each with its column.
    members: Vec<(Member, usize)>,
}

impl<T: Placed> Varied<T> {
    /// Notes among those known that a column gives a member.
    pub fn note(known: &mut Vec<Self>, index: usize, item: &T, member: Member, column: usize) {
        match known.iter_mut().find(|one| one.index == index) {
            Some(one) => one.members.push((member, column)),
            None => known.push(Self { index, item: item.clone(), members: vec![(member, column)] }),
        }
    }

    /// What it adds in a row.
    ///
    /// - `cell`  the number of a column in the row
    #[inline]
    pub fn totals(&mut self, bare: &Bare, cell: impl Fn(usize) -> f64) -> Totals {
        for (member, column) in &self.members {
            self.item.put(*member, cell(*column));
        }
        self.item.totals(bare)
    }
}
