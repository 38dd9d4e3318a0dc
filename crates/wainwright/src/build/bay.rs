//! Section `bay`: the space the toy rides in, its ramp and its floor.

use crate::bounds;
use crate::document::{Faults, Place, record};

record! {
    /// The bay that the toy rides in, with clear figures: after lining, cabinets and folded bunks.
    pub struct Bay: "the bay" {
        /// Its front end behind the ball.
        required front_x_in: f64 = bounds::STATION_IN, 150.0;
        /// Its rear end behind the ball.
        required rear_x_in: f64 = bounds::STATION_IN, 240.0;
        /// Clear width at the narrowest place.
        optional clear_width_in: f64 = bounds::POSITIVE_LENGTH_IN, 76.0;
        /// Clear height at the lowest place.
        optional clear_height_in: f64 = bounds::POSITIVE_LENGTH_IN, 72.0;
        /// Clear width of the door opening.
        optional opening_width_in: f64 = bounds::POSITIVE_LENGTH_IN, 74.0;
        /// Clear height of the door opening.
        optional opening_height_in: f64 = bounds::POSITIVE_LENGTH_IN, 74.0;
        /// Height of the deck above the ground at the ramp's hinge.
        optional deck_height_in: f64 = bounds::POSITIVE_LENGTH_IN, 23.0;
        /// Length of the ramp.
        optional ramp_length_in: f64 = bounds::POSITIVE_LENGTH_IN, 74.0;
        /// Load the ramp door is rated for, as its plate says.
        optional ramp_rating_lb: f64 = bounds::RATING_LB, 2000.0;
        /// Distance between the crossmembers under the floor.
        optional crossmember_spacing_in: f64 = bounds::POSITIVE_LENGTH_IN, 16.0;
        /// Thickness of the floor panel.
        optional panel_thickness_in: f64 = bounds::POSITIVE_LENGTH_IN, 0.719;
        /// Modulus of elasticity of the floor panel, along the span.
        optional panel_modulus_psi: f64 = bounds::MODULUS_PSI, 1500000.0;
        /// Bending stress the floor panel may carry.
        optional panel_stress_psi: f64 = bounds::STRESS_PSI, 1500.0;
    }
}

impl Bay {
    pub(super) fn check(&self, at: &Place, faults: &mut Faults) {
        if self.rear_x_in <= self.front_x_in {
            faults.contradiction(
                &at.key("rear_x_in"),
                format!("must be behind front_x_in, {}; got {}", self.front_x_in, self.rear_x_in),
            );
        }
        if let (Some(deck), Some(ramp)) = (self.deck_height_in, self.ramp_length_in)
            && ramp <= deck
        {
            let detail = format!("must be longer than the deck is high, {deck}; got {ramp}");
            faults.contradiction(&at.key("ramp_length_in"), detail);
        }
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use crate::build::fixture::assert_contradiction;

    #[test]
    fn a_bay_ends_behind_its_beginning() {
        let at = "/bay/rear_x_in";
        assert_contradiction(at, json!(150), at, "must be behind front_x_in, 150; got 150");
        assert_contradiction(at, json!(12.5), at, "must be behind front_x_in, 150; got 12.5");
    }

    #[test]
    fn a_ramp_reaches_the_ground() {
        let at = "/bay/ramp_length_in";
        assert_contradiction(at, json!(23), at, "must be longer than the deck is high, 23; got 23");
    }
}
