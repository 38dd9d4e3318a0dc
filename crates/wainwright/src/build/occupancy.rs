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

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use crate::build::fixture::{assert_contradiction, fault_with, faults_with, lines_with};

    #[test]
    fn they_are_out_from_one_hour_to_another() {
        for (left_out, given) in [("away_to", "away_from"), ("away_from", "away_to")] {
            assert_contradiction(
                &format!("/occupancy/{left_out}"),
                Value::Null,
                &format!("/occupancy/{given}"),
                &format!("says nothing without {left_out}; give both or neither"),
            );
        }
        assert_contradiction(
            "/occupancy/away_to",
            json!(9),
            "/occupancy/away_to",
            "must be another hour than away_from; both are 9",
        );
        // Over midnight is fine.
        assert_eq!(faults_with(&[("/occupancy/away_to", json!(3))]), []);
        assert_eq!(
            faults_with(&[("/occupancy/away_from", json!(null)), ("/occupancy/away_to", json!(null))]),
            []
        );
        let misspelled = json!({"people": 2, "away_from": 9, "away_too": 12});
        assert_eq!(fault_with(&[("/occupancy", misspelled)]).suggestion.as_deref(), Some("away_to"));
    }

    #[test]
    fn meals_have_their_hours() {
        assert_contradiction(
            "/occupancy/cooking/hours",
            json!([]),
            "/occupancy/cooking/hours",
            "is empty; give the hours, or leave cooking out",
        );
        assert_eq!(faults_with(&[("/occupancy/cooking", json!(null))]), []);
    }

    #[test]
    fn several_mistakes_of_those_in_the_box_are_all_named() {
        assert_eq!(
            lines_with(&[(
                "/occupancy",
                json!({"people": 2.5, "activity": "dancing", "asleep_from": 24, "asleep_to": -1, "away_from": 9, "fresh_air_cfm": -15,
                    "cooking": {"btu_per_meal": -1, "hours": [7, 25]}})
            )]),
            [
                "/occupancy/people must be a whole number; got 2.5",
                "/occupancy/activity must be one of asleep, seated, light_work, moderate_work, standing, bench_work, cooking; got \"dancing\"",
                "/occupancy/asleep_from must be 23 or less; got 24",
                "/occupancy/asleep_to must be 0 or more; got -1",
                "/occupancy/away_from says nothing without away_to; give both or neither",
                "/occupancy/fresh_air_cfm must be 0 or more; got -15",
                "/occupancy/cooking/btu_per_meal must be 0 or more; got -1",
                "/occupancy/cooking/hours/1 must be 23 or less; got 25",
            ]
        );
    }

    #[test]
    fn what_could_not_be_read_is_at_fault_alone() {
        for (at, value) in [
            ("/occupancy", json!(2)),
            ("/occupancy/people", json!("two")),
            ("/occupancy/people", json!(null)),
            ("/occupancy/away_from", json!("nine")),
            ("/occupancy/away_to", json!(24)),
            ("/occupancy/cooking", json!([7, 18])),
            ("/occupancy/cooking/hours", json!("noon")),
            ("/occupancy/cooking/hours", json!([24])),
        ] {
            let fault = fault_with(&[(at, value)]);
            assert!(fault.pointer.starts_with(at), "{fault:?}");
        }
    }
}
