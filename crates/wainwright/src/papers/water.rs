//! What the water does to the tongue: the trailer with its water tanks full and empty, loaded and not.

use super::model::{Column, Section, Table};
use super::side_view::heaviest_moving;
use super::words::{lb, name, names};
use crate::axle_load::limits::{GREATEST_TONGUE_FRACTION, LEAST_TONGUE_FRACTION};
use crate::axle_load::{AxleLoad, AxleLoadReport, StateLoads};
use crate::build::{Build, Fluid, State};
use crate::document::Keyed;
use crate::loading::Loading;
use crate::question::ask;
use crate::report::percent;

/// Adds what to do with the water.
pub fn add(guide: &mut Section, build: &Build, report: &AxleLoadReport) {
    guide.heading("Water");
    let tanks: Vec<(&str, Fluid)> =
        build.tanks().filter(|(_, tank)| tank.fluid.is_water()).map(|(id, tank)| (id, tank.fluid)).collect();
    if tanks.is_empty() {
        guide.text("There is no water tank in the list.");
        return;
    }
    guide.list(build.tanks().filter_map(|(id, _)| pull(id, build, report)).collect());
    let Some((fills, loads, worked_out)) = tried(build, report, &tanks) else { return };
    guide.text(
        "The tongue with fuel and propane full and the water as in the first column. From 10 to 15 % of the gross weight is right: \
         less and the trailer sways, more and it overloads hitch and tow vehicle. Other limits are not looked at here: they are \
         in the findings.",
    );
    let mut table = Table::new(&[("Water", Column::Words)]);
    for load in &loads {
        table.column(load.heading.clone(), Column::Words);
    }
    for fill in &fills {
        let cell = |load: &Cargo| worked_out.states.get(&key(fill, load)).map(shown).unwrap_or_default();
        table.row(std::iter::once(fill.words.clone()).chain(loads.iter().map(cell)).collect());
    }
    guide.table(table);
    guide.list(loads.iter().map(|load| advice(load, &fills, &worked_out)).collect());
}

/// How full the water tanks are.
struct Fill {
    words: String,
    fresh: f64,
    waste: f64,
}

/// What is aboard.
struct Cargo {
    heading: String,
    ids: Vec<String>,
}

/// The name of a state that is tried. No id of a build has a space in it.
fn key(fill: &Fill, cargo: &Cargo) -> String {
    format!("{}; {}", fill.words, cargo.heading)
}

/// The tongue with every fill and cargo, by the same question that answers for the listed states.
fn tried(
    build: &Build,
    report: &AxleLoadReport,
    tanks: &[(&str, Fluid)],
) -> Option<(Vec<Fill>, Vec<Cargo>, AxleLoadReport)> {
    let fills = fills(tanks);
    let loading = Loading::of(build)?;
    let cargo = cargo(build, &loading, report);
    let mut states: Keyed<State> = Keyed::default();
    let given = |fill: Keyed<f64>, aboard: Vec<String>, moving| State {
        moving: Some(moving),
        fill: Some(fill),
        aboard: Some(aboard),
        scale: None,
    };
    // The listed ones stay: independent axles may be set up in one of them.
    for state in &loading.states {
        let fill = build.tanks().zip(&state.fill).map(|((id, _), fill)| (id.to_owned(), *fill)).collect();
        let aboard =
            build.cargo().zip(&state.aboard).filter(|(_, aboard)| **aboard).map(|((id, _), _)| id.to_owned());
        states.insert(state.id.to_string(), given(fill, aboard.collect(), state.moving));
    }
    for fill in &fills {
        for one in &cargo {
            let full = |fluid: Fluid| match fluid {
                Fluid::FreshWater => fill.fresh,
                Fluid::GreyWater | Fluid::BlackWater => fill.waste,
                Fluid::Propane | Fluid::Gasoline | Fluid::Diesel => 1.0,
            };
            let tanks = build.tanks().map(|(id, tank)| (id.to_owned(), full(tank.fluid))).collect();
            states.insert(key(fill, one), given(tanks, one.ids.clone(), false));
        }
    }
    let mut other = build.clone();
    other.states = Some(states);
    Some((fills, cargo, ask::<AxleLoad>(&other).ok()?))
}

fn fills(tanks: &[(&str, Fluid)]) -> Vec<Fill> {
    let fresh = tanks.iter().any(|(_, fluid)| !fluid.is_waste());
    let waste = tanks.iter().any(|(_, fluid)| fluid.is_waste());
    let fill = |words: &str, fresh: f64, waste: f64| Fill { words: words.to_owned(), fresh, waste };
    match (fresh, waste) {
        (true, true) => vec![
            fill("all empty", 0.0, 0.0),
            fill("fresh full, waste empty", 1.0, 0.0),
            fill("fresh empty, waste full", 0.0, 1.0),
            fill("all full", 1.0, 1.0),
        ],
        (true, false) => vec![fill("empty", 0.0, 0.0), fill("full", 1.0, 0.0)],
        (false, _) => vec![fill("empty", 0.0, 0.0), fill("full", 0.0, 1.0)],
    }
}

/// The cargo of the heaviest state that moves; the same without toys; none.
fn cargo(build: &Build, loading: &Loading, report: &AxleLoadReport) -> Vec<Cargo> {
    let state =
        heaviest_moving(report).and_then(|(id, _)| loading.states.iter().find(|state| state.id == id));
    let aboard: Vec<(&str, bool)> = build
        .cargo()
        .zip(state.iter().flat_map(|state| &state.aboard))
        .filter(|(_, aboard)| **aboard)
        .map(|((id, cargo), _)| (id, cargo.toy.is_some()))
        .collect();
    let ids = |toys: bool| {
        aboard.iter().filter(|(_, toy)| toys || !toy).map(|(id, _)| (*id).to_owned()).collect::<Vec<_>>()
    };
    let mut all = Vec::new();
    if let Some(state) = state.filter(|_| !aboard.is_empty()) {
        all.push(Cargo { heading: format!("Loaded as in {}", name(&state.id)), ids: ids(true) });
    }
    let gear = ids(false);
    if !gear.is_empty() && gear.len() < aboard.len() {
        all.push(Cargo { heading: "The same without the toy".to_owned(), ids: gear });
    }
    all.push(Cargo { heading: "Nothing aboard".to_owned(), ids: Vec::new() });
    all
}

/// Is a tongue right?
#[derive(Clone, Copy, PartialEq, Eq)]
enum Tongue {
    Light,
    Right,
    Heavy,
}

fn judged(state: &StateLoads) -> Tongue {
    if state.tongue_fraction < LEAST_TONGUE_FRACTION {
        Tongue::Light
    } else if state.tongue_fraction > GREATEST_TONGUE_FRACTION {
        Tongue::Heavy
    } else {
        Tongue::Right
    }
}

fn shown(state: &StateLoads) -> String {
    let word = match judged(state) {
        Tongue::Light => "too light",
        Tongue::Right => "right",
        Tongue::Heavy => "too heavy",
    };
    format!("{} lb, {}: {word}", lb(state.tongue_lb), percent(state.tongue_fraction))
}

/// Which fills keep the tongue right with this cargo.
fn advice(load: &Cargo, fills: &[Fill], worked_out: &AxleLoadReport) -> String {
    let of = |wanted: Tongue| -> Vec<String> {
        let state = |fill: &&Fill| {
            worked_out.states.get(&key(fill, load)).is_some_and(|state| judged(state) == wanted)
        };
        fills.iter().filter(state).map(|fill| fill.words.clone()).collect()
    };
    let (light, right, heavy) = (of(Tongue::Light), of(Tongue::Right), of(Tongue::Heavy));
    let heading = &load.heading;
    if right.len() == fills.len() {
        return format!("{heading}: any water keeps the tongue right.");
    }
    if right.is_empty() {
        return format!("{heading}: no water sets the tongue right; change the load first.");
    }
    let mut text = format!("{heading}: the tongue is right with the water {}", right.join(", or "));
    for (word, which) in [("too light", light), ("too heavy", heavy)] {
        if !which.is_empty() {
            text.push_str(&format!("; {} makes it {word}", which.join(", or ")));
        }
    }
    text + "."
}

/// What a full tank does to the tongue, in words.
fn pull(id: &str, build: &Build, report: &AxleLoadReport) -> Option<String> {
    let tank = build.tanks().find(|(other, _)| *other == id)?.1;
    let (x_in, now_in) = (tank.x_in?, report.axle_station.now_in);
    let full_lb = crate::units::lb(crate::loading::full_kg(tank));
    // By the lever about the axles; what they give way is left out.
    let on_tongue_lb = full_lb * (now_in - x_in) / now_in;
    let effect = if on_tongue_lb.abs() < 0.5 {
        "hardly moves the tongue".to_owned()
    } else if on_tongue_lb > 0.0 {
        format!("puts some {} lb on the tongue", lb(on_tongue_lb))
    } else {
        format!("takes some {} lb off the tongue", lb(-on_tongue_lb))
    };
    let side = if x_in < now_in { "ahead of" } else { "behind" };
    let id = names([&id.to_owned()]);
    Some(format!(
        "{id} ({}, {} lb full) is {side} the middle of the axles: full it {effect}.",
        tank.fluid.words(),
        lb(full_lb)
    ))
}
