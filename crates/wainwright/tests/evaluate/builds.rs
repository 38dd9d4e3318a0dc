//! Builds for the tests. All are invented.

use serde_json::{Value, json};
use wainwright::Build;
use wainwright::evaluate::{Evaluate, EvaluateReport};
use wainwright::question::Question;

pub const HERON: &str = include_str!("../../../../tests/builds/heron.json");
pub const PIKA: &str = include_str!("../../../../tests/builds/pika.json");
pub const BISON: &str = include_str!("../../../../tests/builds/bison.json");

pub fn read(document: &Value) -> Build {
    Build::from_json(document.to_string().as_bytes()).unwrap_or_else(|refusal| panic!("{refusal}"))
}

pub fn evaluated(document: &Value) -> EvaluateReport {
    Evaluate::answer(&read(document))
}

/// The document with a value at a pointer.
pub fn with(mut document: Value, pointer: &str, value: Value) -> Value {
    let (parent, key) = pointer.rsplit_once('/').unwrap();
    document.pointer_mut(parent).unwrap()[key] = value;
    document
}

/// A box in summer whose air conditioner, refrigerator and lamps all run on one battery, the first through an inverter.
pub fn off_grid() -> Value {
    json!({
        "name": "Wren",
        "parts": {
            "cooler": {"mass_lb": 60, "electrical":
                {"circuit": "outlets", "power_w": 520, "power_factor": 1, "kind": "room_air_conditioner"}},
            "kettle": {"mass_lb": 3, "electrical":
                {"circuit": "outlets", "power_w": 1000, "power_factor": 1, "kind": "resistive", "hours_per_day": 0.6}},
            "fridge": {"mass_lb": 40, "electrical":
                {"circuit": "lights", "power_w": 60, "refrigerator": {"kwh_per_day": 0.6, "inside_f": 38, "rated_f": 90}}},
            "lamps": {"mass_lb": 2, "quantity": 4, "electrical":
                {"circuit": "lights", "power_w": 6, "hours_per_day": 5}},
        },
        "electrical": {
            "sources": {
                "inverter": {"kind": "inverter", "voltage_v": 120, "continuous_w": 2000, "surge_w": 4000, "idle_w": 12, "efficiency": 0.88},
                "bank": {"kind": "battery", "voltage_v": 12.8},
            },
            "circuits": {
                "outlets": {"breaker_a": 20, "wire": {"awg": "12", "run_ft": 10}},
                "lights": {"breaker_a": 15, "wire": {"awg": "12", "run_ft": 10}},
            },
            "modes": {"away": {"feeds": {"outlets": "inverter", "lights": "bank"}}},
        },
        "battery": {"chemistry": "lifepo4", "capacity_ah": 400, "nominal_v": 12.8},
        "solar": {"arrays": {"roof": {"power_w": 800}}},
        "envelope": {
            "surfaces": {
                "roof": {"area_ft2": 112, "facing": "roof", "r_value": 6},
                "floor": {"area_ft2": 112, "facing": "floor", "r_value": 6},
                "front": {"area_ft2": 45, "facing": "front", "r_value": 5},
                "ramp": {"area_ft2": 45, "facing": "rear", "r_value": 3},
                "left": {"area_ft2": 104, "facing": "left", "r_value": 5},
                "right": {"area_ft2": 104, "facing": "right", "r_value": 5},
            },
        },
        "climate": {
            "cooling": {"capacity_btu_h": 6000, "ceer": 11, "setpoint_f": 76},
            "heating": {"capacity_btu_h": 9000, "setpoint_f": 62},
        },
        "occupancy": {"people": 2},
        "site": {"weather": {"place": "golden_co"}},
    })
}
