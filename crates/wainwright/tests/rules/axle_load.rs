//! The rules of axle load.

use serde_json::json;
use wainwright::axle_load::AxleLoad;

use super::builds::{bare, sprung, straps, towed, with_toy};
use super::twins::{Twins, check, with};

#[test]
fn every_rule_of_axle_load_is_broken_by_a_build_and_kept_by_its_twin() {
    let nearly_balanced =
        with(towed(), "/trailer/bare", json!({"mass_lb": 3000, "x_in": 196, "length_in": 240}));
    let twins = [
        Twins {
            code: "gross_over_gvwr",
            base: bare(),
            at: "/trailer/gvwr_lb",
            breaks: json!(2999.9),
            keeps: json!(3000),
        },
        Twins {
            code: "axle_over_gawr",
            base: bare(),
            at: "/trailer/axles/main/gawr_lb",
            breaks: json!(2639.9),
            keeps: json!(2640),
        },
        Twins {
            code: "tires_over_load",
            base: bare(),
            at: "/trailer/axles/main/tire_max_load_lb",
            breaks: json!(1319.9),
            keeps: json!(1320),
        },
        Twins {
            code: "tires_below_gawr",
            base: bare(),
            at: "/trailer/axles/main/tire_max_load_lb",
            breaks: json!(1749.9),
            keeps: json!(1750),
        },
        Twins {
            code: "rims_over_load",
            base: bare(),
            at: "/trailer/axles/main/rim_max_load_lb",
            breaks: json!(1319.9),
            keeps: json!(1320),
        },
        Twins {
            code: "coupler_over_rating",
            base: bare(),
            at: "/trailer/coupler/rating_lb",
            breaks: json!(2999.9),
            keeps: json!(3000),
        },
        Twins {
            code: "ball_over_rating",
            base: bare(),
            at: "/trailer/coupler/ball_rating_lb",
            breaks: json!(2999.9),
            keeps: json!(3000),
        },
        Twins {
            code: "ball_mount_over_rating",
            base: bare(),
            at: "/trailer/coupler/ball_mount_rating_lb",
            breaks: json!(2999.9),
            keeps: json!(3000),
        },
        Twins {
            code: "receiver_over_rating",
            base: towed(),
            at: "/tow_vehicle/receiver_rating_lb",
            breaks: json!(2999.9),
            keeps: json!(3000),
        },
        Twins {
            code: "chain_below_gross",
            base: bare(),
            at: "/trailer/chains",
            breaks: json!({"count": 2, "breaking_strength_lb": 2999.9}),
            keeps: json!({"count": 2, "breaking_strength_lb": 3000}),
        },
        Twins {
            code: "tow_rating_exceeded",
            base: towed(),
            at: "/tow_vehicle/tow_rating_lb",
            breaks: json!(2999.9),
            keeps: json!(3000),
        },
        Twins {
            code: "gcwr_exceeded",
            base: towed(),
            at: "/tow_vehicle/gcwr_lb",
            breaks: json!(8499.9),
            keeps: json!(8500),
        },
        Twins {
            code: "coupler_over_max_tongue",
            base: bare(),
            at: "/trailer/coupler/max_tongue_lb",
            breaks: json!(359.9),
            keeps: json!(360),
        },
        Twins {
            code: "ball_mount_over_max_tongue",
            base: bare(),
            at: "/trailer/coupler/ball_mount_max_tongue_lb",
            breaks: json!(359.9),
            keeps: json!(360),
        },
        Twins {
            code: "receiver_over_max_tongue",
            base: towed(),
            at: "/tow_vehicle/receiver_max_tongue_lb",
            breaks: json!(359.9),
            keeps: json!(360),
        },
        Twins {
            code: "tow_front_axle_over_gawr",
            base: towed(),
            at: "/tow_vehicle/front_gawr_lb",
            breaks: json!(2879.9),
            keeps: json!(2880),
        },
        Twins {
            code: "tow_rear_axle_over_gawr",
            base: towed(),
            at: "/tow_vehicle/rear_gawr_lb",
            breaks: json!(2979.9),
            keeps: json!(2980),
        },
        Twins {
            code: "tow_vehicle_over_gvwr",
            base: towed(),
            at: "/tow_vehicle/gvwr_lb",
            breaks: json!(5859.9),
            keeps: json!(5860),
        },
        // The jack carries 360 · 200/(200 - 20) lb.
        Twins {
            code: "jack_over_rating",
            base: bare(),
            at: "/trailer/jack",
            breaks: json!({"x_in": 20, "rating_lb": 399.9}),
            keeps: json!({"x_in": 20, "rating_lb": 400}),
        },
        Twins {
            code: "ramp_over_rating",
            base: with_toy(),
            at: "/bay/ramp_rating_lb",
            breaks: json!(799.9),
            keeps: json!(800),
        },
        // 6 · 0.199759526 · 200 lb · 16 in/(12 in · (0.75 in)²) = 568.205 psi.
        Twins {
            code: "panel_over_stress",
            base: with_toy(),
            at: "/bay/panel_stress_psi",
            breaks: json!(568.2),
            keeps: json!(568.21),
        },
        // 3,000 lb is 95 % of 3,157.89 lb.
        Twins {
            code: "limit_near",
            base: bare(),
            at: "/trailer/gvwr_lb",
            breaks: json!(3157.8),
            keeps: json!(3157.9),
        },
        Twins {
            code: "limit_over_in_some_state",
            base: with(
                bare(),
                "/tanks/brine",
                json!({"fluid": "fresh_water", "capacity_gal": 10, "density_lb_per_gal": 10, "x_in": 200}),
            ),
            at: "/trailer/gvwr_lb",
            breaks: json!(3099.9),
            keeps: json!(3100),
        },
        // 1,320 lb is 90 % of 1,466.67 lb.
        Twins {
            code: "tire_reserve_small",
            base: bare(),
            at: "/trailer/axles/main/tire_max_load_lb",
            breaks: json!(1466.6),
            keeps: json!(1466.7),
        },
        Twins {
            code: "tongue_below_tenth",
            base: bare(),
            at: "/trailer/bare/x_in",
            breaks: json!(180.01),
            keeps: json!(180),
        },
        Twins {
            code: "tongue_above_15_percent",
            base: bare(),
            at: "/trailer/bare/x_in",
            breaks: json!(169.99),
            keeps: json!(170),
        },
        // (360 + 100 · (1 - 300/200))/3100 is a tenth.
        Twins {
            code: "tongue_below_tenth_in_some_state",
            base: with(bare(), "/cargo/box", json!({"mass_lb": 100, "x_in": 200})),
            at: "/cargo/box/x_in",
            breaks: json!(300.1),
            keeps: json!(300),
        },
        // (360 + 100 · (1 + 10/200))/3100 is 15 %.
        Twins {
            code: "tongue_above_15_percent_in_some_state",
            base: with(bare(), "/cargo/box", json!({"mass_lb": 100, "x_in": 200})),
            at: "/cargo/box/x_in",
            breaks: json!(-10.1),
            keeps: json!(-10),
        },
        Twins {
            code: "tongue_pulls_up",
            base: bare(),
            at: "/trailer/bare/x_in",
            breaks: json!(200.01),
            keeps: json!(200),
        },
        Twins {
            code: "axle_lifts",
            base: sprung(),
            at: "/trailer/axles/main/unloaded_height_in",
            breaks: json!(19.66),
            keeps: json!(19.67),
        },
        Twins {
            code: "axle_shares_unknown",
            base: with(bare(), "/trailer/axles/rear", json!({"x_in": 240, "gawr_lb": 3500, "track_in": 80})),
            at: "/trailer/suspension",
            breaks: json!("independent"),
            keeps: json!("equalized"),
        },
        // The front axle loses 360 · 240/144 lb, a fifth of its load.
        Twins {
            code: "steering_light",
            base: towed(),
            at: "/tow_vehicle/ball_overhang_in",
            breaks: json!(240.1),
            keeps: json!(240),
        },
        Twins {
            code: "bars_over_restored",
            base: towed(),
            at: "/tow_vehicle/front_load_restoration",
            breaks: json!(1.01),
            keeps: json!(1),
        },
        // A damping ratio of 0.1 at 112.673 mph, found by halving.
        Twins {
            code: "sway_damping_low",
            base: nearly_balanced,
            at: "/road/sway_speed_mph",
            breaks: json!(112.7),
            keeps: json!(112.6),
        },
        Twins {
            code: "tail_can_drop",
            base: with_toy(),
            at: "/cargo/toy/mass_lb",
            breaks: json!(1600.1),
            keeps: json!(1600),
        },
        // 360 + 1800 · (1 - 240/200) is nothing.
        Twins {
            code: "ball_pulls_up_on_loading",
            base: with_toy(),
            at: "/cargo/toy/mass_lb",
            breaks: json!(1600.1),
            keeps: json!(1600),
        },
        Twins {
            code: "toy_does_not_fit",
            base: with_toy(),
            at: "/bay/clear_width_in",
            breaks: json!(45.9),
            keeps: json!(46),
        },
        Twins {
            code: "toy_fit_tight",
            base: with_toy(),
            at: "/bay/clear_width_in",
            breaks: json!(49.9),
            keeps: json!(50),
        },
        Twins {
            code: "rider_cannot_climb_off",
            base: with_toy(),
            at: "/bay/clear_width_in",
            breaks: json!(85.9),
            keeps: json!(86),
        },
        // 23 in/sin 18° = 74.4296 in.
        Twins {
            code: "ramp_steep",
            base: with_toy(),
            at: "/bay/ramp_length_in",
            breaks: json!(74.42),
            keeps: json!(74.44),
        },
        // 25 in · tan(asin(23/80)/2) = 3.671 in.
        Twins {
            code: "toy_grounds_on_hinge",
            base: with_toy(),
            at: "/cargo/toy/toy/clearance_in",
            breaks: json!(3.67),
            keeps: json!(3.68),
        },
        // A quarter of 1,400 lb is 350 lb.
        Twins {
            code: "floor_needs_spreader",
            base: with_toy(),
            at: "/cargo/toy/mass_lb",
            breaks: json!(1200.1),
            keeps: json!(1200),
        },
        Twins {
            code: "crossmembers_far_apart",
            base: with_toy(),
            at: "/bay/crossmember_spacing_in",
            breaks: json!(24),
            keeps: json!(23.9),
        },
        // 0.698557159 · 200 lb · (16 in)²/(48 · 1.5e6 psi · 20 in · t³/12) is 1/180 at t = 0.37715 in.
        Twins {
            code: "floor_deflects",
            base: with_toy(),
            at: "/bay/panel_thickness_in",
            breaks: json!(0.377),
            keeps: json!(0.3772),
        },
        Twins {
            code: "toy_not_tied_down",
            base: with_toy(),
            at: "/cargo/toy/tie_downs",
            breaks: json!({}),
            keeps: straps(4),
        },
        Twins {
            code: "tie_downs_few",
            base: with_toy(),
            at: "/cargo/toy/tie_downs",
            breaks: straps(3),
            keeps: straps(4),
        },
        Twins {
            code: "tie_downs_below_half_weight",
            base: with_toy(),
            at: "/cargo/toy/mass_lb",
            breaks: json!(600.1),
            keeps: json!(600),
        },
        // 2 · 150 lb · cos 45° is half of 424.26 lb.
        Twins {
            code: "tie_downs_weak",
            base: with_toy(),
            at: "/cargo/toy/mass_lb",
            breaks: json!(424.3),
            keeps: json!(424.2),
        },
        // 2 · 300 lb · cos 45° is 0.8 of 530.33 lb.
        Twins {
            code: "tie_downs_break",
            base: with_toy(),
            at: "/cargo/toy/mass_lb",
            breaks: json!(530.4),
            keeps: json!(530.3),
        },
        Twins {
            code: "gawr_sum_below_gvwr",
            base: bare(),
            at: "/trailer/gvwr_lb",
            breaks: json!(3500.1),
            keeps: json!(3500),
        },
        // At 180 in a tenth is on the tongue.
        Twins {
            code: "tongue_band_wide",
            base: bare(),
            at: "/trailer/bare/x_tolerance_in",
            breaks: json!(4.01),
            keeps: json!(4),
        },
        Twins {
            code: "rating_not_given",
            base: with(
                bare(),
                "/trailer/coupler",
                json!({"ball_height_in": 19, "rating_lb": 5000, "max_tongue_lb": 500}),
            ),
            at: "/trailer/axles/main",
            breaks: json!({"x_in": 200, "gawr_lb": 3500, "track_in": 80}),
            keeps: json!({"x_in": 200, "gawr_lb": 3500, "track_in": 80, "tire_max_load_lb": 1820}),
        },
    ];
    check::<AxleLoad>(&twins);
}
