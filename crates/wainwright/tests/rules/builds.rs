//! The builds that twins are made from. Invented; figures that are easily worked by hand.

use serde_json::{Value, json};

use super::twins::with;

/// 3,000 lb on one axle: 360 lb on the tongue (12 %), 2,640 lb on the axle, 1,320 lb on each side.
pub fn bare() -> Value {
    json!({
        "trailer": {
            "gvwr_lb": 5000,
            "bare": {"mass_lb": 3000, "x_in": 176},
            "axles": {"main": {"x_in": 200, "gawr_lb": 3500, "track_in": 80}},
            "coupler": {"ball_height_in": 19}
        },
        "states": {"driven": {}}
    })
}

/// The same behind a tow vehicle of 5,500 lb, whose axles then carry 2,880 and 2,980 lb.
pub fn towed() -> Value {
    with(
        bare(),
        "/tow_vehicle",
        json!({"front_axle_lb": 3000, "rear_axle_lb": 2500, "wheelbase_in": 144, "ball_overhang_in": 48}),
    )
}

/// The same with two independent axles; the front one lifts when its free height is below 19 2/3 in.
///
/// Lifted, the rear axle carries 3000 · 176/240 = 2,200 lb: it is deflected 2.2 in of 3, which leaves a slope of
/// 0.8/240 and 2/3 in of height above the ball at the front axle.
pub fn sprung() -> Value {
    let axle = |x: f64, height: f64| json!({"x_in": x, "gawr_lb": 3500, "track_in": 80, "rate_lb_per_in": 1000, "unloaded_height_in": height});
    let sprung = with(bare(), "/trailer/suspension", json!("independent"));
    with(sprung, "/trailer/axles", json!({"main": axle(200.0, 22.0), "rear": axle(240.0, 22.0)}))
}

/// The same with a floor, a bay and a toy right over the axle: 600 lb and a rider of 200 lb, 200 lb under each wheel.
/// 1,800 lb at the hinge would lift the jack: 360 · 200/(240 - 200).
pub fn with_toy() -> Value {
    let build = with(bare(), "/trailer/floor", json!({"front_x_in": 60, "rear_x_in": 240}));
    let build = with(build, "/states/driven/aboard", json!(["toy"]));
    let build = with(
        build,
        "/bay",
        json!({"front_x_in": 130, "rear_x_in": 240, "clear_width_in": 90, "deck_height_in": 23, "ramp_length_in": 80,
            "crossmember_spacing_in": 16, "panel_thickness_in": 0.75}),
    );
    let toy = json!({"length_in": 80, "width_in": 46, "height_in": 47, "wheelbase_in": 50, "front_fraction": 0.5,
        "wheels_per_axle": 2, "tire_width_in": 8, "rider_lb": 200});
    with(build, "/cargo/toy", json!({"mass_lb": 600, "x_in": 200, "toy": toy, "tie_downs": straps(4)}))
}

/// So many flat straps at 45°: 150 lb of working load limit, 300 lb of breaking strength each.
pub fn straps(count: usize) -> Value {
    let corners = [("forward", "left"), ("rearward", "right"), ("forward", "right"), ("rearward", "left")];
    let strap = |(pulls, side): (&str, &str)| {
        json!({"wll_lb": 150, "breaking_strength_lb": 300, "floor_angle_deg": 0, "axis_angle_deg": 45, "pulls": pulls,
            "side": side})
    };
    let straps =
        corners.into_iter().take(count).map(|corner| (format!("{}_{}", corner.0, corner.1), strap(corner)));
    Value::Object(straps.collect())
}
