//! The range that is searched: what the request gives, and what is taken where it gives nothing.

use super::request::SolveRequest;
use crate::document::{FaultCode, Faults, Place};
use crate::input::{Input, Range};
use crate::report::{Assumption, Assumptions};

/// Where no range is given, it reaches this many times the present value to either side of it.
const TIMES: f64 = 20.0;

/// A range to search.
pub struct Span {
    /// The values in it.
    pub range: Range,
    /// What was assumed of it.
    pub assumptions: Vec<Assumption>,
}

/// Notes what is wrong with the range that a request gives.
///
/// - `input`  the input, whose bounds hold for the range; none where it could not be found
pub fn check(request: &SolveRequest, input: Option<&Input>, faults: &mut Faults) {
    if let (Some(from), Some(to)) = (request.from, request.to)
        && from > to
    {
        let detail = format!("must be to, {to}, or less; got {from}");
        faults.contradiction(&Place::ROOT.key("from"), detail);
    }
    if let Some(input) = input {
        check_within(request, input, faults);
    }
}

fn check_within(request: &SolveRequest, input: &Input, faults: &mut Faults) {
    let Some((least, most)) = input.takes.ends() else { return };
    for (name, given) in [("from", request.from), ("to", request.to)] {
        let root = Place::ROOT;
        let at = root.key(name);
        match given {
            Some(given) if given < least => {
                let detail = format!("must be {least}, the least that the field takes, or more; got {given}");
                if let Some(fault) = faults.add(&at, FaultCode::BelowMinimum, detail) {
                    fault.minimum = Some(least);
                }
            }
            Some(given) if given > most => {
                let detail =
                    format!("must be {most}, the greatest that the field takes, or less; got {given}");
                if let Some(fault) = faults.add(&at, FaultCode::AboveMaximum, detail) {
                    fault.maximum = Some(most);
                }
            }
            _ => {}
        }
    }
    if let (Some(from), Some(to)) = (request.from, request.to)
        && from <= to
        && within(&input.takes, from, to).ends().is_none()
    {
        let detail = format!("leaves no value that the field takes between it and to, {to}");
        faults.contradiction(&Place::ROOT.key("from"), detail);
    }
}

/// The ranges to search, one after another until something is found: where no range is given, the second is all that the
/// field takes.
pub fn spans(request: &SolveRequest, input: &Input, present: Option<f64>) -> Vec<Span> {
    let (least, most) = input.takes.ends().unwrap_or_default();
    let reach = present.map_or(f64::INFINITY, |present| TIMES * present.abs());
    let reach = if reach == 0.0 { f64::INFINITY } else { reach };
    let middle = present.unwrap_or_default();
    let near = (least.max(middle - reach), most.min(middle + reach));
    let mut ends = vec![near, (least, most)];
    ends.iter_mut().for_each(|(low, high)| {
        *low = request.from.unwrap_or(*low);
        *high = request.to.unwrap_or(*high);
        // What is given may lie beyond what would be taken.
        if low > high {
            (*low, *high) = (request.from.unwrap_or(least), request.to.unwrap_or(most));
        }
    });
    ends.dedup();
    let spans = ends.into_iter().map(|(low, high)| Span {
        range: within(&input.takes, low, high),
        assumptions: assumed(request, input, (low, high), (least, most)),
    });
    spans.collect()
}

fn within(takes: &Range, low: f64, high: f64) -> Range {
    match takes {
        Range::Real { .. } => Range::Real { low, high },
        Range::Whole { .. } => Range::Whole { low: low.ceil(), high: high.floor() },
        Range::Listed(values) => {
            Range::Listed(values.iter().copied().filter(|value| (low..=high).contains(value)).collect())
        }
    }
}

fn assumed(
    request: &SolveRequest,
    input: &Input,
    (low, high): (f64, f64),
    (least, most): (f64, f64),
) -> Vec<Assumption> {
    let reason = |is_bound| match is_bound {
        true => "the bound of the field",
        false => "the present value, and twenty times as much to either side",
    };
    let mut assumptions = Assumptions::default();
    if request.from.is_none() {
        assumptions.add("/from".to_owned(), low, input.unit, reason(low == least), "common practice");
    }
    if request.to.is_none() {
        assumptions.add("/to".to_owned(), high, input.unit, reason(high == most), "common practice");
    }
    assumptions.in_order(|_| 0)
}
