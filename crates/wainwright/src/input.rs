//! A numeric field of the build by its path: where it stands, and what it may be.
//!
//! A path is the chain of keys that leads to the field, joined by dots: `parts.galley.mass_lb`.

use std::sync::LazyLock;

use serde_json::{Map, Value, json};

use crate::build::Build;
use crate::document::schema::{Definitions, unit_of};
use crate::document::{FaultCode, Faults, Place, Record, echo, nearest_name};

/// At most so many names come back with a fault.
const LISTED: usize = 100;

/// The schemas of the build: its own, and what that refers to.
static SCHEMAS: LazyLock<(Value, Definitions)> = LazyLock::new(|| {
    let mut definitions = Map::new();
    (Build::schema(&mut definitions), definitions)
});

/// The values that an input may take, in a range.
#[derive(Debug, Clone, PartialEq)]
pub enum Range {
    /// Every number between two.
    Real {
        /// The least.
        low: f64,
        /// The greatest.
        high: f64,
    },
    /// Every whole number between two, both whole.
    Whole {
        /// The least.
        low: f64,
        /// The greatest.
        high: f64,
    },
    /// A few numbers, in ascending order.
    Listed(Vec<f64>),
}

impl Range {
    /// The least and the greatest value; none where no value is left.
    pub fn ends(&self) -> Option<(f64, f64)> {
        match self {
            Self::Real { low, high } | Self::Whole { low, high } => (low <= high).then_some((*low, *high)),
            Self::Listed(values) => Some((*values.first()?, *values.last()?)),
        }
    }

    /// May the input have this value?
    pub fn has(&self, x: f64) -> bool {
        match self {
            Self::Real { low, high } => (*low..=*high).contains(&x),
            Self::Whole { low, high } => (*low..=*high).contains(&x) && x.fract() == 0.0,
            Self::Listed(values) => values.contains(&x),
        }
    }
}

/// A numeric field of the build.
#[derive(Debug, Clone, PartialEq)]
pub struct Input {
    /// The keys that lead to it.
    pub keys: Vec<String>,
    /// Every value that the field takes.
    pub takes: Range,
    /// Its unit.
    pub unit: Option<&'static str>,
}

impl Input {
    /// The field that a path leads to.
    ///
    /// - `build`  the build as JSON, in which the ids on the way are looked up; null where it could not be read
    /// - `at`  where the path stands in the request
    ///
    /// None where it leads to no numeric field, which is noted.
    pub fn find(path: &str, build: &Value, at: &Place, faults: &mut Faults) -> Option<Self> {
        let keys: Vec<&str> = path.split('.').collect();
        let mut schema = definition(&SCHEMAS.0);
        let mut here = Some(build);
        let mut field = "";
        for (found, key) in keys.iter().enumerate() {
            let step = step(schema, here.filter(|value| !value.is_null()), key, build.is_null());
            let Some(next) = step.schema else {
                astray(path, &keys[..found], key, &step, at, faults);
                return None;
            };
            if step.is_field {
                field = key;
            }
            schema = definition(next);
            here = here.and_then(|value| member(value, key));
        }
        let Some(takes) = range(schema) else {
            not_a_number(&keys, schema, at, faults);
            return None;
        };
        let unit = unit_of(field);
        Some(Self { keys: keys.into_iter().map(str::to_owned).collect(), takes, unit })
    }

    /// Its JSON Pointer in the build.
    pub fn pointer(&self) -> String {
        self.keys.iter().map(|key| format!("/{key}")).collect()
    }

    /// Its value in a build, where that has one.
    pub fn of(&self, build: &Value) -> Option<f64> {
        self.keys.iter().try_fold(build, |value, key| member(value, key))?.as_f64()
    }

    /// Gives it a value in a build. Sections that are not there are added.
    pub fn put(&self, build: &mut Value, x: f64) {
        let mut here = build;
        for key in &self.keys {
            if let Value::Array(items) = here {
                // The path was followed through this list before.
                let Some(item) = key.parse().ok().and_then(|index: usize| items.get_mut(index)) else {
                    return;
                };
                here = item;
                continue;
            }
            if !here.is_object() {
                *here = json!({});
            }
            here = &mut here[key.as_str()];
        }
        *here = match self.takes {
            Range::Whole { .. } => json!(x as i64),
            _ => json!(x),
        };
    }
}

/// One key on the way: the schema it leads to, or the names there are instead.
struct Step<'k> {
    schema: Option<&'static Value>,
    known: Vec<&'k str>,
    is_field: bool,
}

/// - `any_id`  an id is taken without being looked up, for there is no build to look in
fn step<'k>(schema: &'static Value, here: Option<&'k Value>, key: &str, any_id: bool) -> Step<'k> {
    if let Some(fields) = schema["properties"].as_object() {
        let known = fields.keys().map(String::as_str).collect();
        return Step { schema: fields.get(key), known, is_field: true };
    }
    let entry = schema.get("additionalProperties").filter(|entry| entry.is_object());
    let ids: Vec<&str> = match here {
        Some(Value::Object(entries)) => entries.keys().map(String::as_str).collect(),
        _ => Vec::new(),
    };
    if entry.is_some() {
        let is_there = any_id || ids.contains(&key);
        return Step { schema: entry.filter(|_| is_there), known: ids, is_field: false };
    }
    let items = here.and_then(Value::as_array).map_or(0, Vec::len);
    let is_there = any_id || key.parse().is_ok_and(|index: usize| index < items);
    Step { schema: schema.get("items").filter(|_| is_there), known: Vec::new(), is_field: false }
}

fn member<'v>(value: &'v Value, key: &str) -> Option<&'v Value> {
    match value {
        Value::Array(items) => items.get(key.parse::<usize>().ok()?),
        _ => value.get(key),
    }
}

/// What a schema says in the end, past references and `null`.
fn definition(schema: &'static Value) -> &'static Value {
    if let Some(reference) = schema["$ref"].as_str() {
        return reference.rsplit('/').next().and_then(|name| SCHEMAS.1.get(name)).unwrap_or(&Value::Null);
    }
    match schema["anyOf"].get(0) {
        Some(first) => definition(first),
        None => schema,
    }
}

/// Every value that a field takes; none where it takes no number.
fn range(schema: &Value) -> Option<Range> {
    let types = match &schema["type"] {
        Value::Array(types) => types.iter().filter_map(Value::as_str).collect(),
        one => vec![one.as_str()?],
    };
    let listed = || -> Option<Vec<f64>> {
        Some(schema["enum"].as_array()?.iter().filter_map(Value::as_f64).collect())
    };
    let (low, high) = (schema["minimum"].as_f64(), schema["maximum"].as_f64());
    match types.first().copied()? {
        "number" => match listed() {
            Some(mut values) => {
                values.sort_by(f64::total_cmp);
                Some(Range::Listed(values))
            }
            None => Some(Range::Real { low: low?, high: high? }),
        },
        "integer" => Some(Range::Whole { low: low?, high: high? }),
        _ => None,
    }
}

/// Notes a path that leads nowhere, with the nearest that leads somewhere.
fn astray(path: &str, found: &[&str], key: &str, step: &Step, at: &Place, faults: &mut Faults) {
    let place = if found.is_empty() { "the build".to_owned() } else { found.join(".") };
    let mut detail = format!("leads nowhere: {place} has no {}", echo(key));
    let near = nearest_name(key, step.known.iter().copied());
    let whole = near.map(|near| {
        let rest = path.split('.').skip(found.len() + 1);
        found.iter().copied().chain([near]).chain(rest).collect::<Vec<_>>().join(".")
    });
    match &whole {
        Some(whole) => detail.push_str(&format!("; did you mean {whole}?")),
        None if step.known.is_empty() => {}
        None => {
            let shown: Vec<&str> = step.known.iter().copied().take(LISTED).collect();
            detail.push_str(&format!("; it has {}", shown.join(", ")));
        }
    }
    let code = if step.is_field { FaultCode::UnknownField } else { FaultCode::UnknownId };
    if let Some(fault) = faults.add(at, code, detail) {
        fault.suggestion = whole.map(Into::into);
        fault.known = step.known.iter().take(LISTED).map(|&name| name.to_owned()).collect();
    }
}

/// Notes a path that leads to something else than a number.
fn not_a_number(keys: &[&str], schema: &'static Value, at: &Place, faults: &mut Faults) {
    let path = keys.join(".");
    let fields: Vec<String> = schema["properties"]
        .as_object()
        .into_iter()
        .flatten()
        .filter(|(_, field)| range(definition(field)).is_some())
        .map(|(name, _)| format!("{path}.{name}"))
        .collect();
    let what = match schema["type"].as_str().or_else(|| schema["type"][0].as_str()) {
        Some("string") => "text",
        Some("boolean") => "true or false",
        Some("array") => "a list; name one of its items by its index, from 0",
        _ => "no number of its own",
    };
    let mut detail = format!("leads to {what}; give a path to a number");
    if !fields.is_empty() {
        detail.push_str(&format!(", such as {}", fields[0]));
    }
    if let Some(fault) = faults.add(at, FaultCode::WrongType, detail) {
        fault.known = fields;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn build() -> Value {
        json!({
            "parts": {"galley": {"mass_lb": 80, "electrical": {"circuit": "a", "power_w": 60}}, "bench": {"mass_lb": 40}},
            "envelope": {"surfaces": {"roof": {"layers": [{"material": "plywood", "thickness_in": 0.5}]}}},
            "electrical": {"circuits": {"a": {"wire": {"run_ft": 10}}}},
        })
    }

    fn found(path: &str) -> Input {
        let mut faults = Faults::default();
        let input = Input::find(path, &build(), &Place::ROOT.key("vary"), &mut faults);
        assert!(faults.is_empty(), "{:?}", faults.list());
        input.unwrap()
    }

    #[test]
    fn a_path_leads_to_a_field_with_its_bounds_and_unit() {
        let mass = found("parts.galley.mass_lb");
        assert_eq!(mass.takes, Range::Real { low: 0.0, high: 100_000.0 });
        assert_eq!((mass.unit, mass.pointer().as_str()), (Some("lb"), "/parts/galley/mass_lb"));
        assert_eq!(mass.of(&build()), Some(80.0));
        assert_eq!(found("parts.bench.quantity").takes, Range::Whole { low: 0.0, high: 10_000.0 });
        assert_eq!(
            found("electrical.circuits.a.wire.insulation_c").takes,
            Range::Listed(vec![60.0, 75.0, 80.0, 90.0, 105.0, 125.0, 200.0])
        );
        assert_eq!(found("envelope.surfaces.roof.layers.0.thickness_in").of(&build()), Some(0.5));
        assert_eq!(found("stay.start_soc").of(&build()), None);
    }

    #[test]
    fn a_value_is_put_where_it_stands_and_sections_are_added() {
        for (path, x, expected) in [
            ("parts.galley.mass_lb", 12.5, json!(12.5)),
            ("parts.bench.quantity", 3.0, json!(3)),
            ("envelope.surfaces.roof.layers.0.thickness_in", 0.75, json!(0.75)),
            ("stay.start_soc", 0.5, json!(0.5)),
            ("climate.cooling.capacity_btu_h", 6000.0, json!(6000.0)),
        ] {
            let (input, mut build) = (found(path), build());
            input.put(&mut build, x);
            assert_eq!(build.pointer(&input.pointer()), Some(&expected), "{path}");
        }
    }

    #[test]
    fn a_path_that_leads_to_no_number_is_answered_with_the_nearest() {
        for (path, code, detail, suggestion) in [
            (
                "parts.galey.mass_lb",
                FaultCode::UnknownId,
                "leads nowhere: parts has no \"galey\"; did you mean parts.galley.mass_lb?",
                Some("parts.galley.mass_lb"),
            ),
            (
                "parts.galley.mass",
                FaultCode::UnknownField,
                "leads nowhere: parts.galley has no \"mass\"; did you mean parts.galley.mass_lb?",
                Some("parts.galley.mass_lb"),
            ),
            ("tanks.fresh.capacity_gal", FaultCode::UnknownId, "leads nowhere: tanks has no \"fresh\"", None),
            ("parts.galley.category", FaultCode::WrongType, "leads to text; give a path to a number", None),
            (
                "parts.galley.electrical.continuous",
                FaultCode::WrongType,
                "leads to true or false; give a path to a number",
                None,
            ),
            (
                "parts.galley",
                FaultCode::WrongType,
                "leads to no number of its own; give a path to a number, such as parts.galley.mass_lb",
                None,
            ),
            (
                "envelope.surfaces.roof.layers.1.thickness_in",
                FaultCode::UnknownId,
                "leads nowhere: envelope.surfaces.roof.layers has no \"1\"",
                None,
            ),
        ] {
            let mut faults = Faults::default();
            assert_eq!(Input::find(path, &build(), &Place::ROOT.key("vary"), &mut faults), None);
            let fault = &faults.list()[0];
            assert_eq!((faults.count(), fault.code, fault.pointer.as_str()), (1, code, "/vary"), "{path}");
            assert_eq!((fault.detail.as_str(), fault.suggestion.as_deref()), (detail, suggestion));
        }
        for odd in ["", ".", "parts..mass_lb", "a/b~c", "parts.galley.mass_lb.x"] {
            let mut faults = Faults::default();
            assert_eq!(Input::find(odd, &build(), &Place::ROOT, &mut faults), None, "{odd}");
            assert_eq!(faults.count(), 1);
        }
    }
}
