//! The report is filled from what was found.

use super::bracket::Bracket;
use super::report::{SolvePoint, SolveRange, SolveReport, SolveSpan};
use super::request::SolveRequest;
use super::search::Search;
use super::span::Span;
use super::target::{Seen, Target};
use super::trials::Trials;
use super::words;
use crate::input::{Input, Range};
use crate::report::{Engine, Finding};

/// A figure is hit where it is off by no more than this share of what it spans.
const HIT: f64 = 1e-6;

/// What was found, all together.
pub struct Found<'a> {
    /// What was asked.
    pub request: &'a SolveRequest,
    /// The input that was varied.
    pub input: &'a Input,
    /// What is to hold.
    pub target: &'a Target,
    /// The present value of the input.
    pub value: Option<f64>,
    /// What is seen in the build as it is.
    pub seen: Seen,
    /// What the question finds in the build as it is.
    pub findings: Vec<Finding>,
    /// The range that was searched last.
    pub span: Option<Span>,
    /// What the search found in it; none where every value of it is refused.
    pub search: Option<Search>,
    /// The builds that were worked out.
    pub trials: Trials<'a>,
}

impl Found<'_> {
    /// The report.
    pub fn report(mut self) -> SolveReport {
        let within = self.within();
        let boundary = self.search.as_ref().and_then(|search| search.boundary);
        // A figure that must be hit is so at the end of the bracket that is nearer to it, if it does not jump.
        let solution = match (boundary, self.target.is_equal()) {
            (Some(bracket), true) => Some(nearer(bracket)).filter(|at| is_hit(at.inside.slack, within)),
            (boundary, _) => boundary,
        };
        let (there, beyond) = match solution {
            Some(Bracket { inside, outside }) => (Some(inside.x), Some(outside.x)),
            None => (None, None),
        };
        let nearest = self.search.as_ref().and_then(|search| search.nearest).map(|sample| sample.x);
        let nearest = nearest.filter(|_| !self.target.is_equal());
        let (there, beyond, nearest) =
            (self.point(there, within), self.point(beyond, within), self.point(nearest, within));
        let value = there.as_ref().and_then(|point| point.value);
        let brings = value.map(|value| self.trials.brings(value, &self.findings)).unwrap_or_default();
        let mut report = SolveReport {
            summary: String::new(),
            vary: self.request.vary.clone(),
            pointer: self.input.pointer(),
            unit: self.input.unit,
            value,
            holds: solution.map(|bracket| self.side(bracket)),
            change: value.zip(self.value).map(|(value, present)| value - present),
            reason: if solution.is_none() { Some(self.reason(boundary.is_some())) } else { None },
            figure_unit: self.target.unit(),
            present: point(self.value, self.seen.clone(), self.target, within),
            there,
            beyond,
            brings,
            nearest,
            method: solution.map(|_| if self.is_linear() { "linear" } else { "bracketed" }),
            bracket_width: solution.map(|bracket| bracket.width()),
            evaluations: 1 + self.trials.count(),
            searched: self.searched(),
            spans: self.spans(),
            notes: Vec::new(),
            assumptions: self.span.take().map(|span| span.assumptions).unwrap_or_default(),
            engine: Engine::THIS,
        };
        report.notes = words::notes(&self.trials, report.searched.low, report.searched.high, report.unit);
        report.summary = words::summary(&report, self.target);
        report
    }

    fn is_linear(&self) -> bool {
        self.search.as_ref().is_some_and(|search| search.is_linear)
    }

    /// By how much a figure may be off that is to be hit.
    fn within(&mut self) -> f64 {
        let Some(search) = &self.search else { return 0.0 };
        let ends = [search.low, search.high];
        let of_ends = ends.into_iter().filter_map(|x| self.trials.see(x)?.slack);
        HIT * of_ends.chain(self.seen.slack).fold(0.0, |most, slack| slack.abs().max(most))
    }

    fn point(&mut self, x: Option<f64>, within: f64) -> Option<SolvePoint> {
        let x = x?;
        Some(point(Some(x), self.trials.see(x)?, self.target, within))
    }

    /// The side on which it holds.
    fn side(&self, bracket: Bracket) -> &'static str {
        match (self.target.is_equal(), bracket.inside.x < bracket.outside.x) {
            (true, _) => "equal",
            (false, true) => "at_most",
            (false, false) => "at_least",
        }
    }

    /// Why there is no value.
    fn reason(&self, has_boundary: bool) -> &'static str {
        let Some(search) = &self.search else { return words::NOWHERE };
        match (self.target.is_equal(), has_boundary, search.spans.is_empty()) {
            _ if search.is_flat => words::NO_MATTER,
            (true, true, _) => words::JUMPS,
            (true, false, _) => words::NEVER_EQUAL,
            (false, _, true) => words::NOWHERE,
            (false, _, false) => words::EVERYWHERE,
        }
    }

    fn searched(&self) -> SolveRange {
        let range = self.span.as_ref().map(|span| &span.range);
        let (low, high) = range.and_then(Range::ends).unwrap_or_default();
        let is_whole = matches!(range, Some(Range::Whole { .. }));
        match &self.search {
            Some(Search { low, high, points, widest_gap, .. }) => {
                SolveRange { low: *low, high: *high, is_whole, points: *points, widest_gap: *widest_gap }
            }
            None => SolveRange { low, high, is_whole, points: 0, widest_gap: high - low },
        }
    }

    fn spans(&self) -> Vec<SolveSpan> {
        let spans = self.search.iter().flat_map(|search| &search.spans);
        spans.map(|&(low, high)| SolveSpan { low, high }).collect()
    }
}

/// What is found at a value.
fn point(value: Option<f64>, seen: Seen, target: &Target, within: f64) -> SolvePoint {
    let holds = if target.is_equal() { is_hit(seen.slack, within) } else { seen.passes };
    SolvePoint { value, holds, figure: seen.figure, finding: seen.finding }
}

fn is_hit(slack: Option<f64>, within: f64) -> bool {
    slack.is_some_and(|slack| slack.abs() <= within)
}

/// The same bracket, the end first that is nearer to no slack.
fn nearer(bracket: Bracket) -> Bracket {
    let off = |slack: Option<f64>| slack.map_or(f64::INFINITY, f64::abs);
    match off(bracket.outside.slack) < off(bracket.inside.slack) {
        true => Bracket { inside: bracket.outside, outside: bracket.inside },
        false => bracket,
    }
}
