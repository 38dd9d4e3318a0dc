//! Section `states`: how full the tanks are and what is aboard.

use serde_json::json;

use super::Build;
use crate::bounds;
use crate::document::{Faults, Flag, Keyed, List, Map, Place, Section, record};

record! {
    /// One loading state: how full the tanks are and what is aboard.
    pub struct State: "a state" {
        /// Is it driven in this state, or only parked? Driving limits are not applied to a parked state.
        optional moving: bool = Flag, true;
        /// How full each tank is, from 0 to 1. A tank not listed is empty.
        optional fill: Keyed<f64> = Map { of: bounds::FRACTION, most: bounds::MOST_ENTRIES, example_id: "fresh" }, json!({"fresh": 1.0});
        /// The cargo aboard. What is not listed stays at home.
        optional aboard: Vec<String> = List { of: bounds::NAME, most: bounds::MOST_ENTRIES }, json!(["atv"]);
        /// What a scale showed in this state.
        optional scale: Scale = Section::of();
    }
}

record! {
    /// Scale readings of one state, level, at the ball height in use. Give those that were taken.
    pub struct Scale: "the scale readings" {
        /// The whole trailer: tongue and axles together.
        optional total_lb: f64 = bounds::MASS_LB, 5260.0;
        /// The tongue, at the ball.
        optional tongue_lb: f64 = bounds::MASS_LB, 548.0;
        /// Each axle.
        optional axles: Keyed<f64> = Map { of: bounds::MASS_LB, most: 3, example_id: "front" }, json!({"front": 2356.0});
        /// How far a reading may be off, either way.
        optional tolerance_lb: f64 = bounds::MASS_TOLERANCE_LB, 20.0;
        /// Parts that were not yet installed when it was weighed.
        optional not_installed: Vec<String> = List { of: bounds::NAME, most: bounds::MOST_ENTRIES }, json!(["solar_array"]);
    }
}

impl State {
    pub(super) fn check(&self, build: &Build, at: &Place, faults: &mut Faults) {
        if let Some(fill) = &self.fill {
            let known = || build.tanks().map(|(id, _)| id);
            for id in fill.keys().filter(|id| !known().any(|k| k == *id)) {
                faults.unknown_id(&at.key("fill").key(id), id, "/tanks", known());
            }
        }
        if let Some(aboard) = &self.aboard {
            check_aboard(aboard, build, &at.key("aboard"), faults);
        }
        if let Some(scale) = &self.scale {
            scale.check(build, &at.key("scale"), faults);
        }
    }
}

fn check_aboard(aboard: &[String], build: &Build, at: &Place, faults: &mut Faults) {
    let known = || build.cargo().map(|(id, _)| id);
    let stand_of = |id: &str| build.cargo().find(|(k, _)| *k == id).and_then(|(_, c)| c.stand.as_deref());
    for (i, id) in aboard.iter().enumerate() {
        let here = at.index(i);
        if id.is_empty() {
            continue; // a blank: its fault is noted already
        }
        if !known().any(|k| k == id) {
            faults.unknown_id(&here, id, "/cargo", known());
        } else if aboard[..i].contains(id) {
            faults.contradiction(&here, format!("names {id} a second time; it is aboard once or not at all"));
        } else if let Some(stand) = stand_of(id)
            && let Some(other) = aboard[..i].iter().find(|other| stand_of(other) == Some(stand))
        {
            faults.contradiction(&here, format!("names {id}, but {other} already takes the stand {stand}"));
        }
    }
}

impl Scale {
    fn check(&self, build: &Build, at: &Place, faults: &mut Faults) {
        if let Some(axles) = &self.axles {
            let known = || build.axles().map(|(id, _)| id);
            for id in axles.keys().filter(|id| !known().any(|k| k == *id)) {
                faults.unknown_id(&at.key("axles").key(id), id, "/trailer/axles", known());
            }
        }
        if let Some(parts) = &self.not_installed {
            let known = || build.parts().map(|(id, _)| id);
            for (i, id) in parts.iter().enumerate().filter(|(_, id)| !known().any(|k| k == *id)) {
                faults.unknown_id(&at.key("not_installed").index(i), id, "/parts", known());
            }
        }
        if self.total_lb.is_none() && self.tongue_lb.is_none() && self.axles.is_none() {
            let detail = "has no reading; give total_lb, tongue_lb or axles".to_owned();
            faults.contradiction(at, detail);
        }
    }
}
