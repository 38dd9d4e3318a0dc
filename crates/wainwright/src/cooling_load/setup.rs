//! A build made ready for its cooling load.

use crate::air::humidity;
use crate::build::{Build, ClimateDetail, Cooling, Heating};
use crate::site_weather::{ColdNight, HotDay, SiteWeather};
use crate::units::celsius;

use super::body::{Body, Season};
use super::case::{Case, Surroundings};
use super::cooler::Cooler;
use super::course::Course;
use super::envelope::films::{HOT_DAY_W_M2_K, outside_w_m2_k, radiative_w_m2_k};
use super::exchange::Exchange;
use super::gains::electrics::{Electrics, usual_mode};
use super::gains::{Gains, Indoors, gains};
use super::heater::Heater;
use super::outdoors::{Faces, Outdoors};
use super::season::Comfort;

/// Relative humidity at which the load is worked out where nothing is said.
pub const DESIGN_HUMIDITY: f64 = 0.5;
/// Wind of a winter night that does not say [m/s]: 15 mph.
pub const WINTER_WIND_M_S: f64 = 6.7056;
/// Wind of a hot day that does not say, for what it drives through gaps [m/s]: 7.5 mph.
pub const SUMMER_WIND_M_S: f64 = 3.3528;
/// Temperature by which radiation outside is reckoned, summer and winter [°C].
const FILM_C: (f64, f64) = (20.0, 0.0);
/// Emittance by which it is: paint.
const FILM_EMITTANCE: f64 = 0.9;

/// A build made ready.
#[derive(Debug)]
pub struct Setup<'b> {
    /// Its place and weather.
    pub site: SiteWeather<'b>,
    /// The hot day.
    pub hot_day: HotDay,
    /// The cold night.
    pub cold_night: ColdNight,
    /// The faces of the box.
    pub faces: Faces,
    /// The box in summer.
    pub body: Body<'b>,
    /// The box in winter.
    pub winter_body: Body<'b>,
    /// How air gets in on the hot day.
    pub exchange: Exchange,
    /// What the hot day has in common for every way that the box could be.
    pub around: Surroundings<'b>,
    /// The box on the hot day.
    pub case: Case,
    /// What draws power in it.
    pub electrics: Electrics<'b>,
    /// The air conditioner, where there is one that can be.
    pub cooler: Option<Cooler>,
    /// Humidity ratio at which the load is worked out [kg/kg].
    pub ratio: f64,
    /// What the heater is set to [°C].
    pub heat_c: f64,
    /// The heater; one that gives nothing where there is none.
    pub heater: Heater,
    /// Wind of the cold night [m/s].
    pub winter_wind_m_s: f64,
    /// Film outside on the cold night [W/(m²·K)].
    pub winter_film_w_m2_k: f64,
    /// Is every step to be shown?
    pub detail: ClimateDetail,
}

impl<'b> Setup<'b> {
    /// A build made ready; none where something is missing.
    pub fn of(build: &'b Build) -> Option<Self> {
        Self::with(build, SiteWeather::of(build)?, None)
    }

    /// A build made ready; none where something is missing.
    ///
    /// - `site`      its weather
    /// - `followed`  id of the part that is the air conditioner, where the inverter behind it goes by its course
    pub fn with(build: &'b Build, site: SiteWeather<'b>, followed: Option<&str>) -> Option<Self> {
        let envelope = build.envelope.as_ref()?;
        let climate = build.climate.as_ref();
        let (hot_day, cold_night) = (site.hot_day(build), site.cold_night(build));
        let heading_deg = build.site.as_ref().and_then(|site| site.heading_deg).unwrap_or(0.0);
        let faces = Faces::new(heading_deg, site.albedo);
        let body = Body::of(build, Season::Summer)?;
        let winter_body = Body::of(build, Season::Winter)?;
        let cooling = climate.and_then(|climate| climate.cooling.as_ref());
        let heating = climate.and_then(|climate| climate.heating.as_ref());
        let cool_c = celsius(cooling.and_then(|cooling| cooling.setpoint_f).unwrap_or(Cooling::SETPOINT_F));
        let pressure_pa = site.pressure_pa();
        let humidity_fraction =
            cooling.and_then(|cooling| cooling.humidity_fraction).unwrap_or(DESIGN_HUMIDITY);
        let cooler = cooling.and_then(|cooling| Cooler::of(cooling, pressure_pa));
        let exchange = Exchange::of(build, envelope, body.volume_m3);
        let electrics = Electrics::of(build, usual_mode(build), followed);
        let month = hot_day.date.month().unsigned_abs();
        let around = Surroundings {
            outdoors: Outdoors::of_hot_day(&site, &hot_day, &faces)?,
            film_w_m2_k: hot_day.wind_m_s.map_or(HOT_DAY_W_M2_K, |wind_m_s| film_w_m2_k(wind_m_s, FILM_C.0)),
            wind_m_s: hot_day.wind_m_s.unwrap_or(SUMMER_WIND_M_S),
            pressure_pa,
            gains: gains(build, &electrics, month, cool_c, &Indoors::even(cool_c)),
            cool_c,
        };
        let case = Case::of(&around, &body, &exchange);
        let winter_wind_m_s = cold_night.wind_m_s.unwrap_or(WINTER_WIND_M_S);
        Some(Self {
            ratio: humidity::of_relative(humidity_fraction, cool_c, pressure_pa),
            heat_c: celsius(heating.and_then(|heating| heating.setpoint_f).unwrap_or(Heating::SETPOINT_F)),
            heater: heating.map_or(Heater::NONE, Heater::of),
            winter_film_w_m2_k: film_w_m2_k(winter_wind_m_s, FILM_C.1),
            winter_wind_m_s,
            detail: climate.and_then(|climate| climate.detail).unwrap_or(ClimateDetail::Hours),
            site,
            hot_day,
            cold_night,
            faces,
            body,
            winter_body,
            exchange,
            around,
            case,
            electrics,
            cooler,
        })
    }

    /// Lets the hot day be lived with other heat set free in the box.
    pub fn live(&mut self, gains: Gains<'b>) {
        self.around.gains = gains;
        self.case.live(&self.around.gains);
    }

    /// What drives the box through the weather given, with the heat set free in it by the hour as on the hot day.
    pub fn weather_course(&self) -> Course {
        let mut course = Course::of_weather(&self.site, &self.faces, &self.case.sums);
        course.air_kg_s = self.exchange.air_kg_s(
            (&course.outdoor_c, &course.outdoor_ratio),
            |step| self.site.weather.wind_m_s[step],
            self.around.cool_c,
            self.around.pressure_pa,
        );
        let base = &self.case.course;
        (course.sensible_by_hour_w, course.water_by_hour_kg_s) =
            (base.sensible_by_hour_w, base.water_by_hour_kg_s);
        course
    }

    /// What cools and heats it through the weather given.
    pub fn comfort(&self) -> Comfort<'_> {
        Comfort {
            cooler: self.cooler.as_ref(),
            cool_c: self.around.cool_c,
            heater: self.heater,
            heat_c: self.heat_c,
        }
    }
}

/// Film outside in a wind [W/(m²·K)].
fn film_w_m2_k(wind_m_s: f64, mean_c: f64) -> f64 {
    outside_w_m2_k(wind_m_s, radiative_w_m2_k(FILM_EMITTANCE, mean_c))
}
