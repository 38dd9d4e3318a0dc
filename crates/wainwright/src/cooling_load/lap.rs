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
use super::heater::Heater;
use super::network::thermostat::{Plant, Setpoints, hold, hold_from};
use super::network::{Drive, Response, State};

/// Largest difference of two laps that is none [K].
const ALIKE_K: f64 = 0.01;
/// Largest difference of two laps that is none, in humidity [kg/kg].
const ALIKE_RATIO: f64 = 1e-5;
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
        let network = &self.of.network;
        let mut air_kg_s = f64::NAN;
        // Air of a temperature, and the humidity ratio that it holds.
        let mut holds = (f64::INFINITY, 0.0);
        let mut response = network.response(0.0, course.step_s);
        for index in steps {
            if course.air_kg_s[index] != air_kg_s {
                air_kg_s = course.air_kg_s[index];
                let ventilation_w_k = air_kg_s * specific_heat_j_kg_k(course.outdoor_ratio[index]);
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
                    holds = (step.after.air_c, saturated_ratio(step.after.air_c, self.pressure_pa));
                    step.ratio = step.ratio.min(holds.1);
                }
            }
            (room.state, room.ratio) = (step.after, step.ratio);
            each(&step);
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
    /// - `seen`  begun anew with every lap, and shown every step of it
    ///
    /// Returns whether it came back to itself.
    pub fn settle(&self, course: &Course, room: &mut Room, plan: Plan, seen: &mut impl Seen) -> bool {
        for _ in 0..MOST_LAPS {
            let before = *room;
            seen.begin();
            self.walk(course, room, plan, |step| seen.step(step));
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

/// What looks on while a day is walked through.
pub trait Seen {
    /// A lap begins: what was seen before does not count.
    fn begin(&mut self);

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
