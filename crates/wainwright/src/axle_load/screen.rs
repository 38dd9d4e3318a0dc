//! Whether loads break a rating, for builds that differ in fixed masses alone: no words, and no more than is asked.

use super::limits::{GREATEST_TONGUE_FRACTION, LEAST_TONGUE_FRACTION, LimitName, limits};
use super::line::Line;
use super::rig::{Rig, Tow};
use super::worst::Choices;
use crate::build::Build;
use crate::loading::Loading;
use crate::masses::Totals;
use crate::units::{kg, m};

/// A load this near its bound, relative to it, is not told from one at it: sums in another order round otherwise.
const NEAR: f64 = 1e-7;

/// What loads do to ratings.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kept {
    /// Every rating is kept.
    Yes,
    /// One is so nearly reached that only the whole question can tell.
    Hardly,
    /// One is broken.
    No,
}

impl Kept {
    /// Does a load keep its bound?
    ///
    /// - `load_kg`, `bound_kg`  both in kilograms
    pub fn of(load_kg: f64, bound_kg: f64) -> Self {
        let past = (load_kg - bound_kg) / bound_kg.abs().max(1.0);
        if bound_kg <= 0.0 {
            Self::Hardly // what may bear nothing is judged by the whole question
        } else if past > NEAR {
            Self::No
        } else if past >= -NEAR {
            Self::Hardly
        } else {
            Self::Yes
        }
    }
}

/// Everything that decides whether ratings are kept, but for the fixed masses. Axles share fixedly: not for spring rates.
#[derive(Debug, Clone)]
pub struct Screen {
    limits: Vec<(Line, f64)>,
    tongue: Line,
    /// Liquids and cargo of the states that limits are applied to.
    judged: Vec<Totals>,
    /// Of the states that move.
    moving: Vec<Totals>,
    /// Load on the jack, what varies in it at its most, and its rating.
    jack: Option<(Line, f64, f64)>,
}

impl Screen {
    /// The screen of a build; none without trailer and axles, or where axles share by spring rates.
    ///
    /// - `any_fill`  is the jack held to every fill and cargo choice, or to the states alone?
    pub fn of(build: &Build, loading: &Loading, any_fill: bool) -> Option<Self> {
        let rig = Rig::of(build, loading).filter(|rig| rig.springs.is_none())?;
        let tow = Tow::of(build, rig.group_x_m);
        let is_rating = |name: LimitName| {
            let others = [LimitName::TongueFractionMin, LimitName::TongueFractionMax, LimitName::Floor];
            !others.contains(&name) && !matches!(name, LimitName::AxleLift(_))
        };
        let all = limits(build, &rig, tow.as_ref());
        let ratings = all.iter().filter(|limit| is_rating(limit.name) && !limit.is_share());
        let states = loading.states.iter();
        let varying: Vec<(bool, Totals)> =
            states.map(|state| (state.moving, loading.fluids_in(state) + loading.cargo_in(state))).collect();
        let every = || varying.iter().map(|(_, totals)| *totals);
        let moving: Vec<Totals> =
            varying.iter().filter(|(moving, _)| *moving).map(|(_, totals)| *totals).collect();
        let jack = build.trailer.as_ref().and_then(|trailer| trailer.jack.as_ref()).map(|jack| {
            let line = rig.jack(m(jack.x_in));
            let varies = if any_fill {
                let choices = Choices::of(build, loading);
                choices.greatest(&line) - line.of(&choices.fixed)
            } else {
                every().map(|totals| line.part_of(&totals)).fold(f64::NEG_INFINITY, f64::max)
            };
            (line, varies, kg(jack.rating_lb))
        });
        Some(Self {
            limits: ratings.map(|limit| (limit.load, limit.bound_kg)).collect(),
            tongue: rig.tongue,
            judged: if moving.is_empty() { every().collect() } else { moving.clone() },
            moving,
            jack,
        })
    }

    /// Are all ratings kept with these fixed masses?
    pub fn kept(&self, fixed: &Totals) -> Kept {
        let mut kept = match &self.jack {
            Some((line, varies, bound_kg)) => Kept::of(line.of(fixed) + varies, *bound_kg),
            None => Kept::Yes,
        };
        for varying in &self.judged {
            let totals = *fixed + *varying;
            for (load, bound_kg) in &self.limits {
                kept = kept.max(Kept::of(load.of(&totals), *bound_kg));
                if kept == Kept::No {
                    return kept;
                }
            }
        }
        kept
    }

    /// How far the tongue's share of the gross mass stays within its bounds in the worst state that moves.
    pub fn tongue_margin(&self, fixed: &Totals) -> Option<f64> {
        let of_state = |varying: &Totals| {
            let totals = *fixed + *varying;
            let fraction = self.tongue.of(&totals) / totals.mass_kg;
            (fraction - LEAST_TONGUE_FRACTION).min(GREATEST_TONGUE_FRACTION - fraction)
        };
        self.moving.iter().map(of_state).reduce(f64::min)
    }
}
