//! What is asked of the battery's bus, step by step.

use crate::build::Schedule;
use crate::drawn_power::refrigerator::usual_mean_w;
use crate::sky::clock::Day;

/// Something that runs by the clock.
#[derive(Debug, Clone, Copy)]
pub struct Load<'b> {
    /// Power at the bus while it runs [W], its inverter's losses included.
    pub bus_w: f64,
    /// When it runs.
    pub schedule: Schedule<'b>,
    /// Share of the time it runs where its schedule says nothing of hours.
    pub usual_share: f64,
}

/// A compressor refrigerator: it runs as the air around it asks.
#[derive(Debug, Clone, Copy)]
pub struct ColdBox<'b> {
    /// Heat that leaks in for each degree [W/K].
    pub leak_w_per_k: f64,
    /// Temperature it keeps [°C].
    pub inside_c: f64,
    /// Power at the bus while its compressor runs [W].
    pub bus_w: f64,
    /// Power at the bus for each watt its compressor takes in: 1, or more behind an inverter.
    pub bus_per_w: f64,
    /// On which days it is on.
    pub schedule: Schedule<'b>,
}

impl ColdBox<'_> {
    /// Mean power at the bus that keeps its temperature, were it strong enough [W].
    ///
    /// - `air_c`  temperature of the air around it [°C]
    pub fn wanted_w(&self, air_c: f64) -> f64 {
        usual_mean_w(self.leak_w_per_k, self.inside_c, air_c) * self.bus_per_w
    }
}

/// An inverter's draw for itself.
#[derive(Debug, Clone)]
pub struct Idle<'b> {
    /// What it takes with nothing switched on [W].
    pub idle_w: f64,
    /// Is it switched off while nothing runs on it?
    pub off_when_unused: bool,
    /// Is its own draw counted with what runs on it?
    pub only_when_unused: bool,
    /// What runs on it, with the share where a schedule says nothing of hours.
    pub loads: Vec<(Schedule<'b>, f64)>,
}

/// Everything that is asked of the bus.
#[derive(Debug, Clone, Default)]
pub struct Demand<'b> {
    /// What runs by the clock.
    pub loads: Vec<Load<'b>>,
    /// What runs as the air asks.
    pub cold_boxes: Vec<ColdBox<'b>>,
    /// Inverters.
    pub idles: Vec<Idle<'b>>,
    /// What is on day and night [W].
    pub constant_w: f64,
}

/// Hours of the day.
const HOURS: usize = 24;

impl Demand<'_> {
    /// Fills in what is asked for in each step.
    ///
    /// - `days`      the days of the series
    /// - `step_min`  length of a step [min]
    /// - `air_c`     temperature of the air in the box, one a step [°C]
    /// - `load_w`    what is asked for, one a step [W]; filled in
    ///
    /// Returns the steps in which a refrigerator cannot keep its temperature.
    pub fn fill(&self, days: &[Day], step_min: u32, air_c: &[f64], load_w: &mut [f64]) -> usize {
        let mut of_day = [0.0; HOURS];
        let mut cold: Vec<&ColdBox> = Vec::with_capacity(self.cold_boxes.len());
        let mut before: Option<&Day> = None;
        let mut beyond = 0;
        for day in days {
            // Days of one month and one weekday are alike.
            let alike = |other: &Day| other.month() == day.month() && other.weekday() == day.weekday();
            if !before
                .is_some_and(|other| alike(other) || (self.is_same_every_day() && other.date != day.date))
            {
                of_day = self.clock_w(day);
                cold.clear();
                cold.extend(
                    self.cold_boxes.iter().filter(|one| one.schedule.is_on_day(day.month(), day.weekday())),
                );
            }
            before = Some(day);
            let mut minute = day.first_min;
            for (load_w, &air_c) in load_w[day.steps.clone()].iter_mut().zip(&air_c[day.steps.clone()]) {
                // Below 24: a day's steps end with it.
                *load_w = of_day[(minute / 60) as usize % HOURS];
                minute += step_min;
                for one in &cold {
                    let wanted_w = one.wanted_w(air_c);
                    beyond += usize::from(wanted_w > one.bus_w);
                    *load_w += wanted_w.min(one.bus_w);
                }
            }
        }
        beyond
    }

    /// Is it the same on every day of the year?
    fn is_same_every_day(&self) -> bool {
        let free = |schedule: &Schedule| schedule.weekdays.is_none() && schedule.months.is_none();
        self.loads.iter().all(|load| free(&load.schedule))
            && self.cold_boxes.iter().all(|one| free(&one.schedule))
            && self.idles.iter().all(|idle| idle.loads.iter().all(|(schedule, _)| free(schedule)))
    }

    /// What goes by the clock in each hour of a day [W].
    fn clock_w(&self, day: &Day) -> [f64; HOURS] {
        let mut of_day = [self.constant_w; HOURS];
        let is_on = |schedule: &Schedule| schedule.is_on_day(day.month(), day.weekday());
        for load in self.loads.iter().filter(|load| is_on(&load.schedule)) {
            for (hour, watts) in of_day.iter_mut().enumerate() {
                *watts += load.bus_w * load.schedule.share(hour, load.usual_share);
            }
        }
        for idle in &self.idles {
            for (hour, watts) in of_day.iter_mut().enumerate() {
                *watts += idle.idle_w * idle.share(hour, is_on);
            }
        }
        of_day
    }
}

impl Idle<'_> {
    /// Share of an hour in which the inverter draws for itself: always, or as long as what runs longest on it, or the rest.
    fn share(&self, hour: usize, is_on: impl Fn(&Schedule) -> bool) -> f64 {
        let on_today = self.loads.iter().filter(|(schedule, _)| is_on(schedule));
        let used = on_today.map(|(schedule, usual)| schedule.share(hour, *usual)).fold(0.0, f64::max);
        match (self.off_when_unused, self.only_when_unused) {
            (false, false) => 1.0,
            (true, false) => used,
            (false, true) => 1.0 - used,
            (true, true) => 0.0,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::build::Weekday;
    use crate::sky::clock::Clock;

    const ALWAYS: Schedule =
        Schedule { hours_per_day: None, on_fraction: None, weekdays: None, months: None };

    fn filled(demand: &Demand, air_c: f64) -> (Vec<f64>, usize) {
        let clock = Clock::typical_hours();
        let mut load_w = vec![f64::NAN; clock.count()];
        let beyond = demand.fill(&clock.days(), 60, &vec![air_c; clock.count()], &mut load_w);
        (load_w, beyond)
    }

    #[test]
    fn what_runs_on_weekends_in_winter_runs_then_alone() {
        let mut evening = [0.0; 24];
        evening[20] = 0.5;
        let schedule = Schedule {
            on_fraction: Some(&evening),
            weekdays: Some(&[Weekday::Sat]),
            months: Some(&[1]),
            ..ALWAYS
        };
        let load = Load { bus_w: 100.0, schedule, usual_share: 1.0 };
        let (load_w, _) = filled(&Demand { loads: vec![load], constant_w: 2.0, ..Demand::default() }, 20.0);
        // 2025-01-04 is the first Saturday; January has four of them.
        assert_eq!((load_w[3 * 24 + 19], load_w[3 * 24 + 20]), (2.0, 52.0));
        assert_eq!(load_w.iter().filter(|watts| **watts > 2.0).count(), 4);
    }

    #[test]
    fn a_refrigerator_follows_the_air() {
        let cold =
            ColdBox { leak_w_per_k: 0.6, inside_c: 4.0, bus_w: 45.0, bus_per_w: 1.0, schedule: ALWAYS };
        let of = |air_c| filled(&Demand { cold_boxes: vec![cold], ..Demand::default() }, air_c);
        // 151 and 392 Wh a day at 25 and 43 °C.
        assert_eq!(format!("{:.0}", of(25.0).0[..24].iter().sum::<f64>()), "151");
        assert_eq!(format!("{:.0}", of(43.0).0[..24].iter().sum::<f64>()), "392");
        assert_eq!(of(0.0).0[0], 0.0);
        let (hot_w, beyond) = of(80.0);
        assert_eq!((hot_w[0], beyond), (45.0, 8760));
    }

    #[test]
    fn an_inverter_idles_all_day_or_as_long_as_it_is_used() {
        let used = Schedule { hours_per_day: Some(6.0), ..ALWAYS };
        let idle =
            Idle { idle_w: 20.0, off_when_unused: false, only_when_unused: false, loads: vec![(used, 1.0)] };
        let off = Idle { off_when_unused: true, ..idle.clone() };
        let counted = Idle { only_when_unused: true, ..idle.clone() };
        assert_eq!(filled(&Demand { idles: vec![idle], ..Demand::default() }, 20.0).0[0], 20.0);
        assert_eq!(filled(&Demand { idles: vec![off], ..Demand::default() }, 20.0).0[0], 5.0);
        assert_eq!(filled(&Demand { idles: vec![counted], ..Demand::default() }, 20.0).0[0], 15.0);
    }

    #[test]
    fn quarters_of_an_hour_take_their_hours_share() {
        let mut hours = [0.0; 24];
        hours[1] = 1.0;
        let schedule = Schedule { on_fraction: Some(&hours), ..ALWAYS };
        let demand =
            Demand { loads: vec![Load { bus_w: 8.0, schedule, usual_share: 1.0 }], ..Demand::default() };
        let clock = Clock::year(2024, 15).unwrap();
        let mut load_w = vec![0.0; clock.count()];
        demand.fill(&clock.days(), 15, &vec![20.0; clock.count()], &mut load_w);
        assert_eq!(load_w[..9], [0.0, 0.0, 0.0, 0.0, 8.0, 8.0, 8.0, 8.0, 0.0]);
        assert_eq!(load_w.iter().sum::<f64>(), 366.0 * 4.0 * 8.0);
    }
}
