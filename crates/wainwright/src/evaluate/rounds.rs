//! Two questions that need numbers of each other are asked in turns, until what is handed over stays as it is.

use crate::build::Build;
use crate::cooling_load::course::Course;
use crate::cooling_load::gains::electrics::Electrics;
use crate::cooling_load::gains::{ByHour, HOURS, Indoors, gains};
use crate::cooling_load::hot_day::RunDay;
use crate::cooling_load::lap::Room;
use crate::cooling_load::season::{Comfort, Walked};
use crate::cooling_load::setup::Setup;
use crate::drawn_power::demand::{self, ColdBox};

/// What is handed over has settled where the heat of everything that draws power changes by less than this from one round
/// to the next, in every hour of the hot day and in every step of the weather [W].
pub const TOLERANCE_W: f64 = 0.1;
/// After so many rounds it is taken as it is.
pub const MOST_ROUNDS: u32 = 20;

/// How an exchange in rounds ended.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Rounds {
    /// How many there were.
    pub count: u32,
    /// What the last one changed [W].
    pub left_w: f64,
}

impl Rounds {
    /// Has what is handed over settled?
    pub fn settled(self) -> bool {
        self.left_w <= TOLERANCE_W
    }

    /// Notes what a round changed. Is another one needed?
    fn again(&mut self, left_w: f64) -> bool {
        self.count += 1;
        self.left_w = left_w;
        !self.settled() && self.count < MOST_ROUNDS
    }
}

/// The hot day with what draws power in the box going by how it is there: refrigerators by its air, the inverter behind the
/// air conditioner by how that runs.
///
/// Leaves the setup with the heat of the last round.
pub fn live_hot_day(build: &Build, setup: &mut Setup) -> Rounds {
    let (cool_c, month) = (setup.around.cool_c, setup.hot_day.date.month().unsigned_abs());
    let mut room = match setup.cooler {
        Some(_) => Room::even(cool_c, setup.ratio),
        None => Room::even(
            setup.hot_day.max_c,
            setup.around.outdoors.ratio.first().copied().unwrap_or(setup.ratio),
        ),
    };
    let mut rounds = Rounds::default();
    loop {
        let day = match &setup.cooler {
            Some(cooler) => RunDay::cooled(&setup.case, cooler, cool_c, &mut room),
            None => RunDay::free(&setup.case, cool_c, &mut room),
        };
        let indoors = indoors(&day);
        let set_free = gains(build, &setup.electrics, month, cool_c, &indoors);
        let changed = |hour| (set_free.equipment_w(hour) - setup.around.gains.equipment_w(hour)).abs();
        let left_w = (0..HOURS).map(changed).fold(0.0, f64::max);
        setup.live(set_free);
        if !rounds.again(left_w) {
            return rounds;
        }
    }
}

/// How it is in the box through a day.
pub fn indoors(day: &RunDay) -> Indoors {
    let mut indoors = Indoors::even(0.0);
    for (hour, run) in day.hours.iter().enumerate() {
        indoors.air_c[hour] = run.air_c;
        indoors.run_fraction[hour] = run.run_fraction;
        indoors.cooler_w[hour] = run.electric_w;
    }
    indoors
}

/// What becomes of the box in the weather given.
#[derive(Debug)]
pub struct Walk {
    /// The box month by month.
    pub walked: Walked,
    /// Air in the box as each step begins [°C].
    pub air_c: Vec<f64>,
    /// Share of each step in which the air conditioner runs.
    pub run_fraction: Vec<f64>,
    /// What it takes in on the mean [W].
    pub cooler_w: Vec<f64>,
    /// How the exchange ended.
    pub rounds: Rounds,
}

impl Walk {
    /// The course of the air conditioner.
    pub fn course(&self) -> demand::Course<'_> {
        demand::Course { share: &self.run_fraction, power_w: &self.cooler_w }
    }
}

/// Lives in the box through the weather given, with what draws power going by how it is there: refrigerators, step by step,
/// by its air as the step begins; what goes by more than that, in rounds.
///
/// - `course`     what drives the box; its heat is set anew
/// - `electrics`  what draws power
/// - `comfort`    what cools and heats it
pub fn live_weather(setup: &Setup, course: &mut Course, electrics: &Electrics, comfort: &Comfort) -> Walk {
    let gains = &setup.around.gains;
    course.sensible_by_hour_w = std::array::from_fn(|hour| gains.people_w[hour] + gains.cooking_w[hour]);
    let (days, step_min) = (&setup.site.days, setup.site.weather.clock.step_min());
    let mut demand = electrics.sum();
    course.by_air = demand.cold_boxes.iter().filter_map(ColdBox::always_on).collect();
    demand.cold_boxes.retain(|one| one.always_on().is_none());
    let goes_in_rounds = demand.followed.is_some() || !demand.cold_boxes.is_empty();
    let count = course.count();
    let mut walk = Walk {
        walked: Walked::default(),
        air_c: course.outdoor_c.clone(),
        run_fraction: vec![0.0; count],
        cooler_w: vec![0.0; count],
        rounds: Rounds::default(),
    };
    let mut before_w = vec![0.0; count];
    course.sensible_w.resize(count, 0.0);
    demand.fill(days, step_min, &walk.air_c, Some(walk.course()), &mut course.sensible_w);
    loop {
        let Walk { air_c, run_fraction, cooler_w, .. } = &mut walk;
        walk.walked = setup.walk_course(course, comfort, |step| {
            air_c[step.index] = step.before.air_c;
            run_fraction[step.index] = step.run_fraction;
            cooler_w[step.index] = step.electric_w;
        });
        let mut left_w = 0.0;
        if goes_in_rounds {
            before_w.copy_from_slice(&course.sensible_w);
            demand.fill(days, step_min, &walk.air_c, Some(walk.course()), &mut course.sensible_w);
            let changed = course.sensible_w.iter().zip(&before_w).map(|(now, before)| (now - before).abs());
            left_w = changed.fold(0.0, f64::max);
        }
        if !walk.rounds.again(left_w) {
            return walk;
        }
    }
}

/// The hours of a day of the air conditioner as circuits take them.
///
/// Returns the share of each hour in which it runs, and what it takes in while it runs [W].
pub fn cooler_hours(indoors: &Indoors) -> (ByHour, ByHour) {
    let running_w = |hour: usize| match indoors.run_fraction[hour] {
        share if share > 0.0 => indoors.cooler_w[hour] / share,
        _ => 0.0,
    };
    (indoors.run_fraction, std::array::from_fn(running_w))
}
