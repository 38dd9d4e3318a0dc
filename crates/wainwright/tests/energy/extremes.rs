//! At the ends of every bound a report has a number wherever one must stand.

use proptest::prelude::*;
use proptest::sample::select;
use serde_json::{Map, Value, json};

use super::builds::{cases, report, simple, with};

/// What may be null in a report.
const MAY_BE_NULL: [&str; 24] = [
    "autonomy_h",
    "smallest_array_w",
    "smallest_bank_ah",
    "mode",
    "to_flat_h",
    "worst_autonomy_h",
    "worst_to_flat_h",
    "days_to_recover",
    "stay",
    "worksheet",
    "steps",
    "each_ah",
    "each_v",
    "uneven_string_fraction",
    "bank_parallel",
    "station_away_mi",
    "generator_h",
    "full_again",
    "lasts_h",
    "value",
    "limit",
    "limit_kind",
    "unit",
    "source",
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

/// A member at one of its ends, or left out.
fn end(values: &'static [f64]) -> impl Strategy<Value = Option<Value>> {
    prop::option::weighted(0.6, select(values).prop_map(|value| json!(value)))
}

fn members(all: Vec<(&'static str, Option<Value>)>) -> Value {
    let given = all.into_iter().filter_map(|(name, value)| Some((name.to_owned(), value?)));
    Value::Object(given.collect::<Map<_, _>>())
}

fn battery() -> impl Strategy<Value = Value> {
    let kind = (select(&["flooded", "agm", "gel", "lifepo4"][..]), select(&[0.1, 5.0, 100.0, 100_000.0][..]));
    let shares = (end(&[0.01, 1.0]), end(&[0.05, 1.0]), end(&[0.0, 1.0]), end(&[0.95]));
    let times = (end(&[0.0, 48.0]), end(&[0.0, 48.0]), end(&[0.0, 100_000.0]), end(&[1.0, 240.0]));
    let limits = (end(&[0.1, 10_000.0]), end(&[0.1, 10_000.0]), end(&[1.0, 1.4]), end(&[10.0, 100_000.0]));
    (kind, shares, times, limits, any::<bool>()).prop_map(|(kind, shares, times, limits, has_generator)| {
        let generator = json!({"one": {"kind": "generator", "output_a": 0.1, "hours_per_day": 0}});
        // With a hundredth used the battery is empty above that.
        let reconnect_soc = shares.3.filter(|_| shares.0 != Some(json!(0.01)));
        members(vec![
            ("chemistry", Some(json!(kind.0))),
            ("capacity_ah", Some(json!(kind.1))),
            ("nominal_v", Some(json!(if kind.0 == "lifepo4" { 12.8 } else { 12.0 }))),
            ("usable_fraction", shares.0),
            ("round_trip_efficiency", shares.1),
            ("self_discharge_fraction", shares.2),
            ("reconnect_soc", reconnect_soc),
            ("absorption_h", times.0),
            ("thermal_h", times.1),
            ("heater_w", times.2),
            ("rated_h", times.3),
            ("max_charge_a", limits.0),
            ("max_discharge_a", limits.1),
            ("peukert_exponent", limits.2),
            ("cycles", limits.3),
            ("charging", has_generator.then_some(generator)),
        ])
    })
}

fn array() -> impl Strategy<Value = Value> {
    let facing = (end(&[0.0, 90.0]), end(&[-360.0, 0.0, 90.0]));
    let losses = (end(&[0.0, 1.0]), end(&[0.0, 1.0]), end(&[-0.02, 0.0]), end(&[0.0, 1.0]));
    let shade = prop::option::of(prop::collection::vec(select(&[0.0, 0.5, 1.0][..]), 24));
    (select(&[1.0, 400.0, 100_000.0][..]), facing, losses, shade, prop::option::of(select(&[1, 12][..])))
        .prop_map(|(power_w, facing, losses, shade, groups)| {
            members(vec![
                ("power_w", Some(json!(power_w))),
                ("tilt_deg", facing.0),
                ("azimuth_deg", facing.1),
                ("soiling_fraction", losses.0),
                ("loss_fraction", losses.1),
                ("power_fraction_per_c", losses.2),
                ("sky_view", losses.3),
                ("shade_by_hour", shade.map(|shade| json!(shade))),
                ("bypass_groups", groups.map(|groups| json!(groups))),
                ("voc_v", Some(json!(21.6))),
                ("isc_a", Some(json!(6))),
                ("vmp_v", Some(json!(18))),
                ("imp_a", Some(json!(5.56))),
            ])
        })
}

fn part() -> impl Strategy<Value = Value> {
    let boxes = [
        json!({}),
        json!({"inside_f": 65, "kwh_per_day": 100, "rated_f": 66}),
        json!({"inside_f": -40, "heat_leak_w_per_k": 20}),
    ];
    let draws = (select(&[0.0, 1.0, 50.0, 100_000.0][..]), end(&[0.0, 24.0]));
    (draws, prop::option::weighted(0.4, select(boxes.to_vec())), select(&[0, 1, 10_000][..])).prop_map(
        |((power_w, hours), cold_box, quantity)| {
            let draw = members(vec![
                ("circuit", Some(json!("dc"))),
                ("power_w", Some(json!(power_w))),
                ("hours_per_day", hours),
                ("refrigerator", cold_box),
            ]);
            json!({"mass_lb": 1, "quantity": quantity, "electrical": draw})
        },
    )
}

/// Any light and any air, step by step: beam and sky that need not go together.
fn weather() -> impl Strategy<Value = Value> {
    const STARTS: [&str; 4] =
        ["2025-01-01T00:00", "2024-02-28T13:17", "2025-12-31T23:00", "2100-12-31T23:59"];
    let step = (
        select(&[0.0, 500.0, 2000.0][..]),
        select(&[0.0, 2000.0][..]),
        select(&[0.0, 2000.0][..]),
        select(&[-130.0, 32.0, 77.0, 140.0][..]),
    );
    (prop::collection::vec(step, 1..60), select(&[60, 30, 15, 1][..]), select(&STARTS[..]), any::<bool>())
        .prop_map(|(steps, step_min, start, is_split)| {
            let list =
                |of: fn(&(f64, f64, f64, f64)) -> f64| json!(steps.iter().map(of).collect::<Vec<f64>>());
            members(vec![
                ("start", Some(json!(start))),
                ("step_min", Some(json!(step_min))),
                ("ghi_w_m2", Some(list(|s| s.0))),
                ("dni_w_m2", is_split.then(|| list(|s| s.1))),
                ("dhi_w_m2", is_split.then(|| list(|s| s.2))),
                ("dry_bulb_f", Some(list(|s| s.3))),
            ])
        })
}

fn build() -> impl Strategy<Value = Value> {
    let solar = (
        prop::option::weighted(0.8, array()),
        prop::option::of((select(&["mppt", "pwm"][..]), select(&[0.1, 10_000.0][..]), end(&[0.05, 1.0]))),
    );
    let site =
        (select(&[-90.0, -35.0, 0.0, 40.0, 80.0, 90.0][..]), end(&[0.0, 1.0]), end(&[-1500.0, 20_000.0]));
    let stay = (end(&[0.0, 1.0]), end(&[0.0, 1.0]), end(&[-80.0, 60.0, 200.0]), select(&[1, 366][..]));
    let parts = prop::collection::vec(part(), 1..4);
    (battery(), parts, solar, (weather(), site), prop::option::weighted(0.8, stay)).prop_map(
        |(battery, parts, (array, controller), (weather, site), stay)| {
            let parts: Map<_, _> =
                parts.into_iter().enumerate().map(|(i, part)| (format!("part{i}"), part)).collect();
            let controller = controller.map(|(kind, most_a, efficiency)| {
                members(vec![
                    ("kind", Some(json!(kind))),
                    ("max_output_a", Some(json!(most_a))),
                    ("efficiency", efficiency.filter(|_| kind == "mppt")),
                ])
            });
            let solar = members(vec![
                ("arrays", array.map(|array| json!({"roof": array}))),
                ("controller", controller),
            ]);
            let site = members(vec![
                ("latitude_deg", Some(json!(site.0))),
                ("longitude_deg", Some(json!(180))),
                ("albedo", site.1),
                ("elevation_ft", site.2),
                ("weather", Some(json!({"hourly": weather}))),
            ]);
            let stay = stay.map(|(start_soc, unmet, heated_f, days)| {
                members(vec![
                    ("first_hour", Some(json!(0))),
                    ("days", Some(json!(days))),
                    ("grey_days", Some(json!(1))),
                    ("grey_fraction", start_soc.clone()),
                    ("start_soc", start_soc),
                    ("max_unmet_fraction", unmet),
                    ("heated_to_f", heated_f),
                    ("detail", Some(json!("steps"))),
                ])
            });
            members(vec![
                ("parts", Some(Value::Object(parts))),
                ("battery", Some(battery)),
                ("solar", Some(solar)),
                ("site", Some(site)),
                ("stay", stay),
            ])
        },
    )
}

proptest! {
    #![proptest_config(cases(1024))]

    #[test]
    fn a_report_has_a_number_wherever_one_must_stand(build in build()) {
        let report = report(&build);
        let mut found = Vec::new();
        nulls(&serde_json::to_value(&report).unwrap(), "", &mut found);
        prop_assert!(found.is_empty(), "{found:?}");
        for span in report.months.iter().chain([&report.total]) {
            prop_assert!((0.0..=1.0 + 1e-9).contains(&span.lowest_soc), "{span:?}");
            prop_assert!(span.sun_hours_per_day >= 0.0 && span.harvest_kwh >= 0.0, "{span:?}");
            prop_assert!(span.unmet_kwh >= 0.0 && span.spilled_kwh >= 0.0, "{span:?}");
        }
        for finding in &report.findings {
            prop_assert!(build.pointer(&finding.subject).is_some(), "{finding:?}");
            let past = match (finding.value, finding.limit) {
                (Some(value), Some(limit)) => value != limit,
                _ => true,
            };
            prop_assert!(past, "{finding:?}");
        }
        let words = serde_json::to_string(&report.findings).unwrap() + &report.summary;
        prop_assert!(!words.contains("NaN") && !words.contains(" inf"), "{words}");
    }
}

/// Weather that is made, at the ends of its bounds, from pole to pole.
#[test]
fn a_year_that_is_made_has_a_number_wherever_one_must_stand() {
    let forms = [
        json!({"clear_sky": {}}),
        json!({"clear_sky": {"linke_turbidity": 10, "mean_f": vec![-130; 12], "range_f": vec![90; 12]}}),
        json!({"monthly": {"ghi_kwh_m2_day": vec![14; 12], "mean_f": vec![140; 12], "wind_mph": vec![150; 12]}}),
        json!({"monthly": {"ghi_kwh_m2_day": [0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 14], "mean_f": vec![-130; 12]}}),
        json!({"design_day": {"day_of_year": 366, "max_f": 140, "min_f": -130, "linke_turbidity": 1}}),
    ];
    for latitude_deg in [-90.0, -66.6, 0.0, 40.0, 80.0, 90.0] {
        for weather in &forms {
            let site = json!({"latitude_deg": latitude_deg, "longitude_deg": -180, "elevation_ft": 20_000,
                "weather": weather});
            let stay = json!({"days": 366, "grey_days": 366, "detail": "steps"});
            let report = report(&with(with(simple(), "/site", site), "/stay", stay));
            let mut found = Vec::new();
            nulls(&serde_json::to_value(&report).unwrap(), "", &mut found);
            assert!(found.is_empty(), "{latitude_deg} {weather} {found:?}");
            assert!(report.total.harvest_kwh >= 0.0 && report.total.sun_hours_per_day < 14.0);
        }
    }
}
