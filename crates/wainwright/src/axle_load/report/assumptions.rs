//! Every default that axle load used.

use super::super::limits::TIRES;
use super::super::numbers::{BRAKE_SHARE, GRADE_FRACTION, Numbers, SIDE_G, SWAY_SPEED_MPH, shell_size_in};
use super::super::rig::{BALL_HEIGHT_IN, reference_state};
use super::super::road::{EMERGENCY_STOP_G, LEGAL_STOP_G};
use super::toys::{PANEL_MODULUS_PSI, RIDER_LB, WHEELS_PER_AXLE, front_share};
use crate::build::{Build, Suspension, Trailer};
use crate::loading::{Loading, assume_masses, assume_places};
use crate::report::{Assumption, Assumptions};

const PRACTICE: &str = "common practice";

/// The assumptions of a build, in the order of the document.
pub(super) fn assumptions(build: &Build, masses: &Loading, numbers: &Numbers) -> Vec<Assumption> {
    let mut all = Assumptions::default();
    if let Some(trailer) = &build.trailer {
        running_gear(build, trailer, masses, numbers, &mut all);
    }
    tow_vehicle(build, &mut all);
    assume_places(build, &mut all);
    assume_masses(build, masses, &mut all);
    toys(build, &mut all);
    road(build, numbers, &mut all);
    all.in_order(|pointer| build.position(pointer))
}

fn running_gear(
    build: &Build,
    trailer: &Trailer,
    masses: &Loading,
    numbers: &Numbers,
    all: &mut Assumptions,
) {
    if trailer.suspension.is_none() && build.axles().len() > 1 {
        let reason = "most such trailers have leaf springs with an equalizer between their axles";
        all.add("/trailer/suspension".to_owned(), "equalized", None, reason, PRACTICE);
    }
    if trailer.suspension != Some(Suspension::Independent)
        && trailer.equalizer.is_none()
        && build.axles().len() > 1
    {
        let reason = "every axle takes the same share";
        all.add("/trailer/equalizer".to_owned(), "equal arms", None, reason, PRACTICE);
    }
    if trailer.coupler.is_none() {
        let pointer = "/trailer/coupler/ball_height_in".to_owned();
        all.add(pointer, BALL_HEIGHT_IN, Some("in"), "usual height of a ball above the ground", PRACTICE);
    }
    let set_up = build.axles().any(|(_, axle)| axle.unloaded_height_in.is_none());
    if numbers.rig.springs.is_some() && set_up {
        if trailer.level.is_none() {
            let reason = "independent axles are taken to carry the same at the ball height in use";
            all.add_words("/trailer/level".to_owned(), "ball height in use".to_owned(), reason, PRACTICE);
        }
        if trailer.level.as_ref().is_none_or(|level| level.state.is_none())
            && let Some(index) = reference_state(trailer, masses)
        {
            let state = masses.states[index].id.to_string();
            let reason =
                "the heaviest state that moves, in which independent axles are taken to carry the same";
            all.add_words("/trailer/level/state".to_owned(), state, reason, PRACTICE);
        }
    }
    let (length, width) = shell_size_in(build);
    if trailer.bare.length_in.is_none() {
        let reason =
            "the box is taken as long as its floor, for its resistance to yaw; 0 where no floor is given";
        all.add("/trailer/bare/length_in".to_owned(), length, Some("in"), reason, PRACTICE);
    }
    if trailer.bare.width_in.is_none() {
        let reason = "the box is taken as wide as the widest track, for its resistance to yaw";
        all.add("/trailer/bare/width_in".to_owned(), width, Some("in"), reason, PRACTICE);
    }
    for (id, axle) in build.axles() {
        let at = |field: &str| format!("/trailer/axles/{id}/{field}");
        if axle.tires.is_none() {
            all.add(at("tires"), f64::from(TIRES), None, "one tire on each side", PRACTICE);
        }
        if axle.tire_max_load_lb.is_some() && axle.tire_type.is_none() {
            all.add(at("tire_type"), "trailer", None, "trailers are usually sold on trailer tires", PRACTICE);
        }
        if axle.tire_max_load_lb.is_some() && axle.tire_psi.is_none() {
            let reason = "tires are taken as inflated to the pressure that their greatest load goes with";
            all.add(at("tire_psi"), "as molded for the greatest load", None, reason, PRACTICE);
        }
        if axle.unsprung_lb.is_none() {
            let reason = "the axles' own mass is shared out with the rest of the bare trailer";
            all.add(at("unsprung_lb"), 0.0, Some("lb"), reason, PRACTICE);
        }
    }
}

fn tow_vehicle(build: &Build, all: &mut Assumptions) {
    let Some(tow) = &build.tow_vehicle else { return };
    if tow.front_load_restoration.is_none() {
        let pointer = "/tow_vehicle/front_load_restoration".to_owned();
        all.add(pointer, 0.0, None, "a weight-carrying hitch: no spring bars", PRACTICE);
    }
    if tow.hitch_lb.is_none() {
        let reason = "the hitch's mass is taken to be in the axle loads given";
        all.add("/tow_vehicle/hitch_lb".to_owned(), 0.0, Some("lb"), reason, PRACTICE);
    }
}

fn toys(build: &Build, all: &mut Assumptions) {
    for (id, toy) in build.cargo().filter_map(|(id, cargo)| Some((id, cargo.toy.as_ref()?))) {
        let at = |field: &str| format!("/cargo/{id}/toy/{field}");
        if toy.rider_lb.is_none() {
            let reason = "a rider in boots; the design figure of 49 CFR 567.4(g)(3) is 150 lb";
            all.add(at("rider_lb"), RIDER_LB, Some("lb"), reason, PRACTICE);
        }
        if toy.front_fraction.is_none() {
            let reason = "usual share of the front axle for a toy with so many wheels";
            all.add(at("front_fraction"), front_share(toy), Some("fraction"), reason, PRACTICE);
        }
        if toy.wheels_per_axle.is_none() {
            all.add(
                at("wheels_per_axle"),
                f64::from(WHEELS_PER_AXLE),
                None,
                "taken as a toy on four wheels",
                PRACTICE,
            );
        }
    }
    for (id, cargo) in build.cargo() {
        for (strap, tie_down) in cargo.tie_downs.iter().flatten() {
            if tie_down.attachment.is_none() {
                let pointer = format!("/cargo/{id}/tie_downs/{strap}/attachment");
                all.add(
                    pointer,
                    "direct",
                    None,
                    "taken as a strap from the trailer to the cargo, which counts for half",
                    PRACTICE,
                );
            }
        }
    }
    if let Some(bay) = &build.bay
        && bay.panel_thickness_in.is_some()
        && bay.panel_modulus_psi.is_none()
    {
        let pointer = "/bay/panel_modulus_psi".to_owned();
        all.add(
            pointer,
            PANEL_MODULUS_PSI,
            Some("psi"),
            "usual for softwood plywood along its grain",
            PRACTICE,
        );
    }
}

fn road(build: &Build, numbers: &Numbers, all: &mut Assumptions) {
    let road = build.road.as_ref();
    let mut assume = |field: &str, stated: Option<f64>, value: f64, unit, reason, citation| {
        if stated.is_none() {
            all.add(format!("/road/{field}"), value, unit, reason, citation);
        }
    };
    let asked = "49 CFR 393.52(d) (from memory)";
    assume(
        "stop_g",
        road.and_then(|r| r.stop_g),
        LEGAL_STOP_G,
        Some("g"),
        "the stop that brake rules ask of a combination",
        asked,
    );
    assume(
        "emergency_stop_g",
        road.and_then(|r| r.emergency_stop_g),
        EMERGENCY_STOP_G,
        Some("g"),
        "a stop at about the limit of the tires",
        PRACTICE,
    );
    assume(
        "brake_share_fraction",
        road.and_then(|r| r.brake_share_fraction),
        BRAKE_SHARE,
        Some("fraction"),
        "the trailer's brakes are taken to stop all of the trailer",
        PRACTICE,
    );
    assume(
        "grade_fraction",
        road.and_then(|r| r.grade_fraction),
        GRADE_FRACTION,
        Some("fraction"),
        "a steep grade of a main road",
        PRACTICE,
    );
    assume("side_g", road.and_then(|r| r.side_g), SIDE_G, Some("g"), "a bend taken briskly", PRACTICE);
    if numbers.tow.is_some() {
        let reason = "what trailer tires without a speed mark are made for";
        assume(
            "sway_speed_mph",
            road.and_then(|r| r.sway_speed_mph),
            SWAY_SPEED_MPH,
            Some("mph"),
            reason,
            "tire-maker information",
        );
        let reason = "sway is modeled with a cornering stiffness of 0.14 of the load per degree and a yaw inertia of 0.95 m·a·b";
        all.add_words(
            "/tow_vehicle".to_owned(),
            "for comparison only".to_owned(),
            reason,
            "vehicle dynamics texts (from memory)",
        );
    }
}
