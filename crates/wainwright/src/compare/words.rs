//! The comparison for people.

use super::report::{CompareReport, FigureChange};
use crate::report::{Finding, Severity, figure};

/// At most so many findings are named.
const NAMED: usize = 5;

/// The margins by their names for people, and the decimals of each.
const MARGINS: &[(&str, &str, usize)] = &[
    ("margins.payload_left_lb", "Payload left", 1),
    ("margins.tongue_margin_fraction", "The tongue's margin", 4),
    ("margins.autonomy_h", "The battery alone", 1),
    ("margins.cooling_margin_fraction", "The air conditioner's margin", 3),
];

/// The comparison in a few sentences.
pub fn summary(report: &CompareReport) -> String {
    if report.changes.is_empty() {
        return "The two builds are the same.".to_owned();
    }
    let count = report.changes.len();
    let changes = if count == 1 { "1 change".to_owned() } else { format!("{count} changes") };
    let (before, after) = (report.verdict.before, report.verdict.after);
    let verdict = match before == after {
        true => format!("The verdict stays {after}."),
        false => format!("The verdict goes from {before} to {after}."),
    };
    let mut sentences = vec![format!("{changes} in the build."), verdict];
    for (path, name, digits) in MARGINS {
        let change = report.figures.iter().find(|change| change.path == *path);
        sentences.extend(change.and_then(|change| goes(change, name, *digits)));
    }
    if report.figures.is_empty() {
        sentences.push("No figure differs.".to_owned());
    }
    sentences.extend(named("Found anew", &report.findings_new));
    sentences.extend(named("Found no more", &report.findings_gone));
    sentences.join(" ")
}

/// How a margin goes; nothing where it is the same to so many decimals.
fn goes(change: &FigureChange, name: &str, digits: usize) -> Option<String> {
    let unit = change.unit.filter(|unit| *unit != "1").map(|unit| format!(" {unit}")).unwrap_or_default();
    let shown = |value: Option<f64>| {
        value.map_or("nothing".to_owned(), |value| format!("{}{unit}", figure(value, digits)))
    };
    let (before, after) = (shown(change.before), shown(change.after));
    (before != after).then(|| format!("{name} goes from {before} to {after}."))
}

/// Findings by their codes; notes are counted.
fn named(what: &str, findings: &[Finding]) -> Option<String> {
    if findings.is_empty() {
        return None;
    }
    let graver = findings.iter().filter(|finding| finding.severity < Severity::Note);
    let mut codes: indexmap::IndexMap<&str, (Severity, usize)> = indexmap::IndexMap::new();
    graver.for_each(|finding| codes.entry(finding.code).or_insert((finding.severity, 0)).1 += 1);
    let notes = findings.iter().filter(|finding| finding.severity == Severity::Note).count();
    let mut names: Vec<String> = codes
        .iter()
        .take(NAMED)
        .map(|(code, (severity, count))| match count {
            1 => format!("{code} ({})", severity.word()),
            _ => format!("{code} ({count} times, {})", severity.word()),
        })
        .collect();
    if codes.len() > NAMED {
        names.push(format!("{} others", codes.len() - NAMED));
    }
    match notes {
        0 => {}
        1 => names.push("1 note".to_owned()),
        _ => names.push(format!("{notes} notes")),
    }
    Some(format!("{what}: {}.", names.join(", ")))
}
