//! Ratings: kept, nearly reached, broken, or not given.

use super::super::independent::loads_per_ball_height_kg_per_m;
use super::super::limits::{LimitName, TIRES, side_tires_kg};
use super::super::report::Check;
use super::*;
use crate::report::{Rule, exceeds, figure, percent};
use crate::units::{inches, kg, lb};

/// Of what tires may carry this much should stay in reserve. Common practice.
const TIRE_RESERVE: f64 = 0.10;

pub(super) fn judge(judged: &Judged, findings: &mut Findings) {
    for (name, check) in judged.checks {
        if let Some(rule) = rule_of(*name) {
            judge_check(judged, check, *name, rule, findings);
        }
    }
    judge_running_gear(judged, findings);
    not_given(judged, findings);
}

/// The rule that a limit falls under; none for shares of the gross mass, which have rules of their own.
fn rule_of(name: LimitName) -> Option<&'static Rule> {
    Some(match name {
        LimitName::Gvwr => &GROSS_OVER_GVWR,
        LimitName::CouplerRating => &COUPLER_OVER_RATING,
        LimitName::BallRating => &BALL_OVER_RATING,
        LimitName::BallMountRating => &BALL_MOUNT_OVER_RATING,
        LimitName::ReceiverRating => &RECEIVER_OVER_RATING,
        LimitName::TowRating => &TOW_RATING_EXCEEDED,
        LimitName::Chain => &CHAIN_BELOW_GROSS,
        LimitName::Gcwr => &GCWR_EXCEEDED,
        LimitName::Gawr(_) => &AXLE_OVER_GAWR,
        LimitName::Tires(_) => &TIRES_OVER_LOAD,
        LimitName::Rims(_) => &RIMS_OVER_LOAD,
        LimitName::CouplerTongue => &COUPLER_OVER_MAX_TONGUE,
        LimitName::BallMountTongue => &BALL_MOUNT_OVER_MAX_TONGUE,
        LimitName::ReceiverTongue => &RECEIVER_OVER_MAX_TONGUE,
        LimitName::TowFrontGawr => &TOW_FRONT_AXLE_OVER_GAWR,
        LimitName::TowRearGawr => &TOW_REAR_AXLE_OVER_GAWR,
        LimitName::TowGvwr => &TOW_VEHICLE_OVER_GVWR,
        LimitName::AxleLift(_)
        | LimitName::TongueFractionMin
        | LimitName::TongueFractionMax
        | LimitName::Floor => return None,
    })
}

fn judge_check(
    judged: &Judged,
    check: &Check,
    name: LimitName,
    rule: &'static Rule,
    findings: &mut Findings,
) {
    let over = exceeds(check.value, check.bound);
    if !over && check.used_fraction < 1.0 - TIRE_RESERVE && !exceeds(check.worst_value, check.bound) {
        return; // nothing to say, and no words to find
    }
    let carries = carries(judged, name);
    let (value, bound) = (figure(check.value, 1), figure(check.bound, 1));
    if over {
        findings.add(rule.finding(
            check.subject.clone(),
            Some(check.value),
            Some(check.bound),
            format!("In state {} {} {value} lb; the limit is {bound} lb.", check.state, carries),
            remedy(judged, check, name),
        ));
        return;
    }
    if matches!(name, LimitName::Tires(_)) {
        if exceeds(check.used_fraction, 1.0 - TIRE_RESERVE) {
            findings.add(TIRE_RESERVE_SMALL.finding(
                check.subject.clone(),
                Some(check.used_fraction),
                Some(1.0 - TIRE_RESERVE),
                format!(
                    "In state {} {} {value} lb, {} of what the tires may carry.",
                    check.state,
                    carries,
                    percent(check.used_fraction)
                ),
                "Fit tires of a higher load range with rims to match, or move mass off that wheel.",
            ));
        }
    } else if check.status == "near" {
        findings.add(LIMIT_NEAR.finding(
            check.subject.clone(),
            Some(check.used_fraction),
            Some(super::super::report::NEAR),
            format!(
                "In state {} {} {value} lb, {} of its limit of {bound} lb.",
                check.state,
                carries,
                percent(check.used_fraction)
            ),
            "Weigh it: an estimate is easily a twentieth off.",
        ));
    }
    if exceeds(check.worst_value, check.bound) {
        findings.add(LIMIT_OVER_IN_SOME_STATE.finding(
            check.subject.clone(),
            Some(check.worst_value),
            Some(check.bound),
            format!(
                "The listed states keep this limit, but with some tank fill and cargo {} {} lb; the limit is {bound} lb.{}",
                carries,
                figure(check.worst_value, 1),
                in_normal_use(judged, check, name)
            ),
            "The worst case in the report names that fill and cargo: tell the owner to avoid it, or make room for it.",
        ));
    }
}

/// What carries, in words that a number of pounds can follow.
fn carries(judged: &Judged, name: LimitName) -> String {
    match name {
        LimitName::Gawr(j) => format!("axle {} carries", judged.axles[j]),
        LimitName::Tires(j) => format!("the heavier side of axle {} puts on its tires", judged.axles[j]),
        LimitName::Rims(j) => format!("the heavier side of axle {} puts on its rims", judged.axles[j]),
        LimitName::Gcwr => "trailer and tow vehicle weigh".to_owned(),
        LimitName::TowFrontGawr => "the tow vehicle's front axle carries".to_owned(),
        LimitName::TowRearGawr => "the tow vehicle's rear axle carries".to_owned(),
        LimitName::TowGvwr => "the tow vehicle with the tongue's load weighs".to_owned(),
        LimitName::CouplerTongue | LimitName::BallMountTongue | LimitName::ReceiverTongue => {
            "the tongue carries".to_owned()
        }
        _ => "the trailer weighs".to_owned(),
    }
}

/// Whether a limit of the gross mass or of the tongue holds while water only goes round.
fn in_normal_use(judged: &Judged, check: &Check, name: LimitName) -> String {
    let Some(used) = judged.normal_use else { return String::new() };
    let value = match name {
        LimitName::Gcwr => return String::new(),
        name if name.is_gross() => used.gross_mass_max_lb,
        name if name.is_tongue() => used.tongue_max_lb,
        _ => return String::new(),
    };
    if exceeds(value, check.bound) {
        return String::new();
    }
    format!(
        " In normal use, where waste tanks hold no more than came out of the fresh tanks, it stays at {} lb or less.",
        figure(value, 1)
    )
}

fn remedy(judged: &Judged, check: &Check, name: LimitName) -> String {
    let over = figure(check.value - check.bound, 1);
    match name {
        LimitName::Gawr(j) if judged.numbers.rig.springs.is_some() => ball_remedy(judged, check, j),
        LimitName::Gawr(_) => {
            format!("Take {over} lb off this axle: leave mass at home or move it toward the tongue.")
        }
        LimitName::Tires(_) | LimitName::Rims(_) => {
            format!("Take {over} lb off this side: move mass across, or fit parts with a higher rating.")
        }
        LimitName::CouplerTongue
        | LimitName::BallMountTongue
        | LimitName::ReceiverTongue
        | LimitName::TowRearGawr
        | LimitName::TowGvwr => {
            format!("Take {over} lb off: move mass rearward, toward the axles, or off the tow vehicle.")
        }
        LimitName::TowFrontGawr => {
            format!("Take {over} lb off: slacken the spring bars or unload the tow vehicle.")
        }
        LimitName::Chain => format!("Fit chains that each break at {} lb or more.", figure(check.value, 0)),
        _ => format!("Leave {over} lb at home, or use a part with a higher rating; the lowest part governs."),
    }
}

/// What the ball's height does to one of several independent axles.
fn ball_remedy(judged: &Judged, check: &Check, axle: usize) -> String {
    let rig = &judged.numbers.rig;
    let over_lb = check.value - check.bound;
    let changes = rig.springs.map(|springs| loads_per_ball_height_kg_per_m(&springs.axles[..rig.count]));
    let per_m = changes.map_or(0.0, |changes| changes[axle]);
    let over = figure(over_lb, 1);
    if per_m == 0.0 {
        return format!("Take {over} lb off this axle: leave mass at home or move it toward the tongue.");
    }
    let ball_in = inches(rig.ball_height_m - kg(over_lb) / per_m);
    let (way, bound) = if per_m > 0.0 { ("Lower", "less") } else { ("Raise", "more") };
    format!(
        "{way} the ball from {} in to {} in or {bound}, or take {over} lb off this axle.",
        figure(inches(rig.ball_height_m), 1),
        figure(ball_in, 1)
    )
}

fn judge_running_gear(judged: &Judged, findings: &mut Findings) {
    let mut gawr_sum = 0.0;
    for (id, axle) in judged.build.axles() {
        gawr_sum += axle.gawr_lb;
        let molded = crate::build::Axle { tire_psi: None, ..axle.clone() };
        let Some(tires) = side_tires_kg(&molded).map(|side| 2.0 * lb(side)) else { continue };
        if exceeds(axle.gawr_lb, tires) {
            findings.add(TIRES_BELOW_GAWR.finding(
                format!("/trailer/axles/{id}/tire_max_load_lb"),
                Some(tires),
                Some(axle.gawr_lb),
                format!(
                    "The tires of axle {id} together carry {} lb; the axle is rated {} lb.",
                    figure(tires, 1),
                    figure(axle.gawr_lb, 1)
                ),
                format!(
                    "Fit tires of {} lb or more each.",
                    figure(axle.gawr_lb / f64::from(axle.tires.unwrap_or(TIRES)), 0)
                ),
            ));
        }
    }
    let gvwr = judged.build.trailer.as_ref().map_or(f64::NAN, |trailer| trailer.gvwr_lb);
    if exceeds(gvwr, gawr_sum) {
        findings.add(GAWR_SUM_BELOW_GVWR.finding(
            "/trailer/gvwr_lb",
            Some(gawr_sum),
            Some(gvwr),
            format!(
                "The axles together are rated {} lb, the trailer {} lb.",
                figure(gawr_sum, 1),
                figure(gvwr, 1)
            ),
            format!(
                "Loaded to its full rating, keep {} lb or more on the tongue.",
                figure(gvwr - gawr_sum, 1)
            ),
        ));
    }
    judge_shares(judged, findings);
}

/// Independent axles without rates: how much one may carry.
fn judge_shares(judged: &Judged, findings: &mut Findings) {
    let rig = &judged.numbers.rig;
    if !rig.shares_unknown {
        return;
    }
    let heaviest = judged.numbers.states.iter().zip(&judged.masses.states).filter(|(_, state)| state.moving);
    let heaviest = heaviest.map(|(numbers, _)| numbers.loads.axle_kg.iter().sum::<f64>()).fold(0.0, f64::max);
    let bound = lb(super::super::independent::load_bound_without_rates_kg(heaviest, rig.count));
    let least = judged.build.axles().map(|(_, axle)| axle.gawr_lb).fold(f64::INFINITY, f64::min);
    findings.add(AXLE_SHARES_UNKNOWN.finding(
        "/trailer/suspension",
        Some(bound),
        Some(least),
        format!(
            "How the independent axles share is not known: one may carry {} lb; the least rating is {} lb.",
            figure(bound, 1),
            figure(least, 1)
        ),
        "Give rate_lb_per_in for every axle, or weigh each axle at the ball height in use.",
    ));
}

/// One note for every rating that is not there.
fn not_given(judged: &Judged, findings: &mut Findings) {
    let build = judged.build;
    let mut note = |subject: String, what: &str| {
        findings.add(RATING_NOT_GIVEN.finding(
            subject,
            None,
            None,
            format!("Not given, and so not checked: {what}."),
            "Read it off the part's plate, label or sidewall and give it.",
        ));
    };
    let Some(trailer) = &build.trailer else { return };
    match &trailer.coupler {
        None => note("/trailer".to_owned(), "the coupler's ratings"),
        Some(coupler) if coupler.rating_lb.is_none() || coupler.max_tongue_lb.is_none() => {
            note("/trailer/coupler".to_owned(), "rating_lb or max_tongue_lb of the coupler");
        }
        Some(_) => {}
    }
    for (id, axle) in build.axles() {
        if axle.tire_max_load_lb.is_none() {
            note(format!("/trailer/axles/{id}"), "tire_max_load_lb");
        }
    }
    if let Some(tow) = &build.tow_vehicle {
        let ratings = [
            ("front_gawr_lb", tow.front_gawr_lb),
            ("rear_gawr_lb", tow.rear_gawr_lb),
            ("gvwr_lb", tow.gvwr_lb),
            ("gcwr_lb", tow.gcwr_lb),
            ("tow_rating_lb", tow.tow_rating_lb),
            ("receiver_max_tongue_lb", tow.receiver_max_tongue_lb),
        ];
        let missing: Vec<&str> =
            ratings.iter().filter(|(_, rating)| rating.is_none()).map(|(name, _)| *name).collect();
        if !missing.is_empty() {
            note("/tow_vehicle".to_owned(), &missing.join(", "));
        }
    }
    if let Some(bay) = &build.bay
        && bay.ramp_length_in.is_some()
        && bay.ramp_rating_lb.is_none()
    {
        note("/bay".to_owned(), "ramp_rating_lb");
    }
}
