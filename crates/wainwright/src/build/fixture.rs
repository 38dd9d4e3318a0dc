//! A build that is fine, and changes to it, for the tests.

use serde_json::{Value, json};

use super::Build;
use crate::document::{Fault, Refusal};

/// A build without fault that names tanks, cargo, parts, axles and states, and has a site, a stay, a battery, a box, its climate
/// and those in it with all that may be said of them.
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
            "cooler": {"mass_lb": 45, "electrical": {
                "circuit": "lights", "power_w": 50, "weekdays": ["fri", "sat", "sun"], "months": [6, 7, 8],
                "refrigerator": {"inside_f": 39, "kwh_per_day": 0.45, "rated_f": 90},
            }},
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
        "battery": {
            "chemistry": "lifepo4", "capacity_ah": 200, "nominal_v": 12.8, "usable_fraction": 0.9, "series": 4, "parallel": 2,
            "reconnect_soc": 0.2, "cycles": 3000, "cycle_depth": 0.8, "open_circuit_v": 13.3, "charge_v": 14.4,
            "charging": {
                "generator": {
                    "kind": "generator", "part": "converter", "hours_per_day": 2, "weekdays": ["sat", "sun"],
                    "months": [11, 12, 1], "start_soc": 0.3, "stop_soc": 0.8,
                },
                "truck": {"kind": "tow_vehicle", "output_a": 30, "alternator_v": 14, "line_mohm": 50, "hours_per_day": 1},
            },
        },
        "solar": {"arrays": {"roof": {"power_w": 400, "voc_v": 24, "vmp_v": 20, "isc_a": 10, "imp_a": 9}}},
        "site": {
            "latitude_deg": 44.1, "longitude_deg": -121.3, "utc_offset_h": -8,
            "weather": {"monthly": {
                "ghi_kwh_m2_day": [1.7, 2.6, 4.0, 5.3, 6.4, 7.1, 7.4, 6.3, 4.9, 3.1, 1.8, 1.4],
                "mean_f": [31, 34, 40, 46, 54, 61, 69, 68, 60, 49, 38, 31],
            }},
            "cooling_design": {
                "day_of_year": 203, "max_f": 97, "min_f": 64, "dew_point_f": 50, "wind_mph": 6, "linke_turbidity": 3,
            },
            "heating_design": {"dry_bulb_f": 5, "wind_mph": 15},
        },
        "envelope": {
            "surfaces": {
                "roof": {
                    "area_ft2": 98, "facing": "roof", "finish": "white",
                    "layers": [
                        {"material": "aluminum", "thickness_in": 0.03},
                        {"material": "polyiso", "thickness_in": 1.5, "wood_fraction": 0.1},
                        {"r_value": 0.6},
                        {"material": "plywood", "thickness_in": 0.125},
                    ],
                },
                "floor": {"area_ft2": 98, "facing": "floor", "r_value": 6.5, "solar_absorptance": 0.6, "emittance": 0.9},
                "front_wall": {"area_ft2": 45.5, "facing": "front", "r_value": 5.1, "shade_fraction": 0.5},
                "ramp": {"area_ft2": 45.5, "facing": "rear", "r_value": 3, "solar_absorptance": 0.3},
                "left_wall": {"area_ft2": 91, "facing": "left", "r_value": 5.1, "emittance": 0.9},
                "right_wall": {
                    "area_ft2": 91, "facing": "right",
                    "layers": [{"material": "eps", "thickness_in": 1.5}, {"material": "plywood", "thickness_in": 0.125}],
                    "posts": {"material": "steel", "depth_in": 1.5, "spacing_in": 16, "foam_in": 0.5},
                },
            },
            "windows": {
                "left_window": {
                    "area_ft2": 4.2, "facing": "left", "surface": "left_wall", "glazing": "double_acrylic",
                    "u_value": 0.62, "shgc": 0.65, "cover": "curtain",
                },
                "hatch": {"area_ft2": 1.5, "facing": "roof"},
            },
            "volume_ft3": 637, "leakage_in2": 8, "shelter": "light", "shade_fraction": 0.1, "heat_capacity_btu_f": 290,
            "floor_load": {"mass_lb": 690, "specific_heat_btu_lb_f": 0.2, "area_ft2": 60},
        },
        "climate": {
            "cooling": {
                "capacity_btu_h": 8000, "ceer": 11, "setpoint_f": 76, "kind": "window", "sensible_fraction": 0.68,
                "airflow_cfm": 210, "recirculated_fraction": 0.1, "fan_always_on": false, "duct_fraction": 1, "start_hour": 15,
            },
            "heating": {
                "capacity_btu_h": 9300, "setpoint_f": 64, "kind": "propane_vented", "efficiency": 0.78, "night_h": 12,
            },
            "fan": {"airflow_cfm": 900, "screen_fraction": 0.65, "inlet_in2": 200, "limit_f": 86},
            "detail": "hours",
        },
        "occupancy": {
            "people": 2, "activity": "seated", "asleep_from": 22, "asleep_to": 6, "away_from": 9, "away_to": 12,
            "fresh_air_cfm": 15, "cooking": {"btu_per_meal": 2000, "hours": [7, 18]},
        },
        "stay": {"first_day": "10-24", "days": 5, "grey_days": 3, "mode": "off_grid"},
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

/// The faults of the good build with some members changed, as a person reads them: pointer and sentence.
#[track_caller]
pub fn lines_with(changes: &[(&str, Value)]) -> Vec<String> {
    let line = |fault: Fault| format!("{} {}", fault.pointer, fault.detail);
    faults_with(changes).into_iter().map(line).collect()
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
