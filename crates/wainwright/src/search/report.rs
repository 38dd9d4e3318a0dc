//! The answer: the best choices, those that no other beats, and how many there are.

use crate::evaluate::Margins;
use crate::report::{Engine, report};

report! {
    /// The best of all choices that break nothing.
    pub struct SearchReport {
        /// Choices there are: with every option of the groups that vary chosen or not.
        choice_count: u64 = 96,
        /// Those that keep what options require and exclude and make a build that can be worked with.
        workable_count: u64 = 72,
        /// Those of them that break nothing.
        unbroken_count: u64 = 41,
        /// The best of those that break nothing, best first: by score, then by price, then in the order of the catalogue.
        best: Vec<RankedChoice>,
        /// How many more have the score of the last of `best`, and are not listed.
        tied_left_out: u64 = 0,
        /// Those that no other beats, best first: better in price, payload left, tongue margin, autonomy or cooling margin only
        /// by being worse in another. At most 500.
        pareto: Vec<RankedChoice>,
        /// How many more no other beats, and are not listed.
        pareto_left_out: u64 = 0,
        /// What worked it out.
        engine: Engine,
    }
}

report! {
    /// A choice that breaks nothing, and the figures that choices are compared by.
    pub struct RankedChoice {
        /// The chosen options, in the order of the catalogue.
        chosen: Vec<String> = ["battery_200", "awning"],
        /// Price of the chosen options together.
        price_usd: f64 = 1930.0,
        /// Points by the weights of the request: what differs by rounding alone is made equal before.
        score: f64 = -1930.0,
        /// By how much the build keeps what matters most.
        margins: Margins,
        /// The battery never runs out without sun: `margins.autonomy_h` is null, and better than any hours.
        never_empty: bool = false,
    }
}
