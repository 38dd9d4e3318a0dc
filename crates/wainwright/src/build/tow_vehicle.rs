//! Section `tow_vehicle`.

use crate::bounds;
use crate::document::record;

record! {
    /// The tow vehicle with its occupants and its own cargo, not coupled. A rating left out is a rating that
    /// could not be checked, and the report says so.
    pub struct TowVehicle: "the tow vehicle" {
        /// Load on the front axle, by scale, ready to drive, not coupled.
        required front_axle_lb: f64 = bounds::AXLE_LOAD_LB, 3300.0;
        /// Load on the rear axle, by scale, ready to drive, not coupled.
        required rear_axle_lb: f64 = bounds::AXLE_LOAD_LB, 2300.0;
        /// Gross axle weight rating of the front axle.
        optional front_gawr_lb: f64 = bounds::RATING_LB, 3800.0;
        /// Gross axle weight rating of the rear axle.
        optional rear_gawr_lb: f64 = bounds::RATING_LB, 4100.0;
        /// Gross vehicle weight rating.
        optional gvwr_lb: f64 = bounds::RATING_LB, 7100.0;
        /// Gross combination weight rating.
        optional gcwr_lb: f64 = bounds::RATING_LB, 14500.0;
        /// Distance between its axles.
        required wheelbase_in: f64 = bounds::WHEELBASE_IN, 145.0;
        /// Distance from its rear axle back to the ball.
        required ball_overhang_in: f64 = bounds::LENGTH_IN, 48.0;
        /// Gross trailer weight it is rated to tow.
        optional tow_rating_lb: f64 = bounds::RATING_LB, 8200.0;
        /// Tongue load of the receiver, in the mode it is used in.
        optional receiver_max_tongue_lb: f64 = bounds::RATING_LB, 800.0;
        /// Gross trailer weight of the receiver, in the mode it is used in.
        optional receiver_rating_lb: f64 = bounds::RATING_LB, 8000.0;
        /// Part of the front axle's loss that the spring bars of a weight-distributing hitch put back: 0 for
        /// no bars, 1 for the whole of it.
        optional front_load_restoration: f64 = bounds::RESTORATION, 0.5;
        /// Mass of hitch head, bars and ball mount where it is not in the axle loads above.
        optional hitch_lb: f64 = bounds::MASS_LB, 60.0;
    }
}
