//! The circuit directory: what is on each circuit, what guards it, and what cannot run together.

use super::model::{Column, Section, Table};
use super::words::{NONE, family, name, names, not_worked_out, or_none};
use crate::build::{Build, Circuit};
use crate::circuit_load::{CircuitLoadReport, ModeLoad};
use crate::evaluate::EvaluateReport;
use crate::report::{figure, fixed, percent};

/// So many sets of a mode are printed.
const PRINTED: usize = 10;

/// The directory.
pub fn section(build: &Build, report: &EvaluateReport) -> Section {
    let mut directory = Section::new("Circuit directory");
    let Some(circuit_load) = &report.circuit_load else {
        directory.text(not_worked_out(report, "circuit_load"));
        return directory;
    };
    directory.text(
        "Amperes are with everything on the circuit running. Replace a breaker or fuse only with one of the same rating. \
         Line-voltage work is for a licensed electrician.",
    );
    directory.heading("Every circuit");
    directory.table(every_circuit(build, circuit_load));
    for (id, mode) in &circuit_load.modes {
        of_mode(&mut directory, id, mode, circuit_load);
    }
    directory
}

fn every_circuit(build: &Build, report: &CircuitLoadReport) -> Table {
    let mut table = Table::new(&[
        ("Circuit", Column::Words),
        ("On it", Column::Words),
        ("Breaker or fuse", Column::Words),
        ("Wire, AWG", Column::Figures),
        ("Least that does", Column::Figures),
    ]);
    for (id, circuit) in build.circuits() {
        let summary = report.circuits.get(id);
        table.row(vec![
            name(id),
            on_it(build, id),
            device(circuit),
            summary.and_then(|one| one.awg).unwrap_or(NONE).to_owned(),
            summary.and_then(|one| one.smallest_awg).unwrap_or(NONE).to_owned(),
        ]);
    }
    table
}

/// Parts, inverters and further circuits that a circuit feeds.
fn on_it(build: &Build, id: &str) -> String {
    let parts = build.draws().filter(|(_, draw)| draw.circuit == id).map(|(part, _)| name(part));
    let sources = build
        .sources()
        .filter(|(_, source)| source.circuit.as_deref() == Some(id))
        .map(|(source, _)| name(source));
    let fed: Vec<String> = build
        .circuits()
        .filter(|(_, circuit)| circuit.feeder.as_deref() == Some(id))
        .map(|(other, _)| name(other))
        .collect();
    let fed = (!fed.is_empty()).then(|| format!("feeds {}", fed.join(", ")));
    let all: Vec<String> = parts.chain(sources).chain(fed).collect();
    if all.is_empty() { "nothing listed".to_owned() } else { all.join(", ") }
}

fn device(circuit: &Circuit) -> String {
    let kind = circuit.device.map_or("breaker or fuse".to_owned(), family);
    circuit.breaker_a.map_or_else(|| NONE.to_owned(), |rating_a| format!("{} A {kind}", figure(rating_a, 1)))
}

fn of_mode(directory: &mut Section, id: &str, mode: &ModeLoad, report: &CircuitLoadReport) {
    directory.heading(format!("Supply: {}", name(id)));
    let mut sources = Table::new(&[
        ("Source", Column::Words),
        ("All on, A", Column::Figures),
        ("May give for hours, A", Column::Figures),
        ("Mean of the day, A", Column::Figures),
        ("At the panel, V", Column::Figures),
    ]);
    for (source, load) in &mode.sources {
        sources.row(vec![
            name(source),
            fixed(load.current_a, 1),
            or_none(load.limit_a, 1),
            fixed(load.expected_a, 1),
            load.bus_v.map_or("collapses".to_owned(), |bus_v| fixed(bus_v, 1)),
        ]);
    }
    directory.table(sources);
    let mut circuits = Table::new(&[
        ("Circuit", Column::Words),
        ("Fed by", Column::Words),
        ("All on, A", Column::Figures),
        ("Lost on the way", Column::Figures),
        ("Arrives, V", Column::Figures),
    ]);
    for (circuit, load) in &mode.circuits {
        circuits.row(vec![
            name(circuit),
            name(&load.source),
            fixed(load.current_a, 1),
            load.total_drop_fraction.or(load.drop_fraction).map_or_else(|| NONE.to_owned(), percent),
            load.arriving_v.map_or("collapses".to_owned(), |arriving_v| fixed(arriving_v, 1)),
        ]);
    }
    directory.table(circuits);
    directory.list(together(mode));
    let off = report.circuits.keys().filter(|circuit| !mode.circuits.contains_key(*circuit));
    let off = names(off);
    if !off.is_empty() {
        directory.text(format!("Off in this supply: {off}."));
    }
}

/// What cannot run together, and what has no power.
fn together(mode: &ModeLoad) -> Vec<String> {
    let joined = |set: &Vec<String>| set.iter().map(|part| name(part)).collect::<Vec<_>>().join(" + ");
    let mut lines: Vec<String> =
        mode.conflicts.iter().take(PRINTED).map(|set| format!("Not together: {}.", joined(set))).collect();
    if mode.conflict_count as usize > PRINTED {
        lines.push(format!(
            "And {} more sets that cannot run together.",
            figure(f64::from(mode.conflict_count) - PRINTED as f64, 0)
        ));
    }
    if mode.conflict_count == 0 && !mode.circuits.is_empty() {
        lines.push("Everything may run together.".to_owned());
    } else if mode.conflict_count > 0 {
        let best: Vec<String> =
            mode.best_set.iter().filter(|part| !mode.unrestricted.contains(part)).cloned().collect();
        if !best.is_empty() {
            lines.push(format!("Together at most, what matters most first: {}.", joined(&best)));
        }
        if !mode.unrestricted.is_empty() {
            lines.push(format!("May always run: {}.", names(&mode.unrestricted)));
        }
    }
    if !mode.unpowered.is_empty() {
        lines.push(format!("Without power: {}.", names(&mode.unpowered)));
    }
    lines
}
