//! What drives the box through a series: the outdoors as the box takes them in.

use std::cell::RefCell;
use std::sync::Arc;

use super::air_exchange::moisture::EVAPORATION_J_KG;
use super::body::{BoxNetwork, Sums};
use super::envelope::glazing::{DOUBLE_DIFFUSE, SINGLE_DIFFUSE, double_factor, single_factor};
use super::gains::HOURS;
use super::network::Drive;
use super::outdoors::{Faces, Light, LitFrom, MOST_KEPT, Outdoors, through_weather};
use crate::drawn_power::demand::ColdBox;
use crate::memo::Recent;
use crate::site_weather::SiteWeather;

/// So many boxes are kept.
const KEPT: usize = 4;

thread_local! {
    static COURSES: RefCell<Recent<(LitFrom, Sums), Arc<Course>>> = const { RefCell::new(Recent::new(KEPT)) };
}

/// Heat of a refrigerator that is on every day.
pub type AirHeat = ColdBox<'static>;

/// What drives the box in each step of a series.
#[derive(Debug, Clone, Default)]
pub struct Course {
    /// Length of a step [s].
    pub step_s: f64,
    /// Outdoor air [°C].
    pub outdoor_c: Vec<f64>,
    /// Its humidity ratio [kg/kg].
    pub outdoor_ratio: Vec<f64>,
    /// Sol-air temperature of the opaque envelope [°C].
    pub equivalent_c: Vec<f64>,
    /// Sun let in by windows [W].
    pub sun_w: Vec<f64>,
    /// Hour of the day of each step.
    pub hour: Vec<u8>,
    /// Heat set free in each hour of the day that warms the air and the surfaces [W].
    pub sensible_by_hour_w: [f64; HOURS],
    /// Heat set free in each step beside that [W]; empty where there is none.
    pub sensible_w: Vec<f64>,
    /// Heat that goes by the air in the box as each step begins: a lag of a step, for what hardly changes in one.
    pub by_air: Vec<AirHeat>,
    /// Water set free in each hour of the day [kg/s].
    pub water_by_hour_kg_s: [f64; HOURS],
    /// Dry air that comes in [kg/s].
    pub air_kg_s: Vec<f64>,
}

impl Sums {
    /// Sol-air temperature of all opaque faces together, by what each passes.
    ///
    /// `T_eq = T_o + (Σ U A (α I − ε ΔR F) / h_o) / Σ U A`
    ///
    /// - `outdoor_c`  outdoor air T_o [°C]
    /// - `light`      light on the faces
    ///
    /// Returns T_eq [°C]; T_o where nothing passes.
    ///
    /// Source: ASHRAE Handbook Fundamentals, sol-air temperature; exact for faces without mass.
    pub fn equivalent_c(&self, outdoor_c: f64, light: &[Light; 6]) -> f64 {
        let passes_w_k: f64 = self.opaque_w_k.iter().sum();
        let heat_w: f64 = (0..6).map(|face| self.face_w(face, light)).sum();
        if passes_w_k > 0.0 { outdoor_c + heat_w / passes_w_k } else { outdoor_c }
    }

    /// What sun and sky add to the heat through the opaque part of a face [W].
    pub fn face_w(&self, face: usize, light: &[Light; 6]) -> f64 {
        self.sun_m2[face] * light[face].total_w_m2() - self.sky_w[face]
    }

    /// Sun that windows let in [W].
    pub fn window_sun_w(&self, light: &[Light; 6]) -> f64 {
        let mut sum_w = 0.0;
        for (face, light) in light.iter().enumerate() {
            let (single_m2, double_m2) = (self.single_m2[face], self.double_m2[face]);
            if single_m2 > 0.0 {
                let beam_w_m2 = light.beam_w_m2 * single_factor(light.cos_incidence);
                sum_w += single_m2 * (beam_w_m2 + SINGLE_DIFFUSE * light.diffuse_w_m2);
            }
            if double_m2 > 0.0 {
                let beam_w_m2 = light.beam_w_m2 * double_factor(light.cos_incidence);
                sum_w += double_m2 * (beam_w_m2 + DOUBLE_DIFFUSE * light.diffuse_w_m2);
            }
        }
        sum_w
    }
}

impl Course {
    /// What drives the box through the hot day.
    ///
    /// - `outdoors`  the day
    /// - `sums`      what the box's surfaces and windows come to
    pub fn of(outdoors: &Outdoors, sums: &Sums) -> Self {
        let mut course = Self::with_capacity(outdoors.count(), outdoors.step_s);
        let steps = outdoors.air_c.iter().zip(&outdoors.ratio).zip(&outdoors.light);
        for (step, ((air_c, ratio), light)) in steps.enumerate() {
            course.push(step, 0, *air_c, *ratio, light, sums);
        }
        course
    }

    /// What drives the box through the weather of a place.
    ///
    /// - `site`   the place and its weather
    /// - `faces`  the faces of the box
    /// - `sums`   what the box's surfaces and windows come to
    pub fn of_weather(site: &SiteWeather, faces: &Faces, sums: &Sums) -> Self {
        let is_it = |(light, of): &(LitFrom, Sums)| of == sums && light.is(site, faces);
        if let Some(known) = COURSES.with_borrow_mut(|courses| courses.find(is_it)) {
            return (*known).clone();
        }
        let course = Self::worked_out(site, faces, sums);
        if course.count() <= MOST_KEPT {
            let from = (LitFrom::of(site, faces), *sums);
            COURSES.with_borrow_mut(|all| all.keep(from, Arc::new(course.clone())));
        }
        course
    }

    /// What drives the box through the weather of a place, worked out.
    fn worked_out(site: &SiteWeather, faces: &Faces, sums: &Sums) -> Self {
        let clock = site.weather.clock;
        let mut course = Self::with_capacity(clock.count(), 3600.0 * clock.step_h());
        let first_min = site.days.first().map_or(0, |day| day.first_min);
        through_weather(site, faces, |step, air_c, ratio, light| {
            course.push(step, first_min, air_c, ratio, light, sums);
        });
        course
    }

    fn with_capacity(count: usize, step_s: f64) -> Self {
        Self {
            step_s,
            outdoor_c: Vec::with_capacity(count),
            outdoor_ratio: Vec::with_capacity(count),
            equivalent_c: Vec::with_capacity(count),
            sun_w: Vec::with_capacity(count),
            hour: Vec::with_capacity(count),
            sensible_by_hour_w: [0.0; HOURS],
            sensible_w: Vec::new(),
            by_air: Vec::new(),
            water_by_hour_kg_s: [0.0; HOURS],
            air_kg_s: vec![0.0; count],
        }
    }

    /// Adds a step.
    ///
    /// - `first_min`  minute of the day at which the series begins
    fn push(&mut self, step: usize, first_min: u32, air_c: f64, ratio: f64, light: &[Light; 6], sums: &Sums) {
        let minute = u64::from(first_min) + step as u64 * (self.step_s / 60.0) as u64;
        self.outdoor_c.push(air_c);
        self.outdoor_ratio.push(ratio);
        self.equivalent_c.push(sums.equivalent_c(air_c, light));
        self.sun_w.push(sums.window_sun_w(light));
        // Below 24: the remainder of a day.
        self.hour.push((minute / 60 % HOURS as u64) as u8);
    }

    /// How many steps there are.
    pub fn count(&self) -> usize {
        self.outdoor_c.len()
    }

    /// How many steps an hour has, one at least.
    pub fn steps_per_hour(&self) -> usize {
        (3600.0 / self.step_s).round().max(1.0) as usize
    }

    /// Water that is set free in a step [kg/s].
    pub fn water_kg_s(&self, step: usize) -> f64 {
        self.water_by_hour_kg_s[usize::from(self.hour[step])]
    }

    /// Heat of the water that comes with the air and is set free in a step, in a room of a humidity [W].
    ///
    /// `Q_l = [ṁ (W_o − W) + g] h_fg`
    ///
    /// - `ratio`  humidity ratio of the room W [kg/kg]
    pub fn brought_w(&self, step: usize, ratio: f64) -> f64 {
        let by_air_kg_s = self.air_kg_s[step] * (self.outdoor_ratio[step] - ratio);
        (by_air_kg_s + self.water_kg_s(step)) * EVAPORATION_J_KG
    }

    /// What drives the network in a step.
    ///
    /// - `air_c`  air in the box as it begins [°C]
    pub fn drive(&self, step: usize, of: &BoxNetwork, air_c: f64) -> Drive {
        let hour = usize::from(self.hour[step]);
        let beside_w = self.sensible_w.get(step).copied().unwrap_or(0.0);
        let by_air_w: f64 = self.by_air.iter().map(|one| one.mean_w(air_c)).sum();
        let half_w = 0.5 * (self.sensible_by_hour_w[hour] + beside_w + by_air_w);
        let radiant_w = half_w + self.sun_w[step];
        Drive {
            outdoor_c: self.outdoor_c[step],
            supply_c: self.outdoor_c[step],
            equivalent_c: self.equivalent_c[step],
            air_w: half_w,
            surface_w: of.to_surface * radiant_w,
            mass_w: of.to_mass * radiant_w,
            floor_load_w: 0.0,
        }
    }
}
