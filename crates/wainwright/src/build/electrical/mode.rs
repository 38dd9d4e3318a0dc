//! One supply mode: which source feeds which circuit.

use serde_json::json;

use super::Electrical;
use crate::bounds;
use crate::document::{Faults, Keyed, Map, Place, record};

record! {
    /// One supply mode, as the switches and plugs stand.
    pub struct Mode: "a mode" {
        /// The source of each circuit. A circuit not listed is off, unless it branches off one that is listed.
        required feeds: Keyed<String> = Map { of: bounds::NAME, most: bounds::MOST_CIRCUITS, example_id: "galley" }, json!({"galley": "shore"});
        /// What a source can give in this mode where that is less than its rating, such as the household outlet a
        /// 30 A cord is plugged into.
        optional limits_a: Keyed<f64> = Map { of: bounds::RATING_A, most: bounds::MOST_SOURCES, example_id: "shore" }, json!({"shore": 15.0});
    }
}

impl Mode {
    pub(super) fn check(&self, electrical: &Electrical, at: &Place, faults: &mut Faults) {
        let (sources, circuits) = (electrical.sources.as_ref(), electrical.circuits.as_ref());
        let feeds = at.key("feeds");
        for (circuit, source) in &self.feeds {
            let place = feeds.key(circuit);
            faults.check_reference(&place, circuit, "/electrical/circuits", circuits);
            faults.check_reference(&place, source, "/electrical/sources", sources);
            let feeder = circuits.and_then(|circuits| circuits.get(circuit)?.feeder.as_ref());
            let Some(feeder) = feeder else { continue };
            let of_feeder = self.feeds.get(feeder);
            if of_feeder == Some(source)
                || faults.spoil(&feeds.key(feeder).pointer())
                || faults.spoil(&format!("/electrical/circuits/{circuit}/feeder"))
            {
                continue;
            }
            let detail = match of_feeder {
                Some(other) => {
                    format!(
                        "names {source}, but its feeder {feeder} is fed by {other}; leave it out or name the same"
                    )
                }
                None => format!(
                    "names {source}, but its feeder {feeder} is off; name the feeder's source in its place"
                ),
            };
            faults.contradiction(&place, detail);
        }
        for source in self.limits_a.iter().flat_map(|limits| limits.keys()) {
            faults.check_reference(&at.key("limits_a").key(source), source, "/electrical/sources", sources);
        }
    }
}
