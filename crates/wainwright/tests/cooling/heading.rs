//! Turning the box turns its faces, and nothing else.

use proptest::prelude::*;
use serde_json::{Value, json};
use wainwright::cooling_load::{CoolingLoadReport, HourLoad};

use super::builds::{areas, camper, cases, days, report, sides, with};

/// The camper in a box whose opposite sides are alike.
fn symmetric(
    camper: Value,
    length_ft: f64,
    width_ft: f64,
    height_ft: f64,
    r: [f64; 3],
    look: [f64; 3],
) -> Value {
    let pair = |of: [f64; 3]| [of[0], of[0], of[1], of[1], of[2], of[2]];
    let mut envelope = sides(areas(length_ft, width_ft, height_ft), pair(r), pair(look));
    envelope["windows"] = json!({
        "one": {"area_ft2": 3, "facing": "left", "glazing": "double_glass"},
        "two": {"area_ft2": 3, "facing": "right", "glazing": "double_glass"},
        "three": {"area_ft2": 2, "facing": "front", "glazing": "single_glass"},
        "four": {"area_ft2": 2, "facing": "rear", "glazing": "single_glass"},
    });
    envelope["air_changes_per_h"] = json!(1);
    with(camper, "/envelope", envelope)
}

fn turned(build: &Value, heading_deg: f64) -> CoolingLoadReport {
    report(&with(build.clone(), "/site/heading_deg", json!(heading_deg)))
}

/// Heat through front, right, rear and left.
fn walls(hour: &HourLoad) -> [f64; 4] {
    let parts = &hour.parts;
    [parts.front_btu_h, parts.right_btu_h, parts.rear_btu_h, parts.left_btu_h]
}

/// All of an hour that has no side.
fn rest(hour: &HourLoad) -> [f64; 12] {
    let parts = &hour.parts;
    [
        parts.roof_btu_h,
        parts.floor_btu_h,
        parts.windows_btu_h,
        parts.sun_btu_h,
        parts.air_btu_h,
        parts.people_btu_h,
        parts.equipment_btu_h,
        parts.stored_btu_h,
        hour.load_btu_h,
        hour.electric_w,
        hour.uncooled_f,
        hour.indoor_f,
    ]
}

/// Asserts that turning by quarters carries each wall to the next so many and leaves the rest as it is.
fn assert_turned(
    before: &CoolingLoadReport,
    after: &CoolingLoadReport,
    quarters: usize,
) -> Result<(), TestCaseError> {
    let scale = before.peak.total_btu_h.max(100.0);
    for (one, other) in before.hours.iter().zip(&after.hours) {
        for (place, heat) in walls(one).into_iter().enumerate() {
            // What looked a way before is looked at by the wall that was as many quarters behind it.
            let other = walls(other)[(place + 4 - quarters) % 4];
            prop_assert!((heat - other).abs() < 1e-9 * scale, "{heat} {other}");
        }
        for (one, other) in rest(one).into_iter().zip(rest(other)) {
            prop_assert!((one - other).abs() < 1e-9 * scale, "{one} {other}");
        }
    }
    prop_assert!((before.peak.total_btu_h - after.peak.total_btu_h).abs() < 1e-9 * scale);
    prop_assert_eq!(before.smallest_btu_h, after.smallest_btu_h);
    Ok(())
}

proptest! {
    #![proptest_config(cases(48))]

    #[test]
    fn half_a_turn_of_a_symmetric_box_swaps_its_faces(
        camper in camper(), (length_ft, width_ft, height_ft) in (6.0..24.0f64, 4.0..8.5f64, 4.0..8.0f64),
        r in prop::array::uniform3(1.0..20.0f64), look in prop::array::uniform3(0.1..0.9f64), heading_deg in 0.0..180.0f64,
    ) {
        let build = symmetric(camper, length_ft, width_ft, height_ft, r, look);
        assert_turned(&turned(&build, heading_deg), &turned(&build, heading_deg + 180.0), 2)?;
    }

    #[test]
    fn a_quarter_turn_of_a_square_box_carries_each_wall_to_the_next(
        camper in camper(), (side_ft, height_ft) in (5.0..8.0f64, 4.0..8.0f64), r in prop::array::uniform2(1.0..20.0f64),
        look in prop::array::uniform2(0.1..0.9f64), heading_deg in 0.0..90.0f64,
    ) {
        let envelope = sides(areas(side_ft, side_ft, height_ft), [r[0], r[0], r[1], r[1], r[1], r[1]],
            [look[0], look[0], look[1], look[1], look[1], look[1]]);
        let build = with(camper, "/envelope", envelope);
        for quarters in 1..4 {
            let after = turned(&build, heading_deg + 90.0 * f64::from(quarters));
            assert_turned(&turned(&build, heading_deg), &after, quarters as usize)?;
        }
    }
}

/// The tongue to the north: the right side has the morning, the rear noon, the left the evening.
#[test]
fn each_side_has_its_sun_when_it_should() {
    let build = json!({
        "envelope": sides(areas(7.0, 7.0, 6.0), [5.0; 6], [0.7; 6]),
        "climate": {"cooling": {"capacity_btu_h": 8000, "setpoint_f": 75}},
        "site": {"latitude_deg": 38, "longitude_deg": -98, "weather": {"hourly": days(1, 80.0, 80.0)},
            // The sun of the equinox is due south at noon.
            "cooling_design": {"day_of_year": 80, "max_f": 80, "min_f": 80, "dew_point_f": 50}}
    });
    for (heading_deg, order) in [(0.0, [1, 2, 3]), (90.0, [0, 1, 2]), (180.0, [3, 0, 1]), (-90.0, [2, 3, 0])]
    {
        let report = turned(&build, heading_deg);
        let brightest = |hour: usize| {
            let of_hour = walls(&report.hours[hour]);
            (0..4).max_by(|one, other| of_hour[*one].total_cmp(&of_hour[*other])).unwrap()
        };
        // By local standard time the sun is half an hour late there.
        assert_eq!([8, 12, 16].map(brightest), order, "{heading_deg}");
    }
}
