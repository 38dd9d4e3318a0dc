//! The published schemas: every property says what it is, in what unit, within what bounds, with an example.

#![allow(clippy::unwrap_used, reason = "a test fails by panicking")]

use serde_json::{Map, Value};
use wainwright::Build;
use wainwright::axle_load::AxleLoad;
use wainwright::document::Record;
use wainwright::document::schema::{Definitions, unit_of};
use wainwright::payload::Payload;
use wainwright::question::{ForEachQuestion, Question, ask, for_each_question};
use wainwright::report::Described;

/// Schemas of the build.
fn request() -> Definitions {
    let mut definitions = Map::new();
    Build::schema(&mut definitions);
    definitions
}

/// Schemas of all reports.
fn reports() -> Definitions {
    struct Reports(Definitions);
    impl ForEachQuestion for Reports {
        fn question<Q: Question>(&mut self) {
            Q::Report::schema(&mut self.0);
        }
    }
    let mut reports = Reports(Map::new());
    for_each_question(&mut reports);
    reports.0
}

/// Each property: "Object.property" and its schema.
fn properties(definitions: &Definitions) -> impl Iterator<Item = (String, &str, &Value)> {
    definitions.iter().flat_map(|(object, schema)| {
        let properties = schema["properties"].as_object().unwrap();
        properties.iter().map(move |(name, schema)| (format!("{object}.{name}"), name.as_str(), schema))
    })
}

fn types(schema: &Value) -> Vec<&str> {
    match &schema["type"] {
        Value::String(one) => vec![one],
        Value::Array(all) => all.iter().filter_map(Value::as_str).collect(),
        _ => Vec::new(),
    }
}

fn is_numeric(schema: &Value) -> bool {
    types(schema).iter().any(|t| *t == "number" || *t == "integer")
}

fn is_scalar(schema: &Value) -> bool {
    is_numeric(schema) || types(schema).iter().any(|t| *t == "string" || *t == "boolean")
}

/// Holds a value against the part of JSON Schema that ours use.
fn check(value: &Value, schema: &Value, definitions: &Definitions, at: &str) {
    if let Some(reference) = schema["$ref"].as_str() {
        return check(value, &definitions[reference.rsplit('/').next().unwrap()], definitions, at);
    }
    if let Some(any) = schema["anyOf"].as_array() {
        return check(value, &any[usize::from(value.is_null())], definitions, at);
    }
    let of_type = |name: &str| match name {
        "integer" => value.as_f64().is_some_and(|n| n.fract() == 0.0),
        "number" => value.is_number(),
        "string" => value.is_string(),
        "boolean" => value.is_boolean(),
        "array" => value.is_array(),
        "object" => value.is_object(),
        "null" => value.is_null(),
        other => panic!("{at}: unknown type {other}"),
    };
    assert!(types(schema).into_iter().any(of_type), "{at}: {value} is not {}", schema["type"]);
    if let Some(words) = schema["enum"].as_array() {
        assert!(words.contains(value), "{at}: {value} is not one of {words:?}");
    }
    if let Some(number) = value.as_f64() {
        assert!(
            schema["minimum"].as_f64().is_none_or(|least| number >= least),
            "{at}: {number} is too small"
        );
        assert!(schema["maximum"].as_f64().is_none_or(|most| number <= most), "{at}: {number} is too large");
    }
    for (index, item) in value.as_array().into_iter().flatten().enumerate() {
        check(item, &schema["items"], definitions, &format!("{at}/{index}"));
    }
    for (key, member) in value.as_object().into_iter().flatten() {
        let at = format!("{at}/{key}");
        match schema["properties"].get(key).or(schema.get("additionalProperties")) {
            Some(inner) if inner.is_object() => check(member, inner, definitions, &at),
            None if schema.get("properties").is_none() => {} // a section that is not read
            _ => panic!("{at}: no such property"),
        }
    }
    for required in schema["required"].as_array().into_iter().flatten().filter_map(Value::as_str) {
        assert!(value.get(required).is_some(), "{at}/{required}: is missing");
    }
}

#[test]
fn every_property_is_described_in_a_sentence() {
    for definitions in [request(), reports()] {
        for (object, schema) in &definitions {
            assert!(schema["description"].as_str().is_some_and(|text| text.len() > 10), "{object}");
        }
        for (place, _, schema) in properties(&definitions) {
            let text = schema["description"].as_str().unwrap_or_default();
            let sentence = text.split(" [").next().unwrap();
            assert!(sentence.ends_with(['.', '?']), "{place}: {text}");
            assert!(!text.contains('`') || text.matches('`').count() % 2 == 0, "{place}: {text}");
        }
    }
}

#[test]
fn every_scalar_property_has_an_example_within_its_own_bounds() {
    for definitions in [request(), reports()] {
        for (place, _, schema) in properties(&definitions).filter(|(.., schema)| is_scalar(schema)) {
            assert!(schema["examples"].as_array().is_some_and(|examples| !examples.is_empty()), "{place}");
        }
        for (place, _, schema) in properties(&definitions) {
            for example in schema["examples"].as_array().into_iter().flatten() {
                check(example, schema, &definitions, &place);
            }
        }
    }
}

/// Numbers whose name says no unit because they have none, or because a member beside them says it.
const WITHOUT_UNIT: &[&str] = &[
    "quantity",
    "tires",
    "wheels_per_axle",
    "front_load_restoration",
    "without_tolerance_count",
    "together_count",
    "count",
    "coupler_class",
    "span_over_deflection",
    "sway_damping",
    "efficiency",
    "round_trip_efficiency",
    "inrush_multiple",
    "priority",
    "legs",
    "receptacles",
    "bundled",
    "linke_turbidity",
    "albedo",
    "seed",
    "day_of_year",
    "first_hour",
    "days",
    "grey_days",
    "days_to_recover",
    "full_cycles_per_year",
    "years",
    "month",
    "year",
    "day",
    "step_count",
    "filled_count",
    "bank_parallel",
    "peukert_exponent",
    "cycles",
    "cycle_depth",
    "sky_view",
    "bypass_groups",
    "series",
    "parallel",
    "hour",
    "trip_risk",
    "conflict_count",
    "largest_set_count",
    "solar_absorptance",
    "emittance",
    "shgc",
    "people",
    "asleep_from",
    "asleep_to",
    "away_from",
    "away_to",
    "start_hour",
    "value",
    "worst_value",
    "limit",
    "bound",
    "violation_count",
    "caution_count",
    "note_count",
    "hot_day_rounds",
    "weather_rounds",
];

#[test]
fn every_number_has_its_unit() {
    for definitions in [request(), reports()] {
        for (place, name, schema) in properties(&definitions).filter(|(.., schema)| is_numeric(schema)) {
            let unit = schema["x-unit"].as_str();
            assert_eq!(unit, unit_of(name), "{place}");
            assert_eq!(unit.is_none(), WITHOUT_UNIT.contains(&name), "{place}: {unit:?}");
            if let Some(unit) = unit {
                assert!(schema["description"].as_str().unwrap().ends_with(&format!(" [{unit}]")), "{place}");
            }
        }
    }
}

#[test]
fn every_number_of_a_request_is_bounded_and_no_member_beyond_the_named_is_let_in() {
    let definitions = request();
    for (place, _, schema) in properties(&definitions).filter(|(.., schema)| is_numeric(schema)) {
        let (least, most) = (schema["minimum"].as_f64(), schema["maximum"].as_f64());
        assert!(least.zip(most).is_some_and(|(least, most)| least < most), "{place}");
    }
    for (place, _, schema) in properties(&definitions) {
        let limit = match types(schema).first() {
            Some(&"string") if schema.get("enum").is_none() => "maxLength",
            Some(&"array") => "maxItems",
            Some(&"object") if schema.get("additionalProperties").is_some() => "maxProperties",
            _ => continue,
        };
        assert!(schema[limit].is_u64(), "{place} has no {limit}");
    }
    assert!(definitions.values().all(|schema| schema["additionalProperties"] == Value::Bool(false)));
}

#[test]
fn reports_may_grow() {
    assert!(reports().values().all(|schema| schema.get("additionalProperties").is_none()));
}

#[test]
fn a_definition_means_the_same_in_build_and_reports() {
    let (request, reports) = (request(), reports());
    for (name, schema) in &reports {
        assert!(request.get(name).is_none_or(|other| other == schema), "{name}");
    }
}

#[test]
fn the_example_build_reads_back_and_every_question_answers_it() {
    let example = Build::example();
    let mut definitions = Map::new();
    let schema = Build::schema(&mut definitions);
    check(&example, &schema, &definitions, "");
    let build =
        Build::from_json(example.to_string().as_bytes()).unwrap_or_else(|refusal| panic!("{refusal}"));
    assert!(ask::<Payload>(&build).is_ok());
    assert!(ask::<AxleLoad>(&build).is_ok());
}

#[test]
fn the_example_reports_are_as_their_schemas_say() {
    struct Examples;
    impl ForEachQuestion for Examples {
        fn question<Q: Question>(&mut self) {
            let mut definitions = Map::new();
            let schema = Q::Report::schema(&mut definitions);
            let example = Q::Report::example().unwrap();
            for (key, member) in example.as_object().unwrap() {
                let object = &definitions[schema["$ref"].as_str().unwrap().rsplit('/').next().unwrap()];
                check(member, &object["properties"][key], &definitions, &format!("{}/{key}", Q::NAME));
            }
        }
    }
    for_each_question(&mut Examples);
}

#[test]
fn the_answers_to_the_demo_builds_are_as_the_schemas_say() {
    struct Answers<'a>(&'a Build);
    impl ForEachQuestion for Answers<'_> {
        fn question<Q: Question>(&mut self) {
            let mut definitions = Map::new();
            let schema = Q::Report::schema(&mut definitions);
            let report = serde_json::to_value(ask::<Q>(self.0).unwrap()).unwrap();
            check(&report, &schema, &definitions, Q::NAME);
        }
    }
    for json in [
        include_str!("../../../tests/builds/heron.json"),
        include_str!("../../../tests/builds/bison.json"),
        include_str!("../../../tests/builds/pika.json"),
    ] {
        for_each_question(&mut Answers(&Build::from_json(json.as_bytes()).unwrap()));
    }
}
