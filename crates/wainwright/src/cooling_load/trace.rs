//! Every step of the network through the weather given, for those who want to work it out again.

use jiff::civil::DateTime;

use crate::sky::clock::Clock;

use super::course::Course;
use super::lap::Step;
use super::network::{Network, State};

/// Every step of the network.
#[derive(Debug, Clone, PartialEq)]
pub struct Trace {
    /// When the first step begins.
    pub start: DateTime,
    /// Length of a step [min].
    pub step_min: u32,
    /// The network.
    pub network: Network,
    /// Where it stood before the first step.
    pub before: Option<State>,
    /// Conductance of the air that comes in [W/K].
    pub ventilation_w_k: Vec<f64>,
    /// Outdoor air [°C].
    pub outdoor_c: Vec<f64>,
    /// Sol-air temperature of the opaque envelope [°C].
    pub equivalent_c: Vec<f64>,
    /// Heat into the air, what cools and heats counted [W].
    pub air_w: Vec<f64>,
    /// Heat into the surfaces [W].
    pub surface_w: Vec<f64>,
    /// Heat into the mass [W].
    pub mass_w: Vec<f64>,
    /// Heat from what cools (below 0) and heats [W].
    pub plant_w: Vec<f64>,
    /// Air at the end of each step [°C].
    pub air_c: Vec<f64>,
    /// Mass at the end of each step [°C].
    pub mass_c: Vec<f64>,
    /// Load on the floor at the end of each step [°C].
    pub floor_load_c: Vec<f64>,
    /// Share of each step in which the air conditioner runs.
    pub run_fraction: Vec<f64>,
    /// What it draws [W].
    pub electric_w: Vec<f64>,
}

impl Trace {
    /// An empty trace of a series.
    pub fn begun(network: &Network, course: &Course, clock: Clock) -> Self {
        let list = || Vec::with_capacity(course.count());
        Self {
            start: clock.stamp(0),
            step_min: clock.step_min(),
            network: *network,
            before: None,
            ventilation_w_k: list(),
            outdoor_c: list(),
            equivalent_c: list(),
            air_w: list(),
            surface_w: list(),
            mass_w: list(),
            plant_w: list(),
            air_c: list(),
            mass_c: list(),
            floor_load_c: list(),
            run_fraction: list(),
            electric_w: list(),
        }
    }

    /// Notes a step.
    pub fn push(&mut self, step: &Step) {
        self.before.get_or_insert(step.before);
        self.ventilation_w_k.push(step.response.ventilation_w_k());
        self.outdoor_c.push(step.drive.outdoor_c);
        self.equivalent_c.push(step.drive.equivalent_c);
        self.air_w.push(step.drive.air_w + step.power_w);
        self.surface_w.push(step.drive.surface_w);
        self.mass_w.push(step.drive.mass_w);
        self.plant_w.push(step.power_w);
        self.air_c.push(step.after.air_c);
        self.mass_c.push(step.after.mass_c);
        self.floor_load_c.push(step.after.floor_load_c);
        self.run_fraction.push(step.run_fraction);
        self.electric_w.push(step.electric_w);
    }
}
