//! Plain text for people: headings, aligned tables, findings.

use std::fmt::{self, Write};

use crate::report::{AssumedValue, Assumption, Caution, Finding, figure};

/// A table with aligned columns: the first and those of words to the left, those of figures to the right.
pub(crate) struct Table {
    rows: Vec<Vec<String>>,
    words_from: usize,
}

impl Table {
    /// A table with these column heads; all but the first hold figures.
    pub(crate) fn new(heads: &[&str]) -> Self {
        Self { rows: vec![heads.iter().map(|&head| head.to_owned()).collect()], words_from: usize::MAX }
    }

    /// The same table; the columns from this index on hold words.
    pub(crate) fn words_from(mut self, column: usize) -> Self {
        self.words_from = column;
        self
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
            let mut line = String::new();
            for (i, (cell, width)) in row.iter().zip(&widths).enumerate() {
                match i == 0 || i >= self.words_from {
                    true => _ = write!(line, "  {cell:<width$}"),
                    false => _ = write!(line, "  {cell:>width$}"),
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
        writeln!(out, "      {} at {} [{}]", finding.code, finding.subject, finding.citation)?;
    }
    if !assumptions.is_empty() {
        heading(out, "Assumed, because the build does not say")?;
        write_assumptions(out, assumptions)?;
    }
    heading(out, "Cautions")?;
    cautions.iter().try_for_each(|caution| writeln!(out, "  {}", caution.text))
}

fn write_assumptions(out: &mut dyn Write, assumptions: &[Assumption]) -> fmt::Result {
    grouped(assumptions).iter().try_for_each(|one| {
        writeln!(out, "  {}: {}; {} [{}]", one.places, one.value, one.reason, one.citation)
    })
}

/// Assumptions with the same value and reason, as they are told.
pub(crate) struct Grouped {
    /// Where the caller would say it; `*` stands where the places differ.
    pub places: String,
    /// What was taken, with its unit.
    pub value: String,
    /// Why this value.
    pub reason: &'static str,
    /// Where it is from.
    pub citation: &'static str,
}

/// Assumptions with the same value and reason stand together.
pub(crate) fn grouped(assumptions: &[Assumption]) -> Vec<Grouped> {
    let mut groups = Vec::new();
    let mut done = vec![false; assumptions.len()];
    for (i, first) in assumptions.iter().enumerate() {
        if done[i] {
            continue;
        }
        let alike = |other: &Assumption| {
            (other.reason, &other.value, other.unit, other.citation)
                == (first.reason, &first.value, first.unit, first.citation)
                && of_one_shape(&other.pointer, &first.pointer)
        };
        let mut pointers = Vec::new();
        for (j, other) in assumptions.iter().enumerate().skip(i).filter(|(_, other)| alike(other)) {
            done[j] = true;
            pointers.push(other.pointer.as_str());
        }
        let unit = first.unit.filter(|unit| *unit != "fraction");
        let unit = unit.map(|unit| format!(" {unit}")).unwrap_or_default();
        groups.push(Grouped {
            places: places(&pointers),
            value: format!("{}{unit}", shown(&first.value)),
            reason: first.reason,
            citation: first.citation,
        });
    }
    groups
}

fn shown(value: &AssumedValue) -> String {
    match value {
        AssumedValue::Number(number) => figure(*number, 3),
        AssumedValue::Word(word) => word.to_string(),
        AssumedValue::Flag(flag) => flag.to_string(),
    }
}

/// Do two pointers name the same field at the same depth?
fn of_one_shape(a: &str, b: &str) -> bool {
    a.split('/').count() == b.split('/').count() && a.rsplit('/').next() == b.rsplit('/').next()
}

/// Pointers in one: `*` stands where they differ.
fn places(pointers: &[&str]) -> String {
    let [first, others @ ..] = pointers else { return String::new() };
    if others.is_empty() {
        return (*first).to_owned();
    }
    let mut tokens: Vec<&str> = first.split('/').collect();
    for other in others {
        let other: Vec<&str> = other.split('/').collect();
        tokens.truncate(other.len());
        for (token, _) in tokens.iter_mut().zip(other).filter(|(token, other)| **token != *other) {
            *token = "*";
        }
    }
    format!("{} ({} places)", tokens.join("/"), pointers.len())
}

const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

/// The name of a month, 1 to 12.
pub(crate) fn month_name(month: u32) -> &'static str {
    MONTHS[(month as usize + 11) % 12]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_stand_to_the_right_and_words_to_the_left() {
        let mut table = Table::new(&["", "lb", "because of"]).words_from(2);
        table.row(vec!["atv".into(), "690".into(), "gvwr".into()]);
        table.row(vec!["canoe".into(), "1,070.5".into(), "floor".into()]);
        let mut text = String::new();
        table.write(&mut text).unwrap();
        assert_eq!(text, "              lb  because of\n  atv        690  gvwr\n  canoe  1,070.5  floor\n");
    }

    #[test]
    fn like_assumptions_stand_together() {
        assert_eq!(places(&["/parts/a/quantity"]), "/parts/a/quantity");
        assert_eq!(places(&["/parts/a/x_in", "/parts/b/x_in"]), "/parts/*/x_in (2 places)");
        assert_eq!(places(&["/parts/a/x_in", "/cargo/b/x_in", "/trailer/bare/x_in"]), "/*/*/x_in (3 places)");
    }

    #[test]
    fn assumed_values_read_as_figures() {
        assert_eq!(shown(&1_500_000.0.into()), "1,500,000");
        assert_eq!(shown(&0.44.into()), "0.44");
        assert_eq!(shown(&true.into()), "true");
        assert_eq!(shown(&"direct".into()), "direct");
    }

    #[test]
    fn a_report_without_findings_says_none() {
        let mut text = String::new();
        ending(&mut text, &[], &[], &[Caution { code: "c", text: "Weigh it." }]).unwrap();
        assert_eq!(text, "\nFindings\n  none\n\nCautions\n  Weigh it.\n");
    }
}
