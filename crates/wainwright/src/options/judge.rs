//! What a build breaks, without the words and figures of its whole evaluation.

use serde_json::Value;

use super::reads::Half;
use crate::build::Build;
use crate::document::{Faults, Keyed};
use crate::question::{ForEachQuestion, Question, for_each_question};
use crate::report::{Finding, Findings};

/// What builds were found to break, by the half of the build that was looked at.
#[derive(Debug, Default)]
pub struct Judge {
    by_masses: Keyed<Vec<Vec<Finding>>>,
    by_powers: Keyed<Vec<Vec<Finding>>>,
}

impl Judge {
    /// The violations among the findings of the build's evaluation, in its order. Questions whose half of the build was
    /// looked at before are not asked again.
    ///
    /// - `json`   the JSON of the build
    /// - `build`  the build
    pub fn violations(&mut self, json: &Value, build: &Build) -> Vec<Finding> {
        let [masses, powers] = Half::BOTH.map(|half| half.key(json));
        let masses = self.by_masses.entry(masses).or_insert_with(|| ask_all(build, Half::Masses)).iter();
        let powers = self.by_powers.entry(powers).or_insert_with(|| ask_all(build, Half::Powers)).iter();
        let mut findings = Findings::default();
        masses.chain(powers).flatten().for_each(|finding| findings.add(finding.clone()));
        findings.in_order()
    }
}

/// The violations that each question of a half finds.
fn ask_all(build: &Build, half: Half) -> Vec<Vec<Finding>> {
    struct Asked<'a> {
        build: &'a Build,
        half: Half,
        found: Vec<Vec<Finding>>,
    }
    impl ForEachQuestion for Asked<'_> {
        fn question<Q: Question>(&mut self) {
            let mut faults = Faults::default();
            Q::missing(self.build, &mut faults);
            if Half::of::<Q>() == self.half && faults.is_empty() {
                self.found.push(Q::violations(self.build));
            }
        }
    }
    let mut asked = Asked { build, half, found: Vec::new() };
    for_each_question(&mut asked);
    asked.found
}
