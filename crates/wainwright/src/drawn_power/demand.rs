//! What parts come to step by step, by the clock and by the air around them: as power asked of a bus, or as heat set free.

mod key;

use crate::build::Schedule;
use crate::sky::clock::Day;

use super::refrigerator::usual_mean_w;

/// Hours of the day.
const HOURS: usize = 24;

/// Something that runs by the clock.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Load<'b> {
    /// What it comes to while it runs [W].
    pub running_w: f64,
    /// When it runs.
    pub schedule: Schedule<'b>,
    /// Share of the time it runs where its schedule says nothing of hours.
    pub usual_share: f64,
}

/// A compressor refrigerator: it runs as the air around it asks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ColdBox<'b> {
    /// Heat that leaks in for each degree [W/K].
    pub leak_w_per_k: f64,
    /// Temperature it keeps [°C].
    pub inside_c: f64,
    /// Power its compressor takes in while it runs [W].
    pub running_w: f64,
    /// What it comes to for each watt its compressor takes in: at the bus 1, or more behind an inverter.
    pub per_w: f64,
    /// On which days it is on.
    pub schedule: Schedule<'b>,
}

impl ColdBox<'_> {
    /// The same without a schedule, where it is on every day.
    pub fn always_on(&self) -> Option<ColdBox<'static>> {
        let every_day = self.schedule.weekdays.is_none() && self.schedule.months.is_none();
        let Self { leak_w_per_k, inside_c, running_w, per_w, .. } = *self;
        every_day.then_some(ColdBox { leak_w_per_k, inside_c, running_w, per_w, schedule: Schedule::ALWAYS })
    }

    /// Power its compressor would take in on the mean to keep its temperature [W]: more than it can where it is too weak.
    ///
    /// - `air_c`  temperature of the air around it [°C]
    pub fn wanted_w(&self, air_c: f64) -> f64 {
        usual_mean_w(self.leak_w_per_k, self.inside_c, air_c)
    }

    /// What it comes to on the mean [W].
    ///
    /// - `air_c`  temperature of the air around it [°C]
    pub fn mean_w(&self, air_c: f64) -> f64 {
        self.wanted_w(air_c).min(self.running_w) * self.per_w
    }
}

/// An inverter's draw for itself.
#[derive(Debug, Clone, PartialEq)]
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

/// Something whose course is worked out elsewhere: the air conditioner, by the heat of the box.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Followed {
    /// What it comes to for each watt it takes in.
    pub per_w: f64,
    /// The inverter that it runs on, by its position among the idles.
    pub idle: Option<usize>,
}

/// The course of something that is worked out elsewhere, one figure a step or an hour.
#[derive(Debug, Clone, Copy)]
pub struct Course<'c> {
    /// Share of it in which it runs.
    pub share: &'c [f64],
    /// What it takes in on the mean [W].
    pub power_w: &'c [f64],
}

/// Everything that adds up.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Demand<'b> {
    /// What runs by the clock.
    pub loads: Vec<Load<'b>>,
    /// What runs as the air asks.
    pub cold_boxes: Vec<ColdBox<'b>>,
    /// Inverters.
    pub idles: Vec<Idle<'b>>,
    /// What is on day and night [W].
    pub constant_w: f64,
    /// What is told its course.
    pub followed: Option<Followed>,
}

/// What filling in came to.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Filled {
    /// Steps in which a refrigerator cannot keep its temperature.
    pub too_warm_steps: usize,
    /// Sum over the steps of what inverters take for themselves [W].
    pub idle_w: f64,
}

/// What goes by the clock on days that are alike.
struct ByClock {
    /// What it comes to in each hour [W].
    power_w: [f64; HOURS],
    /// Share of each hour in which the inverter of what is followed is used by others.
    used: [f64; HOURS],
    /// What of it inverters take for themselves [W].
    idle_w: [f64; HOURS],
}

impl Demand<'_> {
    /// Fills in what it comes to in each step.
    ///
    /// - `days`      the days of the series
    /// - `step_min`  length of a step [min]
    /// - `air_c`     temperature of the air around it, one a step [°C]
    /// - `course`    the course of what is followed, one a step; none where nothing is
    /// - `sum_w`     what it comes to, one a step [W]; filled in
    pub fn fill(
        &self,
        days: &[Day],
        step_min: u32,
        air_c: &[f64],
        course: Option<Course>,
        sum_w: &mut [f64],
    ) -> Filled {
        let mut cold: Vec<&ColdBox> = Vec::with_capacity(self.cold_boxes.len());
        let mut filled = Filled::default();
        // Days of one month and one weekday are alike, and where nothing has a schedule all of them.
        let same_every_day = self.is_same_every_day();
        let mut known: [Option<ByClock>; 12 * 7] = [const { None }; 12 * 7];
        for day in days {
            let is_on = |schedule: &Schedule| schedule.is_on_day(day.month(), day.weekday());
            let weekday = usize::from(day.weekday().to_monday_zero_offset().unsigned_abs());
            let kind = if same_every_day { 0 } else { (usize::from(day.month()) - 1) * 7 + weekday };
            let of_day = known[kind].get_or_insert_with(|| self.by_clock(is_on));
            cold.clear();
            cold.extend(self.cold_boxes.iter().filter(|one| is_on(&one.schedule)));
            let mut minute = day.first_min;
            for step in day.steps.clone() {
                // Below 24: a day's steps end with it.
                let hour = (minute / 60) as usize % HOURS;
                minute += step_min;
                let mut watts = of_day.power_w[hour];
                for one in &cold {
                    let wanted_w = one.wanted_w(air_c[step]);
                    filled.too_warm_steps += usize::from(wanted_w > one.running_w);
                    watts += wanted_w.min(one.running_w) * one.per_w;
                }
                let (followed_w, idle_w) = self.followed_w(course, step, of_day.used[hour]);
                sum_w[step] = watts + (followed_w + idle_w);
                filled.idle_w += of_day.idle_w[hour] + idle_w;
            }
        }
        filled
    }

    /// What it comes to in each hour of a day [W].
    ///
    /// - `is_on`   is something with such a schedule on that day?
    /// - `air_c`   temperature of the air around it in each hour [°C]
    /// - `course`  the course of what is followed by the hour; none where nothing is
    pub fn by_hour(
        &self,
        is_on: impl Fn(&Schedule) -> bool,
        air_c: &[f64; HOURS],
        course: Option<Course>,
    ) -> [f64; HOURS] {
        let of_day = self.by_clock(&is_on);
        std::array::from_fn(|hour| {
            let cold = self.cold_boxes.iter().filter(|one| is_on(&one.schedule));
            let cold_w: f64 = cold.map(|one| one.mean_w(air_c[hour])).sum();
            let (followed_w, idle_w) = self.followed_w(course, hour, of_day.used[hour]);
            of_day.power_w[hour] + cold_w + (followed_w + idle_w)
        })
    }

    /// What is followed comes to in a step, and what it adds to the draw for itself of the inverter behind it, which would be
    /// off or counted without it [W].
    ///
    /// - `used`  share of the step in which others use that inverter
    fn followed_w(&self, course: Option<Course>, step: usize, used: f64) -> (f64, f64) {
        let Some((followed, course)) = self.followed.zip(course) else { return (0.0, 0.0) };
        let idle_w = followed
            .idle
            .and_then(|index| self.idles.get(index))
            .map_or(0.0, |idle| idle.idle_w * (idle.share(used.max(course.share[step])) - idle.share(used)));
        (course.power_w[step] * followed.per_w, idle_w)
    }

    /// Is it the same on every day of the year?
    fn is_same_every_day(&self) -> bool {
        let free = |schedule: &Schedule| schedule.weekdays.is_none() && schedule.months.is_none();
        self.loads.iter().all(|load| free(&load.schedule))
            && self.cold_boxes.iter().all(|one| free(&one.schedule))
            && self.idles.iter().all(|idle| idle.loads.iter().all(|(schedule, _)| free(schedule)))
    }

    /// What goes by the clock on a day.
    fn by_clock(&self, is_on: impl Fn(&Schedule) -> bool) -> ByClock {
        let mut of_day =
            ByClock { power_w: [self.constant_w; HOURS], used: [0.0; HOURS], idle_w: [0.0; HOURS] };
        for load in self.loads.iter().filter(|load| is_on(&load.schedule)) {
            for (hour, watts) in of_day.power_w.iter_mut().enumerate() {
                *watts += load.running_w * load.schedule.share(hour, load.usual_share);
            }
        }
        let of_followed = self.followed.and_then(|followed| followed.idle);
        for (index, idle) in self.idles.iter().enumerate() {
            for (hour, watts) in of_day.power_w.iter_mut().enumerate() {
                let used = idle.used(hour, &is_on);
                *watts += idle.idle_w * idle.share(used);
                of_day.idle_w[hour] += idle.idle_w * idle.share(used);
                if of_followed == Some(index) {
                    of_day.used[hour] = used;
                }
            }
        }
        of_day
    }
}

impl Idle<'_> {
    /// Share of an hour in which something runs on it: as long as what runs longest.
    fn used(&self, hour: usize, is_on: impl Fn(&Schedule) -> bool) -> f64 {
        let on_today = self.loads.iter().filter(|(schedule, _)| is_on(schedule));
        on_today.map(|(schedule, usual)| schedule.share(hour, *usual)).fold(0.0, f64::max)
    }

    /// Share of an hour in which it draws for itself: always, or as long as it is used, or the rest.
    ///
    /// - `used`  share of the hour in which something runs on it, 0 to 1
    fn share(&self, used: f64) -> f64 {
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
        let filled = demand.fill(&clock.days(), 60, &vec![air_c; clock.count()], None, &mut load_w);
        (load_w, filled.too_warm_steps)
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
        let load = Load { running_w: 100.0, schedule, usual_share: 1.0 };
        let (load_w, _) = filled(&Demand { loads: vec![load], constant_w: 2.0, ..Demand::default() }, 20.0);
        // 2025-01-04 is the first Saturday; January has four of them.
        assert_eq!((load_w[3 * 24 + 19], load_w[3 * 24 + 20]), (2.0, 52.0));
        assert_eq!(load_w.iter().filter(|watts| **watts > 2.0).count(), 4);
    }

    #[test]
    fn a_refrigerator_follows_the_air() {
        let cold =
            ColdBox { leak_w_per_k: 0.6, inside_c: 4.0, running_w: 45.0, per_w: 1.0, schedule: ALWAYS };
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
            Demand { loads: vec![Load { running_w: 8.0, schedule, usual_share: 1.0 }], ..Demand::default() };
        let clock = Clock::year(2024, 15).unwrap();
        let mut load_w = vec![0.0; clock.count()];
        demand.fill(&clock.days(), 15, &vec![20.0; clock.count()], None, &mut load_w);
        assert_eq!(load_w[..9], [0.0, 0.0, 0.0, 0.0, 8.0, 8.0, 8.0, 8.0, 0.0]);
        assert_eq!(load_w.iter().sum::<f64>(), 366.0 * 4.0 * 8.0);
    }

    #[test]
    fn what_is_followed_goes_its_course_and_keeps_its_inverter_on() {
        let kettle = Schedule { hours_per_day: Some(6.0), ..ALWAYS };
        let idle =
            Idle { idle_w: 20.0, off_when_unused: true, only_when_unused: false, loads: vec![(kettle, 1.0)] };
        let demand = Demand {
            idles: vec![idle],
            followed: Some(Followed { per_w: 1.25, idle: Some(0) }),
            ..Demand::default()
        };
        let clock = Clock::typical_hours();
        let (mut share, mut power_w) = (vec![0.0; clock.count()], vec![0.0; clock.count()]);
        (share[1], power_w[1]) = (0.1, 70.0);
        (share[2], power_w[2]) = (0.75, 525.0);
        let mut load_w = vec![0.0; clock.count()];
        let air_c = vec![20.0; clock.count()];
        let course = Course { share: &share, power_w: &power_w };
        demand.fill(&clock.days(), 60, &air_c, Some(course), &mut load_w);
        // The inverter is on for a quarter of each hour, and for as long as what is followed where that is longer.
        assert_eq!(load_w[..4], [5.0, 5.0 + 87.5, 15.0 + 656.25, 5.0]);
        let hours = demand.by_hour(
            |_| true,
            &[20.0; 24],
            Some(Course { share: &share[..24], power_w: &power_w[..24] }),
        );
        assert_eq!(hours, load_w[..24]);
    }
}
