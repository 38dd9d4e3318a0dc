//! What a request may name: weather files and catalogues.

use pyo3::exceptions::PyValueError;
use pyo3::prelude::*;
use pyo3::pybacked::PyBackedBytes;

use crate::weather::WeatherLibrary;

/// Weather files and catalogues by name, read and kept.
#[pyclass(frozen, module = "wainwright._wainwright")]
pub struct NamedFiles(pub wainwright::NamedFiles);

#[pymethods]
impl NamedFiles {
    /// Reads catalogues: the name of the file and the bytes of each. `ValueError` names every file that is refused, with its
    /// faults. Their bases may name the weather files.
    #[new]
    #[pyo3(signature = (weather, catalogues))]
    fn new(
        py: Python<'_>,
        weather: Option<&WeatherLibrary>,
        catalogues: Vec<(String, PyBackedBytes)>,
    ) -> PyResult<Self> {
        let weather = weather.map(|weather| weather.0.clone()).unwrap_or_default();
        let mut named_files = wainwright::NamedFiles::of_weather(weather);
        let refused: Vec<String> = py.detach(|| {
            let refused = catalogues.into_iter().filter_map(|(file, bytes)| {
                let name = wainwright::NamedFiles::catalogue_name(&file).unwrap_or(&file);
                let refusal = named_files.read_catalogue(name, &bytes).err()?;
                Some(format!("{file} is refused:\n{refusal}"))
            });
            refused.collect()
        });
        if refused.is_empty() {
            Ok(Self(named_files))
        } else {
            Err(PyValueError::new_err(refused.join("\n")))
        }
    }

    /// The same catalogues beside other weather files.
    fn with_weather(&self, weather: &WeatherLibrary) -> Self {
        Self(wainwright::NamedFiles { weather: weather.0.clone(), catalogues: self.0.catalogues.clone() })
    }

    /// Is a file with this name a catalogue? Its ending says so.
    #[staticmethod]
    fn takes(name: &str) -> bool {
        wainwright::NamedFiles::catalogue_name(name).is_some()
    }

    /// The names of all catalogues, in alphabetical order.
    fn catalogues(&self) -> Vec<&str> {
        self.0.catalogues.keys().map(String::as_str).collect()
    }
}
