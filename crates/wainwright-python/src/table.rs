//! Questions and operations by name.

use std::sync::LazyLock;

use pyo3::prelude::*;
use wainwright::operation::{self, ForEachOperation, for_each_operation};
use wainwright::question::{self, Answer, ForEachQuestion, ask, for_each_question};
use wainwright::{Build, NamedFiles, Refusal};

use crate::{refused, to_python};

/// Every question, in the order of the documentation.
pub static QUESTIONS: LazyLock<Vec<Question>> = LazyLock::new(|| {
    let mut list = List(Vec::new());
    for_each_question(&mut list);
    list.0
});

/// Every operation, in the order of the documentation.
pub static OPERATIONS: LazyLock<Vec<Operation>> = LazyLock::new(|| {
    let mut list = OperationList(Vec::new());
    for_each_operation(&mut list);
    list.0
});

/// One operation, its type left behind.
pub struct Operation {
    /// Its name.
    pub name: &'static str,
    /// Its answer to the JSON of a request, as a dict.
    pub answer: for<'py> fn(Python<'py>, &[u8], &NamedFiles) -> PyResult<Bound<'py, PyAny>>,
}

struct OperationList(Vec<Operation>);

impl ForEachOperation for OperationList {
    fn operation<O: operation::Operation>(&mut self) {
        self.0.push(Operation { name: O::NAME, answer: operate::<O> });
    }
}

/// Other Python threads run while the answer is worked out.
fn operate<'py, O: operation::Operation>(
    py: Python<'py>,
    json: &[u8],
    named_files: &NamedFiles,
) -> PyResult<Bound<'py, PyAny>> {
    let answer = py.detach(|| O::answer(json, named_files)).map_err(|refusal| refused(py, &refusal))?;
    to_python(py, &answer)
}

/// One question, its type left behind.
pub struct Question {
    /// Its name.
    pub name: &'static str,
    /// Its answer, as a dict.
    pub answer: for<'py> fn(Python<'py>, &Build) -> PyResult<Bound<'py, PyAny>>,
    /// Its answer, as text for people.
    pub text: fn(&Build) -> Result<String, Refusal>,
}

struct List(Vec<Question>);

impl ForEachQuestion for List {
    fn question<Q: question::Question>(&mut self) {
        self.0.push(Question { name: Q::NAME, answer: answer::<Q>, text: text::<Q> });
    }
}

/// Other Python threads run while the answer is worked out.
fn answer<'py, Q: question::Question>(py: Python<'py>, build: &Build) -> PyResult<Bound<'py, PyAny>> {
    let report = py.detach(|| ask::<Q>(build)).map_err(|refusal| refused(py, &refusal))?;
    to_python(py, &report)
}

fn text<Q: question::Question>(build: &Build) -> Result<String, Refusal> {
    let mut text = String::new();
    // Writing to a string cannot fail.
    _ = ask::<Q>(build)?.write_text(&mut text);
    Ok(text)
}
