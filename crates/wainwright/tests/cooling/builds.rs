//! Random boxes as documents, and their reports.

use proptest::prelude::*;
use proptest::sample::select;
use proptest::test_runner::RngSeed;
use serde_json::{Map, Value, json};
use wainwright::Build;
use wainwright::cooling_load::{CoolingLoad, CoolingLoadReport};
use wainwright::question::ask;

/// The faces of a box.
pub const SIDES: [&str; 6] = ["roof", "floor", "front", "rear", "left", "right"];

/// Settings of a property with so many cases, the same ones every time; `PROPTEST_RNG_SEED` gives others.
pub fn cases(cases: u32) -> ProptestConfig {
    let usual = ProptestConfig { cases, failure_persistence: None, ..ProptestConfig::default() };
    match usual.rng_seed {
        RngSeed::Random => ProptestConfig { rng_seed: RngSeed::Fixed(9_500), ..usual },
        RngSeed::Fixed(_) => usual,
    }
}

/// The build of a document.
pub fn read(document: &Value) -> Build {
    let build = Build::from_json(document.to_string().as_bytes());
    build.unwrap_or_else(|refusal| panic!("{refusal}\n{document}"))
}

/// The report of a document.
pub fn report(document: &Value) -> CoolingLoadReport {
    ask::<CoolingLoad>(&read(document)).unwrap_or_else(|refusal| panic!("{refusal:?}\n{document}"))
}

/// The document with a value at a pointer, objects made on the way as needed.
pub fn with(mut document: Value, pointer: &str, value: Value) -> Value {
    let mut at = &mut document;
    for key in pointer.split('/').skip(1) {
        at = &mut at[key];
    }
    *at = value;
    document
}

/// A number of a document.
pub fn number(document: &Value, pointer: &str) -> f64 {
    document.pointer(pointer).and_then(Value::as_f64).unwrap()
}

/// Where the box says how much it holds back on a side.
pub fn r_value(side: &str) -> String {
    format!("/envelope/surfaces/{side}/r_value")
}

/// Area of each side of a box so long, wide and high, in the order of [`SIDES`].
pub fn areas(length_ft: f64, width_ft: f64, height_ft: f64) -> [f64; 6] {
    let (level, end, side) = (length_ft * width_ft, width_ft * height_ft, length_ft * height_ft);
    [level, level, end, end, side, side]
}

/// A box of sides alone: their areas, and R and solar absorptance of each.
pub fn sides(areas_ft2: [f64; 6], r_values: [f64; 6], absorptances: [f64; 6]) -> Value {
    let surface = |index: usize| {
        let surface = json!({"area_ft2": areas_ft2[index], "facing": SIDES[index], "r_value": r_values[index],
            "solar_absorptance": absorptances[index]});
        (SIDES[index].to_owned(), surface)
    };
    json!({"surfaces": (0..6).map(surface).collect::<Map<_, _>>()})
}

/// Hours in the dark, all of one temperature.
pub fn dark(hours: usize, air_f: f64) -> Value {
    json!({"start": "2025-07-20T00:00", "step_min": 60, "ghi_w_m2": vec![0.0; hours], "dry_bulb_f": vec![air_f; hours]})
}

/// Days of July in hours, from the coldest at 3 h to the warmest at 15 h, 900 W/m² at noon.
pub fn days(count: usize, min_f: f64, max_f: f64) -> Value {
    let of_hour = |hour: usize| {
        let from_noon = ((hour % 24) as f64 + 0.5 - 12.0) / 7.0;
        let turn = ((hour % 24) as f64 - 15.0) / 12.0 * std::f64::consts::PI;
        let air_f = (min_f + max_f) / 2.0 + (max_f - min_f) / 2.0 * turn.cos();
        ((900.0 * (1.0 - from_noon * from_noon)).max(0.0), air_f)
    };
    let (ghi, air): (Vec<f64>, Vec<f64>) = (0..24 * count).map(of_hour).unzip();
    json!({"start": "2025-07-20T00:00", "step_min": 60, "ghi_w_m2": ghi, "dry_bulb_f": air})
}

/// Boxes of any usual size, insulation and color, without windows.
pub fn shell() -> impl Strategy<Value = Value> {
    let six = |range: std::ops::Range<f64>| prop::array::uniform6(range);
    ((5.0..28.0f64, 4.0..8.5f64, 4.0..8.0f64), six(1.0..25.0), six(0.1..0.95)).prop_map(
        |((length, width, height), r, absorptance)| sides(areas(length, width, height), r, absorptance),
    )
}

fn windows() -> impl Strategy<Value = Vec<Value>> {
    let glazing =
        select(&["single_glass", "double_glass", "single_acrylic", "double_acrylic", "white_acrylic"][..]);
    let cover = select(&["none", "curtain", "reflective_film", "foil_panel"][..]);
    let window = (select(&SIDES[..]), 0.1..4.0f64, glazing, 0.2..1.2f64, 0.1..0.9f64, cover);
    prop::collection::vec(window, 0..5).prop_map(|all| {
        let of = |(side, area_ft2, glazing, u_value, shgc, cover)| {
            json!({"area_ft2": area_ft2, "facing": side, "glazing": glazing, "u_value": u_value, "shgc": shgc, "cover": cover})
        };
        all.into_iter().map(of).collect()
    })
}

fn occupancy() -> impl Strategy<Value = Value> {
    let hours = (0..24u32, 0..24u32, 0..12u32, 12..24u32);
    (0..5u32, hours, prop::option::of(0.0..40.0f64), any::<bool>()).prop_map(
        |(people, (asleep_from, asleep_to, away_from, away_to), fresh_cfm, cooks)| {
            let mut all = json!({"people": people, "asleep_from": asleep_from, "asleep_to": asleep_to,
                "away_from": away_from, "away_to": away_to});
            if let Some(fresh_cfm) = fresh_cfm {
                all["fresh_air_cfm"] = json!(fresh_cfm);
            }
            if cooks {
                all["cooking"] = json!({"btu_per_meal": 2000, "hours": [7, 18]});
            }
            all
        },
    )
}

/// What cools and heats.
fn climate() -> impl Strategy<Value = Value> {
    let shares = (0.0..0.3f64, 0.8..=1.0f64, any::<bool>());
    (3000.0..20_000.0f64, 68.0..80.0f64, shares, 2000.0..20_000.0f64).prop_map(
        |(capacity, cool_f, (recirculated, duct, fan_on), heat)| {
            json!({
                "cooling": {"capacity_btu_h": capacity, "setpoint_f": cool_f, "recirculated_fraction": recirculated,
                    "duct_fraction": duct, "fan_always_on": fan_on},
                "heating": {"capacity_btu_h": heat, "setpoint_f": cool_f - 8.0, "kind": "electric"}
            })
        },
    )
}

/// Places of the contiguous United States, a hot day and a cold night there, and three days of weather.
pub fn site() -> impl Strategy<Value = Value> {
    let place = (25.0..48.0f64, -124.0..-70.0f64, 0.0..8000.0f64, 0.0..360.0f64);
    let day = (140..250u32, 85.0..115.0f64, 2.0..35.0f64, 0.0..20.0f64, prop::option::of(0.0..15.0f64));
    (place, day, -30.0..50.0f64).prop_map(
        |((latitude, longitude, elevation, heading), (day_of_year, max_f, range_f, drop_f, wind), night_f)| {
            let mut day = json!({"day_of_year": day_of_year, "max_f": max_f, "min_f": max_f - range_f,
                "dew_point_f": max_f - range_f - drop_f});
            if let Some(wind_mph) = wind {
                day["wind_mph"] = json!(wind_mph);
            }
            json!({"latitude_deg": latitude, "longitude_deg": longitude, "elevation_ft": elevation, "heading_deg": heading,
                "weather": {"hourly": days(2, max_f - range_f, max_f)}, "cooling_design": day,
                "heating_design": {"dry_bulb_f": night_f}})
        },
    )
}

/// A box that is lived in: windows, gaps, people, lamps, what stands on its floor, an air conditioner and a heater.
pub fn camper() -> impl Strategy<Value = Value> {
    let gaps = prop_oneof![
        (0.0..4.0f64).prop_map(|changes| ("air_changes_per_h", changes)),
        (0.0..40.0f64).prop_map(|inches| ("leakage_in2", inches)),
    ];
    let held = (60.0..1500.0f64, prop::option::of((50.0..2000.0f64, 5.0..80.0f64)));
    let lamp = prop::collection::vec(0.0..=1.0f64, 24);
    (shell(), windows(), (gaps, held, 0.0..0.7f64), occupancy(), lamp, climate(), site()).prop_map(
        |(
            mut envelope,
            windows,
            ((gap, amount), (capacity, load), shade),
            occupancy,
            hours,
            climate,
            site,
        )| {
            let named =
                windows.into_iter().enumerate().map(|(index, window)| (format!("window{index}"), window));
            envelope["windows"] = Value::Object(named.collect());
            envelope[gap] = json!(amount);
            envelope["heat_capacity_btu_f"] = json!(capacity);
            envelope["shade_fraction"] = json!(shade);
            if let Some((mass_lb, area_ft2)) = load {
                envelope["floor_load"] = json!({"mass_lb": mass_lb, "area_ft2": area_ft2});
            }
            let lamp = json!({"circuit": "dc", "power_w": 60, "on_fraction": hours});
            json!({"envelope": envelope, "climate": climate, "occupancy": occupancy, "site": site,
                "parts": {"lamp": {"mass_lb": 1, "electrical": lamp}}})
        },
    )
}

/// A box without windows and without gains, on a day that is hotter through all its hours than it is held: every face brings
/// heat in every hour.
pub fn hot_shell() -> impl Strategy<Value = Value> {
    let day = (140..250u32, 95.0..125.0f64, 0.0..10.0f64);
    (shell(), site(), day, 70.0..76.0f64, 0.0..3.0f64).prop_map(
        |(mut envelope, site, (day_of_year, max_f, range_f), cool_f, changes)| {
            envelope["air_changes_per_h"] = json!(changes);
            let day = json!({"day_of_year": day_of_year, "max_f": max_f, "min_f": max_f - range_f, "dew_point_f": 40});
            let site = with(site, "/cooling_design", day);
            json!({"envelope": envelope, "site": site, "climate": {"cooling": {"capacity_btu_h": 12_000, "setpoint_f": cool_f}}})
        },
    )
}
