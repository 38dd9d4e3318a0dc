//! The builds that the twins of circuit load are made from. Invented; figures that are easily worked by hand.

use serde_json::{Value, json};

use super::twins::with;

/// A part on a circuit, with what it draws.
pub fn load(build: Value, id: &str, circuit: &str, draw: Value) -> Value {
    let build = with(build, &format!("/parts/{id}"), json!({"mass_lb": 10, "electrical": draw}));
    with(build, &format!("/parts/{id}/electrical/circuit"), json!(circuit))
}

/// Shore power of 30 A, one circuit behind 15 A, a heater of 6 A fastened in place.
pub fn shore() -> Value {
    let electrical = json!({
        "sources": {"shore": {"kind": "shore", "voltage_v": 120, "rating_a": 30}},
        "circuits": {"galley": {"breaker_a": 15, "device": "breaker"}}
    });
    load(
        json!({"electrical": electrical}),
        "heater",
        "galley",
        json!({"current_a": 6, "kind": "resistive", "continuous": false}),
    )
}

/// The same in 14 AWG, which carries 15 A at terminals of 60 °C and loses 3.14 Ω/kft each way.
pub fn wired() -> Value {
    with(shore(), "/electrical/circuits/galley/wire", json!({"awg": "14", "run_ft": 10}))
}

/// The same with outlets of 15 A, into which the heater is plugged.
pub fn outlets() -> Value {
    let build = with(shore(), "/electrical/circuits/galley/receptacle_a", json!(15));
    with(build, "/parts/heater/electrical/fixed", json!(false))
}

/// So many line-voltage circuits with nothing on them.
pub fn circuits(count: usize) -> Value {
    Value::Object((0..count).map(|i| (format!("circuit_{i}"), json!({"breaker_a": 15}))).collect())
}

/// Two circuits that share a neutral, on a supply of 120/240 V.
pub fn multiwire() -> Value {
    json!({"electrical": {
        "sources": {"shore": {"kind": "shore", "voltage_v": 120, "rating_a": 50, "legs": 2}},
        "circuits": {
            "galley": {"breaker_a": 15, "leg": "a"},
            "bay": {"breaker_a": 15, "leg": "b", "shares_neutral_with": "galley"}
        }
    }})
}

/// A battery at 12 V and one circuit behind a blade fuse of 15 A, with a pump of 6 A that starts at four times that.
/// Its 14 AWG carries 35 A in open air and loses 3.14 Ω/kft each way.
pub fn battery() -> Value {
    let electrical = json!({
        "sources": {"battery": {"kind": "battery", "voltage_v": 12}},
        "circuits": {"pump": {"breaker_a": 15, "device": "blade", "wire": {"awg": "14", "run_ft": 5}}}
    });
    let build = json!({
        "electrical": electrical,
        "battery": {"chemistry": "lifepo4", "capacity_ah": 100, "nominal_v": 12.8, "short_circuit_a": 900}
    });
    let draw =
        json!({"current_a": 6, "kind": "motor", "continuous": false, "inrush_multiple": 4, "inrush_s": 0.1});
    load(build, "pump", "pump", draw)
}

/// An inverter of 1,200 W (10 A) that loses nothing, fed by a battery of 12.8 V and 8 mΩ: it takes 100 A at 12.0 V. A
/// heater of 5 A and a compressor of 4 A that starts at three times that.
pub fn inverter() -> Value {
    let build = json!({
        "electrical": {
            "sources": {
                "battery": {"kind": "battery", "voltage_v": 12.8},
                "inverter": {"kind": "inverter", "voltage_v": 120, "circuit": "feed", "continuous_w": 1200,
                    "surge_w": 2400, "surge_s": 3, "idle_w": 0, "efficiency": 1, "cutoff_v": 11}
            },
            "circuits": {"feed": {"breaker_a": 150, "device": "class_t"}, "galley": {"breaker_a": 20}},
            "modes": {"away": {"feeds": {"feed": "battery", "galley": "inverter"}}}
        },
        "battery": {"chemistry": "lifepo4", "capacity_ah": 100, "nominal_v": 12.8, "resistance_mohm": 8}
    });
    let build = load(
        build,
        "heater",
        "galley",
        json!({"current_a": 5, "kind": "resistive", "continuous": false, "power_factor": 1}),
    );
    load(
        build,
        "compressor",
        "galley",
        json!({"current_a": 4, "kind": "motor", "continuous": false, "inrush_multiple": 3, "power_factor": 1}),
    )
}

/// The same plugged in: shore power feeds a converter of 30 A, and low-voltage lights take 30 A, a demand of
/// 20 + 10/2 = 25 A.
pub fn converter() -> Value {
    let build = with(
        inverter(),
        "/electrical/sources/shore",
        json!({"kind": "shore", "voltage_v": 120, "rating_a": 30}),
    );
    let build = with(build, "/electrical/circuits/converter", json!({"breaker_a": 15}));
    let build = with(build, "/electrical/circuits/lights", json!({"breaker_a": 40, "device": "blade"}));
    let build = with(build, "/electrical/modes/away/feeds/converter", json!("shore"));
    let build = with(build, "/electrical/modes/away/feeds/lights", json!("battery"));
    let build = load(build, "converter", "converter", json!({"charger": {"output_a": 30}}));
    load(build, "lights", "lights", json!({"current_a": 30, "kind": "lighting"}))
}

/// Two strings of one module (24 V and 8 A open and short-circuited, 20 V and 7.5 A at work) on a controller of 40 A:
/// 26.4 V at 5 °F, which is 40 °C below 25 °C; 16 V at 75 °C; 25 A for wire and fuse. 12 AWG carries 25 A at terminals
/// of 75 °C and loses 1.98 Ω/kft each way; toward the battery 10 AWG carries 60 A.
pub fn solar() -> Value {
    let array = json!({"power_w": 300, "voc_v": 24, "isc_a": 8, "vmp_v": 20, "imp_a": 7.5, "parallel": 2,
        "voc_fraction_per_c": -0.0025, "vmp_fraction_per_c": -0.004, "max_series_fuse_a": 20, "breaker_a": 25,
        "wire": {"awg": "12", "run_ft": 10, "terminal_c": 75}});
    let controller = json!({"kind": "mppt", "max_output_a": 40, "max_pv_v": 50, "max_pv_a": 30, "efficiency": 1,
        "breaker_a": 50, "wire": {"awg": "10", "run_ft": 3}});
    let solar =
        json!({"arrays": {"roof": array}, "controller": controller, "lowest_f": 5, "hottest_cell_f": 167});
    with(battery(), "/solar", solar)
}
