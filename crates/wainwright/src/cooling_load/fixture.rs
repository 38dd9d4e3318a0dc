//! A box that is easily worked by hand, for tests.

use serde_json::{Value, json};

use crate::build::Build;

/// A box of 14 by 7 by 6.5 ft at sea level, R 5 on every side, on a clear day of 65 to 95 °F; invented.
pub fn plain() -> Value {
    let surface = |area_ft2: f64, facing: &str| json!({"area_ft2": area_ft2, "facing": facing, "r_value": 5});
    json!({
        "envelope": {"surfaces": {
            "roof": surface(98.0, "roof"),
            "floor": surface(98.0, "floor"),
            "front": surface(45.5, "front"),
            "rear": surface(45.5, "rear"),
            "left": surface(91.0, "left"),
            "right": surface(91.0, "right"),
        }},
        "site": {"latitude_deg": 40, "longitude_deg": -105, "weather": {
            "design_day": {"day_of_year": 202, "max_f": 95, "min_f": 65, "dew_point_f": 50, "linke_turbidity": 3},
        }},
    })
}

/// A document with a value at a pointer, objects made on the way as needed.
pub fn with(mut document: Value, pointer: &str, value: Value) -> Value {
    let mut at = &mut document;
    for key in pointer.split('/').skip(1) {
        at = &mut at[key];
    }
    *at = value;
    document
}

/// The build of a document.
#[track_caller]
pub fn read(document: &Value) -> Build {
    let build = Build::from_json(document.to_string().as_bytes());
    build.unwrap_or_else(|refusal| panic!("{refusal}\n{document}"))
}

/// Asserts that two figures agree but for rounding.
#[track_caller]
pub fn assert_same(one: f64, other: f64) {
    assert!((one - other).abs() <= 1e-9 * one.abs().max(other.abs()).max(1e-9), "{one}, not {other}");
}
