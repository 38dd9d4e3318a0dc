//! The report for people.

use std::collections::BTreeMap;
use std::fmt::{self, Write};

use super::conductor::BoundBy;
use super::report::{CircuitLoadReport, ModeLoad, SourceLoad};
use crate::question::Answer;
use crate::report::{Assumption, Caution, Finding, figure, fixed, percent, percent_fixed};
use crate::text::{Table, heading};

/// So many conflicts and sets of a mode are printed.
const PRINTED: usize = 12;

impl Answer for CircuitLoadReport {
    fn findings(&self) -> &[Finding] {
        &self.findings
    }

    fn assumptions(&self) -> &[Assumption] {
        &self.assumptions
    }

    fn cautions(&self) -> &[Caution] {
        self.cautions
    }

    fn write_figures(&self, out: &mut dyn Write) -> fmt::Result {
        writeln!(out, "CIRCUIT LOAD")?;
        let heads = [
            "",
            "load A",
            "size for A",
            "breaker A",
            "of at least",
            "wire",
            "good for A",
            "least wire",
            "because of",
        ];
        let mut circuits = Table::new(&heads).words_from(8);
        let amperes = |value: Option<f64>| value.map_or("-".to_owned(), |a| figure(a, 1));
        for (id, circuit) in &self.circuits {
            circuits.row(vec![
                id.clone(),
                fixed(circuit.current_a, 2),
                fixed(circuit.required_a, 2),
                amperes(circuit.breaker_a),
                amperes(circuit.device_a),
                circuit.awg.unwrap_or("-").to_owned(),
                amperes(circuit.ampacity_a),
                if circuit.mode.is_none() { "-" } else { circuit.smallest_awg.unwrap_or("none does") }
                    .to_owned(),
                circuit.bound_by.map_or("-", BoundBy::word).to_owned(),
            ]);
        }
        circuits.write(out)?;
        let mut printed = BTreeMap::new();
        for (id, mode) in &self.modes {
            write_mode(out, id, mode, &mut printed)?;
        }
        self.write_battery_and_solar(out)?;
        Ok(())
    }
}

/// A share of the voltage: drops are small, so with two places.
fn share(fraction: f64) -> String {
    format!("{} %", fixed(fraction * 100.0, 2))
}

/// One mode. Circuits that stand as in an earlier mode are not printed again: `printed` has their rows.
fn write_mode<'r>(
    out: &mut dyn Write,
    id: &str,
    mode: &'r ModeLoad,
    printed: &mut BTreeMap<&'r str, (Vec<String>, String)>,
) -> fmt::Result {
    heading(out, &format!("In mode {id}"))?;
    let mut sources = Table::new(&["source", "load A", "limit A", "mean A", "passes its rating", "bus V"]);
    for (id, source) in &mode.sources {
        sources.row(vec![
            id.clone(),
            fixed(source.current_a, 2),
            source.limit_a.map_or("-".to_owned(), |a| fixed(a, 1)),
            fixed(source.expected_a, 2),
            source.trip_risk.map_or("-".to_owned(), percent_fixed),
            source.bus_v.map_or("collapses".to_owned(), |v| fixed(v, 2)),
        ]);
    }
    sources.write(out)?;
    for (id, source) in &mode.sources {
        write_source(out, id, source)?;
    }
    let heads = ["circuit", "from", "load A", "lost V", "lost", "with what leads to it", "arrives V"];
    let mut circuits = Table::new(&heads);
    let mut as_before: BTreeMap<String, Vec<&str>> = BTreeMap::new();
    let mut any = false;
    for (circuit, load) in &mode.circuits {
        let row = vec![
            circuit.clone(),
            load.source.clone(),
            fixed(load.current_a, 2),
            load.drop_v.map_or("-".to_owned(), |v| fixed(v, 3)),
            load.drop_fraction.map_or("-".to_owned(), share),
            load.total_drop_fraction.map_or("-".to_owned(), share),
            load.arriving_v.map_or("collapses".to_owned(), |v| fixed(v, 2)),
        ];
        match printed.get(circuit.as_str()) {
            Some((before, earlier)) if *before == row => {
                as_before.entry(earlier.clone()).or_default().push(circuit);
            }
            _ => {
                circuits.row(row.clone());
                printed.insert(circuit, (row, id.to_owned()));
                any = true;
            }
        }
    }
    if any {
        circuits.write(out)?;
    }
    for (earlier, circuits) in as_before {
        writeln!(out, "  as in {earlier}: {}", circuits.join(", "))?;
    }
    write_together(out, mode)
}

fn write_source(out: &mut dyn Write, id: &str, source: &SourceLoad) -> fmt::Result {
    if let Some(legs) = &source.legs {
        writeln!(
            out,
            "  {id}: leg a {} A, leg b {} A, neutral {} A{}",
            figure(legs.a_a, 2),
            figure(legs.b_a, 2),
            figure(legs.neutral_a, 2),
            if legs.in_phase { " (in phase)" } else { "" }
        )?;
    }
    if let (Some(input_w), Some(input_a)) = (source.input_w, source.input_a) {
        let (input_w, input_a) = (figure(input_w, 0), figure(input_a, 1));
        writeln!(out, "  {id} takes {input_w} W, {input_a} A at the voltage at which it shuts off")?;
    }
    Ok(())
}

/// What may run together, and what has no power.
fn write_together(out: &mut dyn Write, mode: &ModeLoad) -> fmt::Result {
    write_sets(out, "not together", &mode.conflicts, mode.conflict_count)?;
    if mode.conflict_count > 0 {
        let restricted = |set: &Vec<String>| -> Vec<String> {
            set.iter().filter(|part| !mode.unrestricted.contains(part)).cloned().collect()
        };
        let largest: Vec<Vec<String>> = mode.largest_sets.iter().take(PRINTED).map(restricted).collect();
        write_sets(out, "together at most", &largest, mode.largest_set_count)?;
        writeln!(out, "  by their priorities first: {}", restricted(&mode.best_set).join(" + "))?;
        if !mode.unrestricted.is_empty() {
            writeln!(out, "  all other parts with power may run beside them")?;
        }
    }
    if !mode.sets_exact {
        writeln!(out, "  Conflicts of more than a few parts were not looked for: too many parts.")?;
    }
    if !mode.unpowered.is_empty() {
        writeln!(out, "  without power: {}", mode.unpowered.join(", "))?;
    }
    Ok(())
}

fn write_sets(out: &mut dyn Write, words: &str, sets: &[Vec<String>], count: u32) -> fmt::Result {
    for set in sets.iter().take(PRINTED) {
        writeln!(out, "  {words}: {}", set.join(" + "))?;
    }
    let more = count as usize - sets.len().min(PRINTED);
    if more > 0 { writeln!(out, "  and {more} more such sets") } else { Ok(()) }
}

impl CircuitLoadReport {
    fn write_battery_and_solar(&self, out: &mut dyn Write) -> fmt::Result {
        if let Some(battery) = &self.battery {
            heading(out, "Battery")?;
            writeln!(
                out,
                "  a short circuit at its terminals draws {} A ({} V behind {} mΩ)",
                figure(battery.fault_a, 0),
                figure(battery.open_circuit_v, 1),
                figure(battery.resistance_mohm, 2)
            )?;
        }
        let Some(solar) = &self.solar else { return Ok(()) };
        heading(out, "Solar wiring")?;
        let figure_or = |value: Option<f64>, unit: &str| {
            value.map_or("-".to_owned(), |v| format!("{} {unit}", figure(v, 1)))
        };
        for (id, array) in &solar.arrays {
            writeln!(
                out,
                "  {id}: {} cold, {} hot; {} at most, made for {}; {} AWG{}",
                figure_or(array.cold_voltage_v, "V"),
                figure_or(array.hot_voltage_v, "V"),
                figure_or(array.most_current_a, "A"),
                figure_or(array.required_a, "A"),
                array.smallest_awg.unwrap_or("-"),
                array.drop_fraction.map_or(String::new(), |lost| format!(", {} lost", percent(lost))),
            )?;
        }
        if let Some(controller) = &solar.controller {
            writeln!(
                out,
                "  controller: {} A to the battery, made for {} A; {} AWG",
                figure(controller.output_a, 1),
                figure(controller.required_a, 1),
                controller.smallest_awg.unwrap_or("-")
            )?;
        }
        Ok(())
    }
}
