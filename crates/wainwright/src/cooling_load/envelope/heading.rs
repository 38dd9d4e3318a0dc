//! The six faces of the body, and where each looks.

use std::f64::consts::{FRAC_PI_2, PI};

use crate::build::Facing;
use crate::sky::incidence::Plane;

/// Quarter turns from the heading to where a wall looks; roof and floor look nowhere.
fn quarter_turns(facing: Facing) -> f64 {
    match facing {
        Facing::Front | Facing::Roof | Facing::Floor => 0.0,
        Facing::Right => 1.0,
        Facing::Rear => 2.0,
        Facing::Left => 3.0,
    }
}

/// Angle from facing up [rad].
fn tilt_rad(facing: Facing) -> f64 {
    match facing {
        Facing::Roof => 0.0,
        Facing::Floor => PI,
        Facing::Front | Facing::Right | Facing::Rear | Facing::Left => FRAC_PI_2,
    }
}

/// How a face stands.
///
/// Walls: `β = 90°`, `γ = H` front, `H + 90°` right, `H + 180°` rear, `H + 270°` left; roof `β = 0`; floor `β = 180°`
///
/// - `facing`       the face
/// - `heading_deg`  where the tongue points H, clockwise from north [degrees]. Degrees, so that a quarter turn is exact and
///   puts every wall to the bit where another was
///
/// Returns its tilt β [rad] and azimuth γ [rad], 0 to 2π; those of roof and floor are of no effect.
///
/// Source: geometry of a box.
pub fn plane(facing: Facing, heading_deg: f64) -> Plane {
    let azimuth_deg = (heading_deg + 90.0 * quarter_turns(facing)).rem_euclid(360.0);
    Plane { tilt_rad: tilt_rad(facing), azimuth_rad: azimuth_deg.to_radians() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn heading_north_the_walls_look_north_east_south_and_west() {
        let azimuths = [Facing::Front, Facing::Right, Facing::Rear, Facing::Left]
            .map(|facing| plane(facing, 0.0).azimuth_rad.to_degrees().round());
        assert_eq!(azimuths, [0.0, 90.0, 180.0, 270.0]);
        let tilts = Facing::ALL.map(|facing| plane(facing, 0.0).tilt_rad);
        assert_eq!(tilts, [0.0, PI, FRAC_PI_2, FRAC_PI_2, FRAC_PI_2, FRAC_PI_2]);
    }

    #[test]
    fn a_heading_is_the_same_a_full_turn_on() {
        for face in Facing::ALL {
            assert_eq!(plane(face, -30.0), plane(face, 330.0));
            assert_eq!(plane(face, 390.0), plane(face, 30.0));
        }
    }
}
