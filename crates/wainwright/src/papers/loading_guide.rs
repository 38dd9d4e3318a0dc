//! The loading guide: for the buyer, in plain words.

use super::model::{Column, Section, Table};
use super::water;
use super::words::{counted, lb, name, not_worked_out, or_none};
use crate::axle_load::{AxleLoadReport, Extreme, LargestMass, Placement, limit_words};
use crate::build::{Build, Cargo};
use crate::evaluate::EvaluateReport;
use crate::report::{figure, percent};

/// A part that may be moved by less than this before a limit ends it must not be moved [in].
const FREE_IN: f64 = 12.0;
/// So many of those parts are named.
const FIXED: usize = 12;

/// The guide.
pub fn section(build: &Build, report: &EvaluateReport) -> Section {
    let mut guide = Section::new("Loading guide");
    let Some(axle_load) = &report.axle_load else {
        guide.text(not_worked_out(report, "axle_load"));
        return guide;
    };
    guide.text(
        "Places are inches from the ball on the tow vehicle back to the middle of the load's weight. What stands ahead of the \
         axles weighs on the tongue, what stands behind them lifts it. Weigh the tongue whenever the load changes much.",
    );
    cargo(&mut guide, build, axle_load);
    water::add(&mut guide, build, axle_load);
    extremes(&mut guide, axle_load);
    fixed_places(&mut guide, build, axle_load);
    tires(&mut guide, build, axle_load);
    unhitched(&mut guide, axle_load);
    guide
}

/// Where the toy and the rest of the cargo go, and how heavy they may be.
fn cargo(guide: &mut Section, build: &Build, report: &AxleLoadReport) {
    if build.cargo().len() == 0 {
        guide.heading("Cargo");
        guide.text("The list names no cargo.");
        return;
    }
    for (id, toy) in build.cargo().filter(|(_, cargo)| cargo.toy.is_some()) {
        guide.heading(format!("The toy: {}", name(id)));
        guide.list(of_toy(id, toy, build, report));
    }
    guide.heading("Every load");
    guide.text("Where it may stand and how much it may weigh, everything else as listed.");
    let mut table = Table::new(&[
        ("Load", Column::Words),
        ("Listed, lb", Column::Figures),
        ("Stands at, in", Column::Figures),
        ("From, in", Column::Figures),
        ("To, in", Column::Figures),
        ("May weigh there, lb", Column::Figures),
        ("What ends it", Column::Words),
    ]);
    for (id, one) in build.cargo() {
        let place = report.placement.get(id).and_then(Option::as_ref);
        let (from, to) = place.map_or((None, None), |place| (place.min_x_in, place.max_x_in));
        let largest = report.largest_mass.get(id).and_then(Option::as_ref);
        let by: Vec<String> =
            place.iter().flat_map(|place| &place.bound_by).map(|limit| limit_words(limit)).collect();
        let by = match place {
            Some(_) => distinct(by).join("; "),
            None => report.no_place.get(id).map_or_else(String::new, |limits| {
                format!(
                    "no place keeps {}",
                    limits.iter().map(|limit| limit_words(limit)).collect::<Vec<_>>().join(" with ")
                )
            }),
        };
        table.row(vec![
            name(id),
            lb(one.mass_lb),
            or_none(one.x_in, 0),
            or_none(from.map(f64::ceil), 0),
            or_none(to.map(f64::floor), 0),
            or_none(largest.and_then(|largest| largest.mass_lb).map(f64::floor), 0),
            by,
        ]);
    }
    guide.table(table);
}

fn distinct(mut words: Vec<String>) -> Vec<String> {
    words.dedup();
    words
}

fn of_toy(id: &str, cargo: &Cargo, build: &Build, report: &AxleLoadReport) -> Vec<String> {
    let mut lines = Vec::new();
    let rear_in =
        build.trailer.as_ref().and_then(|trailer| trailer.floor.as_ref()).map(|floor| floor.rear_x_in);
    let ahead = |x_in: f64| {
        rear_in.map_or_else(String::new, |rear_in| {
            format!(", {} in ahead of the floor's rear edge", figure(rear_in - x_in, 0))
        })
    };
    if let Some(x_in) = cargo.x_in {
        let at = format!("{} in behind the ball{}", figure(x_in, 0), ahead(x_in));
        let place = report.placement.get(id);
        lines.push(match place.is_none_or(|place| place.as_ref().is_some_and(|place| holds(place, x_in))) {
            true => format!("Stand it ({} lb) with the middle of its weight {at}.", lb(cargo.mass_lb)),
            false => format!(
                "Do not load it ({} lb) where the list has it, {at}: there a limit is broken. The findings say which.",
                lb(cargo.mass_lb)
            ),
        });
    }
    match report.placement.get(id) {
        Some(Some(place)) => lines.extend(room(place)),
        Some(None) => {
            let limits = report
                .no_place
                .get(id)
                .map_or_else(Vec::new, |limits| limits.iter().map(|limit| limit_words(limit)).collect());
            lines.push(format!("No place keeps every limit: {} exclude each other.", limits.join(" and ")));
        }
        None => {}
    }
    match report.largest_mass.get(id) {
        Some(Some(largest)) => lines.extend(weight(largest)),
        Some(None) => lines.push("No weight keeps every limit where the list has it.".to_owned()),
        None => {}
    }
    let Some(toy) = report.toys.get(id) else { return lines };
    if let Some(fit) = &toy.fit {
        let all = [
            (fit.width_left_in, "of width"),
            (Some(fit.length_left_in), "of length"),
            (fit.height_left_in, "of height"),
        ];
        let known =
            all.into_iter().filter_map(|(left_in, of)| Some(format!("{} in {of}", figure(left_in?, 1))));
        lines.push(format!("Room left around it in the bay: {}.", known.collect::<Vec<_>>().join(", ")));
    }
    if let Some(ramp) = &toy.ramp {
        lines.push(format!("The ramp rises at {}°.", figure(ramp.angle_deg, 0)));
    }
    lines.push(match &toy.tie_downs {
        Some(ties) => format!(
            "Tie it down at all {} points listed: they hold {} lb by the rule's count, and {} lb is asked.",
            figure(f64::from(ties.count), 0),
            lb(ties.aggregate_lb),
            lb(ties.aggregate_needed_lb)
        ),
        None => format!("Tie it down in all four directions; the list has no tie-downs. Their working load limits must add up to {} lb or more.", lb(cargo.mass_lb / 2.0)),
    });
    lines
}

/// Does a place keep every limit?
fn holds(place: &Placement, x_in: f64) -> bool {
    // A place that is given as the very end of the interval is in it.
    let slack_in = 1e-6;
    place.min_x_in.is_none_or(|min_in| x_in >= min_in - slack_in)
        && place.max_x_in.is_none_or(|max_in| x_in <= max_in + slack_in)
}

fn room(place: &Placement) -> Option<String> {
    let text = between(place.min_x_in, place.max_x_in)?;
    let any = match &place.any_fill {
        Some(any) => between(any.min_x_in, any.max_x_in).map_or_else(String::new, |any| {
            format!("; whatever is in the tanks and whatever else is aboard, {any}")
        }),
        None => "; with some water or other cargo no place keeps every limit, so keep to the listed states"
            .to_owned(),
    };
    Some(format!("With everything else as listed it may stand {text}{any}."))
}

fn between(from_in: Option<f64>, to_in: Option<f64>) -> Option<String> {
    match (from_in.map(|x| figure(x.ceil(), 0)), to_in.map(|x| figure(x.floor(), 0))) {
        (Some(from), Some(to)) => Some(format!("from {from} to {to} in behind the ball")),
        (Some(from), None) => Some(format!("anywhere from {from} in behind the ball on")),
        (None, Some(to)) => Some(format!("anywhere up to {to} in behind the ball")),
        (None, None) => None,
    }
}

fn weight(largest: &LargestMass) -> Option<String> {
    let mass_lb = largest.mass_lb?;
    let by = largest
        .bound_by
        .as_deref()
        .map_or_else(String::new, |limit| format!(" ({} ends it)", limit_words(limit)));
    let any = match largest.any_fill_lb {
        Some(any_lb) => format!("; {} lb whatever else is aboard", lb(any_lb.floor())),
        None => String::new(),
    };
    Some(format!("Where the list has it, it may weigh up to {} lb{by}{any}.", lb(mass_lb.floor())))
}

/// What to avoid: the two ends of the tongue over everything that may be aboard.
fn extremes(guide: &mut Section, report: &AxleLoadReport) {
    guide.heading("The worst that can be loaded");
    let fraction = &report.worst.tongue_fraction;
    let end = |word: &str, extreme: &Extreme| {
        format!("The tongue is {word}, {} of gross, with {}.", percent(extreme.value), with(extreme))
    };
    guide.list(vec![end("lightest", &fraction.min), end("heaviest", &fraction.max)]);
}

/// What is aboard at an extreme.
fn with(extreme: &Extreme) -> String {
    let tanks = extreme.fill.iter().filter(|(_, fill)| **fill > 0.0);
    let tanks = tanks.map(|(id, fill)| format!("{} {}", name(id), super::weights::fill_words(*fill)));
    let all: Vec<String> = tanks.chain(extreme.aboard.iter().map(|id| name(id))).collect();
    if all.is_empty() {
        "nothing aboard and every tank empty".to_owned()
    } else {
        format!("{} and nothing else", all.join(", "))
    }
}

/// Parts whose places hold the balance.
fn fixed_places(guide: &mut Section, build: &Build, report: &AxleLoadReport) {
    guide.heading("What must stay where it is");
    let mut tight: Vec<(f64, String)> = Vec::new();
    for (id, part) in build.parts() {
        let (Some(x_in), Some(Some(place))) = (part.x_in, report.placement.get(id)) else { continue };
        let forward = place.min_x_in.map_or(f64::INFINITY, |min| x_in - min);
        let rearward = place.max_x_in.map_or(f64::INFINITY, |max| max - x_in);
        let floor = place.bound_by.iter().all(|limit| limit == "floor");
        if forward.min(rearward) < FREE_IN && !floor {
            let ways: Vec<String> = [(forward, "forward"), (rearward, "rearward")]
                .into_iter()
                .filter(|(free_in, _)| *free_in < FREE_IN)
                .map(|(free_in, way)| format!("{} in {way}", figure(free_in.max(0.0).floor(), 0)))
                .collect();
            tight.push((forward.min(rearward), format!("{}: at most {}.", name(id), ways.join(", "))));
        }
    }
    tight.sort_by(|a, b| a.0.total_cmp(&b.0));
    let broken = build.parts().filter(|(id, _)| report.no_place.contains_key(*id)).count();
    if broken > 0 {
        guide.text(format!(
            "As it is loaded now, limits are broken wherever a part stands ({} looked at): mend the findings first.",
            counted(broken, "part")
        ));
    } else if tight.is_empty() {
        guide.text(
            "No single part is within a foot of a limit. Heavy things still stay where the shop put them.",
        );
    }
    if !tight.is_empty() {
        guide.text(
            "Moved farther than this, these alone break a limit. Add nothing heavy far ahead of the axles or behind them.",
        );
        let more = tight.len().saturating_sub(FIXED);
        guide.list(tight.into_iter().take(FIXED).map(|(_, line)| line).collect());
        if more > 0 {
            guide.text(format!("And {} more.", figure(more as f64, 0)));
        }
    }
}

/// What the tires are driven at, and what they need.
fn tires(guide: &mut Section, build: &Build, report: &AxleLoadReport) {
    guide.heading("Tires, cold");
    let mut table = Table::new(&[
        ("Axle", Column::Words),
        ("Set to, psi", Column::Figures),
        ("Sidewall, psi", Column::Figures),
        ("Least in any listed state, psi", Column::Figures),
    ]);
    let mut known = false;
    for (id, axle) in build.axles() {
        let needed =
            report.states.values().filter_map(|state| state.axles.get(id)?.needed_psi).reduce(f64::max);
        known |= axle.tire_psi.or(axle.tire_max_load_psi).or(needed).is_some();
        table.row(vec![
            name(id),
            or_none(axle.tire_psi, 0),
            or_none(axle.tire_max_load_psi, 0),
            or_none(needed.map(f64::ceil), 0),
        ]);
    }
    if known {
        guide.table(table);
        guide.text("Check them cold before every trip. Never go below the column at the right, nor above the sidewall.");
    } else {
        guide.text("Not known here: go by the tire label of the trailer and the sidewall.");
    }
}

fn unhitched(guide: &mut Section, report: &AxleLoadReport) {
    let Some(unhitched) = &report.unhitched else { return };
    guide.heading("Loading and standing unhitched");
    let least =
        [unhitched.lift_mass_lb, unhitched.any_fill_lift_mass_lb].into_iter().flatten().reduce(f64::min);
    let lift = match least {
        Some(mass_lb) if unhitched.any_fill_lift_mass_lb.is_some() && unhitched.lift_mass_lb.is_some() => {
            format!("Unhitched, {} lb at the tail can lift the tongue.", lb(mass_lb.floor()))
        }
        _ => "Unhitched, it can stand on its tail by itself.".to_owned(),
    };
    guide.text(format!(
        "{lift} Load the toy with the trailer hitched, the parking brake set, the wheels chocked and the rear stabilizers down."
    ));
}
