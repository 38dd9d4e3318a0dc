//! The answer: the present choice, and what becomes of every other option.

use serde::Serialize;
use serde_json::{Value, json};

use crate::document::Keyed;
use crate::document::schema::Definitions;
use crate::evaluate::EvaluateReport;
use crate::report::{Described, Engine, Finding, report};

/// What an option is to the present choice. Closed: there will be no fourth.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum OptionState {
    /// It is chosen.
    Chosen,
    /// It may be chosen: the choice with it breaks nothing.
    Available,
    /// The choice with it breaks something.
    Breaks,
}

impl Described for OptionState {
    fn schema(_: &mut Definitions) -> Value {
        json!({"type": "string", "enum": ["chosen", "available", "breaks"]})
    }
}

report! {
    /// The present choice evaluated, its price, and what becomes of every option.
    pub struct OptionsReport {
        /// The evaluation of the build that the present choice makes.
        report: EvaluateReport,
        /// The chosen options, in the order of the catalogue: that in which their patches apply.
        chosen: Vec<String> = ["battery_200", "water_18"],
        /// Price of the chosen options together.
        price_usd: f64 = 2480.0,
        /// What the catalogue's own rules say of the present choice: what it requires and excludes.
        findings: Vec<Finding>,
        /// Every option of the catalogue, in its order.
        options: Keyed<OptionReport>,
        /// What worked it out.
        engine: Engine,
    }
}

report! {
    /// What becomes of one option.
    pub struct OptionReport {
        /// The group it is in.
        group: String = "battery",
        /// What it is called; null where the catalogue does not say.
        label: Option<String> = "200 Ah battery",
        /// `chosen`; `available`: the present choice with it breaks nothing; `breaks`: it breaks what `because` lists. An
        /// option of a group of which one is chosen is tried in that one's place.
        state: OptionState = "breaks",
        /// What it costs.
        price_usd: f64 = 1150.0,
        /// How much more the choice costs with it than now, what it replaces taken off; 0 for a chosen option.
        price_difference_usd: f64 = 640.0,
        /// Of an option that breaks: every violation of the choice with it, those that the present choice does not have
        /// first. Of a chosen one: what it requires and excludes in vain. Pointers lead into the build of that choice.
        because: Vec<Finding>,
    }
}
