//! Every figure of every row is that of the row's build put to the question by itself, to the bit.

use std::borrow::Cow;

use serde_json::{Map, Value, json};
use wainwright::batch::{Cells, RowError, Scored, Table, score};
use wainwright::named_question::named;
use wainwright::options::{demonstration, merge_patch};
use wainwright::{Build, NamedFiles};

/// Everything in a report that is a number or may be one, as paths.
fn figures(report: &Value, path: &str, found: &mut Vec<String>) {
    match report {
        Value::Number(_) | Value::Null => found.push(path.to_owned()),
        Value::Object(members) => {
            for (key, member) in members.iter().filter(|(key, _)| !ABOUT.contains(&key.as_str())) {
                figures(member, &format!("{path}.{key}"), found);
            }
        }
        Value::Array(items) => {
            for (index, item) in items.iter().enumerate() {
                figures(item, &format!("{path}.{index}"), found);
            }
        }
        _ => {}
    }
}

/// What a report says about its figures; which of it there is goes by the build.
const ABOUT: [&str; 5] = ["findings", "assumptions", "cautions", "engine", "hourly"];

/// Every figure of a question's report that every one of these builds has.
fn figures_of(question: &str, builds: &[Value]) -> Vec<String> {
    let of = |build: &Value| {
        let mut found = Vec::new();
        figures(&outright(question, build).unwrap(), question, &mut found);
        found
    };
    let mut all = of(&builds[0]);
    for build in &builds[1..] {
        let here = of(build);
        all.retain(|path| here.contains(path));
    }
    all
}

fn outright(question: &str, build: &Value) -> Option<Value> {
    let build = Build::from_json(build.to_string().as_bytes()).ok()?;
    Some(named(question).unwrap().ask(&build, true).ok()?.report)
}

fn at<'v>(report: &'v Value, path: &str) -> Option<&'v Value> {
    path.split('.').skip(1).try_fold(report, |here, key| match here {
        Value::Array(items) => items.get(key.parse::<usize>().ok()?),
        // What is null has no members, and none of them is missed.
        Value::Null => Some(here),
        other => other.get(key),
    })
}

/// A table of numbers within bounds, and of options.
struct Drawn {
    numbers: Vec<(&'static str, Vec<f64>)>,
    options: Vec<(&'static str, Vec<Option<&'static str>>)>,
    rows: usize,
}

impl Drawn {
    fn of(
        rows: usize,
        seed: u64,
        numbers: &[(&'static str, f64, f64)],
        options: &[(&'static str, &[&'static str])],
    ) -> Self {
        let mut lots = oorandom::Rand64::new(seed.into());
        let mut between = |low: f64, high: f64| low + (high - low) * lots.rand_float();
        let numbers = numbers
            .iter()
            .map(|(path, low, high)| (*path, (0..rows).map(|_| between(*low, *high)).collect()));
        let numbers = numbers.collect();
        let mut draw = |of: &[&'static str]| of.get(between(0.0, of.len() as f64 + 1.0) as usize).copied();
        let options =
            options.iter().map(|(group, of)| (*group, (0..rows).map(|_| draw(of)).collect())).collect();
        Self { numbers, options, rows }
    }

    fn cells(&self) -> Vec<(&str, Cells<'_>)> {
        let numbers = self.numbers.iter().map(|(path, values)| {
            (*path, Cells::Numbers { values: Cow::Borrowed(&values[..]), nulls: None })
        });
        let options = self.options.iter().map(|(group, ids)| {
            let mut words: Vec<String> = ids.iter().flatten().map(|id| (*id).to_owned()).collect();
            words.sort();
            words.dedup();
            let place = |id: &str| words.iter().position(|word| word == id).unwrap() as u32;
            let cells = ids.iter().map(|id| id.map(place)).collect();
            (*group, Cells::Texts { words, cells })
        });
        numbers.chain(options).collect()
    }

    /// The build of a row, made as anyone would.
    fn build(&self, base: &Value, groups: Option<&Value>, row: usize) -> Value {
        let mut build = base.clone();
        // Patches apply in the order of the catalogue.
        for (group, of) in groups.and_then(Value::as_object).into_iter().flatten() {
            let chosen = self.options.iter().find(|(id, _)| id == group).and_then(|(_, ids)| ids[row]);
            if let Some(option) = chosen {
                merge_patch::apply(&mut build, &of["options"][option]["patch"]);
            }
        }
        for (path, values) in &self.numbers {
            let (place, last) = path.rsplit_once('.').unwrap();
            let here = build.pointer_mut(&format!("/{}", place.replace('.', "/"))).unwrap();
            here[last] = json!(values[row]);
        }
        build
    }

    fn scored(&self, base: &Value, groups: Option<&Value>, scores: &[String], threads: usize) -> Scored {
        let json = match groups {
            Some(groups) => json!({"base": base, "groups": groups}),
            None => json!({"base": base}),
        };
        let table = Table { columns: self.cells(), rows: self.rows, scores };
        let scored = score(json.to_string().as_bytes(), table, &NamedFiles::default(), threads, |_, _| true);
        scored.unwrap_or_else(|refusal| panic!("{refusal}")).unwrap()
    }

    /// Asserts that every figure is that of its row by itself, and that threads change nothing.
    fn check(&self, base: &Value, groups: Option<&Value>, questions: &[&str]) {
        let builds: Vec<Value> = (0..self.rows).map(|row| self.build(base, groups, row)).collect();
        let workable: Vec<Value> =
            builds.iter().filter(|build| outright("payload", build).is_some()).take(4).cloned().collect();
        let scores: Vec<String> =
            questions.iter().flat_map(|question| figures_of(question, &workable)).collect();
        assert!(scores.len() > 20, "{scores:?}");
        let scored = self.scored(base, groups, &scores, 2);
        assert_eq!(scored.errors, self.scored(base, groups, &scores, 1).errors);
        for (row, build) in builds.iter().enumerate() {
            let reports: Vec<Option<Value>> =
                questions.iter().map(|question| outright(question, build)).collect();
            let found = scores.iter().map(|path| {
                let (question, _) = path.split_once('.').unwrap();
                let asked = questions.iter().position(|one| *one == question).unwrap();
                let found = reports[asked].as_ref().and_then(|report| at(report, path));
                found.filter(|found| found.is_number() || found.is_null())
            });
            // A row that lacks what a path leads to has an error, and no figures.
            let found: Option<Vec<&Value>> = found.collect();
            assert_eq!(
                found.is_none(),
                scored.errors.iter().any(|error| error.row as usize == row),
                "row {row}"
            );
            for (score, path) in scores.iter().enumerate() {
                let expected = found.as_ref().and_then(|found| found[score].as_f64());
                let got = Some(scored.scores[score][row]).filter(|figure| figure.is_finite());
                let bits = |figure: Option<f64>| figure.map(f64::to_bits);
                assert_eq!(bits(got), bits(expected), "row {row}, {path}: {got:?} {expected:?}");
            }
        }
        assert!(scored.errors.len() < self.rows / 2, "{:?}", scored.errors[0]);
    }
}

impl Drawn {
    /// Asserts that a few figures are those of each row by itself. Returns the rows with errors: those that no question
    /// answers.
    fn check_few(&self, base: &Value, questions: &[&str], few: &[String]) -> Vec<RowError> {
        let scored = self.scored(base, None, few, 2);
        for row in 0..self.rows {
            let build = self.build(base, None, row);
            let reports: Vec<Option<Value>> =
                questions.iter().map(|question| outright(question, &build)).collect();
            for (score, path) in few.iter().enumerate() {
                let asked = questions.iter().position(|one| path.starts_with(&format!("{one}."))).unwrap();
                let expected = reports[asked].as_ref().and_then(|report| at(report, path).unwrap().as_f64());
                let got = Some(scored.scores[score][row]).filter(|figure| figure.is_finite());
                assert_eq!(got.map(f64::to_bits), expected.map(f64::to_bits), "row {row}, {path}");
            }
        }
        scored.errors
    }
}

fn base() -> Value {
    demonstration()["base"].clone()
}

fn groups(ids: &[&str]) -> Value {
    let mut all = demonstration()["groups"].clone();
    if let Value::Object(groups) = &mut all {
        let kept: Map<String, Value> =
            std::mem::take(groups).into_iter().filter(|(id, _)| ids.contains(&&**id)).collect();
        *groups = kept;
    }
    all
}

#[test]
fn masses_and_places() {
    let numbers = [
        ("parts.galley.mass_lb", -5.0, 300.0),
        ("parts.galley.x_in", 60.0, 200.0),
        ("parts.bunk_left.y_in", -40.0, 40.0),
        ("parts.windows_two.mass_lb", 10.0, 60.0),
        ("cargo.atv.mass_lb", 300.0, 900.0),
        ("cargo.atv.x_in", 150.0, 240.0),
    ];
    let drawn = Drawn::of(1000, 1, &numbers, &[]);
    let few = [
        "payload.unloaded_mass_lb",
        "payload.states.outbound.gross_mass_lb",
        "payload.states.camped.payload_left_lb",
        "payload.states.camped.gvwr_fraction",
        "payload.states.outbound.cargo_lb",
        "payload.states.outbound.fluids_lb",
        "axle_load.states.outbound.gross_mass_lb",
        "axle_load.states.homebound.center.x_in",
        "axle_load.states.homebound.center.y_in",
        "axle_load.states.homebound.center.z_in",
        "axle_load.states.outbound.tongue_lb",
        "axle_load.states.delivered.tongue_fraction",
        "axle_load.states.outbound.axles.front.load_lb",
        "axle_load.states.outbound.axles.rear.left_lb",
        "axle_load.states.outbound.axles.rear.right_lb",
        "axle_load.states.outbound.axles.front.gawr_fraction",
        "axle_load.states.outbound.tow_vehicle.front_axle_lb",
        "axle_load.states.outbound.tow_vehicle.rear_axle_lb",
        "axle_load.states.outbound.tow_vehicle.combination_lb",
    ];
    let few: Vec<String> = few.map(str::to_owned).to_vec();
    let errors = drawn.check_few(&base(), &["payload", "axle_load"], &few);
    // One row in sixty has a galley lighter than nothing.
    assert!((5..40).contains(&errors.len()), "{}", errors.len());
    let first = &errors[0];
    assert_eq!(first.subject, "/parts/galley/mass_lb");
    assert!(first.message.starts_with("must be 0 or more; got -"), "{}", first.message);
}

/// Over every tank fill and every choice of cargo, of which some shares a stand.
#[test]
fn worst_cases() {
    let mut base = base();
    base["cargo"]["atv"]["stand"] = json!("bay");
    base["cargo"]["outboard_motor"]["stand"] = json!("bay");
    for (_, state) in base["states"].as_object_mut().unwrap() {
        if let Some(aboard) = state.get_mut("aboard").and_then(Value::as_array_mut) {
            aboard.retain(|id| id != "outboard_motor");
        }
    }
    let numbers = [
        ("parts.galley.mass_lb", 0.0, 300.0),
        ("parts.bunk_left.y_in", -40.0, 40.0),
        ("cargo.atv.mass_lb", 0.0, 900.0),
        ("cargo.atv.x_in", 120.0, 240.0),
        ("cargo.gear.y_in", -40.0, 40.0),
        ("cargo.outboard_motor.x_in", 20.0, 260.0),
    ];
    let mut worst = figures_of("axle_load", &[base.clone()]);
    worst.retain(|path| path.starts_with("axle_load.worst.") && path.ends_with(".value"));
    // Gross mass, tongue load and its share; two axles, and left and right of each: least and greatest.
    assert_eq!(worst.len(), 18);
    let errors = Drawn::of(300, 7, &numbers, &[]).check_few(&base, &["axle_load"], &worst);
    assert!(errors.is_empty(), "{:?}", errors[0]);
}

#[test]
fn three_axles() {
    let mut base = base();
    let middle = json!({"x_in": 215, "gawr_lb": 3500, "track_in": 78, "tires": 2, "tire_max_load_lb": 1820});
    base["trailer"]["axles"].as_object_mut().unwrap().insert("third".to_owned(), middle);
    let numbers = [("parts.galley.mass_lb", 0.0, 300.0), ("cargo.atv.x_in", 120.0, 240.0)];
    let mut loads = figures_of("axle_load", &[base.clone()]);
    let is_quick = |path: &str| {
        path.starts_with("axle_load.worst.") && path.ends_with(".value")
            || path.starts_with("axle_load.states.outbound.axles.") && !path.ends_with("needed_psi")
            || path == "axle_load.states.outbound.tongue_lb"
    };
    loads.retain(|path| is_quick(path));
    assert_eq!(loads.len(), 24 + 12 + 1, "{loads:?}");
    let errors = Drawn::of(60, 10, &numbers, &[]).check_few(&base, &["axle_load"], &loads);
    assert!(errors.is_empty(), "{:?}", errors[0]);
}

/// What is whole is said to be so, and nothing else.
#[test]
fn a_score_is_whole_where_every_row_has_it() {
    let mut drawn = Drawn::of(40, 11, &[("parts.galley.mass_lb", 0.0, 300.0)], &[]);
    let scores = [
        "payload.states.outbound.gross_mass_lb",
        "axle_load.placement.galley.min_x_in",
        "energy_budget.smallest_array_w",
    ];
    let scores = scores.map(str::to_owned).to_vec();
    let scored = drawn.scored(&base(), None, &scores, 2);
    let has_all = |figures: &Vec<f64>| figures.iter().all(|figure| figure.is_finite());
    assert_eq!(scored.whole, scored.scores.iter().map(has_all).collect::<Vec<_>>());
    assert!(scored.whole[0]);
    drawn.numbers[0].1[7] = -1.0;
    assert_eq!(drawn.scored(&base(), None, &scores, 2).whole, [false; 3]);
}

#[test]
fn every_figure_of_the_masses() {
    let numbers = [
        ("parts.galley.mass_lb", 0.0, 300.0),
        ("parts.air_conditioner.z_in", 20.0, 90.0),
        ("trailer.gvwr_lb", 6000.0, 9000.0),
    ];
    Drawn::of(60, 2, &numbers, &[]).check(&base(), None, &["payload", "axle_load"]);
}

#[test]
fn every_figure_of_circuits_energy_and_heat() {
    let numbers = [
        ("battery.capacity_ah", 80.0, 500.0),
        ("solar.arrays.roof.power_w", 100.0, 900.0),
        ("parts.kettle.electrical.power_w", 500.0, 1600.0),
        ("climate.cooling.setpoint_f", 68.0, 82.0),
        ("parts.galley.mass_lb", 0.0, 300.0),
    ];
    Drawn::of(24, 3, &numbers, &[]).check(&base(), None, &["circuit_load", "energy_budget", "cooling_load"]);
}

#[test]
fn every_figure_of_the_whole() {
    let numbers = [("parts.galley.mass_lb", 0.0, 300.0), ("stay.grey_fraction", 0.0, 0.5)];
    Drawn::of(12, 4, &numbers, &[]).check(&base(), None, &["evaluate"]);
}

#[test]
fn options_and_numbers_together() {
    let numbers = [("parts.galley.mass_lb", 0.0, 300.0), ("parts.galley.x_in", 60.0, 200.0)];
    let options: [(&str, &[&str]); 3] = [
        ("running_gear", &["axles_2200", "tires_light", "axles_5200"]),
        ("battery", &["battery_100", "battery_300", "battery_400"]),
        ("toys", &["toy_dirt_bike", "toy_side_by_side"]),
    ];
    let groups = groups(&["running_gear", "battery", "toys"]);
    Drawn::of(80, 5, &numbers, &options).check(
        &base(),
        Some(&groups),
        &["payload", "axle_load", "energy_budget"],
    );
}

/// What is worked out without the whole of its report.
#[test]
fn a_few_figures_of_energy() {
    let numbers = [
        ("battery.capacity_ah", 80.0, 500.0),
        ("solar.arrays.roof.power_w", 100.0, 900.0),
        ("solar.arrays.roof.tilt_deg", 0.0, 60.0),
    ];
    let drawn = Drawn::of(60, 6, &numbers, &[]);
    let few =
        ["autonomy_h", "load_wh_per_day", "months.0.unmet_kwh", "months.11.lowest_soc", "total.spilled_kwh"];
    let few = few.map(|key| format!("energy_budget.{key}")).to_vec();
    let errors = drawn.check_few(&base(), &["energy_budget"], &few);
    assert!(errors.is_empty(), "{:?}", errors[0]);
}

/// The hot day without the rest of the year and without single changes.
#[test]
fn a_few_figures_of_heat() {
    let numbers = [
        ("climate.cooling.capacity_btu_h", 5000.0, 14000.0),
        ("envelope.surfaces.roof.r_value", 2.0, 14.0),
        ("envelope.air_changes_per_h", 0.3, 2.0),
    ];
    let drawn = Drawn::of(24, 8, &numbers, &[]);
    let few = [
        "peak.total_btu_h",
        "peak.hour",
        "held_f",
        "cooling_kwh_per_day",
        "uncooled_f",
        "hours.14.load_btu_h",
    ];
    let few = few.map(|key| format!("cooling_load.{key}")).to_vec();
    let errors = drawn.check_few(&base(), &["cooling_load"], &few);
    assert!(errors.is_empty(), "{:?}", errors[0]);
    let mut without = base();
    without["climate"].as_object_mut().unwrap().shift_remove("cooling");
    let drawn = Drawn::of(6, 9, &numbers[1..], &[]);
    let few = ["cooling_load.held_f".to_owned(), "cooling_load.uncooled_f".to_owned()];
    let errors = drawn.check_few(&without, &["cooling_load"], &few);
    assert!(errors.is_empty(), "{:?}", errors[0]);
}
