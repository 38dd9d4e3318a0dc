//! Two patches that set one member to different values.

use serde_json::{Map, Value};

use super::catalogue::Position;
use super::choice::Choice;
use super::request::Packages;
use crate::document::{FaultCode, Faults};

/// The places, as JSON Pointers, that both patches set, and to different values.
pub fn conflicts(one: &Value, other: &Value) -> Vec<String> {
    let mut found = Vec::new();
    if let (Value::Object(one), Value::Object(other)) = (one, other) {
        in_objects(one, other, "", &mut found);
    }
    found
}

fn in_objects(one: &Map<String, Value>, other: &Map<String, Value>, at: &str, found: &mut Vec<String>) {
    for (key, value) in one {
        let Some(set) = other.get(key) else { continue };
        let here = || format!("{at}/{}", key.replace('~', "~0").replace('/', "~1"));
        match (value, set) {
            (Value::Object(one), Value::Object(other)) => in_objects(one, other, &here(), found),
            (one, other) if one != other => found.push(here()),
            _ => {}
        }
    }
}

/// The places at which two options are in conflict.
pub fn between(packages: &Packages, one: Position, other: Position) -> Vec<String> {
    let patch = |position| packages.option(position).and_then(|option| option.patch.as_ref());
    patch(one).zip(patch(other)).map_or_else(Vec::new, |(one, other)| conflicts(one, other))
}

/// Notes every conflict within a choice: at the later patch, with the place of the earlier.
pub fn note(packages: &Packages, choice: &Choice, faults: &mut Faults) {
    let chosen: Vec<Position> = choice.chosen().collect();
    for (i, later) in chosen.iter().enumerate() {
        for earlier in &chosen[..i] {
            for member in between(packages, *earlier, *later) {
                let detail = format!(
                    "sets {member} to another value than option {} does; both are chosen, so one of them must exclude the other",
                    packages.id(*earlier)
                );
                let place = |position: Position| match packages.groups_at {
                    Some(_) => packages.patch_at(position) + &member,
                    None => packages.patch_at(position),
                };
                if let Some(fault) =
                    faults.add_at_pointer(place(*later), FaultCode::ConflictingOptions, detail)
                {
                    fault.other_pointer = Some(place(*earlier));
                    fault.in_build = Some(member);
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    #[test]
    fn equal_values_and_other_members_do_not_conflict() {
        let one = json!({"battery": {"capacity_ah": 200}, "parts": {"a": {"mass_lb": 1}}});
        assert!(conflicts(&one, &json!({"battery": {"capacity_ah": 200, "nominal_v": 12.8}})).is_empty());
        assert!(conflicts(&one, &json!({"parts": {"b": {"mass_lb": 2}}})).is_empty());
    }

    #[test]
    fn other_values_a_removal_and_another_type_conflict_at_their_place() {
        let one = json!({"battery": {"capacity_ah": 200}, "parts": {"a/b": {"mass_lb": 1}}});
        assert_eq!(conflicts(&one, &json!({"battery": {"capacity_ah": 100}})), ["/battery/capacity_ah"]);
        assert_eq!(conflicts(&one, &json!({"parts": {"a/b": null}})), ["/parts/a~1b"]);
        assert_eq!(conflicts(&one, &json!({"battery": 1, "parts": []})), ["/battery", "/parts"]);
    }
}
