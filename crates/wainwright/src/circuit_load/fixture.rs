//! Small electrical builds for the tests.

use serde_json::{Value, json};

use crate::build::Build;

/// Reads a build.
#[track_caller]
pub fn read(build: &Value) -> Build {
    Build::from_json(build.to_string().as_bytes()).unwrap_or_else(|refusal| panic!("{refusal:?}"))
}

/// A build of these sources, circuits, modes and loads; what the loads draw, by id.
#[track_caller]
pub fn wired(sources: Value, circuits: Value, modes: Value, loads: Value) -> Build {
    let parts: serde_json::Map<String, Value> = loads
        .as_object()
        .unwrap()
        .iter()
        .map(|(id, draw)| (id.clone(), json!({"mass_lb": 1, "electrical": draw})))
        .collect();
    let electrical = json!({"sources": sources, "circuits": circuits, "modes": modes});
    read(&json!({"parts": parts, "electrical": electrical}))
}

/// Shore power of 30 A, an inverter behind a cable, and a battery.
pub fn sources() -> Value {
    json!({
        "shore": {"kind": "shore", "voltage_v": 120, "rating_a": 30},
        "inverter": {"kind": "inverter", "voltage_v": 120, "continuous_w": 1800, "surge_w": 3600, "idle_w": 20,
                     "efficiency": 0.9, "cutoff_v": 11, "circuit": "cable"},
        "battery": {"kind": "battery", "voltage_v": 12.8},
    })
}
