//! What solving answers with.

use crate::report::{Assumption, Engine, Finding, report};

report! {
    /// The value of one input at which something just holds.
    pub struct SolveReport {
        /// The answer in a sentence or two.
        summary: String = "cargo.atv.mass_lb may be 1,002.07 lb at most; it is 690 lb now. payload.states.outbound.payload_left_lb is then 0 lb.",
        /// The input that was varied.
        vary: String = "cargo.atv.mass_lb",
        /// JSON Pointer to it in the build.
        pointer: String = "/cargo/atv/mass_lb",
        /// Unit of every value of the input here.
        unit: Option<&'static str> = "lb",
        /// The value at which it just holds: it holds here, and a hair beyond it does not. Of several the one nearest to
        /// the present value; null where there is none, for which `reason` says why.
        value: Option<f64> = 1002.0725,
        /// On which side of `value` it holds: `at_most` up to it, `at_least` from it on, `equal` at it; null without one.
        holds: Option<&'static str> = "at_most",
        /// `value` less the present value; null where either is.
        change: Option<f64> = 312.0725,
        /// Why there is no value.
        reason: Option<&'static str> = "It holds for every value of the range.",
        /// Unit of every figure here.
        figure_unit: Option<&'static str> = "lb",
        /// The build as it is. `value` is null where the build leaves the input out and nothing is assumed for it.
        present: SolvePoint,
        /// What is found at `value`.
        there: Option<SolvePoint>,
        /// What is found just beyond it, at the other end of the bracket.
        beyond: Option<SolvePoint>,
        /// What the question finds at `value` and not in the build as it is, gravest first.
        brings: Vec<Finding>,
        /// The value at which it comes nearest to holding, where it holds nowhere.
        nearest: Option<SolvePoint>,
        /// How `value` was found: `linear` where the figure follows a line over the range, in closed form and held
        /// against further points; `bracketed` between two values that were tried, one on each side; null without one.
        method: Option<&'static str> = "linear",
        /// How far the two ends of the bracket are apart: `value` and the nearest value tried that does not hold.
        bracket_width: Option<f64> = 0.0,
        /// How many builds were worked out.
        evaluations: u32 = 16,
        /// Where it was looked, and how finely.
        searched: SolveRange,
        /// Every span of the range in which it holds, in ascending order; for `equal`, in which the figure is that or more.
        /// All but the ends that `value` is one of are known to a thousandth of `widest_gap`.
        spans: Vec<SolveSpan>,
        /// What else there is to know: values that were refused, several spans.
        notes: Vec<String> = ["Values above 240 are refused: /stay/grey_days must be days, 5, or less; got 6."],
        /// The range, where the request does not give it.
        assumptions: Vec<Assumption>,
        /// What worked it out.
        engine: Engine,
    }
}

report! {
    /// What is found at one value of the input.
    pub struct SolvePoint {
        /// The value.
        value: Option<f64> = 690.0,
        /// Does it hold there?
        holds: bool = true,
        /// The figure there; that of the finding where the target is one.
        figure: Option<f64> = 312.0725,
        /// The finding, where the target is one and it is raised there.
        finding: Option<Finding>,
    }
}

report! {
    /// The range that was searched.
    #[derive(Copy)]
    pub struct SolveRange {
        /// Its least value.
        low: f64 = 0.0,
        /// Its greatest value.
        high: f64 = 14490.0,
        /// Whole numbers alone?
        is_whole: bool = false,
        /// Values that were looked at one after another, before anything was narrowed.
        points: u32 = 10,
        /// The widest gap between two of them. What begins and ends within a gap may have been missed.
        widest_gap: f64 = 2662.0,
    }
}

report! {
    /// A span of the input in which it holds, both ends within it.
    #[derive(Copy)]
    pub struct SolveSpan {
        /// Its least value.
        low: f64 = 0.0,
        /// Its greatest value.
        high: f64 = 1002.0725,
    }
}
