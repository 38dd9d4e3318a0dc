//! The last pages: cautions, every finding, every assumption, what worked it out.

use super::model::{Block, Column, Note, Section, Table};
use crate::evaluate::EvaluateReport;
use crate::text::grouped;

/// Cautions that say the same in the same words are said once.
fn cautions(report: &EvaluateReport) -> Vec<String> {
    let mut told: Vec<String> = Vec::new();
    for caution in &report.cautions {
        if !told.iter().any(|text| text == caution.text) {
            told.push(caution.text.to_owned());
        }
    }
    told
}

/// The pages.
pub fn section(report: &EvaluateReport) -> Section {
    let mut pages = Section::new("Cautions, findings and assumptions");
    pages.heading("Cautions");
    if report.cautions.is_empty() {
        pages.text("None: nothing was worked out.");
    }
    pages.list(cautions(report));
    pages.heading("Every finding, gravest first");
    let notes: Vec<Note> = report
        .findings
        .iter()
        .map(|finding| Note {
            severity: finding.severity.word(),
            message: finding.message.clone(),
            remedy: finding.remedy.to_string(),
            source: match finding.subject.is_empty() {
                true => format!("{}; {}", finding.code, finding.citation),
                false => format!("{} at {}; {}", finding.code, finding.subject, finding.citation),
            },
        })
        .collect();
    match notes.is_empty() {
        true => pages.text("None."),
        false => pages.blocks.push(Block::Notes(notes)),
    }
    pages.heading("What was assumed, because the list does not say");
    let mut table = Table::new(&[
        ("Where", Column::Place),
        ("Taken", Column::Words),
        ("Why, and where it is from", Column::Words),
    ]);
    for one in grouped(&report.assumptions) {
        table.row(vec![one.places, one.value, format!("{} [{}]", one.reason, one.citation)]);
    }
    match table.rows.is_empty() {
        true => pages.text("Nothing."),
        false => pages.table(table),
    }
    pages.heading("How these papers came about");
    pages.text(format!(
        "Worked out by Wainwright {} from the build as it was handed in. The same build and the same version give the same \
         papers. They are an estimate, not an approval, and no figure here raises a rating: weigh it.",
        report.engine.version
    ));
    pages
}
