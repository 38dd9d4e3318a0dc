//! Random builds with an energy budget, as documents, and their reports.

use proptest::prelude::*;
use proptest::sample::select;
use proptest::test_runner::RngSeed;
use serde_json::{Value, json};
use wainwright::Build;
use wainwright::energy_budget::{EnergyBudget, EnergyBudgetReport};
use wainwright::question::ask;

/// Settings of a property with so many cases, the same ones every time; `PROPTEST_RNG_SEED` gives others.
pub fn cases(cases: u32) -> ProptestConfig {
    let usual = ProptestConfig { cases, failure_persistence: None, ..ProptestConfig::default() };
    match usual.rng_seed {
        RngSeed::Random => ProptestConfig { rng_seed: RngSeed::Fixed(7_700), ..usual },
        RngSeed::Fixed(_) => usual,
    }
}

/// The report of a document.
pub fn report(document: &Value) -> EnergyBudgetReport {
    let build = Build::from_json(document.to_string().as_bytes());
    let build = build.unwrap_or_else(|refusal| panic!("{refusal}\n{document}"));
    ask::<EnergyBudget>(&build).unwrap_or_else(|refusal| panic!("{refusal:?}\n{document}"))
}

/// The build with a value at a pointer, objects made on the way as needed.
pub fn with(mut build: Value, pointer: &str, value: Value) -> Value {
    let mut at = &mut build;
    for key in pointer.split('/').skip(1) {
        at = &mut at[key];
    }
    *at = value;
    build
}

/// Days of June in hours, each as bright as is said: light from 6 to 18 h, 900 W/m² at noon of a day of 1.
pub fn days(brightness: &[f64], air_f: f64) -> Value {
    let of_day = |part: &f64| {
        let part = *part;
        (0..24).map(move |hour| {
            let from_noon = (f64::from(hour) + 0.5 - 12.0) / 6.0;
            (part * 900.0 * (1.0 - from_noon * from_noon)).max(0.0)
        })
    };
    let ghi: Vec<f64> = brightness.iter().flat_map(of_day).collect();
    let air = vec![air_f; ghi.len()];
    json!({"start": "2025-06-10T00:00", "step_min": 60, "ghi_w_m2": ghi, "dry_bulb_f": air})
}

/// A lamp of 10 W on 1,280 Wh that lose nothing, 100 W flat on the roof, four bright days.
pub fn simple() -> Value {
    json!({
        "parts": {"lamp": {"mass_lb": 1, "electrical": {"circuit": "dc", "power_w": 10}}},
        "battery": {"chemistry": "lifepo4", "capacity_ah": 100, "nominal_v": 12.8, "usable_fraction": 0.9,
            "round_trip_efficiency": 1, "self_discharge_fraction": 0, "absorption_h": 0, "thermal_h": 0},
        "solar": {"arrays": {"roof": {"power_w": 100}}},
        "site": {"latitude_deg": 40, "longitude_deg": -105, "weather": {"hourly": days(&[1.0; 4], 77.0)}}
    })
}

fn battery() -> impl Strategy<Value = Value> {
    let figures = (20.0..300.0f64, 0.3..=1.0f64, 0.7..=1.0f64, 0.0..0.3f64, 0.0..3.0f64);
    let chemistry = select(&["flooded", "agm", "gel", "lifepo4"][..]);
    (chemistry, select(&[1, 2, 4][..]), figures, prop::option::of(0.75..0.95f64)).prop_map(
        |(chemistry, blocks, (capacity_ah, usable, round_trip, self_discharge, absorption_h), reconnect)| {
            let block_v = if chemistry == "lifepo4" { 12.8 } else { 12.0 };
            let mut battery = json!({"chemistry": chemistry, "capacity_ah": capacity_ah,
                "nominal_v": block_v * f64::from(blocks), "usable_fraction": usable,
                "round_trip_efficiency": round_trip, "self_discharge_fraction": self_discharge,
                "absorption_h": absorption_h});
            if let Some(soc) = reconnect {
                battery["reconnect_soc"] = json!(soc);
            }
            battery
        },
    )
}

fn generator() -> impl Strategy<Value = Value> {
    (5.0..40.0f64, 1.0..24.0f64, any::<bool>()).prop_map(|(output_a, hours, by_charge)| {
        let mut generator = json!({"kind": "generator", "output_a": output_a, "hours_per_day": hours});
        if by_charge {
            (generator["start_soc"], generator["stop_soc"]) = (json!(0.75), json!(0.9));
        }
        generator
    })
}

fn array() -> impl Strategy<Value = Value> {
    let shade = prop::option::of(prop::collection::vec(0.0..=1.0f64, 24));
    let facing = (0.0..60.0f64, 0.0..360.0f64, any::<bool>());
    (20.0..800.0f64, facing, select(&["open", "close", "insulated"][..]), shade, 0.5..=1.0f64).prop_map(
        |(power_w, (tilt, azimuth, on_ground), mount, shade, sky_view)| {
            let mut array = json!({"power_w": power_w, "tilt_deg": tilt, "azimuth_deg": azimuth, "mount": mount,
                "on_ground": on_ground, "sky_view": sky_view});
            if let Some(shade) = shade {
                array["shade_by_hour"] = json!(shade);
            }
            array
        },
    )
}

/// Days of June of any brightness, as warm as may be.
pub fn sky() -> impl Strategy<Value = Value> {
    (prop::collection::vec(0.0..=1.0f64, 1..6), 0.0..100.0f64)
        .prop_map(|(bright, air_f)| days(&bright, air_f))
}

/// A camper of usual sizes through some days of June: lights, a refrigerator, a kettle; one or two arrays; a generator or
/// none.
pub fn camper() -> impl Strategy<Value = Value> {
    let hours = prop::collection::vec(0.0..=1.0f64, 24);
    let loads = (5.0..60.0f64, hours, 30.0..80.0f64, 0.1..1.0f64);
    let sun = (array(), prop::option::of(array()), prop::option::of(2.0..50.0f64));
    (battery(), loads, sun, sky(), prop::option::of(generator()), 0.0..360.0f64).prop_map(
        |(battery, (lights_w, hours, compressor_w, leak), (roof, side, limit), sky, generator, heading)| {
            let mut build = json!({
                "parts": {
                    "lights": {"mass_lb": 1, "electrical": {"circuit": "dc", "power_w": lights_w, "on_fraction": hours}},
                    "kettle": {"mass_lb": 1, "electrical": {"circuit": "dc", "power_w": 900, "hours_per_day": 0.2}},
                    "fridge": {"mass_lb": 1, "electrical": {"circuit": "dc", "power_w": compressor_w,
                        "refrigerator": {"heat_leak_w_per_k": leak}}}
                },
                "battery": battery,
                "solar": {"arrays": {"roof": roof}},
                "site": {"latitude_deg": 40, "longitude_deg": -105, "heading_deg": heading, "weather": {"hourly": sky}},
                "stay": {"first_hour": 6, "days": 2, "grey_days": 1, "detail": "steps"}
            });
            if let Some(side) = side {
                build["solar"]["arrays"]["side"] = side;
            }
            if let Some(limit_a) = limit {
                build["solar"]["controller"] = json!({"kind": "mppt", "max_output_a": limit_a, "standby_w": 1});
            }
            if let Some(generator) = generator {
                build["battery"]["charging"] = json!({"generator": generator});
            }
            build
        },
    )
}
