//! Each form of weather turned into a series.

use jiff::civil::date;

use crate::build::{ClearSky, DesignDay, Hourly, Monthly};
use crate::sky::air_mass::extraterrestrial_w_m2;
use crate::sky::air_temperature::{AirMeans, DailyRange, MEAN_BELOW_HIGHEST};
use crate::sky::clear_year::clear_year;
use crate::sky::clock::{Clock, Day, TYPICAL_YEAR};
use crate::sky::decomposition::erbs;
use crate::sky::sun::Direction;
use crate::sky::synthetic::{Climate, USUAL_WIND_M_S};
use crate::sky::turbidity::Turbidity;
use crate::sky::weather::{Place, Weather};
use crate::units::{celsius, kelvin, m_s};

/// Temperature of the air where nothing is said of it [°C]: 68 °F.
pub(super) const USUAL_AIR_C: f64 = 20.0;
/// Days that a design day is repeated for.
const DESIGN_DAYS: usize = 7;

/// Twelve figures, each turned by a function; none of another number of them.
pub(super) fn twelve(figures: &[f64], turned: fn(f64) -> f64) -> Option<[f64; 12]> {
    Some(<[f64; 12]>::try_from(figures).ok()?.map(turned))
}

pub(super) fn mean(figures: &[f64; 12]) -> f64 {
    figures.iter().sum::<f64>() / 12.0
}

pub(super) fn climate_of(monthly: &Monthly) -> Option<Climate> {
    let range = match &monthly.range_f {
        Some(range_f) => DailyRange::Given(twelve(range_f, kelvin)?),
        None => DailyRange::Inland,
    };
    Some(Climate {
        ghi_kwh_m2_d: twelve(&monthly.ghi_kwh_m2_day, |kwh| kwh)?,
        air: AirMeans { mean_c: twelve(&monthly.mean_f, celsius)?, range },
        wind_m_s: match &monthly.wind_mph {
            Some(wind_mph) => Some(twelve(wind_mph, m_s)?),
            None => None,
        },
    })
}

/// Turbidity of a day: what is given, or that of the place.
pub(super) fn turbidity_of(given: Option<f64>, place: &Place) -> impl Fn(&Day) -> f64 {
    let table = Turbidity::of(place.latitude_rad, place.longitude_rad);
    move |day| given.unwrap_or_else(|| table.on(day.date))
}

pub(super) fn clear(sky: &ClearSky, place: &Place, clock: &Clock, suns: &[Direction]) -> Option<Weather> {
    let air = match &sky.mean_f {
        None => AirMeans::constant(USUAL_AIR_C),
        Some(mean_f) => AirMeans {
            mean_c: twelve(mean_f, celsius)?,
            range: match &sky.range_f {
                Some(range_f) => DailyRange::Given(twelve(range_f, kelvin)?),
                None => DailyRange::Inland,
            },
        },
    };
    let wind_m_s = match &sky.wind_mph {
        Some(wind_mph) => mean(&twelve(wind_mph, m_s)?),
        None => USUAL_WIND_M_S,
    };
    clear_year(place, clock, suns, turbidity_of(sky.linke_turbidity, place), &air, wind_m_s)
}

/// Hours of a design day and of those after it. The last days of a year run on into the next.
pub(super) fn design_clock(day: &DesignDay) -> Option<Clock> {
    let after = jiff::Span::new().days(i64::from(day.day_of_year) - 1);
    let first = date(TYPICAL_YEAR, 1, 1).checked_add(after).ok()?;
    Clock::new(first.at(0, 0, 0, 0), 60, 24 * DESIGN_DAYS)
}

pub(super) fn design(day: &DesignDay, place: &Place, clock: &Clock, suns: &[Direction]) -> Option<Weather> {
    let range_k = kelvin(day.max_f - day.min_f);
    // The mean of the day's course is below the middle of its ends.
    let mean_c = celsius(day.max_f) - MEAN_BELOW_HIGHEST * range_k;
    let air = AirMeans { mean_c: [mean_c; 12], range: DailyRange::Given([range_k; 12]) };
    let wind_m_s = day.wind_mph.map_or(USUAL_WIND_M_S, m_s);
    let turbidity = turbidity_of(day.linke_turbidity, place);
    let mut weather = clear_year(place, clock, suns, turbidity, &air, wind_m_s)?;
    weather.dew_point_c = day.dew_point_f.map(|dew_point_f| vec![celsius(dew_point_f); clock.count()]);
    Some(weather)
}

pub(super) fn series(hourly: &Hourly, clock: Clock, suns: &[Direction]) -> Weather {
    let ghi_w_m2 = hourly.ghi_w_m2.clone();
    let (dni_w_m2, dhi_w_m2) = match (&hourly.dni_w_m2, &hourly.dhi_w_m2) {
        (Some(dni_w_m2), Some(dhi_w_m2)) => (dni_w_m2.clone(), dhi_w_m2.clone()),
        _ => split(&ghi_w_m2, &clock, suns),
    };
    let celsius_of = |list: &Vec<f64>| list.iter().copied().map(celsius).collect();
    Weather {
        clock,
        dni_w_m2,
        dhi_w_m2,
        air_c: celsius_of(&hourly.dry_bulb_f),
        dew_point_c: hourly.dew_point_f.as_ref().map(celsius_of),
        wind_m_s: match &hourly.wind_mph {
            Some(wind_mph) => wind_mph.iter().copied().map(m_s).collect(),
            None => vec![USUAL_WIND_M_S; ghi_w_m2.len()],
        },
        ghi_w_m2,
    }
}

/// Beam and diffuse of each step by its clearness.
pub(super) fn split(ghi_w_m2: &[f64], clock: &Clock, suns: &[Direction]) -> (Vec<f64>, Vec<f64>) {
    let mut both = (Vec::with_capacity(ghi_w_m2.len()), Vec::with_capacity(ghi_w_m2.len()));
    for day in clock.days() {
        let outside_w_m2 = extraterrestrial_w_m2(day.day_of_year());
        for step in day.steps {
            let sky = erbs(ghi_w_m2[step], suns[step].zenith_rad(), outside_w_m2);
            both.0.push(sky.dni_w_m2);
            both.1.push(sky.dhi_w_m2);
        }
    }
    both
}
