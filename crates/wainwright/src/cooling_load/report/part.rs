//! A few figures of the report without the rest, for who asks many builds for no more.

use serde_json::{Value, json};

use super::fill::{of_hours, of_peak};
use crate::build::Build;
use crate::cooling_load::numbers::design_day;
use crate::cooling_load::setup::Setup;
use crate::units::fahrenheit;

/// Members of the report that follow from the hot day alone.
const OF_HOT_DAY: [&str; 5] = ["peak", "hours", "held_f", "cooling_kwh_per_day", "uncooled_f"];

/// The report with these members alone, each as in the whole; none where another is wanted.
///
/// Most of the time of the whole goes into what single changes come to, and the weather through the year.
///
/// - `wanted`  the first key of each figure's path
pub fn part(build: &Build, wanted: &[&str]) -> Option<Value> {
    if !wanted.iter().all(|key| OF_HOT_DAY.contains(key)) {
        return None;
    }
    let setup = Setup::of(build)?;
    let day = design_day(&setup);
    let (hour, peak) = day.load.peak();
    let mut members = json!({
        "peak": of_peak(hour, &peak),
        "held_f": day.cooled.as_ref().map(|cooled| fahrenheit(cooled.warmest_c)),
        "cooling_kwh_per_day": day.cooled.as_ref().map(|cooled| cooled.electric_wh() / 1000.0),
        "uncooled_f": fahrenheit(day.free.warmest_c),
    });
    if wanted.contains(&"hours") {
        let run = day.cooled.as_ref().unwrap_or(&day.free);
        members["hours"] = json!(of_hours(&day.load.hours, run, &day.free, setup.around.pressure_pa));
    }
    Some(members)
}
