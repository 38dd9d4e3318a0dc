//! Section `road`: what road loads are worked out for.

use crate::bounds;
use crate::document::record;

record! {
    /// The braking, grade, side force and speed that road loads are worked out for.
    pub struct Road: "the road" {
        /// Deceleration of a hard stop.
        optional stop_g: f64 = bounds::ACCELERATION_G, 0.44;
        /// Deceleration of an emergency stop.
        optional emergency_stop_g: f64 = bounds::ACCELERATION_G, 0.7;
        /// Part of its own braking that the trailer's brakes do: 0 for none, 1 for all.
        optional brake_share_fraction: f64 = bounds::FRACTION, 1.0;
        /// Grade, rise over run, taken both uphill and downhill.
        optional grade_fraction: f64 = bounds::GRADE_FRACTION, 0.08;
        /// Sideways acceleration in a bend.
        optional side_g: f64 = bounds::ACCELERATION_G, 0.3;
        /// Speed that sway damping is compared at.
        optional sway_speed_mph: f64 = bounds::SPEED_MPH, 65.0;
    }
}
