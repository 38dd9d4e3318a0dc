//! A table scored.

use std::num::NonZeroUsize;

use pyo3::exceptions::{PyKeyboardInterrupt, PyRuntimeError, PyTypeError};
use pyo3::prelude::*;
use pyo3::pybacked::PyBackedBytes;
use pyo3_arrow::PyTable;
use wainwright::batch::{self, Table, score_build};
use wainwright_arrow::scored;

use crate::Build;
use crate::convert::refused;
use crate::named_files::NamedFiles;

/// What the columns vary.
#[derive(FromPyObject)]
pub enum Base {
    /// A build, and the JSON it was read from.
    Build(Py<Build>, PyBackedBytes),
    /// A request as JSON.
    Request(PyBackedBytes),
}

/// The scores of every row of a table, as a table that speaks the Arrow PyCapsule interface.
///
/// - `base`         a build that was read, or a request as JSON: base and groups or catalogue
/// - `named_files`  what it may name
///
/// Other Python threads run meanwhile. `progress` is called now and then with how much of how much is done; what it raises,
/// or a signal that does, ends the work.
#[pyfunction]
#[pyo3(signature = (base, table, scores, named_files, threads=None, progress=None))]
pub fn score<'py>(
    py: Python<'py>,
    base: Base,
    table: &Bound<'py, PyAny>,
    scores: Vec<String>,
    named_files: &NamedFiles,
    threads: Option<NonZeroUsize>,
    progress: Option<Py<PyAny>>,
) -> PyResult<Bound<'py, PyAny>> {
    let table: PyTable = table.extract().map_err(|error: PyErr| {
        PyTypeError::new_err(format!("table must be a table of Arrow's kind: {error}"))
    })?;
    let (batches, schema) = table.into_inner();
    let threads = threads.or_else(|| std::thread::available_parallelism().ok()).map_or(1, NonZeroUsize::get);
    let mut raised = None;
    let watch = |done: usize, of: usize| {
        let told = Python::attach(|py| {
            py.check_signals()?;
            progress.as_ref().map_or(Ok(()), |progress| progress.call1(py, (done, of)).map(drop))
        });
        raised = told.err();
        raised.is_none()
    };
    let answer = py.detach(|| {
        let (columns, rows) = wainwright_arrow::table(&schema, &batches)?;
        let table = Table { columns, rows, scores: &scores };
        let answer = match base {
            Base::Build(build, json) => {
                score_build(build.get().pair(&json), table, &named_files.0, threads, watch)
            }
            Base::Request(json) => batch::score(&json, table, &named_files.0, threads, watch),
        }?;
        Ok(answer.map(|answer| scored(rows, &scores, answer)))
    });
    if let Some(raised) = raised {
        return Err(raised);
    }
    // Nothing but what is raised ends the work.
    let batch =
        answer.map_err(|refusal| refused(py, &refusal))?.ok_or_else(|| PyKeyboardInterrupt::new_err(()))?;
    let batch = batch.map_err(|error| PyRuntimeError::new_err(error.to_string()))?;
    let schema = batch.schema();
    Ok(PyTable::try_new(vec![batch], schema)?.into_pyobject(py)?.into_any())
}
