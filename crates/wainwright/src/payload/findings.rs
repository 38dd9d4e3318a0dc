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

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use serde_json::{Value, json};

    use super::*;
    use crate::payload::Payload;
    use crate::question::ask;
    use crate::report::{Finding, Rule};

    fn findings(build: &Value) -> Vec<Finding> {
        let build =
            Build::from_json(build.to_string().as_bytes()).unwrap_or_else(|refusal| panic!("{refusal}"));
        ask::<Payload>(&build).unwrap().findings
    }

    fn trailer(gvwr_lb: f64, bare_lb: f64) -> Value {
        json!({"gvwr_lb": gvwr_lb, "bare": {"mass_lb": bare_lb, "x_in": 150, "mass_tolerance_lb": 10}})
    }

    fn with_parts(gvwr_lb: f64, part_lb: f64) -> Value {
        json!({"trailer": trailer(gvwr_lb, 2000.0), "parts": {"bench": {"mass_lb": part_lb}}})
    }

    fn with_tanks(fresh_gal: f64, grey_gal: f64) -> Value {
        json!({"trailer": trailer(7000.0, 2000.0), "tanks": {
            "fresh": {"fluid": "fresh_water", "capacity_gal": fresh_gal},
            "grey": {"fluid": "grey_water", "capacity_gal": grey_gal},
        }})
    }

    fn with_scale(scale: Value) -> Value {
        let mut trailer = trailer(7000.0, 2000.0);
        trailer["axles"] = json!({"only": {"x_in": 160, "gawr_lb": 3500, "track_in": 80}});
        json!({"trailer": trailer, "states": {"empty": {"scale": scale}}})
    }

    /// For each rule a build that breaks it and one just within.
    fn cases() -> Vec<(&'static Rule, Value, Value)> {
        let parked = json!({"trailer": trailer(1900.0, 2000.0), "states": {"parked": {"moving": false}}});
        let disagreeing = |axle: f64| json!({"total_lb": 2000, "tongue_lb": 200, "axles": {"only": axle}});
        vec![
            (
                &GROSS_OVER_GVWR,
                json!({"trailer": trailer(1999.0, 2000.0)}),
                json!({"trailer": trailer(2000.0, 2000.0)}),
            ),
            (&UNLOADED_OVER_GVWR, parked, json!({"trailer": trailer(2000.0, 2000.0)})),
            (
                &GROSS_NEAR_GVWR,
                json!({"trailer": trailer(2100.0, 2000.0)}),
                json!({"trailer": trailer(2000.0 / 0.95, 2000.0)}),
            ),
            (
                &MASS_BAND_OVER_GVWR,
                json!({"trailer": {"gvwr_lb": 2109, "bare": {"mass_lb": 2000, "mass_tolerance_lb": 110}}}),
                json!({"trailer": {"gvwr_lb": 2110, "bare": {"mass_lb": 2000, "mass_tolerance_lb": 110}}}),
            ),
            (&WASTE_SMALLER_THAN_FRESH, with_tanks(18.0, 17.9), with_tanks(18.0, 18.0)),
            (
                &SCALE_MASS_UNACCOUNTED,
                with_scale(json!({"total_lb": 2021})),
                with_scale(json!({"total_lb": 2020})),
            ),
            (&SCALE_READINGS_DISAGREE, with_scale(disagreeing(1861.0)), with_scale(disagreeing(1860.0))),
            (
                &SCALE_READINGS_INCOMPLETE,
                with_scale(json!({"tongue_lb": 200})),
                with_scale(json!({"total_lb": 2000})),
            ),
            (&LABEL_CORRECTION_DUE, with_parts(5000.0, 75.1), with_parts(5000.0, 75.0)),
            (
                &GVWR_OVER_10000,
                json!({"trailer": trailer(10001.0, 2000.0)}),
                json!({"trailer": trailer(10000.0, 2000.0)}),
            ),
        ]
    }

    #[test]
    fn every_rule_speaks_just_past_its_limit_and_not_just_within() {
        for (rule, past, within) in cases() {
            let found = findings(&past).into_iter().find(|finding| finding.code == rule.code);
            let found = found.unwrap_or_else(|| panic!("{} is not raised", rule.code));
            assert!(past.pointer(&found.subject).is_some(), "{}: {}", rule.code, found.subject);
            assert_eq!(found.value.is_some(), rule.unit.is_some(), "{}", rule.code);
            assert_eq!(found.limit.is_some(), rule.limit_kind.is_some(), "{}", rule.code);
            assert!(!findings(&within).iter().any(|finding| finding.code == rule.code), "{}", rule.code);
        }
        let covered: BTreeSet<&str> = cases().iter().map(|(rule, ..)| rule.code).collect();
        let rules: BTreeSet<&str> = RULES.iter().map(|rule| rule.code).collect();
        assert_eq!(covered, rules);
    }

    #[test]
    fn sentences_are_for_a_person() {
        for (rule, past, _) in cases() {
            for finding in findings(&past) {
                for sentence in [finding.message.as_str(), &finding.remedy, rule.meaning] {
                    assert!(sentence.ends_with('.'), "{sentence}");
                    assert!(
                        sentence.starts_with(|c: char| c.is_ascii_uppercase() || c.is_ascii_digit()),
                        "{sentence}"
                    );
                    for word in ["NaN", "inf", "Some", "None", "null", "invalid", "please", "  "] {
                        assert!(!sentence.contains(word), "{sentence}");
                    }
                }
            }
        }
    }

    #[test]
    fn the_place_of_what_is_unaccounted_for_is_named() {
        let scale = json!({"total_lb": 2200, "axles": {"only": 1900}});
        let found = findings(&with_scale(scale)).remove(0);
        assert_eq!(
            found.message,
            "In state empty the scale showed 200 lb more than is listed, beyond its own 20 lb. It must sit 20 in behind the ball."
        );
        let ahead = findings(&with_scale(json!({"total_lb": 2200, "axles": {"only": 1850}}))).remove(0);
        assert!(ahead.message.ends_with("It must sit 20 in ahead of the ball."), "{}", ahead.message);
    }
}
