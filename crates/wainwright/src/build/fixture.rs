//! A build that is fine, and changes to it, for the tests.

use serde_json::{Value, json};

use super::Build;
use crate::document::{Fault, Refusal};

/// A build without fault that names tanks, cargo, parts, axles and states.
pub fn good() -> Value {
    json!({
        "trailer": {
            "gvwr_lb": 7000,
            "bare": {"mass_lb": 2180, "x_in": 150, "mass_tolerance_lb": 20},
            "suspension": "independent",
            "axles": {
                "front": {"x_in": 150, "gawr_lb": 3500, "track_in": 80, "rate_lb_per_in": 1450, "unsprung_lb": 300},
                "rear": {"x_in": 184, "gawr_lb": 3500, "track_in": 80, "rate_lb_per_in": 1450, "unsprung_lb": 300},
            },
            "jack": {"x_in": 8, "rating_lb": 2000},
            "floor": {"front_x_in": 48, "rear_x_in": 240},
            "level": {"ball_height_in": 19, "state": "loaded"},
        },
        "parts": {
            "bench": {"mass_lb": 60},
            "galley": {"mass_lb": 120, "electrical": {"circuit": "outlets", "power_w": 900}},
            "converter": {"mass_lb": 6, "electrical": {"circuit": "charge", "charger": {"output_a": 45, "source": "bank"}}},
        },
        "tanks": {"fresh": {"fluid": "fresh_water", "capacity_gal": 20}},
        "cargo": {
            "trail_bike": {"mass_lb": 260, "stand": "bay"},
            "quad": {"mass_lb": 600, "stand": "bay"},
            "gear": {"mass_lb": 90},
        },
        "states": {
            "loaded": {
                "fill": {"fresh": 1},
                "aboard": ["trail_bike", "gear"],
                "scale": {"total_lb": 3000, "axles": {"front": 1200}, "not_installed": ["bench"]},
            },
        },
        "electrical": {
            "sources": {
                "shore": {"kind": "shore", "voltage_v": 120, "rating_a": 30, "legs": 2},
                "inverter": {"kind": "inverter", "voltage_v": 120, "continuous_w": 1500, "circuit": "cable"},
                "bank": {"kind": "battery", "voltage_v": 12.8},
            },
            "circuits": {
                "outlets": {"breaker_a": 15, "leg": "a", "wire": {"awg": "14", "run_ft": 16}},
                "charge": {"breaker_a": 15, "leg": "b", "shares_neutral_with": "outlets"},
                "cable": {"breaker_a": 200},
                "block": {"breaker_a": 60},
                "lights": {"breaker_a": 10, "feeder": "block"},
            },
            "modes": {
                "plugged_in": {"feeds": {"outlets": "shore", "charge": "shore", "block": "bank"}},
                "off_grid": {"feeds": {"outlets": "inverter", "cable": "bank", "block": "bank"}},
            },
        },
        "solar": {"arrays": {"roof": {"power_w": 400, "voc_v": 24, "vmp_v": 20}}},
        "bay": {"front_x_in": 150, "rear_x_in": 240, "deck_height_in": 23, "ramp_length_in": 74},
    })
}

/// The faults of the good build with some members changed.
#[track_caller]
pub fn faults_with(changes: &[(&str, Value)]) -> Vec<Fault> {
    let mut build = good();
    for (pointer, value) in changes {
        let (parent, key) = pointer.rsplit_once('/').unwrap();
        let object = build.pointer_mut(parent).and_then(Value::as_object_mut).unwrap();
        object.insert(key.to_owned(), value.clone());
    }
    match Build::from_json(build.to_string().as_bytes()) {
        Ok(_) => Vec::new(),
        Err(Refusal::Faults(faults)) => faults.list().to_vec(),
        Err(other) => panic!("{other}"),
    }
}

/// The single fault of the good build with some members changed: pointer and sentence.
#[track_caller]
pub fn fault_with(changes: &[(&str, Value)]) -> Fault {
    let mut faults = faults_with(changes);
    assert_eq!(faults.len(), 1, "{faults:?}");
    faults.remove(0)
}

/// Asserts that the good build with one member changed has one contradiction, and what it says.
#[track_caller]
pub fn assert_contradiction(change: &str, value: Value, pointer: &str, detail: &str) {
    let fault = fault_with(&[(change, value)]);
    assert_eq!(fault.code, crate::FaultCode::Contradiction);
    assert_eq!((fault.pointer.as_str(), fault.detail.as_str()), (pointer, detail));
}
