//! What would it take: the value of one input at which a figure or a finding just passes.
//!
//! The request is read and checked ([`request`], [`crate::input`], [`target`], [`span`]); builds with other values of the input
//! are worked out ([`trials`]) where the search asks for them ([`search`], which knows numbers alone: [`line`], [`peak`],
//! [`bracket`]); the report is filled and put into words.
//!
//! # Example
//!
//! ```
//! use wainwright::operation::Operation;
//! use wainwright::solve::Solve;
//!
//! let request = br#"{"build": {"trailer": {"gvwr_lb": 7000, "bare": {"mass_lb": 2180}}},
//!     "vary": "trailer.bare.mass_lb",
//!     "target": {"figure": "payload.states.delivered.payload_left_lb", "at_least": 3000}}"#;
//! let report = Solve::answer(request, &Default::default()).unwrap();
//! assert!((report.value.unwrap() - 4000.0).abs() < 1e-9);
//! assert_eq!(report.holds, Some("at_most"));
//! ```

mod bracket;
mod fill;
mod line;
mod peak;
mod report;
mod request;
mod sample;
mod search;
mod span;
mod target;
#[cfg(test)]
mod tests;
mod trials;
mod words;

pub use report::{SolvePoint, SolveRange, SolveReport, SolveSpan};
pub use request::{SolveRequest, SolveTarget, Until};

use serde_json::{Value, json};

use crate::document::schema::Definitions;
use crate::document::{Place, Record, Refusal, read};
use crate::inner_build;
use crate::input::Input;
use crate::named_files::NamedFiles;
use crate::named_question::Answered;
use crate::operation::Operation;
use crate::report::AssumedValue;
use crate::sky::weather_file::WeatherLibrary;
use fill::Found;
use search::{Fineness, search};
use target::Target;
use trials::Trials;

/// The operation: what value of an input would it take?
#[derive(Debug, Clone, Copy)]
pub struct Solve;

impl Operation for Solve {
    const NAME: &'static str = "solve";
    const PATH: &'static str = "solve";
    const SUMMARY: &'static str = "The value of one input at which a figure or a finding just passes";
    const DESCRIPTION: &'static str = "Varies one numeric input of a build, and asks only the question that the target belongs \
        to. Answers with the value at which a figure just keeps a bound, or a finding is just gone or just appears: it \
        holds at this value, and a hair beyond it does not; with what is found there and on the other side, how the value \
        was found, and every span of the range in which it holds. A build with a value that is refused does not count as \
        holding. `energy_budget.autonomy_h` is what that question answers by itself, `evaluate.energy_budget.autonomy_h` \
        what it answers together with all others.";
    const MAY_TAKE_LONG: bool = true;
    type Answer = SolveReport;

    fn request_schema(definitions: &mut Definitions) -> Value {
        SolveRequest::schema(definitions)
    }

    fn example() -> Value {
        json!({
            "build": {
                "trailer": {"gvwr_lb": 7000, "bare": {"mass_lb": 2180}},
                "parts": {"galley": {"mass_lb": 165}, "bench": {"mass_lb": 86}},
                "tanks": {"fresh": {"fluid": "fresh_water", "capacity_gal": 22}},
                "cargo": {"atv": {"mass_lb": 690}},
                "states": {"outbound": {"moving": true, "fill": {"fresh": 1}, "aboard": ["atv"]}},
            },
            "vary": "cargo.atv.mass_lb",
            "target": {"figure": "payload.states.outbound.payload_left_lb", "at_least": 300},
        })
    }

    fn answer(json: &[u8], named_files: &NamedFiles) -> Result<SolveReport, Refusal> {
        let files = &named_files.weather;
        let (request, mut faults) = read::<SolveRequest>(json)?;
        let build = inner_build::read(&request.build, "/build", files, &mut faults);
        let root = Place::ROOT;
        let input = if faults.spoil("/vary") {
            None
        } else {
            Input::find(&request.vary, &request.build, &root.key("vary"), &mut faults)
        };
        span::check(&request, input.as_ref(), &mut faults);
        let at = root.key("target");
        let varied = input.as_ref().map(Input::pointer).unwrap_or_default();
        let is_unread = ["/target/figure", "/target/finding", "/target/subject", "/target/question"]
            .iter()
            .any(|place| faults.spoil(place));
        let target = if is_unread {
            None
        } else {
            Target::read(&request.target, &request.build, &varied, &at, &mut faults)
        };
        let (Some(build), Some(target)) = (build, target) else {
            return Err(Refusal::Faults(faults.in_document_order(json)));
        };
        let answered = match target.question.ask(&build, target.is_figure()) {
            Ok(answered) => answered,
            Err(refusal) => {
                inner_build::note(refusal, "/build", &mut faults);
                return Err(Refusal::Faults(faults.in_document_order(json)));
            }
        };
        target.check_figure(&answered, &at.key("figure"), &mut faults);
        let (Some(input), true) = (input, faults.is_empty()) else {
            return Err(Refusal::Faults(faults.in_document_order(json)));
        };
        let assumed = || {
            let pointer = input.pointer();
            let assumption = answered.assumptions.iter().find(|assumption| assumption.pointer == pointer)?;
            if let AssumedValue::Number(number) = assumption.value { Some(number) } else { None }
        };
        let value = input.of(&request.build).or_else(assumed);
        Ok(solve(&request, &input, &target, value, answered, files))
    }
}

/// How finely the range is looked at: the more a question costs, the less.
fn fineness(question: &str, steps: Option<u32>) -> Fineness {
    let (cells, halvings) = match question {
        "evaluate" => (12, 3),
        "energy_budget" | "cooling_load" => (24, 4),
        _ => (64, 8),
    };
    Fineness { cells: steps.unwrap_or(cells), halvings }
}

/// Solves a request that has no fault.
///
/// - `value`  the present value of the input, given or assumed
/// - `answered`  what the question answers to the build as it is
fn solve(
    request: &SolveRequest,
    input: &Input,
    target: &Target,
    value: Option<f64>,
    answered: Answered,
    files: &WeatherLibrary,
) -> SolveReport {
    let fineness = fineness(target.question.name, request.steps);
    let mut trials = Trials::new(request.build.clone(), input, target, files);
    let mut found = None;
    for span in span::spans(request, input, value) {
        let search = search(&span.range, value, fineness, &mut trials);
        let is_solved = search.as_ref().is_some_and(|search| search.boundary.is_some());
        found = Some((span, search));
        if is_solved {
            break;
        }
    }
    // There is one range at least.
    let (span, search) = found.map_or((None, None), |(span, search)| (Some(span), search));
    let seen = target.look(&answered);
    Found { request, input, target, value, seen, findings: answered.findings, span, search, trials }.report()
}
