//! JSON Schemas (2020-12) of the build and of the reports, made from their declarations.

use serde_json::{Map, Value, json};

/// The named schemas met so far, to stand under `components/schemas`.
pub type Definitions = Map<String, Value>;

/// One member of an object, for its schema.
pub struct Member {
    /// Its name.
    pub name: &'static str,
    /// Its doc comment.
    pub doc: &'static str,
    /// Must it be there?
    pub required: bool,
    /// What it holds.
    pub schema: Value,
    /// An example.
    pub example: Option<Value>,
}

/// The schema of an object in a request: members not named are refused. Returns a reference to it.
pub fn request_object(
    definitions: &mut Definitions,
    name: &str,
    doc: &str,
    members: impl FnOnce(&mut Definitions) -> Vec<Member>,
) -> Value {
    object(definitions, name, doc, Some(false), members)
}

/// The schema of an object in a report: later versions may add members. Returns a reference to it.
pub fn report_object(
    definitions: &mut Definitions,
    name: &str,
    doc: &str,
    members: impl FnOnce(&mut Definitions) -> Vec<Member>,
) -> Value {
    object(definitions, name, doc, None, members)
}

fn object(
    definitions: &mut Definitions,
    name: &str,
    doc: &str,
    additional: Option<bool>,
    members: impl FnOnce(&mut Definitions) -> Vec<Member>,
) -> Value {
    let reference = json!({"$ref": format!("#/components/schemas/{name}")});
    if definitions.contains_key(name) {
        return reference;
    }
    // Claims its place first: definitions then stand in the order in which a reader meets them.
    definitions.insert(name.to_owned(), Value::Null);
    let members = members(definitions);
    let required: Vec<&str> = members.iter().filter(|m| m.required).map(|m| m.name).collect();
    let mut schema = Map::new();
    schema.insert("type".into(), "object".into());
    schema.insert("description".into(), tidy(doc).into());
    if !required.is_empty() {
        schema.insert("required".into(), json!(required));
    }
    if let Some(additional) = additional {
        schema.insert("additionalProperties".into(), additional.into());
    }
    let properties: Map<String, Value> =
        members.into_iter().map(|m| (m.name.to_owned(), property(m))).collect();
    schema.insert("properties".into(), properties.into());
    definitions.insert(name.to_owned(), schema.into());
    reference
}

/// One property: its schema with description, unit and example beside it.
fn property(member: Member) -> Value {
    let mut schema = match member.schema {
        Value::Object(schema) => schema,
        other => return other,
    };
    let mut description = tidy(member.doc);
    if let Some(unit) = unit_of(member.name) {
        description.push_str(&format!(" [{unit}]"));
        schema.insert("x-unit".into(), unit.into());
    }
    schema.insert("description".into(), description.into());
    if let Some(example) = member.example.filter(|example| !example.is_null()) {
        schema.insert("examples".into(), json!([example]));
    }
    schema.into()
}

/// The same schema, `null` allowed.
pub fn nullable(schema: Value) -> Value {
    let Value::Object(mut schema) = schema else { return schema };
    match schema.get("type") {
        Some(Value::String(one)) => {
            let both = json!([one, "null"]);
            schema.insert("type".into(), both);
            if let Some(Value::Array(words)) = schema.get_mut("enum") {
                words.push(Value::Null);
            }
            schema.into()
        }
        _ => json!({"anyOf": [schema, {"type": "null"}]}),
    }
}

/// A doc comment as one paragraph.
fn tidy(doc: &str) -> String {
    doc.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Suffix of a field's name, and the unit it stands for. Where one ends another the longer stands first.
const UNITS: &[(&str, &str)] = &[
    ("_lb_per_in", "lb/in"),
    ("_lb_per_gal", "lb/gal"),
    ("_lb_per_ft3", "lb/ft3"),
    ("_slug_ft2", "slug·ft2"),
    ("_fraction_per_c", "1/°C"),
    ("_hours_per_day", "h/day"),
    ("_kwh_m2_day", "kWh/(m2·day)"),
    ("_kwh_per_day", "kWh/day"),
    ("_wh_per_day", "Wh/day"),
    ("_kwh", "kWh"),
    ("_wh", "Wh"),
    ("_w_per_k", "W/K"),
    ("_btu_lb_f", "BTU/(lb·°F)"),
    ("_btu_f", "BTU/°F"),
    ("_btu_per_meal", "BTU"),
    ("_changes_per_h", "1/h"),
    ("_r_value", "h·ft2·°F/BTU"),
    ("_u_value", "BTU/(h·ft2·°F)"),
    ("_cfm", "cfm"),
    ("_ft3", "ft3"),
    ("_w_m2", "W/m2"),
    ("_soc", "1"),
    ("_lb_in", "lb·in"),
    ("_lb", "lb"),
    ("_kg", "kg"),
    ("_in", "in"),
    ("_in2", "in2"),
    ("_ft2", "ft2"),
    ("_ft", "ft"),
    ("_gal", "gal"),
    ("_psi", "psi"),
    ("_mph", "mph"),
    ("_mi", "mi"),
    ("_deg", "degree"),
    ("_btu_h_f", "BTU/(h·°F)"),
    ("_btu_h", "BTU/h"),
    ("_btu", "BTU"),
    ("_j_k", "J/K"),
    ("_w_k", "W/K"),
    ("_ceer", "BTU/Wh"),
    ("_mohm", "mΩ"),
    ("_ah", "Ah"),
    ("_va", "VA"),
    ("_a", "A"),
    ("_v", "V"),
    ("_w", "W"),
    ("_c", "°C"),
    ("_f", "°F"),
    ("_h", "h"),
    ("_s", "s"),
    ("_horsepower", "hp"),
    ("_usd", "USD"),
    ("_g", "g, standard gravity"),
    ("_fraction", "1"),
    ("_factor", "1"),
];

/// The unit a field's name says it is in. A name may be the unit alone, or end in `_min` or `_max`;
/// a step is in minutes.
pub fn unit_of(name: &str) -> Option<&'static str> {
    if name == "step_min" {
        return Some("min");
    }
    let name = name.strip_suffix("_min").or_else(|| name.strip_suffix("_max")).unwrap_or(name);
    let ends = |suffix: &str| name.ends_with(suffix) || suffix.strip_prefix('_') == Some(name);
    UNITS.iter().find(|(suffix, _)| ends(suffix)).map(|(_, unit)| *unit)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_unit_is_shadowed_by_a_shorter_one() {
        for (index, (suffix, unit)) in UNITS.iter().enumerate() {
            assert_eq!(unit_of(&format!("some{suffix}")), Some(*unit));
            assert!(!UNITS[..index].iter().any(|(earlier, _)| suffix.ends_with(earlier)), "{suffix}");
        }
    }

    #[test]
    fn a_name_says_its_unit() {
        for (name, unit) in [
            ("gross_mass_lb", Some("lb")),
            ("rate_lb_per_in", Some("lb/in")),
            ("moment_lb_in", Some("lb·in")),
            ("yaw_inertia_slug_ft2", Some("slug·ft2")),
            ("tip_lateral_g", Some("g, standard gravity")),
            ("tongue_fraction_max", Some("1")),
            ("psi", Some("psi")),
            ("step_min", Some("min")),
            ("ghi_kwh_m2_day", Some("kWh/(m2·day)")),
            ("lowest_soc", Some("1")),
            ("autonomy_h", Some("h")),
            ("quantity", None),
            ("sway_damping", None),
            ("min", None),
        ] {
            assert_eq!(unit_of(name), unit, "{name}");
        }
    }

    #[test]
    fn null_is_added_to_a_schema_of_any_form() {
        assert_eq!(nullable(json!({"type": "number"})), json!({"type": ["number", "null"]}));
        assert_eq!(
            nullable(json!({"type": "string", "enum": ["a"]})),
            json!({"type": ["string", "null"], "enum": ["a", null]})
        );
        assert_eq!(nullable(json!({"$ref": "#/x"})), json!({"anyOf": [{"$ref": "#/x"}, {"type": "null"}]}));
    }

    #[test]
    fn a_doc_comment_becomes_one_paragraph() {
        assert_eq!(tidy(" One\n two.\n"), "One two.");
    }
}
