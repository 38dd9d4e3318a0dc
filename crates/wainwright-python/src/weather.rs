//! The weather files that a build may name.

use pyo3::exceptions::PyValueError;
use pyo3::prelude::*;
use pyo3::pybacked::PyBackedBytes;
use wainwright::sky::weather_file;

/// Weather files by name, read and kept.
#[pyclass(frozen, module = "wainwright._wainwright")]
pub struct WeatherLibrary(pub weather_file::WeatherLibrary);

#[pymethods]
impl WeatherLibrary {
    /// Reads files: the name and the bytes of each. `ValueError` names every file that is refused, with its faults.
    #[new]
    fn new(py: Python<'_>, files: Vec<(String, PyBackedBytes)>) -> PyResult<Self> {
        let mut library = weather_file::WeatherLibrary::default();
        let refused: Vec<String> = py.detach(|| {
            let refused = files.into_iter().filter_map(|(name, bytes)| {
                let refusal = library.read(name.as_str(), &bytes).err()?;
                Some(format!("{name} is refused:\n{refusal}"))
            });
            refused.collect()
        });
        if refused.is_empty() { Ok(Self(library)) } else { Err(PyValueError::new_err(refused.join("\n"))) }
    }

    /// Does a file with this name belong here? Its ending says so.
    #[staticmethod]
    fn takes(name: &str) -> bool {
        weather_file::WeatherLibrary::takes(name)
    }

    /// All names, in alphabetical order.
    fn names(&self) -> Vec<&str> {
        self.0.names().collect()
    }
}
