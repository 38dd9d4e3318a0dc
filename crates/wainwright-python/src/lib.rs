//! The native half of the Python package: a build to put questions to, answered in plain Python objects.
//!
//! It only converts. What people meet is the package around it, `python/wainwright`.

mod air;
mod batch;
mod convert;
mod named_files;

mod table;
mod weather;

use std::sync::OnceLock;

use pyo3::exceptions::PyKeyError;
use pyo3::prelude::*;
use serde_json::Value;
use wainwright::evaluate::Evaluate;
use wainwright::papers::Papers;
use wainwright::question::Question as _;

use air::moist_air;
use batch::score;
use convert::{refused, to_python};
use named_files::NamedFiles;

use table::{OPERATIONS, QUESTIONS, Question};
use weather::WeatherLibrary;

/// Columns of a million rows come and go: this one keeps their memory for the next, where the system's gives it back.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

/// A build that was read and checked.
#[pyclass(frozen, module = "wainwright._wainwright")]
struct Build {
    read: wainwright::Build,
    /// The JSON it was read from, for who goes by its paths.
    value: OnceLock<Value>,
}

impl Build {
    /// The JSON it was read from, and it.
    fn pair(&self, json: &[u8]) -> (&Value, &wainwright::Build) {
        #[expect(clippy::expect_used, reason = "it was read from this text")]
        let value = || serde_json::from_slice(json).expect("JSON");
        (self.value.get_or_init(value), &self.read)
    }
}

#[pymethods]
impl Build {
    /// Reads a build from JSON text in UTF-8. It may name the files of a library.
    #[staticmethod]
    #[pyo3(signature = (json, library=None))]
    fn from_json(py: Python<'_>, json: &[u8], library: Option<&WeatherLibrary>) -> PyResult<Self> {
        let read = py.detach(|| match library {
            Some(library) => wainwright::Build::from_json_with(json, &library.0),
            None => wainwright::Build::from_json(json),
        });
        let read = read.map_err(|refusal| refused(py, &refusal))?;
        Ok(Self { read, value: OnceLock::new() })
    }

    /// The answer to a question, as a dict.
    fn ask<'py>(&self, py: Python<'py>, question: &str) -> PyResult<Bound<'py, PyAny>> {
        (find(question)?.answer)(py, &self.read)
    }

    /// The answer to a question, as text for people.
    fn text(&self, py: Python<'_>, question: &str) -> PyResult<String> {
        let text = find(question)?.text;
        py.detach(|| text(&self.read)).map_err(|refusal| refused(py, &refusal))
    }

    /// The hand-over papers, as a page of HTML or as Markdown.
    #[pyo3(signature = (markdown=false))]
    fn papers(&self, py: Python<'_>, markdown: bool) -> String {
        py.detach(|| {
            let papers = Papers::of(&self.read, &Evaluate::answer(&self.read));
            if markdown { papers.markdown() } else { papers.html() }
        })
    }
}

/// The names of all questions, in the order of the documentation.
#[pyfunction]
fn questions() -> Vec<&'static str> {
    QUESTIONS.iter().map(|question| question.name).collect()
}

/// The answer of an operation to the JSON of a request, as a dict.
#[pyfunction]
#[pyo3(signature = (operation, json, named_files=None))]
fn operate<'py>(
    py: Python<'py>,
    operation: &str,
    json: &[u8],
    named_files: Option<&NamedFiles>,
) -> PyResult<Bound<'py, PyAny>> {
    let found = OPERATIONS.iter().find(|one| one.name == operation);
    let one = found.ok_or_else(|| PyKeyError::new_err(format!("there is no operation {operation}")))?;
    match named_files {
        Some(named_files) => (one.answer)(py, json, &named_files.0),
        None => (one.answer)(py, json, &wainwright::NamedFiles::default()),
    }
}

fn find(name: &str) -> PyResult<&'static Question> {
    QUESTIONS
        .iter()
        .find(|question| question.name == name)
        .ok_or_else(|| PyKeyError::new_err(format!("there is no question {name}; see questions()")))
}

/// The native half of the package.
#[pymodule(gil_used = false)]
mod _wainwright {
    #[pymodule_export]
    use super::{Build, NamedFiles, WeatherLibrary, moist_air, operate, questions, score};

    /// The version of the calculation.
    #[pymodule_export]
    const VERSION: &str = env!("CARGO_PKG_VERSION");
}
