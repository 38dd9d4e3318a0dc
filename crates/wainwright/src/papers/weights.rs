//! The weights sheet: every loading state, the label's figures, where things are, and room for the scale's.

use super::model::{Block, Column, Section, Table};
use super::side_view;
use super::words::{NONE, lb, name, names, not_worked_out, or_none};
use crate::axle_load::{AxleLoadReport, StateLoads};
use crate::build::Build;
use crate::evaluate::EvaluateReport;
use crate::loading::Loading;
use crate::payload::PayloadReport;
use crate::report::{figure, percent};

/// The sheet.
pub fn section(build: &Build, report: &EvaluateReport) -> Section {
    let mut sheet = Section::new("Weights");
    match &report.payload {
        Some(payload) => {
            sheet.text(format!(
                "Empty it weighs {} lb: {} lb as bought and {} lb of parts{}. Its rating (GVWR) is {} lb.",
                lb(payload.unloaded_mass_lb),
                lb(payload.bare_mass_lb),
                lb(payload.parts_mass_lb),
                if has_propane(build) { ", with propane full" } else { "" },
                lb(payload.gvwr_lb)
            ));
            sheet.heading("In every loading state");
            sheet.table(states(payload, report.axle_load.as_ref()));
            sheet.list(aboard(build));
        }
        None => sheet.text(not_worked_out(report, "payload")),
    }
    match &report.axle_load {
        Some(axle_load) => {
            sheet.heading("Axles and wheels");
            sheet.table(axles(axle_load));
            if axle_load.states.values().any(|state| state.tow_vehicle.is_some()) {
                sheet.heading("Tow vehicle, coupled");
                sheet.table(tow_vehicle(axle_load));
            }
        }
        None => sheet.text(format!("Tongue and axles: {}", not_worked_out(report, "axle_load"))),
    }
    if let Some(payload) = &report.payload {
        sheet.heading("Figures for the label");
        sheet.table(label(payload));
        if payload.relabel.correction_due {
            sheet.text(format!(
                "{} lb of parts were added. Above {} lb the cargo capacity label that came with the trailer must be corrected \
                 before its first sale.",
                lb(payload.relabel.added_lb),
                lb(payload.relabel.threshold_lb)
            ));
        }
    }
    by_hand(&mut sheet, build, report);
    if let Some(loading) =
        Loading::of(build).filter(|_| build.trailer.as_ref().is_some_and(|t| t.bare.x_in.is_some()))
    {
        sheet.heading("Where the loads are");
        side_view::add(&mut sheet, build, &loading, report.axle_load.as_ref());
    }
    sheet
}

/// Is there propane aboard an empty trailer?
pub fn has_propane(build: &Build) -> bool {
    build.tanks().any(|(_, tank)| tank.fluid.counts_as_unloaded())
}

fn parked(id: &str, moving: bool) -> String {
    if moving { name(id) } else { format!("{} (parked)", name(id)) }
}

fn states(payload: &PayloadReport, axle_load: Option<&AxleLoadReport>) -> Table {
    let mut table = Table::new(&[
        ("State", Column::Words),
        ("Gross, lb", Column::Figures),
        ("Left, lb", Column::Figures),
    ]);
    let first = axle_load.and_then(|report| report.states.values().next());
    if let Some(first) = first {
        table.column("Tongue, lb".to_owned(), Column::Figures);
        table.column("of gross".to_owned(), Column::Figures);
        for axle in first.axles.keys() {
            table.column(format!("Axle {}, lb", name(axle)), Column::Figures);
        }
        if first.jack_lb.is_some() {
            table.column("Jack, lb".to_owned(), Column::Figures);
        }
    }
    for (id, state) in &payload.states {
        let mut row = vec![parked(id, state.moving), lb(state.gross_mass_lb), lb(state.payload_left_lb)];
        if let Some(loads) = axle_load.and_then(|report| report.states.get(id)) {
            row.extend([lb(loads.tongue_lb), percent(loads.tongue_fraction)]);
            row.extend(loads.axles.values().map(|axle| lb(axle.load_lb)));
            row.extend(loads.jack_lb.map(lb));
        }
        row.resize(table.columns.len(), NONE.to_owned());
        table.row(row);
    }
    table
}

/// What is aboard in each state, a line for each.
fn aboard(build: &Build) -> Vec<String> {
    let Some(loading) = Loading::of(build) else { return Vec::new() };
    let line = |state: &crate::loading::LoadingState| {
        let tanks = build
            .tanks()
            .zip(&state.fill)
            .map(|((id, _), fill)| format!("{} {}", name(id), fill_words(*fill)));
        let cargo =
            build.cargo().zip(&state.aboard).filter(|(_, aboard)| **aboard).map(|((id, _), _)| name(id));
        let what: Vec<String> = tanks.chain(cargo).collect();
        let what = if what.is_empty() { "nothing".to_owned() } else { what.join(", ") };
        format!("{}: {what}.", parked(&state.id, state.moving))
    };
    loading.states.iter().map(line).collect()
}

/// How full a tank is, in a word or two.
pub fn fill_words(fill: f64) -> String {
    if fill <= 0.0 {
        "empty".to_owned()
    } else if fill >= 1.0 {
        "full".to_owned()
    } else {
        format!("{} full", percent(fill))
    }
}

fn axles(report: &AxleLoadReport) -> Table {
    let mut table = Table::new(&[
        ("State", Column::Words),
        ("Axle", Column::Words),
        ("Both wheels, lb", Column::Figures),
        ("Left, lb", Column::Figures),
        ("Right, lb", Column::Figures),
        ("of rating", Column::Figures),
        ("Tires need, psi", Column::Figures),
    ]);
    for (id, state) in &report.states {
        for (axle, loads) in &state.axles {
            table.row(vec![
                parked(id, state.moving),
                name(axle),
                lb(loads.load_lb),
                lb(loads.left_lb),
                lb(loads.right_lb),
                percent(loads.gawr_fraction),
                or_none(loads.needed_psi.map(f64::ceil), 0),
            ]);
        }
    }
    table
}

fn tow_vehicle(report: &AxleLoadReport) -> Table {
    let mut table = Table::new(&[
        ("State", Column::Words),
        ("Front axle, lb", Column::Figures),
        ("Rear axle, lb", Column::Figures),
        ("Left of its rating, lb", Column::Figures),
        ("With trailer, lb", Column::Figures),
    ]);
    let with_bars = report.states.values().any(|state| state.with_bars.is_some());
    if with_bars {
        table.column("Front, spring bars, lb".to_owned(), Column::Figures);
        table.column("Rear, spring bars, lb".to_owned(), Column::Figures);
    }
    let row = |id: &String, state: &StateLoads| {
        let tow = state.tow_vehicle?;
        let mut row = vec![
            parked(id, state.moving),
            lb(tow.front_axle_lb),
            lb(tow.rear_axle_lb),
            or_none(tow.payload_left_lb, 0),
            lb(tow.combination_lb),
        ];
        if with_bars {
            let bars = state.with_bars.as_ref();
            row.push(or_none(bars.map(|bars| bars.front_axle_lb), 0));
            row.push(or_none(bars.map(|bars| bars.rear_axle_lb), 0));
        }
        Some(row)
    };
    report.states.iter().filter_map(|(id, state)| row(id, state)).for_each(|row| table.row(row));
    table
}

fn label(payload: &PayloadReport) -> Table {
    let mut table = Table::new(&[("", Column::Words), ("lb", Column::Figures), ("kg", Column::Figures)]);
    let label = &payload.label;
    table.row(vec![
        "Cargo carrying capacity, rounded down".to_owned(),
        figure(label.cargo_capacity_lb, 0),
        figure(label.cargo_capacity_kg, 0),
    ]);
    table.row(vec![
        "A full load of fresh water; print it rounded up".to_owned(),
        figure(label.water_lb, 1),
        figure(label.water_kg, 1),
    ]);
    table
}

/// What the scale showed, to be written in at hand-over.
fn by_hand(sheet: &mut Section, build: &Build, report: &EvaluateReport) {
    let mut form = Section::new("");
    form.heading("What the scale showed at hand-over");
    let lightest = |report: &AxleLoadReport| {
        let states = report.states.iter().min_by(|a, b| a.1.gross_mass_lb.total_cmp(&b.1.gross_mass_lb))?;
        Some((states.0.clone(), states.1.clone()))
    };
    let expected = report.axle_load.as_ref().and_then(lightest);
    form.text(match &expected {
        Some((id, _)) => format!(
            "Weighed level, at the ball height in use. The figures worked out are those of state {}; weigh it so, or write \
             beside it what was aboard.",
            name(id)
        ),
        None => "Weighed level, at the ball height in use.".to_owned(),
    });
    let mut table = Table::new(&[
        ("", Column::Words),
        ("Worked out, lb", Column::Figures),
        ("Scale, lb", Column::Blank),
        ("Left, lb", Column::Blank),
        ("Right, lb", Column::Blank),
    ]);
    let state = expected.as_ref().map(|(_, state)| state);
    let mut row = |what: String, worked_out: Option<f64>| {
        table.row(vec![what, or_none(worked_out, 0), String::new(), String::new(), String::new()]);
    };
    let gross = state
        .map(|state| state.gross_mass_lb)
        .or(report.payload.as_ref().map(|payload| payload.unloaded_mass_lb));
    row("Whole trailer".to_owned(), gross);
    row("Tongue".to_owned(), state.map(|state| state.tongue_lb));
    let axles: Vec<String> = build.axles().map(|(id, _)| id.to_owned()).collect();
    for id in &axles {
        let load = state.and_then(|state| state.axles.get(id)).map(|axle| axle.load_lb);
        row(format!("Axle {}", names([id])), load);
    }
    form.table(table);
    form.blocks.push(Block::Lines(vec![
        "Date, and which scale",
        "Aboard and in the tanks",
        "Weighed by, for the shop",
        "Received by",
    ]));
    sheet.blocks.push(Block::Together(form.blocks));
}
