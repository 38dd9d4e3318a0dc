//! Masses and axle loads of many rows that differ in the masses and places of parts and cargo alone.
//!
//! The same sums in the same order as in the questions, so that every figure comes out the same to the bit; but nothing is
//! looked up by name, allocated or put into words from row to row.

mod state;
mod varied;
mod worst;

use super::column::{Column, Target};
use super::score::Task;
use crate::axle_load::rig::{Rig, Tow};
use crate::axle_load::worst::{Choices, Source};
use crate::build::{Bare, Build, Cargo, Part};
use crate::loading::{Loading, LoadingState};
use crate::masses::Totals;
use crate::units::lb;
use state::{Laden, StateFigure};
use varied::{Member, Varied};
use worst::WorstCase;

/// The masses of a build, made ready for rows.
#[derive(Debug)]
pub struct Weights {
    bare: Bare,
    varied_parts: Vec<Varied<Part>>,
    varied_cargo: Vec<Varied<Cargo>>,
    /// Bare trailer and the parts before the first that varies.
    before: Totals,
    /// The parts from the first on that varies.
    first: usize,
    parts: Vec<Totals>,
    cargo: Vec<Totals>,
    rig: Option<Rig>,
    propane_kg: f64,
    /// Where the unloaded mass goes to: the numbers of its figures.
    unloaded: Vec<usize>,
    states: Vec<State>,
    /// Each with the number of its figure.
    worst: Vec<(WorstCase, usize)>,
    choices: Choices,
}

/// What is wanted of a state.
#[derive(Debug)]
struct State {
    fluids: Totals,
    /// The cargo aboard; its sum, where none of it varies.
    aboard: Vec<usize>,
    cargo: Option<Totals>,
    /// Each with its number.
    figures: Vec<(StateFigure, usize)>,
    reads_loads: bool,
}

impl Weights {
    /// The masses of a build; none where a figure is wanted that they do not give, or where they depend on one another in
    /// other ways.
    ///
    /// - `build`    the build, every question of `tasks` answered by it
    /// - `columns`  what varies
    /// - `number`   the number of a score's figure
    pub fn of(
        build: &Build,
        tasks: &[&Task],
        columns: &[Column],
        number: impl Fn(usize) -> usize,
    ) -> Option<Self> {
        let trailer = build.trailer.as_ref()?;
        let loading = Loading::of(build)?;
        let rig = Rig::of(build, &loading);
        // How springs stand depends on what is aboard.
        if rig.is_some_and(|rig| rig.springs.is_some()) {
            return None;
        }
        let (mut varied_parts, mut varied_cargo) = (Vec::new(), Vec::new());
        for (at, column) in columns.iter().enumerate() {
            let Target::Field { input, is_mass: true } = &column.target else { continue };
            let [section, id, member] = &input.keys[..] else { return None };
            let member = Member::of(member)?;
            if section == "parts" {
                let (index, _, item) = build.parts.as_ref()?.get_full(id)?;
                Varied::note(&mut varied_parts, index, item, member, at);
            } else {
                let (index, _, item) = build.cargo.as_ref()?.get_full(id)?;
                Varied::note(&mut varied_cargo, index, item, member, at);
            }
        }
        let varies = |index: usize| varied_cargo.iter().any(|cargo: &Varied<Cargo>| cargo.index == index);
        let first = varied_parts.iter().map(|part| part.index).min().unwrap_or(loading.parts.len());
        let mut weights = Self {
            bare: trailer.bare.clone(),
            before: loading.parts[..first].iter().fold(loading.bare, |sum, part| sum + *part),
            first,
            propane_kg: loading.propane_kg(),
            rig,
            unloaded: Vec::new(),
            states: loading.states.iter().map(|state| State::of(&loading, state, varies)).collect(),
            worst: Vec::new(),
            choices: Choices::of(build, &loading),
            varied_parts: Vec::new(),
            varied_cargo: Vec::new(),
            parts: Vec::new(),
            cargo: Vec::new(),
        };
        let tow = rig.and_then(|rig| Tow::of(build, rig.group_x_m));
        for task in tasks {
            for (score, figure) in &task.figures {
                let keys: Vec<&str> = figure.keys.iter().map(String::as_str).collect();
                let number = number(*score);
                match (task.question(), &keys[..]) {
                    ("payload", ["unloaded_mass_lb"]) => weights.unloaded.push(number),
                    (question, ["states", id, rest @ ..]) => {
                        let state = loading.states.iter().position(|state| state.id == *id)?;
                        let figure = StateFigure::find(question, rest, build, tow.as_ref())?;
                        let state = &mut weights.states[state];
                        state.reads_loads |= figure.reads_loads();
                        state.figures.push((figure, number));
                    }
                    ("axle_load", ["worst", rest @ ..]) => {
                        let varies = |source| matches!(source, Source::Cargo(index) if varies(index));
                        let case = WorstCase::find(rest, build, &rig?, &weights.choices, varies)?;
                        weights.worst.push((case, number));
                    }
                    _ => return None,
                }
            }
        }
        weights.states.retain(|state| !state.figures.is_empty());
        (weights.varied_parts, weights.varied_cargo) = (varied_parts, varied_cargo);
        (weights.parts, weights.cargo) = (loading.parts, loading.cargo);
        Some(weights)
    }

    /// Works out a row.
    ///
    /// - `cell`  the number of a column in the row
    /// - `put`   takes the number of each figure, and the figure
    #[inline]
    pub fn row(&mut self, cell: impl Fn(usize) -> f64, mut put: impl FnMut(usize, f64)) {
        for varied in &mut self.varied_parts {
            self.parts[varied.index] = varied.totals(&self.bare, &cell);
        }
        for varied in &mut self.varied_cargo {
            self.cargo[varied.index] = varied.totals(&self.bare, &cell);
        }
        let fixed = self.parts[self.first..].iter().fold(self.before, |sum, part| sum + *part);
        for number in &self.unloaded {
            put(*number, lb(fixed.mass_kg + self.propane_kg));
        }
        for state in &self.states {
            let cargo =
                state.cargo.unwrap_or_else(|| state.aboard.iter().map(|index| self.cargo[*index]).sum());
            let rig = self.rig.as_ref().filter(|_| state.reads_loads);
            let laden = Laden::of(fixed, state.fluids, cargo, rig);
            for (figure, number) in &state.figures {
                put(*number, figure.of(&laden));
            }
        }
        if !self.worst.is_empty() {
            self.choices.fixed = fixed;
            for varied in &self.varied_cargo {
                self.choices.put(Source::Cargo(varied.index), self.cargo[varied.index]);
            }
            for (case, number) in &mut self.worst {
                put(*number, case.now(&self.choices));
            }
        }
    }
}

impl State {
    /// A state of which nothing is wanted yet.
    fn of(loading: &Loading, state: &LoadingState, varies: impl Fn(usize) -> bool) -> Self {
        let aboard: Vec<usize> = (0..loading.cargo.len()).filter(|index| state.aboard[*index]).collect();
        let cargo = (!aboard.iter().any(|index| varies(*index))).then(|| loading.cargo_in(state));
        Self { fluids: loading.fluids_in(state), aboard, cargo, figures: Vec::new(), reads_loads: false }
    }
}
