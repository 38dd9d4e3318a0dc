//! The box through the whole of the weather given, month by month.

use jiff::civil::Date;

use crate::air::saturation::saturated_ratio;
use crate::build::ClimateDetail;
use crate::site_weather::SiteWeather;
use crate::sky::clock::Day;

use super::body::BoxNetwork;
use super::cooler::Cooler;
use super::course::Course;
use super::heater::Heater;
use super::lap::{Plan, Room, Step, Walker};
use super::network::thermostat::Setpoints;
use super::setup::Setup;
use super::trace::Trace;

/// What cools and heats it through the weather.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Comfort<'u> {
    /// The air conditioner, where there is one.
    pub cooler: Option<&'u Cooler>,
    /// What it is set to [°C].
    pub cool_c: f64,
    /// The heater.
    pub heater: Heater,
    /// What it is set to [°C].
    pub heat_c: f64,
}

/// A month of the weather given.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MonthClimate {
    /// Its first day in the weather.
    pub first_day: Date,
    /// Electricity for cooling [Wh].
    pub cooling_wh: f64,
    /// Hours in which the air conditioner runs [h].
    pub run_h: f64,
    /// Heat that the heater gives [Wh].
    pub heating_wh: f64,
    /// The warmest that it gets inside [°C].
    pub warmest_c: f64,
    /// The coldest that it gets inside [°C].
    pub coldest_c: f64,
    /// Hours in which it is more than a degree above what the air conditioner is set to [h].
    pub warm_h: f64,
    /// Hours in which it is more than a degree below what the heater is set to [h].
    pub cold_h: f64,
}

impl MonthClimate {
    fn of(first_day: Date) -> Self {
        Self {
            first_day,
            cooling_wh: 0.0,
            run_h: 0.0,
            heating_wh: 0.0,
            warmest_c: f64::NEG_INFINITY,
            coldest_c: f64::INFINITY,
            warm_h: 0.0,
            cold_h: 0.0,
        }
    }
}

/// What became of the box in the weather given.
#[derive(Debug, Default)]
pub struct Walked {
    /// Month by month.
    pub months: Vec<MonthClimate>,
    /// Every step, where it is asked for.
    pub trace: Option<Trace>,
}

impl Setup<'_> {
    /// Lives in the box through the weather given, with the heat set free in it by the hour as on the hot day.
    pub fn walk_weather(&self) -> Walked {
        self.walk_course(&self.weather_course(), &self.comfort(), |_| {})
    }

    /// Lives in the box through the weather given.
    ///
    /// - `course`   what drives it
    /// - `comfort`  what cools and heats it
    /// - `each`     called after every step
    pub fn walk_course(&self, course: &Course, comfort: &Comfort, mut each: impl FnMut(&Step)) -> Walked {
        let of = &self.case.of;
        let mut trace = (self.detail == ClimateDetail::Steps)
            .then(|| Trace::begun(&of.network, course, self.site.weather.clock));
        let months = season(&self.site, of, course, self.case.air_kg, comfort, |step| {
            if let Some(trace) = &mut trace {
                trace.push(step);
            }
            each(step);
        });
        Walked { months, trace }
    }
}

/// So far from what is set it is called too warm or too cold [K].
const APART_K: f64 = 1.0;

/// Lives in the box through the weather.
///
/// - `site`     the weather
/// - `of`       the network of the box
/// - `course`   what drives it through the weather
/// - `air_kg`   what air and cloth hold of water, as a mass of air [kg]
/// - `comfort`  what cools and heats it
/// - `each`     called after every step
pub fn season(
    site: &SiteWeather,
    of: &BoxNetwork,
    course: &Course,
    air_kg: f64,
    comfort: &Comfort,
    mut each: impl FnMut(&Step),
) -> Vec<MonthClimate> {
    let mut months: Vec<MonthClimate> = Vec::with_capacity(13);
    let walker = Walker { of, air_kg, pressure_pa: site.pressure_pa() };
    let (Some(first_c), Some(first_ratio)) = (course.outdoor_c.first(), course.outdoor_ratio.first()) else {
        return months;
    };
    let start_c = first_c.clamp(comfort.heat_c.min(comfort.cool_c), comfort.cool_c);
    // Cooled from the first step on, the room holds less water than the air outside may.
    let mut room = Room::even(start_c, first_ratio.min(saturated_ratio(start_c, walker.pressure_pa)));
    let step_h = course.step_s / 3600.0;
    let setpoints = Setpoints {
        heat_c: if comfort.heater.rated_w > 0.0 { comfort.heat_c } else { f64::NEG_INFINITY },
        cool_c: if comfort.cooler.is_some() { comfort.cool_c } else { f64::INFINITY },
    };
    let plan = match comfort.cooler {
        Some(cooler) => Plan::Unit { cooler, setpoints, heater: comfort.heater },
        None => Plan::Heated { setpoints, heater: comfort.heater },
    };
    let in_one_month = |one: &Day, next: &Day| one.date.first_of_month() == next.date.first_of_month();
    for days in site.days.chunk_by(in_one_month) {
        let (Some(first), Some(last)) = (days.first(), days.last()) else { continue };
        let mut month = MonthClimate::of(first.date);
        walker.walk_over(course, first.steps.start..last.steps.end, &mut room, plan, |step| {
            month.cooling_wh += step.electric_w * step_h;
            month.run_h += step.run_fraction * step_h;
            month.heating_wh += step.power_w.max(0.0) * step_h;
            month.warmest_c = month.warmest_c.max(step.after.air_c);
            month.coldest_c = month.coldest_c.min(step.after.air_c);
            month.warm_h += if step.after.air_c > comfort.cool_c + APART_K { step_h } else { 0.0 };
            month.cold_h += if step.after.air_c < comfort.heat_c - APART_K { step_h } else { 0.0 };
            each(step);
        });
        months.push(month);
    }
    months
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use crate::cooling_load::fixture::{plain, read, with};
    use crate::cooling_load::numbers::numbers;
    use crate::cooling_load::setup::Setup;

    /// Air outside that holds more water than that of a cooled room could.
    #[test]
    fn a_cooled_room_begins_no_wetter_than_it_can_be() {
        let sultry = json!({"hourly": {
            "start": "2025-07-01T00:00", "step_min": 60,
            "ghi_w_m2": [0, 0, 0], "dry_bulb_f": [92, 92, 92], "dew_point_f": [85, 85, 85],
        }});
        let document = with(plain(), "/site/weather", sultry);
        let cooling = json!({"cooling": {"capacity_btu_h": 5000}, "detail": "steps"});
        let build = read(&with(document, "/climate", cooling));
        let setup = Setup::of(&build).unwrap();
        let trace = numbers(&build, &setup, setup.walk_weather()).trace.unwrap();
        assert!(trace.plant_w.iter().all(|plant_w| *plant_w < 0.0), "{:?}", trace.plant_w);
    }
}
