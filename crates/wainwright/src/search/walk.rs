//! Every choice held against everything: the catalogue's rules, the build it makes, its ratings.

use serde_json::Value;

use super::figures::{Autonomy, Figures};
use super::keys::Keys;
use super::masses::{Bearing, Weighed};
use super::space::Space;
use crate::axle_load::screen::Kept;
use crate::bounds::{MOST_CHOICES, MOST_EVALUATED};
use crate::build::Build;
use crate::document::Refusal;
use crate::evaluate::{Evaluate, EvaluateReport};
use crate::options::choice::Choice;
use crate::options::reads::Half;
use crate::options::request::Packages;
use crate::question::{Answer, Question};

/// So many builds that are read, or whose bearing is read, count as one that is evaluated.
const READ_PER_EVALUATED: u64 = 16;

/// What the choices come to.
#[derive(Debug, Default)]
pub struct Walked {
    /// Choices that keep the catalogue's own rules and make a build that can be worked with.
    pub workable: u64,
    /// Those of them that break nothing, as numbers of the space.
    pub choices: Vec<u32>,
    /// The figures of each.
    pub figures: Vec<Figures>,
    /// Autonomy and cooling margin, by the number of what they depend on.
    powers: Vec<Option<Powers>>,
}

/// The three things that are found once for all choices alike in what matters to them.
#[derive(Debug)]
struct Found {
    /// Can the build be worked with?
    workable: Vec<Option<bool>>,
    bearing: Vec<Option<Box<Bearing>>>,
    powers: Vec<Option<Powers>>,
}

/// What circuits, energy and heat come to.
#[derive(Debug, Clone, Copy)]
struct Powers {
    broken: bool,
    autonomy: Autonomy,
    cooling_margin_fraction: Option<f64>,
}

/// A walk through all choices.
#[derive(Debug)]
pub struct Walk<'a> {
    packages: &'a Packages<'a>,
    space: &'a Space,
    fixed_price_usd: f64,
    by_validity: Keys,
    by_bearing: Keys,
    by_powers: Keys,
}

impl<'a> Walk<'a> {
    /// A walk that is no longer than is allowed.
    ///
    /// # Errors
    ///
    /// There are more choices than are searched, or more to be evaluated.
    pub fn of(packages: &'a Packages<'a>, space: &'a Space) -> Result<Self, Refusal> {
        let size = space.size();
        if size > MOST_CHOICES {
            return Err(Refusal::TooMuchWork {
                detail: format!(
                    "There are {size} choices; {MOST_CHOICES} are searched. Let fewer groups vary, or options of which any may be chosen stand in groups of one."
                ),
                work: size,
                limit: MOST_CHOICES,
            });
        }
        let walk = Self {
            packages,
            space,
            fixed_price_usd: space.fixed.price_usd(packages),
            by_validity: Keys::of(space, |touch| touch.validity),
            by_bearing: Keys::of(space, |touch| touch.bearing),
            by_powers: Keys::of(space, |touch| touch.powers),
        };
        let read = walk.by_validity.count.saturating_add(walk.by_bearing.count);
        let work = walk.by_powers.count.saturating_add(read / READ_PER_EVALUATED);
        if work > MOST_EVALUATED {
            return Err(Refusal::TooMuchWork {
                detail: format!(
                    "The options that change what circuits, energy or heat read make {} builds to evaluate, and all that \
                     change more than a part's mass make {}; together they count as {work}, and {MOST_EVALUATED} are \
                     evaluated. Let fewer of those groups vary.",
                    walk.by_powers.count, walk.by_validity.count
                ),
                work,
                limit: MOST_EVALUATED,
            });
        }
        Ok(walk)
    }

    /// Every choice, in the order of their numbers.
    ///
    /// # Errors
    ///
    /// A patched build is nested too deep.
    pub fn walk(&self) -> Result<Walked, Refusal> {
        let none = |keys: &Keys| keys.count as usize;
        let mut found = Found {
            workable: vec![None; none(&self.by_validity)],
            bearing: (0..none(&self.by_bearing)).map(|_| None).collect(),
            powers: vec![None; none(&self.by_powers)],
        };
        let mut walked = Walked::default();
        let mut chosen = Vec::with_capacity(self.space.dimensions.len());
        for number in 0..self.space.size() as u32 {
            self.space.decode(number, &mut chosen);
            if self.keeps_rules(&chosen) {
                self.hold(number, &chosen, &mut found, &mut walked)?;
            }
        }
        walked.powers = found.powers;
        Ok(walked)
    }

    /// Autonomy and cooling margin of a choice that was walked past and breaks nothing.
    pub fn powers(&self, walked: &Walked, chosen: &[usize]) -> (Autonomy, Option<f64>) {
        let powers = walked.powers.get(self.by_powers.key(chosen) as usize).copied().flatten();
        powers.map_or((Autonomy::Unknown, None), |powers| (powers.autonomy, powers.cooling_margin_fraction))
    }

    /// Does a choice keep what the catalogue asks?
    fn keeps_rules(&self, chosen: &[usize]) -> bool {
        chosen.iter().all(|option| {
            let touch = &self.space.options[*option];
            !touch.impossible
                && touch.requires.iter().all(|other| chosen.contains(other))
                && !touch.excludes.iter().any(|other| chosen.contains(other))
        })
    }

    fn hold(
        &self,
        number: u32,
        chosen: &[usize],
        found: &mut Found,
        walked: &mut Walked,
    ) -> Result<(), Refusal> {
        let mut made = None;
        let workable = &mut found.workable[self.by_validity.key(chosen) as usize];
        let is_workable = match *workable {
            Some(known) => known,
            None => *workable.insert(self.make(chosen, &mut made)?.1),
        };
        if !is_workable {
            return Ok(());
        }
        walked.workable += 1;
        let bearing = &mut found.bearing[self.by_bearing.key(chosen) as usize];
        let bearing = match bearing {
            Some(known) => known,
            None => {
                bearing.insert(Box::new(Bearing::of(self.space, &self.make(chosen, &mut made)?.0, chosen)))
            }
        };
        let mut weighed = bearing.weigh(chosen);
        if weighed.is_doubtful() {
            weighed = outright(&self.make(chosen, &mut made)?.0);
        }
        if weighed.kept == Kept::No {
            return Ok(());
        }
        let powers = &mut found.powers[self.by_powers.key(chosen) as usize];
        let powers = match *powers {
            Some(known) => known,
            None => *powers.insert(Powers::of(&self.make(chosen, &mut made)?.0)),
        };
        if powers.broken {
            return Ok(());
        }
        walked.choices.push(number);
        walked.figures.push(Figures::of(
            self.price_usd(chosen),
            weighed.payload_left_lb,
            weighed.tongue_margin_fraction,
            powers.autonomy,
            powers.cooling_margin_fraction,
        ));
        Ok(())
    }

    /// The price of a choice, what is fixed included [USD].
    pub fn price_usd(&self, chosen: &[usize]) -> f64 {
        chosen.iter().fold(self.fixed_price_usd, |sum, option| sum + self.space.options[*option].price_usd)
    }

    /// The build of a choice and whether it can be worked with, made once.
    fn make<'m>(
        &self,
        chosen: &[usize],
        made: &'m mut Option<(Build, bool)>,
    ) -> Result<&'m (Build, bool), Refusal> {
        if made.is_none() {
            let json: Value = self.space.choice(chosen).build(self.packages);
            let (build, faults) = Build::from_value(&json, &self.packages.named_files.weather)?;
            *made = Some((build, faults.is_empty()));
        }
        made.as_ref().ok_or_else(|| Refusal::Faults(Default::default()))
    }
}

/// What a build's masses come to by the whole of their questions.
fn outright(build: &Build) -> Weighed {
    let report = Evaluate::answer(&Half::Masses.alone(build));
    Weighed {
        kept: if report.has_violation() { Kept::No } else { Kept::Yes },
        payload_left_lb: report.margins.payload_left_lb,
        tongue_margin_fraction: report.margins.tongue_margin_fraction,
    }
}

impl Powers {
    fn of(build: &Build) -> Self {
        let report = Evaluate::answer(&Half::Powers.alone(build));
        Self {
            broken: report.has_violation(),
            autonomy: autonomy(&report),
            cooling_margin_fraction: report.margins.cooling_margin_fraction,
        }
    }
}

/// How long the battery lasts without sun.
pub fn autonomy(report: &EvaluateReport) -> Autonomy {
    match (&report.energy_budget, report.margins.autonomy_h) {
        (_, Some(hours)) => Autonomy::Hours(hours),
        (Some(_), None) => Autonomy::Never,
        (None, None) => Autonomy::Unknown,
    }
}

impl Space {
    /// The options of the choice of a number: that of the last dimension counts quickest.
    pub fn decode(&self, number: u32, chosen: &mut Vec<usize>) {
        chosen.clear();
        let mut rest = number as usize;
        for dimension in self.dimensions.iter().rev() {
            let ways = dimension.len() + 1;
            if let Some(way) = (rest % ways).checked_sub(1) {
                chosen.push(dimension[way]);
            }
            rest /= ways;
        }
        chosen.reverse();
    }

    /// A choice with what is fixed.
    pub fn choice(&self, chosen: &[usize]) -> Choice {
        let mut choice = self.fixed.clone();
        chosen.iter().for_each(|option| choice.set(self.options[*option].position, true));
        choice
    }
}
