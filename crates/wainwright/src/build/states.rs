//! Section `states`: how full the tanks are and what is aboard.

use std::collections::{BTreeMap, BTreeSet};

use serde_json::json;

use super::Build;
use crate::bounds;
use crate::document::{Faults, Flag, Keyed, List, Map, Place, Section, echo, record};

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
        for id in self.fill.iter().flat_map(|fill| fill.keys()) {
            faults.check_reference(&at.key("fill").key(id), id, "/tanks", build.tanks.as_ref());
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
    let mut listed = BTreeSet::new();
    let mut taken: BTreeMap<&str, &str> = BTreeMap::new();
    for (i, id) in aboard.iter().enumerate() {
        let here = at.index(i);
        faults.check_reference(&here, id, "/cargo", build.cargo.as_ref());
        let Some(cargo) = build.cargo.as_ref().and_then(|cargo| cargo.get(id)) else { continue };
        if !listed.insert(id) {
            faults.contradiction(&here, format!("names {id} a second time; it is aboard once or not at all"));
            continue;
        }
        let Some(stand) = &cargo.stand else { continue };
        if let Some(other) = taken.insert(stand, id)
            && !faults.spoil(&format!("/cargo/{id}/stand"))
        {
            let stand = echo(stand);
            faults.contradiction(&here, format!("names {id}, but {other} already takes the stand {stand}"));
        }
    }
}

impl Scale {
    fn check(&self, build: &Build, at: &Place, faults: &mut Faults) {
        let axles = build.trailer.as_ref().and_then(|trailer| trailer.axles.as_ref());
        for id in self.axles.iter().flat_map(|axles| axles.keys()) {
            faults.check_reference(&at.key("axles").key(id), id, "/trailer/axles", axles);
        }
        let list = at.key("not_installed");
        let mut listed = BTreeSet::new();
        for (i, id) in self.not_installed.iter().flatten().enumerate() {
            faults.check_reference(&list.index(i), id, "/parts", build.parts.as_ref());
            if !listed.insert(id) {
                faults
                    .contradiction(&list.index(i), format!("names {} a second time; name it once", echo(id)));
            }
        }
        if self.total_lb.is_none() && self.tongue_lb.is_none() && self.axles.is_none() {
            let detail = "has no reading; give total_lb, tongue_lb or axles".to_owned();
            faults.contradiction(at, detail);
        }
    }
}
