//! What is around the box through a series: air, and the light on its six faces.

use std::cell::RefCell;
use std::sync::Arc;

use crate::air::saturation::saturated_ratio;
use crate::build::Facing;
use crate::memo::Recent;
use crate::site_weather::{HotDay, SiteWeather};
use crate::sky::air_mass::extraterrestrial_w_m2;
use crate::sky::air_temperature::below_highest;
use crate::sky::almanac;
use crate::sky::clear_year::clear_sky;
use crate::sky::clock::{Clock, Day};
use crate::sky::irradiance::Irradiance;
use crate::sky::perez_sky::PerezSky;
use crate::sky::sun::{Direction, Observer};
use crate::sky::transposition::{beam_w_m2, ground_w_m2};
use crate::sky::turbidity::Turbidity;
use crate::sky::weather::{Place, Weather};

use super::envelope::heading;
use super::envelope::sol_air::UNDERSIDE_SHARE;

/// Length of a step of the design day [min].
pub const STEP_MIN: u32 = 5;
/// Steps of the design day.
pub const STEPS: usize = 1440 / STEP_MIN as usize;

/// What is around the box in each step of a series.
#[derive(Debug, Clone, Default)]
pub struct Outdoors {
    /// Length of a step [s].
    pub step_s: f64,
    /// Air temperature [°C].
    pub air_c: Vec<f64>,
    /// Humidity ratio [kg/kg].
    pub ratio: Vec<f64>,
    /// Light on the faces, in the order of [`Facing`].
    pub light: Vec<[Light; 6]>,
}

/// Light on a face.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Light {
    /// Straight from the sun [W/m²].
    pub beam_w_m2: f64,
    /// From sky and ground [W/m²].
    pub diffuse_w_m2: f64,
    /// Cosine of the angle at which the beam strikes.
    pub cos_incidence: f64,
}

impl Light {
    /// All of it [W/m²].
    pub fn total_w_m2(&self) -> f64 {
        self.beam_w_m2 + self.diffuse_w_m2
    }
}

/// The faces that see the sky.
const LIT: [Facing; 5] = [Facing::Roof, Facing::Front, Facing::Rear, Facing::Left, Facing::Right];

/// The faces of a box that see the sky.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Faces {
    /// Where each looks, and the sine of its tilt.
    faces: [(Direction, f64); 5],
    albedo: f64,
}

impl Faces {
    /// The faces of a box.
    ///
    /// - `heading_deg`  where its tongue points, clockwise from north [°]
    /// - `albedo`       share of its light that the ground throws back, 0 to 1
    pub fn new(heading_deg: f64, albedo: f64) -> Self {
        let face = |facing| {
            let stands = heading::plane(facing, heading_deg);
            (Direction::faced(stands.tilt_rad, stands.azimuth_rad), stands.tilt_rad.sin())
        };
        Self { faces: LIT.map(face), albedo }
    }

    /// Light on all six faces, the sky by Perez: on upright faces it is truer than simpler skies.
    ///
    /// - `sky`                   irradiance of the moment
    /// - `sun`                   where the sun stands
    /// - `per_outside_m2_per_w`  one by the irradiance outside the atmosphere [m²/W], > 0
    /// - `pressure_pa`           air pressure [Pa]
    pub fn light(
        &self,
        sky: Irradiance,
        sun: &Direction,
        per_outside_m2_per_w: f64,
        pressure_pa: f64,
    ) -> [Light; 6] {
        let mut light = [Light::default(); 6];
        let perez = PerezSky::of_step(sky, sun, per_outside_m2_per_w, pressure_pa);
        for (facing, (faces, sin_tilt)) in LIT.into_iter().zip(&self.faces) {
            let cos_incidence = sun.cos_angle(faces);
            let sky_w_m2 = perez.plane_w_m2(cos_incidence, faces.up, *sin_tilt);
            light[facing as usize] = Light {
                beam_w_m2: beam_w_m2(sky.dni_w_m2, cos_incidence),
                diffuse_w_m2: sky_w_m2 + ground_w_m2(sky.ghi_w_m2, self.albedo, faces.up),
                cos_incidence,
            };
        }
        light[Facing::Floor as usize].diffuse_w_m2 = UNDERSIDE_SHARE * sky.ghi_w_m2;
        light
    }
}

impl Outdoors {
    /// The hot day, in steps of five minutes; none beyond the years of the sun's algorithm.
    ///
    /// - `site`   the place
    /// - `day`    the hot day
    /// - `faces`  the faces of the box
    pub fn of_hot_day(site: &SiteWeather, day: &HotDay, faces: &Faces) -> Option<Self> {
        let clock = Clock::new(day.date.at(0, 0, 0, 0), STEP_MIN, STEPS)?;
        let place = &site.place;
        let observer = Observer::new(place.latitude_rad, place.longitude_rad, place.altitude_m);
        let suns: Vec<Direction> = almanac::suns(&clock, place.utc_offset_h)?.seen_from(observer).collect();
        let table = Turbidity::of(place.latitude_rad, place.longitude_rad);
        let turbidity = |on: &Day| day.linke_turbidity.unwrap_or_else(|| table.on(on.date));
        let sky = clear_sky(place, &clock.days(), &suns, turbidity);
        let per_outside_m2_per_w = 1.0 / extraterrestrial_w_m2(day.date.day_of_year().unsigned_abs());
        let pressure_pa = site.pressure_pa();
        let mut all = Self::with_capacity(STEPS, 60.0 * f64::from(STEP_MIN));
        for (step, (sky, sun)) in sky.iter().zip(&suns).enumerate() {
            let hour = (step as f64 + 0.5) * f64::from(STEP_MIN) / 60.0;
            let air_c = day.max_c - day.range_k * below_highest(hour);
            all.air_c.push(air_c);
            all.ratio.push(day.ratio.min(saturated_ratio(air_c, pressure_pa)));
            all.light.push(faces.light(*sky, sun, per_outside_m2_per_w, pressure_pa));
        }
        Some(all)
    }

    fn with_capacity(steps: usize, step_s: f64) -> Self {
        Self {
            step_s,
            air_c: Vec::with_capacity(steps),
            ratio: Vec::with_capacity(steps),
            light: Vec::with_capacity(steps),
        }
    }

    /// How many steps there are.
    pub fn count(&self) -> usize {
        self.air_c.len()
    }
}

/// Walks through the weather of a place: called with each step, its air [°C], its humidity ratio [kg/kg] and the light on the
/// faces.
///
/// - `site`   the place and its weather
/// - `faces`  the faces of the box
/// - `each`   called for every step, in order
pub fn through_weather(
    site: &SiteWeather,
    faces: &Faces,
    mut each: impl FnMut(usize, f64, f64, &[Light; 6]),
) {
    let weather = &site.weather;
    let pressure_pa = site.pressure_pa();
    let light = light(site, faces);
    for day in &*site.days {
        let steps = day.steps.clone();
        // Where nothing is known of it, the air of the coldest hour is saturated and keeps its water through the day.
        let coldest_c = weather.air_c[steps.clone()].iter().copied().fold(f64::INFINITY, f64::min);
        let usual = saturated_ratio(coldest_c, pressure_pa);
        for step in steps {
            let air_c = weather.air_c[step];
            let ratio = weather
                .dew_point_c
                .as_ref()
                .map_or(usual, |dew_point_c| saturated_ratio(dew_point_c[step].min(air_c), pressure_pa));
            each(step, air_c, ratio, &light[step]);
        }
    }
}

/// Light on the six faces in each step of a series.
type LitSteps = Arc<[[Light; 6]]>;

/// What the light on the faces comes from. Weather is the same where it is the same list: it is never changed.
#[derive(Debug, Clone)]
pub struct LitFrom {
    weather: Arc<Weather>,
    place: Place,
    faces: Faces,
}

impl LitFrom {
    /// What the light on the faces of a box comes from.
    pub fn of(site: &SiteWeather, faces: &Faces) -> Self {
        Self { weather: Arc::clone(&site.weather), place: site.place, faces: *faces }
    }

    /// Is it the same light?
    pub fn is(&self, site: &SiteWeather, faces: &Faces) -> bool {
        Arc::ptr_eq(&self.weather, &site.weather) && self.place == site.place && self.faces == *faces
    }
}

/// Series longer than this are not kept: a year of hours.
pub const MOST_KEPT: usize = 8784;
/// So many places and headings are kept.
const KEPT: usize = 4;

thread_local! {
    static LIGHT: RefCell<Recent<LitFrom, LitSteps>> = const { RefCell::new(Recent::new(KEPT)) };
}

/// Light on the faces of a box through the weather of a place.
fn light(site: &SiteWeather, faces: &Faces) -> LitSteps {
    if let Some(known) = LIGHT.with_borrow_mut(|light| light.find(|key| key.is(site, faces))) {
        return known;
    }
    let light = lit_steps(site, faces);
    if light.len() <= MOST_KEPT {
        LIGHT.with_borrow_mut(|all| all.keep(LitFrom::of(site, faces), Arc::clone(&light)));
    }
    light
}

/// Light on the faces in each step, worked out.
fn lit_steps(site: &SiteWeather, faces: &Faces) -> LitSteps {
    let weather = &site.weather;
    let pressure_pa = site.pressure_pa();
    let of_day = |day: &Day| {
        let per_outside_m2_per_w = 1.0 / extraterrestrial_w_m2(day.day_of_year());
        day.steps.clone().map(move |step| {
            let sky = Irradiance {
                ghi_w_m2: weather.ghi_w_m2[step],
                dni_w_m2: weather.dni_w_m2[step],
                dhi_w_m2: weather.dhi_w_m2[step],
            };
            let is_dark = sky.ghi_w_m2 <= 0.0 && sky.dni_w_m2 <= 0.0 && sky.dhi_w_m2 <= 0.0;
            if is_dark {
                [Light::default(); 6]
            } else {
                faces.light(sky, &site.suns[step], per_outside_m2_per_w, pressure_pa)
            }
        })
    };
    site.days.iter().flat_map(of_day).collect()
}
