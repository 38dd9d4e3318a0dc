//! Moist air.

use pyo3::exceptions::PyValueError;
use pyo3::prelude::*;
use wainwright::air::limits::OutOfRange;
use wainwright::air::moist_air::{Humidity, MoistAir, pressure_at};
use wainwright::air::pressure::SEA_LEVEL_PA;

use crate::to_python;

/// The properties of moist air, as a dict. `ValueError` says what is wrong and what would be right.
#[pyfunction]
#[pyo3(signature = (dry_bulb_c, pressure_pa, altitude_m, relative_humidity, dew_point_c, wet_bulb_c, humidity_ratio))]
#[expect(clippy::too_many_arguments, reason = "those of the function in Python, one to one")]
pub fn moist_air<'py>(
    py: Python<'py>,
    dry_bulb_c: f64,
    pressure_pa: Option<f64>,
    altitude_m: Option<f64>,
    relative_humidity: Option<f64>,
    dew_point_c: Option<f64>,
    wet_bulb_c: Option<f64>,
    humidity_ratio: Option<f64>,
) -> PyResult<Bound<'py, PyAny>> {
    let pressure_pa = match (pressure_pa, altitude_m) {
        (None, None) => SEA_LEVEL_PA,
        (Some(pressure_pa), None) => pressure_pa,
        (None, Some(altitude_m)) => pressure_at(altitude_m).map_err(refused)?,
        (Some(_), Some(_)) => {
            return Err(PyValueError::new_err("give pressure_pa or altitude_m, not both"));
        }
    };
    let humidity = match (relative_humidity, dew_point_c, wet_bulb_c, humidity_ratio) {
        (Some(relative), None, None, None) => Humidity::Relative(relative),
        (None, Some(dew_c), None, None) => Humidity::DewPoint(dew_c),
        (None, None, Some(wet_c), None) => Humidity::WetBulb(wet_c),
        (None, None, None, Some(ratio)) => Humidity::Ratio(ratio),
        _ => {
            let known = "relative_humidity, dew_point_c, wet_bulb_c and humidity_ratio";
            return Err(PyValueError::new_err(format!("give exactly one of {known}")));
        }
    };
    let air = MoistAir::new(dry_bulb_c, pressure_pa, humidity).map_err(refused)?;
    to_python(py, &air)
}

fn refused(error: OutOfRange) -> PyErr {
    PyValueError::new_err(error.to_string())
}
