//! From Rust to Python: values, and refusals as `BuildError`.

use pyo3::import_exception;
use pyo3::prelude::*;
use serde::Serialize;
use wainwright::Refusal;

import_exception!(wainwright, BuildError);

/// The value as plain Python objects. Floats are handed over as they are, never through text.
pub fn to_python<'py>(py: Python<'py>, value: &impl Serialize) -> PyResult<Bound<'py, PyAny>> {
    Ok(serde_pyobject::to_pyobject(py, value)?)
}

/// The refusal as `wainwright.BuildError`.
pub fn refused(py: Python<'_>, refusal: &Refusal) -> PyErr {
    match arguments(py, refusal) {
        Ok(arguments) => BuildError::new_err(arguments),
        Err(error) => error,
    }
}

/// The arguments of `BuildError`: the list of faults, and how many more there were.
fn arguments(py: Python<'_>, refusal: &Refusal) -> PyResult<(Py<PyAny>, usize)> {
    let (errors, left_out) = match refusal {
        Refusal::Faults(faults) => (to_python(py, &faults.list())?, faults.left_out()),
        Refusal::Unreadable { detail, line, column, .. } => {
            let fault = Unreadable { pointer: "", code: "unreadable", detail, line: *line, column: *column };
            (to_python(py, &[fault].as_slice())?, 0)
        }
        Refusal::TooMuchWork { detail, work, limit } => {
            let fault =
                TooMuchWork { pointer: "", code: "too_much_work", detail, work: *work, limit: *limit };
            (to_python(py, &[fault].as_slice())?, 0)
        }
    };
    Ok((errors.unbind(), left_out))
}

/// A document that is not JSON, in the form of a fault.
#[derive(Serialize)]
struct Unreadable<'a> {
    pointer: &'static str,
    code: &'static str,
    detail: &'a str,
    line: usize,
    column: usize,
}

/// A request that would take too much work, in the form of a fault.
#[derive(Serialize)]
struct TooMuchWork<'a> {
    pointer: &'static str,
    code: &'static str,
    detail: &'a str,
    work: u64,
    limit: u64,
}
