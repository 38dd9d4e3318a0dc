//! Option packages: a base, groups of options, and what becomes of every option beside the present choice.

pub mod catalogue;
pub mod choice;
pub mod conflict;
pub(crate) mod demo;
pub(crate) mod findings;
pub mod judge;
pub mod merge_patch;
pub mod origin;
pub mod reads;
mod report;
pub mod request;

pub use demo::{DEMO, demonstration};
pub use report::{OptionReport, OptionState, OptionsReport};

use serde_json::{Value, json};

use crate::build::Build;
use crate::document::schema::Definitions;
use crate::document::{Faults, Keyed, Record, Refusal};
use crate::evaluate::Evaluate;
use crate::named_files::NamedFiles;
use crate::operation::Operation;
use crate::question::Question;
use crate::report::{Engine, Finding, Rule, Severity};
use catalogue::Position;
use choice::Choice;
use judge::Judge;
use request::{OptionsRequest, Packages};

/// The operation: what does the present choice come to, and what may be chosen beside it?
#[derive(Debug, Clone, Copy)]
pub struct PackageOptions;

impl Operation for PackageOptions {
    const NAME: &'static str = "options";
    const PATH: &'static str = "options";
    const SUMMARY: &'static str = "A choice of options evaluated, its price, and for every other option whether it may be chosen and why not";
    const DESCRIPTION: &'static str = "Reads a `base`, which is a build, `groups` of options and the ids `chosen`. An option is \
        a JSON Merge Patch (RFC 7396) with a price; patches apply in the order of the catalogue, whatever the order of \
        `chosen`. Answers with the evaluation of the build that the choice makes, its price, and the state of every option: \
        `chosen`, `available`, or `breaks` with the violations `because` of which it does. An option that is not chosen is \
        tried by adding it; in a group of which one may be chosen it takes the place of the chosen one. None need be chosen: \
        the base then stays as it is. What `requires` and `excludes` ask is judged like a rating. Two chosen options that set \
        one member to different values are a fault. In place of `groups`, and of `base` where it has one, a `catalogue` of the \
        service's folder may be named; see `/v1/catalogues`.";
    const RULES: &'static [&'static Rule] = findings::RULES;
    type Answer = OptionsReport;

    fn request_schema(definitions: &mut Definitions) -> Value {
        OptionsRequest::schema(definitions)
    }

    fn example() -> Value {
        let (base, groups) = demo::short();
        json!({"base": base, "groups": groups, "chosen": ["battery_300", "awning"]})
    }

    fn answer(json: &[u8], named_files: &NamedFiles) -> Result<OptionsReport, Refusal> {
        let (request, mut faults) = request::read(json)?;
        let groups = request.groups.as_ref();
        let packages = request::packages(
            request.base.as_ref(),
            groups,
            request.catalogue.as_deref(),
            named_files,
            &mut faults,
        );
        let refused = |faults: Faults| Err(Refusal::Faults(faults.in_document_order(json)));
        let Some(packages) = packages else { return refused(faults) };
        let before = faults.count();
        let choice = request::chosen(request.chosen.as_deref().unwrap_or_default(), &packages, &mut faults);
        let choice_is_known = faults.count() == before;
        conflict::note(&packages, &choice, &mut faults);
        let value = choice.build(&packages);
        let (build, of_build) = Build::from_value(&value, &named_files.weather)?;
        // What is wrong with another choice than the one that was meant helps nobody.
        if choice_is_known {
            faults.append(of_build.told_at(|pointer| origin::origin(&packages, &choice, pointer)));
        }
        if !faults.is_empty() {
            return refused(faults);
        }
        answer(&packages, &choice, &value, &build)
    }
}

/// The answer to a choice whose build is in order.
fn answer(
    packages: &Packages,
    choice: &Choice,
    value: &Value,
    build: &Build,
) -> Result<OptionsReport, Refusal> {
    let report = Evaluate::answer(build);
    let own = findings::judge(packages, choice);
    let of_report = report.findings.iter().filter(|finding| finding.severity == Severity::Violation);
    let present: Vec<Finding> = own.iter().chain(of_report).cloned().collect();
    let price_usd = choice.price_usd(packages);
    let mut judge = Judge::default();
    // What the present choice breaks is known: options that leave a half of the build as it is are judged at once.
    judge.violations(value, build);
    let mut options = Keyed::default();
    for position in packages.all() {
        let Some(option) = packages.option(position) else { continue };
        let (state, price_with, because) = if choice.has(position) {
            (OptionState::Chosen, price_usd, findings::of_option(packages, choice, position))
        } else {
            let with = choice.with(packages, position);
            let because = because(packages, &with, position, &present, &mut judge)?;
            let state = if because.is_empty() { OptionState::Available } else { OptionState::Breaks };
            (state, with.price_usd(packages), because)
        };
        let report = OptionReport {
            group: packages.group_id(position.0).to_owned(),
            label: option.label.clone(),
            state,
            price_usd: option.price_usd,
            price_difference_usd: price_with - price_usd,
            because,
        };
        options.insert(packages.id(position).to_owned(), report);
    }
    let chosen = choice.chosen().map(|position| packages.id(position).to_owned()).collect();
    Ok(OptionsReport { report, chosen, price_usd, findings: own, options, engine: Engine::THIS })
}

/// Every violation of a choice with an option added, those that the present choice does not have first.
fn because(
    packages: &Packages,
    with: &Choice,
    tried: Position,
    present: &[Finding],
    judge: &mut Judge,
) -> Result<Vec<Finding>, Refusal> {
    let mut all = violations(packages, with, tried, judge)?;
    let is_new = |finding: &Finding| {
        let same = |other: &&Finding| {
            let both = other.code == finding.code && other.subject == finding.subject;
            both && (finding.value.is_some() || other.message == finding.message)
        };
        !present.iter().any(|other| same(&other))
    };
    all.sort_by_key(|finding| !is_new(finding));
    Ok(all)
}

/// Every violation of a choice: of the catalogue's rules, then of the build it makes, where it makes one.
///
/// - `tried`  the option that was added to a choice whose patches go together
///
/// # Errors
///
/// The patched build is nested too deep.
pub fn violations(
    packages: &Packages,
    choice: &Choice,
    tried: Position,
    judge: &mut Judge,
) -> Result<Vec<Finding>, Refusal> {
    let mut all = findings::judge(packages, choice);
    if let Some(conflict) = findings::conflict(packages, choice, tried) {
        all.push(conflict);
        return Ok(all);
    }
    let value = choice.build(packages);
    let (build, faults) = Build::from_value(&value, &packages.named_files.weather)?;
    if faults.is_empty() {
        all.extend(judge.violations(&value, &build));
    } else {
        let faults = faults.moved(|pointer| origin::origin(packages, choice, pointer));
        all.push(findings::refused(packages, tried, &faults));
    }
    Ok(all)
}
