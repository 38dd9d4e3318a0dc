//! The rules of payload, and a build held against them.

use super::masses::Numbers;
use super::report::{Reconciled, StateMass};
use crate::build::{Build, Fluid, Trailer};
use crate::document::Keyed;
use crate::report::shared_rules::GROSS_OVER_GVWR;
use crate::report::{Findings, exceeds, figure, percent, rules};
use crate::units::{inches, lb};

/// Above this share of the GVWR little is left for what was forgotten. Common practice.
const NEARLY_FULL: f64 = 0.95;
/// GVWR above which other rules than those used here apply [lb]. Source: 49 CFR 571.110, 571.120.
const LIGHT_TRAILER_LB: f64 = 10_000.0;

rules! {
    shared { GROSS_OVER_GVWR }
    UNLOADED_OVER_GVWR: Violation Maximum "lb", "unloaded_over_gvwr",
        "Empty, with propane, the build already weighs more than its rating: no cargo capacity is left to print.",
        "49 CFR 567.4(g)(3)";
    GROSS_NEAR_GVWR: Caution Maximum "fraction", "gross_near_gvwr",
        "In a state that moves, less than a twentieth of the rating is left.",
        "common practice";
    MASS_BAND_OVER_GVWR: Caution Maximum "lb", "mass_band_over_gvwr",
        "The listed masses are within the rating, but with every mass off by its tolerance they are not.",
        "common practice";
    WASTE_SMALLER_THAN_FRESH: Caution Minimum "gal", "waste_smaller_than_fresh",
        "The waste tanks hold less than the fresh tanks: used water backs up through the drain.",
        "common practice";
    SCALE_MASS_UNACCOUNTED: Caution Maximum "lb", "scale_mass_unaccounted",
        "A scale showed more or less than the listed masses, by more than its tolerance.",
        "common practice";
    SCALE_READINGS_DISAGREE: Caution Maximum "lb", "scale_readings_disagree",
        "Tongue and axle readings do not add up to the total reading within the scale's tolerance.",
        "equilibrium of forces";
    SCALE_READINGS_INCOMPLETE: Note - -, "scale_readings_incomplete",
        "The readings make up no total: neither a total, nor the tongue with every axle.",
        "equilibrium of forces";
    LABEL_CORRECTION_DUE: Note Maximum "lb", "label_correction_due",
        "More is added than a completed vehicle may gain before its first sale without a corrected label.",
        "49 CFR 571.110, 72 FR 68442 (paragraph S10 from memory)";
    GVWR_OVER_10000: Note Maximum "lb", "gvwr_over_10000",
        "The rating is above 10,000 lb, where other federal rules than those used here apply.",
        "49 CFR 571.110, 571.120 (scope)";
}

/// What is judged.
pub(super) struct Judged<'a> {
    pub build: &'a Build,
    pub trailer: &'a Trailer,
    pub numbers: &'a Numbers,
    pub states: &'a Keyed<StateMass>,
    pub reconciliations: &'a [Reconciled],
}

/// Holds a build against the rules.
pub(super) fn judge(judged: &Judged, findings: &mut Findings) {
    judge_states(judged, findings);
    judge_unloaded(judged, findings);
    judge_tanks(judged.build, findings);
    judge_label(judged, findings);
    for reconciled in judged.reconciliations {
        judge_scale(reconciled, findings);
    }
}

/// Pointer to a state: itself where the build gives it, else where it would be given.
fn state_pointer(build: &Build, id: &str) -> String {
    if build.states().len() == 0 { String::from("/trailer/gvwr_lb") } else { format!("/states/{id}") }
}

fn judge_states(judged: &Judged, findings: &mut Findings) {
    let gvwr_lb = judged.trailer.gvwr_lb;
    for (id, state) in judged.states.iter().filter(|(_, state)| state.moving) {
        let gross = state.gross_mass_lb;
        if exceeds(gross, gvwr_lb) {
            findings.add(GROSS_OVER_GVWR.finding(
                state_pointer(judged.build, id),
                Some(gross),
                Some(gvwr_lb),
                format!(
                    "In state {id} the trailer weighs {} lb; its rating is {} lb.",
                    figure(gross, 1),
                    figure(gvwr_lb, 1)
                ),
                format!("Leave {} lb or more at home, or carry less liquid.", figure(gross - gvwr_lb, 1)),
            ));
        } else if exceeds(state.gvwr_fraction, NEARLY_FULL) {
            findings.add(GROSS_NEAR_GVWR.finding(
                state_pointer(judged.build, id),
                Some(state.gvwr_fraction),
                Some(NEARLY_FULL),
                format!(
                    "In state {id} {} of the rating is used; {} lb is left.",
                    percent(state.gvwr_fraction),
                    figure(state.payload_left_lb, 1)
                ),
                "Keep a twentieth of the rating for what is forgotten, or weigh the finished trailer.",
            ));
        } else if exceeds(gross + state.band.worst_lb, gvwr_lb) {
            let most = gross + state.band.worst_lb;
            findings.add(MASS_BAND_OVER_GVWR.finding(
                state_pointer(judged.build, id),
                Some(most),
                Some(gvwr_lb),
                format!(
                    "In state {id} the trailer weighs {} lb by the list, but may weigh up to {} lb; its rating is {} lb.",
                    figure(gross, 1),
                    figure(most, 1),
                    figure(gvwr_lb, 1)
                ),
                "Weigh the heaviest parts, or the whole trailer, and give those masses with a smaller tolerance.",
            ));
        }
    }
}

fn judge_unloaded(judged: &Judged, findings: &mut Findings) {
    let (unloaded, gvwr) = (lb(judged.numbers.unloaded_kg), judged.trailer.gvwr_lb);
    if exceeds(unloaded, gvwr) {
        findings.add(UNLOADED_OVER_GVWR.finding(
            "/trailer/gvwr_lb",
            Some(unloaded),
            Some(gvwr),
            format!("Empty, the build weighs {} lb; the rating is {} lb.", figure(unloaded, 1), figure(gvwr, 1)),
            format!(
                "Take out {} lb of parts, or start from a trailer with a higher rating; a rating cannot be raised afterwards.",
                figure(unloaded - gvwr, 1)
            ),
        ));
    }
}

fn judge_tanks(build: &Build, findings: &mut Findings) {
    let sum = |wanted: fn(Fluid) -> bool| {
        build
            .tanks()
            .filter(|(_, tank)| wanted(tank.fluid))
            .fold(0.0, |sum, (_, tank)| sum + tank.capacity_gal)
    };
    let (fresh, waste) = (sum(|f| f == Fluid::FreshWater), sum(Fluid::is_waste));
    let first_waste = build.tanks().find(|(_, tank)| tank.fluid.is_waste());
    if let Some((id, _)) = first_waste
        && exceeds(fresh, waste)
    {
        findings.add(WASTE_SMALLER_THAN_FRESH.finding(
            format!("/tanks/{id}/capacity_gal"),
            Some(waste),
            Some(fresh),
            format!(
                "The waste tanks hold {} gal, the fresh tanks {} gal: the last {} gal would back up through the drain.",
                figure(waste, 1),
                figure(fresh, 1),
                figure(fresh - waste, 1)
            ),
            format!("Make the waste tanks hold {} gal or more, or carry less fresh water.", figure(fresh, 1)),
        ));
    }
}

fn judge_label(judged: &Judged, findings: &mut Findings) {
    let (gvwr, added) = (judged.trailer.gvwr_lb, lb(judged.numbers.parts_kg));
    let threshold = lb(super::relabel_threshold(crate::units::kg(gvwr)));
    if exceeds(added, threshold) {
        findings.add(LABEL_CORRECTION_DUE.finding(
            "/parts",
            Some(added),
            Some(threshold),
            format!(
                "{} lb of parts is added to the bare trailer; above {} lb the cargo capacity label that came with it must be corrected.",
                figure(added, 1),
                figure(threshold, 1)
            ),
            "Correct the label before the first sale; whether the shop is then an alterer is for a person who knows the law to decide.",
        ));
    }
    if exceeds(gvwr, LIGHT_TRAILER_LB) {
        findings.add(GVWR_OVER_10000.finding(
            "/trailer/gvwr_lb",
            Some(gvwr),
            Some(LIGHT_TRAILER_LB),
            format!("A rating of {} lb is outside the federal rules used here.", figure(gvwr, 1)),
            "Check labels, tires and brakes against the rules for heavier trailers.",
        ));
    }
}

fn judge_scale(reconciled: &Reconciled, findings: &mut Findings) {
    let subject = format!("/states/{}/scale", reconciled.state);
    let Some(numbers) = reconciled.numbers else {
        findings.add(SCALE_READINGS_INCOMPLETE.finding(
            subject,
            None,
            None,
            format!("The scale readings of state {} make up no total.", reconciled.state),
            "Give total_lb, or tongue_lb with every axle.",
        ));
        return;
    };
    let (mass, tolerance) = (lb(numbers.mass_kg), lb(numbers.tolerance_kg));
    if exceeds(mass.abs(), tolerance) {
        let place = match numbers.x_m {
            Some(x) if x < 0.0 => format!(" It must sit {} in ahead of the ball.", figure(-inches(x), 0)),
            Some(x) => format!(" It must sit {} in behind the ball.", figure(inches(x), 0)),
            None => String::new(),
        };
        let sense = if mass > 0.0 { "more" } else { "less" };
        findings.add(SCALE_MASS_UNACCOUNTED.finding(
            subject.clone(),
            Some(mass.abs()),
            Some(tolerance),
            format!(
                "In state {} the scale showed {} lb {sense} than is listed, beyond its own {} lb.{place}",
                reconciled.state,
                figure(mass.abs(), 1),
                figure(tolerance, 1)
            ),
            "Look for what is not on the list, or weighs other than listed; your own scale goes before a catalog.",
        ));
    }
    // Three readings or more, each off by the scale's tolerance.
    if let Some(disagreement) = numbers.disagreement_kg.map(lb) {
        let readings = reconciled.report.tolerance_lb * 3.0;
        if exceeds(disagreement.abs(), readings) {
            findings.add(SCALE_READINGS_DISAGREE.finding(
                subject,
                Some(disagreement.abs()),
                Some(readings),
                format!(
                    "In state {} the total reading and tongue plus axles differ by {} lb.",
                    reconciled.state,
                    figure(disagreement.abs(), 1)
                ),
                "Weigh again, level, with nothing moved between the readings.",
            ));
        }
    }
}
