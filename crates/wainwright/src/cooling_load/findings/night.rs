//! What the rules say of the cold night: the heater, and what drips.

use super::{CONDENSATION, HEATER_TOO_SMALL, HEATER_WITHOUT_WARM_UP, UNVENTED_BURNER, degrees};
use crate::build::{Build, HeaterKind};
use crate::cooling_load::cold_night::InsideFace;
use crate::cooling_load::equipment::heating::WARM_UP_FACTOR;
use crate::cooling_load::heater::Heater;
use crate::cooling_load::numbers::Numbers;
use crate::cooling_load::setup::Setup;
use crate::report::{Finding, Findings, figure};
use crate::units::{btu_h, fahrenheit, w_from_btu_h};

/// Holds the cold night against its rules.
pub fn judge(build: &Build, setup: &Setup, numbers: &Numbers, all: &mut Findings) {
    of_heater(build, setup, numbers, all);
    of_damp(numbers, all);
}

/// The only violation of this question: an unvented burner in the box.
pub fn unvented_burner(build: &Build) -> Option<Finding> {
    let heating = build.climate.as_ref()?.heating.as_ref()?;
    if heating.kind != Some(HeaterKind::PropaneUnvented) {
        return None;
    }
    let message = "The heater gives carbon monoxide and water into the closed box.".to_owned();
    let remedy = "Take a vented one that draws its air from outside; never sleep with an unvented burner.";
    Some(UNVENTED_BURNER.finding("/climate/heating/kind", None, None, message, remedy))
}

fn of_heater(build: &Build, setup: &Setup, numbers: &Numbers, all: &mut Findings) {
    let Some(heating) = build.climate.as_ref().and_then(|climate| climate.heating.as_ref()) else { return };
    let at = |field: &str| format!("/climate/heating/{field}");
    if let Some(finding) = unvented_burner(build) {
        all.add(finding);
    }
    let load_w = numbers.night.sum_w();
    let given_w = Heater::of(heating).capacity_w(numbers.night.outdoor_c);
    let warm_up_w = load_w * WARM_UP_FACTOR;
    if load_w <= 0.0 {
        return;
    }
    let of = |needed_w: f64| (Some(btu_h(given_w)), Some(btu_h(needed_w)));
    if given_w < load_w {
        let gives = match numbers.holds_to_c.filter(|_| given_w > 0.0) {
            Some(holds_c) => format!(
                "the heater gives {} and holds it down to {}",
                figure(btu_h(given_w), 0),
                degrees(holds_c)
            ),
            None => "the heat pump stops in such cold and gives nothing".to_owned(),
        };
        let message = format!(
            "On the cold night, {} outside, the box takes {} BTU/h to stay at {}; {gives}.",
            degrees(numbers.night.outdoor_c),
            figure(btu_h(load_w), 0),
            degrees(setup.heat_c)
        );
        let rounded = |watts: f64| figure((btu_h(watts) / 100.0).ceil() * 100.0, 0);
        // A heat pump is rated by what it gives in milder air.
        let rated_w = w_from_btu_h(heating.capacity_btu_h);
        let remedy = if given_w > 0.0 {
            let needed = rounded(warm_up_w * rated_w / given_w);
            format!("{needed} BTU/h would hold it and warm the box up; or insulate what lets most through.")
        } else {
            let needed = rounded(warm_up_w);
            format!("In such cold a heat pump stops: have a heater of another kind with {needed} BTU/h.")
        };
        let (value, limit) = of(load_w);
        all.add(HEATER_TOO_SMALL.finding(at("capacity_btu_h"), value, limit, message, remedy));
    } else if given_w < warm_up_w {
        let message = format!(
            "The heater gives {} BTU/h; the cold night takes {} to hold the box at {}.",
            figure(btu_h(given_w), 0),
            figure(btu_h(load_w), 0),
            degrees(setup.heat_c)
        );
        let remedy = "Warm the box up before the cold comes, or take a heater with a quarter more.";
        let (value, limit) = of(warm_up_w);
        all.add(HEATER_WITHOUT_WARM_UP.finding(at("capacity_btu_h"), value, limit, message, remedy));
    }
}

fn of_damp(numbers: &Numbers, all: &mut Findings) {
    let dew_c = numbers.damp.dew_point_c;
    for face in numbers.damp.faces.iter().filter(|face: &&InsideFace| face.lowest_c() < dew_c) {
        let map = if face.is_window { "windows" } else { "surfaces" };
        let place = if face.coldest_c.is_some_and(|coldest_c| coldest_c < face.inside_c) {
            " over its posts"
        } else {
            ""
        };
        let message = format!(
            "On the cold night the inside of {}{place} is {}; water condenses below {}.",
            face.id,
            degrees(face.lowest_c()),
            degrees(dew_c)
        );
        let remedy = if face.is_window {
            "Ventilate more, or cover it inside and let the cover seal; a second pane helps."
        } else if place.is_empty() {
            "Ventilate more, or insulate it better."
        } else {
            "Ventilate more, or run foam over the posts: half an inch that nothing bridges is enough for most."
        };
        let (value, limit) = (fahrenheit(dew_c), fahrenheit(face.lowest_c()));
        all.add(CONDENSATION.finding(
            format!("/envelope/{map}/{}", face.id),
            Some(value),
            Some(limit),
            message,
            remedy,
        ));
    }
}
