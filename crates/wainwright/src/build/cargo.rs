//! Section `cargo`: everything that may be aboard or left at home.

use crate::bounds;
use crate::document::{Choice, Keyed, Map, Options, Section, record};

record! {
    /// Something that may be aboard or left at home: a toy, gear, food.
    pub struct Cargo: "cargo" {
        /// Its mass.
        required mass_lb: f64 = bounds::MASS_LB, 690.0;
        /// Its center of gravity behind the ball.
        optional x_in: f64 = bounds::STATION_IN, 205.0;
        /// Its center of gravity right (+) or left (-) of the centerline.
        optional y_in: f64 = bounds::OFFSET_IN, 0.0;
        /// Height of its center of gravity above the ground.
        optional z_in: f64 = bounds::HEIGHT_IN, 46.0;
        /// How far the mass may be off, either way.
        optional mass_tolerance_lb: f64 = bounds::MASS_TOLERANCE_LB, 10.0;
        /// How far `x_in` may be off, either way.
        optional x_tolerance_in: f64 = bounds::PLACE_TOLERANCE_IN, 2.0;
        /// The stand it takes. Of all cargo that names the same stand only one can be aboard.
        optional stand: String = bounds::NAME, "bay";
        /// Its size, where it is a toy that is driven or rolled in.
        optional toy: Toy = Section::of();
        /// The straps that hold it.
        optional tie_downs: Keyed<TieDown> = Map { of: Section::of(), most: bounds::MOST_ENTRIES, example_id: "front_left" };
    }
}

record! {
    /// A toy that is driven or rolled in.
    pub struct Toy: "a toy" {
        /// Its length.
        required length_in: f64 = bounds::POSITIVE_LENGTH_IN, 80.0;
        /// Its width.
        required width_in: f64 = bounds::POSITIVE_LENGTH_IN, 46.0;
        /// Its height.
        required height_in: f64 = bounds::POSITIVE_LENGTH_IN, 47.0;
        /// Distance between its axles.
        optional wheelbase_in: f64 = bounds::POSITIVE_LENGTH_IN, 50.0;
        /// Part of its mass on the front axle.
        optional front_fraction: f64 = bounds::FRACTION, 0.45;
        /// Wheels on each of its axles.
        optional wheels_per_axle: u32 = bounds::TOY_WHEELS, 2;
        /// Width of a tire where it touches the floor.
        optional tire_width_in: f64 = bounds::POSITIVE_LENGTH_IN, 8.0;
        /// Ground clearance between its axles.
        optional clearance_in: f64 = bounds::LENGTH_IN, 9.0;
        /// Whoever rides it in.
        optional rider_lb: f64 = bounds::MASS_LB, 190.0;
    }
}

record! {
    /// One strap or chain that holds cargo to the trailer.
    pub struct TieDown: "a tie-down" {
        /// Working load limit of its weakest piece: webbing, tensioner or anchor.
        required wll_lb: f64 = bounds::RATING_LB, 400.0;
        /// Breaking strength of its weakest piece.
        optional breaking_strength_lb: f64 = bounds::RATING_LB, 1200.0;
        /// Angle between strap and floor.
        required floor_angle_deg: f64 = bounds::ANGLE_DEG, 45.0;
        /// Angle between the strap, seen from above, and the trailer's long axis.
        required axis_angle_deg: f64 = bounds::ANGLE_DEG, 30.0;
        /// Which way it pulls the cargo along the trailer.
        required pulls: Pull = Choice::of(), "forward";
        /// To which side it pulls the cargo.
        required side: Side = Choice::of(), "left";
        /// How it holds: `direct` from the trailer to the cargo, or over the cargo and back to the
        /// `over_same_side` or `over_to_other_side`.
        optional attachment: Attachment = Choice::of(), "direct";
    }
}

/// Which way a tie-down pulls along the trailer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pull {
    /// Toward the ball.
    Forward,
    /// Toward the rear.
    Rearward,
}

impl Options for Pull {
    const WORDS: &'static [(&'static str, Self)] =
        &[("forward", Self::Forward), ("rearward", Self::Rearward)];
}

/// To which side a tie-down pulls.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// To the left.
    Left,
    /// To the right.
    Right,
}

impl Options for Side {
    const WORDS: &'static [(&'static str, Self)] = &[("left", Self::Left), ("right", Self::Right)];
}

/// How a tie-down holds, as 49 CFR 393.106(d) tells them apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Attachment {
    /// From the trailer to the cargo.
    Direct,
    /// From the trailer over or through the cargo, back to the same side.
    OverSameSide,
    /// From the trailer over the cargo to the other side.
    OverToOtherSide,
}

impl Options for Attachment {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("direct", Self::Direct),
        ("over_same_side", Self::OverSameSide),
        ("over_to_other_side", Self::OverToOtherSide),
    ];
}
