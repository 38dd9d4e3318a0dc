//! The answer for people.

use super::report::{SolveReport, SolveSpan};
use super::request::Until;
use super::target::{Must, Target, Wanted};
use super::trials::Trials;
use crate::report::{Finding, Severity, figure};

/// It holds for all values looked at.
pub const EVERYWHERE: &str = "It holds for every value of the range that was looked at.";
/// It holds for none.
pub const NOWHERE: &str = "It holds for no value of the range that was looked at.";
/// The figure is above or below throughout.
pub const NEVER_EQUAL: &str =
    "The figure comes past what is asked for nowhere in the range that was looked at.";
/// The figure jumps.
pub const JUMPS: &str = "The figure jumps past what is asked for: no value of the input gives it.";
/// The figure does not change.
pub const NO_MATTER: &str = "The figure does not depend on this input.";

/// Decimals that leave a figure five digits or so.
fn digits(value: f64) -> i32 {
    match value.abs() {
        100.0.. => 2,
        1.0.. => 3,
        0.001.. => 5,
        _ => 8,
    }
}

/// A figure with five digits or so.
fn shown(value: f64) -> String {
    figure(value, digits(value) as usize)
}

/// A value with five digits or so, rounded to the side on which it holds.
fn shown_within(value: f64, holds: &str) -> String {
    let digits = digits(value);
    let scaled = value * 10.0_f64.powi(digits);
    // A figure that is round but for its last bits is that figure.
    let rounded = match holds {
        _ if (scaled - scaled.round()).abs() < 1e-6 => scaled.round(),
        "at_most" => scaled.floor(),
        "at_least" => scaled.ceil(),
        _ => scaled.round(),
    };
    figure(rounded / 10.0_f64.powi(digits), digits as usize)
}

fn with_unit(value: f64, unit: Option<&str>) -> String {
    unit_after(shown(value), unit)
}

fn unit_after(shown: String, unit: Option<&str>) -> String {
    match unit {
        None | Some("1" | "fraction") => shown,
        Some(unit) => format!("{shown} {unit}"),
    }
}

/// What is to hold, as in "payload.states.outbound.payload_left_lb is 0 lb or more".
fn wanted(target: &Target) -> String {
    let unit = target.unit();
    match &target.wanted {
        Wanted::Figure { figure, must, limit } => {
            let limit = with_unit(*limit, unit);
            let bound = match must {
                Must::AtLeast => format!("{limit} or more"),
                Must::AtMost => format!("{limit} or less"),
                Must::Equal => limit,
            };
            format!("{} is {bound}", path(target, &figure.keys))
        }
        Wanted::Finding { code, subject, until } => {
            let about = subject.as_ref().map(|subject| format!(" about {subject}")).unwrap_or_default();
            match until {
                Until::Gone => format!("{code}{about} is not found"),
                Until::Appears => format!("{code}{about} is found"),
            }
        }
    }
}

fn path(target: &Target, keys: &[String]) -> String {
    let keys = keys.join(".");
    let is_named =
        target.question.name == "evaluate" && ["margins", "verdict"].iter().any(|own| keys.starts_with(own));
    if is_named { keys } else { format!("{}.{keys}", target.question.name) }
}

/// The answer in a sentence or two.
pub fn summary(report: &SolveReport, target: &Target) -> String {
    let wanted = wanted(target);
    let (input, unit) = (&report.vary, report.unit);
    let now = match report.present.value {
        Some(value) => format!("; it is {} now", with_unit(value, unit)),
        None => String::new(),
    };
    let (low, high) = (with_unit(report.searched.low, unit), with_unit(report.searched.high, unit));
    let (Some(value), Some(holds)) = (report.value, report.holds) else {
        let reason = report.reason.unwrap_or_default();
        return format!("For {input} from {low} to {high}{now}: {wanted}? {reason}");
    };
    let value = unit_after(shown_within(value, holds), unit);
    let needed = match holds {
        "at_most" => format!("{input} may be {value} at most"),
        "at_least" => format!("{input} must be {value} or more"),
        _ => format!("{input} must be {value}"),
    };
    let mut sentence = format!("{needed}, so that {wanted}{now}.");
    if report.spans.len() > 1 && !target.is_equal() {
        let spans: Vec<String> = report.spans.iter().take(5).map(|span| between(span, unit)).collect();
        sentence.push_str(&format!(" It holds in {} spans: {}", report.spans.len(), spans.join("; ")));
        sentence.push_str(if report.spans.len() > 5 { "; and so on." } else { "." });
    } else if let [span] = report.spans.as_slice()
        && span.low > report.searched.low
        && span.high < report.searched.high
    {
        sentence.push_str(&format!(" It holds from {}.", between(span, unit)));
    }
    let is_target =
        |finding: &Finding| matches!(&target.wanted, Wanted::Finding { code, .. } if finding.code == code);
    let others = report.brings.iter().filter(|finding| !is_target(finding));
    let graver = others.filter(|finding| finding.severity < Severity::Note);
    let codes: Vec<&str> = graver.map(|finding| finding.code).take(5).collect();
    if !codes.is_empty() {
        sentence.push_str(&format!(" With it these are found that are not found now: {}.", codes.join(", ")));
    }
    sentence
}

fn between(span: &SolveSpan, unit: Option<&str>) -> String {
    format!("{} to {}", shown(span.low), with_unit(span.high, unit))
}

/// What else there is to know: what was refused, and where there is no figure.
pub fn notes(trials: &Trials, low: f64, high: f64, unit: Option<&str>) -> Vec<String> {
    let mut notes = Vec::new();
    for (end, above) in [(low, false), (high, true)] {
        if let Some((value, refusal)) = trials.refused_beside(end, above)
            && (*value < low || *value > high)
        {
            let side = if above { "above" } else { "below" };
            let why = refusal.to_string().lines().next().unwrap_or_default().to_owned();
            notes.push(format!("Values {side} {} are refused: {why}.", with_unit(end, unit)));
        }
    }
    if let Some((value, refusal)) = trials.refused_within(low, high) {
        let why = refusal.to_string().lines().next().unwrap_or_default().to_owned();
        let value = with_unit(*value, unit);
        notes.push(format!(
            "Some values within the range are refused and do not count as holding, such as {value}: {why}."
        ));
    }
    if let Some(value) = trials.without_figure(low, high) {
        let value = with_unit(value, unit);
        notes.push(format!(
            "The figure is null at some values, such as {value}; they do not count as holding."
        ));
    }
    notes
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_value_is_rounded_to_the_side_on_which_it_holds() {
        assert_eq!(shown_within(3190.957, "at_most"), "3,190.95");
        assert_eq!(shown_within(3190.952, "at_least"), "3,190.96");
        assert_eq!(shown_within(4_085.519_999_999_999_5, "at_most"), "4,085.52");
        assert_eq!(shown_within(-98.9675, "at_most"), "-98.968");
        assert_eq!(shown_within(0.125, "equal"), "0.125");
        assert_eq!(shown_within(44.0, "at_most"), "44");
    }
}
