//! What the rules say of the air conditioner.

use super::{
    COOLER_BELOW_STEADY_PEAK, COOLER_BEYOND_CURVES, COOLER_BREATHES_ITS_EXHAUST, COOLER_OVERSIZED,
    COOLER_POWER_DIFFERS, COOLER_RATING_IMPOSSIBLE, COOLER_TOO_SMALL, COOLER_WITHOUT_MARGIN, SINGLE_HOSE,
    tenths,
};
use crate::build::{Build, CoolerKind, Cooling};
use crate::cooling_load::cooler::{Cooler, LINE_V, its_part, rating};
use crate::cooling_load::equipment::rating::FLOW_M3_S_PER_W;
use crate::cooling_load::hot_day::RunDay;
use crate::cooling_load::lap::Room;
use crate::cooling_load::numbers::Numbers;
use crate::cooling_load::setup::Setup;
use crate::cooling_load::sizes::HELD_K;
use crate::drawn_power::running_w;
use crate::report::{Findings, figure, percent};
use crate::units::{btu_h, cfm, fahrenheit};

/// Run fraction in its busiest hour above which an air conditioner has no margin.
const NO_MARGIN: f64 = 0.95;
/// Run fraction in its busiest hour below which it is too large to dry the air.
const OVERSIZED: f64 = 0.4;
/// Share of its own exhaust that a condenser in a good cabinet breathes.
const MUCH_EXHAUST: f64 = 0.1;
/// Below this run fraction in its busiest hour there is nothing to cool.
const NEVER: f64 = 0.01;
/// Two powers this near are the same, as a share.
const SAME_FRACTION: f64 = 0.1;
/// Where the air conditioner says how large it is.
const CAPACITY: &str = "/climate/cooling/capacity_btu_h";

/// What an air conditioner gives that lowers the temperature, by the sensible load of the peak hour; 0 without a load.
pub fn margin(delivered_w: f64, numbers: &Numbers) -> f64 {
    let load_w = numbers.peak.sensible_w;
    if load_w > 0.0 { delivered_w / load_w } else { 0.0 }
}

/// Holds the air conditioner against its rules.
pub fn judge(build: &Build, setup: &Setup, numbers: &Numbers, all: &mut Findings) {
    let Some(cooling) = build.climate.as_ref().and_then(|climate| climate.cooling.as_ref()) else { return };
    if cooling.kind == Some(CoolerKind::SingleHose) {
        let message = "A unit with a single hose draws in as much outdoor air as it blows out.".to_owned();
        let remedy = "Take a unit with two hoses, or one in a window or on the roof.";
        all.add(SINGLE_HOSE.finding("/climate/cooling/kind", None, None, message, remedy));
    }
    let Some((cooler, day)) = setup.cooler.as_ref().zip(numbers.cooled.as_ref()) else {
        impossible(cooling, all);
        return;
    };
    of_size(cooling, setup, numbers, day, all);
    of_steady_peak(setup, numbers, (cooler, day), all);
    if day.extrapolated {
        let message = "While it runs most of the time the room's wet bulb or the air outside lies beyond 54 to 77 °F or 68 to \
            115 °F; the nearest conditions measured were taken."
            .to_owned();
        let remedy = "Ask the maker what it gives in those conditions.";
        all.add(COOLER_BEYOND_CURVES.finding(CAPACITY, None, None, message, remedy));
    }
    of_its_part(build, cooling, cooler, all);
    if cooler.recirculated > MUCH_EXHAUST {
        let message = format!("The condenser breathes {} of its own exhaust.", percent(cooler.recirculated));
        let remedy = "Keep intake and exhaust apart, without a shared louver, and let the pan drain.";
        let at = "/climate/cooling/recirculated_fraction";
        let (value, limit) = (Some(cooler.recirculated), Some(MUCH_EXHAUST));
        all.add(COOLER_BREATHES_ITS_EXHAUST.finding(at, value, limit, message, remedy));
    }
}

/// A rating that no coil can have: on which side of the possible it lies, and how far that goes.
fn impossible(cooling: &Cooling, all: &mut Findings) {
    let rating = rating(cooling);
    let (share, air) = (percent(rating.sensible_fraction), figure(cfm(rating.flow_m3_s), 0));
    let size = figure(cooling.capacity_btu_h, 0);
    let usual = figure(cfm(FLOW_M3_S_PER_W * rating.capacity_w), 0);
    let left_out = "The air conditioner was left out.";
    let possible = rating.possible_fractions();
    let possible = possible.filter(|(least, greatest)| (least * 100.0).ceil() <= (greatest * 100.0).floor());
    let (why, remedy) = match possible {
        None => (
            format!("With only {air} cfm a coil of {size} BTU/h would make mist or ice."),
            format!("Give more air; {usual} cfm is usual for its size."),
        ),
        Some((least, greatest)) if rating.sensible_fraction < least => (
            format!("No coil has as little as {share} of its cooling left to lower the temperature."),
            format!(
                "Give a sensible_fraction of {} to {}, or leave it out.",
                ceiling(least),
                floor(greatest)
            ),
        ),
        Some((least, greatest)) => (
            format!(
                "With {air} cfm no coil of {size} BTU/h has as much as {share} of its cooling to lower the temperature."
            ),
            format!("Give more air, or a sensible_fraction of {} to {}.", ceiling(least), floor(greatest)),
        ),
    };
    let field = if possible.is_some() && cooling.sensible_fraction.is_some() {
        "sensible_fraction"
    } else {
        "airflow_cfm"
    };
    let at = format!("/climate/cooling/{field}");
    all.add(COOLER_RATING_IMPOSSIBLE.finding(at, None, None, format!("{why} {left_out}"), remedy));
}

/// A share for people that is no less than it is.
fn ceiling(fraction: f64) -> String {
    figure((fraction * 100.0).ceil() / 100.0, 2)
}

/// A share for people that is no more than it is.
fn floor(fraction: f64) -> String {
    figure((fraction * 100.0).floor() / 100.0, 2)
}

/// Too small, just enough, or too large.
fn of_size(cooling: &Cooling, setup: &Setup, numbers: &Numbers, day: &RunDay, all: &mut Findings) {
    let set_c = setup.around.cool_c;
    let busiest = day.hours.iter().map(|hour| hour.run_fraction).fold(0.0, f64::max);
    if day.warmest_c > set_c + HELD_K {
        let message = format!(
            "On the hot day the air conditioner lets the box get {}; it is set to {}.",
            tenths(day.warmest_c),
            tenths(set_c)
        );
        let larger = numbers.smallest_btu_h.filter(|btu_h| *btu_h > cooling.capacity_btu_h);
        let larger = larger.map(|btu_h| format!("{} BTU/h of the same kind", figure(btu_h, 0)));
        let enough = numbers.effects.iter().find(|effect| effect.warmest_c <= set_c + HELD_K);
        let remedy = match (larger, enough, numbers.effects.first()) {
            (Some(larger), Some(effect), _) => {
                format!("{larger} would hold it; so would {}.", effect.change.words())
            }
            (Some(larger), None, _) => format!("{larger} would hold it."),
            (None, Some(effect), _) => format!("It would hold it with {}.", effect.change.words()),
            (None, None, Some(effect)) => format!("Most would help {}.", effect.change.words()),
            (None, None, None) => "Insulate, shade, or take a larger one.".to_owned(),
        };
        let (value, limit) = (Some(fahrenheit(day.warmest_c)), Some(fahrenheit(set_c)));
        all.add(COOLER_TOO_SMALL.finding(CAPACITY, value, limit, message, remedy));
    } else if busiest > NO_MARGIN {
        let message =
            format!("In its busiest hour the air conditioner runs {} of the time.", percent(busiest));
        let remedy = "Take the next size, or lower the load: see the changes.";
        all.add(COOLER_WITHOUT_MARGIN.finding(CAPACITY, Some(busiest), Some(NO_MARGIN), message, remedy));
    } else if (NEVER..OVERSIZED).contains(&busiest) {
        let message = format!(
            "Even in its busiest hour the air conditioner runs only {} of the time.",
            percent(busiest)
        );
        let smaller = numbers.smallest_btu_h.filter(|btu_h| *btu_h < cooling.capacity_btu_h);
        let remedy = match smaller {
            Some(btu_h) => format!("{} BTU/h would do, draw less and dry the air better.", figure(btu_h, 0)),
            None => {
                "A smaller one is not common; let its fan stop with its compressor, so that it dries the air."
                    .to_owned()
            }
        };
        all.add(COOLER_OVERSIZED.finding(CAPACITY, Some(busiest), Some(OVERSIZED), message, remedy));
    }
}

/// One that holds, and yet gives less than comes in by U-values.
fn of_steady_peak(setup: &Setup, numbers: &Numbers, (cooler, day): (&Cooler, &RunDay), all: &mut Findings) {
    let hour = &day.hours[numbers.peak_hour];
    let room = Room::even(hour.air_c, hour.ratio);
    let at = cooler.at(&room, numbers.peak.outdoor_c, setup.around.pressure_pa);
    let delivered_w = at.sensible_w * cooler.delivered;
    if day.warmest_c > setup.around.cool_c + HELD_K || delivered_w >= numbers.steady_peak_w {
        return;
    }
    let (gives_btu_h, steady_btu_h) = (btu_h(delivered_w), btu_h(numbers.steady_peak_w));
    let message = format!(
        "In the hour of the peak the air conditioner gives {} BTU/h that lower the temperature; by U-values alone up to {} \
         come in.",
        figure(gives_btu_h, 0),
        figure(steady_btu_h, 0)
    );
    let remedy = "Where the figures of the envelope are guessed, take the next size.";
    let (value, limit) = (Some(gives_btu_h), Some(steady_btu_h));
    all.add(COOLER_BELOW_STEADY_PEAK.finding(CAPACITY, value, limit, message, remedy));
}

/// The air conditioner is described once more among the parts, for its mass and its circuit.
fn of_its_part(build: &Build, cooling: &Cooling, cooler: &Cooler, all: &mut Findings) {
    let given_w = cooler.rating.power_w;
    let nearest = its_part(build, cooling).map(|(id, draw)| (id, running_w(draw, LINE_V, true)));
    let Some((id, part_w)) = nearest.filter(|(_, part_w)| (part_w - given_w).abs() > SAME_FRACTION * given_w)
    else {
        return;
    };
    let message = format!(
        "In the climate section the air conditioner draws {} W at its rating, the part {id} {} W.",
        figure(given_w, 0),
        figure(part_w, 0)
    );
    let remedy =
        format!("Give both the same: {} W is what circuits and battery reckon with.", figure(part_w, 0));
    all.add(COOLER_POWER_DIFFERS.finding(format!("/parts/{id}/electrical"), None, None, message, remedy));
}
