//! One source in one mode.

use super::Judged;
use crate::build::{Leg, SourceKind};
use crate::circuit_load::drawn::SourceFlow;
use crate::circuit_load::numbers::ModeNumbers;
use crate::circuit_load::wiring::{Index, Supply, Switching, is_on};

/// One source in one mode in which it feeds something.
pub(super) struct SourceInMode<'a> {
    pub judged: &'a Judged<'a>,
    pub mode: &'a ModeNumbers<'a>,
    pub switching: &'a Switching<'a>,
    pub index: Index,
    pub supply: &'a Supply<'a>,
    pub gives: &'a SourceFlow,
}

/// Every source in every mode in which it feeds something.
pub(super) fn in_modes<'a>(judged: &'a Judged<'a>) -> impl Iterator<Item = SourceInMode<'a>> {
    let wiring = judged.wiring;
    judged.numbers.modes.iter().zip(&wiring.modes).flat_map(move |(mode, switching)| {
        wiring.sources.iter().enumerate().filter_map(move |(index, supply)| {
            let gives = mode.flow.sources[index].as_ref()?;
            Some(SourceInMode { judged, mode, switching, index, supply, gives })
        })
    })
}

impl SourceInMode<'_> {
    /// Where the source stands in the build.
    pub fn here(&self) -> String {
        format!("/electrical/sources/{}", self.supply.id)
    }

    /// Where a member of it stands that the build gives.
    pub fn at(&self, member: &str) -> String {
        format!("/electrical/sources/{}/{member}", self.supply.id)
    }

    /// Where its rating stands: the first of its own, those on its path and what the mode leaves it that is the least.
    pub fn rating_at(&self) -> String {
        let rating_a = self.mode.ratings[self.index].rating_a;
        let is_least = |a: Option<f64>| a.is_some() && a == rating_a;
        let source = self.supply.source;
        if is_least(source.rating_a) {
            self.at("rating_a")
        } else if let Some((name, _)) = source.path_a.iter().flatten().find(|(_, a)| is_least(Some(**a))) {
            self.at(&format!("path_a/{name}"))
        } else if is_least(self.switching.limits_a[self.index]) {
            format!("/electrical/modes/{}/limits_a/{}", self.switching.id, self.supply.id)
        } else {
            self.here()
        }
    }

    /// Does a load get its power from it?
    pub fn feeds(&self, load: Index) -> bool {
        let circuit = self.judged.wiring.loads[load].circuit;
        self.mode.flow.powered[load] && self.switching.feeds[circuit] == Some(self.index)
    }

    /// The loads that get their power from it.
    pub fn loads(&self) -> impl Iterator<Item = Index> {
        (0..self.judged.wiring.loads.len()).filter(|&load| self.feeds(load))
    }

    /// Those on one of its legs.
    pub fn loads_on(&self, leg: Leg) -> impl Iterator<Item = Index> {
        let wiring = self.judged.wiring;
        let of_circuit = |load: Index| wiring.leg(wiring.loads[load].circuit).filter(|_| self.supply.split);
        self.loads().filter(move |&load| is_on(of_circuit(load), leg))
    }

    /// Does energy management hold what runs together within the rating?
    pub fn is_managed(&self) -> bool {
        self.judged.wiring.energy_management && self.supply.source.kind == SourceKind::Shore
    }
}
