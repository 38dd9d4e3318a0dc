//! What is asked: a build, one input of it to vary, and what is to hold.

use serde_json::Value;

use crate::build::Build;
use crate::document::{Bound, Choice, Inner, Options, Section, Text, Whole, record};

/// A path of ids of 64 characters and field names.
const PATH: Text = Text { longest: 500 };
/// Any figure that can be meant.
const ANY: Bound = Bound::new(-1e12, 1e12);
/// Steps over a range.
const CELLS: Whole = Whole { minimum: 1, maximum: 256 };

record! {
    /// A build, one input of it to vary, and what is to hold.
    pub struct SolveRequest: "a request to solve" {
        /// The build, as every question reads it.
        required build: Value = Inner::of::<Build>();
        /// The input to vary: a numeric field of the build by the keys that lead to it, joined by dots; items of lists by
        /// their index, from 0. A field that the build leaves out may be named too.
        required vary: String = PATH, "cargo.atv.mass_lb";
        /// What is to hold: a `figure` within a bound, or a `finding` that is gone or appears.
        required target: SolveTarget = Section::of();
        /// The least value to look at. Left out, the least that the field takes, or twenty times the present value below it.
        optional from: f64 = ANY, 0.0;
        /// The greatest value to look at. Left out, the greatest that the field takes, or twenty times the present value
        /// above it.
        optional to: f64 = ANY, 2000.0;
        /// In how many even steps the range is looked at where the figure follows no line. Left out, 64 for payload, axle
        /// load and circuit load, 24 for energy budget and cooling load, 12 for evaluate.
        optional steps: u32 = CELLS, 64;
    }
}

record! {
    /// What is to hold: either `figure` with one of `at_least`, `at_most` and `equal`, or `finding`.
    pub struct SolveTarget: "a target" {
        /// A figure of an answer: the name of the question and the keys that lead to the figure in its answer, joined by
        /// dots. `margins` and `verdict` are those of evaluate, and `evaluate` itself may stand before any path into it.
        optional figure: String = PATH, "payload.states.outbound.payload_left_lb";
        /// The figure is this or more.
        optional at_least: f64 = ANY, 0.0;
        /// The figure is this or less.
        optional at_most: f64 = ANY, 0.15, aside;
        /// The figure is this.
        optional equal: f64 = ANY, 48.0, aside;
        /// A finding by its code; `/v1/findings` lists them all.
        optional finding: String = PATH, "axle_over_gawr", aside;
        /// The finding's subject, a JSON Pointer into the build. Left out, the finding about anything.
        optional subject: String = PATH, "/trailer/axles/rear", aside;
        /// Whether it holds once the finding is `gone`, which is usual, or once it `appears`.
        optional until: Until = Choice::of(), "gone", aside;
        /// The question that is asked for the finding. Left out, the first one whose rule it is; with `evaluate`, all
        /// of them together.
        optional question: String = PATH, "axle_load", aside;
    }
}

/// When a target about a finding holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Until {
    /// While the finding is not raised.
    Gone,
    /// While it is.
    Appears,
}

impl Options for Until {
    const WORDS: &'static [(&'static str, Self)] = &[("gone", Self::Gone), ("appears", Self::Appears)];
}
