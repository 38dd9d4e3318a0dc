//! Masses and axle loads of many rows that differ in the masses and places of parts and cargo alone.
//!
//! The same sums in the same order as in the questions, so that every figure comes out the same to the bit; but nothing is
//! looked up by name, allocated or put into words from row to row.

use super::column::{Column, Target};
use super::score::Task;
use crate::axle_load::rig::{Loads, Rig};
use crate::build::{Bare, Build, Cargo, Part};
use crate::loading::Loading;
use crate::masses::Totals;
use crate::units::{inches, kg, lb};

/// The masses of a build, made ready for rows.
#[derive(Debug)]
pub struct Weights {
    bare: Bare,
    parts: Vec<Totals>,
    /// Bare trailer and the parts before the first that varies.
    before: Totals,
    first: usize,
    varied_parts: Vec<Varied<Part>>,
    cargo: Vec<Totals>,
    varied_cargo: Vec<Varied<Cargo>>,
    states: Vec<StateMasses>,
    propane_kg: f64,
    gvwr_kg: f64,
    rig: Option<Rig>,
    /// Scores of the unloaded mass.
    unloaded: Vec<usize>,
}

/// Something of which columns give mass or place.
#[derive(Debug)]
struct Varied<T> {
    index: usize,
    item: T,
    /// The members that columns give, each with its column.
    members: Vec<(Member, usize)>,
}

/// A member that is a mass or a place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Member {
    Mass,
    X,
    Y,
    Z,
}

/// What is wanted of a state.
#[derive(Debug)]
struct StateMasses {
    fluids: Totals,
    /// The cargo aboard; its sum, where none of it varies.
    aboard: Vec<usize>,
    cargo: Option<Totals>,
    /// Each figure with the position of its score.
    figures: Vec<(Wanted, usize)>,
    needs_loads: bool,
}

/// A figure of a state.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Wanted {
    Fluids,
    Cargo,
    Gross,
    PayloadLeft,
    OfGvwr,
    CenterX,
    CenterY,
    CenterZ,
    Tongue,
    TongueFraction,
    Axle(usize),
    Left(usize),
    Right(usize),
}

impl Weights {
    /// The masses of a build; none where a figure is wanted that they do not give, or where they depend on one another in
    /// other ways.
    ///
    /// - `build`    the build, every question of `tasks` answered by it
    /// - `columns`  what varies
    pub fn of(build: &Build, tasks: &[&Task], columns: &[Column]) -> Option<Self> {
        let trailer = build.trailer.as_ref()?;
        let loading = Loading::of(build)?;
        let rig = Rig::of(build, &loading);
        // How springs stand depends on what is aboard.
        if rig.is_some_and(|rig| rig.springs.is_some()) {
            return None;
        }
        let mut weights = Self {
            bare: trailer.bare.clone(),
            before: loading.bare,
            first: loading.parts.len(),
            varied_parts: Vec::new(),
            varied_cargo: Vec::new(),
            states: Vec::new(),
            propane_kg: loading.propane_kg(),
            gvwr_kg: kg(trailer.gvwr_lb),
            rig,
            unloaded: Vec::new(),
            parts: Vec::new(),
            cargo: Vec::new(),
        };
        for (number, column) in columns.iter().enumerate() {
            let Target::Field { input, is_mass: true } = &column.target else { continue };
            weights.vary(build, &input.keys, number)?;
        }
        weights.first =
            weights.varied_parts.iter().map(|part| part.index).min().unwrap_or(loading.parts.len());
        weights.before = loading.parts[..weights.first].iter().fold(loading.bare, |sum, part| sum + *part);
        for state in &loading.states {
            let aboard: Vec<usize> = (0..loading.cargo.len()).filter(|index| state.aboard[*index]).collect();
            let varies = |index: &usize| weights.varied_cargo.iter().any(|cargo| cargo.index == *index);
            let cargo = (!aboard.iter().any(varies)).then(|| loading.cargo_in(state));
            let fluids = loading.fluids_in(state);
            weights.states.push(StateMasses {
                fluids,
                aboard,
                cargo,
                figures: Vec::new(),
                needs_loads: false,
            });
        }
        for task in tasks {
            for (score, figure) in &task.figures {
                let keys: Vec<&str> = figure.keys.iter().map(String::as_str).collect();
                if task.question() == "payload" && keys == ["unloaded_mass_lb"] {
                    weights.unloaded.push(*score);
                    continue;
                }
                let ["states", id, rest @ ..] = &keys[..] else { return None };
                let state = loading.states.iter().position(|state| state.id == *id)?;
                let wanted = wanted(task.question(), rest, build)?;
                let state = &mut weights.states[state];
                state.needs_loads |= wanted.needs_loads();
                state.figures.push((wanted, *score));
            }
        }
        weights.states.retain(|state| !state.figures.is_empty());
        (weights.parts, weights.cargo) = (loading.parts, loading.cargo);
        Some(weights)
    }

    /// Notes that a column gives a member.
    fn vary(&mut self, build: &Build, keys: &[String], column: usize) -> Option<()> {
        let [section, id, member] = keys else { return None };
        let member = match member.as_str() {
            "mass_lb" => Member::Mass,
            "x_in" => Member::X,
            "y_in" => Member::Y,
            "z_in" => Member::Z,
            _ => return None,
        };
        if section == "parts" {
            let (index, _, item) = build.parts.as_ref()?.get_full(id)?;
            note(&mut self.varied_parts, index, item, (member, column));
        } else {
            let (index, _, item) = build.cargo.as_ref()?.get_full(id)?;
            note(&mut self.varied_cargo, index, item, (member, column));
        }
        Some(())
    }

    /// Works out a row.
    ///
    /// - `cell`  the number of a column in the row
    /// - `put`   takes the position of each score and its figure
    #[inline]
    pub fn row(&mut self, cell: impl Fn(usize) -> f64, mut put: impl FnMut(usize, f64)) {
        for varied in &mut self.varied_parts {
            let Part { mass_lb, x_in, y_in, z_in, .. } = &mut varied.item;
            for (member, column) in &varied.members {
                set(*member, cell(*column), mass_lb, x_in, y_in, z_in);
            }
            self.parts[varied.index] = Loading::of_part(&self.bare, &varied.item);
        }
        for varied in &mut self.varied_cargo {
            let Cargo { mass_lb, x_in, y_in, z_in, .. } = &mut varied.item;
            for (member, column) in &varied.members {
                set(*member, cell(*column), mass_lb, x_in, y_in, z_in);
            }
            self.cargo[varied.index] = Loading::of_cargo(&self.bare, &varied.item);
        }
        let fixed = self.parts[self.first..].iter().fold(self.before, |sum, part| sum + *part);
        for score in &self.unloaded {
            put(*score, lb(fixed.mass_kg + self.propane_kg));
        }
        for state in &self.states {
            let cargo =
                state.cargo.unwrap_or_else(|| state.aboard.iter().map(|index| self.cargo[*index]).sum());
            let totals = fixed + state.fluids + cargo;
            let loads = self.rig.filter(|_| state.needs_loads).map(|rig| rig.loads(&totals));
            for (wanted, score) in &state.figures {
                put(*score, wanted.of(&totals, state.fluids, cargo, self.gvwr_kg, loads.as_ref()));
            }
        }
    }
}

fn note<T: Clone>(varied: &mut Vec<Varied<T>>, index: usize, item: &T, member: (Member, usize)) {
    match varied.iter_mut().find(|one| one.index == index) {
        Some(one) => one.members.push(member),
        None => varied.push(Varied { index, item: item.clone(), members: vec![member] }),
    }
}

#[inline]
fn set(
    member: Member,
    value: f64,
    mass_lb: &mut f64,
    x_in: &mut Option<f64>,
    y_in: &mut Option<f64>,
    z_in: &mut Option<f64>,
) {
    match member {
        Member::Mass => *mass_lb = value,
        Member::X => *x_in = Some(value),
        Member::Y => *y_in = Some(value),
        Member::Z => *z_in = Some(value),
    }
}

/// The figure of a state that keys lead to; none of others than these.
fn wanted(question: &str, keys: &[&str], build: &Build) -> Option<Wanted> {
    let axle = |id: &str| build.axles().position(|(axle, _)| axle == id);
    Some(match (question, keys) {
        ("payload", ["fluids_lb"]) => Wanted::Fluids,
        ("payload", ["cargo_lb"]) => Wanted::Cargo,
        ("payload" | "axle_load", ["gross_mass_lb"]) => Wanted::Gross,
        ("payload", ["payload_left_lb"]) => Wanted::PayloadLeft,
        ("payload", ["gvwr_fraction"]) => Wanted::OfGvwr,
        ("axle_load", ["center", "x_in"]) => Wanted::CenterX,
        ("axle_load", ["center", "y_in"]) => Wanted::CenterY,
        ("axle_load", ["center", "z_in"]) => Wanted::CenterZ,
        ("axle_load", ["tongue_lb"]) => Wanted::Tongue,
        ("axle_load", ["tongue_fraction"]) => Wanted::TongueFraction,
        ("axle_load", ["axles", id, "load_lb"]) => Wanted::Axle(axle(id)?),
        ("axle_load", ["axles", id, "left_lb"]) => Wanted::Left(axle(id)?),
        ("axle_load", ["axles", id, "right_lb"]) => Wanted::Right(axle(id)?),
        _ => return None,
    })
}

impl Wanted {
    fn needs_loads(self) -> bool {
        matches!(self, Self::Tongue | Self::TongueFraction | Self::Axle(_) | Self::Left(_) | Self::Right(_))
    }

    #[inline]
    fn of(self, totals: &Totals, fluids: Totals, cargo: Totals, gvwr_kg: f64, loads: Option<&Loads>) -> f64 {
        let load =
            |of: fn(&Loads, usize) -> f64, axle: usize| loads.map_or(f64::NAN, |loads| of(loads, axle));
        match self {
            Self::Fluids => lb(fluids.mass_kg),
            Self::Cargo => lb(cargo.mass_kg),
            Self::Gross => lb(totals.mass_kg),
            Self::PayloadLeft => lb(gvwr_kg - totals.mass_kg),
            Self::OfGvwr => totals.mass_kg / gvwr_kg,
            Self::CenterX => inches(totals.center_x_m()),
            Self::CenterY => inches(totals.center_y_m()),
            Self::CenterZ => inches(totals.center_z_m()),
            Self::Tongue => lb(load(|loads, _| loads.tongue_kg, 0)),
            Self::TongueFraction => load(|loads, _| loads.tongue_kg, 0) / totals.mass_kg,
            Self::Axle(axle) => lb(load(|loads, axle| loads.axle_kg[axle], axle)),
            Self::Left(axle) => lb(load(|loads, axle| loads.sides[axle].left_kg, axle)),
            Self::Right(axle) => lb(load(|loads, axle| loads.sides[axle].right_kg, axle)),
        }
    }
}
