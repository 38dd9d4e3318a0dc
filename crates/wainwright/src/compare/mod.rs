//! Two builds side by side: what changed in the document, and what it did to every figure and finding.
//!
//! # Example
//!
//! ```
//! use wainwright::compare::Compare;
//! use wainwright::operation::Operation;
//!
//! let report = Compare::answer(Compare::example().to_string().as_bytes(), &Default::default()).unwrap();
//! assert_eq!(report.changes[0].pointer, "/parts/galley/mass_lb");
//! let left = report.figures.iter().find(|figure| figure.path == "margins.payload_left_lb").unwrap();
//! assert!((left.difference.unwrap() + 850.0).abs() < 1e-9);
//! ```

mod document;
mod figures;
mod findings;
mod report;
mod request;
#[cfg(test)]
mod tests;
mod words;

pub use report::{CompareReport, DocumentChange, FigureChange, FindingChange, VerdictChange, WordChange};
pub use request::CompareRequest;

use serde_json::{Value, json};

use crate::build::Build;
use crate::document::schema::Definitions;
use crate::document::{Record, Refusal, read};
use crate::evaluate::{Evaluate, EvaluateReport};
use crate::inner_build;
use crate::named_files::NamedFiles;
use crate::operation::Operation;
use crate::question::{Answer, Question};
use crate::report::Engine;

/// The operation: what do two builds differ in?
#[derive(Debug, Clone, Copy)]
pub struct Compare;

impl Operation for Compare {
    const NAME: &'static str = "compare";
    const PATH: &'static str = "compare";
    const SUMMARY: &'static str = "Two builds side by side: what changed, and what it did";
    const DESCRIPTION: &'static str = "Puts every question to two builds. Answers with what changed in the document, with every \
        figure of the answers that differs and the findings that went, came or changed, and with a summary for people. Of \
        figures that stand in each item of a list, such as those of hours and months, the one with the greatest difference \
        stands for all.";
    const MAY_TAKE_LONG: bool = true;
    type Answer = CompareReport;

    fn request_schema(definitions: &mut Definitions) -> Value {
        CompareRequest::schema(definitions)
    }

    fn example() -> Value {
        let build = |galley_lb: f64| {
            json!({
                "trailer": {"gvwr_lb": 3500, "bare": {"mass_lb": 2180}},
                "parts": {"galley": {"mass_lb": galley_lb}, "bench": {"mass_lb": 86}},
                "cargo": {"trail_bike": {"mass_lb": 265}},
            })
        };
        json!({"before": build(165.0), "after": build(1015.0)})
    }

    fn answer(json: &[u8], named_files: &NamedFiles) -> Result<CompareReport, Refusal> {
        let files = &named_files.weather;
        let (request, mut faults) = read::<CompareRequest>(json)?;
        let before = inner_build::read(&request.before, "/before", files, &mut faults);
        let after = inner_build::read(&request.after, "/after", files, &mut faults);
        match (before, after) {
            (Some(before), Some(after)) if faults.is_empty() => Ok(compare(&request, &before, &after)),
            _ => Err(Refusal::Faults(faults.in_document_order(json))),
        }
    }
}

fn compare(request: &CompareRequest, before: &Build, after: &Build) -> CompareReport {
    let (before, after) = (Evaluate::answer(before), Evaluate::answer(after));
    let differences = figures::differences(&written(&before), &written(&after));
    let mut report = CompareReport {
        summary: String::new(),
        verdict: VerdictChange { before: before.verdict.status, after: after.verdict.status },
        changes: document::changes(&request.before, &request.after),
        figures: differences.figures,
        words: differences.words,
        findings_gone: findings::only_in(before.findings(), after.findings()),
        findings_new: findings::only_in(after.findings(), before.findings()),
        findings_changed: findings::changed(before.findings(), after.findings()),
        engine: Engine::THIS,
    };
    report.summary = words::summary(&report);
    report
}

/// The answer as JSON. It is an object of plain values: it can always be written.
fn written(report: &EvaluateReport) -> Value {
    serde_json::to_value(report).unwrap_or_default()
}
