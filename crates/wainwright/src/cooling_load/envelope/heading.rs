//! The six faces of the body, and where each looks.

use std::f64::consts::{FRAC_PI_2, PI};

use crate::sky::incidence::Plane;

/// A face of the body.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Face {
    /// The wall at the tongue.
    Front,
    /// The wall on the right, seen forward.
    Right,
    /// The wall or ramp at the back.
    Rear,
    /// The wall on the left, seen forward.
    Left,
    /// The roof.
    Roof,
    /// The underside.
    Floor,
}

impl Face {
    /// All six.
    pub const ALL: [Self; 6] = [Self::Front, Self::Right, Self::Rear, Self::Left, Self::Roof, Self::Floor];

    /// Quarter turns from the heading to where a wall looks; roof and floor look nowhere.
    fn quarter_turns(self) -> f64 {
        match self {
            Self::Front | Self::Roof | Self::Floor => 0.0,
            Self::Right => 1.0,
            Self::Rear => 2.0,
            Self::Left => 3.0,
        }
    }

    /// Angle from facing up [rad].
    fn tilt_rad(self) -> f64 {
        match self {
            Self::Roof => 0.0,
            Self::Floor => PI,
            Self::Front | Self::Right | Self::Rear | Self::Left => FRAC_PI_2,
        }
    }
}

/// How a face stands.
///
/// Walls: `β = 90°`, `γ = H` front, `H + 90°` right, `H + 180°` rear, `H + 270°` left; roof `β = 0`; floor `β = 180°`
///
/// - `face`         the face
/// - `heading_deg`  where the tongue points H, clockwise from north [degrees]. Degrees, so that a quarter turn is exact and
///   puts every wall to the bit where another was
///
/// Returns its tilt β [rad] and azimuth γ [rad], 0 to 2π; those of roof and floor are of no effect.
///
/// Source: geometry of a box.
pub fn plane(face: Face, heading_deg: f64) -> Plane {
    let azimuth_deg = (heading_deg + 90.0 * face.quarter_turns()).rem_euclid(360.0);
    Plane { tilt_rad: face.tilt_rad(), azimuth_rad: azimuth_deg.to_radians() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn heading_north_the_walls_look_north_east_south_and_west() {
        let azimuths = Face::ALL.map(|face| plane(face, 0.0).azimuth_rad.to_degrees().round());
        assert_eq!(azimuths[..4], [0.0, 90.0, 180.0, 270.0]);
        let tilts = Face::ALL.map(|face| plane(face, 0.0).tilt_rad);
        assert_eq!(tilts, [FRAC_PI_2, FRAC_PI_2, FRAC_PI_2, FRAC_PI_2, 0.0, PI]);
    }

    #[test]
    fn a_heading_is_the_same_a_full_turn_on() {
        for face in Face::ALL {
            assert_eq!(plane(face, -30.0), plane(face, 330.0));
            assert_eq!(plane(face, 390.0), plane(face, 30.0));
        }
    }
}
