//! Heat that is set free in the box through a day: by people, by what draws power, by a flame.

pub mod electrics;

use crate::build::{Build, Occupancy, Schedule};
use crate::drawn_power::demand::Course;
use crate::standards::occupant::Activity;
use crate::units::J_PER_BTU;

use super::air_exchange::moisture::EVAPORATION_J_KG;
use super::equipment::propane;
use super::people::{Person, person_w};
use electrics::{Electrics, Heats};

/// Hours of a day.
pub const HOURS: usize = 24;
/// The hour at which people go to sleep where nothing is said.
pub const USUAL_ASLEEP_FROM: u32 = 22;
/// The hour at which they get up where nothing is said.
pub const USUAL_ASLEEP_TO: u32 = 6;

/// Heat of each hour of a day [W].
pub type ByHour = [f64; HOURS];

/// Heat that a part sets free in the box.
#[derive(Debug, Clone, PartialEq)]
pub struct PartHeat<'b> {
    /// Its id, or that of the source whose losses they are.
    pub id: &'b str,
    /// Its heat in each hour of the day.
    pub heat_w: ByHour,
}

/// Heat and water that are set free in the box through a day.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Gains<'b> {
    /// The supply mode that was looked at, where the build has modes.
    pub mode: Option<&'b str>,
    /// Parts that set heat free.
    pub parts: Vec<PartHeat<'b>>,
    /// What inverters and chargers lose.
    pub losses: Vec<PartHeat<'b>>,
    /// People, what warms the air.
    pub people_w: ByHour,
    /// People, what they breathe and sweat out.
    pub people_latent_w: ByHour,
    /// A flame, what warms the air.
    pub cooking_w: ByHour,
    /// A flame, its water.
    pub cooking_latent_w: ByHour,
}

impl Gains<'_> {
    /// Heat of parts and losses in an hour [W].
    pub fn equipment_w(&self, hour: usize) -> f64 {
        self.parts.iter().chain(&self.losses).map(|one| one.heat_w[hour]).sum()
    }

    /// All that warms the air in an hour [W].
    pub fn sensible_w(&self, hour: usize) -> f64 {
        self.people_w[hour] + self.cooking_w[hour] + self.equipment_w(hour)
    }

    /// All that comes as water in an hour [W].
    pub fn latent_w(&self, hour: usize) -> f64 {
        self.people_latent_w[hour] + self.cooking_latent_w[hour]
    }
}

/// How it is in the box through the hours of a day, as far as what draws power goes by it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Indoors {
    /// Temperature of the air [°C].
    pub air_c: ByHour,
    /// Share of each hour in which the air conditioner runs.
    pub run_fraction: ByHour,
    /// What it takes in on the mean [W].
    pub cooler_w: ByHour,
}

impl Indoors {
    /// A room of one temperature, in which no air conditioner is looked at.
    pub fn even(air_c: f64) -> Self {
        Self { air_c: [air_c; HOURS], run_fraction: [0.0; HOURS], cooler_w: [0.0; HOURS] }
    }
}

/// Heat and water that are set free in the box through a day, with what is known of it by the hour.
///
/// - `electrics`  what draws power
/// - `month`      the month that the day is in, 1 to 12
/// - `room_c`     temperature by which people sweat [°C]
/// - `indoors`    what refrigerators and the air conditioner's inverter go by
pub fn gains<'b>(
    build: &Build,
    electrics: &Electrics<'b>,
    month: u8,
    room_c: f64,
    indoors: &Indoors,
) -> Gains<'b> {
    let mut all = Gains { mode: electrics.mode, ..Gains::default() };
    if let Some(occupancy) = &build.occupancy {
        of_people(occupancy, room_c, &mut all);
        of_cooking(occupancy, &mut all);
    }
    // Of something that is on on some days of the week only, a hot day may be one.
    let is_on = |schedule: &Schedule| schedule.months.is_none_or(|months| months.contains(&u32::from(month)));
    let course = Course { share: &indoors.run_fraction, power_w: &indoors.cooler_w };
    let by_hour = |one: &Heats<'b>| PartHeat {
        id: one.id,
        heat_w: one.demand.by_hour(is_on, &indoors.air_c, Some(course)),
    };
    let is_something = |one: &PartHeat| one.heat_w.iter().any(|watts| *watts != 0.0);
    all.parts = electrics.parts.iter().map(by_hour).filter(is_something).collect();
    all.losses = electrics.losses.iter().map(by_hour).collect();
    all
}

/// Is an hour within a span that may run over midnight?
fn within(hour: usize, from: u32, to: u32) -> bool {
    let (hour, from, to) = (hour as u32, from, to);
    if from <= to { (from..to).contains(&hour) } else { hour >= from || hour < to }
}

fn of_people(occupancy: &Occupancy, room_c: f64, all: &mut Gains) {
    let people = f64::from(occupancy.people);
    let asleep_from = occupancy.asleep_from.unwrap_or(USUAL_ASLEEP_FROM);
    let asleep_to = occupancy.asleep_to.unwrap_or(USUAL_ASLEEP_TO);
    for hour in 0..HOURS {
        let away = match (occupancy.away_from, occupancy.away_to) {
            (Some(from), Some(to)) => within(hour, from, to),
            _ => false,
        };
        if away {
            continue;
        }
        let asleep = within(hour, asleep_from, asleep_to);
        let activity =
            if asleep { Activity::Asleep } else { occupancy.activity.unwrap_or(Activity::LightWork) };
        let heat = person_w(activity, Person::Anyone, room_c);
        all.people_w[hour] = people * heat.sensible_w;
        all.people_latent_w[hour] = people * heat.latent_w;
    }
}

/// A flame burns propane: what its water carries does not warm the air.
fn of_cooking(occupancy: &Occupancy, all: &mut Gains) {
    let Some(cooking) = &occupancy.cooking else { return };
    let heat_w = cooking.btu_per_meal * J_PER_BTU / 3600.0;
    let latent_w = propane::water_kg_s(heat_w) * EVAPORATION_J_KG;
    for &hour in &cooking.hours {
        // Below 24: its bound says so.
        let hour = hour as usize % HOURS;
        all.cooking_w[hour] += heat_w - latent_w;
        all.cooking_latent_w[hour] += latent_w;
    }
}

#[cfg(test)]
mod tests;
