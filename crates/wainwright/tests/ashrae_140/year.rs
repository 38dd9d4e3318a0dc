//! The box through the year.

use wainwright::cooling_load::network::Drive;
use wainwright::cooling_load::network::State;
use wainwright::cooling_load::network::thermostat::{Plant, hold};

use crate::cell::{Cell, FACES_M2};
use crate::control::Control;
use crate::weather::denver;

const STEPS_PER_HOUR: u32 = 4;
const HOURS_OF_DECEMBER: usize = 31 * 24;

/// What comes of a year; peaks and temperatures by the mean over an hour.
#[derive(Debug, Clone, Copy)]
pub struct Year {
    pub heating_mwh: f64,
    pub cooling_mwh: f64,
    pub peak_heating_kw: f64,
    pub peak_cooling_kw: f64,
    pub max_c: f64,
    pub min_c: f64,
    pub mean_c: f64,
    /// The hour of the peak of cooling, of the greatest and of the least temperature, from January 1, 0 h.
    pub peak_cooling_hour: usize,
    pub max_hour: usize,
    pub min_hour: usize,
}

impl Year {
    /// Walks through the year, after a December to begin with.
    ///
    /// - `hour`  gives heat into the air [W] and temperature of the air [°C] of an hour
    pub fn of(mut hour: impl FnMut(usize) -> (f64, f64)) -> Self {
        let count = denver().len();
        for of_year in count - HOURS_OF_DECEMBER..count {
            hour(of_year);
        }
        let mut year = Self {
            heating_mwh: 0.0,
            cooling_mwh: 0.0,
            peak_heating_kw: 0.0,
            peak_cooling_kw: 0.0,
            max_c: f64::NEG_INFINITY,
            min_c: f64::INFINITY,
            mean_c: 0.0,
            peak_cooling_hour: 0,
            max_hour: 0,
            min_hour: 0,
        };
        for of_year in 0..count {
            let (power_w, air_c) = hour(of_year);
            year.heating_mwh += power_w.max(0.0) / 1e6;
            year.cooling_mwh -= power_w.min(0.0) / 1e6;
            year.peak_heating_kw = year.peak_heating_kw.max(power_w / 1e3);
            if -power_w / 1e3 > year.peak_cooling_kw {
                (year.peak_cooling_kw, year.peak_cooling_hour) = (-power_w / 1e3, of_year);
            }
            if air_c > year.max_c {
                (year.max_c, year.max_hour) = (air_c, of_year);
            }
            if air_c < year.min_c {
                (year.min_c, year.min_hour) = (air_c, of_year);
            }
            year.mean_c += air_c / count as f64;
        }
        year
    }

    /// A quantity by the name it is published under.
    pub fn quantity(&self, name: &str) -> f64 {
        match name {
            "annual_heating_mwh" => self.heating_mwh,
            "annual_cooling_mwh" => self.cooling_mwh,
            "peak_heating_kw" => self.peak_heating_kw,
            "peak_cooling_kw" => self.peak_cooling_kw,
            "max_c" => self.max_c,
            "min_c" => self.min_c,
            "mean_c" => self.mean_c,
            _ => panic!("{name}"),
        }
    }
}

/// The year of a box by the network, in steps of a quarter of an hour.
///
/// - `exchange_w_m2_k`  gives the exchange of the inner faces with the air [W/(m² K)] by their difference in the step
///   before [K]
pub fn year(cell: &Cell, control: Control, mut exchange_w_m2_k: impl FnMut(f64) -> f64) -> Year {
    let (mut state, mut difference_k) = (State::even(20.0), 1.0);
    Year::of(|of_year| {
        let (mut power_w, mut air_c) = (0.0, 0.0);
        for step in 1..=STEPS_PER_HOUR {
            let convective_w_m2_k = exchange_w_m2_k(difference_k);
            let (network, drive) = cell.in_hour(&denver()[of_year], convective_w_m2_k);
            let end_h = (of_year % 24) as f64 + f64::from(step) / f64::from(STEPS_PER_HOUR);
            let (setpoints, fan) = control.at(end_h);
            let response = network.response(cell.ventilation_w_k(fan), 3600.0 / f64::from(STEPS_PER_HOUR));
            let held = hold(&response, &state, &drive, setpoints, Plant::UNLIMITED);
            let with_plant = Drive { air_w: drive.air_w + held.power_w, ..drive };
            let mean = response.mean(&state, &with_plant);
            power_w += held.power_w / f64::from(STEPS_PER_HOUR);
            air_c += mean.air_c / f64::from(STEPS_PER_HOUR);
            let flow_w = network.surface_to_air_w_k * (network.surface_c(&mean, &with_plant) - mean.air_c);
            difference_k = flow_w.abs() / (convective_w_m2_k * FACES_M2);
            state = held.after;
        }
        (power_w, air_c)
    })
}
