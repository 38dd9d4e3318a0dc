//! Worst cases in normal use: waste tanks hold no more than came out of the fresh tanks.
//!
//! Fresh, grey and black water together are then at most what the fresh tanks hold. Taking every tank at any fill
//! is the safe side of this.

use super::line::Line;
use super::mixed_water::{Content, greatest};
use super::rig::Rig;
use super::worst::Choices;
use crate::loading::Loading;
use crate::masses::Totals;

/// Worst cases in normal use.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NormalUse {
    /// Water that goes round [kg].
    pub water_kg: f64,
    /// Greatest gross mass [kg].
    pub gross_max_kg: f64,
    /// Least tongue load [kg].
    pub tongue_min_kg: f64,
    /// Greatest tongue load [kg].
    pub tongue_max_kg: f64,
    /// Least tongue fraction.
    pub fraction_min: f64,
    /// Greatest tongue fraction.
    pub fraction_max: f64,
}

/// Worst cases in normal use, every axle carrying; none where there is not both fresh and waste.
pub fn normal_use(loading: &Loading, choices: &Choices, rig: &Rig) -> Option<NormalUse> {
    let fluids = || loading.fluids.iter().zip(&loading.tanks).filter(|(_, tank)| tank.mass_kg > 0.0);
    let fresh = fluids().filter(|(fluid, _)| fluid.is_water() && !fluid.is_waste());
    let water_kg = fresh.fold(0.0, |sum, (_, tank)| sum + tank.mass_kg);
    if water_kg == 0.0 || !fluids().any(|(fluid, _)| fluid.is_waste()) {
        return None;
    }
    let tanks: Vec<Totals> = fluids().filter(|(fluid, _)| fluid.is_water()).map(|(_, tank)| *tank).collect();
    let mut water = Water {
        choices,
        contents: vec![Content { coefficient: 0.0, least_kg: 0.0, most_kg: 0.0 }; tanks.len()],
        amounts_kg: vec![0.0; tanks.len()],
        tanks,
        total_kg: water_kg,
    };
    let tongue_up = rig.tongue.times(-1.0);
    Some(NormalUse {
        water_kg,
        gross_max_kg: water.greatest(&Line::GROSS),
        tongue_min_kg: -water.greatest(&tongue_up),
        tongue_max_kg: water.greatest(&rig.tongue),
        fraction_min: -water.greatest_share(&tongue_up),
        fraction_max: water.greatest_share(&rig.tongue),
    })
}

struct Water<'a> {
    choices: &'a Choices,
    tanks: Vec<Totals>,
    contents: Vec<Content>,
    amounts_kg: Vec<f64>,
    total_kg: f64,
}

impl Water<'_> {
    /// Masses aboard where a line is greatest: everything but the water at its best, and the water by its total.
    fn at_greatest(&mut self, line: &Line) -> Totals {
        let mut totals = self.choices.at_greatest(line);
        for (content, tank) in self.contents.iter_mut().zip(&self.tanks) {
            let gain = line.part_of(tank);
            if gain > 0.0 {
                totals = totals - *tank;
            }
            *content = Content { coefficient: gain / tank.mass_kg, least_kg: 0.0, most_kg: tank.mass_kg };
        }
        greatest(&self.contents, self.total_kg, &mut self.amounts_kg);
        let tanks = self.tanks.iter().zip(&self.amounts_kg);
        tanks.fold(totals, |sum, (tank, amount)| sum + tank.times(amount / tank.mass_kg))
    }

    fn greatest(&mut self, line: &Line) -> f64 {
        line.of(&self.at_greatest(line))
    }

    /// Greatest share of a line in the gross mass, by the same climb as [`Choices::quotient`].
    fn greatest_share(&mut self, line: &Line) -> f64 {
        let fixed = self.choices.fixed;
        let mut share = line.of(&fixed) / fixed.mass_kg;
        loop {
            let totals = self.at_greatest(&(*line - Line::GROSS.times(share)));
            let next = line.of(&totals) / totals.mass_kg;
            if next <= share || next.is_nan() {
                return share;
            }
            share = next;
        }
    }
}
