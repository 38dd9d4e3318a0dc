//! The budget's books: every month and every day of a series.

use jiff::civil::Date;

use super::ledger::{Ledger, State, Step, lesser};
use super::setup::Setup;
use crate::sky::clock::Day;

/// What a span of time came to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Balance {
    /// Its first day.
    pub first_day: Date,
    /// Steps in it.
    pub steps: usize,
    /// Light on the planes of the arrays [Wh/m²].
    pub plane_wh_m2: f64,
    /// What the sun could give behind the controller [Wh].
    pub sun_wh: f64,
    /// What other sources gave [Wh].
    pub other_wh: f64,
    /// What was asked for [Wh].
    pub load_wh: f64,
    /// What of the sun nothing could take [Wh].
    pub spilled_wh: f64,
    /// What was asked for in vain [Wh].
    pub unmet_wh: f64,
    /// Hours in which something was [h].
    pub unmet_h: f64,
    /// What was lost in the battery [Wh].
    pub lost_wh: f64,
    /// Lowest state of charge.
    pub lowest_soc: f64,
    /// Sum of the states of charge.
    soc_sum: f64,
    /// State of charge at its end.
    pub last_soc: f64,
}

impl Balance {
    /// What the steps of a day came to.
    ///
    /// - `plane_w_m2`  light on the planes of the arrays in each
    /// - `step_h`      length of each [h]
    fn of_day(first_day: Date, steps: &[Step], plane_w_m2: &[f64], step_h: f64) -> Self {
        let (mut sum, mut sum_w_m2, mut lowest_soc, mut unmet_steps) = (Step::default(), 0.0, 1.0, 0_u32);
        // Two loops: what either carries from step to step stays in registers.
        for (step, plane_w_m2) in steps.iter().zip(plane_w_m2) {
            sum_w_m2 += plane_w_m2;
            sum.sun_wh += step.sun_wh;
            sum.other_wh += step.other_wh;
            sum.load_wh += step.load_wh;
            sum.spilled_wh += step.spilled_wh;
            sum.unmet_wh += step.unmet_wh;
            sum.lost_wh += step.lost_wh;
            sum.soc += step.soc;
        }
        for step in steps {
            unmet_steps += u32::from(step.unmet_wh > 1e-9);
            lowest_soc = lesser(step.soc, lowest_soc);
        }
        Self {
            first_day,
            steps: steps.len(),
            plane_wh_m2: sum_w_m2 * step_h,
            sun_wh: sum.sun_wh,
            other_wh: sum.other_wh,
            load_wh: sum.load_wh,
            spilled_wh: sum.spilled_wh,
            unmet_wh: sum.unmet_wh,
            unmet_h: f64::from(unmet_steps) * step_h,
            lost_wh: sum.lost_wh,
            lowest_soc,
            soc_sum: sum.soc,
            last_soc: steps.last().map_or(1.0, |step| step.soc),
        }
    }

    /// Takes another span after this one into it.
    fn join(&mut self, later: &Self) {
        self.steps += later.steps;
        self.plane_wh_m2 += later.plane_wh_m2;
        self.sun_wh += later.sun_wh;
        self.other_wh += later.other_wh;
        self.load_wh += later.load_wh;
        self.spilled_wh += later.spilled_wh;
        self.unmet_wh += later.unmet_wh;
        self.unmet_h += later.unmet_h;
        self.lost_wh += later.lost_wh;
        self.lowest_soc = self.lowest_soc.min(later.lowest_soc);
        self.soc_sum += later.soc_sum;
        self.last_soc = later.last_soc;
    }

    /// Mean state of charge; 1 of no steps.
    pub fn mean_soc(&self) -> f64 {
        if self.steps == 0 { 1.0 } else { self.soc_sum / self.steps as f64 }
    }

    /// How long it is [days].
    pub fn days(&self, step_h: f64) -> f64 {
        self.steps as f64 * step_h / 24.0
    }
}

/// The books of a series.
#[derive(Debug, Clone, PartialEq)]
pub struct Books {
    /// Day by day.
    pub days: Vec<Balance>,
    /// Month by month, in the order of the series.
    pub months: Vec<Balance>,
    /// All of it.
    pub whole: Balance,
    /// State of charge at the end of each step.
    pub soc: Vec<f64>,
    /// What was asked for in vain in each step [Wh].
    pub unmet_wh: Vec<f64>,
    /// Longest time on end in which the battery was never full [h].
    pub longest_without_full_h: f64,
    /// What of the sun was spilled while the battery was too cold to be charged [Wh].
    pub cold_spilled_wh: f64,
}

/// The sums of a series.
#[derive(Debug, Clone, PartialEq)]
pub struct Sums {
    /// Day by day.
    pub days: Vec<Balance>,
    /// Month by month, in the order of the series.
    pub months: Vec<Balance>,
    /// All of it.
    pub whole: Balance,
}

/// Adds up a series, the battery full at its start.
///
/// - `on_day`  called with each day and its steps
pub fn add_up(setup: &Setup, mut on_day: impl FnMut(&Day, &[Step])) -> Sums {
    let ledger = Ledger::new(setup.house.bank, setup.step_h);
    let others = setup.others();
    let flows = setup.flows(&others);
    let mut state: State = ledger.at_rest(1.0);
    let days = &*setup.site.days;
    let first_day = days.first().map_or(Date::ZERO, |day| day.date);
    let mut sums = Sums {
        days: Vec::with_capacity(days.len()),
        months: Vec::new(),
        whole: Balance::of_day(first_day, &[], &[], setup.step_h),
    };
    let most_steps = days.iter().map(|day| day.steps.len()).max().unwrap_or(0);
    let mut walked = vec![Step::default(); most_steps];
    for day in days {
        let (steps, first) = (&mut walked[..day.steps.len()], day.steps.start);
        // Summed apart: what the walk carries from step to step stays in registers.
        ledger.walk(&mut state, &flows, day.steps.clone(), |index, step| {
            steps[index - first] = *step;
            true
        });
        let of_day = Balance::of_day(day.date, steps, &setup.plane_w_m2[day.steps.clone()], setup.step_h);
        let same_month = |other: &&mut Balance| {
            (other.first_day.year(), other.first_day.month()) == (day.date.year(), day.date.month())
        };
        match sums.months.last_mut().filter(same_month) {
            Some(month) => month.join(&of_day),
            None => sums.months.push(of_day),
        }
        sums.whole.join(&of_day);
        sums.days.push(of_day);
        on_day(day, steps);
    }
    sums
}

/// Keeps the books of a series, the battery full at its start.
pub fn keep(setup: &Setup) -> Books {
    let mut soc = Vec::with_capacity(setup.count());
    let mut unmet_wh = Vec::with_capacity(setup.count());
    let (mut without_full, mut longest_without_full) = (0_u32, 0);
    let mut cold_spilled_wh = 0.0;
    let Sums { days, months, whole } = add_up(setup, |day, steps| {
        soc.extend(steps.iter().map(|step| step.soc));
        unmet_wh.extend(steps.iter().map(|step| step.unmet_wh));
        for step in steps {
            without_full = if step.is_full { 0 } else { without_full + 1 };
            longest_without_full = longest_without_full.max(without_full);
        }
        let acceptance = &setup.through.acceptance[day.steps.clone()];
        let is_too_cold = |acceptance: &f64| *acceptance < 1e-9;
        // Few days are, and the sum is as long as the walk.
        if acceptance.iter().any(is_too_cold) {
            let in_the_cold = steps.iter().zip(acceptance).filter(|(_, acceptance)| is_too_cold(acceptance));
            cold_spilled_wh += in_the_cold.map(|(step, _)| step.spilled_wh).sum::<f64>();
        }
    });
    let longest_without_full_h = f64::from(longest_without_full) * setup.step_h;
    Books { days, months, whole, soc, unmet_wh, longest_without_full_h, cold_spilled_wh }
}
