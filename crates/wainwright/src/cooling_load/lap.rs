//! A walk of the box through a series, with whatever cools and heats it.

use std::ops::Range;

use crate::air::properties::specific_heat_j_kg_k;
use crate::air::saturation::saturated_ratio;

use super::air_exchange::moisture::{EVAPORATION_J_KG, stepped_ratio};
use super::body::BoxNetwork;
use super::cooler::Cooler;
use super::course::Course;
use super::equipment::cycling::{latent_kept, run_time_fraction};
use super::equipment::unit::Performance;
use super::gains::HOURS;
use super::heater::Heater;
use super::network::thermostat::{Plant, Setpoints, hold, hold_from};
use super::network::{Drive, Response, State};

/// Largest difference of two laps that is none [K].
const ALIKE_K: f64 = 0.01;
/// Largest difference of two laps that is none, in humidity [kg/kg].
const ALIKE_RATIO: f64 = 1e-5;
/// So near to where it stood at that hour of the lap before, the rest of a lap is as that of the lap before [K].
const REJOINED_K: f64 = 1e-3;
/// The same in humidity [kg/kg].
const REJOINED_RATIO: f64 = 1e-6;
/// Humidity ratios so near carry heat alike: what the air carries is known to 0.2 percent [kg/kg].
const AS_MOIST_RATIO: f64 = 1e-3;
/// So much colder air than there is, is asked what it holds: most steps after need not ask again [K].
const AHEAD_K: f64 = 2.0;
/// After so many laps a day is taken as it is.
const MOST_LAPS: usize = 30;

/// What cools and heats the box.
#[derive(Debug, Clone, Copy)]
pub enum Plan<'u> {
    /// Nothing.
    Free,
    /// As much as is asked for, the air kept at one humidity.
    Ideal {
        /// Between which temperatures the air may float.
        setpoints: Setpoints,
        /// Humidity ratio that is kept [kg/kg].
        ratio: f64,
    },
    /// A heater alone.
    Heated {
        /// Below which temperature it heats.
        setpoints: Setpoints,
        /// The heater.
        heater: Heater,
    },
    /// An air conditioner and a heater.
    Unit {
        /// The air conditioner.
        cooler: &'u Cooler,
        /// Between which temperatures the air may float.
        setpoints: Setpoints,
        /// The heater.
        heater: Heater,
    },
}

/// Where the box stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Room {
    /// Its temperatures.
    pub state: State,
    /// Humidity ratio of its air [kg/kg].
    pub ratio: f64,
    /// What the air conditioner would do in it, from which its next state is found the sooner.
    pub guess: Option<Performance>,
}

impl Room {
    /// A room of one temperature.
    pub fn even(air_c: f64, ratio: f64) -> Self {
        Self { state: State::even(air_c), ratio, guess: None }
    }
}

/// What happened in a step.
#[derive(Debug, Clone, Copy)]
pub struct Step<'r> {
    /// The step.
    pub index: usize,
    /// Where the box stood before it.
    pub before: State,
    /// Where it stands after it.
    pub after: State,
    /// What drove it, without what cools and heats.
    pub drive: Drive,
    /// The network's answer in it.
    pub response: &'r Response,
    /// Heat given to the air [W]: above 0 heating, below 0 cooling.
    pub power_w: f64,
    /// Heat taken out with water [W].
    pub latent_w: f64,
    /// Heat brought in with the water of air that a hose has drawn in [W].
    pub brought_w: f64,
    /// Humidity ratio after it [kg/kg].
    pub ratio: f64,
    /// Share of the step in which the air conditioner ran.
    pub run_fraction: f64,
    /// What it drew on the mean [W].
    pub electric_w: f64,
    /// Was it beyond the conditions that its curves are trusted in?
    pub extrapolated: bool,
}

/// What walks through series: the box's network and its air.
#[derive(Debug, Clone, Copy)]
pub struct Walker<'n> {
    /// The network.
    pub of: &'n BoxNetwork,
    /// What air and cloth hold of water, as a mass of air [kg].
    pub air_kg: f64,
    /// Pressure of the air [Pa].
    pub pressure_pa: f64,
}

impl Walker<'_> {
    /// Walks through a whole series, as [`Walker::walk_over`].
    pub fn walk(&self, course: &Course, room: &mut Room, plan: Plan, each: impl FnMut(&Step)) {
        self.walk_over(course, 0..course.count(), room, plan, each);
    }

    /// Walks through steps of a series.
    ///
    /// - `course`  what drives the box
    /// - `steps`   the steps, within the series
    /// - `room`    where the box stands; where it ends
    /// - `plan`    what cools and heats it
    /// - `each`    called after every step
    pub fn walk_over(
        &self,
        course: &Course,
        steps: Range<usize>,
        room: &mut Room,
        plan: Plan,
        mut each: impl FnMut(&Step),
    ) {
        self.walk_while(course, steps, room, plan, |step| {
            each(step);
            true
        });
    }

    /// Walks through steps of a series as [`Walker::walk_over`], as long as `each` says so.
    fn walk_while(
        &self,
        course: &Course,
        steps: Range<usize>,
        room: &mut Room,
        plan: Plan,
        mut each: impl FnMut(&Step) -> bool,
    ) {
        let network = &self.of.network;
        // Air that comes in, and the humidity ratio by which it carries heat.
        let (mut air_kg_s, mut air_ratio) = (f64::NAN, f64::NAN);
        // Air of a temperature, and the humidity ratio that it holds at least.
        let mut holds = (f64::INFINITY, 0.0);
        let mut response = network.response(0.0, course.step_s);
        for index in steps {
            let is_as_moist = (course.outdoor_ratio[index] - air_ratio).abs() < AS_MOIST_RATIO;
            if course.air_kg_s[index] != air_kg_s || !is_as_moist {
                (air_kg_s, air_ratio) = (course.air_kg_s[index], course.outdoor_ratio[index]);
                let ventilation_w_k = air_kg_s * specific_heat_j_kg_k(air_ratio);
                response = network.response(ventilation_w_k, course.step_s);
            }
            let drive = course.drive(index, self.of, room.state.air_c);
            let mut step = Step {
                index,
                before: room.state,
                after: room.state,
                drive,
                response: &response,
                power_w: 0.0,
                latent_w: 0.0,
                brought_w: 0.0,
                ratio: room.ratio,
                run_fraction: 0.0,
                electric_w: 0.0,
                extrapolated: false,
            };
            self.act(course, plan, room, &mut step);
            if !matches!(plan, Plan::Ideal { .. }) {
                step.ratio = stepped_ratio(
                    room.ratio,
                    course.outdoor_ratio[index],
                    air_kg_s,
                    course.water_kg_s(index) + (step.brought_w - step.latent_w) / EVAPORATION_J_KG,
                    self.air_kg,
                    course.step_s,
                );
                // What air cannot hold runs down walls and panes. Warmer air than some holds what that does.
                if step.after.air_c < holds.0 || step.ratio > holds.1 {
                    let saturated = |air_c: f64| saturated_ratio(air_c, self.pressure_pa);
                    let colder_c = step.after.air_c - AHEAD_K;
                    holds = (colder_c, saturated(colder_c));
                    if step.ratio > holds.1 {
                        step.ratio = step.ratio.min(saturated(step.after.air_c));
                    }
                }
            }
            (room.state, room.ratio) = (step.after, step.ratio);
            if !each(&step) {
                return;
            }
        }
    }

    /// Lets what cools and heats act in a step.
    #[inline]
    fn act(&self, course: &Course, plan: Plan, room: &mut Room, step: &mut Step) {
        let response = step.response;
        let held = match plan {
            Plan::Free => {
                step.after = response.step(&room.state, &step.drive);
                return;
            }
            Plan::Ideal { setpoints, ratio } => {
                step.ratio = ratio;
                step.latent_w = course.brought_w(step.index, ratio).max(0.0);
                hold(response, &room.state, &step.drive, setpoints, Plant::UNLIMITED)
            }
            Plan::Heated { setpoints, heater } => {
                let plant = Plant { heat_w: heater.capacity_w(step.drive.outdoor_c), cool_w: 0.0 };
                hold(response, &room.state, &step.drive, setpoints, plant)
            }
            Plan::Unit { cooler, setpoints, heater } => {
                let free = response.step(&room.state, &step.drive);
                // What either could do is asked only where it has something to do.
                if free.air_c > setpoints.cool_c {
                    let outdoor = (course.outdoor_c[step.index], course.outdoor_ratio[step.index]);
                    let at = cooler.at(room, outdoor.0, self.pressure_pa);
                    room.guess = Some(at);
                    let drawn_in = cooler.drawn_in(room, outdoor, self.pressure_pa);
                    let cool_w = (at.sensible_w * cooler.delivered - drawn_in.sensible_w).max(0.0);
                    let held = hold_from(free, response, setpoints, Plant { heat_w: 0.0, cool_w });
                    let part_load = if cool_w > 0.0 { -held.power_w / cool_w } else { 1.0 };
                    step.cool(cooler, &at, part_load, drawn_in.latent_w);
                    held
                } else {
                    let heats = free.air_c < setpoints.heat_c;
                    let heat_w = if heats { heater.capacity_w(step.drive.outdoor_c) } else { 0.0 };
                    hold_from(free, response, setpoints, Plant { heat_w, cool_w: 0.0 })
                }
            }
        };
        (step.after, step.power_w) = (held.after, held.power_w);
    }

    /// Walks through a day again and again until it comes back to itself.
    ///
    /// A lap that has come back to the path of the one before is not walked on: what follows is known.
    ///
    /// - `seen`  each hour of it begun anew with every lap, and shown every step
    ///
    /// Returns whether it came back to itself.
    pub fn settle(&self, course: &Course, room: &mut Room, plan: Plan, seen: &mut impl Seen) -> bool {
        // Where the box stood at the end of each hour of the lap before.
        let mut path = [(room.state, room.ratio); HOURS];
        let steps_per_hour = course.steps_per_hour();
        for lap in 0..MOST_LAPS {
            let before = *room;
            let mut rejoined = false;
            self.walk_while(course, 0..course.count(), room, plan, |step| {
                let hour = step.index / steps_per_hour % HOURS;
                if step.index % steps_per_hour == 0 {
                    seen.begin(hour);
                }
                seen.step(step);
                if (step.index + 1) % steps_per_hour == 0 {
                    let now = (step.after, step.ratio);
                    rejoined = lap > 0 && is_near(&path[hour], &now);
                    if !rejoined {
                        path[hour] = now;
                    }
                }
                !rejoined
            });
            if rejoined {
                (room.state, room.ratio) = path[HOURS - 1];
                return true;
            }
            let moved_k = (room.state.air_c - before.state.air_c)
                .abs()
                .max((room.state.mass_c - before.state.mass_c).abs())
                .max((room.state.floor_load_c - before.state.floor_load_c).abs());
            if moved_k < ALIKE_K && (room.ratio - before.ratio).abs() < ALIKE_RATIO {
                return true;
            }
        }
        false
    }
}

/// Does the box stand where it stood before?
fn is_near(before: &(State, f64), now: &(State, f64)) -> bool {
    let moved_k = |of: fn(&State) -> f64| (of(&before.0) - of(&now.0)).abs();
    let most_k = moved_k(|state| state.air_c).max(moved_k(|state| state.mass_c));
    most_k.max(moved_k(|state| state.floor_load_c)) < REJOINED_K && (before.1 - now.1).abs() < REJOINED_RATIO
}

/// What looks on while a day is walked through.
pub trait Seen {
    /// An hour of the day begins: what was seen of it before does not count.
    fn begin(&mut self, hour: usize);

    /// A step was made.
    fn step(&mut self, step: &Step);
}

impl Step<'_> {
    /// Notes what the air conditioner did.
    ///
    /// - `at`         what it does while it runs
    /// - `part_load`  share of its cooling that was asked for, 0 to 1
    /// - `brought_w`  heat in the water that comes in in place of air it blows out, while it runs [W]
    fn cool(&mut self, cooler: &Cooler, at: &Performance, part_load: f64, brought_w: f64) {
        let run_time = run_time_fraction(part_load);
        let kept = if cooler.fan_always_on { latent_kept(run_time) } else { 1.0 };
        self.run_fraction = run_time;
        self.latent_w = at.latent_w * part_load * kept;
        self.brought_w = brought_w * part_load;
        self.electric_w = run_time * at.power_w;
        self.extrapolated = at.extrapolated;
    }
}
