//! Masses of a choice against what bears them: payload left, tongue margin, and whether ratings are kept.
//!
//! What bears them is read once for every set of options that touch it; a choice then costs sums and straight lines.

use super::space::Space;
use crate::axle_load::AxleLoad;
use crate::axle_load::screen::{Kept, Screen};
use crate::build::{Bare, Build, Part};
use crate::document::Faults;
use crate::loading::Loading;
use crate::masses::Totals;
use crate::question::Question;
use crate::units::{kg, lb};

/// Rules that parts' masses do not touch.
const OF_BEARING: &[&str] = &["tires_below_gawr", "ramp_over_rating", "panel_over_stress"];

/// What bears the masses of some choices.
#[derive(Debug)]
pub struct Bearing {
    /// A rule is broken whatever the parts weigh.
    broken: bool,
    /// Fixed masses without the parts that options change alone.
    fixed: Totals,
    /// What each option adds to them.
    added: Vec<Totals>,
    /// Rating, propane, and what varies in each state.
    payload: Option<PayloadPart>,
    /// Axles and all that hangs on them.
    axles: Axles,
}

#[derive(Debug)]
struct PayloadPart {
    gvwr_kg: f64,
    propane_kg: f64,
    states_kg: Vec<(bool, f64)>,
}

#[derive(Debug)]
enum Axles {
    /// Too little is given for axle load.
    Unknown,
    Screened(Screen),
    /// Only the whole question can tell.
    AsAWhole,
}

/// What a choice's masses come to.
#[derive(Debug, Clone, Copy)]
pub struct Weighed {
    /// Are the ratings kept?
    pub kept: Kept,
    /// Payload left in the heaviest state [lb].
    pub payload_left_lb: Option<f64>,
    /// How far the tongue's share stays within its bounds.
    pub tongue_margin_fraction: Option<f64>,
}

impl Bearing {
    /// What bears the masses of a build.
    ///
    /// - `chosen`  the options whose parts the build has in it
    pub fn of(space: &Space, build: &Build, chosen: &[usize]) -> Self {
        let mut faults = Faults::default();
        AxleLoad::missing(build, &mut faults);
        let axle_load = faults.is_empty().then(|| AxleLoad::answer(build));
        let mut findings = axle_load.iter().flat_map(|report| report.findings.iter());
        let broken = findings.any(|finding| OF_BEARING.contains(&finding.code));
        let Some((trailer, loading)) = build.trailer.as_ref().zip(Loading::of(build)) else {
            return Self {
                broken,
                fixed: Totals::default(),
                added: Vec::new(),
                payload: None,
                axles: Axles::Unknown,
            };
        };
        let bare = &trailer.bare;
        let added: Vec<Totals> = space.options.iter().map(|touch| added(bare, &touch.parts)).collect();
        let with = chosen.iter().fold(Totals::default(), |sum, option| sum + added[*option]);
        let propane =
            loading.tanks.iter().zip(&loading.fluids).filter(|(_, fluid)| fluid.counts_as_unloaded());
        let varying = |state| (loading.fluids_in(state) + loading.cargo_in(state)).mass_kg;
        let payload = PayloadPart {
            gvwr_kg: kg(trailer.gvwr_lb),
            propane_kg: propane.fold(0.0, |sum, (tank, _)| sum + tank.mass_kg),
            states_kg: loading.states.iter().map(|state| (state.moving, varying(state))).collect(),
        };
        let axles = match &axle_load {
            None => Axles::Unknown,
            Some(report) => Screen::of(build, &loading, report.unhitched.is_some())
                .map_or(Axles::AsAWhole, Axles::Screened),
        };
        Self { broken, fixed: loading.fixed() - with, added, payload: Some(payload), axles }
    }

    /// The masses of a choice that has these options in it.
    pub fn weigh(&self, chosen: &[usize]) -> Weighed {
        let Some(payload) = &self.payload else {
            return Weighed { kept: Kept::Yes, payload_left_lb: None, tongue_margin_fraction: None };
        };
        let fixed = chosen.iter().fold(self.fixed, |sum, option| sum + self.added[*option]);
        let mut kept = if self.broken {
            Kept::No
        } else {
            Kept::of(fixed.mass_kg + payload.propane_kg, payload.gvwr_kg)
        };
        let mut heaviest = f64::NEG_INFINITY;
        for (moving, varying_kg) in &payload.states_kg {
            let gross_kg = fixed.mass_kg + varying_kg;
            heaviest = heaviest.max(gross_kg);
            if *moving {
                kept = kept.max(Kept::of(gross_kg, payload.gvwr_kg));
            }
        }
        let payload_left_lb = (!payload.states_kg.is_empty()).then(|| lb(payload.gvwr_kg - heaviest));
        let (of_axles, tongue_margin_fraction) = match &self.axles {
            Axles::Unknown => (Kept::Yes, None),
            Axles::Screened(_) if kept == Kept::No => (Kept::No, None),
            Axles::Screened(screen) => (screen.kept(&fixed), screen.tongue_margin(&fixed)),
            Axles::AsAWhole => (Kept::Hardly, None),
        };
        Weighed { kept: kept.max(of_axles), payload_left_lb, tongue_margin_fraction }
    }
}

impl Weighed {
    /// Can only the whole question tell what a choice's masses come to?
    pub fn is_doubtful(&self) -> bool {
        self.kept == Kept::Hardly
    }
}

/// What an option adds to the fixed masses.
fn added(bare: &Bare, parts: &[(Option<Part>, Option<Part>)]) -> Totals {
    let totals =
        |part: &Option<Part>| part.as_ref().map_or_else(Totals::default, |part| Loading::of_part(bare, part));
    parts.iter().fold(Totals::default(), |sum, (before, after)| sum + totals(after) - totals(before))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::payload::Payload;
    use crate::report::Severity;

    /// Rules of payload and axle load that loads decide.
    const OF_LOADS: &[&str] = &[
        "gross_over_gvwr",
        "unloaded_over_gvwr",
        "axle_over_gawr",
        "tires_over_load",
        "rims_over_load",
        "coupler_over_rating",
        "ball_over_rating",
        "ball_mount_over_rating",
        "receiver_over_rating",
        "chain_below_gross",
        "tow_rating_exceeded",
        "gcwr_exceeded",
        "coupler_over_max_tongue",
        "ball_mount_over_max_tongue",
        "receiver_over_max_tongue",
        "tow_front_axle_over_gawr",
        "tow_rear_axle_over_gawr",
        "tow_vehicle_over_gvwr",
        "jack_over_rating",
    ];

    #[test]
    fn every_rule_that_may_be_broken_is_known_to_be_of_loads_or_of_what_bears_them() {
        let all = Payload::RULES.iter().chain(AxleLoad::RULES);
        for rule in all.filter(|rule| rule.severity == Severity::Violation) {
            let code = rule.code;
            assert!(OF_LOADS.contains(&code) != OF_BEARING.contains(&code), "{code}");
        }
    }
}
