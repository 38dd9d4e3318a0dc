//! An invented catalogue that shows what options do: the example of the published contract.

use serde_json::{Value, json};

/// The invented catalogue, for the invented build of [`BASE`].
pub const DEMO: &str = include_str!("../../../../tests/catalogues/heron.json");
/// The invented build.
const BASE: &str = include_str!("../../../../tests/builds/heron.json");

/// The base and the groups of the demonstration.
pub fn base_and_groups() -> (Value, Value) {
    // Both are part of the program, and tests read them.
    let parsed = |json: &str| serde_json::from_str::<Value>(json).unwrap_or_default();
    (parsed(BASE), parsed(DEMO)["groups"].take())
}

/// A request for options that is answered.
pub fn options_request() -> Value {
    let (base, groups) = base_and_groups();
    json!({"base": base, "groups": groups, "chosen": ["battery_300", "solar_600", "awning"]})
}
