//! Words and figures as the papers write them.

use crate::document::Options;
use crate::evaluate::EvaluateReport;
use crate::report::figure;
use crate::standards::fuse::Family;

/// An id of the build as words.
pub fn name(id: &str) -> String {
    id.replace('_', " ")
}

/// Ids of the build as words, in a row.
pub fn names<'a>(ids: impl IntoIterator<Item = &'a String>) -> String {
    ids.into_iter().map(|id| name(id)).collect::<Vec<_>>().join(", ")
}

/// What stands where there is no figure.
pub const NONE: &str = "-";

/// Whole pounds.
pub fn lb(value: f64) -> String {
    figure(value, 0)
}

/// A figure with so many decimals, or a dash.
pub fn or_none(value: Option<f64>, digits: usize) -> String {
    value.map_or_else(|| NONE.to_owned(), |value| figure(value, digits))
}

/// How many: 1 state, 3 states.
pub fn counted(count: usize, noun: &str) -> String {
    let number = figure(count as f64, 0);
    if count == 1 { format!("{number} {noun}") } else { format!("{number} {noun}s") }
}

/// Hours as people say them.
pub fn time(hours_h: f64) -> String {
    if hours_h < 48.0 {
        format!("{} hours", figure(hours_h, 0))
    } else {
        format!("{} days", figure(hours_h / 24.0, 1))
    }
}

/// What protects a circuit.
pub fn family(family: Family) -> String {
    let word = Family::WORDS.iter().find(|(_, one)| *one == family).map_or(&"", |(word, _)| word);
    let words = match *word {
        "class_t" => "class T".to_owned(),
        "class_j" => "class J".to_owned(),
        "anl" => "ANL".to_owned(),
        word => name(word),
    };
    if words.ends_with("breaker") { words } else { format!("{words} fuse") }
}

/// What is said in place of a question that was not worked out.
pub fn not_worked_out(report: &EvaluateReport, question: &str) -> String {
    let code = format!("{question}_not_worked_out");
    let needs =
        report.findings.iter().find(|finding| finding.code == code).map_or("", |finding| &finding.remedy);
    format!("Not worked out: the build has too little for it. {needs}").trim_end().to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn devices_have_names() {
        assert_eq!(family(Family::Breaker), "breaker");
        assert_eq!(family(Family::ClassT), "class T fuse");
        assert_eq!(family(Family::ThermalBreaker), "thermal breaker");
    }

    #[test]
    fn counts_and_times_are_said_as_people_say_them() {
        assert_eq!((counted(1, "state"), counted(3, "state")), ("1 state".to_owned(), "3 states".to_owned()));
        assert_eq!((time(39.3), time(60.0)), ("39 hours".to_owned(), "2.5 days".to_owned()));
        assert_eq!(name("floor_rubber"), "floor rubber");
    }
}
