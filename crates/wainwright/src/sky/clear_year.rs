//! Weather in which no cloud ever comes.

use super::air_mass::{absolute, extraterrestrial_w_m2, pressure_pa, relative};
use super::air_temperature::{AirMeans, course_c};
use super::clear_sky::ineichen_perez;
use super::clock::{Clock, Day};
use super::irradiance::Irradiance;
use super::sun::{Direction, apparent_zenith_rad};
use super::weather::{Place, Weather};

/// Air temperature that refraction reckons with [°C]. `common practice`
const REFRACTION_AIR_C: f64 = 12.0;

/// Clear weather at a place.
///
/// - `place`      the place
/// - `clock`      steps of the answer
/// - `sun`        where the sun stands in the middle of each step
/// - `turbidity`  Linke turbidity of a day, 1 to 10, see [`Turbidity::on`](super::turbidity::Turbidity::on)
/// - `air`        air temperature through the year
/// - `wind_m_s`   wind of every step [m/s], 0 or more
///
/// None where the suns are not as many as the steps, or a figure is not a number or out of its range.
pub fn clear_year(
    place: &Place,
    clock: &Clock,
    sun: &[Direction],
    turbidity: impl Fn(&Day) -> f64,
    air: &AirMeans,
    wind_m_s: f64,
) -> Option<Weather> {
    if sun.len() != clock.count() || !air.is_sound() || !(wind_m_s.is_finite() && wind_m_s >= 0.0) {
        return None;
    }
    let days = clock.days();
    let sky = clear_sky(place, &days, sun, turbidity);
    let outside_w_m2 = extraterrestrial_horizontal_w_m2(&days, sun);
    let day_clearness: Vec<f64> = days
        .iter()
        .map(|day| {
            let ghi_w_m2: f64 = sky[day.steps.clone()].iter().map(|sky| sky.ghi_w_m2).sum();
            let outside_w_m2: f64 = outside_w_m2[day.steps.clone()].iter().sum();
            if outside_w_m2 > 0.0 { ghi_w_m2 / outside_w_m2 } else { 0.0 }
        })
        .collect();
    if !day_clearness.iter().all(|clearness| clearness.is_finite()) {
        return None;
    }
    Some(Weather {
        clock: *clock,
        ghi_w_m2: sky.iter().map(|sky| sky.ghi_w_m2).collect(),
        dni_w_m2: sky.iter().map(|sky| sky.dni_w_m2).collect(),
        dhi_w_m2: sky.iter().map(|sky| sky.dhi_w_m2).collect(),
        air_c: course_c(clock, &days, air, &day_clearness),
        dew_point_c: None,
        wind_m_s: vec![wind_m_s; clock.count()],
    })
}

/// Irradiance under a clear sky in the middle of each step, by [`ineichen_perez`], under the standard atmosphere's
/// pressure.
///
/// - `place`      the place
/// - `days`       days of a clock
/// - `sun`        where the sun stands in the middle of each step of the clock
/// - `turbidity`  Linke turbidity of a day, 1 to 10
///
/// As the sun is that of the middle, a step in which it rises only after counts as night. The formula reckons with the
/// zenith angle that refraction leaves; diffuse is what the beam at the true one leaves of the global irradiance, so
/// that `ghi = dni cos θz + dhi` here as everywhere.
pub fn clear_sky(
    place: &Place,
    days: &[Day],
    sun: &[Direction],
    turbidity: impl Fn(&Day) -> f64,
) -> Vec<Irradiance> {
    let pressure_pa = pressure_pa(place.altitude_m);
    let mut sky = vec![Irradiance::DARK; sun.len()];
    for day in days {
        let (turbidity, outside_w_m2) = (turbidity(day), extraterrestrial_w_m2(day.day_of_year()));
        let steps = day.steps.clone();
        for (sky, sun) in sky[steps.clone()].iter_mut().zip(&sun[steps]).filter(|(_, sun)| sun.up > 0.0) {
            let zenith_rad = apparent_zenith_rad(sun.zenith_rad(), pressure_pa, REFRACTION_AIR_C);
            let air_mass = absolute(relative(zenith_rad), pressure_pa);
            *sky = ineichen_perez(zenith_rad, air_mass, turbidity, place.altitude_m, outside_w_m2);
            sky.dhi_w_m2 = sky.ghi_w_m2 - sky.dni_w_m2 * sun.up;
        }
    }
    sky
}

/// Irradiance of a horizontal plane outside the atmosphere in the middle of each step [W/m²], 0 at night.
///
/// - `days`  days of a clock
/// - `sun`   where the sun stands in the middle of each step of the clock
pub fn extraterrestrial_horizontal_w_m2(days: &[Day], sun: &[Direction]) -> Vec<f64> {
    let mut outside_w_m2 = Vec::with_capacity(sun.len());
    for day in days {
        let facing_w_m2 = extraterrestrial_w_m2(day.day_of_year());
        outside_w_m2.extend(sun[day.steps.clone()].iter().map(|sun| facing_w_m2 * sun.up.max(0.0)));
    }
    outside_w_m2
}
