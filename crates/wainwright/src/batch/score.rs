//! What is wanted of every row.

use serde_json::Value;

use crate::build::Build;
use crate::document::{Faults, Place, Refusal};
use crate::figures::Figure;
use crate::options::request::Packages;

/// The score that is what the chosen options cost together.
pub const PRICE: &str = "price_usd";
/// The score that says how many rules of the catalogue a choice breaks.
pub const BROKEN_RULES: &str = "broken_rule_count";

/// One score.
#[derive(Debug)]
pub enum Score {
    /// What the chosen options cost together [USD].
    Price,
    /// How many rules of the catalogue the choice breaks.
    BrokenRules,
    /// A figure of an answer.
    Figure(Figure),
}

impl Score {
    /// The score that a path names; none where it names none, which is noted.
    pub fn read(path: &str, packages: Option<&Packages>, at: &Place, faults: &mut Faults) -> Option<Self> {
        match path {
            PRICE if packages.is_some() => Some(Self::Price),
            BROKEN_RULES if packages.is_some() => Some(Self::BrokenRules),
            _ => Figure::read(path, at, faults).map(Self::Figure),
        }
    }
}

/// The figures that are wanted of one question.
#[derive(Debug)]
pub struct Task {
    /// Each with the position of its score.
    pub figures: Vec<(usize, Figure)>,
}

impl Task {
    /// What is wanted of each question.
    pub fn all(scores: &[Option<Score>]) -> Vec<Self> {
        let mut tasks: Vec<Self> = Vec::new();
        for (index, score) in scores.iter().enumerate() {
            let Some(Score::Figure(figure)) = score else { continue };
            let same = |task: &&mut Self| task.question() == figure.question.name;
            match tasks.iter_mut().find(same) {
                Some(task) => task.figures.push((index, figure.clone())),
                None => tasks.push(Self { figures: vec![(index, figure.clone())] }),
            }
        }
        tasks
    }

    /// The name of its question.
    pub fn question(&self) -> &'static str {
        // There is one figure at least: a task begins with it.
        self.figures.first().map_or("", |(_, figure)| figure.question.name)
    }

    /// Puts its question to a build: the JSON of the report, as far as its figures need it.
    ///
    /// # Errors
    ///
    /// What the question needs and the build does not have.
    pub fn ask(&self, build: &Build) -> Result<Value, Refusal> {
        let Some((_, first)) = self.figures.first() else { return Ok(Value::Null) };
        let wanted: Vec<&str> =
            self.figures.iter().filter_map(|(_, figure)| figure.keys.first()).map(String::as_str).collect();
        first.question.ask_for(build, &wanted)
    }

    /// Has a build all that its question cannot do without?
    pub fn is_answered_by(&self, build: &Build) -> bool {
        self.figures.first().is_none_or(|(_, figure)| figure.question.is_answered_by(build))
    }

    /// Does its question read the masses and places of parts and cargo?
    pub fn reads_masses(&self) -> bool {
        matches!(self.question(), "payload" | "axle_load" | "evaluate")
    }

    /// Reads its figures off a report of its question.
    ///
    /// - `put`  takes the position of each score and its figure; NaN where the report has none
    ///
    /// Returns what is wrong where a figure's path leads nowhere in this report.
    pub fn read(&self, report: &Value, mut put: impl FnMut(usize, f64)) -> Result<(), String> {
        let mut astray = Ok(());
        for (index, figure) in &self.figures {
            let value = figure.of(report);
            put(*index, value.unwrap_or(f64::NAN));
            if value.is_none() && astray.is_ok() {
                astray = figure.is_there(report);
            }
        }
        astray
    }
}
