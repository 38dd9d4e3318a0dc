//! Where a thing may stand and how heavy it may be, against builds in which it stands there and is so heavy.

use std::collections::BTreeMap;

use proptest::prelude::*;
use serde_json::{Value, json};
use wainwright::axle_load::{AxleLoadReport, Check};

use super::builds::{cases, sound_build};
use super::reports::{axle_load, members, number};

/// A load this far above its bound is not above it [lb]: sums of converted figures round.
const TOUCHING: f64 = 1e-6;
/// Places and masses as a document may give them.
const STATIONS_IN: [f64; 2] = [-480.0, 1_200.0];
const MASSES_LB: [f64; 2] = [0.0, 100_000.0];

/// What a limit is broken by, or has left [lb]: among the listed states that move, and over all fills and cargo.
#[derive(Debug, Clone, Copy)]
struct Over {
    states: f64,
    any: f64,
}

/// Does a place along the trailer change what the limit is of?
fn place_matters(document: &Value, check: &Check) -> bool {
    let gross = [
        "gvwr",
        "coupler_rating",
        "ball_rating",
        "ball_mount_rating",
        "receiver_rating",
        "tow_rating",
        "gcwr",
        "chain_breaking_strength",
    ];
    let tow = |member: &str| number(document, &format!("/tow_vehicle/{member}")).unwrap_or(0.0);
    // Bars that restore all of it leave the front axle as it was, as does a ball right over the rear axle.
    let front_stays = tow("front_load_restoration") == 1.0 || tow("ball_overhang_in") == 0.0;
    match check.limit.as_str() {
        "tow_vehicle_front_gawr" => !front_stays,
        limit => !gross.contains(&limit),
    }
}

/// Every limit and how far past it the build is; those that no place matters to only where `all` are asked for.
fn limits(document: &Value, report: &AxleLoadReport, all: bool) -> BTreeMap<String, Over> {
    let mut limits = BTreeMap::new();
    for check in report.checks.iter().filter(|check| all || place_matters(document, check)) {
        let past = |value: f64| match check.limit.as_str() {
            "tongue_fraction_min" => (check.bound - value) * 1_000.0,
            "tongue_fraction_max" => (value - check.bound) * 1_000.0,
            _ => value - check.bound,
        };
        limits.insert(check.limit.clone(), Over { states: past(check.value), any: past(check.worst_value) });
    }
    // Independent axles must carry something on their springs.
    if report.states.values().next().is_some() && document["trailer"]["suspension"] == "independent" {
        let any_moves = report.states.values().any(|state| state.moving);
        for (id, axle) in members(document, "/trailer/axles") {
            let unsprung = number(axle, "/unsprung_lb").unwrap_or(0.0);
            let judged = report.states.values().filter(|state| state.moving || !any_moves);
            let least = judged.map(|state| state.axles[id].load_lb).fold(f64::INFINITY, f64::min);
            let any = report.worst.axles[id].min.value;
            // Lifted, it stands at exactly nothing: that is past the limit by as much as can be seen.
            let past = |load: f64| if load <= unsprung + 1e-9 { 1.0 } else { unsprung - load };
            limits.insert(format!("axle_lift.{id}"), Over { states: past(least), any: past(any) });
        }
    }
    limits
}

fn broken(limits: &BTreeMap<String, Over>, of: fn(&Over) -> f64) -> Vec<&str> {
    limits.iter().filter(|(_, over)| of(over) > TOUCHING).map(|(name, _)| name.as_str()).collect()
}

fn in_states(over: &Over) -> f64 {
    over.states
}

fn in_any(over: &Over) -> f64 {
    over.any
}

/// A part or a piece of cargo of a build.
#[derive(Debug, Clone)]
struct Thing {
    section: &'static str,
    id: String,
}

impl Thing {
    fn all(document: &Value) -> Vec<Self> {
        let of = |section: &'static str| {
            let ids: Vec<String> =
                members(document, &format!("/{section}")).map(|(id, _)| id.to_owned()).collect();
            ids.into_iter().map(move |id| Self { section, id })
        };
        of("parts").chain(of("cargo")).collect()
    }

    /// The build with one of its figures changed.
    fn with(&self, document: &Value, member: &str, value: f64) -> Value {
        let mut document = document.clone();
        document[self.section][&self.id][member] = json!(value);
        document
    }

    /// The build in which it is always aboard, so that worst cases are those with it.
    fn fixed(&self, document: &Value) -> Value {
        let mut document = document.clone();
        if self.section == "parts" {
            return document;
        }
        let cargo = document["cargo"].as_object_mut().unwrap();
        let mut thing = cargo.shift_remove(&self.id).unwrap();
        let thing_members = thing.as_object_mut().unwrap();
        let stand = thing_members.remove("stand");
        thing_members.remove("toy");
        thing_members.remove("tie_downs");
        cargo.retain(|_, other| stand.is_none() || other.get("stand") != stand.as_ref());
        let left: Vec<String> = cargo.keys().cloned().collect();
        for (_, state) in document.get_mut("states").and_then(Value::as_object_mut).into_iter().flatten() {
            if let Some(aboard) = state.get_mut("aboard").and_then(Value::as_array_mut) {
                aboard.retain(|id| left.iter().any(|kept| id == kept));
            }
        }
        document["parts"][&self.id] = thing;
        document
    }

    fn as_part(&self) -> Self {
        Self { section: "parts", id: self.id.clone() }
    }

    /// The build with only the states judged that have it aboard; none where there is no such state.
    fn aboard(&self, document: &Value) -> Option<Value> {
        let mut document = document.clone();
        let states = document.get_mut("states")?.as_object_mut()?;
        let moves = |state: &Value| state["moving"] != false;
        let any_moves = states.values().any(moves);
        let has = |state: &Value| state["aboard"].as_array().is_some_and(|all| all.contains(&json!(self.id)));
        if self.section == "cargo" {
            states.retain(|_, state| has(state) && (moves(state) || !any_moves));
        } else {
            states.retain(|_, state| moves(state) || !any_moves);
        }
        (!states.is_empty()).then_some(document)
    }
}

/// One end of an interval: where it is and what ends it.
type End<'r> = Option<(f64, &'r str)>;

/// The ends of an interval, with their limits taken off the list in turn.
fn ends<'r>(least: Option<f64>, most: Option<f64>, names: &'r [String]) -> [End<'r>; 2] {
    let mut names = names.iter().map(String::as_str);
    [least.and_then(|at| Some((at, names.next()?))), most.and_then(|at| Some((at, names.next()?)))]
}

/// Asserts that inside the ends no limit is broken, that just past each its own is, and farther out still some.
///
/// - `evaluate`  the limits with the figure at a value
/// - `within`    what a document may give
/// - `step`      how far inside and past an end is looked
fn check_ends(
    evaluate: &dyn Fn(f64) -> BTreeMap<String, Over>,
    of: fn(&Over) -> f64,
    ends: [End; 2],
    within: [f64; 2],
    step: f64,
) -> Result<(), TestCaseError> {
    let [low, high] = [ends[0].map_or(within[0], |e| e.0), ends[1].map_or(within[1], |e| e.0)];
    if high - low > 4.0 * step {
        for at in [low + step, (low + high) / 2.0, high - step, 0.9 * low + 0.1 * high] {
            if (within[0]..=within[1]).contains(&at) {
                let limits = evaluate(at);
                let broken = broken(&limits, of);
                prop_assert!(broken.is_empty(), "at {at} of {ends:?}: {broken:?} of {limits:?}");
            }
        }
    }
    for (end, way) in ends.into_iter().zip([-1.0, 1.0]) {
        let Some((at, name)) = end.filter(|(_, name)| *name != "floor") else { continue };
        for far in [step, 40.0 * step, 4_000.0 * step] {
            let past = at + way * far;
            if (within[0]..=within[1]).contains(&past) {
                let limits = evaluate(past);
                let over = of(&limits[name]);
                prop_assert!(over > 0.0, "at {past}, past {end:?}: {name} is not broken, {over}");
            }
        }
    }
    Ok(())
}

/// Asserts that everywhere some limit is broken.
fn check_nowhere(
    evaluate: &dyn Fn(f64) -> BTreeMap<String, Over>,
    of: fn(&Over) -> f64,
    within: [f64; 2],
) -> Result<(), TestCaseError> {
    for n in 0..=40 {
        let at = within[0] + (within[1] - within[0]) * f64::from(n) / 40.0;
        let limits = evaluate(at);
        prop_assert!(!broken(&limits, of).is_empty(), "said to fit nowhere, but does at {at}: {limits:?}");
    }
    Ok(())
}

/// What stands on the floor stays on it.
fn room(document: &Value, thing: &Thing) -> [f64; 2] {
    let floor = ["front", "rear"].map(|end| number(document, &format!("/trailer/floor/{end}_x_in")));
    let x = number(&document[thing.section][&thing.id], "/x_in");
    match (floor, x) {
        ([Some(front), Some(rear)], Some(x)) if front <= x && x <= rear => [front, rear],
        _ => STATIONS_IN,
    }
}

fn check_place(document: &Value, thing: &Thing) -> Result<(), TestCaseError> {
    let mass = number(&document[thing.section][&thing.id], "/mass_lb").unwrap();
    let quantity = number(&document[thing.section][&thing.id], "/quantity").unwrap_or(1.0);
    let report = axle_load(document);
    let room = room(document, thing);
    // A step that changes a load by more than rounding, and by less than a bound is wide.
    let step = (1.0 / (mass * quantity)).clamp(1e-3, 1.0);
    let placement = &report.placement[&thing.id];
    prop_assert_eq!(placement.is_none(), report.no_place.contains_key(&thing.id));
    if mass * quantity == 0.0 {
        return Ok(());
    }
    if let Some(aboard) = thing.aboard(document) {
        let evaluate = |x: f64| {
            let moved = thing.with(&aboard, "x_in", x);
            limits(&moved, &axle_load(&moved), false)
        };
        match placement {
            Some(place) => {
                let ends = ends(place.min_x_in, place.max_x_in, &place.bound_by);
                check_ends(&evaluate, in_states, ends, STATIONS_IN, step)?;
            }
            None => check_nowhere(&evaluate, in_states, room)?,
        }
    }
    let Some(place) = placement else { return Ok(()) };
    let fixed = thing.fixed(document);
    let evaluate = |x: f64| {
        let moved = thing.as_part().with(&fixed, "x_in", x);
        limits(&moved, &axle_load(&moved), false)
    };
    match &place.any_fill {
        Some(place) => {
            let ends = ends(place.min_x_in, place.max_x_in, &place.bound_by);
            check_ends(&evaluate, in_any, ends, STATIONS_IN, step)
        }
        None => check_nowhere(&evaluate, in_any, room),
    }
}

fn check_mass(document: &Value, thing: &Thing) -> Result<(), TestCaseError> {
    let report = axle_load(document);
    let largest = &report.largest_mass[&thing.id];
    if let Some(aboard) = thing.aboard(document) {
        let evaluate = |mass: f64| {
            let changed = thing.with(&aboard, "mass_lb", mass);
            limits(&changed, &axle_load(&changed), true)
        };
        match largest {
            Some(largest) => {
                let most = largest.mass_lb.zip(largest.bound_by.as_deref());
                let least = (largest.least_lb, "");
                let ends = [Some(least).filter(|least| least.0 > 0.0), most];
                // What asks for a least mass has no name: below it something is broken.
                if let Some((least, _)) = ends[0]
                    && least > 0.1
                {
                    let below = evaluate(least - 0.1);
                    prop_assert!(
                        !broken(&below, in_states).is_empty(),
                        "{} lb is enough: {below:?}",
                        least - 0.1
                    );
                }
                let least = ends[0].map(|(at, _)| (at, "floor"));
                check_ends(&evaluate, in_states, [least, ends[1]], MASSES_LB, 0.01)?;
            }
            None => check_nowhere(&evaluate, in_states, MASSES_LB)?,
        }
    }
    let fixed = thing.fixed(document);
    let evaluate = |mass: f64| {
        let changed = thing.as_part().with(&fixed, "mass_lb", mass);
        limits(&changed, &axle_load(&changed), true)
    };
    match largest.as_ref().and_then(|largest| largest.any_fill_lb) {
        Some(most) if most > 0.05 => {
            let at = evaluate(most - 0.01);
            prop_assert!(broken(&at, in_any).is_empty(), "at {most}: {at:?}");
            let past = evaluate((most + 0.01).min(MASSES_LB[1]));
            prop_assert!(past.values().any(|over| in_any(over) > 0.0), "past {most}: {past:?}");
            Ok(())
        }
        None if largest.is_some() => check_nowhere(&evaluate, in_any, MASSES_LB),
        _ => Ok(()),
    }
}

proptest! {
    #![proptest_config(cases(512))]

    #[test]
    fn a_thing_may_stand_where_it_is_said_to_and_nowhere_else(
        document in sound_build(), picked in prop::array::uniform2(any::<prop::sample::Index>()),
    ) {
        let things = Thing::all(&document);
        prop_assume!(!things.is_empty());
        for pick in picked {
            check_place(&document, pick.get(&things))?;
        }
    }

    #[test]
    fn cargo_may_be_as_heavy_as_it_is_said_to_and_no_heavier(
        document in sound_build(), picked in any::<prop::sample::Index>(),
    ) {
        let cargo: Vec<Thing> = Thing::all(&document).into_iter().filter(|thing| thing.section == "cargo").collect();
        prop_assume!(!cargo.is_empty());
        check_mass(&document, picked.get(&cargo))?;
    }
}
