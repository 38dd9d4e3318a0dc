//! A build that stands within a request.

use serde_json::Value;

use crate::build::Build;
use crate::document::{Faults, Refusal};
use crate::sky::weather_file::WeatherLibrary;

/// Reads and checks the build that stands at a pointer of a request.
///
/// - `json`  the build; null where there is none, for which a fault is noted already
/// - `at`  where it stands in the request
///
/// None where it has faults, which are noted at their places in the request.
pub fn read(json: &Value, at: &str, files: &WeatherLibrary, faults: &mut Faults) -> Option<Build> {
    if json.is_null() {
        return None;
    }
    match Build::from_json_with(json.to_string().as_bytes(), files) {
        Ok(build) => Some(build),
        Err(refusal) => {
            note(refusal, at, faults);
            None
        }
    }
}

/// Notes why the build at a pointer of a request was refused, at its places in the request.
pub fn note(refusal: Refusal, at: &str, faults: &mut Faults) {
    // What was read before is never unreadable.
    if let Refusal::Faults(inner) = refusal {
        faults.add_inner(at, inner);
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    #[test]
    fn faults_of_the_build_stand_at_their_places_in_the_request() {
        let mut faults = Faults::default();
        let files = WeatherLibrary::default();
        let json = json!({"parts": {"galley": {"mass_lb": -1}}, "cargo": 3});
        assert!(read(&json, "/before", &files, &mut faults).is_none());
        let pointers: Vec<_> = faults.list().iter().map(|fault| fault.pointer.as_str()).collect();
        assert_eq!(pointers, ["/before/parts/galley/mass_lb", "/before/cargo"]);
        let mut none = Faults::default();
        assert!(read(&Value::Null, "", &files, &mut none).is_none() && none.is_empty());
        assert!(read(&json!({}), "/after", &files, &mut none).is_some());
    }
}
