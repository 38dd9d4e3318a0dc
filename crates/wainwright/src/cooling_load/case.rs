//! One way that the box could be, made ready for the hot day.

use crate::air::properties::density_kg_m3;

use super::air_exchange::moisture::{BUFFERING, EVAPORATION_J_KG};
use super::body::{Body, BoxNetwork, Sums};
use super::course::Course;
use super::exchange::Exchange;
use super::gains::{Gains, HOURS};
use super::lap::Walker;
use super::outdoors::Outdoors;

/// What a day has in common for every way that the box could be.
#[derive(Debug, Clone)]
pub struct Surroundings<'b> {
    /// What is around it.
    pub outdoors: Outdoors,
    /// Film outside [W/(m²·K)].
    pub film_w_m2_k: f64,
    /// Wind [m/s].
    pub wind_m_s: f64,
    /// Pressure of the air [Pa].
    pub pressure_pa: f64,
    /// Heat set free in it.
    pub gains: Gains<'b>,
    /// The temperature it is to be held at [°C].
    pub cool_c: f64,
}

/// The box, one way or another, on the hot day.
#[derive(Debug, Clone)]
pub struct Case {
    /// What its surfaces and windows come to.
    pub sums: Sums,
    /// Its network.
    pub of: BoxNetwork,
    /// What drives it.
    pub course: Course,
    /// What air and cloth hold of water, as a mass of air [kg].
    pub air_kg: f64,
    /// Pressure of the air [Pa].
    pub pressure_pa: f64,
}

impl Case {
    /// The box on the hot day.
    pub fn of(around: &Surroundings, body: &Body, exchange: &Exchange) -> Self {
        let sums = body.sums(around.film_w_m2_k);
        // Humidity hardly moves the density.
        let air_kg_m3 = density_kg_m3(around.cool_c, 0.0, around.pressure_pa);
        let of = body.network(&sums, air_kg_m3);
        let mut course = Course::of(&around.outdoors, &sums);
        course.air_kg_s = exchange.air_kg_s(
            (&around.outdoors.air_c, &around.outdoors.ratio),
            |_| around.wind_m_s,
            around.cool_c,
            around.pressure_pa,
        );
        let air_kg = BUFFERING * body.volume_m3 * air_kg_m3;
        let mut case = Self { sums, of, course, air_kg, pressure_pa: around.pressure_pa };
        case.live(&around.gains);
        case
    }

    /// Sets free in it what these gains say.
    pub fn live(&mut self, gains: &Gains) {
        for hour in 0..HOURS {
            self.course.sensible_by_hour_w[hour] = gains.sensible_w(hour);
            self.course.water_by_hour_kg_s[hour] = gains.latent_w(hour) / EVAPORATION_J_KG;
        }
    }

    /// What walks it through its day.
    pub fn walker(&self) -> Walker<'_> {
        Walker { of: &self.of, air_kg: self.air_kg, pressure_pa: self.pressure_pa }
    }
}
