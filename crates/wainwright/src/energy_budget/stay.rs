//! A stay without shore power: some days of the series, the first of them grey.

use jiff::civil::{Date, DateTime};

use crate::build::Stay;
use crate::document::MonthDay;
use crate::sky::clear_year::clear_sky;
use crate::sky::clock::Clock;
use crate::sky::sun::Direction;
use crate::sky::turbidity::Turbidity;
use crate::sky::weather::Weather;

use super::ledger::{Conditions, Flows, Ledger, Other};
use super::setup::Setup;

/// Hour of the day at which a stay begins where nothing is said: in the evening, on arrival.
pub const USUAL_FIRST_HOUR: u32 = 18;
/// Days that a stay lasts where nothing is said.
pub const USUAL_DAYS: u32 = 5;
/// Grey days of a stay where nothing is said: none but those of the weather.
pub const USUAL_GREY_DAYS: u32 = 0;
/// Light of a grey day by that of a clear one. Common practice: 0.1 to 0.25 under a thick cover.
pub const USUAL_GREY_FRACTION: f64 = 0.2;
/// What a stay came to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StayNumbers {
    /// When it begins.
    pub begins: DateTime,
    /// How long it lasts, as far as the series goes [h].
    pub hours_h: f64,
    /// How long it was to last [h].
    pub asked_h: f64,
    /// How many of its first days are grey.
    pub grey_days: u32,
    /// What the sun could give [Wh].
    pub sun_wh: f64,
    /// What was asked for [Wh].
    pub load_wh: f64,
    /// What of it could not be met [Wh].
    pub unmet_wh: f64,
    /// Lowest state of charge.
    pub lowest_soc: f64,
    /// When that is.
    pub lowest_at: DateTime,
    /// Hours until something goes unmet [h]; none where nothing does.
    pub lasts_h: Option<f64>,
    /// When the battery is full again after its lowest; none where it is not by the end.
    pub full_again: Option<DateTime>,
    /// State of charge at the end.
    pub last_soc: f64,
}

/// The step of a series at which a stay would begin; none where its day is not in the series.
///
/// - `stay`  what the build says of it
pub fn first_step(setup: &Setup, stay: &Stay) -> Option<usize> {
    let hour = stay.first_hour.unwrap_or(USUAL_FIRST_HOUR);
    let step_min = setup.site.weather.clock.step_min();
    setup.site.days.iter().find_map(|day| {
        let wanted = stay.first_day.is_none_or(|wanted| is_day(wanted, day.date));
        let minute = hour * 60;
        let after = minute.checked_sub(day.first_min)?;
        let step = day.steps.start + after.div_ceil(step_min) as usize;
        (wanted && step < day.steps.end).then_some(step)
    })
}

/// Is it that day of the year? The 29th of February is the 28th where there is none.
fn is_day(wanted: MonthDay, date: Date) -> bool {
    let last = wanted.month == 2 && wanted.day == 29 && !date.in_leap_year();
    (date.month(), date.day()) == (wanted.month, if last { 28 } else { wanted.day })
}

/// Works through a stay; none where its first day is not in the series.
///
/// - `stay`  what the build says of it
pub fn numbers(setup: &Setup, stay: &Stay) -> Option<StayNumbers> {
    let start = first_step(setup, stay)?;
    let clock = setup.site.weather.clock;
    let per_day = (24.0 / setup.step_h).round() as usize;
    let wanted = stay.days.unwrap_or(USUAL_DAYS) as usize * per_day;
    let window: Vec<usize> = setup.from(start).into_iter().flatten().take(wanted).collect();
    let begins = clock.stamp(start);
    let of_stay = Clock::new(begins, clock.step_min(), window.len())?;
    let grey_days = stay.grey_days.unwrap_or(USUAL_GREY_DAYS);
    let (given_w, most_w) = (given(setup, stay, &of_stay, &window, grey_days), setup.harvester.most_w);
    let gathered = |list: &[f64]| window.iter().map(|&step| list[step]).collect::<Vec<f64>>();
    let (load_w, usable) = (gathered(&setup.load_w), gathered(&setup.through.usable));
    let acceptance = gathered(&setup.through.acceptance);
    let available: Vec<Vec<f64>> =
        setup.charging.iter().map(|source| gathered(&source.available_w)).collect();
    let others: Vec<Other> = setup
        .charging
        .iter()
        .zip(&available)
        .map(|(source, available_w)| Other {
            available_w,
            start_soc: source.start_soc,
            stop_soc: source.stop_soc,
        })
        .collect();
    let flows = Flows {
        sun_w: &given_w,
        sun_scale: 1.0,
        most_sun_w: most_w,
        load_w: &load_w,
        others: &others,
        conditions: Conditions { usable: &usable, acceptance: &acceptance },
    };
    let ledger = Ledger::new(setup.house.bank, setup.step_h);
    let start_soc = stay.start_soc.unwrap_or(1.0);
    let mut numbers = StayNumbers {
        begins,
        hours_h: window.len() as f64 * setup.step_h,
        asked_h: wanted as f64 * setup.step_h,
        grey_days,
        sun_wh: 0.0,
        load_wh: 0.0,
        unmet_wh: 0.0,
        lowest_soc: start_soc,
        lowest_at: begins,
        lasts_h: None,
        full_again: None,
        last_soc: start_soc,
    };
    ledger.walk(&mut ledger.at_rest(start_soc), &flows, 0..window.len(), |index, step| {
        numbers.sun_wh += step.sun_wh;
        numbers.load_wh += step.load_wh;
        if step.unmet_wh > 1e-9 && numbers.lasts_h.is_none() {
            numbers.lasts_h = Some(setup.step_h * (index as f64 + 1.0 - step.unmet_wh / step.load_wh));
        }
        numbers.unmet_wh += step.unmet_wh;
        if step.soc < numbers.lowest_soc {
            (numbers.lowest_soc, numbers.lowest_at) = (step.soc, of_stay.stamp(index + 1));
            numbers.full_again = None;
        } else if step.is_full && numbers.full_again.is_none() {
            numbers.full_again = Some(of_stay.stamp(index + 1));
        }
        numbers.last_soc = step.soc;
        true
    });
    Some(numbers)
}

/// What the arrays give in each step of a stay, its grey days in place of those of the weather [W].
fn given(setup: &Setup, stay: &Stay, of_stay: &Clock, window: &[usize], grey_days: u32) -> Vec<f64> {
    let gathered = |list: &[f64]| window.iter().map(|&step| list[step]).collect::<Vec<f64>>();
    if grey_days == 0 {
        return gathered(&setup.given_w);
    }
    let weather = &setup.site.weather;
    let suns: Vec<Direction> = window.iter().map(|&step| setup.site.suns[step]).collect();
    let days = of_stay.days();
    let turbidity = Turbidity::of(setup.site.place.latitude_rad, setup.site.place.longitude_rad);
    let clear = clear_sky(&setup.site.place, &days, &suns, |day| turbidity.on(day.date));
    let fraction = stay.grey_fraction.unwrap_or(USUAL_GREY_FRACTION);
    let mut made = Weather {
        clock: *of_stay,
        ghi_w_m2: gathered(&weather.ghi_w_m2),
        dni_w_m2: gathered(&weather.dni_w_m2),
        dhi_w_m2: gathered(&weather.dhi_w_m2),
        air_c: gathered(&weather.air_c),
        dew_point_c: None,
        wind_m_s: gathered(&weather.wind_m_s),
    };
    let grey_steps = (f64::from(grey_days) * 24.0 / setup.step_h).round() as usize;
    for (step, clear) in clear.iter().enumerate().take(grey_steps) {
        let grey_w_m2 = fraction * clear.ghi_w_m2;
        (made.ghi_w_m2[step], made.dni_w_m2[step], made.dhi_w_m2[step]) = (grey_w_m2, 0.0, grey_w_m2);
    }
    let mut sums = (vec![0.0; window.len()], vec![0.0; window.len()]);
    setup.harvester.add(&made, &days, &suns, (&mut sums.0, &mut sums.1));
    sums.0
}
