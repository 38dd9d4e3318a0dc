//! A choice of options: which are chosen, what they cost, and the build they make.

use serde_json::Value;

use super::catalogue::{Choose, Position};
use super::merge_patch;
use super::request::Packages;

/// Which options are chosen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Choice(Vec<Vec<bool>>);

impl Choice {
    /// None of them.
    pub fn none(packages: &Packages) -> Self {
        Self(packages.groups.values().map(|group| vec![false; group.options.len()]).collect())
    }

    /// Is an option chosen?
    pub fn has(&self, (group, option): Position) -> bool {
        self.0.get(group).and_then(|group| group.get(option)).copied().unwrap_or(false)
    }

    /// Chooses an option, or does not.
    pub fn set(&mut self, (group, option): Position, chosen: bool) {
        if let Some(place) = self.0.get_mut(group).and_then(|group| group.get_mut(option)) {
            *place = chosen;
        }
    }

    /// The chosen option of which an option would take the place; none in a group of which any may be chosen.
    pub fn in_place_of(&self, packages: &Packages, (group, option): Position) -> Option<usize> {
        let one = packages.groups.get_index(group).is_some_and(|(_, group)| group.choose == Choose::One);
        let chosen = self.0.get(group).and_then(|group| group.iter().position(|chosen| *chosen));
        chosen.filter(|other| one && *other != option)
    }

    /// The same choice with an option added, in the place of the one it replaces.
    #[must_use]
    pub fn with(&self, packages: &Packages, position: Position) -> Self {
        let mut choice = self.clone();
        if let Some(other) = self.in_place_of(packages, position) {
            choice.set((position.0, other), false);
        }
        choice.set(position, true);
        choice
    }

    /// The chosen options, in the order of the catalogue.
    pub fn chosen(&self) -> impl Iterator<Item = Position> + Clone + '_ {
        let of_group = |(g, group): (usize, &'_ Vec<bool>)| {
            let all = group.clone().into_iter().enumerate();
            all.filter(|(_, chosen)| *chosen).map(move |(o, _)| (g, o))
        };
        self.0.iter().enumerate().flat_map(of_group)
    }

    /// The price of the chosen options together [USD].
    pub fn price_usd(&self, packages: &Packages) -> f64 {
        let prices = self.chosen().filter_map(|position| Some(packages.option(position)?.price_usd));
        prices.fold(0.0, |sum, price| sum + price)
    }

    /// The build that the choice makes: the base, and the patches in the order of the catalogue.
    pub fn build(&self, packages: &Packages) -> Value {
        let mut build = packages.base.clone();
        for position in self.chosen() {
            if let Some(patch) = packages.option(position).and_then(|option| option.patch.as_ref()) {
                merge_patch::apply(&mut build, patch);
            }
        }
        build
    }
}
