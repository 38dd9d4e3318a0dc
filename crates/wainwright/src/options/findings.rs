//! The rules of a catalogue, and a choice held against them.

use super::catalogue::Position;
use super::choice::Choice;
use super::conflict;
use super::request::Packages;
use crate::document::Faults;
use crate::report::{Finding, rules};

rules! {
    shared {}
    OPTION_REQUIRES: Violation - -, "option_requires_another",
        "A chosen option requires another that is not chosen.",
        "the catalogue";
    OPTION_EXCLUDES: Violation - -, "option_excludes_another",
        "A chosen option excludes another that is chosen.",
        "the catalogue";
    OPTIONS_CONFLICT: Violation - -, "options_conflict",
        "Two options set one member of the build to different values: they do not go together as they are.",
        "RFC 7396";
    PATCH_REFUSED: Violation - -, "patch_refused",
        "The option makes a build that cannot be worked with.",
        "the ranges of /openapi.json";
}

/// What the catalogue's rules say of a choice: what its options require and exclude in vain.
pub fn judge(packages: &Packages, choice: &Choice) -> Vec<Finding> {
    judge_among(packages, choice, choice.chosen())
}

/// What the catalogue's rules say of one chosen option.
pub fn of_option(packages: &Packages, choice: &Choice, option: Position) -> Vec<Finding> {
    judge_among(packages, choice, std::iter::once(option))
}

fn judge_among(
    packages: &Packages,
    choice: &Choice,
    options: impl Iterator<Item = Position> + Clone,
) -> Vec<Finding> {
    let missing = broken(packages, choice, options.clone(), |option| option.requires.as_deref(), false);
    let barred = broken(packages, choice, options, |option| option.excludes.as_deref(), true);
    let mut findings = Vec::new();
    if !missing.is_empty() {
        let sentences = missing
            .iter()
            .map(|(option, other)| format!("Option {option} requires {other}, which is not chosen."));
        let remedy = format!("Choose {} as well.", names(missing.iter().map(|(_, other)| *other)));
        findings.push(OPTION_REQUIRES.finding(
            "",
            None,
            None,
            sentences.collect::<Vec<_>>().join(" "),
            remedy,
        ));
    }
    if !barred.is_empty() {
        let sentences = barred
            .iter()
            .map(|(option, other)| format!("Option {option} excludes {other}, which is chosen."));
        let remedy = "Choose one of the two.";
        findings.push(OPTION_EXCLUDES.finding(
            "",
            None,
            None,
            sentences.collect::<Vec<_>>().join(" "),
            remedy,
        ));
    }
    findings
}

/// Each chosen option with an option it names that is chosen, or is not.
fn broken<'a>(
    packages: &'a Packages,
    choice: &Choice,
    options: impl Iterator<Item = Position>,
    list: impl Fn(&'a super::catalogue::CatalogueOption) -> Option<&'a [String]>,
    where_chosen: bool,
) -> Vec<(&'a str, &'a str)> {
    let mut found = Vec::new();
    for position in options {
        let named = packages.option(position).and_then(&list).unwrap_or_default();
        let others = named.iter().filter(|other| {
            packages.positions.get(other.as_str()).is_some_and(|other| choice.has(*other)) == where_chosen
        });
        found.extend(others.map(|other| (packages.id(position), other.as_str())));
    }
    found
}

/// Two options of a choice that cannot be patched together; none where all can.
///
/// - `tried`  the option that was added: the others were chosen together before
pub fn conflict(packages: &Packages, choice: &Choice, tried: Position) -> Option<Finding> {
    let others = choice.chosen().filter(|other| *other != tried);
    let found = others
        .filter_map(|other| Some((other, conflict::between(packages, tried, other).into_iter().next()?)));
    let sentences: Vec<String> = found
        .map(|(other, member)| {
            format!(
                "Options {} and {} set {member} to different values.",
                packages.id(tried),
                packages.id(other)
            )
        })
        .collect();
    if sentences.is_empty() {
        return None;
    }
    Some(OPTIONS_CONFLICT.finding("", None, None, sentences.join(" "), "Choose one of the two."))
}

/// An option that makes a build that is refused.
pub fn refused(packages: &Packages, tried: Position, faults: &Faults) -> Finding {
    let first = faults.list().iter().take(3);
    let mut said: Vec<String> = first.map(|fault| format!("{} {}", fault.pointer, fault.detail)).collect();
    if faults.count() > said.len() {
        said.push(format!("and {} more", faults.count() - said.len()));
    }
    let message =
        format!("With option {} the build cannot be worked with: {}.", packages.id(tried), said.join("; "));
    PATCH_REFUSED.finding("", None, None, message, "Put right the option's patch, or choose what it needs.")
}

fn names<'a>(names: impl Iterator<Item = &'a str>) -> String {
    let mut listed: Vec<&str> = Vec::new();
    names.for_each(|name| {
        if !listed.contains(&name) {
            listed.push(name)
        }
    });
    listed.join(", ")
}
