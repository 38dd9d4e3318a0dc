//! The worst cases of a row over every tank fill and every choice of cargo.

use crate::axle_load::line::Line;
use crate::axle_load::often::{GreatestLoad, GreatestQuotient};
use crate::axle_load::rig::Rig;
use crate::axle_load::worst::{Choices, Source};
use crate::build::Build;
use crate::units::lb;

/// A worst case that is wanted: the least of something is less the greatest of it turned about.
#[derive(Debug)]
pub enum WorstCase {
    /// The least of a load.
    Least(GreatestLoad),
    /// The greatest.
    Greatest(GreatestLoad),
    /// The least share of everything aboard that the tongue carries.
    LeastShare(GreatestQuotient),
    /// The greatest.
    GreatestShare(GreatestQuotient),
}

impl WorstCase {
    /// The worst case that keys lead to in the report of axle load, after `worst`; none of others than these.
    ///
    /// - `changes`  what columns give mass or place of
    pub fn find(
        keys: &[&str],
        build: &Build,
        rig: &Rig,
        choices: &Choices,
        changes: impl Fn(Source) -> bool,
    ) -> Option<Self> {
        let axle = |id: &str| build.axles().position(|(axle, _)| axle == id);
        let (of, end) = match keys {
            [of @ .., end, "value"] => (of, *end),
            _ => return None,
        };
        let is_least = match end {
            "min" => true,
            "max" => false,
            _ => return None,
        };
        let line = match of {
            ["tongue_fraction"] if is_least => {
                let lines = [rig.tongue.times(-1.0), Line::GROSS];
                return Some(Self::LeastShare(GreatestQuotient::of(lines, choices, changes)));
            }
            ["tongue_fraction"] => {
                let lines = [rig.tongue, Line::GROSS];
                return Some(Self::GreatestShare(GreatestQuotient::of(lines, choices, changes)));
            }
            ["gross_mass_lb"] => Line::GROSS,
            ["tongue_lb"] => rig.tongue,
            ["axles", id] => rig.axle[axle(id)?],
            ["axles", id, "left"] => rig.wheel(axle(id)?, false),
            ["axles", id, "right"] => rig.wheel(axle(id)?, true),
            _ => return None,
        };
        Some(match is_least {
            true => Self::Least(GreatestLoad::of(line.times(-1.0), choices, changes)),
            false => Self::Greatest(GreatestLoad::of(line, choices, changes)),
        })
    }

    /// Its value, as the choices are now.
    #[inline]
    pub fn now(&mut self, choices: &Choices) -> f64 {
        match self {
            Self::Least(turned) => lb(0.0 - turned.now(choices)),
            Self::Greatest(load) => lb(load.now(choices)),
            Self::LeastShare(turned) => -turned.now(choices),
            Self::GreatestShare(share) => share.now(choices),
        }
    }
}
