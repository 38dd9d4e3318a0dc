//! A run of named steps, counted and timed.

use std::time::{Duration, Instant};

use crate::counts::Counts;
use crate::process::Output;

/// How the tests of a step are counted from what it said.
pub enum Count {
    /// The step is one check.
    One,
    /// The step runs tests; this reads their numbers.
    Tests(fn(&str) -> Counts),
}

/// The steps run so far.
pub struct Run {
    fail_fast: bool,
    done: Vec<Step>,
}

struct Step {
    name: &'static str,
    outcome: Outcome,
    time: Duration,
}

enum Outcome {
    Ran(Counts),
    Skipped(String),
}

impl Run {
    /// Nothing run yet. With `fail_fast` the first failure ends the run.
    pub fn new(fail_fast: bool) -> Self {
        Self { fail_fast, done: Vec::new() }
    }

    /// Runs a step, unless one that it needs did not pass. What it says is shown only where it failed.
    pub fn step(
        &mut self,
        name: &'static str,
        needs: &[&'static str],
        count: Count,
        act: impl FnOnce() -> Output,
    ) {
        let start = Instant::now();
        let outcome = match self.hindrance(needs) {
            Some(reason) => Outcome::Skipped(reason),
            None => Outcome::Ran(counted(name, count, &act())),
        };
        let step = Step { name, outcome, time: start.elapsed() };
        println!("{}", step.line());
        self.done.push(step);
    }

    /// Why a step with these needs cannot be run.
    fn hindrance(&self, needs: &[&'static str]) -> Option<String> {
        if self.fail_fast && self.done.iter().any(Step::failed) {
            return Some("stopped at the first failure".to_owned());
        }
        let missing = |need: &&&str| !self.done.iter().any(|step| step.name == **need && step.passed());
        needs.iter().find(missing).map(|need| format!("needs {need}"))
    }

    /// Prints the table of steps and, last, the sums alone on a line. True where nothing failed or was skipped.
    pub fn finish(self) -> bool {
        println!();
        for step in &self.done {
            println!("{}", step.line());
        }
        let mut sum = Counts::default();
        let mut skipped = 0;
        for step in &self.done {
            match &step.outcome {
                Outcome::Ran(counts) => {
                    sum.passed += counts.passed;
                    sum.failed += counts.failed;
                }
                Outcome::Skipped(_) => skipped += 1,
            }
        }
        let left_out = if skipped == 0 { String::new() } else { format!(", {skipped} skipped") };
        println!("\n{} passed, {} failed{left_out}", sum.passed, sum.failed);
        sum.failed == 0 && skipped == 0
    }
}

/// The counts of a step that ran, never without a failure where it failed.
fn counted(name: &str, count: Count, output: &Output) -> Counts {
    let mut counts = match count {
        Count::One => Counts::of_one(output.success),
        Count::Tests(read) => read(&output.text),
    };
    if (!output.success || counts.passed == 0) && counts.failed == 0 {
        counts.failed = 1;
    }
    if counts.failed > 0 {
        println!("\n---- {name} ----\n{}\n----", output.text.trim_end());
    }
    counts
}

impl Step {
    fn passed(&self) -> bool {
        matches!(self.outcome, Outcome::Ran(counts) if counts.failed == 0)
    }

    fn failed(&self) -> bool {
        matches!(self.outcome, Outcome::Ran(counts) if counts.failed > 0)
    }

    fn line(&self) -> String {
        let (verdict, detail) = match &self.outcome {
            Outcome::Ran(counts) if counts.failed > 0 => {
                ("FAILED", format!("{} passed, {} failed", counts.passed, counts.failed))
            }
            Outcome::Ran(counts) => ("ok", format!("{} passed", counts.passed)),
            Outcome::Skipped(reason) => ("skipped", reason.clone()),
        };
        format!("{verdict:8}{:24}{:7.1} s  {detail}", self.name, self.time.as_secs_f64())
    }
}
