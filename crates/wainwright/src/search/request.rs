//! The request: what may vary, and what is wanted of it.

use serde_json::Value;

use crate::bounds;
use crate::document::{Keyed, List, Record, Section, Text, record};
use crate::options::catalogue::{BASE, GROUPS, Group};

record! {
    /// How much each figure counts: points for each of its units. What is left out counts nothing.
    pub struct Weights: "weights" {
        /// Points taken off for each dollar of the price.
        optional price_usd: f64 = bounds::WEIGHT, 1.0;
        /// Points for each pound of payload left in the heaviest state.
        optional payload_left_lb: f64 = bounds::WEIGHT, 0.5;
        /// Points for the whole of the gross mass by which the tongue's share stays within its bounds in the worst state.
        optional tongue_margin_fraction: f64 = bounds::WEIGHT, 20_000.0;
        /// Points for each hour that the battery lasts without sun, up to 336 h.
        optional autonomy_h: f64 = bounds::WEIGHT, 10.0;
        /// Points for the whole of the peak's sensible load that the air conditioner gives beyond it.
        optional cooling_margin_fraction: f64 = bounds::WEIGHT, 500.0;
    }
}

record! {
    /// A build to start from, what may vary in it, and how choices are ranked.
    pub struct SearchRequest: "a request for a search" {
        /// The build that the options change. Left out, the base of the catalogue that is named.
        optional base: Value = BASE;
        /// The groups of options, in the order in which their patches apply. In their place `catalogue` may be given.
        optional groups: Keyed<Group> = GROUPS;
        /// A catalogue of the service's folder, by name.
        optional catalogue: String = bounds::NAME, "heron", aside;
        /// Options that are chosen in every choice, of groups that do not vary. Left out, none.
        optional chosen: Vec<String> = List { of: Text { longest: 64 }, most: bounds::MOST_OPTIONS }, serde_json::json!(["awning"]);
        /// The groups that vary; the others stay as `chosen` has them. Left out, all groups of which nothing is chosen.
        optional vary: Vec<String> = List { of: Text { longest: 64 }, most: bounds::MOST_GROUPS }, serde_json::json!(["battery", "solar"]);
        /// How choices are ranked. Left out, by the lowest price.
        optional weights: Weights = Section::of();
        /// How many of the best are listed. Left out, 10.
        optional most: u32 = bounds::MOST_LISTED, 10;
    }
}

/// How many of the best are listed where the request does not say.
pub const LISTED: u32 = 10;

impl Weights {
    /// By the lowest price alone.
    pub fn cheapest() -> Self {
        Self { price_usd: Some(1.0), ..Self::blank() }
    }
}
