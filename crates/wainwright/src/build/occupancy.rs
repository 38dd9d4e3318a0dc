//! Section `occupancy`: who is in the box, and when.

use serde_json::json;

use crate::bounds;
use crate::document::{Choice, Faults, List, Place, Section, record};
use crate::standards::occupant::Activity;

record! {
    /// Who is in the box, and when.
    pub struct Occupancy: "the occupancy" {
        /// How many people.
        required people: u32 = bounds::PEOPLE, 2;
        /// What they do while they are awake.
        optional activity: Activity = Choice::of(), "seated";
        /// The hour at which they go to sleep, in local standard time.
        optional asleep_from: u32 = bounds::HOUR, 22;
        /// The hour at which they get up.
        optional asleep_to: u32 = bounds::HOUR, 6;
        /// The hour from which they are out.
        optional away_from: u32 = bounds::HOUR, 9;
        /// The hour to which they are out.
        optional away_to: u32 = bounds::HOUR, 12;
        /// Fresh air that a fan brings in all the time.
        optional fresh_air_cfm: f64 = bounds::FLOW_CFM, 15.0;
        /// Cooking with a flame inside. What cooks by current stands among the parts.
        optional cooking: Cooking = Section::of();
    }
}

record! {
    /// Cooking with a flame inside.
    pub struct Cooking: "the cooking" {
        /// Heat of a meal's fuel.
        required btu_per_meal: f64 = bounds::COOKING_BTU, 2000.0;
        /// The hours in which meals are cooked, in local standard time.
        required hours: Vec<u32> = List { of: bounds::HOUR, most: bounds::MOST_HOURS }, json!([7, 18]);
    }
}

impl Occupancy {
    pub(super) fn check(&self, at: &Place, faults: &mut Faults) {
        let pairs = [
            ("away_from", self.away_from, "away_to", self.away_to),
            ("away_to", self.away_to, "away_from", self.away_from),
        ];
        for (name, given, other, missing) in pairs {
            if given.is_some() && missing.is_none() {
                let detail = format!("says nothing without {other}; give both or neither");
                faults.contradiction_without(&[other], at, &at.key(name), detail);
            }
        }
        if let (Some(from), Some(to)) = (self.away_from, self.away_to)
            && from == to
        {
            let detail = format!("must be another hour than away_from; both are {from}");
            faults.contradiction(&at.key("away_to"), detail);
        }
        if let Some(cooking) = &self.cooking
            && cooking.hours.is_empty()
        {
            let place = at.key("cooking");
            faults.contradiction(
                &place.key("hours"),
                "is empty; give the hours, or leave cooking out".to_owned(),
            );
        }
    }
}
