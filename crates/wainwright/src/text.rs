//! Plain text for people: headings, aligned tables, findings.

use std::fmt::{self, Write};

use crate::report::{Assumption, Caution, Finding};

/// A table with aligned columns: the first to the left, the others to the right.
pub(crate) struct Table {
    rows: Vec<Vec<String>>,
}

impl Table {
    /// A table with these column heads.
    pub(crate) fn new(heads: &[&str]) -> Self {
        Self { rows: vec![heads.iter().map(|&head| head.to_owned()).collect()] }
    }

    /// Adds a row.
    pub(crate) fn row(&mut self, cells: Vec<String>) {
        self.rows.push(cells);
    }

    /// Writes it.
    pub(crate) fn write(&self, out: &mut dyn Write) -> fmt::Result {
        let columns = self.rows.iter().map(Vec::len).max().unwrap_or(0);
        let widths: Vec<usize> = (0..columns).map(|column| self.width(column)).collect();
        for row in &self.rows {
            let mut line = String::from(" ");
            for (i, (cell, width)) in row.iter().zip(&widths).enumerate() {
                match i {
                    0 => _ = write!(line, " {cell:<width$}"),
                    _ => _ = write!(line, "  {cell:>width$}"),
                }
            }
            writeln!(out, "{}", line.trim_end())?;
        }
        Ok(())
    }

    fn width(&self, column: usize) -> usize {
        self.rows.iter().filter_map(|row| row.get(column)).map(|cell| cell.chars().count()).max().unwrap_or(0)
    }
}

/// A heading.
pub(crate) fn heading(out: &mut dyn Write, text: &str) -> fmt::Result {
    writeln!(out, "\n{text}")
}

/// Findings, assumptions and cautions: how every report ends.
pub(crate) fn ending(
    out: &mut dyn Write,
    findings: &[Finding],
    assumptions: &[Assumption],
    cautions: &[Caution],
) -> fmt::Result {
    heading(out, "Findings")?;
    if findings.is_empty() {
        writeln!(out, "  none")?;
    }
    for finding in findings {
        writeln!(out, "  {}: {}", finding.severity.word(), finding.message)?;
        writeln!(out, "      {}", finding.remedy)?;
        writeln!(out, "      {} ({}; {})", finding.code, finding.subject, finding.citation)?;
    }
    if !assumptions.is_empty() {
        heading(out, "Assumed, because the build does not say")?;
        write_assumptions(out, assumptions)?;
    }
    heading(out, "Cautions")?;
    cautions.iter().try_for_each(|caution| writeln!(out, "  {}", caution.text))
}

/// Assumptions with the same value and reason stand together.
fn write_assumptions(out: &mut dyn Write, assumptions: &[Assumption]) -> fmt::Result {
    let mut done = vec![false; assumptions.len()];
    for (i, first) in assumptions.iter().enumerate() {
        if done[i] {
            continue;
        }
        let alike = |other: &Assumption| other.reason == first.reason && other.value == first.value;
        let mut pointers = Vec::new();
        for (j, other) in assumptions.iter().enumerate().skip(i).filter(|(_, other)| alike(other)) {
            done[j] = true;
            pointers.push(other.pointer.as_str());
        }
        let value = serde_json::to_string(&first.value).unwrap_or_default();
        let unit = first.unit.map(|unit| format!(" {unit}")).unwrap_or_default();
        let shown = match pointers.as_slice() {
            [one] => (*one).to_owned(),
            [first, .., last] => format!("{first} .. {last} ({} places)", pointers.len()),
            [] => String::new(),
        };
        writeln!(out, "  {shown}: {}{unit}, {} ({})", value.trim_matches('"'), first.reason, first.citation)?;
    }
    Ok(())
}
