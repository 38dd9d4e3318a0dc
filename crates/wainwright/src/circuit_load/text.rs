//! The report for people.

use std::fmt::{self, Write};

use super::report::{CircuitLoadReport, ModeLoad};
use crate::question::Answer;
use crate::report::{Finding, figure, fixed, percent, percent_fixed};
use crate::text::{Table, ending, heading};

/// So many conflicts and sets of a mode are printed.
const PRINTED: usize = 12;

impl Answer for CircuitLoadReport {
    fn findings(&self) -> &[Finding] {
        &self.findings
    }

    fn write_text(&self, out: &mut dyn Write) -> fmt::Result {
        writeln!(out, "CIRCUIT LOAD")?;
        let heads = ["", "carries A", "made for A", "wire may A", "lost", "smallest AWG", "by", "in mode"];
        let mut circuits = Table::new(&heads).words_from(5);
        for (id, circuit) in &self.circuits {
            circuits.row(vec![
                id.clone(),
                fixed(circuit.current_a, 2),
                fixed(circuit.required_a, 2),
                circuit.ampacity_a.map_or("-".to_owned(), |a| fixed(a, 1)),
                circuit.drop_fraction.map_or("-".to_owned(), share),
                circuit.smallest_awg.unwrap_or("none does").to_owned(),
                circuit.bound_by.map_or("-", super::conductor::BoundBy::word).to_owned(),
                circuit.mode.clone().unwrap_or("never fed".to_owned()),
            ]);
        }
        circuits.write(out)?;
        for (id, mode) in &self.modes {
            write_mode(out, id, mode)?;
        }
        self.write_battery_and_solar(out)?;
        ending(out, &self.findings, &self.assumptions, self.cautions)
    }
}

/// A share of the voltage: drops are small, so with two places.
fn share(fraction: f64) -> String {
    format!("{} %", fixed(fraction * 100.0, 2))
}

fn write_mode(out: &mut dyn Write, id: &str, mode: &ModeLoad) -> fmt::Result {
    heading(out, &format!("In mode {id}"))?;
    let mut sources =
        Table::new(&["source", "all on A", "for hours A", "at its bus V", "on average A", "trip risk"]);
    for (id, source) in &mode.sources {
        sources.row(vec![
            id.clone(),
            fixed(source.current_a, 2),
            source.limit_a.map_or("-".to_owned(), |a| fixed(a, 1)),
            source.bus_v.map_or("collapses".to_owned(), |v| fixed(v, 2)),
            fixed(source.expected_a, 2),
            source.trip_risk.map_or("-".to_owned(), percent_fixed),
        ]);
    }
    sources.write(out)?;
    for (id, source) in &mode.sources {
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
            writeln!(
                out,
                "  {id} takes {} W, {} A at the voltage at which it shuts off",
                figure(input_w, 0),
                figure(input_a, 1)
            )?;
        }
    }
    let mut circuits = Table::new(&["circuit", "from", "A", "lost V", "lost", "in all", "arrives V"]);
    for (id, circuit) in &mode.circuits {
        circuits.row(vec![
            id.clone(),
            circuit.source.clone(),
            fixed(circuit.current_a, 2),
            circuit.drop_v.map_or("-".to_owned(), |v| fixed(v, 3)),
            circuit.drop_fraction.map_or("-".to_owned(), share),
            circuit.total_drop_fraction.map_or("-".to_owned(), share),
            circuit.arriving_v.map_or("collapses".to_owned(), |v| fixed(v, 2)),
        ]);
    }
    circuits.write(out)?;
    write_sets(out, "not together", &mode.conflicts, mode.conflict_count)?;
    if mode.conflict_count > 0 {
        // What may always run goes without saying.
        let restricted = |set: &Vec<String>| -> Vec<String> {
            set.iter().filter(|part| !mode.unrestricted.contains(part)).cloned().collect()
        };
        let largest: Vec<Vec<String>> = mode.largest_sets.iter().take(PRINTED).map(restricted).collect();
        write_sets(out, "together at most", &largest, mode.largest_set_count)?;
        writeln!(out, "  best: {}", restricted(&mode.best_set).join(" + "))?;
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
                "  {id}: {} cold, {} hot; {} at most, made for {}; {} AWG, {} lost",
                figure_or(array.cold_voltage_v, "V"),
                figure_or(array.hot_voltage_v, "V"),
                figure_or(array.most_current_a, "A"),
                figure_or(array.required_a, "A"),
                array.smallest_awg.unwrap_or("-"),
                array.drop_fraction.map_or("-".to_owned(), percent),
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
