//! Everything that may be chosen, and what each option touches.

use serde_json::Value;

use crate::build::Part;
use crate::document::{Section, read_value, record};
use crate::options::catalogue::{Choose, Position};
use crate::options::choice::Choice;
use crate::options::conflict;
use crate::options::merge_patch;
use crate::options::reads::Half;
use crate::options::request::Packages;

/// Members of a part that are masses and places: each is held to its range and to nothing else.
const PLAIN_MEMBERS: &[&str] =
    &["mass_lb", "category", "x_in", "y_in", "z_in", "mass_tolerance_lb", "x_tolerance_in"];

/// One option as the search sees it.
#[derive(Debug)]
pub struct Touch {
    /// The option.
    pub position: Position,
    /// Its price [USD].
    pub price_usd: f64,
    /// Whether the build can be worked with depends on it.
    pub validity: bool,
    /// What circuits, energy and heat read depends on it.
    pub powers: bool,
    /// What bears the masses, or a mass other than a part's own, depends on it.
    pub bearing: bool,
    /// Parts that no other option that can be chosen with it touches: as they are without it and with it.
    pub parts: Vec<(Option<Part>, Option<Part>)>,
    /// Options that must be chosen with it, as indices.
    pub requires: Vec<usize>,
    /// Options that cannot be chosen with it, as indices: what it excludes, and what sets a member to another value.
    pub excludes: Vec<usize>,
    /// It names an option of a group that does not vary, in vain, or is in conflict with what is fixed.
    pub impossible: bool,
}

/// The choices there are: of each dimension one alternative.
#[derive(Debug)]
pub struct Space {
    /// What is chosen in every choice.
    pub fixed: Choice,
    /// All options that vary.
    pub options: Vec<Touch>,
    /// Each dimension: none, or one of these options.
    pub dimensions: Vec<Vec<usize>>,
}

record! {
    /// A part alone.
    pub struct Lone: "a part" {
        /// The part.
        required part: Part = Section::of();
    }
}

impl Space {
    /// The choices over some groups.
    ///
    /// - `vary`  which groups vary
    pub fn of(packages: &Packages, fixed: &Choice, vary: &[bool]) -> Self {
        let mut space = Self { fixed: fixed.clone(), options: Vec::new(), dimensions: Vec::new() };
        for (g, group) in packages.groups.values().enumerate().filter(|(g, _)| vary[*g]) {
            let own = space.options.len()..space.options.len() + group.options.len();
            match group.choose {
                Choose::One => space.dimensions.push(own.collect()),
                Choose::Any => space.dimensions.extend(own.map(|option| vec![option])),
            }
            for (o, option) in group.options.values().enumerate() {
                space.options.push(Touch {
                    position: (g, o),
                    price_usd: option.price_usd,
                    validity: false,
                    powers: false,
                    bearing: false,
                    parts: Vec::new(),
                    requires: Vec::new(),
                    excludes: Vec::new(),
                    impossible: false,
                });
            }
        }
        space.relate(packages);
        let base = fixed.build(packages);
        let springs =
            names_spring_rates(&base) || space.patches(packages).any(|(_, patch)| names_spring_rates(patch));
        for dimension in 0..space.dimensions.len() {
            for index in space.dimensions[dimension].clone() {
                space.touch(packages, &base, dimension, index, springs);
            }
        }
        space
    }

    /// How many choices there are.
    pub fn size(&self) -> u64 {
        self.dimensions.iter().fold(1, |size: u64, options| size.saturating_mul(options.len() as u64 + 1))
    }

    fn patches<'a>(&'a self, packages: &'a Packages) -> impl Iterator<Item = (usize, &'a Value)> {
        let of = |touch: &Touch| packages.option(touch.position)?.patch.as_ref();
        self.options.iter().enumerate().filter_map(move |(index, touch)| Some((index, of(touch)?)))
    }

    /// Fills in what requires and what excludes what.
    fn relate(&mut self, packages: &Packages) {
        let index_of = |options: &[Touch], position: Position| {
            options.iter().position(|touch| touch.position == position)
        };
        for index in 0..self.options.len() {
            let position = self.options[index].position;
            let Some(option) = packages.option(position) else { continue };
            let named = |list: &Option<Vec<String>>| -> Vec<Position> {
                list.iter().flatten().filter_map(|id| packages.positions.get(id)).copied().collect()
            };
            for other in named(&option.requires) {
                match index_of(&self.options, other) {
                    Some(other) => self.options[index].requires.push(other),
                    None => self.options[index].impossible |= !self.fixed.has(other),
                }
            }
            for other in named(&option.excludes) {
                match index_of(&self.options, other) {
                    Some(other) => self.options[index].excludes.push(other),
                    None => self.options[index].impossible |= self.fixed.has(other),
                }
            }
            for other in 0..index {
                let before = self.options[other].position;
                if !conflict::between(packages, before, position).is_empty() {
                    self.options[index].excludes.push(other);
                }
            }
            for fixed in self.fixed.chosen() {
                let barred =
                    packages.option(fixed).is_some_and(|fixed| named(&fixed.excludes).contains(&position));
                self.options[index].impossible |=
                    barred || !conflict::between(packages, fixed, position).is_empty();
            }
        }
    }

    /// Fills in what an option touches.
    fn touch(&mut self, packages: &Packages, base: &Value, dimension: usize, index: usize, springs: bool) {
        let position = self.options[index].position;
        let Some(Value::Object(patch)) = packages.option(position).and_then(|option| option.patch.as_ref())
        else {
            return;
        };
        let (mut validity, mut powers, mut bearing) = (false, false, false);
        let mut own = Vec::new();
        for (section, change) in patch {
            let parts = if section == "parts" { change.as_object() } else { None };
            let Some(parts) = parts else {
                // A section whole; parts replaced whole concern both halves.
                validity = true;
                powers |= Half::Powers.reads(section);
                bearing |= Half::Masses.reads(section);
                continue;
            };
            for (id, change) in parts {
                let alone = !self.others_touch(packages, dimension, id);
                let draws = self.draws(packages, base, id);
                let before = base.get("parts").and_then(|parts| parts.get(id));
                let plain = change
                    .as_object()
                    .is_some_and(|members| members.keys().all(|name| PLAIN_MEMBERS.contains(&name.as_str())));
                powers |= match change {
                    Value::Object(members) => members
                        .keys()
                        .any(|name| Half::Powers.reads_of_part(name) || (name == "quantity" && draws)),
                    _ => draws,
                };
                match versions(before, change).filter(|_| alone && !springs) {
                    Some(versions) => {
                        validity |= !plain;
                        own.push(versions);
                    }
                    None => (validity, bearing) = (true, true),
                }
            }
        }
        let touch = &mut self.options[index];
        (touch.validity, touch.powers, touch.bearing) = (validity || powers || bearing, powers, bearing);
        touch.parts = own;
    }

    /// Does an option of another dimension touch a part?
    fn others_touch(&self, packages: &Packages, dimension: usize, id: &str) -> bool {
        let own = &self.dimensions[dimension];
        self.patches(packages).filter(|(index, _)| !own.contains(index)).any(|(_, patch)| {
            match patch.get("parts") {
                Some(Value::Object(parts)) => parts.contains_key(id),
                Some(_) => true,
                None => false,
            }
        })
    }

    /// Does a part draw power or give off heat, as it is or with any option?
    fn draws(&self, packages: &Packages, base: &Value, id: &str) -> bool {
        let draws = |build: &Value| match build.get("parts").and_then(|parts| parts.get(id)) {
            Some(Value::Object(part)) => part.keys().any(|name| Half::Powers.reads_of_part(name)),
            _ => false,
        };
        draws(base) || self.patches(packages).any(|(_, patch)| draws(patch))
    }
}

/// A part before a change and after it; none where one of them cannot be read.
fn versions(before: Option<&Value>, change: &Value) -> Option<(Option<Part>, Option<Part>)> {
    let read = |part: &Value| -> Option<Part> {
        let (lone, faults) = read_value::<Lone>(&serde_json::json!({"part": part})).ok()?;
        faults.is_empty().then_some(lone.part)
    };
    let mut after = before.cloned().unwrap_or(Value::Null);
    merge_patch::apply(&mut after, change);
    let of = |part: &Value| if part.is_null() { Some(None) } else { read(part).map(Some) };
    Some((of(before.unwrap_or(&Value::Null))?, of(&after)?))
}

/// Are there axles with spring rates? Their shares depend on every mass.
fn names_spring_rates(build: &Value) -> bool {
    let axles = build.get("trailer").and_then(|trailer| trailer.get("axles"));
    let Some(Value::Object(axles)) = axles else { return false };
    axles.values().any(|axle| axle.get("rate_lb_per_in").is_some())
}
