//! A build made ready for its energy budget: weather, harvest, load and what temperature leaves of the battery, as series.

use std::cell::RefCell;
use std::ops::Range;
use std::sync::Arc;

use crate::build::Build;
use crate::drawn_power::demand::{Course, Demand, Filled};
use crate::memo::Recent;
use crate::site_weather::SiteWeather;
use crate::sky::clock::{Day, MINUTES_PER_DAY};
use crate::sky::sun::Direction;
use crate::sky::weather::Weather;
use crate::units::celsius;

use super::array::Array;
use super::arrays::{
    Harvester, USUAL_EFFICIENCY, USUAL_GAMMA_PER_C, USUAL_LOSS, USUAL_MOUNT, harvester, heat_loss,
};
use super::balance::Balance;
use super::bank::{House, house};
use super::charging::{self, ChargingSource};
use super::conditions::{Temper, Through};
use super::consumers::{Consumer, Consumers, USUAL_SHARE};
use super::harvest::{Controller, Source};
use super::ledger::{Conditions, Flows, Ledger, Other, State};

/// Hours of a typical year: a series at least as long comes round.
const YEAR_H: f64 = 8760.0;
/// Rated power of the array that stands in where a build has none, for the smallest that would do [W].
const STAND_IN_W: f64 = 100.0;
/// In less light than this on the plane nothing is expected of an array [W/m²].
const EXPECTED_FROM_W_M2: f64 = 200.0;

/// What another question knows better of the box than the energy budget by itself.
#[derive(Debug, Clone, Copy)]
pub struct Handed<'h> {
    /// Temperature of the air in the box in each step of the weather [°C].
    pub box_c: &'h [f64],
    /// The part that is the air conditioner, and its course through the weather.
    pub cooler: Option<(&'h str, Course<'h>)>,
}

/// Everything the budget is worked out from.
#[derive(Debug)]
pub struct Setup<'b> {
    /// Weather and sun.
    pub site: SiteWeather<'b>,
    /// The battery.
    pub house: House,
    /// Arrays and controller.
    pub harvester: Harvester<'b>,
    /// What the battery feeds.
    pub consumers: Consumers<'b>,
    /// What that asks for.
    pub demand: Demand<'b>,
    /// What charges it beside the sun.
    pub charging: Vec<ChargingSource<'b>>,
    /// Length of a step [h].
    pub step_h: f64,
    /// Does the series come round, as a year does?
    pub comes_round: bool,
    /// Temperature of the air in the box in each step [°C].
    pub box_c: Vec<f64>,
    /// What the arrays give in each step, the controller's limit left out [W].
    pub given_w: Vec<f64>,
    /// What falls on the planes of the arrays, weighed by their rated power [W/m²].
    pub plane_w_m2: Vec<f64>,
    /// What is asked for in each step [W].
    pub load_w: Vec<f64>,
    /// The air conditioner whose course was handed over, and what it takes at the bus through the series [Wh].
    pub cooler: Option<(&'b str, f64)>,
    /// What inverters take for themselves through the series [Wh].
    pub idle_wh: f64,
    /// Was the temperature of the box handed over, or is it that of the air outside?
    pub box_is_known: bool,
    /// What temperature leaves of the battery.
    pub through: Arc<Through>,
    /// Steps in which a refrigerator cannot keep its temperature.
    pub too_warm_steps: usize,
    /// What each array came to.
    pub array_sums: Vec<ArraySum>,
}

/// What an array came to over a series.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct ArraySum {
    /// Sum over its steps of what it gives behind the controller, the controller's limit left out [W].
    pub given_w: f64,
    /// Sum of what falls on its open plane [W/m²].
    pub plane_w_m2: f64,
    /// Steps in good light in which it gives nothing, its voltage being too low.
    pub short_steps: usize,
}

/// What a consumer asks for by itself.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Alone {
    /// Energy through the series [Wh].
    pub load_wh: f64,
    /// Steps in which it is a refrigerator that cannot keep its temperature.
    pub too_warm_steps: usize,
}

/// What a month is made of, for the worksheet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MonthParts {
    /// What the arrays give, the controller's limit left out [Wh].
    pub given_wh: f64,
    /// What is asked for while they give something [Wh].
    pub lit_load_wh: f64,
}

/// So many are kept.
const KEPT: usize = 4;
/// None of more steps is kept.
const MOST_KEPT: usize = 8784;

/// A battery, the weather it stands in, and what the box is heated to [°C].
type StandsIn = (Temper, Arc<Weather>, f64);

/// What a demand goes by, the weather, and what the box is heated to [°C].
type Loads = (Vec<u64>, Arc<Weather>, f64);

/// What is asked for in each step [W], and what filling it in came to.
type FilledIn = Arc<(Vec<f64>, Filled)>;

thread_local! {
    static LOADS: RefCell<Recent<Loads, FilledIn>> = const { RefCell::new(Recent::new(KEPT)) };
    static THROUGH: RefCell<Recent<StandsIn, Arc<Through>>> = const { RefCell::new(Recent::new(KEPT)) };
}

/// What temperature leaves of a battery that is as warm as the air outside.
fn known_through(
    temper: Temper,
    weather: &Arc<Weather>,
    heated_c: f64,
    worked_out: impl FnOnce() -> Through,
) -> Arc<Through> {
    let is_it =
        |(of, through, to_c): &StandsIn| *of == temper && Arc::ptr_eq(through, weather) && *to_c == heated_c;
    if let Some(known) = THROUGH.with_borrow_mut(|all| all.find(is_it)) {
        return known;
    }
    let through = Arc::new(worked_out());
    if weather.clock.count() <= MOST_KEPT {
        let of = (temper, Arc::clone(weather), heated_c);
        THROUGH.with_borrow_mut(|all| all.keep(of, Arc::clone(&through)));
    }
    through
}

impl<'b> Setup<'b> {
    /// A build made ready; none where something is missing.
    pub fn of(build: &'b Build) -> Option<Self> {
        Self::with(build, SiteWeather::of(build)?, None)
    }

    /// A build made ready, with what is known of its box; none where something is missing.
    ///
    /// - `site`    its weather
    /// - `handed`  what another question knows of its box; none where the box is as warm as the air outside
    pub fn with(build: &'b Build, site: SiteWeather<'b>, handed: Option<&Handed>) -> Option<Self> {
        let house = house(build.battery.as_ref()?);
        let heading_deg = build.site.as_ref().and_then(|site| site.heading_deg).unwrap_or(0.0);
        let volts = (house.charging_v, house.bank.nominal_v);
        let harvester = harvester(build, volts.0, volts.1, heading_deg, site.albedo);
        let consumers = Consumers::of(build);
        let cooler = handed.and_then(|handed| handed.cooler);
        let demand = consumers.demand(harvester.standby_w, cooler.map(|(id, _)| id));
        let clock = site.weather.clock;
        let (count, step_min) = (clock.count(), clock.step_min());
        let charging = charging::sources(build, &site.days, step_min, count, volts);
        let heated_c =
            build.stay.as_ref().and_then(|stay| stay.heated_to_f).map_or(f64::NEG_INFINITY, celsius);
        let mut setup = Self {
            box_c: handed
                .map_or(&*site.weather.air_c, |handed| handed.box_c)
                .iter()
                .map(|air_c| air_c.max(heated_c))
                .collect(),
            cooler: None,
            idle_wh: 0.0,
            box_is_known: handed.is_some(),
            step_h: clock.step_h(),
            comes_round: clock.step_h() * count as f64 >= YEAR_H,
            given_w: vec![0.0; count],
            plane_w_m2: vec![0.0; count],
            load_w: vec![0.0; count],
            through: Arc::default(),
            too_warm_steps: 0,
            array_sums: Vec::new(),
            site,
            house,
            harvester,
            consumers,
            demand,
            charging,
        };
        setup.array_sums = setup.harvester.add(
            &setup.site.weather,
            &setup.site.days,
            &setup.site.suns,
            (&mut setup.given_w, &mut setup.plane_w_m2),
        );
        let filled = setup.fill_loads(handed, heated_c);
        setup.too_warm_steps = filled.too_warm_steps;
        setup.idle_wh = filled.idle_w * setup.step_h;
        if let (Some(followed), Some((id, course))) = (setup.demand.followed, cooler) {
            let taken_wh = followed.per_w * course.power_w.iter().sum::<f64>() * setup.step_h;
            let part = setup.consumers.fed.iter().find(|one| one.id == id);
            setup.cooler = part.map(|one| (one.id, taken_wh));
        }
        let is_lit = |step: usize| setup.given_w[step] > 0.0;
        let temper = setup.house.temper;
        let worked_out = || temper.through(&setup.box_c, setup.step_h, is_lit);
        // By the air outside alone, where it is not heated: the same for every array and load.
        setup.through = if handed.is_none() && temper.heater_w.is_none() {
            known_through(temper, &setup.site.weather, heated_c, worked_out)
        } else {
            Arc::new(worked_out())
        };
        if let Some(heater_w) = setup.house.temper.heater_w {
            for (watts, _) in
                setup.load_w.iter_mut().zip(&setup.through.heated).filter(|(_, heated)| **heated)
            {
                *watts += heater_w;
            }
        }
        Some(setup)
    }

    /// Fills in what is asked for in each step. The same loads in the same weather ask for the same, whatever battery and
    /// arrays there are: the last few are kept.
    fn fill_loads(&mut self, handed: Option<&Handed>, heated_c: f64) -> Filled {
        let (days, step_min) = (&self.site.days, self.site.weather.clock.step_min());
        if handed.is_some() || self.count() > MOST_KEPT {
            let course = handed.and_then(|handed| handed.cooler).map(|(_, course)| course);
            return self.demand.fill(days, step_min, &self.box_c, course, &mut self.load_w);
        }
        let key = self.demand.key();
        let weather = &self.site.weather;
        let is_it =
            |(of, through, to_c): &Loads| *of == key && Arc::ptr_eq(through, weather) && *to_c == heated_c;
        if let Some(known) = LOADS.with_borrow_mut(|all| all.find(is_it)) {
            self.load_w.copy_from_slice(&known.0);
            return known.1;
        }
        let filled = self.demand.fill(days, step_min, &self.box_c, None, &mut self.load_w);
        let known = Arc::new((self.load_w.clone(), filled));
        LOADS.with_borrow_mut(|all| all.keep((key, Arc::clone(weather), heated_c), known));
        filled
    }

    /// What one consumer asks for by itself.
    pub fn alone(&self, one: &Consumer<'b>) -> Alone {
        if let Some((_, load_wh)) = self.cooler.filter(|(id, _)| *id == one.id) {
            return Alone { load_wh, too_warm_steps: 0 };
        }
        if one.draw.refrigerator.is_none() {
            return Alone { load_wh: one.bus_w * self.hours_on(one), too_warm_steps: 0 };
        }
        let mut load_w = vec![0.0; self.count()];
        let (days, step_min) = (&self.site.days, self.site.weather.clock.step_min());
        let too_warm_steps = one.demand().fill(days, step_min, &self.box_c, None, &mut load_w).too_warm_steps;
        Alone { load_wh: load_w.iter().sum::<f64>() * self.step_h, too_warm_steps }
    }

    /// Hours of the series in which something runs by its schedule [h].
    fn hours_on(&self, one: &Consumer<'b>) -> f64 {
        let schedule = one.draw.schedule();
        let share = |hour: usize| schedule.share(hour, USUAL_SHARE);
        let of_whole_day: f64 = (0..24).map(share).sum();
        let of_day = |day: &Day| {
            let minutes = day.steps.len() as u32 * self.site.weather.clock.step_min();
            if minutes == MINUTES_PER_DAY {
                return of_whole_day;
            }
            let begins = |step: usize| day.first_min + step as u32 * self.site.weather.clock.step_min();
            // Below 24: a day's steps begin in it.
            (0..day.steps.len()).map(|step| share((begins(step) / 60) as usize % 24)).sum::<f64>()
                * self.step_h
        };
        let on = self.site.days.iter().filter(|day| schedule.is_on_day(day.month(), day.weekday()));
        on.map(of_day).sum()
    }

    /// How many steps there are.
    pub fn count(&self) -> usize {
        self.load_w.len()
    }

    /// The other sources as the ledger takes them.
    pub fn others(&self) -> Vec<Other<'_>> {
        let other = |source: &'_ ChargingSource<'b>| (source.start_soc, source.stop_soc);
        self.charging
            .iter()
            .map(|source| {
                let (start_soc, stop_soc) = other(source);
                Other { available_w: &source.available_w, start_soc, stop_soc }
            })
            .collect()
    }

    /// What flows, with the arrays as they are.
    pub fn flows<'s>(&'s self, others: &'s [Other<'s>]) -> Flows<'s> {
        Flows {
            sun_w: &self.given_w,
            sun_scale: 1.0,
            most_sun_w: self.harvester.most_w,
            load_w: &self.load_w,
            others,
            conditions: self.conditions(),
        }
    }

    /// What flows without sun or any other source.
    pub fn flows_in_the_dark(&self) -> Flows<'_> {
        Flows { sun_scale: 0.0, ..self.flows(&[]) }
    }

    /// What temperature leaves, as the ledger takes it.
    pub fn conditions(&self) -> Conditions<'_> {
        Conditions { usable: &self.through.usable, acceptance: &self.through.acceptance }
    }

    /// Steps from one on, to the end of the series and, where it comes round, on to where they began.
    pub fn from(&self, start: usize) -> [Range<usize>; 2] {
        [start..self.count(), if self.comes_round { 0..start } else { 0..0 }]
    }

    /// Hours until something goes unmet, from a step and a state on; none where nothing does.
    pub fn hours_until_unmet(
        &self,
        ledger: &Ledger,
        mut state: State,
        flows: &Flows,
        start: usize,
    ) -> Option<f64> {
        let (mut hours_h, mut found) = (0.0, None);
        for steps in self.from(start) {
            ledger.walk(&mut state, flows, steps, |_, step| {
                if step.unmet_wh > 1e-9 {
                    found = Some(hours_h + self.step_h * (1.0 - step.unmet_wh / step.load_wh));
                    return false;
                }
                hours_h += self.step_h;
                true
            });
            if found.is_some() {
                return found;
            }
        }
        None
    }

    /// What a month of the books is made of, for the worksheet.
    pub fn month_parts(&self, month: &Balance) -> MonthParts {
        let in_it = |day: &&Day| {
            (day.date.year(), day.date.month()) == (month.first_day.year(), month.first_day.month())
        };
        let mut parts = MonthParts { given_wh: 0.0, lit_load_wh: 0.0 };
        for step in self.site.days.iter().filter(in_it).flat_map(|day| day.steps.clone()) {
            if self.given_w[step] > 0.0 {
                parts.given_wh += self.given_w[step] * self.step_h;
                parts.lit_load_wh += self.load_w[step] * self.step_h;
            }
        }
        parts
    }

    /// What an array of a given kind would give for each watt of its rating, in each step [W/W]: that of the arrays there
    /// are, or of one flat on the roof.
    pub fn given_per_w(&self) -> (Vec<f64>, f64) {
        let rated_w = self.harvester.rated_w();
        if rated_w > 0.0 {
            return (self.given_w.clone(), rated_w);
        }
        let mut array =
            Array::new((0.0, 0.0, self.site.albedo), STAND_IN_W, USUAL_GAMMA_PER_C, heat_loss(USUAL_MOUNT));
        array.loss = USUAL_LOSS;
        let source = Source { array, strings: None, least_v: 0.0 };
        let mut given_w = vec![0.0; self.count()];
        let (weather, days, suns) = (&self.site.weather, &self.site.days, &self.site.suns);
        // Of no datasheet a PWM controller can say what it gives.
        let controller = match self.harvester.controller {
            Controller::Pwm { .. } => Controller::Mppt { efficiency: USUAL_EFFICIENCY },
            tracking => tracking,
        };
        source.walk(controller, weather, days, suns, |given| given_w[given.step] += given.given_w);
        (given_w, STAND_IN_W)
    }
}

impl Harvester<'_> {
    /// Adds up what all arrays give through a series of weather, and what falls on their planes by their rated power.
    ///
    /// - `weather`, `days`, `suns`  the series, its days and the sun above it
    /// - `sums`                     what they give [W] and what falls on them [W/m²], one each a step
    ///
    /// Returns what each array came to.
    pub fn add(
        &self,
        weather: &Weather,
        days: &[Day],
        suns: &[Direction],
        (given_w, plane_w_m2): (&mut [f64], &mut [f64]),
    ) -> Vec<ArraySum> {
        let rated_w = self.rated_w();
        let of_source = |(_, source): &(&str, Source)| {
            let part = source.array.rated_w / rated_w;
            let mut sum = ArraySum::default();
            source.walk(self.controller, weather, days, suns, |given| {
                given_w[given.step] += given.given_w;
                plane_w_m2[given.step] += given.plane_w_m2 * part;
                sum.given_w += given.given_w;
                sum.plane_w_m2 += given.plane_w_m2;
                sum.short_steps += usize::from(given.is_short && given.plane_w_m2 > EXPECTED_FROM_W_M2);
            });
            sum
        };
        self.sources.iter().map(of_source).collect()
    }
}
