//! Weather made from twelve monthly means: days as clear and as dark as such months have them, hours that wander as
//! such days do. It is no record of any year, and a seed makes the same weather every time.

use super::air_temperature::{AirMeans, course_c};
use super::bounded::scale_to;
use super::clear_year::{clear_sky, extraterrestrial_horizontal_w_m2};
use super::clock::{Clock, Day, MINUTES_PER_DAY};
use super::decomposition::erbs;
use super::hourly_clearness::HourlyClearness;
use super::irradiance::Irradiance;
use super::random::{Chance, autoregressive};
use super::sun::Direction;
use super::weather::{Place, Weather};
use super::{air_mass, clearness_chain, clearness_distribution};

/// Linke turbidity of the clearest air that is reckoned with: very clear and cold. What the sun gives through it is the
/// most that any hour gets. The monthly mean turbidity is no such bound: in 133 of the 156 months of
/// [`places`](super::places) the clearest day is clearer than that (in 60 than this, by 0.15 of clearness at most).
///
/// Source: the scale of Linke turbidity in the European Solar Radiation Atlas 2000 (`from memory`).
pub const CLEAREST_TURBIDITY: f64 = 2.0;

/// Wind where it is not known [m/s].
///
/// Source: FAO Irrigation and Drainage Paper 56, chapter 3, mean of more than 2000 stations (`from memory`).
pub const USUAL_WIND_M_S: f64 = 2.0;

/// Monthly means of a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Climate {
    /// Global horizontal irradiation, mean day of each month [kWh/(m² d)], 0 or more.
    pub ghi_kwh_m2_d: [f64; 12],
    /// Air temperature.
    pub air: AirMeans,
    /// Wind, mean of each month [m/s], 0 or more; [`USUAL_WIND_M_S`] where it is not known.
    pub wind_m_s: Option<[f64; 12]>,
}

impl Climate {
    fn is_sound(&self) -> bool {
        let never_negative = self.ghi_kwh_m2_d.iter().chain(self.wind_m_s.iter().flatten());
        self.air.is_sound() && never_negative.copied().all(|figure| figure.is_finite() && figure >= 0.0)
    }
}

/// How the clearness of the days of a month is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum DaysBy {
    /// Spread over a distribution: [`clearness_distribution::fill_month`].
    #[default]
    Distribution,
    /// Each by the one before: [`clearness_chain::fill_month`].
    Chain,
}

/// Weather that was made.
#[derive(Debug, Clone, PartialEq)]
pub struct Synthetic {
    /// The weather. Dew point is not made.
    pub weather: Weather,
    /// Months whose mean the sun cannot give at the place.
    pub shortfalls: Vec<Shortfall>,
}

/// A month whose mean is more than the sun gives through the clearest air. It has clear days throughout.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shortfall {
    /// Its year.
    pub year: i16,
    /// The month, 1 to 12.
    pub month: u8,
    /// What was asked for [kWh/(m² d)].
    pub given_kwh_m2_d: f64,
    /// What was made [kWh/(m² d)].
    pub made_kwh_m2_d: f64,
}

/// Makes weather that has given monthly means.
///
/// 1. The days of each month get their clearness (`days_by`), scaled so that the month has its mean, none of them above
///    the sky of [`CLEAREST_TURBIDITY`].
/// 2. Within a day the hours wander by [`HourlyClearness`], scaled so that the day has its own, none above that sky. Steps
///    within an hour share its deviation.
/// 3. Beam and diffuse are told apart by [`erbs`].
/// 4. Air temperature swings about a course that keeps the monthly means; wind is the month's mean throughout.
///
/// - `place`    the place
/// - `clock`    steps of the answer, whole days of them
/// - `sun`      where the sun stands in the middle of each step
/// - `climate`  monthly means
/// - `days_by`  how the clearness of days is made
/// - `seed`     any number; the same one makes the same weather, and at other steps weather with the same days
///
/// None where the clock is not of whole days, the suns are not as many as the steps, or a figure is not a number or out
/// of its range.
///
/// Sources: those of the functions named.
pub fn synthetic(
    place: &Place,
    clock: &Clock,
    sun: &[Direction],
    climate: &Climate,
    days_by: DaysBy,
    seed: u64,
) -> Option<Synthetic> {
    let days = clock.days();
    let per_day = (MINUTES_PER_DAY / clock.step_min()) as usize;
    let whole = days.iter().all(|day| day.steps.len() == per_day);
    if !whole || sun.len() != clock.count() || !climate.is_sound() {
        return None;
    }
    let clear = clear_sky(place, &days, sun, |_| CLEAREST_TURBIDITY);
    let limits = Limits {
        outside_w_m2: extraterrestrial_horizontal_w_m2(&days, sun),
        clear_w_m2: clear.iter().map(|sky| sky.ghi_w_m2).collect(),
    };
    if !limits.clear_w_m2.iter().all(|w_m2| w_m2.is_finite()) {
        return None;
    }
    let mut chance = Chance::new(seed);
    let (day_shares, shortfalls) = make_days(clock, &days, &limits, climate, days_by, &mut chance);
    let ghi_w_m2 = make_hours(clock, &days, sun, &limits, &day_shares, &mut chance);
    let sky = beam_and_diffuse(&days, sun, &ghi_w_m2);
    let day_clearness: Vec<f64> = day_shares.iter().map(|day| day.clearness).collect();
    let wind_m_s = climate.wind_m_s.unwrap_or([USUAL_WIND_M_S; 12]);
    let weather = Weather {
        clock: *clock,
        dni_w_m2: sky.iter().map(|sky| sky.dni_w_m2).collect(),
        dhi_w_m2: sky.iter().map(|sky| sky.dhi_w_m2).collect(),
        ghi_w_m2,
        air_c: course_c(clock, &days, &climate.air, &day_clearness),
        dew_point_c: None,
        wind_m_s: days
            .iter()
            .flat_map(|day| day.steps.clone().map(|_| wind_m_s[usize::from(day.month()) - 1]))
            .collect(),
    };
    Some(Synthetic { weather, shortfalls })
}

/// What no step can pass, by step.
struct Limits {
    /// Irradiance of a horizontal plane outside the atmosphere [W/m²].
    outside_w_m2: Vec<f64>,
    /// Global irradiance under the clearest air [W/m²].
    clear_w_m2: Vec<f64>,
}

/// Sunshine of a day.
struct DayShare {
    /// Sum of the global irradiance of its steps [W/m²].
    sum_w_m2: f64,
    /// The same by that outside the atmosphere, 0 to 1; 0 of a day without sun.
    clearness: f64,
}

/// Sunshine of each day, and the months that fall short.
fn make_days(
    clock: &Clock,
    days: &[Day],
    limits: &Limits,
    climate: &Climate,
    days_by: DaysBy,
    chance: &mut Chance,
) -> (Vec<DayShare>, Vec<Shortfall>) {
    let day_sums = |steps_w_m2: &[f64]| -> Vec<f64> {
        days.iter().map(|day| steps_w_m2[day.steps.clone()].iter().sum()).collect()
    };
    let (outside, bounds) = (day_sums(&limits.outside_w_m2), day_sums(&limits.clear_w_m2));
    let mut sums = vec![0.0; days.len()];
    let mut shortfalls = Vec::new();
    let mut from = 0;
    for month in days.chunk_by(|a, b| (a.date.year(), a.month()) == (b.date.year(), b.month())) {
        let range = from..from + month.len();
        from = range.end;
        let given_kwh_m2_d = climate.ghi_kwh_m2_d[usize::from(month[0].month()) - 1];
        // The sum of a step's irradiance lasts for the step.
        let sum_per_kwh_m2_d = 1000.0 / clock.step_h() * month.len() as f64;
        let asked_w_m2 = given_kwh_m2_d * sum_per_kwh_m2_d;
        let (sums, outside) = (&mut sums[range.clone()], &outside[range.clone()]);
        let outside_w_m2: f64 = outside.iter().sum();
        let mean = if outside_w_m2 > 0.0 { (asked_w_m2 / outside_w_m2).min(1.0) } else { 0.0 };
        match days_by {
            DaysBy::Distribution => clearness_distribution::fill_month(mean, sums, chance),
            DaysBy::Chain => clearness_chain::fill_month(mean, sums, chance),
        }
        sums.iter_mut().zip(outside).for_each(|(sum, outside)| *sum *= outside);
        let reached_w_m2 = scale_to(sums, &bounds[range], asked_w_m2);
        if reached_w_m2 < asked_w_m2 {
            shortfalls.push(Shortfall {
                year: month[0].date.year(),
                month: month[0].month(),
                given_kwh_m2_d,
                made_kwh_m2_d: reached_w_m2 / sum_per_kwh_m2_d,
            });
        }
    }
    let share = |(sum_w_m2, outside_w_m2): (f64, f64)| DayShare {
        sum_w_m2,
        clearness: if outside_w_m2 > 0.0 { sum_w_m2 / outside_w_m2 } else { 0.0 },
    };
    (sums.into_iter().zip(outside).map(share).collect(), shortfalls)
}

/// Global irradiance of each step [W/m²].
fn make_hours(
    clock: &Clock,
    days: &[Day],
    sun: &[Direction],
    limits: &Limits,
    day_shares: &[DayShare],
    chance: &mut Chance,
) -> Vec<f64> {
    let mut ghi_w_m2 = vec![0.0; sun.len()];
    let mut deviation = chance.normal();
    for (day, share) in days.iter().zip(day_shares) {
        let hours = HourlyClearness::of_day(share.clearness);
        // Hours of the night are drawn too, so that at other steps the same hours have the same deviations.
        let deviations: [f64; 24] = std::array::from_fn(|_| {
            deviation = autoregressive(deviation, hours.correlation, chance.normal());
            deviation
        });
        let steps = day.steps.clone();
        for step in steps.clone().filter(|step| sun[*step].up > 0.0) {
            let hour = (step - steps.start) * clock.step_min() as usize / 60;
            let up = sun[step].up;
            let clearness = hours.mean(up) + hours.deviation(up) * deviations[hour];
            ghi_w_m2[step] = clearness.max(0.0) * limits.outside_w_m2[step];
        }
        scale_to(&mut ghi_w_m2[steps.clone()], &limits.clear_w_m2[steps], share.sum_w_m2);
    }
    ghi_w_m2
}

/// Irradiance of each step, beam and diffuse told apart.
fn beam_and_diffuse(days: &[Day], sun: &[Direction], ghi_w_m2: &[f64]) -> Vec<Irradiance> {
    let mut sky = vec![Irradiance::DARK; sun.len()];
    for day in days {
        let outside_w_m2 = air_mass::extraterrestrial_w_m2(day.day_of_year());
        for step in day.steps.clone().filter(|step| ghi_w_m2[*step] > 0.0) {
            sky[step] = erbs(ghi_w_m2[step], sun[step].zenith_rad(), outside_w_m2);
        }
    }
    sky
}
