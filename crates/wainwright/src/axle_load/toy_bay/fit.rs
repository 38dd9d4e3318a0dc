//! Whether the toys fit: what is left between them and the bay.

use crate::units::M_PER_IN;

/// Gap kept at each end of a line of toys and between two of them [m]: 4 in, common practice.
pub const GAP_M: f64 = 4.0 * M_PER_IN;
/// Clear width beside a toy that lets its rider climb off [m]: 20 in on one side, common practice.
pub const CLIMB_OFF_WIDTH_M: f64 = 20.0 * M_PER_IN;
/// Nearest an anchor may stand to a corner of the toy and still be of use [m]: 6 in, common practice.
pub const NEAREST_ANCHOR_M: f64 = 6.0 * M_PER_IN;
/// Farthest an anchor may stand from a corner of the toy and still be of use [m]: 30 in, common practice.
pub const FARTHEST_ANCHOR_M: f64 = 30.0 * M_PER_IN;

/// Margins a bay should leave: width 4 in (2 a side), height 3 in, door opening 3 in each way, common practice.
///
/// Length asks for nothing more: the margin in length already has the gaps taken off.
pub const DEFAULT_CLEARANCES: Margins = Margins {
    width_m: 4.0 * M_PER_IN,
    length_m: 0.0,
    height_m: 3.0 * M_PER_IN,
    door_width_m: 3.0 * M_PER_IN,
    door_height_m: 3.0 * M_PER_IN,
};

/// The clear room of a bay: lining, cabinet faces and folded bunks taken off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bay {
    /// Clear width at the wheel boxes or cabinets [m].
    pub width_m: f64,
    /// Clear length [m]. In a wedge nose it is measured at the toy's half-width, not on the centreline.
    pub length_m: f64,
    /// Clear height under what hangs lowest, a lifted bed included [m].
    pub height_m: f64,
    /// Clear width of the door opening [m].
    pub door_width_m: f64,
    /// Clear height of the door opening at full travel of the ramp springs' brackets [m].
    pub door_height_m: f64,
}

/// The outer size of a toy.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ToySize {
    /// Length [m], > 0.
    pub length_m: f64,
    /// Width [m], > 0.
    pub width_m: f64,
    /// Height with bars and roof, or the rider bent over it where it is ridden in [m], > 0.
    pub height_m: f64,
}

/// What is left each way; below zero it does not fit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Margins {
    /// Clear width less the widest toy, both sides together [m].
    pub width_m: f64,
    /// Clear length less the toys in line and the gaps [m].
    pub length_m: f64,
    /// Clear height less the highest toy [m].
    pub height_m: f64,
    /// Width of the door opening less the widest toy [m].
    pub door_width_m: f64,
    /// Height of the door opening less the highest toy [m].
    pub door_height_m: f64,
}

impl std::ops::Sub for Margins {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self {
            width_m: self.width_m - other.width_m,
            length_m: self.length_m - other.length_m,
            height_m: self.height_m - other.height_m,
            door_width_m: self.door_width_m - other.door_width_m,
            door_height_m: self.door_height_m - other.door_height_m,
        }
    }
}

/// What is left each way with the toys standing in line.
///
/// `width: clear − widest`, `length: clear − Σ lengths − (n + 1) gap`, `height: clear − highest`, likewise the door
///
/// Less `DEFAULT_CLEARANCES` it is what is left beyond the usual clearances.
///
/// - `bay`    the clear room
/// - `toys`   the toys, n of them, 1 or more
/// - `gap_m`  gap at each end and between two of them [m], 0 or more
///
/// Returns the margins [m]. Without a toy they are the clear room less one gap.
///
/// Source: geometry; clearances common practice.
pub fn margins(bay: Bay, toys: &[ToySize], gap_m: f64) -> Margins {
    let (mut width_m, mut height_m, mut length_m) = (0.0_f64, 0.0_f64, gap_m);
    for toy in toys {
        width_m = width_m.max(toy.width_m);
        height_m = height_m.max(toy.height_m);
        length_m += toy.length_m + gap_m;
    }
    Margins {
        width_m: bay.width_m - width_m,
        length_m: bay.length_m - length_m,
        height_m: bay.height_m - height_m,
        door_width_m: bay.door_width_m - width_m,
        door_height_m: bay.door_height_m - height_m,
    }
}

/// Clear width left and right of a toy.
///
/// `c = (B − b)/2 ± y`
///
/// - `bay_width_m`  clear width `B` [m], the bay centred on the trailer
/// - `toy_width_m`  width of the toy `b` [m]
/// - `toy_y_m`      its middle right of the centreline `y` [m]; left is negative
///
/// Returns left and right [m]; below zero it does not stand clear there.
///
/// Source: geometry.
pub fn side_widths(bay_width_m: f64, toy_width_m: f64, toy_y_m: f64) -> (f64, f64) {
    let each_m = 0.5 * (bay_width_m - toy_width_m);
    (each_m + toy_y_m, each_m - toy_y_m)
}

/// How far inside the useful range an anchor stands from a corner of the toy.
///
/// `min(d − nearest, farthest − d)`
///
/// - `distance_m`  from the corner to the anchor `d` [m], 0 or more
///
/// Returns the margin [m]; below zero it is too near or out of reach.
///
/// Source: common practice.
pub fn anchor_margin(distance_m: f64) -> f64 {
    (distance_m - NEAREST_ANCHOR_M).min(FARTHEST_ANCHOR_M - distance_m)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{inches, m};

    /// An invented bay and side-by-side, sizes in inches.
    fn bay() -> Bay {
        Bay {
            width_m: m(82.0),
            length_m: m(226.0),
            height_m: m(80.0),
            door_width_m: m(78.0),
            door_height_m: m(76.0),
        }
    }

    fn side_by_side() -> ToySize {
        ToySize { length_m: m(106.0), width_m: m(60.0), height_m: m(72.0) }
    }

    #[test]
    fn two_toys_in_line_take_three_gaps() {
        let margins = margins(bay(), &[side_by_side(), side_by_side()], GAP_M);
        assert_eq!(format!("{:.6}", inches(margins.length_m)), "2.000000");
        assert_eq!(format!("{:.6}", inches(margins.width_m)), "22.000000");
        assert_eq!(format!("{:.6}", inches(margins.height_m)), "8.000000");
        assert_eq!(format!("{:.6}", inches(margins.door_width_m)), "18.000000");
        assert_eq!(format!("{:.6}", inches(margins.door_height_m)), "4.000000");
    }

    #[test]
    fn the_widest_and_the_highest_toy_decide() {
        let motorcycle = ToySize { length_m: m(84.0), width_m: m(32.0), height_m: m(75.0) };
        let both = margins(bay(), &[side_by_side(), motorcycle], GAP_M);
        assert_eq!(format!("{:.6}", inches(both.width_m)), "22.000000");
        assert_eq!(format!("{:.6}", inches(both.height_m)), "5.000000");
        assert_eq!(format!("{:.6}", inches(both.length_m)), "24.000000");
    }

    #[test]
    fn a_toy_may_fit_and_still_leave_less_than_the_usual_clearance() {
        let bay = Bay { door_height_m: m(74.0), ..bay() };
        let left = margins(bay, &[side_by_side()], GAP_M);
        let beyond = left - DEFAULT_CLEARANCES;
        assert_eq!(format!("{:.6}", inches(left.door_height_m)), "2.000000");
        assert_eq!(format!("{:.6}", inches(beyond.door_height_m)), "-1.000000");
        assert_eq!(beyond.length_m, left.length_m);
    }

    #[test]
    fn a_rider_climbs_off_only_where_the_toy_stands_aside() {
        let widths_in = |y_in: f64| {
            let (left_m, right_m) = side_widths(m(82.0), m(60.0), m(y_in));
            (inches(left_m), inches(right_m))
        };
        let centered = widths_in(0.0);
        assert_eq!(format!("{:.6} {:.6}", centered.0, centered.1), "11.000000 11.000000");
        let aside = widths_in(9.5);
        assert_eq!(format!("{:.6} {:.6}", aside.0, aside.1), "20.500000 1.500000");
        assert!(m(aside.0) > CLIMB_OFF_WIDTH_M && m(centered.0) < CLIMB_OFF_WIDTH_M);
    }

    #[test]
    fn an_anchor_too_near_or_too_far_is_out_of_reach() {
        assert!(anchor_margin(m(5.0)) < 0.0);
        assert!(anchor_margin(m(31.0)) < 0.0);
        assert_eq!(format!("{:.6}", inches(anchor_margin(m(18.0)))), "12.000000");
    }
}
