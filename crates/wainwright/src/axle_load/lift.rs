//! Worst cases where an axle can lift off: loads are then straight lines only piece by piece.
//!
//! A piece is a range of moment about the ball over which the same axles carry. Over each the loads are straight
//! lines, so every extreme lies at a corner of the choices, or where an edge between two corners (a tank filling)
//! crosses from one piece to the next. All of those are looked at, the crossings from both sides: the axle that
//! just lifts takes its share of the roll with it, so that wheel loads jump there. Above [`MOST_CORNERS`] corners the pieces'
//! lines are taken over all choices instead, which encloses the truth on the safe side.

use super::independent::MAX_AXLES;
use super::line::Line;
use super::rig::{Rig, Springs};
use super::worst::{Choices, Extreme, Lift, Range, Source, Witness, Worst};
use crate::masses::Totals;

/// So many corners are looked at one by one.
const MOST_CORNERS: usize = 1 << 12;
/// So much beside a crossing it is looked at, as a part of the moment there: more than sums round by, and less than
/// a figure shows.
const BESIDE: f64 = 1e-11;
/// A pick is four bits of a [`Witness`].
const MOST_GROUPS: usize = 16;

/// Corrects worst cases found with every axle taken as carrying.
pub(super) fn widen(choices: &Choices, rig: &Rig, worst: &mut Worst) {
    let Some(springs) = &rig.springs else { return };
    let corners = choices
        .groups()
        .try_fold(1_usize, |n, (options, _)| n.checked_mul(options.len() + 1).filter(|n| *n <= MOST_CORNERS));
    let nameable =
        choices.groups().len() <= MOST_GROUPS && choices.groups().all(|(options, _)| options.len() < 16);
    if corners.is_some() && nameable {
        forget(rig, worst);
        let kinks = kinks(rig, springs);
        visit(choices, rig, &kinks, 0, choices.fixed, 0, worst);
        worst.lift = Lift::Exact;
    } else {
        enclose(choices, rig, springs, worst);
        worst.lift = Lift::Bounded;
    }
}

fn forget(rig: &Rig, worst: &mut Worst) {
    let witness = Witness::Corner { picks: 0, partial: None };
    let nothing = Range {
        min: Extreme { value: f64::INFINITY, witness },
        max: Extreme { value: f64::NEG_INFINITY, witness },
    };
    worst.tongue = nothing;
    worst.tongue_fraction = nothing;
    for j in 0..rig.count {
        (worst.axle[j], worst.left[j], worst.right[j]) = (nothing, nothing, nothing);
    }
}

/// Moments of everything aboard at which an axle just lifts [kg·m].
fn kinks(rig: &Rig, springs: &Springs) -> [f64; MAX_AXLES] {
    let axles = &springs.axles[..rig.count];
    let unsprung = rig.x_m.iter().zip(rig.unsprung_kg).fold(0.0, |sum, (x, u)| sum + x * u);
    let mut kinks = [f64::NAN; MAX_AXLES];
    for (kink, lifting) in kinks.iter_mut().zip(axles) {
        let slope = (lifting.free_height_m - rig.ball_height_m) / lifting.x_m;
        *kink = axles.iter().fold(unsprung, |sum, axle| {
            let deflection = axle.free_height_m - rig.ball_height_m - slope * axle.x_m;
            sum + axle.rate_kg_per_m * deflection.max(0.0) * axle.x_m
        });
    }
    kinks
}

/// Looks at every corner reached by choosing from group `group` on, and at the crossings of its tanks' edges.
fn visit(
    choices: &Choices,
    rig: &Rig,
    kinks: &[f64; MAX_AXLES],
    group: usize,
    aboard: Totals,
    picks: u64,
    worst: &mut Worst,
) {
    let Some((options, _)) = choices.groups().nth(group) else {
        return look(choices, rig, kinks, aboard, picks, worst);
    };
    visit(choices, rig, kinks, group + 1, aboard, picks, worst);
    for (index, option) in options.iter().enumerate() {
        let picked = picks | (index as u64 + 1) << (4 * group);
        visit(choices, rig, kinks, group + 1, aboard + *option, picked, worst);
    }
}

/// One corner, and every edge along which one of its full tanks empties.
fn look(
    choices: &Choices,
    rig: &Rig,
    kinks: &[f64; MAX_AXLES],
    aboard: Totals,
    picks: u64,
    worst: &mut Worst,
) {
    worst.include(rig, aboard.mass_kg, &rig.loads(&aboard), Witness::Corner { picks, partial: None });
    for (group, (options, sources)) in choices.groups().enumerate() {
        let full = picks >> (4 * group) & 15 == 1 && matches!(sources, [Source::Tank(_)]);
        if !full {
            continue;
        }
        let empty = aboard - options[0];
        for fill in kinks.iter().flat_map(|kink| {
            [1.0 - BESIDE, 1.0 + BESIDE].map(|side| (kink * side - empty.x_kg_m) / options[0].x_kg_m)
        }) {
            if fill > 0.0 && fill < 1.0 {
                let totals = empty + options[0].times(fill);
                let witness = Witness::Corner { picks, partial: Some((group, fill)) };
                worst.include(rig, totals.mass_kg, &rig.loads(&totals), witness);
            }
        }
    }
}

/// Widens every range to what any piece's lines reach over all choices.
fn enclose(choices: &Choices, rig: &Rig, springs: &Springs, worst: &mut Worst) {
    let mut order: [usize; MAX_AXLES] = [0, 1, 2];
    let lifts_at = |j: &usize| (springs.axles[*j].free_height_m - rig.ball_height_m) / springs.axles[*j].x_m;
    order[..rig.count].sort_by(|a, b| lifts_at(b).total_cmp(&lifts_at(a)));
    for carrying in 1..=rig.count {
        let mut carries = [false; MAX_AXLES];
        order[..carrying].iter().for_each(|j| carries[*j] = true);
        enclose_piece(choices, &rig.carrying(springs, carries), worst);
    }
}

fn enclose_piece(choices: &Choices, piece: &Rig, worst: &mut Worst) {
    let widen = |range: &mut Range<Extreme>, other: Range<Extreme>| {
        if other.min.value < range.min.value {
            range.min = other.min;
        }
        if other.max.value > range.max.value {
            range.max = other.max;
        }
    };
    widen(&mut worst.tongue, choices.line(piece.tongue));
    widen(&mut worst.tongue_fraction, choices.quotient(piece.tongue, Line::GROSS));
    for j in 0..piece.count {
        widen(&mut worst.axle[j], choices.line(piece.axle[j]));
        widen(&mut worst.left[j], choices.line(piece.wheel(j, false)));
        widen(&mut worst.right[j], choices.line(piece.wheel(j, true)));
    }
}
