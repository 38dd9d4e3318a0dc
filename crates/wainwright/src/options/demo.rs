//! An invented catalogue that shows what options do: the example of the published contract.

use serde_json::{Value, json};

/// The invented catalogue, for the invented build of [`BASE`].
pub const DEMO: &str = include_str!("../../../../tests/catalogues/heron.json");
/// The invented build.
const BASE: &str = include_str!("../../../../tests/builds/heron.json");

/// The base and the groups of the demonstration.
fn base_and_groups() -> (Value, Value) {
    // Both are part of the program, and tests read them.
    let parsed = |json: &str| serde_json::from_str::<Value>(json).unwrap_or_default();
    (parsed(BASE), parsed(DEMO)["groups"].take())
}

/// A request for all options of the invented catalogue.
pub fn demonstration() -> Value {
    let (base, groups) = base_and_groups();
    json!({"base": base, "groups": groups, "chosen": ["battery_300", "solar_600", "awning"]})
}

/// Base and groups cut short for the published contract: some groups, and a base without place and walls.
pub fn short() -> (Value, Value) {
    let (mut base, mut groups) = base_and_groups();
    if let (Some(base), Some(groups)) = (base.as_object_mut(), groups.as_object_mut()) {
        base.retain(|section, _| {
            !["site", "envelope", "climate", "occupancy", "stay"].contains(&section.as_str())
        });
        groups.retain(|group, _| ["running_gear", "water", "battery", "extras"].contains(&group.as_str()));
    }
    (base, groups)
}
