//! The tongue: its share of the gross mass, and which way it pulls.

use super::super::limits::{GREATEST_TONGUE_FRACTION, LEAST_TONGUE_FRACTION};
use super::*;
use crate::report::{exceeds, figure, percent};
use crate::units::lb;

pub(super) fn judge(judged: &Judged, findings: &mut Findings) {
    for (id, state) in judged.states {
        judge_state(judged, id, state, findings);
    }
    judge_any_fill(judged, findings);
}

fn judge_state(judged: &Judged, id: &str, state: &StateLoads, findings: &mut Findings) {
    let (tongue, gross, fraction) = (state.tongue_lb, state.gross_mass_lb, state.tongue_fraction);
    let carries = || {
        let (tongue, gross) = (figure(tongue, 1), figure(gross, 1));
        format!("In state {id} the tongue carries {tongue} lb, {} of {gross} lb.", percent(fraction))
    };
    if exceeds(0.0, tongue) {
        findings.add(TONGUE_PULLS_UP.finding(
            judged.state_pointer(id),
            Some(tongue),
            Some(0.0),
            format!("In state {id} the tongue pulls up with {} lb.", figure(-tongue, 1)),
            "Move mass forward of the axles, or leave what stands behind them at home.",
        ));
    }
    if !state.moving {
        return;
    }
    if exceeds(LEAST_TONGUE_FRACTION, fraction) {
        let wanted = LEAST_TONGUE_FRACTION * gross;
        findings.add(TONGUE_BELOW_TENTH.finding(
            judged.state_pointer(id),
            Some(fraction),
            Some(LEAST_TONGUE_FRACTION),
            format!("{} Below 10 % a trailer is more likely to sway.", carries()),
            shift(judged, wanted - tongue, wanted, "forward"),
        ));
    } else if exceeds(fraction, GREATEST_TONGUE_FRACTION) {
        let wanted = GREATEST_TONGUE_FRACTION * gross;
        findings.add(TONGUE_ABOVE_15_PERCENT.finding(
            judged.state_pointer(id),
            Some(fraction),
            Some(GREATEST_TONGUE_FRACTION),
            format!("{} Above 15 % it unloads the tow vehicle's front axle.", carries()),
            shift(judged, tongue - wanted, wanted, "rearward"),
        ));
    } else {
        judge_band(judged, id, state, findings);
    }
}

/// How much must move how far: moving w by d changes the tongue by w d / L.
fn shift(judged: &Judged, by_lb: f64, wanted_lb: f64, way: &str) -> String {
    let station_in = crate::units::inches(judged.numbers.rig.group_x_m);
    format!(
        "Move mass {way} until the tongue carries {} lb: {} lb·in in all, such as 100 lb by {} in.",
        figure(wanted_lb, 1),
        figure(by_lb * station_in, 0),
        figure(by_lb * station_in / 100.0, 0)
    )
}

fn judge_band(judged: &Judged, id: &str, state: &StateLoads, findings: &mut Findings) {
    let band = &state.tongue_band;
    if exceeds(LEAST_TONGUE_FRACTION, band.min_fraction)
        || exceeds(band.max_fraction, GREATEST_TONGUE_FRACTION)
    {
        findings.add(TONGUE_BAND_WIDE.finding(
            judged.state_pointer(id),
            Some(state.tongue_fraction),
            None,
            format!(
                "In state {id} the tongue is at {}, but with the tolerances given it may be anywhere from {} to {}; most likely within ± {}.",
                percent(state.tongue_fraction),
                percent(band.min_fraction),
                percent(band.max_fraction),
                percent(band.scatter_fraction)
            ),
            "Weigh the tongue at hand-over, or weigh the heavy things that stand far from the axles.",
        ));
    }
}

/// The verdict over every fill and every choice of cargo, where the listed states are fine.
fn judge_any_fill(judged: &Judged, findings: &mut Findings) {
    let moving = || judged.states.values().filter(|state| state.moving).map(|state| state.tongue_fraction);
    let worst = &judged.numbers.worst.tongue_fraction;
    let (least, most) = (worst.min.value, worst.max.value);
    if exceeds(LEAST_TONGUE_FRACTION, least) && !moving().any(|f| exceeds(LEAST_TONGUE_FRACTION, f)) {
        findings.add(TONGUE_BELOW_TENTH_IN_SOME_STATE.finding(
            "/trailer/axles",
            Some(least),
            Some(LEAST_TONGUE_FRACTION),
            format!(
                "The listed states are fine; with {} the tongue falls to {}.",
                witness(judged, &worst.min),
                percent(least)
            ),
            "Tell the owner to avoid that state, or bring tanks and stands nearer to the axles.",
        ));
    }
    if exceeds(most, GREATEST_TONGUE_FRACTION) && !moving().any(|f| exceeds(f, GREATEST_TONGUE_FRACTION)) {
        findings.add(TONGUE_ABOVE_15_PERCENT_IN_SOME_STATE.finding(
            "/trailer/axles",
            Some(most),
            Some(GREATEST_TONGUE_FRACTION),
            format!(
                "The listed states are fine; with {} the tongue rises to {} ({} lb at most in any state).",
                witness(judged, &worst.max),
                percent(most),
                figure(lb(judged.numbers.worst.tongue.max.value), 1)
            ),
            "Tell the owner to avoid that state, or bring what stands far forward nearer to the axles.",
        ));
    }
}

/// A worst state in words.
fn witness(judged: &Judged, extreme: &super::super::worst::Extreme) -> String {
    let mut fill = vec![0.0; judged.masses.tanks.len()];
    let mut aboard = vec![false; judged.masses.cargo.len()];
    judged.numbers.choices.state(&extreme.witness, &mut fill, &mut aboard);
    let tanks = judged.build.tanks().zip(fill).filter(|(_, fill)| *fill > 0.0);
    let tanks = tanks.map(
        |((id, _), fill)| if fill < 1.0 { format!("{id} {}", percent(fill)) } else { format!("{id} full") },
    );
    let cargo =
        judged.build.cargo().zip(aboard).filter(|(_, aboard)| *aboard).map(|((id, _), _)| id.to_owned());
    let aboard: Vec<String> = tanks.chain(cargo).collect();
    match aboard.as_slice() {
        [] => "nothing aboard and every tank empty".to_owned(),
        [one] => format!("{one} and nothing else aboard"),
        [first @ .., last] => format!("{} and {last} aboard and nothing else", first.join(", ")),
    }
}
