//! The toy: its bay, ramp, floor and tie-downs, and what it does on the way in.

use super::super::report::{CLIMB_OFF_IN, Fit, TieDownCheck};
use super::super::toy_bay::fit::{DEFAULT_CLEARANCES, GAP_M};
use super::super::toy_bay::floor::{DEFLECTION_LIMIT, SPREADER_SPAN_M, SPREADER_WHEEL_LOAD_KG};
use super::super::toy_bay::ramp::STEEP_FOR_LOW_MACHINES_RAD;
use super::super::toy_bay::tie_downs::WHEELED_MACHINE_COUNT;
use super::*;
use crate::report::{exceeds, figure};
use crate::units::{inches, lb};

pub(super) fn judge(judged: &Judged, findings: &mut Findings) {
    for (id, toy) in judged.toys {
        if let Some(fit) = &toy.fit {
            judge_fit(id, fit, findings);
        }
        judge_ramp(judged, id, toy, findings);
        judge_floor(judged, id, toy, findings);
        judge_tie_downs(judged, id, toy.tie_downs.as_ref(), findings);
        judge_loading(judged, id, toy, findings);
    }
}

fn judge_fit(id: &str, fit: &Fit, findings: &mut Findings) {
    let usual = DEFAULT_CLEARANCES;
    let margins = [
        ("width_in", "bay's clear width", fit.width_left_in, inches(usual.width_m)),
        (
            "length_in",
            "bay's length",
            Some(fit.length_left_in),
            inches(GAP_M) * f64::from(fit.together_count + 1),
        ),
        ("height_in", "bay's clear height", fit.height_left_in, inches(usual.height_m)),
        ("width_in", "opening's width", fit.opening_width_left_in, inches(usual.door_width_m)),
        ("height_in", "opening's height", fit.opening_height_left_in, inches(usual.door_height_m)),
    ];
    for (field, what, left, wanted) in margins {
        let Some(left) = left else { continue };
        let rule = match left {
            left if exceeds(0.0, left) => &TOY_DOES_NOT_FIT,
            left if exceeds(wanted, left) => &TOY_FIT_TIGHT,
            _ => continue,
        };
        let limit = if exceeds(0.0, left) { 0.0 } else { wanted };
        findings.add(rule.finding(
            format!("/cargo/{id}/toy/{field}"),
            Some(left),
            Some(limit),
            format!("{id} leaves {} in of the {what}; {} in is wanted.", figure(left, 1), figure(wanted, 1)),
            "Measure the clear room after lining and furniture; choose a smaller toy or a larger opening.",
        ));
    }
    if let Some(width) = fit.width_left_in.filter(|width| *width >= 0.0 && exceeds(CLIMB_OFF_IN, width / 2.0))
    {
        findings.add(RIDER_CANNOT_CLIMB_OFF.finding(
            format!("/cargo/{id}/toy"),
            Some(width / 2.0),
            Some(CLIMB_OFF_IN),
            format!("With {id} standing in the middle, {} in is left on each side.", figure(width / 2.0, 1)),
            "Stand it to one side, or roll it in without a rider: 20 in on one side lets a rider climb off.",
        ));
    }
}

fn judge_ramp(judged: &Judged, id: &str, toy: &ToyReport, findings: &mut Findings) {
    let rating = judged.build.bay.as_ref().and_then(|bay| bay.ramp_rating_lb);
    if let Some(rating) = rating.filter(|rating| exceeds(toy.loading.mass_lb, *rating)) {
        findings.add(RAMP_OVER_RATING.finding(
            "/bay/ramp_rating_lb",
            Some(toy.loading.mass_lb),
            Some(rating),
            format!(
                "{id} with its rider weighs {} lb; the ramp is rated {} lb.",
                figure(toy.loading.mass_lb, 1),
                figure(rating, 1)
            ),
            "Roll it in without a rider, or use a ramp with a higher rating.",
        ));
    }
    let Some(ramp) = &toy.ramp else { return };
    let steep = STEEP_FOR_LOW_MACHINES_RAD.to_degrees();
    if exceeds(ramp.angle_deg, steep) {
        findings.add(RAMP_STEEP.finding(
            "/bay/ramp_length_in",
            Some(ramp.angle_deg),
            Some(steep),
            format!(
                "The ramp rises at {}°; above {}° low machines catch on it.",
                figure(ramp.angle_deg, 1),
                figure(steep, 0)
            ),
            "Lengthen the ramp, or lower the tail by raising the ball for loading.",
        ));
    }
    let clearance =
        judged.build.cargo().find(|(cargo, _)| *cargo == id).and_then(|(_, c)| c.toy.as_ref()?.clearance_in);
    if let (Some(needed), Some(clearance)) = (ramp.needed_clearance_in, clearance)
        && exceeds(needed, clearance)
    {
        findings.add(TOY_GROUNDS_ON_HINGE.finding(
            format!("/cargo/{id}/toy/clearance_in"),
            Some(clearance),
            Some(needed),
            format!(
                "{id} has {} in under it; the hinge asks for {} in.",
                figure(clearance, 1),
                figure(needed, 1)
            ),
            "Lengthen the ramp, or lay boards that round off the hinge.",
        ));
    }
}

fn judge_floor(judged: &Judged, id: &str, toy: &ToyReport, findings: &mut Findings) {
    let (Some(floor), Some(bay)) = (&toy.floor, &judged.build.bay) else { return };
    if let Some(allowed) = bay.panel_stress_psi.filter(|allowed| exceeds(floor.narrow_stress_psi, *allowed)) {
        findings.add(PANEL_OVER_STRESS.finding(
            "/bay/panel_stress_psi",
            Some(floor.narrow_stress_psi),
            Some(allowed),
            format!(
                "A wheel of {id} ({} lb) bends the floor to {} psi; it may carry {} psi.",
                figure(floor.wheel_lb, 0),
                figure(floor.narrow_stress_psi, 0),
                figure(allowed, 0)
            ),
            "Add crossmembers, a thicker panel or a plate under the wheel.",
        ));
    }
    let least = 1.0 / DEFLECTION_LIMIT;
    if exceeds(least, floor.span_over_deflection) {
        findings.add(FLOOR_DEFLECTS.finding(
            "/bay/panel_thickness_in",
            Some(floor.span_over_deflection),
            Some(least),
            format!(
                "Under a wheel of {id} the floor bends by span/{}; span/180 is usual at most.",
                figure(floor.span_over_deflection, 0)
            ),
            "Add crossmembers, a thicker panel or a plate under the wheel.",
        ));
    }
    let (span_in, heavy_lb) = (inches(SPREADER_SPAN_M), lb(SPREADER_WHEEL_LOAD_KG));
    let remedy = "Lay a plate under each wheel that reaches from crossmember to crossmember.";
    if let Some(spacing) = bay.crossmember_spacing_in.filter(|spacing| !exceeds(span_in, *spacing)) {
        findings.add(CROSSMEMBERS_FAR_APART.finding(
            "/bay/crossmember_spacing_in",
            Some(spacing),
            Some(span_in),
            format!(
                "{id} rides on a plain panel with crossmembers {} in apart; less than {} in is usual under wheels.",
                figure(spacing, 1),
                figure(span_in, 0)
            ),
            remedy,
        ));
    }
    if exceeds(floor.wheel_lb, heavy_lb) {
        findings.add(FLOOR_NEEDS_SPREADER.finding(
            format!("/cargo/{id}"),
            Some(floor.wheel_lb),
            Some(heavy_lb),
            format!(
                "A wheel of {id} puts {} lb on the floor; a plain panel is for {} lb.",
                figure(floor.wheel_lb, 0),
                figure(heavy_lb, 0)
            ),
            remedy,
        ));
    }
}

fn judge_tie_downs(judged: &Judged, id: &str, check: Option<&TieDownCheck>, findings: &mut Findings) {
    let Some(check) = check else {
        let rides = judged.masses.states.iter().any(|state| {
            let index = judged.build.cargo().position(|(cargo, _)| cargo == id);
            state.moving && index.is_some_and(|index| state.aboard[index])
        });
        if rides {
            findings.add(TOY_NOT_TIED_DOWN.finding(
                format!("/cargo/{id}"),
                None,
                None,
                format!("No tie-down is given for {id}."),
                "Give its tie_downs: four direct straps to anchors through floor and crossmember are usual.",
            ));
        }
        return;
    };
    let subject = || format!("/cargo/{id}/tie_downs");
    if check.count < WHEELED_MACHINE_COUNT {
        findings.add(TIE_DOWNS_FEW.finding(
            subject(),
            Some(f64::from(check.count)),
            Some(f64::from(WHEELED_MACHINE_COUNT)),
            format!("{id} is held by {} tie-down{}.", check.count, if check.count == 1 { "" } else { "s" }),
            "Use four, one at each corner; keep a motorcycle in its wheel chock besides.",
        ));
    }
    if exceeds(check.aggregate_needed_lb, check.aggregate_lb) {
        findings.add(TIE_DOWNS_BELOW_HALF_WEIGHT.finding(
            subject(),
            Some(check.aggregate_lb),
            Some(check.aggregate_needed_lb),
            format!(
                "The tie-downs of {id} count for {} lb; half its weight is {} lb.",
                figure(check.aggregate_lb, 1),
                figure(check.aggregate_needed_lb, 1)
            ),
            "Use straps with a higher working load limit, or more of them.",
        ));
    }
    for hold in &check.directions {
        if exceeds(hold.wll_needed_lb, hold.wll_lb) {
            findings.add(TIE_DOWNS_WEAK.finding(
                subject(),
                Some(hold.wll_lb),
                Some(hold.wll_needed_lb),
                format!(
                    "Against going {} the tie-downs of {id} hold {} lb within their working load limits; {} lb is asked.",
                    hold.direction,
                    figure(hold.wll_lb, 1),
                    figure(hold.wll_needed_lb, 1)
                ),
                "Add straps that pull against that direction, at a flatter angle or with a higher limit.",
            ));
        }
        if let Some(breaking) =
            hold.breaking_lb.filter(|breaking| exceeds(hold.breaking_needed_lb, *breaking))
        {
            findings.add(TIE_DOWNS_BREAK.finding(
                subject(),
                Some(breaking),
                Some(hold.breaking_needed_lb),
                format!(
                    "Against going {} the tie-downs of {id} break at {} lb; {} lb is asked.",
                    hold.direction,
                    figure(breaking, 1),
                    figure(hold.breaking_needed_lb, 1)
                ),
                "Add straps that pull against that direction, or stronger ones.",
            ));
        }
    }
}

fn judge_loading(judged: &Judged, id: &str, toy: &ToyReport, findings: &mut Findings) {
    let mass = toy.loading.mass_lb;
    if let Some(unhitched) = judged.unhitched {
        let listed = unhitched.lift_mass_lb.unwrap_or(0.0);
        let any = unhitched.any_fill_lift_mass_lb.unwrap_or(0.0);
        let behind = toy.loading.standing_moment_lb_in.is_some();
        let where_lifts = match (exceeds(mass, listed), exceeds(mass, any)) {
            (true, _) => {
                Some((listed, format!("in state {}", unhitched.lift_state.as_deref().unwrap_or("empty"))))
            }
            (false, true) => Some((any, "with some fill of the tanks and cargo".to_owned())),
            (false, false) => None,
        };
        if let (Some((limit, state)), true) = (where_lifts, behind) {
            findings.add(TAIL_CAN_DROP.finding(
                format!("/cargo/{id}"),
                Some(mass),
                Some(limit),
                format!(
                    "Unhitched, {} lb at the hinge lifts the jack {state}; {id} with its rider weighs {} lb.",
                    figure(limit, 1),
                    figure(mass, 1)
                ),
                "Load it hitched, or with rear stabilizers down; never unhitched on the jack alone.",
            ));
        }
    }
    if let Some(tongue) = toy.loading.hitched_tongue_lb.filter(|tongue| exceeds(0.0, *tongue)) {
        findings.add(BALL_PULLS_UP_ON_LOADING.finding(
            format!("/cargo/{id}"),
            Some(tongue),
            Some(0.0),
            format!("Hitched, with {id} and its rider at the hinge, the coupler may pull up on the ball with {} lb.", figure(-tongue, 1)),
            "Latch the coupler, set the tow vehicle's brake and put rear stabilizers down before loading.",
        ));
    }
}
