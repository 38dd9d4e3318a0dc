//! The builds that the twins of the energy budget are made from. Invented; figures that are easily worked by hand.

use serde_json::{Value, json};

use super::twins::with;

/// Hours of even weather from the first of January on: light of the whole sky alone, and air of 77 °F.
pub fn hours(count: usize, ghi_w_m2: f64) -> Value {
    let all = |value: f64| json!(vec![value; count]);
    json!({"start": "2025-01-01T00:00", "step_min": 60, "ghi_w_m2": all(ghi_w_m2), "dni_w_m2": all(0.0),
        "dhi_w_m2": all(ghi_w_m2), "dry_bulb_f": all(77.0), "wind_mph": all(0.0)})
}

/// A lamp of 10 W that burns through two dark days on a battery that loses nothing: 1,280 Wh, of which 0.9 are used. Of
/// its circuits nothing is said, so that the battery feeds all of them.
pub fn dark() -> Value {
    json!({
        "parts": {"lamp": {"mass_lb": 1, "electrical": {"circuit": "dc", "power_w": 10}}},
        "battery": {"chemistry": "lifepo4", "capacity_ah": 100, "nominal_v": 12.8, "usable_fraction": 0.9,
            "round_trip_efficiency": 1, "self_discharge_fraction": 0, "absorption_h": 0, "thermal_h": 0},
        "site": {"latitude_deg": 40, "longitude_deg": -105, "weather": {"hourly": hours(48, 0.0)}}
    })
}

/// The same on a lead-acid battery of 1,200 Wh.
pub fn lead() -> Value {
    let build = with(dark(), "/battery/chemistry", json!("agm"));
    with(build, "/battery/nominal_v", json!(12))
}

/// The same through eight hours of even light, from 8 to 16 h, on 100 W flat on the roof.
pub fn lit() -> Value {
    let build = with(dark(), "/site/weather/hourly", hours(8, 500.0));
    let build = with(build, "/site/weather/hourly/start", json!("2025-01-01T08:00"));
    let array = json!({"power_w": 100, "loss_fraction": 0, "power_fraction_per_c": 0});
    let controller = json!({"kind": "mppt", "max_output_a": 40, "efficiency": 1});
    with(build, "/solar", json!({"arrays": {"roof": array}, "controller": controller}))
}

/// The same with an inverter of its own draw, which feeds a load of 8 W, beside shore power in another mode.
pub fn inverted() -> Value {
    let electrical = json!({
        "sources": {
            "bank": {"kind": "battery", "voltage_v": 12.8},
            "inverter": {"kind": "inverter", "voltage_v": 120, "idle_w": 2, "efficiency": 1},
            "shore": {"kind": "shore", "voltage_v": 120}
        },
        "circuits": {"dc": {}, "ac": {}},
        "modes": {"away": {"feeds": {"ac": "inverter"}}, "home": {"feeds": {"ac": "shore", "dc": "bank"}}}
    });
    let build = with(dark(), "/electrical", electrical);
    with(build, "/parts/radio", json!({"mass_lb": 1, "electrical": {"circuit": "ac", "power_w": 8}}))
}

/// A day of weather of a station at 36.1° north and 79.95° west, as an EPW file.
pub fn file() -> String {
    let mut text = "LOCATION,Heron Flats,NC,USA,invented,000000,36.10,-79.95,-5.0,273.0\n\
        DESIGN CONDITIONS,0\nTYPICAL/EXTREME PERIODS,0\nGROUND TEMPERATURES,0\nHOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0\n\
        COMMENTS 1,invented figures\nCOMMENTS 2,none\nDATA PERIODS,1,1,Data,Sunday, 6/ 1, 6/ 1\n"
        .to_owned();
    for hour in 1..=24 {
        text.push_str(&format!(
            "1990,6,1,{hour},60,?9?9,20,10,70,98000,0,0,300,0,0,0,0,0,0,0,180,2,5,5,20,77777,9,999999999,15,0.1,0,88,0.2,0,0\n"
        ));
    }
    text
}
