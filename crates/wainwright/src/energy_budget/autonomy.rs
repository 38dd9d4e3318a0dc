//! How long the battery carries the loads without any sun, and how soon it recovers.

use super::ledger::{Conditions, Flows, Ledger};
use super::setup::Setup;

/// Beyond so many days an empty battery counts as not recovering.
pub const MOST_RECOVERY_DAYS: f64 = 60.0;

/// Hours without sun or any other source.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Autonomy {
    /// The step from which it runs.
    pub start: usize,
    /// Hours until something goes unmet, the reserve left in the battery [h]; none where the series ends first.
    pub hours_h: Option<f64>,
    /// The same with the reserve used up too [h].
    pub to_flat_h: Option<f64>,
}

/// How long the battery lasts from a step on.
///
/// - `start_soc`  its state of charge then
pub fn from(setup: &Setup, start: usize, start_soc: f64) -> Autonomy {
    let ledger = Ledger::new(setup.house.bank, setup.step_h);
    let state = ledger.at_rest(start_soc);
    let flows = setup.flows_in_the_dark();
    // The share that temperature takes away stays away.
    let usable = setup.house.temper.usable;
    let all: Vec<f64> =
        setup.through.usable.iter().map(|share| if usable > 0.0 { share / usable } else { 1.0 }).collect();
    let to_flat =
        Flows { conditions: Conditions { usable: &all, acceptance: &setup.through.acceptance }, ..flows };
    Autonomy {
        start,
        hours_h: setup.hours_until_unmet(&ledger, state, &flows, start),
        to_flat_h: setup.hours_until_unmet(&ledger, state, &to_flat, start),
    }
}

/// The step from which a full battery is used up soonest: by what is asked for alone.
///
/// Two ends of a window move through the series; the shortest window that asks for all a full battery has begins there.
pub fn worst_start(setup: &Setup) -> usize {
    let bank = &setup.house.bank;
    let held_wh = setup.house.temper.usable * bank.rated_wh * bank.discharge_efficiency;
    let count = setup.count();
    let span = if setup.comes_round { 2 * count } else { count };
    let wh = |step: usize| setup.load_w[step % count] * setup.step_h;
    let (mut end, mut asked_wh) = (0, 0.0);
    let mut worst: Option<(usize, usize)> = None;
    for start in 0..count {
        while asked_wh < held_wh && end < span {
            asked_wh += wh(end);
            end += 1;
        }
        if asked_wh < held_wh {
            break;
        }
        let length = end - start;
        if worst.is_none_or(|(_, shortest)| length < shortest) {
            worst = Some((start, length));
        }
        asked_wh -= wh(start);
    }
    worst.map_or(0, |(start, _)| start)
}

/// Days until an empty battery is full again, with sun and other sources, from a step on [days]; none where it takes more
/// than [`MOST_RECOVERY_DAYS`] or the series ends first.
pub fn recovery_days(setup: &Setup, start: usize) -> Option<f64> {
    let ledger = Ledger::new(setup.house.bank, setup.step_h);
    let others = setup.others();
    let flows = setup.flows(&others);
    let mut state = ledger.at_rest(1.0 - setup.through.usable.get(start).copied().unwrap_or(1.0));
    let most = (MOST_RECOVERY_DAYS * 24.0 / setup.step_h) as usize;
    let (mut taken, mut full) = (0, false);
    for steps in setup.from(start) {
        let steps = steps.start..steps.end.min(steps.start + most - taken.min(most));
        ledger.walk(&mut state, &flows, steps, |_, step| {
            taken += 1;
            full = step.is_full;
            !full
        });
        if full {
            return Some(taken as f64 * setup.step_h / 24.0);
        }
    }
    None
}
