//! Equilibrium, and what follows from it.

use proptest::prelude::*;
use serde_json::{Map, Value, json};
use wainwright::axle_load::{AxleLoadReport, StateLoads};

use super::builds::{Springs, build, build_on, cases};
use super::oracle::Model;
use super::reports::{axle_load, members, number, payload};

/// What rounding may leave of a load in a trailer of so many pounds.
fn rounding(gross: f64) -> f64 {
    1e-9 * gross.max(1.0)
}

fn close(a: f64, b: f64, tolerance: f64) -> bool {
    (a - b).abs() <= tolerance
}

fn axles_of(state: &StateLoads) -> f64 {
    state.axles.values().map(|axle| axle.load_lb).sum()
}

/// Asserts that two reports say the same of every state and every worst case, but for rounding.
fn same(a: &AxleLoadReport, b: &AxleLoadReport, scale: f64) -> Result<(), TestCaseError> {
    let gross = a.worst.gross_mass_lb.max.value * scale;
    prop_assert_eq!(a.states.len(), b.states.len());
    for (id, state) in &a.states {
        let other = &b.states[id];
        prop_assert!(close(state.gross_mass_lb * scale, other.gross_mass_lb, rounding(gross)));
        prop_assert!(
            close(state.tongue_lb * scale, other.tongue_lb, rounding(gross)),
            "{id}: {} became {}",
            state.tongue_lb,
            other.tongue_lb
        );
        prop_assert!(close(state.tongue_fraction, other.tongue_fraction, 1e-9));
        for (axle, loads) in &state.axles {
            let other = &other.axles[axle];
            prop_assert!(close(loads.load_lb * scale, other.load_lb, rounding(gross)));
            prop_assert!(close(loads.left_lb * scale, other.left_lb, rounding(gross)));
            prop_assert!(close(loads.right_lb * scale, other.right_lb, rounding(gross)));
        }
    }
    let ranges = |report: &AxleLoadReport| {
        let worst = &report.worst;
        let mut all = vec![worst.gross_mass_lb.clone(), worst.tongue_lb.clone()];
        for axle in worst.axles.values() {
            all.extend([axle.left.clone(), axle.right.clone()]);
        }
        all
    };
    for (one, other) in ranges(a).iter().zip(&ranges(b)) {
        prop_assert!(close(one.min.value * scale, other.min.value, rounding(gross)));
        prop_assert!(close(one.max.value * scale, other.max.value, rounding(gross)));
    }
    Ok(())
}

/// The group's station: a pound there leaves the tongue as it is.
fn group_x(model: &Model) -> f64 {
    model.axles.iter().map(|axle| axle.share * axle.x).sum()
}

/// The masses of every section times a factor.
fn scaled(document: &Value, factor: f64) -> Value {
    let mut document = document.clone();
    let scale = |value: &mut Value, member: &str| {
        if let Some(number) = value.get(member).and_then(Value::as_f64) {
            value[member] = json!(number * factor);
        }
    };
    scale(&mut document["trailer"]["bare"], "mass_lb");
    let sections = [("parts", "mass_lb"), ("cargo", "mass_lb"), ("tanks", "capacity_gal")];
    for (section, member) in sections {
        for (_, thing) in document[section].as_object_mut().unwrap() {
            scale(thing, member);
        }
    }
    for (_, axle) in document["trailer"]["axles"].as_object_mut().unwrap() {
        scale(axle, "unsprung_lb");
    }
    document
}

fn reversed(section: &Value) -> Value {
    let members: Vec<_> = section.as_object().unwrap().iter().rev().collect();
    Value::Object(members.into_iter().map(|(key, value)| (key.clone(), value.clone())).collect())
}

proptest! {
    #![proptest_config(cases(512))]

    #[test]
    fn tongue_and_axles_carry_everything_and_no_moment_is_left_about_the_ball(document in build()) {
        let model = Model::of(&document);
        for (id, state) in &axle_load(&document).states {
            let gross = state.gross_mass_lb;
            prop_assert!(close(axles_of(state) + state.tongue_lb, gross, rounding(gross)));
            for axle in state.axles.values() {
                prop_assert!(close(axle.left_lb + axle.right_lb, axle.load_lb, rounding(gross)));
            }
            let carried: f64 = state.axles.values().zip(&model.axles).map(|(a, m)| a.load_lb * m.x).sum();
            // Axles with an unequal equalizer carry at the group's station, and unsprung masses each at its own.
            let (group, shares): (f64, f64) = (group_x(&model), model.axles.iter().map(|a| a.unsprung).sum());
            let equalized = model.axles[0].rate.is_none();
            let by_group = (axles_of(state) - shares) * group + model.axles.iter().map(|a| a.unsprung * a.x).sum::<f64>();
            let moment = if equalized { by_group } else { carried };
            let mass_moment = gross * state.center.x_in;
            if model.loads([gross, mass_moment, 0.0, 0.0]).axle.iter().zip(&model.axles).any(|(l, a)| *l > a.unsprung) {
                let tolerance = rounding(gross) * 300.0;
                prop_assert!(close(moment, mass_moment, tolerance), "{id}: {moment} is not {mass_moment}");
                prop_assert!(close(carried, moment, tolerance), "{id}: {carried} is not {moment}");
            }
        }
    }

    /// The whole of every listed state, worked a second time.
    #[test]
    fn listed_states_are_as_worked_in_pounds_and_inches(document in build()) {
        let (model, report) = (Model::of(&document), axle_load(&document));
        for (id, given) in members(&document, "/states") {
            let (state, sums) = (&report.states[id], model.state(given));
            let (loads, gross) = (model.loads(sums), sums[0]);
            let tolerance = rounding(gross);
            prop_assert!(close(state.gross_mass_lb, gross, tolerance));
            prop_assert!(close(state.center.x_in, sums[1] / gross, 1e-9 * 300.0));
            prop_assert!(close(state.center.y_in, sums[2] / gross, 1e-9 * 300.0));
            prop_assert!(close(state.center.z_in, sums[3] / gross, 1e-9 * 300.0));
            prop_assert!(close(state.tongue_lb, loads.tongue, tolerance), "{id}: {} is not {}", state.tongue_lb, loads.tongue);
            for (j, axle) in state.axles.values().enumerate() {
                prop_assert!(close(axle.load_lb, loads.axle[j], tolerance));
                prop_assert!(close(axle.left_lb, loads.left[j], tolerance));
                prop_assert!(close(axle.right_lb, loads.right[j], tolerance));
            }
            if let Some(tow) = state.tow_vehicle {
                let of = |member: &str| number(&document["tow_vehicle"], member).unwrap_or(0.0);
                let (wheelbase, overhang) = (of("/wheelbase_in"), of("/ball_overhang_in"));
                let front = of("/front_axle_lb") - loads.tongue * overhang / wheelbase;
                let alone = of("/front_axle_lb") + of("/rear_axle_lb") + of("/hitch_lb");
                prop_assert!(close(tow.front_axle_lb, front, tolerance));
                prop_assert!(close(tow.front_axle_lb + tow.rear_axle_lb, alone + loads.tongue, tolerance));
                prop_assert!(close(tow.combination_lb, alone + gross, tolerance));
                if let Some(bars) = &state.with_bars {
                    // What the bars take off the tow vehicle they put on the trailer's axles, and the front axle
                    // gets back its share of what it lost.
                    let added = bars.axles.values().sum::<f64>() - axles_of(state);
                    prop_assert!(close(bars.front_axle_lb + bars.rear_axle_lb + added, alone + loads.tongue, tolerance));
                    let back = of("/front_load_restoration") * (of("/front_axle_lb") - front);
                    prop_assert!(close(bars.front_axle_lb, front + back, tolerance));
                }
            }
        }
    }

    #[test]
    fn a_mass_moved_rearward_lightens_the_tongue_by_its_moment_over_the_groups_station(
        document in build_on(Springs::Equalized), x in 0..200_i32, by in 1..100_i32, mass in 1..500_i32,
    ) {
        let with = |x: i32| {
            let mut document = document.clone();
            document["parts"]["moved"] = json!({"mass_lb": mass, "x_in": x});
            axle_load(&document)
        };
        let (before, after) = (with(x), with(x + by));
        let group = group_x(&Model::of(&document));
        for (id, state) in &before.states {
            let change = after.states[id].tongue_lb - state.tongue_lb;
            let expected = -f64::from(mass * by) / group;
            prop_assert!(close(change, expected, rounding(state.gross_mass_lb)), "{change} is not {expected}");
        }
    }

    #[test]
    fn a_mass_over_the_axles_leaves_the_tongue_as_it_is(document in build(), mass in 1..2_000_i32) {
        let report = axle_load(&document);
        let mut with = document.clone();
        with["parts"]["over"] = json!({"mass_lb": mass, "x_in": report.axle_station.now_in});
        // Levelled axles would be set anew for it.
        prop_assume!(document["trailer"]["suspension"] != "independent"
            || document.pointer("/trailer/axles/axle0/unloaded_height_in").is_some());
        let (model, after) = (Model::of(&document), axle_load(&with));
        for (id, given) in members(&document, "/states") {
            if !model.loads(model.state(given)).lifted {
                let tolerance = rounding(after.states[id].gross_mass_lb);
                let (now, then) = (report.states[id].tongue_lb, after.states[id].tongue_lb);
                prop_assert!(close(now, then, tolerance), "{id}: {now} became {then}");
            }
        }
    }

    #[test]
    fn the_order_of_things_changes_nothing_but_rounding(document in build()) {
        let mut other = document.clone();
        for section in ["parts", "tanks", "cargo"] {
            other[section] = reversed(&document[section]);
        }
        // Of equally heavy cargo on one stand the usual states take one, by its place in the list.
        if document.get("states").is_none() {
            other["cargo"] = document["cargo"].clone();
        }
        let axles = reversed(&document["trailer"]["axles"]);
        other["trailer"]["axles"] = axles;
        let (a, b) = (axle_load(&document), axle_load(&other));
        let ids = |report: &AxleLoadReport| -> Vec<String> {
            let mut all: Vec<_> = report.worst.axles.keys().cloned().collect();
            all.sort();
            all
        };
        prop_assert_eq!(ids(&a), ids(&b));
        let mut b = b;
        b.worst.axles.sort_keys();
        same(&a, &b, 1.0)?;
    }

    #[test]
    fn twice_the_masses_are_twice_the_loads(document in build_on(Springs::Equalized), twice in any::<bool>()) {
        let factor = if twice { 2.0 } else { 1.25 };
        let mut plain = document.clone();
        plain.as_object_mut().unwrap().remove("tow_vehicle");
        same(&axle_load(&plain), &axle_load(&scaled(&plain, factor)), factor)?;
    }

    #[test]
    fn payload_and_axle_load_weigh_every_state_the_same_to_the_bit(document in build()) {
        let (masses, loads) = (payload(&document), axle_load(&document));
        prop_assert_eq!(masses.states.len(), loads.states.len());
        for (id, state) in &masses.states {
            prop_assert_eq!(state.gross_mass_lb.to_bits(), loads.states[id].gross_mass_lb.to_bits());
        }
        for label in [masses.label.cargo_capacity_lb, masses.label.cargo_capacity_kg, masses.label.water_lb, masses.label.water_kg] {
            prop_assert!(label >= 0.0);
        }
    }

    #[test]
    fn every_number_of_every_report_is_finite(document in build()) {
        for text in [format!("{:?}", axle_load(&document)), format!("{:?}", payload(&document))] {
            for word in ["NaN", "inf,", "inf)", "inf "] {
                prop_assert!(!text.contains(word), "{word} in {text}");
            }
        }
    }
}

#[test]
fn an_empty_map_of_each_section_is_as_good_as_none() {
    let bare = json!({"trailer": {"gvwr_lb": 5000, "bare": {"mass_lb": 3000, "x_in": 176},
        "axles": {"only": {"x_in": 200, "gawr_lb": 3500, "track_in": 80}}}});
    let mut empty = bare.clone();
    for section in ["parts", "tanks", "cargo", "states"] {
        empty[section] = Value::Object(Map::new());
    }
    assert_eq!(axle_load(&bare), axle_load(&empty));
    assert_eq!(payload(&bare), payload(&empty));
}
