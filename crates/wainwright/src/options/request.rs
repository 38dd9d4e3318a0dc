//! The request: a base, a catalogue, and what is chosen of it.

use std::borrow::Cow;

use serde_json::Value;

use super::catalogue::{self, BASE, GROUPS, Group, Position};
use super::choice::Choice;
use crate::bounds;
use crate::document::{self, FaultCode, Faults, Keyed, List, Place, Refusal, Text, record};
use crate::named_files::NamedFiles;

record! {
    /// A build to start from, what may be changed in it, and what is chosen.
    pub struct OptionsRequest: "a request for options" {
        /// The build that the options change. Left out, the base of the catalogue that is named.
        optional base: Value = BASE;
        /// The groups of options, in the order in which their patches apply. In their place `catalogue` may be given.
        optional groups: Keyed<Group> = GROUPS;
        /// A catalogue of the service's folder, by name.
        optional catalogue: String = bounds::NAME, "heron", aside;
        /// The options that are chosen, in any order. Left out, none.
        optional chosen: Vec<String> = List { of: Text { longest: 64 }, most: bounds::MOST_OPTIONS }, serde_json::json!(["battery_200"]);
    }
}

/// A base and the groups of options that change it, wherever they came from.
#[derive(Debug)]
pub struct Packages<'a> {
    /// The build that options change.
    pub base: &'a Value,
    /// Where the base stands in the request.
    pub base_at: &'static str,
    /// The groups.
    pub groups: Cow<'a, Keyed<Group>>,
    /// Where they stand in the request; none where a catalogue is named in their place.
    pub groups_at: Option<&'static str>,
    /// All options by id.
    pub positions: Keyed<Position>,
    /// The files that builds may name.
    pub named_files: &'a NamedFiles,
}

/// Finds base and groups, and notes whatever is wrong with them.
///
/// - `base`, `groups`, `catalogue`  as the request gives them
pub fn packages<'a>(
    base: Option<&'a Value>,
    groups: Option<&'a Keyed<Group>>,
    catalogue: Option<&str>,
    named_files: &'a NamedFiles,
    faults: &mut Faults,
) -> Option<Packages<'a>> {
    let root = Place::ROOT;
    let named = catalogue.and_then(|name| named_files.catalogues.get(name));
    match (groups, catalogue) {
        (Some(_), Some(_)) => faults
            .contradiction(&root.key("catalogue"), "stands beside groups; give one of the two".to_owned()),
        (None, None) => faults.missing(&root.key("groups"), "groups of options, or a catalogue by name"),
        _ => {}
    }
    if let (Some(name), None) = (catalogue, named) {
        let at = root.key("catalogue");
        if !faults.spoil(&at.pointer()) {
            let known = named_files.catalogues.keys().map(String::as_str);
            faults.unknown_name(&at, name, "the catalogues of this service", known);
        }
    }
    if let Some(groups) = groups {
        catalogue::check(groups, &root.key("groups"), faults);
    }
    let (base, base_at) = match (base, named.and_then(|named| named.base.as_ref())) {
        (Some(base), _) => (Some(base), "/base"),
        (None, of_file) => (of_file, "/catalogue"),
    };
    if base.is_none() && (catalogue.is_none() || named.is_some()) {
        faults.missing(&root.key("base"), "a build");
    }
    let groups_at = groups.map(|_| "/groups");
    let groups = groups.or(named.map(|named| &named.groups))?;
    let positions = catalogue::positions(groups);
    Some(Packages { base: base?, base_at, groups: Cow::Borrowed(groups), groups_at, positions, named_files })
}

/// The choice that a request names, and whatever is wrong with it.
pub fn chosen(chosen: &[String], packages: &Packages, faults: &mut Faults) -> Choice {
    let root = Place::ROOT;
    let list = root.key("chosen");
    let all_read = packages.groups_at.is_none_or(|groups| catalogue::are_read(faults, groups));
    let mut choice = Choice::none(packages);
    for (i, id) in chosen.iter().enumerate() {
        let at = list.index(i);
        let Some((group, option)) = packages.positions.get(id) else {
            if all_read && !faults.spoil(&at.pointer()) {
                let known = packages.positions.keys().map(String::as_str);
                faults.unknown_name(&at, id, "the options of the catalogue", known);
            }
            continue;
        };
        let before = choice.in_place_of(packages, (*group, *option));
        if choice.has((*group, *option)) {
            faults.add(&at, FaultCode::DuplicateKey, "is given more than once; keep one".to_owned());
        } else if let Some(other) = before {
            let (group_id, other) = (packages.group_id(*group), packages.id((*group, other)));
            faults.contradiction(&at, format!("names {id}, but {other} of group {group_id} is chosen, and one of that group may be; keep one"));
        } else {
            choice.set((*group, *option), true);
        }
    }
    choice
}

/// Reads a request from JSON.
///
/// # Errors
///
/// The text is not JSON.
pub fn read(json: &[u8]) -> Result<(OptionsRequest, Faults), Refusal> {
    document::read(json)
}

impl Packages<'_> {
    /// The id of a group.
    pub fn group_id(&self, group: usize) -> &str {
        self.groups.get_index(group).map_or("", |(id, _)| id)
    }

    /// The id of an option.
    pub fn id(&self, (group, option): Position) -> &str {
        let group = self.groups.get_index(group).map(|(_, group)| group);
        group.and_then(|group| group.options.get_index(option)).map_or("", |(id, _)| id)
    }

    /// An option.
    pub fn option(&self, (group, option): Position) -> Option<&catalogue::CatalogueOption> {
        let (_, group) = self.groups.get_index(group)?;
        Some(group.options.get_index(option)?.1)
    }

    /// All options, in the order of the catalogue.
    pub fn all(&self) -> impl Iterator<Item = Position> + '_ {
        self.groups.values().enumerate().flat_map(|(g, group)| (0..group.options.len()).map(move |o| (g, o)))
    }

    /// Where the patch of an option stands in the request.
    pub fn patch_at(&self, position: Position) -> String {
        match self.groups_at {
            Some(groups) => {
                format!("{groups}/{}/options/{}/patch", self.group_id(position.0), self.id(position))
            }
            None => "/catalogue".to_owned(),
        }
    }
}
