//! The numbers of an energy budget.

use crate::build::Build;

use super::autonomy::{self, Autonomy};
use super::balance::{self, Balance, Books};
use super::bank::usual;
use super::battery_temperature::lead_acid_freezing_c;
use super::cycles::life_used;
use super::setup::Setup;
use super::smallest::{Smallest, Trial};
use super::stay::{self, StayNumbers};
use super::worksheet::{autonomy_h, daily_array_w, daily_bank_wh, daily_wh};

/// How steeply life falls with depth where one point of it is known: as if each kilowatt-hour used up the same. Common
/// practice.
const LIFE_EXPONENT: f64 = 1.0;
/// Days without sun that the worksheet reckons with where no grey days are given.
const WORKSHEET_DAYS: f64 = 3.0;
/// Hours of a year.
const YEAR_H: f64 = 8760.0;

/// Everything that was worked out.
#[derive(Debug, Clone, PartialEq)]
pub struct Numbers {
    /// Months, days and steps.
    pub books: Books,
    /// From the start of the stay, at its state of charge.
    pub autonomy: Autonomy,
    /// From the hour at which most is asked for, the battery full.
    pub worst_autonomy: Autonomy,
    /// Days until an empty battery is full again, from the start of the stay on.
    pub recovery_days: Option<f64>,
    /// The stay, where the build says of one and its day is in the series.
    pub stay: Option<StayNumbers>,
    /// The smallest rated power of the arrays [W].
    pub smallest_array: Smallest,
    /// The smallest capacity of the battery, rated as the build gives it [Ah].
    pub smallest_bank: Smallest,
    /// The closed form beside it all.
    pub worksheet: Option<Worksheet>,
    /// What the year takes of the battery's life.
    pub life: Life,
    /// Energy that the controller's limit kept back [Wh].
    pub clipped_wh: f64,
    /// Energy of the inverters' own draw [Wh].
    pub idle_wh: f64,
    /// Hours in which a lead-acid battery may freeze [h].
    pub freezing_h: f64,
    /// Longest time in which the battery was never full [days].
    pub longest_without_full_days: f64,
}

/// The closed form: no series, no steps.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Worksheet {
    /// The month that asks for the largest array, by its position in the books.
    pub month: usize,
    /// Hours of full sun in a mean day of it [h].
    pub sun_h: f64,
    /// Load of a mean day of it [Wh].
    pub load_wh_per_day: f64,
    /// Array that covers it [W].
    pub array_w: f64,
    /// Days without sun that the bank is for.
    pub days: f64,
    /// Bank that carries them [Wh].
    pub bank_wh: f64,
    /// How long the battery there is carries that load [h].
    pub autonomy_h: f64,
}

/// What a year takes of a battery's life.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Life {
    /// Energy taken from the store in a year, by what it is rated for: full cycles.
    pub full_cycles_per_year: f64,
    /// Years until its cycles are used up; without bound where there are none.
    pub by_cycles_years: f64,
    /// Years it lasts at most.
    pub calendar_years: f64,
}

impl Life {
    /// Years it lasts.
    pub fn years(&self) -> f64 {
        self.by_cycles_years.min(self.calendar_years)
    }
}

/// Works everything out.
///
/// - `build`  the build, for what is asked of it
/// - `setup`  the same made ready
pub fn numbers(build: &Build, setup: &Setup) -> Numbers {
    let asked = build.stay.as_ref();
    let books = balance::keep(setup);
    let (start, start_soc) = start(build, setup);
    let most_unmet_fraction = asked.and_then(|stay| stay.max_unmet_fraction).unwrap_or(0.0);
    let (smallest_array, smallest_bank) = smallest(setup, most_unmet_fraction);
    let grey_days =
        asked.and_then(|stay| stay.grey_days).filter(|days| *days > 0).map_or(WORKSHEET_DAYS, f64::from);
    Numbers {
        autonomy: autonomy::from(setup, start, start_soc),
        worst_autonomy: autonomy::from(setup, autonomy::worst_start(setup), 1.0),
        recovery_days: autonomy::recovery_days(setup, start),
        stay: asked.and_then(|stay| stay::numbers(setup, stay)),
        smallest_array,
        smallest_bank,
        worksheet: worksheet(setup, &books, grey_days, start_soc),
        life: life(setup, &books),
        clipped_wh: clipped_wh(setup),
        idle_wh: setup.idle_wh,
        freezing_h: freezing_h(setup, &books),
        longest_without_full_days: books.longest_without_full_h / 24.0,
        books,
    }
}

/// How long the battery lasts from the start of the stay, at its state of charge.
pub fn first_autonomy(build: &Build, setup: &Setup) -> Autonomy {
    let (start, start_soc) = start(build, setup);
    autonomy::from(setup, start, start_soc)
}

/// The step at which the stay begins, and the state of charge.
fn start(build: &Build, setup: &Setup) -> (usize, f64) {
    let asked = build.stay.as_ref();
    let start = asked.and_then(|stay| stay::first_step(setup, stay)).unwrap_or(0);
    (start, asked.and_then(|stay| stay.start_soc).unwrap_or(1.0))
}

/// The smallest array [W] and the smallest bank [Ah] for a target.
fn smallest(setup: &Setup, most_unmet_fraction: f64) -> (Smallest, Smallest) {
    let others = setup.others();
    let flows = setup.flows(&others);
    let bank = match Trial::new(setup, flows, most_unmet_fraction).bank_scale() {
        Smallest::Size(scale) => Smallest::Size(scale * setup.house.given_ah),
        Smallest::Impossible => Smallest::Impossible,
    };
    let (given_w, rated_w) = setup.given_per_w();
    let flows = super::ledger::Flows { sun_w: &given_w, ..flows };
    (Trial::new(setup, flows, most_unmet_fraction).array_w(rated_w), bank)
}

/// The closed form for the month that asks for the largest array; none without light or load.
///
/// - `days`  days without sun that the bank is for
fn worksheet(setup: &Setup, books: &Books, days: f64, start_soc: f64) -> Option<Worksheet> {
    let bank = &setup.house.bank;
    let through_battery = bank.charge_efficiency * bank.discharge_efficiency;
    let of_month = |(month, balance): (usize, &Balance)| {
        let days_in_it = balance.days(setup.step_h);
        let sun_h = balance.plane_wh_m2 / 1000.0 / days_in_it;
        let load_wh_per_day = balance.load_wh / days_in_it;
        let parts = setup.month_parts(balance);
        // What is left of the rated power after heat, reflection and losses, the controller's limit left out.
        let efficiency = parts.given_wh / (balance.plane_wh_m2 / 1000.0 * setup.harvester.rated_w());
        let bus_wh = daily_wh(parts.lit_load_wh, balance.load_wh - parts.lit_load_wh, through_battery);
        let array_w = daily_array_w(bus_wh / days_in_it, sun_h, efficiency);
        (days_in_it > 0.0 && array_w.is_finite() && array_w > 0.0).then_some((
            month,
            sun_h,
            load_wh_per_day,
            array_w,
        ))
    };
    let months = books.months.iter().enumerate().filter_map(of_month);
    let (month, sun_h, load_wh_per_day, array_w) = months.max_by(|a, b| a.3.total_cmp(&b.3))?;
    let usable = setup.house.temper.usable;
    Some(Worksheet {
        month,
        sun_h,
        load_wh_per_day,
        array_w,
        days,
        bank_wh: daily_bank_wh(load_wh_per_day, days, usable, bank.discharge_efficiency),
        autonomy_h: autonomy_h(
            bank.rated_wh,
            start_soc,
            1.0 - usable,
            bank.discharge_efficiency,
            load_wh_per_day / 24.0,
        ),
    })
}

fn life(setup: &Setup, books: &Books) -> Life {
    let years = setup.count() as f64 * setup.step_h / YEAR_H;
    let mut socs = books.soc.clone();
    let drawn: f64 = socs.windows(2).map(|pair| (pair[0] - pair[1]).max(0.0)).sum();
    let used = life_used(&mut socs, setup.house.life, LIFE_EXPONENT);
    Life {
        full_cycles_per_year: drawn / years,
        by_cycles_years: if used > 0.0 { years / used } else { f64::INFINITY },
        calendar_years: usual(setup.house.chemistry).calendar_years,
    }
}

fn clipped_wh(setup: &Setup) -> f64 {
    let most_w = setup.harvester.most_w;
    setup.given_w.iter().map(|given_w| (given_w - most_w).max(0.0)).sum::<f64>() * setup.step_h
}

fn freezing_h(setup: &Setup, books: &Books) -> f64 {
    if !setup.house.temper.is_lead {
        return 0.0;
    }
    let steps = books.soc.iter().zip(&setup.through.battery_c);
    let freezing = steps.filter(|(soc, battery_c)| **battery_c < lead_acid_freezing_c(soc.clamp(0.0, 1.0)));
    freezing.count() as f64 * setup.step_h
}
