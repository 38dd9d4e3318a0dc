//! How long the air conditioner takes to cool a box that stood in the sun.

use super::case::Case;
use super::cooler::Cooler;
use super::gains::HOURS;
use super::heater::Heater;
use super::lap::{Plan, Room, Step};
use super::network::thermostat::Setpoints;

/// The lining counts as cool at this much above the air's set temperature [K].
const LINING_K: f64 = 3.0;

/// A pull-down.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PullDown {
    /// The hour at which it is switched on.
    pub start_hour: usize,
    /// Air before that [°C].
    pub soaked_c: f64,
    /// Lining before that [°C].
    pub soaked_lining_c: f64,
    /// How long until the air is at the set temperature [h]; none where it takes more than a day.
    pub air_h: Option<f64>,
    /// How long until the lining is within 3 K of it [h]; none where it takes more than a day.
    pub lining_h: Option<f64>,
}

/// Cools a box that stood closed, with nobody in it, until it came back to the same every day.
///
/// - `empty`       the box with nobody in it
/// - `lived_in`    the box with those who switch the air conditioner on
/// - `start_hour`  when they do
/// - `cool_c`      what it is set to [°C]
/// - `room`        where the empty box stands at midnight
pub fn pull_down(
    empty: &Case,
    lived_in: &Case,
    cooler: &Cooler,
    start_hour: usize,
    cool_c: f64,
    room: &Room,
) -> PullDown {
    let count = empty.course.count();
    let start = start_hour * count / HOURS;
    let mut room = Room { guess: None, ..*room };
    empty.walker().walk_over(&empty.course, 0..start, &mut room, Plan::Free, |_| {});
    let mut found = PullDown {
        start_hour,
        soaked_c: room.state.air_c,
        soaked_lining_c: room.state.mass_c,
        air_h: None,
        lining_h: None,
    };
    let mut passed_h = 0.0;
    let step_h = lived_in.course.step_s / 3600.0;
    if found.soaked_c <= cool_c {
        found.air_h = Some(0.0);
    }
    if found.soaked_lining_c <= cool_c + LINING_K {
        found.lining_h = Some(0.0);
    }
    let setpoints = Setpoints { heat_c: f64::NEG_INFINITY, cool_c };
    let plan = Plan::Unit { cooler, setpoints, heater: Heater::NONE };
    for steps in [start..count, 0..start] {
        lived_in.walker().walk_over(&lived_in.course, steps, &mut room, plan, |step: &Step| {
            passed_h += step_h;
            // The thermostat ends a step at the set temperature to the last bits.
            if found.air_h.is_none() && step.after.air_c <= cool_c + 1e-6 {
                found.air_h = Some(passed_h);
            }
            if found.lining_h.is_none() && step.after.mass_c <= cool_c + LINING_K {
                found.lining_h = Some(passed_h);
            }
        });
    }
    found
}
