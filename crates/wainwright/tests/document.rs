//! Properties of reading a build: every fault is found at its place and no other; no text brings it down.

#![allow(clippy::unwrap_used, reason = "a test fails by panicking")]

use std::collections::BTreeSet;

use proptest::prelude::*;
use serde_json::{Map, Value, json};
use wainwright::axle_load::AxleLoad;
use wainwright::document::Record;
use wainwright::payload::Payload;
use wainwright::question::{Answer, ForEachQuestion, Question, ask, for_each_question};
use wainwright::{Build, Refusal};

const DEMO_BUILDS: [&str; 3] = [
    include_str!("../../../tests/builds/heron.json"),
    include_str!("../../../tests/builds/bison.json"),
    include_str!("../../../tests/builds/pika.json"),
];

/// What may be said beyond the demo builds of sun, battery and stay, one object for each of them. Invented.
const ENERGY: &str = include_str!("document/energy.json");

/// A demo build with more of sun, battery and stay, and another form of weather.
fn whole_build(which: usize) -> Value {
    let mut build: Value = serde_json::from_str(DEMO_BUILDS[which]).unwrap();
    let more: Vec<Value> = serde_json::from_str(ENERGY).unwrap();
    put_in(&mut build, &more[which]);
    build
}

/// Puts members into an object, and those of objects within into them; null takes one out.
fn put_in(value: &mut Value, more: &Value) {
    match (value, more) {
        (Value::Object(members), Value::Object(more)) => {
            for (key, more) in more {
                put_in(members.entry(key.as_str()).or_insert(json!({})), more);
            }
            members.retain(|_, member| !member.is_null());
        }
        (value, more) => *value = more.clone(),
    }
}

/// One way of breaking a build, and the pointer of the fault it makes.
#[derive(Debug, Clone)]
struct Break {
    pointer: String,
    change: Change,
}

#[derive(Debug, Clone)]
enum Change {
    Put(Value),
    Remove,
}

/// Every way of breaking a build that this test knows.
fn breaks(build: &Value) -> Vec<Break> {
    let mut definitions = Map::new();
    let schema = Build::schema(&mut definitions);
    let mut all = Vec::new();
    collect("", build, &schema, &definitions, &mut all);
    all
}

fn collect(at: &str, value: &Value, schema: &Value, definitions: &Map<String, Value>, all: &mut Vec<Break>) {
    let schema = resolved(schema, definitions);
    let put = |pointer: String, value: Value| Break { pointer, change: Change::Put(value) };
    match value {
        Value::Object(members) => {
            if !at.is_empty() {
                all.push(put(at.to_owned(), json!([])));
                all.push(put(at.to_owned(), json!("text")));
            }
            // No field, or an entry of the wrong type: a number could be a fill of a tank that there is not.
            all.push(put(format!("{at}/zzz"), json!([])));
            for (key, member) in members {
                let inner = schema["properties"].get(key).unwrap_or(&schema["additionalProperties"]);
                let pointer = format!("{at}/{key}");
                if schema["required"].as_array().is_some_and(|required| required.contains(&json!(key))) {
                    all.push(Break { pointer: pointer.clone(), change: Change::Remove });
                    all.push(put(pointer.clone(), Value::Null));
                }
                collect(&pointer, member, inner, definitions, all);
            }
        }
        Value::Number(_) => {
            let wrong = [json!(-1e10), json!(1e10), json!("12"), json!(true), json!([]), json!({"lb": 1})];
            all.extend(wrong.map(|value| put(at.to_owned(), value)));
        }
        Value::String(_) => {
            let wrong = [json!(7), json!(false), json!([""]), json!({}), json!("x".repeat(201))];
            all.extend(wrong.map(|value| put(at.to_owned(), value)));
        }
        Value::Bool(_) => {
            all.extend([json!(0), json!("yes"), json!([])].map(|value| put(at.to_owned(), value)))
        }
        Value::Array(items) => {
            all.extend([json!(1), json!({}), json!("atv")].map(|value| put(at.to_owned(), value)));
            for (index, item) in items.iter().enumerate() {
                collect(&format!("{at}/{index}"), item, &schema["items"], definitions, all);
            }
        }
        Value::Null => {}
    }
}

/// The schema that a reference, or a choice of it and null, stands for.
fn resolved<'s>(schema: &'s Value, definitions: &'s Map<String, Value>) -> &'s Value {
    if let Some(reference) = schema["$ref"].as_str() {
        return &definitions[reference.rsplit('/').next().unwrap()];
    }
    schema["anyOf"].get(0).map_or(schema, |first| resolved(first, definitions))
}

fn apply(build: &mut Value, broken: &Break) {
    let (parent, key) = broken.pointer.rsplit_once('/').unwrap();
    match (build.pointer_mut(parent).unwrap(), &broken.change) {
        (Value::Object(members), Change::Put(value)) => _ = members.insert(key.to_owned(), value.clone()),
        (Value::Object(members), Change::Remove) => _ = members.shift_remove(key),
        (Value::Array(items), Change::Put(value)) => items[key.parse::<usize>().unwrap()] = value.clone(),
        (other, change) => panic!("{change:?} in {other}"),
    }
}

/// Do two pointers lie in one another?
fn touch(a: &str, b: &str) -> bool {
    let within =
        |a: &str, b: &str| a.strip_prefix(b).is_some_and(|rest| rest.is_empty() || rest.starts_with('/'));
    within(a, b) || within(b, a)
}

/// Place of a pointer in the document: the index of each key; a missing member comes last.
fn place(build: &Value, pointer: &str) -> Vec<usize> {
    let mut value = build;
    let index = |token: &str| {
        let index = match value {
            Value::Object(members) => members.keys().position(|key| key == token),
            _ => token.parse().ok(),
        };
        value = value.get(token).or_else(|| value.get(index?)).unwrap_or(&Value::Null);
        index.unwrap_or(usize::MAX)
    };
    pointer.split('/').skip(1).map(index).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(512) })]

    #[test]
    fn each_break_of_a_good_build_is_found_at_its_place_and_nothing_else_is(
        which in 0..3usize,
        picks in prop::collection::vec(any::<prop::sample::Index>(), 1..=6),
    ) {
        let mut build = whole_build(which);
        let all = breaks(&build);
        let mut chosen: Vec<&Break> = Vec::new();
        for pick in picks {
            let next = pick.get(&all);
            if !chosen.iter().any(|other| touch(&other.pointer, &next.pointer)) {
                chosen.push(next);
            }
        }
        chosen.iter().for_each(|broken| apply(&mut build, broken));
        let refusal = Build::from_json(build.to_string().as_bytes()).unwrap_err();
        let Refusal::Faults(faults) = refusal else { panic!("{refusal}") };
        let found: Vec<&str> = faults.list().iter().map(|fault| fault.pointer.as_str()).collect();
        let wanted: BTreeSet<&str> = chosen.iter().map(|broken| broken.pointer.as_str()).collect();
        prop_assert_eq!(found.iter().copied().collect::<BTreeSet<_>>(), wanted, "{:?}", faults.list());
        prop_assert_eq!(found.len(), chosen.len(), "{:?}", faults.list());
        for pointer in &found {
            let parent = pointer.rsplit_once('/').map_or("", |(parent, _)| parent);
            prop_assert!(build.pointer(pointer).or(build.pointer(parent)).is_some(), "{}", pointer);
        }
        prop_assert!(found.is_sorted_by_key(|pointer| place(&build, pointer)), "{:?}", found);
    }

    #[test]
    fn no_edit_of_its_bytes_brings_a_build_down(
        which in 0..3usize,
        edits in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>(), 0..5u8), 1..6),
    ) {
        let mut text = whole_build(which).to_string().into_bytes();
        for (at, byte, how) in edits {
            let at = at.index(text.len().max(1)).min(text.len());
            match how {
                0 => text.truncate(at),
                1 => text.insert(at, byte),
                2 if at < text.len() => text[at] ^= 1 << (byte % 8),
                3 if at < text.len() => text[at] = b"0123456789-.eE{}[],:\"n "[usize::from(byte) % 23],
                4 => drop(text.drain(at..(at + usize::from(byte)).min(text.len()))),
                _ => {}
            }
        }
        match Build::from_json(&text) {
            Ok(build) => {
                ask_all(&build);
            }
            Err(refusal) => prop_assert!(!refusal.to_string().is_empty()),
        }
    }
}

/// Whatever could be read is answered by every question, or what it lacks is named.
fn ask_all(build: &Build) {
    struct Ask<'b>(&'b Build);
    impl ForEachQuestion for Ask<'_> {
        fn question<Q: Question>(&mut self) {
            let mut text = String::new();
            match ask::<Q>(self.0) {
                Ok(report) => report.write_text(&mut text).unwrap(),
                Err(refusal) => text.push_str(&refusal.to_string()),
            }
            assert!(!text.is_empty());
        }
    }
    for_each_question(&mut Ask(build));
}

#[test]
fn the_demo_builds_have_no_fault() {
    for json in DEMO_BUILDS {
        ask_all(&Build::from_json(json.as_bytes()).unwrap());
    }
    for which in 0..DEMO_BUILDS.len() {
        let json = whole_build(which).to_string();
        ask_all(&Build::from_json(json.as_bytes()).unwrap_or_else(|refusal| panic!("{refusal}")));
    }
}

/// What cannot be read must not be missed by what goes with it.
#[test]
fn each_break_of_a_good_build_alone_is_one_fault() {
    let mut tried = 0;
    for which in 0..DEMO_BUILDS.len() {
        let good = whole_build(which);
        for broken in breaks(&good) {
            let mut build = good.clone();
            apply(&mut build, &broken);
            let refusal = Build::from_json(build.to_string().as_bytes()).unwrap_err();
            let Refusal::Faults(faults) = refusal else { panic!("{refusal}") };
            assert_eq!(faults.count(), 1, "{broken:?}: {:?}", faults.list());
            assert_eq!(faults.list()[0].pointer, broken.pointer, "{broken:?}");
            tried += 1;
        }
    }
    assert!(tried > 10_000, "{tried}");
}

#[test]
fn a_build_without_axles_is_told_what_axle_load_needs() {
    let bare = Build::from_json(br#"{"trailer": {"gvwr_lb": 7000, "bare": {"mass_lb": 2000}}}"#).unwrap();
    assert!(ask::<Payload>(&bare).is_ok());
    assert_eq!(
        ask::<AxleLoad>(&bare).unwrap_err().to_string(),
        "/trailer/bare/x_in is missing; axle load needs the bare trailer's center of gravity, in inches behind the ball\n\
         /trailer/axles is missing; axle load needs one to three axles"
    );
    let nothing = Build::from_json(b"{}").unwrap();
    assert_eq!(
        ask::<Payload>(&nothing).unwrap_err().to_string(),
        "/trailer is missing; payload needs its gvwr_lb and bare mass_lb"
    );
    assert_eq!(
        ask::<AxleLoad>(&nothing).unwrap_err().to_string(),
        "/trailer is missing; axle load needs its ratings, bare mass and axles"
    );
}
