//! The tow vehicle's steering and damping, and the jack.

use super::super::tow_vehicle::LEAST_FRONT_FRACTION;
use super::*;
use crate::report::{exceeds, figure, percent};

/// Damping ratio below which a swing dies out slowly in the model. Common practice.
const LEAST_SWAY_DAMPING: f64 = 0.10;

pub(super) fn judge(judged: &Judged, findings: &mut Findings) {
    for (id, state) in judged.states.iter().filter(|(_, state)| state.moving) {
        judge_state(judged, id, state, findings);
    }
    let restoration = judged.build.tow_vehicle.as_ref().and_then(|tow| tow.front_load_restoration);
    if let Some(restoration) = restoration.filter(|restoration| exceeds(*restoration, 1.0)) {
        findings.add(BARS_OVER_RESTORED.finding(
            "/tow_vehicle/front_load_restoration",
            Some(restoration),
            Some(1.0),
            format!("The bars restore {} of the front axle's loss.", percent(restoration)),
            "Slacken the bars: as little as the owner's manual allows, never above 100 %.",
        ));
    }
    judge_jack(judged, findings);
}

fn judge_state(judged: &Judged, id: &str, state: &StateLoads, findings: &mut Findings) {
    let front = judged.build.tow_vehicle.as_ref().map(|tow| tow.front_axle_lb);
    let driven = state
        .with_bars
        .as_ref()
        .map(|bars| bars.front_axle_lb)
        .or(state.tow_vehicle.map(|tow| tow.front_axle_lb));
    if let (Some(front), Some(driven)) = (front, driven)
        && exceeds(LEAST_FRONT_FRACTION, driven / front)
    {
        findings.add(STEERING_LIGHT.finding(
            judged.state_pointer(id),
            Some(driven / front),
            Some(LEAST_FRONT_FRACTION),
            format!(
                "In state {id} the tow vehicle's front axle keeps {} lb, {} of its load.",
                figure(driven, 1),
                percent(driven / front)
            ),
            "Move mass rearward, or use a weight-distributing hitch set by the owner's manual.",
        ));
    }
    if let Some(damping) = state.road.sway_damping.filter(|damping| exceeds(LEAST_SWAY_DAMPING, *damping)) {
        findings.add(SWAY_DAMPING_LOW.finding(
            judged.state_pointer(id),
            Some(damping),
            Some(LEAST_SWAY_DAMPING),
            format!("In state {id} the swing of trailer and tow vehicle in the model has a damping ratio of {}.", figure(damping, 3)),
            "Move mass forward and toward the axles; compare builds with this figure, never take it for a safe speed.",
        ));
    }
    for (j, axle) in judged.axles.iter().enumerate() {
        let index = judged.masses.states.iter().position(|s| s.id == *id);
        let lifted = index.is_some_and(|i| {
            let loads = &judged.numbers.states[i].loads;
            loads.lifted && loads.axle_kg[j] <= judged.numbers.rig.unsprung_kg[j]
        });
        if lifted {
            findings.add(AXLE_LIFTS.finding(
                format!("/trailer/axles/{axle}"),
                Some(0.0),
                Some(0.0),
                format!("In state {id} axle {axle} carries nothing on its springs."),
                "Set the ball height so that the trailer stands level.",
            ));
        }
    }
}

fn judge_jack(judged: &Judged, findings: &mut Findings) {
    let jack = judged.build.trailer.as_ref().and_then(|trailer| trailer.jack.as_ref());
    let listed = judged.states.values().filter_map(|state| state.jack_lb).fold(f64::NEG_INFINITY, f64::max);
    let Some(jack) = jack else { return };
    let most = judged.unhitched.and_then(|u| u.jack_max_lb).unwrap_or(listed);
    if exceeds(most, jack.rating_lb) {
        findings.add(JACK_OVER_RATING.finding(
            "/trailer/jack/rating_lb",
            Some(most),
            Some(jack.rating_lb),
            format!(
                "Unhitched, the jack carries up to {} lb; it is rated {} lb.",
                figure(most, 1),
                figure(jack.rating_lb, 1)
            ),
            "Fit a jack with a higher static rating.",
        ));
    }
}
