//! The answer in two sentences, for whoever will camp in it.

use super::types::{CoolingLoadReport, HeatingLoad};
use crate::cooling_load::setup::Setup;
use crate::cooling_load::sizes::HELD_K;
use crate::report::figure;
use crate::site_weather::DesignOrigin;
use crate::text::month_name;
use crate::units::{difference_f, fahrenheit};

/// The hottest afternoon, then the coldest night.
pub fn summary(setup: &Setup, report: &CoolingLoadReport) -> String {
    format!("{} {}", hot_day(setup, report), cold_night(setup, &report.heating))
}

/// The finding about an air conditioner that was left out.
const LEFT_OUT: &str = "cooler_rating_impossible";
/// Below so many hours of a day an air conditioner does not run [h].
const NEVER_H: f64 = 0.05;

fn degrees(f: f64) -> String {
    format!("{} °F", figure(f, 0))
}

fn hot_day(setup: &Setup, report: &CoolingLoadReport) -> String {
    let design = &report.design;
    let when = format!(
        "On the hottest afternoon, {} outside on {} {},",
        degrees(design.max_f),
        month_name(design.month),
        design.day
    );
    let set_f = fahrenheit(setup.around.cool_c);
    let Some((held_f, cooler)) = report.held_f.zip(report.cooler.as_ref()) else {
        let size = match report.smallest_btu_h {
            Some(btu_h) => {
                format!("an air conditioner of {} BTU/h would hold {}", figure(btu_h, 0), degrees(set_f))
            }
            None => format!("no common air conditioner would hold {}", degrees(set_f)),
        };
        let left_out = report.findings.iter().any(|finding| finding.code == LEFT_OUT);
        let given = if left_out { ", the air conditioner given being left out for its rating" } else { "" };
        return format!("{when} the closed box gets {}{given}; {size}.", degrees(report.uncooled_f));
    };
    if cooler.run_h < NEVER_H {
        return format!("{when} the box stays below {} by itself: nothing has to cool it.", degrees(set_f));
    }
    let kwh = report.cooling_kwh_per_day.unwrap_or(0.0);
    let hours = match cooler.run_h {
        h if h < 0.95 => format!("{} minutes", figure(60.0 * h, 0)),
        h if h < 1.5 => "an hour".to_owned(),
        h => format!("{} hours", figure(h, 0)),
    };
    let runs = format!("it runs {hours} of the day and takes {} kWh", figure(kwh, 1));
    if held_f <= set_f + difference_f(HELD_K) {
        format!("{when} the air conditioner holds {}; {runs}.", degrees(set_f))
    } else {
        format!(
            "{when} the air conditioner does not hold {}: it gets {} °F inside; {runs}.",
            degrees(set_f),
            figure(held_f, 1)
        )
    }
}

fn cold_night(setup: &Setup, heating: &HeatingLoad) -> String {
    if setup.cold_night.origin == DesignOrigin::ShortSeries {
        return "How cold the coldest night is, the weather given does not say.".to_owned();
    }
    let when = format!("On the coldest night, {} outside,", degrees(heating.outdoor_f));
    if heating.load_btu_h <= 0.0 {
        return format!("{when} the box needs no heat to stay at {}.", degrees(fahrenheit(setup.heat_c)));
    }
    let takes = format!(
        "it takes {} BTU/h to stay at {}",
        figure((heating.load_btu_h / 10.0).round() * 10.0, 0),
        degrees(heating.indoor_f)
    );
    match heating.capacity_btu_h {
        None => format!("{when} {takes}, and the build has no heater."),
        Some(capacity_btu_h) if capacity_btu_h >= heating.load_btu_h => {
            format!("{when} {takes}; the heater gives {}.", figure(capacity_btu_h, 0))
        }
        Some(0.0) => format!("{when} {takes}, and the heat pump stops in such cold."),
        Some(capacity_btu_h) => {
            let holds = heating
                .holds_to_f
                .map_or_else(String::new, |f| format!(": it holds that down to {}", degrees(f)));
            format!("{when} {takes}, and the heater gives only {}{holds}.", figure(capacity_btu_h, 0))
        }
    }
}
