//! The report for people.

use std::fmt::{self, Write};

use super::PayloadReport;
use crate::question::Answer;
use crate::report::{Assumption, Caution, Finding, figure, fixed, percent_fixed};
use crate::text::{Table, heading};

impl Answer for PayloadReport {
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
        writeln!(out, "PAYLOAD")?;
        let mut masses = Table::new(&["", "lb"]);
        for (name, mass) in [
            ("bare trailer", self.bare_mass_lb),
            ("parts", self.parts_mass_lb),
            ("unloaded, propane full", self.unloaded_mass_lb),
            ("rating (GVWR)", self.gvwr_lb),
        ] {
            masses.row(vec![name.to_owned(), fixed(mass, 1)]);
        }
        masses.write(out)?;

        heading(out, "Loading states, lb")?;
        let mut states = Table::new(&["", "liquids", "cargo", "gross", "left", "of GVWR", "may be off"]);
        for (id, state) in &self.states {
            states.row(vec![
                if state.moving { id.clone() } else { format!("{id} (parked)") },
                fixed(state.fluids_lb, 1),
                fixed(state.cargo_lb, 1),
                fixed(state.gross_mass_lb, 1),
                fixed(state.payload_left_lb, 1),
                percent_fixed(state.gvwr_fraction),
                format!("± {}", fixed(state.band.worst_lb, 1)),
            ]);
        }
        states.write(out)?;
        let without = self.states.values().map(|state| state.band.without_tolerance_count).max();
        if let Some(count) = without.filter(|count| *count > 0) {
            let masses = if count == 1 { "mass gives" } else { "masses give" };
            writeln!(out, "  {count} {masses} no tolerance and may be off by more than this")?;
        }

        if !self.heaviest.is_empty() {
            heading(out, "Heaviest parts, lb")?;
            let mut parts = Table::new(&["", "mass", "of GVWR"]);
            for part in &self.heaviest {
                parts.row(vec![part.part.clone(), fixed(part.mass_lb, 1), percent_fixed(part.gvwr_fraction)]);
            }
            parts.write(out)?;
        }

        if self.categories.len() > 1 {
            heading(out, "Parts by category, lb")?;
            let mut categories = Table::new(&["", "mass", "of GVWR"]);
            for category in &self.categories {
                categories.row(vec![
                    category.category.clone(),
                    fixed(category.mass_lb, 1),
                    percent_fixed(category.gvwr_fraction),
                ]);
            }
            categories.write(out)?;
        }

        heading(out, "Cargo capacity label")?;
        let label = &self.label;
        writeln!(
            out,
            "  cargo {} lb ({} kg), rounded down; a full load of water {} lb ({} kg) at the label's densities",
            figure(label.cargo_capacity_lb, 0),
            figure(label.cargo_capacity_kg, 0),
            figure(label.water_lb, 1),
            figure(label.water_kg, 1),
        )?;

        for (id, found) in &self.reconciliation {
            heading(out, &format!("On the scale in state {id}"))?;
            write!(out, "  listed {} lb", figure(found.listed_lb, 1))?;
            if let (Some(measured), Some(more)) = (found.measured_lb, found.unaccounted_lb) {
                write!(out, ", measured {} lb, ", figure(measured, 1))?;
                write!(out, "unaccounted {} ± {} lb", figure(more, 1), figure(found.tolerance_lb, 1))?;
            }
            if let (Some(x), Some(off)) = (found.x_in, found.x_tolerance_in) {
                write!(out, ", at {} ± {} in behind the ball", figure(x, 0), figure(off, 0))?;
            }
            writeln!(out)?;
        }
        Ok(())
    }
}
