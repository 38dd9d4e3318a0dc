//! Where the columns of a table go.

use serde_json::Value;

use super::cells::Cells;
use super::report::RowError;
use crate::document::{Bound, FaultCode, Faults, Kind, Place, Whole, echo};
use crate::input::{Input, Range};
use crate::options::catalogue::{Choose, Position};
use crate::options::request::Packages;

/// Members of a part that are its mass and place: each is held to its range and to nothing else.
const OF_PARTS: &[&str] = &["mass_lb", "x_in", "y_in", "z_in"];

/// So many numbers are looked at before it is seen whether one was out of bounds.
const BLOCK: usize = 1024;

/// A column whose place is known.
#[derive(Debug)]
pub struct Column<'c> {
    /// Where its cells go.
    pub target: Target,
    /// Its cells.
    pub cells: Cells<'c>,
}

/// Where the cells of a column go.
#[derive(Debug)]
pub enum Target {
    /// Into a numeric field of the build.
    Field {
        /// The field.
        input: Input,
        /// Is it the mass or the place of a part or of cargo, which payload and axle load alone read?
        is_mass: bool,
    },
    /// Each names an option of a group, of which one may be chosen.
    Group(usize),
    /// Each says whether an option is chosen.
    Option(Position),
}

impl Target {
    /// The place that a column's name says; none where it says none, or the cells do not belong there, which is noted.
    ///
    /// - `at`  where the column stands in the request
    pub fn find(
        name: &str,
        cells: &Cells,
        base: &Value,
        packages: Option<&Packages>,
        at: &Place,
        faults: &mut Faults,
    ) -> Option<Self> {
        let target = match packages.filter(|_| !name.contains('.')) {
            Some(packages) => Self::of_choice(name, packages, at, faults)?,
            None => {
                let input = Input::find(name, base, at, faults)?;
                let is_mass = is_mass(&input, base);
                Self::Field { input, is_mass }
            }
        };
        let wanted = match target {
            Self::Field { .. } => "numbers",
            Self::Group(_) => "text",
            Self::Option(_) => "true and false",
        };
        if cells.noun() != wanted && !cells.is_all_null() {
            let detail = match target {
                Self::Field { .. } => format!("must hold numbers; it holds {}", cells.noun()),
                Self::Group(_) => format!("must hold ids of options as text; it holds {}", cells.noun()),
                Self::Option(_) => format!("must hold true and false; it holds {}", cells.noun()),
            };
            faults.add(at, FaultCode::WrongType, detail);
            return None;
        }
        Some(target)
    }

    fn of_choice(name: &str, packages: &Packages, at: &Place, faults: &mut Faults) -> Option<Self> {
        if let Some((index, _, group)) = packages.groups.get_full(name) {
            if group.choose == Choose::One {
                return Some(Self::Group(index));
            }
            let first = group.options.keys().next().map_or("", String::as_str);
            let detail = format!(
                "is a group of which any may be chosen; give a column of true and false for each of its options, such as {first}"
            );
            faults.contradiction(at, detail);
            return None;
        }
        if let Some(position) = packages.positions.get(name) {
            return Some(Self::Option(*position));
        }
        let known = packages.groups.keys().chain(packages.positions.keys()).map(String::as_str);
        faults.unknown_name(at, name, "the groups and options of the catalogue", known);
        None
    }
}

/// Is a field the mass or the place of a part or of cargo, and nothing else than payload and axle load goes by it?
///
/// Where a build gives no states, its cargo's masses say which of it is the toy.
fn is_mass(input: &Input, base: &Value) -> bool {
    let keys: Vec<&str> = input.keys.iter().map(String::as_str).collect();
    let has_states = || base["states"].as_object().is_some_and(|states| !states.is_empty());
    match keys[..] {
        ["parts", _, member] => OF_PARTS.contains(&member),
        ["cargo", _, member] => OF_PARTS.contains(&member) && has_states(),
        _ => false,
    }
}

impl Column<'_> {
    /// Are these numbers without a gap, each within the bounds of its field? Where this is not so, [`Column::fault`] tells.
    pub fn is_in_order(&self) -> bool {
        match (&self.target, &self.cells) {
            (
                Target::Field { input: Input { takes: Range::Real { low, high }, .. }, .. },
                Cells::Numbers { values, nulls: None },
            ) => {
                let are_in = |values: &[f64]| {
                    values.iter().fold(true, |are_in, value| are_in & (low..=high).contains(&value))
                };
                // Block by block: without a way out in between the compiler makes one step of several.
                values.chunks(BLOCK).all(are_in)
            }
            _ => false,
        }
    }

    /// What is wrong with the cell of a row; none where it can be used.
    pub fn fault(&self, row: usize, packages: Option<&Packages>) -> Option<(String, String)> {
        match (&self.target, &self.cells) {
            (Target::Field { input, .. }, Cells::Numbers { values, nulls }) => {
                let is_null = nulls.as_ref().is_some_and(|nulls| nulls[row]);
                if !is_null && input.takes.has(values[row]) {
                    return None;
                }
                let message =
                    if is_null { NO_NUMBER.to_owned() } else { out_of_range(&input.takes, values[row]) };
                Some((input.pointer(), message))
            }
            (Target::Field { input, .. }, _) => Some((input.pointer(), NO_NUMBER.to_owned())),
            (Target::Group(group), Cells::Texts { words, cells }) => {
                let (packages, word) = (packages?, words.get(cells[row]? as usize)?);
                let (id, of) = packages.groups.get_index(*group)?;
                if of.options.contains_key(word) {
                    return None;
                }
                let known: Vec<&str> = of.options.keys().map(String::as_str).collect();
                let message =
                    format!("{id} has no option {}; its options are {}", echo(word), known.join(", "));
                Some((String::new(), message))
            }
            (Target::Group(_), _) => None,
            (Target::Option(position), cells) => {
                let is_given = matches!(cells, Cells::Flags(cells) if cells[row].is_some());
                let id = packages.map_or("", |packages| packages.id(*position));
                (!is_given).then(|| (String::new(), format!("{id} is null; give true or false")))
            }
        }
    }

    /// What the cell of a row comes to: the bits of its number, or a number for its choice. Cells alike come to the same.
    pub fn bits(&self, row: usize) -> u64 {
        match &self.cells {
            Cells::Numbers { values, .. } => values[row].to_bits(),
            Cells::Texts { cells, .. } => cells[row].map_or(0, |word| u64::from(word) + 1),
            Cells::Flags(cells) => cells[row].map_or(0, |flag| 1 + u64::from(flag)),
        }
    }

    /// The options that the cell of a row chooses.
    pub fn chosen(&self, row: usize, packages: &Packages) -> Option<Position> {
        match (&self.target, &self.cells) {
            (Target::Group(group), Cells::Texts { words, cells }) => {
                let word = words.get(cells[row]? as usize)?;
                let (_, of) = packages.groups.get_index(*group)?;
                Some((*group, of.options.get_index_of(word)?))
            }
            (Target::Option(position), Cells::Flags(cells)) => cells[row]?.then_some(*position),
            _ => None,
        }
    }

    /// The number of a row.
    pub fn number(&self, row: usize) -> f64 {
        match &self.cells {
            Cells::Numbers { values, .. } => values[row],
            _ => f64::NAN,
        }
    }
}

/// What is wrong with a cell that has no number.
const NO_NUMBER: &str = "is null; give a number, or leave the column out to keep the base's";

/// What is wrong with a number that a field does not take, in the words of the document.
fn out_of_range(takes: &Range, value: f64) -> String {
    if !value.is_finite() {
        return format!("must be a finite number; got {value}").to_lowercase();
    }
    let (mut faults, at) = (Faults::default(), Place::ROOT);
    match takes {
        Range::Real { low, high } => _ = Bound::new(*low, *high).number(value, &at, &mut faults),
        Range::Whole { low, high } => {
            let whole = Whole { minimum: *low as u32, maximum: *high as u32 };
            _ = whole.number(value, &at, &mut faults);
        }
        Range::Listed(values) => {
            let listed = values.iter().map(f64::to_string).collect::<Vec<_>>().join(", ");
            return format!("must be one of {listed}; got {value}");
        }
    }
    faults.list().first().map(|fault| fault.detail.clone()).unwrap_or_default()
}

/// The error of a row: the first of what is wrong with it, and how much more there is.
///
/// - `wrong`  pointer and words of each, in no order
/// - `build`  the build of the row, in whose order they are told
pub fn row_error(row: usize, mut wrong: Vec<(String, String)>, build: &Value) -> Option<RowError> {
    wrong.sort_by_cached_key(|(pointer, _)| place_in(build, pointer));
    let more = wrong.len().saturating_sub(1);
    let (subject, mut message) = wrong.into_iter().next()?;
    if more > 0 {
        message.push_str(&format!(" (and {more} more)"));
    }
    Some(RowError { row: row as u32, subject, message })
}

/// Pointer and words of every fault.
pub fn wrong(faults: &Faults) -> Vec<(String, String)> {
    faults.list().iter().map(|fault| (fault.pointer.clone(), fault.detail.clone())).collect()
}

/// Where in a document a pointer leads: the position of each of its members. What is not there comes after all that is.
fn place_in(document: &Value, pointer: &str) -> Vec<usize> {
    let mut here = Some(document);
    let tokens = pointer.split('/').skip(1).map(|token| token.replace("~1", "/").replace("~0", "~"));
    let place = |token: String| {
        let (place, next) = match here {
            Some(Value::Object(members)) => {
                (members.keys().position(|key| *key == token), members.get(&token))
            }
            Some(Value::Array(items)) => {
                let index: Option<usize> = token.parse().ok();
                (index, index.and_then(|index| items.get(index)))
            }
            _ => (None, None),
        };
        here = next;
        place.unwrap_or(usize::MAX)
    };
    tokens.map(place).collect()
}
