//! The bounds of every quantity in a build document, and why they are where they are.
//!
//! They are wide: a bound refuses what cannot be meant (a slip of units, a sign, a runaway script) and keeps
//! every sum finite. Whether a value is wise is for the findings to say.

use crate::document::{Bound, Text, Whole};

/// A mass [lb]. This law of trailers ends at 10,000 lb; ten times that leaves room for any slip to be seen.
pub const MASS_LB: Bound = Bound::new(0.0, 100_000.0);
/// A rating or breaking strength [lb]. A rating of nothing is no rating.
pub const RATING_LB: Bound = Bound::new(1.0, 1_000_000.0);
/// A place along the trailer [in]: 40 ft ahead of the ball to 100 ft behind it.
pub const STATION_IN: Bound = Bound::new(-480.0, 1_200.0);
/// A place behind the ball where an axle can stand [in].
pub const AXLE_STATION_IN: Bound = Bound::new(12.0, 1_200.0);
/// A place right (+) or left (-) of the centerline [in]. The law's width is 102 in.
pub const OFFSET_IN: Bound = Bound::new(-120.0, 120.0);
/// A height above the ground [in]. The law's height is 13 ft 6 in to 14 ft.
pub const HEIGHT_IN: Bound = Bound::new(0.0, 240.0);
/// Height of a coupler ball [in].
pub const BALL_HEIGHT_IN: Bound = Bound::new(4.0, 60.0);
/// Distance between the wheels of an axle [in].
pub const TRACK_IN: Bound = Bound::new(20.0, 120.0);
/// A length of something aboard [in].
pub const LENGTH_IN: Bound = Bound::new(0.0, 1_200.0);
/// A length that something must have [in].
pub const POSITIVE_LENGTH_IN: Bound = Bound::new(0.01, 1_200.0);
/// Uncertainty of a mass [lb].
pub const MASS_TOLERANCE_LB: Bound = Bound::new(0.0, 10_000.0);
/// Uncertainty of a place [in].
pub const PLACE_TOLERANCE_IN: Bound = Bound::new(0.0, 240.0);
/// Content of a tank [gal].
pub const CAPACITY_GAL: Bound = Bound::new(0.0, 2_000.0);
/// Density of a liquid [lb/gal]: petroleum gases to brine.
pub const DENSITY_LB_PER_GAL: Bound = Bound::new(1.0, 20.0);
/// A part of a whole.
pub const FRACTION: Bound = Bound::new(0.0, 1.0);
/// Rate of one axle's springs and tires together [lb/in].
pub const SPRING_RATE_LB_PER_IN: Bound = Bound::new(10.0, 100_000.0);
/// Cold pressure of a tire [psi].
pub const PRESSURE_PSI: Bound = Bound::new(1.0, 200.0);
/// A deceleration or sideways acceleration as a share of gravity. Tires hold little more than one.
pub const ACCELERATION_G: Bound = Bound::new(0.0, 1.5);
/// A grade: rise over run.
pub const GRADE_FRACTION: Bound = Bound::new(0.0, 0.5);
/// A road speed [mph].
pub const SPEED_MPH: Bound = Bound::new(1.0, 120.0);
/// An angle between 0 and a right angle [degree].
pub const ANGLE_DEG: Bound = Bound::new(0.0, 90.0);
/// Distance between axles of a tow vehicle [in].
pub const WHEELBASE_IN: Bound = Bound::new(40.0, 400.0);
/// Stiffness of a floor panel [psi]: foam board to steel.
pub const MODULUS_PSI: Bound = Bound::new(1_000.0, 30_000_000.0);
/// Stress a floor panel may carry [psi].
pub const STRESS_PSI: Bound = Bound::new(1.0, 100_000.0);
/// How many of the same part.
pub const QUANTITY: Whole = Whole { minimum: 0, maximum: 10_000 };
/// Tires on one axle: one or two each side.
pub const TIRES: Whole = Whole { minimum: 2, maximum: 8 };
/// Safety chains.
pub const CHAINS: Whole = Whole { minimum: 1, maximum: 4 };
/// A name for people.
pub const NAME: Text = Text { longest: 200 };
/// At most so many parts.
pub const MOST_PARTS: usize = 10_000;
/// At most so many entries in any other map, items in any list.
pub const MOST_ENTRIES: usize = 1_000;
/// Mass of the bare trailer [lb]. It weighs something, so that no share is a share of nothing.
pub const BARE_MASS_LB: Bound = Bound::new(1.0, 100_000.0);
/// Load on an axle of a tow vehicle [lb].
pub const AXLE_LOAD_LB: Bound = Bound::new(1.0, 100_000.0);
/// Front axle load restoration. Above 1 the bars are set too tight: a finding, not a fault.
pub const RESTORATION: Bound = Bound::new(0.0, 2.0);
/// Heat given off or removed by a part [W].
pub const HEAT_W: Bound = Bound::new(-100_000.0, 100_000.0);
/// Wheels on one axle of a toy.
pub const TOY_WHEELS: Whole = Whole { minimum: 1, maximum: 4 };
