//! Source: a public water district's flyer on hauling water. A trailer that holds 900 lb and weighs 250 lb carries
//! 78 gallons at 8.3 lb a gallon.
//!
//! Tolerance: whole gallons, rounded down.

use serde_json::json;
use wainwright::Build;
use wainwright::payload::Payload;
use wainwright::question::ask;

#[test]
fn a_trailer_rated_900_lb_that_weighs_250_lb_carries_78_gallons() {
    let with = |gallons: u32| {
        let build = json!({
            "trailer": {"gvwr_lb": 900, "bare": {"mass_lb": 250}},
            "tanks": {"water": {"fluid": "fresh_water", "capacity_gal": gallons, "density_lb_per_gal": 8.3}},
            "states": {"full": {"fill": {"water": 1}}}
        });
        ask::<Payload>(&Build::from_json(build.to_string().as_bytes()).unwrap()).unwrap()
    };
    let report = with(78);
    assert_eq!(report.label.cargo_capacity_lb, 650.0);
    assert!(report.label.water_lb <= report.label.cargo_capacity_lb);
    let over = |gallons| with(gallons).findings.iter().any(|finding| finding.code == "gross_over_gvwr");
    assert!(!over(78) && over(79));
    assert!(with(79).label.water_lb > report.label.cargo_capacity_lb);
}
