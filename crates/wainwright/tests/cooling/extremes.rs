//! At the ends of every bound a report has a number wherever one must stand.

use proptest::prelude::*;
use proptest::sample::select;
use serde_json::{Map, Value, json};

use wainwright::question::Answer;

use super::builds::{SIDES, cases, report};

/// What may be null in a report.
const MAY_BE_NULL: [&str; 30] = [
    "held_f",
    "cooling_kwh_per_day",
    "cooler",
    "smallest_btu_h",
    "pull_down",
    "airing",
    "mode",
    "trace",
    "capacity_btu_h",
    "holds_to_f",
    "night_kwh",
    "propane_lb",
    "propane_gal",
    "by_room_area_btu_h",
    "air_h",
    "lining_h",
    "saved_kwh_per_day",
    "coldest_f",
    "floor_load_j_k",
    "floor_load_to_surface_w_k",
    "station_away_mi",
    "value",
    "limit",
    "limit_kind",
    "unit",
    "source",
    "fan_cfm",
    "label_cfm",
    "limit_f",
    "outdoor_limit_f",
];

/// Every place in a report that is null and must not be.
fn nulls(value: &Value, name: &str, found: &mut Vec<String>) {
    match value {
        Value::Null if !MAY_BE_NULL.contains(&name) => found.push(name.to_owned()),
        Value::Array(all) => all.iter().for_each(|one| nulls(one, "an item", found)),
        Value::Object(all) => all.iter().for_each(|(name, one)| nulls(one, name, found)),
        _ => {}
    }
}

/// Asserts what holds of every report.
pub fn assert_sound(build: &Value) -> Result<(), TestCaseError> {
    let report = report(build);
    let mut found = Vec::new();
    nulls(&serde_json::to_value(&report).unwrap(), "", &mut found);
    prop_assert!(found.is_empty(), "{found:?}");
    prop_assert_eq!(report.hours.len(), 24);
    for (place, hour) in report.hours.iter().enumerate() {
        prop_assert_eq!(hour.hour as usize, place);
        prop_assert!((0.0..=1.0 + 1e-12).contains(&hour.run_fraction), "{hour:?}");
        prop_assert!((0.0..=1.0).contains(&hour.humidity_fraction), "{hour:?}");
        prop_assert!(
            hour.sensible_btu_h >= 0.0 && hour.latent_btu_h >= 0.0 && hour.electric_w >= 0.0,
            "{hour:?}"
        );
    }
    prop_assert!(report.heating.load_btu_h >= 0.0 && report.envelope.time_constant_h > 0.0);
    prop_assert!((0.0..=1.0).contains(&report.condensation.humidity_fraction));
    for inside in report.condensation.insides.values() {
        prop_assert!(inside.inside_f >= report.heating.outdoor_f - 1e-9, "{inside:?}");
    }
    for month in &report.months {
        prop_assert!(month.cooling_kwh >= 0.0 && month.heat_kwh >= 0.0 && month.run_h >= 0.0, "{month:?}");
        prop_assert!(
            month.warmest_f >= month.coldest_f && month.warm_h >= 0.0 && month.cold_h >= 0.0,
            "{month:?}"
        );
    }
    for finding in &report.findings {
        prop_assert!(build.pointer(&finding.subject).is_some(), "{finding:?}");
        prop_assert!(
            !matches!((finding.value, finding.limit), (Some(value), Some(limit)) if value == limit),
            "{finding:?}"
        );
    }
    for assumption in &report.assumptions {
        prop_assert!(assumption.pointer.starts_with('/'), "{assumption:?}");
    }
    let mut words = String::new();
    report.write_text(&mut words).unwrap();
    for word in ["NaN", " inf", "None", "Some"] {
        prop_assert!(!words.contains(word), "{words}");
    }
    Ok(())
}

/// A member at one of its ends, or left out.
fn end(values: &'static [f64]) -> impl Strategy<Value = Option<Value>> {
    prop::option::weighted(0.6, select(values).prop_map(|value| json!(value)))
}

fn members(all: Vec<(&'static str, Option<Value>)>) -> Value {
    let given = all.into_iter().filter_map(|(name, value)| Some((name.to_owned(), value?)));
    Value::Object(given.collect::<Map<_, _>>())
}

/// A box of sides all as large, with up to a hundred windows in them.
fn envelope() -> impl Strategy<Value = Value> {
    let surface = (select(&[0.5, 5.0, 100.0][..]), end(&[0.0, 1.0]), end(&[0.0, 1.0]), end(&[0.0, 1.0]));
    let windows = (select(&[0_usize, 1, 100][..]), end(&[0.05, 2.0]), end(&[0.0, 1.0]));
    let size = select(&[0.1, 50.0, 5000.0][..]);
    let rest = (end(&[0.0, 1.0]), end(&[1.0, 50_000.0]), end(&[0.0, 100.0]), end(&[0.0, 1000.0]));
    let load =
        prop::option::of((select(&[0.0, 100_000.0][..]), end(&[0.03, 1.0]), select(&[0.01, 5000.0][..])));
    (size, prop::collection::vec(surface, 6), windows, rest, load).prop_map(
        |(area_ft2, surfaces, (count, u_value, shgc), (shade, capacity, changes, leakage), load)| {
            let of_side = |(side, (r, absorptance, emittance, shade)): (&str, (f64, _, _, _))| {
                let surface = members(vec![
                    ("area_ft2", Some(json!(area_ft2))),
                    ("facing", Some(json!(side))),
                    ("r_value", Some(json!(r))),
                    ("solar_absorptance", absorptance),
                    ("emittance", emittance),
                    ("shade_fraction", shade),
                ]);
                (side.to_owned(), surface)
            };
            let windows = (0..count).map(|index| {
                let window = members(vec![
                    ("area_ft2", Some(json!(f64::max(area_ft2 / 17.0, 0.01)))),
                    ("facing", Some(json!(SIDES[index % 6]))),
                    ("u_value", u_value.clone()),
                    ("shgc", shgc.clone()),
                ]);
                (format!("window{index}"), window)
            });
            let fits = count < 100 || area_ft2 >= 0.2;
            let windows: Map<_, _> = if fits { windows.collect() } else { Map::new() };
            let load = load.map(|(mass, heat, area)| {
                members(vec![
                    ("mass_lb", Some(json!(mass))),
                    ("specific_heat_btu_lb_f", heat),
                    ("area_ft2", Some(json!(area))),
                ])
            });
            members(vec![
                ("surfaces", Some(Value::Object(SIDES.into_iter().zip(surfaces).map(of_side).collect()))),
                ("windows", Some(Value::Object(windows))),
                // Where the box is smaller than any volume may be, its own is taken.
                ("shade_fraction", shade),
                ("heat_capacity_btu_f", capacity),
                ("leakage_in2", leakage.filter(|_| changes.is_none())),
                ("air_changes_per_h", changes),
                ("floor_load", load),
            ])
        },
    )
}

fn climate() -> impl Strategy<Value = Value> {
    let cooling = (
        (select(&[500.0, 8000.0, 100_000.0][..]), end(&[1.0, 50.0]), end(&[35.0, 100.0])),
        (select(&["window", "rooftop", "single_hose"][..]), end(&[0.5, 1.0]), end(&[0.1, 10_000.0])),
        (end(&[0.0, 0.8]), any::<bool>(), end(&[0.05, 1.0]), end(&[0.0, 23.0])),
    );
    let heating = (
        select(&[100.0, 200_000.0][..]),
        select(&["electric", "heat_pump", "propane_vented", "propane_unvented"][..]),
        end(&[0.05, 1.0]),
        end(&[0.0, 24.0]),
    );
    let fan = (select(&[0.0, 10_000.0][..]), end(&[0.1, 1.0]), end(&[1.0, 1000.0]), end(&[35.0, 100.0]));
    let open = (select(&[0.01, 5000.0][..]), end(&[0.0, 96.0]));
    let detail = prop::option::of(select(&["hours", "steps"][..]));
    (
        prop::option::weighted(0.8, cooling),
        prop::option::weighted(0.8, heating),
        prop::option::of(fan),
        prop::option::of(open),
        detail,
    )
        .prop_map(|(cooling, heating, fan, open, detail)| {
            // Nothing can be heated to less than the coldest setpoint there is.
            let coldest = cooling.as_ref().is_some_and(|((_, _, set_f), ..)| *set_f == Some(json!(35.0)));
            let heating = heating.filter(|_| !coldest);
            let cooling = cooling.map(
                |((capacity, ceer, set_f), (kind, sensible, air), (breathed, fan_on, duct, start))| {
                    members(vec![
                        ("capacity_btu_h", Some(json!(capacity))),
                        ("ceer", ceer),
                        ("setpoint_f", set_f),
                        ("kind", Some(json!(kind))),
                        ("sensible_fraction", sensible),
                        ("airflow_cfm", air),
                        ("recirculated_fraction", breathed),
                        ("fan_always_on", Some(json!(fan_on))),
                        ("duct_fraction", duct),
                        ("start_hour", start.map(|hour| json!(hour.as_f64().unwrap() as u32))),
                    ])
                },
            );
            let heating = heating.map(|(capacity, kind, efficiency, night_h)| {
                members(vec![
                    ("capacity_btu_h", Some(json!(capacity))),
                    ("kind", Some(json!(kind))),
                    ("efficiency", efficiency),
                    ("night_h", night_h),
                ])
            });
            let fan = fan.map(|(air, screen, inlet, limit)| {
                members(vec![
                    ("airflow_cfm", Some(json!(air))),
                    ("screen_fraction", screen),
                    ("inlet_in2", inlet),
                    ("limit_f", limit),
                ])
            });
            let open = open
                .map(|(area, height)| members(vec![("area_ft2", Some(json!(area))), ("height_in", height)]));
            members(vec![
                ("cooling", cooling),
                ("heating", heating),
                ("fan", fan),
                ("open_windows", open),
                ("detail", detail.map(|word| json!(word))),
            ])
        })
}

fn occupancy() -> impl Strategy<Value = Value> {
    (select(&[0, 20][..]), end(&[0.0, 10_000.0]), prop::option::of(select(&[0.0, 100_000.0][..]))).prop_map(
        |(people, fresh, cooking)| {
            let cooking = cooking.map(|btu| json!({"btu_per_meal": btu, "hours": [0, 23, 23]}));
            members(vec![("people", Some(json!(people))), ("fresh_air_cfm", fresh), ("cooking", cooking)])
        },
    )
}

/// Any light and any air, step by step: beam and sky that need not go together.
fn weather() -> impl Strategy<Value = Value> {
    const STARTS: [&str; 5] =
        ["2025-01-01T00:00", "2024-02-28T13:17", "2025-12-31T23:00", "2100-12-31T23:59", "2025-07-04T10:20"];
    let step = (
        select(&[0.0, 500.0, 2000.0][..]),
        select(&[0.0, 2000.0][..]),
        select(&[-130.0, 32.0, 77.0, 140.0][..]),
        select(&[-130.0, 60.0, 140.0][..]),
        select(&[0.0, 150.0][..]),
    );
    let members_of = (any::<bool>(), any::<bool>(), any::<bool>());
    (prop::collection::vec(step, 1..40), select(&[60, 30, 15, 1][..]), select(&STARTS[..]), members_of)
        .prop_map(|(steps, step_min, start, (is_split, is_humid, is_windy))| {
            let list =
                |of: fn(&(f64, f64, f64, f64, f64)) -> f64| json!(steps.iter().map(of).collect::<Vec<f64>>());
            members(vec![
                ("start", Some(json!(start))),
                ("step_min", Some(json!(step_min))),
                ("ghi_w_m2", Some(list(|step| step.0))),
                ("dni_w_m2", is_split.then(|| list(|step| step.1))),
                ("dhi_w_m2", is_split.then(|| list(|step| step.0))),
                ("dry_bulb_f", Some(list(|step| step.2))),
                ("dew_point_f", is_humid.then(|| list(|step| step.3.min(step.2)))),
                ("wind_mph", is_windy.then(|| list(|step| step.4))),
            ])
        })
}

fn site() -> impl Strategy<Value = Value> {
    let place =
        (select(&[-90.0, -35.0, 0.0, 40.0, 70.0, 90.0][..]), end(&[-1500.0, 20_000.0]), end(&[0.0, 1.0]));
    let day = prop::option::of((
        select(&[1, 172, 366][..]),
        select(&[-130.0, 90.0, 140.0][..]),
        select(&[0.0, 60.0][..]),
        end(&[1.0, 10.0]),
        end(&[0.0, 150.0]),
    ));
    let night = prop::option::of((select(&[-130.0, 20.0, 140.0][..]), end(&[0.0, 150.0])));
    (place, day, night, weather()).prop_map(|((latitude, elevation, albedo), day, night, weather)| {
        // No night is hotter than the hottest day.
        let night = night.map(|(air_f, wind)| {
            let air_f = day.as_ref().map_or(air_f, |&(_, max_f, ..)| f64::min(air_f, max_f));
            members(vec![("dry_bulb_f", Some(json!(air_f))), ("wind_mph", wind)])
        });
        let day = day.map(|(of_year, max_f, range_f, linke, wind)| {
            members(vec![
                ("day_of_year", Some(json!(of_year))),
                ("max_f", Some(json!(max_f))),
                ("min_f", Some(json!(f64::max(max_f - range_f, -130.0)))),
                ("linke_turbidity", linke),
                ("wind_mph", wind),
            ])
        });
        members(vec![
            ("latitude_deg", Some(json!(latitude))),
            ("longitude_deg", Some(json!(180))),
            ("elevation_ft", elevation),
            ("albedo", albedo),
            ("weather", Some(json!({"hourly": weather}))),
            ("cooling_design", day),
            ("heating_design", night),
        ])
    })
}

proptest! {
    #![proptest_config(cases(768))]

    #[test]
    fn a_report_has_a_number_wherever_one_must_stand(
        envelope in envelope(), climate in prop::option::weighted(0.8, climate()),
        occupancy in prop::option::weighted(0.8, occupancy()), site in site(), watts in select(&[0.0, 100_000.0][..]),
    ) {
        let lamp = json!({"lamp": {"mass_lb": 1, "electrical": {"circuit": "dc", "power_w": watts}}});
        let build = members(vec![("envelope", Some(envelope)), ("climate", climate), ("occupancy", occupancy), ("site", Some(site)), ("parts", Some(lamp))]);
        assert_sound(&build)?;
    }
}
