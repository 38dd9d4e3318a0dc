//! The rules of payload.

use serde_json::json;
use wainwright::payload::Payload;

use super::builds::bare;
use super::twins::{Twins, check, with};

#[test]
fn every_rule_of_payload_is_broken_by_a_build_and_kept_by_its_twin() {
    let weighed = with(bare(), "/states/driven/scale", json!({"total_lb": 3000}));
    let readings = json!({"total_lb": 3000, "tongue_lb": 360, "axles": {"main": 2640}});
    let tanks = json!({"fresh": {"fluid": "fresh_water", "capacity_gal": 10},
        "grey": {"fluid": "grey_water", "capacity_gal": 10}});
    let twins = [
        Twins {
            code: "gross_over_gvwr",
            base: bare(),
            at: "/trailer/gvwr_lb",
            breaks: json!(2999.9),
            keeps: json!(3000),
        },
        Twins {
            code: "unloaded_over_gvwr",
            base: bare(),
            at: "/trailer/gvwr_lb",
            breaks: json!(2999.9),
            keeps: json!(3000),
        },
        // 3,000 lb is 95 % of 3,157.89 lb.
        Twins {
            code: "gross_near_gvwr",
            base: bare(),
            at: "/trailer/gvwr_lb",
            breaks: json!(3157.8),
            keeps: json!(3157.9),
        },
        Twins {
            code: "mass_band_over_gvwr",
            base: bare(),
            at: "/trailer/bare/mass_tolerance_lb",
            breaks: json!(2000.1),
            keeps: json!(2000),
        },
        Twins {
            code: "waste_smaller_than_fresh",
            base: with(bare(), "/tanks", tanks),
            at: "/tanks/grey/capacity_gal",
            breaks: json!(9.9),
            keeps: json!(10),
        },
        // A scale is taken to be good to 20 lb.
        Twins {
            code: "scale_mass_unaccounted",
            base: weighed.clone(),
            at: "/states/driven/scale/total_lb",
            breaks: json!(2979.9),
            keeps: json!(2980),
        },
        // Three readings, each good to 20 lb.
        Twins {
            code: "scale_readings_disagree",
            base: with(bare(), "/states/driven/scale", readings),
            at: "/states/driven/scale/axles/main",
            breaks: json!(2700.1),
            keeps: json!(2700),
        },
        Twins {
            code: "scale_readings_incomplete",
            base: bare(),
            at: "/states/driven/scale",
            breaks: json!({"tongue_lb": 360}),
            keeps: json!({"tongue_lb": 360, "axles": {"main": 2640}}),
        },
        // 1.5 % of 5,000 lb is 75 lb, below 100 lb.
        Twins {
            code: "label_correction_due",
            base: with(bare(), "/parts/bunk", json!({"mass_lb": 75})),
            at: "/parts/bunk/mass_lb",
            breaks: json!(75.1),
            keeps: json!(75),
        },
        Twins {
            code: "gvwr_over_10000",
            base: bare(),
            at: "/trailer/gvwr_lb",
            breaks: json!(10_000.1),
            keeps: json!(10_000),
        },
    ];
    check::<Payload>(&twins);
}
