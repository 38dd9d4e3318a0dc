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
        optional not_installed: Vec<String> = List { of: bounds::NAME, most: bounds::MOST_ENTRIES }, json!(["galley"]);
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

#[cfg(test)]
mod tests {
    use serde_json::json;

    use crate::FaultCode;
    use crate::build::fixture::{assert_contradiction, fault_with, faults_with};

    #[test]
    fn a_name_that_refers_to_nothing_is_answered_with_what_there_is() {
        let fault = fault_with(&[("/states/loaded/aboard", json!(["gear", "trials_bike"]))]);
        assert_eq!((fault.code, fault.pointer.as_str()), (FaultCode::UnknownId, "/states/loaded/aboard/1"));
        assert_eq!(fault.detail, r#"names "trials_bike", which is not in /cargo; did you mean trail_bike?"#);
        assert_eq!(fault.suggestion.as_deref(), Some("trail_bike"));
        assert_eq!(fault.known, ["trail_bike", "quad", "gear"]);
    }

    #[test]
    fn every_reference_of_a_state_is_checked() {
        for (change, value, pointer, map) in [
            ("/states/loaded/fill", json!({"fresh": 1, "grey": 0}), "/states/loaded/fill/grey", "/tanks"),
            ("/states/loaded/aboard", json!([""]), "/states/loaded/aboard/0", "/cargo"),
            (
                "/states/loaded/scale/axles",
                json!({"middle": 9}),
                "/states/loaded/scale/axles/middle",
                "/trailer/axles",
            ),
            (
                "/states/loaded/scale/not_installed",
                json!(["sofa"]),
                "/states/loaded/scale/not_installed/0",
                "/parts",
            ),
        ] {
            let fault = fault_with(&[(change, value)]);
            assert_eq!((fault.code, fault.pointer.as_str()), (FaultCode::UnknownId, pointer));
            assert!(fault.detail.contains(&format!("which is not in {map}")), "{}", fault.detail);
        }
    }

    #[test]
    fn a_name_into_an_empty_section_is_told_so() {
        let fault = fault_with(&[("/tanks", json!(null))]);
        assert_eq!(fault.detail, r#"names "fresh", which is not in /tanks; nothing is there"#);
        assert!(fault.known.is_empty());
    }

    #[test]
    fn a_fault_in_a_list_is_not_reported_a_second_time_as_a_name() {
        let faults = faults_with(&[
            ("/states/loaded/aboard", json!(["gear", 7])),
            ("/states/loaded/scale/not_installed", json!([null])),
        ]);
        assert_eq!(
            faults.iter().map(|f| f.code).collect::<Vec<_>>(),
            [FaultCode::WrongType, FaultCode::MissingField]
        );
    }

    #[test]
    fn names_stand_once() {
        assert_contradiction(
            "/states/loaded/aboard",
            json!(["gear", "gear"]),
            "/states/loaded/aboard/1",
            "names gear a second time; it is aboard once or not at all",
        );
        assert_contradiction(
            "/states/loaded/scale/not_installed",
            json!(["bench", "galley", "bench"]),
            "/states/loaded/scale/not_installed/2",
            r#"names "bench" a second time; name it once"#,
        );
    }

    #[test]
    fn a_stand_takes_one_thing() {
        assert_contradiction(
            "/states/loaded/aboard",
            json!(["quad", "gear", "trail_bike"]),
            "/states/loaded/aboard/2",
            r#"names trail_bike, but quad already takes the stand "bay""#,
        );
    }

    #[test]
    fn scale_readings_read_something() {
        assert_contradiction(
            "/states/loaded/scale",
            json!({"tolerance_lb": 10}),
            "/states/loaded/scale",
            "has no reading; give total_lb, tongue_lb or axles",
        );
    }

    #[test]
    fn a_fill_is_a_share() {
        let fault = fault_with(&[("/states/loaded/fill", json!({"fresh": 1.01}))]);
        assert_eq!(
            (fault.code, fault.detail.as_str()),
            (FaultCode::AboveMaximum, "must be 1 or less; got 1.01")
        );
    }
}
