//! Putting a question, and reading the report.

use serde_json::Value;
use wainwright::Build;
use wainwright::axle_load::{AxleLoad, AxleLoadReport};
use wainwright::payload::{Payload, PayloadReport};
use wainwright::question::ask;

/// The build of a document.
pub fn read(document: &Value) -> Build {
    match Build::from_json(document.to_string().as_bytes()) {
        Ok(build) => build,
        Err(refusal) => panic!("{refusal:?}\n{document}"),
    }
}

/// The answer about axle load.
pub fn axle_load(document: &Value) -> AxleLoadReport {
    ask::<AxleLoad>(&read(document)).unwrap()
}

/// The answer about payload.
pub fn payload(document: &Value) -> PayloadReport {
    ask::<Payload>(&read(document)).unwrap()
}

/// The members of an object, or none.
pub fn members<'v>(document: &'v Value, pointer: &str) -> impl Iterator<Item = (&'v str, &'v Value)> {
    let object = document.pointer(pointer).and_then(Value::as_object);
    object.into_iter().flatten().map(|(key, value)| (key.as_str(), value))
}

/// A number, or none.
pub fn number(document: &Value, pointer: &str) -> Option<f64> {
    document.pointer(pointer).and_then(Value::as_f64)
}
