//! Everything that is worked out of a build's cooling load, as numbers.

use crate::build::{Build, HeaterKind};

use super::air_exchange::moisture::EVAPORATION_J_KG;
use super::airing::{Airing, airing};
use super::changes::{Effect, effects};
use super::cold_night::{Damp, NightLoad, damp};
use super::cooler::Cooler;
use super::equipment::propane::water_kg_s;
use super::gains::{Gains, HOURS};
use super::heater::{Heater, holds_to_c};
use super::hot_day::{LoadDay, LoadHour, RunDay};
use super::lap::Room;
use super::pull_down::{PullDown, pull_down};
use super::season::{MonthClimate, Walked};
use super::setup::Setup;
use super::sizes::{HELD_K, smallest_btu_h};
use super::steady::steady_peak_w;
use super::trace::Trace;

/// The hour at which the air conditioner is switched on after a day in the sun, where nothing is said.
pub const USUAL_START_HOUR: u32 = 15;

/// Everything that is worked out.
#[derive(Debug)]
pub struct Numbers<'s> {
    /// The hours of the hot day, held at the set temperature.
    pub hours: [LoadHour; HOURS],
    /// The hour of the greatest load.
    pub peak_hour: usize,
    /// The greatest load.
    pub peak: LoadHour,
    /// The greatest sensible load were nothing stored [W].
    pub steady_peak_w: f64,
    /// The day without anything that cools.
    pub free: RunDay,
    /// The day with the air conditioner.
    pub cooled: Option<RunDay>,
    /// The smallest common size that holds the set temperature [BTU/h].
    pub smallest_btu_h: Option<f64>,
    /// How long it takes after a day in the sun.
    pub pull_down: Option<PullDown>,
    /// What fan and open windows do alone.
    pub airing: Option<Airing>,
    /// The cold night.
    pub night: NightLoad,
    /// The coldest air outside at which the heater holds its temperature [°C].
    pub holds_to_c: Option<f64>,
    /// How damp it is in it.
    pub damp: Damp<'s>,
    /// What single changes come to.
    pub effects: Vec<Effect>,
    /// The weather given, month by month.
    pub months: Vec<MonthClimate>,
    /// Every step, where it is asked for.
    pub trace: Option<Trace>,
}

/// The hot day, in three ways.
#[derive(Debug)]
pub struct DesignDay<'c> {
    /// Held at the set temperature.
    pub load: LoadDay<'c>,
    /// Without anything that cools.
    pub free: RunDay,
    /// With the air conditioner.
    pub cooled: Option<RunDay>,
    /// The box at the end of the day without anything that cools.
    free_room: Room,
    /// The box at the end of the day with the air conditioner.
    room: Room,
}

/// Lives through the hot day.
pub fn design_day<'s>(setup: &'s Setup) -> DesignDay<'s> {
    let (around, case, cool_c) = (&setup.around, &setup.case, setup.around.cool_c);
    let load = LoadDay::of(case, &around.outdoors, &around.gains, cool_c, setup.ratio);
    let outdoor_ratio = around.outdoors.ratio.first().copied().unwrap_or(setup.ratio);
    let mut free_room = Room::even(setup.hot_day.max_c, outdoor_ratio);
    let free = RunDay::free(case, cool_c, &mut free_room);
    let mut room = Room { state: load.end, ..Room::even(cool_c, setup.ratio) };
    let cooled = setup.cooler.as_ref().map(|cooler| RunDay::cooled(case, cooler, cool_c, &mut room));
    DesignDay { load, free, cooled, free_room, room }
}

/// Works everything out.
///
/// - `walked`  the box through the weather given
pub fn numbers<'s>(build: &Build, setup: &'s Setup, walked: Walked) -> Numbers<'s> {
    let (around, case) = (&setup.around, &setup.case);
    let cool_c = around.cool_c;
    let DesignDay { load, free, cooled, free_room, room } = design_day(setup);
    let (peak_hour, peak) = load.peak();
    let cooler = setup.cooler.as_ref();
    let winter_sums = setup.winter_body.sums(setup.winter_film_w_m2_k);
    let at_night = |outdoor_c: f64| {
        let (exchange, wind_m_s) = (&setup.exchange, setup.winter_wind_m_s);
        NightLoad::of(&winter_sums, exchange, outdoor_c, wind_m_s, setup.heat_c, around.pressure_pa)
    };
    let night = at_night(setup.cold_night.air_c);
    let water_kg_s = night_water_kg_s(build, &around.gains, &night);
    let climate = build.climate.as_ref();
    let heating = climate.and_then(|climate| climate.heating.as_ref());
    Numbers {
        hours: load.hours,
        peak_hour,
        peak,
        steady_peak_w: steady_peak_w(case, cool_c),
        smallest_btu_h: setup
            .cooler
            .or_else(|| Cooler::usual(around.pressure_pa))
            .and_then(|kind| smallest_btu_h(case, &kind, cool_c, &room)),
        pull_down: cooler.map(|cooler| after_the_sun(build, setup, cooler, &free_room)),
        airing: climate.and_then(|climate| airing(case, climate, around.wind_m_s)),
        damp: damp(&night, &setup.winter_body, setup.winter_film_w_m2_k, water_kg_s, around.pressure_pa),
        night,
        holds_to_c: heating
            .and_then(|heating| holds_to_c(heating, setup.heat_c, |outdoor_c| at_night(outdoor_c).sum_w())),
        effects: effects(
            around,
            &setup.body,
            setup.exchange,
            setup.ratio,
            cooler,
            if cooler.is_some() { &room } else { &free_room },
            cooled.is_some_and(|day| day.warmest_c <= cool_c + HELD_K),
        ),
        free,
        cooled,
        months: walked.months,
        trace: walked.trace,
    }
}

/// Water set free inside through the night [kg/s]: by people as in its quietest hour, and by a flame without a vent.
fn night_water_kg_s(build: &Build, gains: &Gains, night: &NightLoad) -> f64 {
    let people_w = gains.people_latent_w[NIGHT_HOUR];
    let heating = build.climate.as_ref().and_then(|climate| climate.heating.as_ref());
    let unvented = heating.is_some_and(|heating| heating.kind == Some(HeaterKind::PropaneUnvented));
    let burned_w = night.sum_w().min(heating.map_or(0.0, |heating| Heater::of(heating).rated_w));
    people_w / EVAPORATION_J_KG + if unvented { water_kg_s(burned_w) } else { 0.0 }
}

/// The hour of the night that people sleep in by any habit.
const NIGHT_HOUR: usize = 3;

/// How long the air conditioner takes after a day in the sun in which nobody was in the box.
fn after_the_sun(build: &Build, setup: &Setup, cooler: &Cooler, free_room: &Room) -> PullDown {
    let around = &setup.around;
    let empty = Gains {
        people_w: [0.0; HOURS],
        people_latent_w: [0.0; HOURS],
        cooking_w: [0.0; HOURS],
        cooking_latent_w: [0.0; HOURS],
        ..around.gains.clone()
    };
    let mut case = setup.case.clone();
    for hour in 0..HOURS {
        case.course.sensible_by_hour_w[hour] = empty.sensible_w(hour);
        case.course.water_by_hour_kg_s[hour] = 0.0;
    }
    let mut room = *free_room;
    RunDay::free(&case, around.cool_c, &mut room);
    let cooling = build.climate.as_ref().and_then(|climate| climate.cooling.as_ref());
    let start_hour = cooling.and_then(|cooling| cooling.start_hour).unwrap_or(USUAL_START_HOUR);
    pull_down(&case, &setup.case, cooler, start_hour as usize, around.cool_c, &room)
}
