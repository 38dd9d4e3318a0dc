//! Weather at a place: what every reader and every method of making weather ends in.

use super::clock::Clock;

/// A place on the earth and its clock.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// Latitude [rad], positive north.
    pub latitude_rad: f64,
    /// Longitude [rad], positive east.
    pub longitude_rad: f64,
    /// Height above sea level [m].
    pub altitude_m: f64,
    /// Local standard time less universal time [h].
    pub utc_offset_h: f64,
}

/// Weather in even steps. Every list has one figure a step, the mean over that step; no figure is missing.
#[derive(Debug, Clone, PartialEq)]
pub struct Weather {
    /// When the steps are.
    pub clock: Clock,
    /// Global irradiance on a horizontal plane [W/m²], 0 or more.
    pub ghi_w_m2: Vec<f64>,
    /// Beam irradiance on a plane that faces the sun [W/m²], 0 or more.
    pub dni_w_m2: Vec<f64>,
    /// Diffuse irradiance on a horizontal plane [W/m²], 0 or more.
    pub dhi_w_m2: Vec<f64>,
    /// Air temperature [°C].
    pub air_c: Vec<f64>,
    /// Dew point [°C], where it is known.
    pub dew_point_c: Option<Vec<f64>>,
    /// Wind [m/s], 0 or more.
    pub wind_m_s: Vec<f64>,
}
