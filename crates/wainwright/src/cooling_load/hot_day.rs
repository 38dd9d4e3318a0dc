//! The hot day, hour by hour.

use super::case::Case;
use super::cooler::Cooler;
use super::gains::{Gains, HOURS};
use super::heater::Heater;
use super::lap::{Plan, Room, Seen, Step};
use super::network::State;
use super::network::thermostat::Setpoints;
use super::outdoors::Outdoors;

/// Heat into the box in an hour, on the mean, by where it comes from [W]: below 0 it goes out. All of it, less what is
/// stored, is the sensible load.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Parts {
    /// Through the opaque faces, in the order of [`Facing`](crate::build::Facing).
    pub faces_w: [f64; 6],
    /// Through the windows by their warmth.
    pub windows_w: f64,
    /// Sun that the windows let in.
    pub sun_w: f64,
    /// With the air that comes in.
    pub air_w: f64,
    /// From people.
    pub people_w: f64,
    /// From what draws power.
    pub equipment_w: f64,
    /// From a flame.
    pub cooking_w: f64,
    /// Radiated out through the windows again.
    pub lost_w: f64,
    /// Stored in air, lining and floor.
    pub stored_w: f64,
}

impl Parts {
    /// What has to be taken out [W].
    pub fn sum_w(&self) -> f64 {
        let faces_w: f64 = self.faces_w.iter().sum();
        faces_w + self.windows_w + self.sun_w + self.air_w + self.people_w + self.equipment_w + self.cooking_w
            - self.lost_w
            - self.stored_w
    }
}

/// An hour of the day in which the box is held at its temperature.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct LoadHour {
    /// Outdoor air on the mean [°C].
    pub outdoor_c: f64,
    /// Air in the box on the mean of the ends of its steps [°C].
    pub air_c: f64,
    /// Heat to be taken out that warms the air [W].
    pub sensible_w: f64,
    /// Heat to be taken out with water [W].
    pub latent_w: f64,
    /// Where the sensible load comes from.
    pub parts: Parts,
}

/// An hour of the day with what cools the box.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct RunHour {
    /// Air in the box on the mean of the ends of its steps [°C].
    pub air_c: f64,
    /// Humidity ratio on the mean [kg/kg].
    pub ratio: f64,
    /// Share of the hour in which the air conditioner runs.
    pub run_fraction: f64,
    /// What it draws on the mean [W].
    pub electric_w: f64,
    /// Water it takes out, as heat [W].
    pub latent_w: f64,
    /// The warmest that the air gets [°C].
    pub warmest_c: f64,
    /// Time in which the air is more than a degree above what it was set to [h].
    pub warm_h: f64,
    /// Was the air conditioner beyond the conditions that its curves are trusted in while it ran most of the time?
    pub extrapolated: bool,
}

/// The day with an ideal plant.
#[derive(Debug, Clone)]
pub struct LoadDay<'c> {
    case: &'c Case,
    outdoors: &'c Outdoors,
    gains: &'c Gains<'c>,
    /// Its hours.
    pub hours: [LoadHour; HOURS],
    /// Where the box stands at its end.
    pub end: State,
}

/// The day with an ideal plant, without where its load comes from: for what is asked of many boxes.
#[derive(Debug, Clone, Copy)]
pub struct HeldDay {
    per_step: f64,
    steps_per_hour: usize,
    /// Heat to be taken out in each hour that warms the air, and with water [W].
    hours: [(f64, f64); HOURS],
    /// Where the box stands at its end.
    pub end: State,
}

/// The day with an air conditioner, or with nothing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunDay {
    per_step: f64,
    steps_per_hour: usize,
    /// From here on it is warmer than it was set to [°C].
    warm_c: f64,
    /// Its hours.
    pub hours: [RunHour; HOURS],
    /// The warmest that the air gets [°C].
    pub warmest_c: f64,
    /// Hours in which the air is more than a degree above what it was set to [h].
    pub warm_h: f64,
    /// Was the air conditioner beyond the conditions that its curves are trusted in while it ran most of the time?
    pub extrapolated: bool,
    /// Where the box stands at the end of the day.
    pub end: Option<State>,
    /// Did the day come back to itself?
    pub settled: bool,
}

/// From this run fraction on it matters how well an air conditioner's capacity is known.
const MATTERS: f64 = 0.5;
/// So much above the set temperature it is called warmer [K].
pub const WARM_K: f64 = 1.0;

impl<'c> LoadDay<'c> {
    /// Holds the box at a temperature through the day.
    ///
    /// - `ratio`  humidity ratio that it is held at [kg/kg]
    pub fn of(case: &'c Case, outdoors: &'c Outdoors, gains: &'c Gains<'c>, cool_c: f64, ratio: f64) -> Self {
        let hours = [LoadHour::default(); HOURS];
        let mut day = Self { case, outdoors, gains, hours, end: State::even(cool_c) };
        day.end = hold(case, cool_c, ratio, &mut day);
        day
    }

    /// The hour of the greatest load, sensible and latent together.
    pub fn peak(&self) -> (usize, LoadHour) {
        let all = |hour: &LoadHour| hour.sensible_w + hour.latent_w;
        let mut hours = self.hours.iter().copied().enumerate();
        let first = hours.next().unwrap_or_default();
        hours.fold(first, |most, hour| if all(&hour.1) > all(&most.1) { hour } else { most })
    }
}

impl Seen for LoadDay<'_> {
    fn begin(&mut self, hour: usize) {
        self.hours[hour] = LoadHour::default();
    }

    fn step(&mut self, step: &Step) {
        let course = &self.case.course;
        let hour = usize::from(course.hour[step.index]);
        let mut drive = step.drive;
        drive.air_w += step.power_w;
        let flows = step.response.flows(&step.before, &step.after, &drive);
        let sums = &self.case.sums;
        let passes_w_k: f64 = sums.opaque_w_k.iter().sum();
        // What comes through the mass, face by face: each by what it passes, and by its own sun.
        let per_w_k =
            if passes_w_k > 0.0 { self.case.of.network.outside_to_mass_w_k / passes_w_k } else { 0.0 };
        let light = &self.outdoors.light[step.index];
        let mean = step.response.mean(&step.before, &drive);
        let radiant_w = 0.5 * course.sensible_by_hour_w[hour] + course.sun_w[step.index];
        let share = course.step_s / 3600.0;
        let one = &mut self.hours[hour];
        one.outdoor_c += share * drive.outdoor_c;
        one.air_c += share * step.after.air_c;
        one.sensible_w -= share * step.power_w;
        one.latent_w += share * step.latent_w;
        for (face, face_w) in one.parts.faces_w.iter_mut().enumerate() {
            let across_w = sums.opaque_w_k[face] * (drive.outdoor_c - mean.mass_c) + sums.face_w(face, light);
            *face_w += share * per_w_k * across_w;
        }
        one.parts.windows_w += share * flows.windows_to_surface_w;
        one.parts.sun_w += share * course.sun_w[step.index];
        one.parts.air_w += share * flows.ventilation_to_air_w;
        one.parts.people_w += share * self.gains.people_w[hour];
        one.parts.equipment_w += share * self.gains.equipment_w(hour);
        one.parts.cooking_w += share * self.gains.cooking_w[hour];
        one.parts.lost_w += share * radiant_w * (1.0 - self.case.of.to_mass - self.case.of.to_surface);
        one.parts.stored_w += share * flows.stored_w();
    }
}

/// Holds the box at a temperature through the day. Returns where it stands at its end.
fn hold(case: &Case, cool_c: f64, ratio: f64, seen: &mut impl Seen) -> State {
    let mut room = Room::even(cool_c, ratio);
    let setpoints = Setpoints { heat_c: f64::NEG_INFINITY, cool_c };
    case.walker().settle(&case.course, &mut room, Plan::Ideal { setpoints, ratio }, seen);
    room.state
}

impl HeldDay {
    /// Holds the box at a temperature through the day, as [`LoadDay::of`].
    pub fn of(case: &Case, cool_c: f64, ratio: f64) -> Self {
        let steps_per_hour = case.course.steps_per_hour();
        let (per_step, hours) = (1.0 / steps_per_hour as f64, [(0.0, 0.0); HOURS]);
        let mut day = Self { per_step, steps_per_hour, hours, end: State::even(cool_c) };
        day.end = hold(case, cool_c, ratio, &mut day);
        day
    }

    /// The greatest load, sensible and latent together [W].
    pub fn peak_w(&self) -> f64 {
        self.hours
            .iter()
            .map(|(sensible_w, latent_w)| sensible_w + latent_w)
            .fold(f64::NEG_INFINITY, f64::max)
    }
}

impl Seen for HeldDay {
    fn begin(&mut self, hour: usize) {
        self.hours[hour] = (0.0, 0.0);
    }

    fn step(&mut self, step: &Step) {
        let (sensible_w, latent_w) = &mut self.hours[step.index / self.steps_per_hour % HOURS];
        *sensible_w -= self.per_step * step.power_w;
        *latent_w += self.per_step * step.latent_w;
    }
}

impl RunDay {
    fn new(case: &Case, cool_c: f64) -> Self {
        let steps_per_hour = case.course.steps_per_hour();
        Self {
            per_step: 1.0 / steps_per_hour as f64,
            steps_per_hour,
            warm_c: cool_c + WARM_K,
            hours: [RunHour::default(); HOURS],
            warmest_c: f64::NEG_INFINITY,
            warm_h: 0.0,
            extrapolated: false,
            end: None,
            settled: false,
        }
    }

    /// Lets an air conditioner run through the day.
    ///
    /// - `cool_c`  what it is set to [°C]
    /// - `room`    where the box stands; where it ends: the next run starts from there
    pub fn cooled(case: &Case, cooler: &Cooler, cool_c: f64, room: &mut Room) -> Self {
        let setpoints = Setpoints { heat_c: f64::NEG_INFINITY, cool_c };
        let mut day = Self::new(case, cool_c);
        let plan = Plan::Unit { cooler, setpoints, heater: Heater::NONE };
        let settled = case.walker().settle(&case.course, room, plan, &mut day);
        day.over(room, settled)
    }

    /// Leaves the box to itself through the day.
    pub fn free(case: &Case, cool_c: f64, room: &mut Room) -> Self {
        let mut day = Self::new(case, cool_c);
        let settled = case.walker().settle(&case.course, room, Plan::Free, &mut day);
        day.over(room, settled)
    }

    /// The day as it was, from its hours.
    fn over(mut self, room: &Room, settled: bool) -> Self {
        self.warmest_c = self.hours.iter().map(|hour| hour.warmest_c).fold(f64::NEG_INFINITY, f64::max);
        self.warm_h = self.hours.iter().map(|hour| hour.warm_h).sum();
        self.extrapolated = self.hours.iter().any(|hour| hour.extrapolated);
        (self.end, self.settled) = (Some(room.state), settled);
        self
    }

    /// Electricity of the day [Wh].
    pub fn electric_wh(&self) -> f64 {
        self.hours.iter().map(|hour| hour.electric_w).sum()
    }

    /// Hours of the day in which the air conditioner runs [h].
    pub fn run_h(&self) -> f64 {
        self.hours.iter().map(|hour| hour.run_fraction).sum()
    }
}

impl Seen for RunDay {
    fn begin(&mut self, hour: usize) {
        self.hours[hour] = RunHour { warmest_c: f64::NEG_INFINITY, ..RunHour::default() };
    }

    fn step(&mut self, step: &Step) {
        let hour = &mut self.hours[step.index / self.steps_per_hour % HOURS];
        let share = self.per_step;
        hour.air_c += share * step.after.air_c;
        hour.ratio += share * step.ratio;
        hour.run_fraction += share * step.run_fraction;
        hour.electric_w += share * step.electric_w;
        hour.latent_w += share * step.latent_w;
        hour.warmest_c = hour.warmest_c.max(step.after.air_c);
        hour.warm_h += if step.after.air_c > self.warm_c { share } else { 0.0 };
        hour.extrapolated |= step.extrapolated && step.run_fraction > MATTERS;
    }
}
