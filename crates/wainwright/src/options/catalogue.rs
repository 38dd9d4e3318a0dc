//! The catalogue: groups of options, each a change to the build with a price.

use serde_json::{Value, json};

use crate::bounds;
use crate::document::{
    Choice, FaultCode, Faults, Inner, Keyed, List, Map, Options, Place, Section, Text, record,
};

/// The longest id: what a key of the document may have.
const ID: Text = Text { longest: 64 };

/// How many options of a group may be chosen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Choose {
    /// One, or none.
    One,
    /// As many as wanted.
    Any,
}

impl Options for Choose {
    const WORDS: &'static [(&'static str, Self)] = &[("one", Self::One), ("any", Self::Any)];
}

record! {
    /// One thing that a customer may have.
    pub struct CatalogueOption: "an option" {
        /// What it is called, for people.
        optional label: String = bounds::NAME, "200 Ah battery";
        /// What it adds to the price; below 0 for what is left out of the base.
        required price_usd: f64 = bounds::PRICE_USD, 1150.0;
        /// What it changes in the build: a JSON Merge Patch (RFC 7396). Objects merge, null removes, whatever else replaces.
        /// Left out, nothing.
        optional patch: Value = PATCH, json!({"battery": {"capacity_ah": 200}, "parts": {"battery_bank": {"mass_lb": 57}}});
        /// Options that must be chosen with it.
        optional requires: Vec<String> = List { of: ID, most: bounds::MOST_OPTIONS }, json!(["charger_45"]);
        /// Options that must not be chosen with it.
        optional excludes: Vec<String> = List { of: ID, most: bounds::MOST_OPTIONS }, json!(["battery_100"]);
    }
}

record! {
    /// Options that belong together.
    pub struct Group: "a group" {
        /// What it is called, for people.
        optional label: String = bounds::NAME, "House battery";
        /// `one`: at most one of its options is chosen; with none, the base is as it is. `any`: as many as wanted.
        required choose: Choose = Choice::of(), "one";
        /// Its options. An id stands in one group alone.
        required options: Keyed<CatalogueOption> = Map { of: Section::of(), most: bounds::MOST_OPTIONS, example_id: "battery_200" };
    }
}

record! {
    /// A catalogue as a file.
    pub struct Catalogue: "a catalogue" {
        /// What it is called, for people.
        optional name: String = bounds::NAME, "Heron (invented catalogue)";
        /// The build that its options change.
        optional base: Value = BASE;
        /// Its groups.
        required groups: Keyed<Group> = GROUPS;
    }
}

/// A build that is read once patches were applied to it.
pub const BASE: Inner = Inner::of::<crate::Build>();
/// A merge patch.
pub const PATCH: Inner = Inner::any();
/// Groups by id.
pub const GROUPS: Map<Section<Group>> =
    Map { of: Section::of(), most: bounds::MOST_GROUPS, example_id: "battery" };

/// Where an option stands: the position of its group, and its own in it.
pub type Position = (usize, usize);

/// All options by id, in the order of the catalogue.
pub fn positions(groups: &Keyed<Group>) -> Keyed<Position> {
    let mut positions = Keyed::default();
    for (g, group) in groups.values().enumerate() {
        for (o, id) in group.options.keys().enumerate() {
            positions.entry(id.clone()).or_insert((g, o));
        }
    }
    positions
}

/// Notes what no field of a catalogue can show alone.
pub fn check(groups: &Keyed<Group>, at: &Place, faults: &mut Faults) {
    let count: usize = groups.values().map(|group| group.options.len()).sum();
    if count > bounds::MOST_OPTIONS {
        let most = bounds::MOST_OPTIONS;
        let detail = format!("must have {most} options or fewer in all; it has {count}");
        if let Some(fault) = faults.add(at, FaultCode::TooMany, detail) {
            fault.maximum = Some(most as f64);
        }
        return;
    }
    let known = positions(groups);
    let all_read = are_read(faults, &at.pointer());
    for (g, (group_id, group)) in groups.iter().enumerate() {
        for (id, option) in &group.options {
            let (group_at, options) = (at.key(group_id), "options");
            let options_at = group_at.key(options);
            let option_at = options_at.key(id);
            if let Some((first, (_, _))) =
                known.get(id).map(|first| (first.0, first)).filter(|(first, _)| *first != g)
            {
                let other = groups.get_index(first).map_or("", |(id, _)| id.as_str());
                faults.contradiction(
                    &option_at,
                    format!("stands in group {other} too; an option's id stands in one group alone"),
                );
            }
            let lists = [("requires", &option.requires), ("excludes", &option.excludes)];
            for (name, list) in lists {
                for (i, other) in list.iter().flatten().enumerate() {
                    check_name(other, id, &known, all_read, &option_at.key(name).index(i), faults);
                }
            }
            for (i, both) in option.excludes.iter().flatten().enumerate() {
                if option.requires.iter().flatten().any(|required| required == both) {
                    let detail =
                        format!("names {both}, which the option requires as well; keep one of the two");
                    faults.contradiction(&option_at.key("excludes").index(i), detail);
                }
            }
        }
    }
}

/// Were the ids of all options read? Where they were not, a name that is not known may be all the same.
pub fn are_read(faults: &Faults, groups: &str) -> bool {
    let spoils = |pointer: &str| {
        let Some(rest) = pointer.strip_prefix(groups) else { return groups.starts_with(pointer) };
        // The map of groups, a group, or its map of options.
        rest.matches('/').count() <= 1 || (rest.matches('/').count() == 2 && rest.ends_with("/options"))
    };
    !faults.list().iter().any(|fault| spoils(&fault.pointer))
}

/// Notes a name in `requires` or `excludes` that is no option, or the option's own.
fn check_name(
    name: &str,
    own: &str,
    known: &Keyed<Position>,
    all_read: bool,
    at: &Place,
    faults: &mut Faults,
) {
    if name == own {
        faults.contradiction(at, "names the option itself".to_owned());
    } else if all_read && !known.contains_key(name) && !faults.spoil(&at.pointer()) {
        faults.unknown_name(at, name, "the options of the catalogue", known.keys().map(String::as_str));
    }
}
