//! Builds with other values of the input, each worked out once.

use indexmap::IndexMap;
use serde_json::Value;

use super::sample::{Sample, Tries};
use super::target::{Seen, Target};
use crate::build::Build;
use crate::document::Refusal;
use crate::input::Input;
use crate::named_question::Answered;
use crate::report::Finding;
use crate::sky::weather_file::WeatherLibrary;

/// Builds with other values of the input.
pub struct Trials<'a> {
    build: Value,
    input: &'a Input,
    target: &'a Target,
    files: &'a WeatherLibrary,
    done: IndexMap<u64, Option<Seen>>,
    refused: Vec<(f64, Refusal)>,
    without_figure: Vec<f64>,
}

impl<'a> Trials<'a> {
    /// Trials of a build that is given as JSON.
    pub fn new(build: Value, input: &'a Input, target: &'a Target, files: &'a WeatherLibrary) -> Self {
        let (done, refused, without_figure) = (IndexMap::new(), Vec::new(), Vec::new());
        Self { build, input, target, files, done, refused, without_figure }
    }

    /// What is seen at a value; none where it is refused.
    pub fn see(&mut self, x: f64) -> Option<Seen> {
        if let Some(seen) = self.done.get(&x.to_bits()) {
            return seen.clone();
        }
        let seen = match self.work_out(x) {
            Ok(seen) => {
                if self.target.is_figure() && seen.figure.is_none() {
                    self.without_figure.push(x);
                }
                Some(seen)
            }
            Err(refusal) => {
                self.refused.push((x, refusal));
                None
            }
        };
        self.done.insert(x.to_bits(), seen.clone());
        seen
    }

    fn work_out(&mut self, x: f64) -> Result<Seen, Refusal> {
        Ok(self.target.look(&self.ask(x)?))
    }

    fn ask(&mut self, x: f64) -> Result<Answered, Refusal> {
        self.input.put(&mut self.build, x);
        let build = Build::from_json_with(self.build.to_string().as_bytes(), self.files)?;
        self.target.question.ask(&build, self.target.is_figure())
    }

    /// What the question finds at a value and does not find among others.
    pub fn brings(&mut self, x: f64, others: &[Finding]) -> Vec<Finding> {
        let mut found = self.ask(x).map(|answered| answered.findings).unwrap_or_default();
        found.retain(|one| {
            !others.iter().any(|other| (other.code, &other.subject) == (one.code, &one.subject))
        });
        found
    }

    /// How many builds were worked out.
    pub fn count(&self) -> u32 {
        self.done.len() as u32
    }

    /// The refused value nearest to one, among those below it or above it, and why it is refused.
    pub fn refused_beside(&self, x: f64, above: bool) -> Option<&(f64, Refusal)> {
        let on_side = self.refused.iter().filter(|(value, _)| (*value > x) == above && *value != x);
        on_side.min_by(|(one, _), (other, _)| (one - x).abs().total_cmp(&(other - x).abs()))
    }

    /// Any refused value within a range, and why.
    pub fn refused_within(&self, low: f64, high: f64) -> Option<&(f64, Refusal)> {
        self.refused.iter().find(|(value, _)| (low..=high).contains(value))
    }

    /// Any value within a range at which the figure is null.
    pub fn without_figure(&self, low: f64, high: f64) -> Option<f64> {
        self.without_figure.iter().copied().find(|value| (low..=high).contains(value))
    }
}

impl Tries for Trials<'_> {
    fn at(&mut self, x: f64) -> Sample {
        match self.see(x) {
            Some(Seen { passes, slack, .. }) => Sample { x, answered: true, passes, slack },
            None => Sample { x, answered: false, passes: false, slack: None },
        }
    }
}
