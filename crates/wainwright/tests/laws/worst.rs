//! Worst cases against every corner looked at one by one.

use proptest::prelude::*;
use proptest::strategy::Union;
use serde_json::{Value, json};
use wainwright::axle_load::{AxleLoadReport, Extreme, StateLoads};

use super::builds::{build, cases, settled_build, sound_build};
use super::oracle::{Loads, Model, Sums, plus};
use super::reports::axle_load;

/// What a load is of.
#[derive(Debug, Clone, Copy)]
enum Of {
    Gross,
    Tongue,
    Fraction,
    Axle(usize),
    Left(usize),
    Right(usize),
}

impl Of {
    fn all(count: usize) -> Vec<Self> {
        let each = (0..count).flat_map(|j| [Self::Axle(j), Self::Left(j), Self::Right(j)]);
        [Self::Gross, Self::Tongue, Self::Fraction].into_iter().chain(each).collect()
    }

    fn value(self, loads: &Loads) -> f64 {
        match self {
            Self::Gross => loads.gross,
            Self::Tongue => loads.tongue,
            Self::Fraction => loads.tongue / loads.gross,
            Self::Axle(j) => loads.axle[j],
            Self::Left(j) => loads.left[j],
            Self::Right(j) => loads.right[j],
        }
    }

    /// Least and greatest, as reported.
    fn reported(self, report: &AxleLoadReport) -> [&Extreme; 2] {
        let worst = &report.worst;
        match self {
            Self::Gross => [&worst.gross_mass_lb.min, &worst.gross_mass_lb.max],
            Self::Tongue => [&worst.tongue_lb.min, &worst.tongue_lb.max],
            Self::Fraction => [&worst.tongue_fraction.min, &worst.tongue_fraction.max],
            Self::Axle(j) => [&worst.axles[j].min, &worst.axles[j].max],
            Self::Left(j) => [&worst.axles[j].left.min, &worst.axles[j].left.max],
            Self::Right(j) => [&worst.axles[j].right.min, &worst.axles[j].right.max],
        }
    }

    fn in_state(self, report: &AxleLoadReport, state: &str) -> f64 {
        let state = &report.states[state];
        match self {
            Self::Gross => state.gross_mass_lb,
            Self::Tongue => state.tongue_lb,
            Self::Fraction => state.tongue_fraction,
            Self::Axle(j) => state.axles[j].load_lb,
            Self::Left(j) => state.axles[j].left_lb,
            Self::Right(j) => state.axles[j].right_lb,
        }
    }

    /// What rounding may leave of it, in a trailer of so many pounds.
    fn rounding(self, gross: f64) -> f64 {
        if matches!(self, Self::Fraction) { 1e-9 } else { 1e-9 * gross.max(1.0) }
    }
}

/// Steps along an edge from an empty tank to a full one.
const STEPS: u32 = 24;
/// So many places between corners are looked at in a build at most.
const PLACES: usize = 3_000;

/// Places along the edges between corners: one tank part full, the others as at the corner.
fn along_edges(model: &Model, corners: &[Sums]) -> Vec<Sums> {
    let edges = corners.len() * model.tanks.len();
    let every = (edges * STEPS as usize).div_ceil(PLACES).max(1);
    let mut places = Vec::new();
    for (i, corner) in corners.iter().enumerate() {
        for (t, (_, full)) in model.tanks.iter().enumerate() {
            // Corners come in the order of a binary count of the tanks.
            let filled = i >> t & 1 == 1;
            if filled && (i + t) % every == 0 {
                let steps = 1..STEPS;
                places.extend(steps.map(|n| plus(*corner, *full, f64::from(n) / f64::from(STEPS) - 1.0)));
            }
        }
    }
    places
}

/// The document with the states of all witnesses, parked.
fn with_witnesses(document: &Value, witnesses: &[&Extreme]) -> Value {
    let mut document = document.clone();
    if document.get("states").is_none() {
        document["states"] = json!({});
    }
    for (i, witness) in witnesses.iter().enumerate() {
        document["states"][format!("witness{i}")] =
            json!({"moving": false, "fill": witness.fill, "aboard": witness.aboard});
    }
    document
}

fn check(document: &Value) -> Result<bool, TestCaseError> {
    let report = axle_load(document);
    let model = Model::of(document);
    let corners = model.corners();
    let at_corners: Vec<Loads> = corners.iter().map(|sums| model.loads(*sums)).collect();
    let can_lift = at_corners.iter().any(|loads| loads.lifted);
    let between: Vec<Loads> = match can_lift {
        true => along_edges(&model, &corners).into_iter().map(|sums| model.loads(sums)).collect(),
        false => Vec::new(),
    };
    prop_assert!(report.worst.exact);
    let gross = report.worst.gross_mass_lb.max.value;
    let all = Of::all(model.axles.len());
    for of in &all {
        let [min, max] = of.reported(&report).map(|extreme| extreme.value);
        let rounding = of.rounding(gross);
        let looked_at = || at_corners.iter().chain(&between).map(|loads| of.value(loads));
        let least = looked_at().fold(f64::INFINITY, f64::min);
        let most = looked_at().fold(f64::NEG_INFINITY, f64::max);
        prop_assert!(min <= least + rounding, "{of:?}: least {least}, reported {min}");
        prop_assert!(max >= most - rounding, "{of:?}: most {most}, reported {max}");
        if !can_lift {
            prop_assert!(min >= least - rounding, "{of:?}: least {least}, reported {min}");
            prop_assert!(max <= most + rounding, "{of:?}: most {most}, reported {max}");
        }
    }
    let witnesses: Vec<&Extreme> = all.iter().flat_map(|of| of.reported(&report)).collect();
    let again = axle_load(&with_witnesses(document, &witnesses));
    for (i, witness) in witnesses.iter().enumerate() {
        let of = all[i / 2];
        let value = of.in_state(&again, &format!("witness{i}"));
        let off = (value - witness.value).abs();
        prop_assert!(off <= of.rounding(gross), "{of:?}: reported {}, its state has {value}", witness.value);
    }
    Ok(can_lift)
}

proptest! {
    #![proptest_config(cases(4_000))]

    /// No corner, and where axles lift no place between corners, lies outside the reported extremes; without
    /// lifting axles they are the corners' own; and each is what its own state carries.
    #[test]
    fn extremes_are_those_of_all_corners_and_of_their_own_states(document in build()) {
        check(&document)?;
    }
}

proptest! {
    #![proptest_config(cases(256))]

    /// Every listed state lies within the extremes.
    #[test]
    fn listed_states_lie_within_the_extremes(document in settled_build()) {
        let report = axle_load(&document);
        let gross = report.worst.gross_mass_lb.max.value;
        for of in Of::all(report.worst.axles.len()) {
            let [min, max] = of.reported(&report).map(|extreme| extreme.value);
            for id in report.states.keys() {
                let value = of.in_state(&report, id);
                let rounding = of.rounding(gross);
                prop_assert!(min - rounding <= value && value <= max + rounding, "{of:?} in {id}");
            }
        }
    }

    /// The worst value of a check is the worst case's own, where bars add nothing to it.
    #[test]
    fn checks_have_the_worst_cases_values(document in sound_build()) {
        let mut document = document;
        document.as_object_mut().unwrap().remove("tow_vehicle");
        let report = axle_load(&document);
        let worst = &report.worst;
        for check in &report.checks {
            let (kind, axle) = check.limit.split_once('.').unwrap_or((&check.limit, ""));
            let sides = || worst.axles[axle].left.max.value.max(worst.axles[axle].right.max.value);
            let expected = match kind {
                "gawr" => worst.axles[axle].max.value,
                "tires" | "rims" => sides(),
                "tongue_fraction_min" => worst.tongue_fraction.min.value,
                "tongue_fraction_max" => worst.tongue_fraction.max.value,
                "coupler_max_tongue" => worst.tongue_lb.max.value,
                _ => worst.gross_mass_lb.max.value,
            };
            let off = (check.worst_value - expected).abs();
            prop_assert!(off <= 1e-9 * worst.gross_mass_lb.max.value, "{}: {} is not {expected}", check.limit, check.worst_value);
        }
    }

    /// A check is over, near or kept by the loads that the listed states show.
    #[test]
    fn checks_say_what_the_states_show(document in Union::new([build().boxed(), sound_build().boxed()])) {
        let report = axle_load(&document);
        let any_moves = report.states.values().any(|state| state.moving);
        let judged = || report.states.values().filter(|state| state.moving || !any_moves);
        let most = |value: &dyn Fn(&StateLoads) -> f64| judged().map(value).fold(f64::NEG_INFINITY, f64::max);
        let bars = judged().any(|state| state.with_bars.is_some());
        for check in &report.checks {
            let (kind, axle) = check.limit.split_once('.').unwrap_or((&check.limit, ""));
            let expected = match kind {
                "gawr" => most(&|s| s.with_bars.as_ref().map_or(s.axles[axle].load_lb, |bars| bars.axles[axle])),
                "tires" | "rims" if !bars => most(&|s| s.axles[axle].left_lb.max(s.axles[axle].right_lb)),
                "tongue_fraction_min" => -most(&|s| -s.tongue_fraction),
                "tongue_fraction_max" => most(&|s| s.tongue_fraction),
                "coupler_max_tongue" | "receiver_max_tongue" => most(&|s| s.tongue_lb),
                "gvwr" | "coupler_rating" | "tow_rating" => most(&|s| s.gross_mass_lb),
                "gcwr" => most(&|s| s.tow_vehicle.unwrap().combination_lb),
                _ => continue,
            };
            let off = (check.value - expected).abs();
            prop_assert!(off <= 1e-9 * report.worst.gross_mass_lb.max.value, "{}: {} is not {expected}", check.limit, check.value);
            let used = if kind == "tongue_fraction_min" { check.bound / check.value } else { check.value / check.bound };
            let status = match used {
                used if !(0.0..=1.0 + 1e-7).contains(&used) && (kind == "tongue_fraction_min" || used > 1.0) => "over",
                used if (1.0 - 1e-7..=1.0 + 1e-7).contains(&used) => continue,
                used if used >= 0.95 => "near",
                _ => "ok",
            };
            prop_assert_eq!(check.status, status, "{}: {} of {}", check.limit, check.value, check.bound);
        }
    }
}
