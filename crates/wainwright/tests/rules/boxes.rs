//! The box that the twins of the cooling load are made from. Invented; figures that are easily worked by hand.

use serde_json::{Value, json};

/// Where a build says on what day cooling is sized.
pub const DAY: &str = "/site/cooling_design";

/// A surface of R 5.
pub fn surface(area_ft2: f64, facing: &str) -> Value {
    json!({"area_ft2": area_ft2, "facing": facing, "r_value": 5})
}

/// A day that is as hot through all its hours.
pub fn even_day(air_f: f64) -> Value {
    json!({"day_of_year": 202, "max_f": air_f, "min_f": air_f, "dew_point_f": 50})
}

/// A box of 14 by 7 by 6.5 ft at sea level, R 5 all around, without a gap and in full shade, through a day of 95 °F and a night
/// of 5 °F. The wind of the night, 4.21 m/s, gives the film of 25 W/(m²·K) that an R counts: 469/5 BTU/(h·°F).
///
/// By the network of ISO 13790 the day takes 1,389.06 BTU/h to hold 75 °F, by U-values 1,836.74 BTU/h. In air that dry an air
/// conditioner gives 0.80801 of its rating.
pub fn shaded() -> Value {
    let all = |value: f64| json!(vec![value; 24]);
    json!({
        "envelope": {
            "surfaces": {
                "roof": surface(98.0, "roof"),
                "floor": surface(98.0, "floor"),
                "front": surface(45.5, "front"),
                "rear": surface(45.5, "rear"),
                "left": surface(91.0, "left"),
                "right": surface(91.0, "right")
            },
            "air_changes_per_h": 0,
            "shade_fraction": 1
        },
        "site": {
            "latitude_deg": 40, "longitude_deg": -105,
            "weather": {"hourly": {"start": "2025-01-01T00:00", "step_min": 60, "ghi_w_m2": all(0.0), "dry_bulb_f": all(70.0),
                "dew_point_f": all(50.0)}},
            "cooling_design": even_day(95.0),
            "heating_design": {"dry_bulb_f": 5, "wind_mph": 9.417}
        }
    })
}
