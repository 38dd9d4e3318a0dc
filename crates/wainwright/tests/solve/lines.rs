//! Payload follows a line in every mass, tank and rating: the value solved is the one worked out by hand.

use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use serde_json::{Value, json};

use super::asked::{holds, solve, with};

/// One input of the build below: its path, how much gross mass each unit of it adds, and the greatest value it takes.
#[derive(Debug, Clone)]
struct Input {
    path: &'static str,
    slope: f64,
    most: f64,
}

#[derive(Debug, Clone)]
struct Case {
    build: Value,
    input: Input,
    /// Gross mass less what the input adds, and the rating.
    rest_lb: f64,
    gvwr_lb: f64,
    limit_lb: f64,
    is_least: bool,
}

fn mass() -> impl Strategy<Value = f64> {
    (1..=40_000_u32).prop_map(|n| f64::from(n) / 8.0)
}

prop_compose! {
    fn case()(
        bare_lb in mass(),
        galley_lb in mass(),
        quantity in 1..=9_u32,
        capacity_gal in 1..=200_u32,
        fill in 1..=8_u32,
        density in 4..=12_u32,
        atv_lb in mass(),
        gvwr_lb in mass(),
        limit_lb in -5_000..=5_000_i32,
        is_least in any::<bool>(),
        which in 0..5_usize,
    ) -> Case {
        let (quantity, fill) = (f64::from(quantity), f64::from(fill) / 8.0);
        let (capacity_gal, density) = (f64::from(capacity_gal), f64::from(density));
        let build = json!({
            "trailer": {"gvwr_lb": gvwr_lb, "bare": {"mass_lb": bare_lb}},
            "parts": {"galley": {"mass_lb": galley_lb, "quantity": quantity}},
            "tanks": {"fresh": {"fluid": "fresh_water", "capacity_gal": capacity_gal, "density_lb_per_gal": density}},
            "cargo": {"atv": {"mass_lb": atv_lb}},
            "states": {"out": {"moving": true, "fill": {"fresh": fill}, "aboard": ["atv"]}},
        });
        let inputs = [
            ("parts.galley.mass_lb", quantity, galley_lb, 100_000.0),
            ("tanks.fresh.capacity_gal", fill * density, capacity_gal, 2_000.0),
            ("cargo.atv.mass_lb", 1.0, atv_lb, 100_000.0),
            ("trailer.bare.mass_lb", 1.0, bare_lb, 100_000.0),
            ("trailer.gvwr_lb", -1.0, gvwr_lb, 1_000_000.0),
        ];
        let gross_lb = bare_lb + quantity * galley_lb + fill * density * capacity_gal + atv_lb;
        let (path, slope, value, most) = inputs[which];
        let rest_lb = if slope < 0.0 { gross_lb } else { gross_lb - slope * value };
        Case { build, input: Input { path, slope, most }, rest_lb, gvwr_lb, limit_lb: limit_lb.into(), is_least }
    }
}

fn settings() -> ProptestConfig {
    ProptestConfig {
        cases: 300,
        failure_persistence: None,
        rng_seed: RngSeed::Fixed(7_701),
        ..ProptestConfig::default()
    }
}

proptest! {
    #![proptest_config(settings())]

    #[test]
    fn the_value_is_the_root_of_the_line(case in case()) {
        let Case { build, input, rest_lb, gvwr_lb, limit_lb, is_least } = case;
        let bound = if is_least { "at_least" } else { "at_most" };
        let target = json!({"figure": "payload.states.out.payload_left_lb", bound: limit_lb});
        let least = if input.path.starts_with("trailer") { 1.0 } else { 0.0 };
        let request = json!({
            "build": build, "vary": input.path, "target": target, "from": least, "to": input.most,
        });
        let report = solve(&request);
        let expected = match input.slope {
            ..0.0 => rest_lb + limit_lb,
            slope => (gvwr_lb - rest_lb - limit_lb) / slope,
        };
        let scale = (rest_lb.abs() + gvwr_lb + limit_lb.abs()) / input.slope.abs();
        // Rounding decides whether a root at an end of the range is within it.
        prop_assume!((expected - least).abs() > 1e-9 * scale && (expected - input.most).abs() > 1e-9 * scale);
        if !(least..=input.most).contains(&expected) {
            prop_assert_eq!(report.value, None);
            prop_assert!(report.reason.is_some());
            return Ok(());
        }
        let value = report.value.unwrap();
        prop_assert!((value - expected).abs() <= 1e-12 * scale, "{} is not {}", value, expected);
        prop_assert_eq!(report.method, Some("linear"));
        let falls = (input.slope > 0.0) == is_least;
        prop_assert_eq!(report.holds, Some(if falls { "at_most" } else { "at_least" }));
        let hair = 1e-11 * scale;
        let outward = if falls { hair } else { -hair };
        prop_assert!(holds(&with(&build, input.path, value), "payload", &target));
        prop_assert!(!holds(&with(&build, input.path, value + outward), "payload", &target));
        prop_assert!(report.evaluations < 60, "{}", report.evaluations);
    }
}
