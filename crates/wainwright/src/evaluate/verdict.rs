//! What a person reads first.

use super::Verdict;
use crate::report::{Finding, Severity};

/// The verdict by all findings, gravest first.
///
/// - `not_worked_out`  names of the questions that were not worked out
pub fn verdict(findings: &[Finding], not_worked_out: Vec<&'static str>) -> Verdict {
    let count = |severity: Severity| findings.iter().filter(|finding| finding.severity == severity).count();
    let (violations, cautions) = (count(Severity::Violation), count(Severity::Caution));
    let first = findings.first().map_or("", |finding| finding.message.as_str());
    let checked = if not_worked_out.is_empty() { "every rating" } else { "every rating that was checked" };
    let mut sentence = match (violations, cautions) {
        (1.., _) => format!("Not as it is: {}. The gravest: {first}", counted(violations, "violation")),
        (0, 1..) => format!("Within {checked}, with {}. The first: {first}", counted(cautions, "caution")),
        (0, 0) => format!("Within {checked}, without a caution."),
    };
    if !not_worked_out.is_empty() {
        let names: Vec<String> = not_worked_out.iter().map(|name| name.replace('_', " ")).collect();
        sentence = format!("{sentence} Not worked out: {}.", names.join(", "));
    }
    Verdict {
        status: match (violations, cautions) {
            (1.., _) => "violation",
            (0, 1..) => "caution",
            (0, 0) => "clear",
        },
        sentence,
        violation_count: violations as u32,
        caution_count: cautions as u32,
        note_count: count(Severity::Note) as u32,
        not_worked_out,
    }
}

/// A count and what is counted.
fn counted(count: usize, noun: &str) -> String {
    if count == 1 { format!("1 {noun}") } else { format!("{count} {noun}s") }
}
