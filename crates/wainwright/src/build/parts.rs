//! Section `parts`: everything fixed that is added to the bare trailer.

use crate::bounds;
use crate::document::{Section, record};

use super::Draw;

record! {
    /// Something fixed that is added to the bare trailer.
    pub struct Part: "a part" {
        /// Mass of one.
        required mass_lb: f64 = bounds::MASS_LB, 86.0;
        /// How many of it stand at that place.
        optional quantity: u32 = bounds::QUANTITY, 1;
        /// What it belongs to, for the list of masses by category.
        optional category: String = bounds::NAME, "furniture";
        /// Its center of gravity behind the ball.
        optional x_in: f64 = bounds::STATION_IN, 90.0;
        /// Its center of gravity right (+) or left (-) of the centerline.
        optional y_in: f64 = bounds::OFFSET_IN, -20.0;
        /// Height of its center of gravity above the ground.
        optional z_in: f64 = bounds::HEIGHT_IN, 40.0;
        /// How far the mass of one may be off, either way.
        optional mass_tolerance_lb: f64 = bounds::MASS_TOLERANCE_LB, 5.0;
        /// How far `x_in` may be off, either way.
        optional x_tolerance_in: f64 = bounds::PLACE_TOLERANCE_IN, 1.0;
        /// What it draws.
        optional electrical: Draw = Section::of();
        /// Heat that one gives off into the box while it runs; what cools the box is negative. Left out, the power it takes
        /// in, none where it is an air conditioner; of something outside the box give 0.
        optional heat_w: f64 = bounds::HEAT_W, 60.0;
    }
}
