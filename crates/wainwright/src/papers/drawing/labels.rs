//! Labels beside a drawing that never overlap: each in a lane, with a line that leads to its point.

use super::width::{SIZE_PT, width_pt};

/// Height of a lane [pt].
pub const LANE_PT: f64 = 12.0;
/// Room between two labels, and between a label and another's line [pt].
const GAP_PT: f64 = 4.0;

/// Words for a point.
#[derive(Debug, Clone, PartialEq)]
pub struct Label {
    /// The words.
    pub text: String,
    /// Where the point is, from the left [pt].
    pub x_pt: f64,
}

/// A label in its lane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Placed {
    /// Its lane; 0 is the one beside the drawing.
    pub lane: usize,
    /// Its left edge [pt].
    pub left_pt: f64,
    /// Its right edge [pt].
    pub right_pt: f64,
    /// Where its line runs, across every nearer lane [pt].
    pub x_pt: f64,
}

impl Placed {
    /// Do two labels touch, or does the line of one run through the other?
    fn disturbs(&self, other: &Self) -> bool {
        let apart = self.right_pt + GAP_PT <= other.left_pt || other.right_pt + GAP_PT <= self.left_pt;
        let crossed = |near: &Self, far: &Self| {
            (near.left_pt - GAP_PT / 2.0..=near.right_pt + GAP_PT / 2.0).contains(&far.x_pt)
        };
        match self.lane.cmp(&other.lane) {
            std::cmp::Ordering::Equal => !apart,
            std::cmp::Ordering::Less => crossed(self, other),
            std::cmp::Ordering::Greater => crossed(other, self),
        }
    }
}

/// Room between a line and its own words [pt].
const STAFF_PT: f64 = 3.0;

/// Places for labels, the most important first; none for those that find no room.
///
/// A label hangs on its line like a flag. Flags that point to the right leave each other's lines free where the rightmost
/// takes the nearest lane; in the same way those to the left, and those to the middle. Of these ways the one is taken that
/// places the most labels, from the most important on, before it has to leave one out; the rest take what room is left.
///
/// - `left_pt`, `right_pt`  what they must stay within
/// - `lanes`  how many lanes there are
pub fn place(labels: &[Label], left_pt: f64, right_pt: f64, lanes: usize) -> Vec<Option<Placed>> {
    let field = Field { left_pt, right_pt, lanes };
    let middle = (left_pt + right_pt) / 2.0;
    let mut placed = vec![None; labels.len()];
    'all: for together in (0..=labels.len()).rev() {
        for way in [Way::Inward, Way::Right, Way::Left] {
            let of = |i: usize| way.of(labels[i].x_pt, middle);
            let mut order: Vec<usize> = (0..together).collect();
            order.sort_by(|a, b| of(*a).0.total_cmp(&of(*b).0));
            placed = vec![None; labels.len()];
            for i in order {
                placed[i] = field.free(&labels[i], of(i).1, &placed);
            }
            if placed[..together].iter().all(Option::is_some) {
                break 'all;
            }
        }
    }
    for i in 0..labels.len() {
        if placed[i].is_none() {
            placed[i] = field.free(&labels[i], labels[i].x_pt <= middle, &placed);
        }
    }
    placed
}

/// Which way flags point.
#[derive(Debug, Clone, Copy)]
enum Way {
    Inward,
    Right,
    Left,
}

impl Way {
    /// Its turn, the least first, and whether it points to the right.
    fn of(self, x_pt: f64, middle_pt: f64) -> (f64, bool) {
        match self {
            Self::Inward => ((x_pt - middle_pt).abs(), x_pt <= middle_pt),
            Self::Right => (-x_pt, true),
            Self::Left => (x_pt, false),
        }
    }
}

/// Where labels may stand.
struct Field {
    left_pt: f64,
    right_pt: f64,
    lanes: usize,
}

impl Field {
    /// The nearest free place of a label: to the side that is wanted, or else to the other.
    fn free(&self, label: &Label, to_the_right: bool, placed: &[Option<Placed>]) -> Option<Placed> {
        let room = width_pt(&label.text);
        let mut starts = [label.x_pt + STAFF_PT, label.x_pt - STAFF_PT - room];
        if !to_the_right {
            starts.reverse();
        }
        let all = (0..self.lanes).flat_map(|lane| {
            starts.map(|start| Placed { lane, left_pt: start, right_pt: start + room, x_pt: label.x_pt })
        });
        let mut within = all.filter(|one| self.left_pt <= one.left_pt && one.right_pt <= self.right_pt);
        within.find(|one| !placed.iter().flatten().any(|other| one.disturbs(other)))
    }
}

/// How many lanes are taken.
pub fn lanes_taken(placed: &[Option<Placed>]) -> usize {
    placed.iter().flatten().map(|one| one.lane + 1).max().unwrap_or(0)
}

/// Where the words of a lane stand above their lane's lower edge, so that they look centered [pt].
pub const BASE_PT: f64 = (LANE_PT - SIZE_PT) / 2.0 + 0.2 * SIZE_PT;

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn label(text: &str, x_pt: f64) -> Label {
        Label { text: text.to_owned(), x_pt }
    }

    #[test]
    fn labels_of_one_point_share_its_line() {
        let placed = place(&[label("galley", 100.0), label("bench", 100.0)], 0.0, 500.0, 4);
        let lanes: Vec<_> = placed.iter().map(|one| one.unwrap().lane).collect();
        // Both on one line, one to each side of it.
        assert_eq!(lanes, [0, 0]);
        assert!(!placed[0].unwrap().disturbs(&placed[1].unwrap()));
    }

    #[test]
    fn what_finds_no_room_is_left_out() {
        let many: Vec<Label> = (0..9).map(|_| label("place", 50.0)).collect();
        let placed = place(&many, 0.0, 100.0, 2);
        assert!(placed[0].is_some() && placed[8].is_none());
        assert_eq!(place(&[label("far too long for it", 5.0)], 0.0, 20.0, 3), [None]);
        assert_eq!(lanes_taken(&placed), 2);
    }

    proptest! {
        #[test]
        fn none_overlaps_and_none_sticks_out(
            points in prop::collection::vec((0.0..500.0_f64, "[a-z W]{1,40}"), 0..60),
            lanes in 0_usize..9,
        ) {
            let labels: Vec<Label> = points.iter().map(|(x_pt, text)| label(text, *x_pt)).collect();
            let placed: Vec<Placed> = place(&labels, 0.0, 500.0, lanes).into_iter().flatten().collect();
            for (i, one) in placed.iter().enumerate() {
                prop_assert!(one.lane < lanes && one.left_pt >= 0.0 && one.right_pt <= 500.0);
                for other in &placed[i + 1..] {
                    if one.lane == other.lane {
                        prop_assert!(one.right_pt < other.left_pt || other.right_pt < one.left_pt);
                    }
                    let (near, far) = if one.lane < other.lane { (one, other) } else { (other, one) };
                    let through = near.lane < far.lane && near.left_pt <= far.x_pt && far.x_pt <= near.right_pt;
                    prop_assert!(!through);
                }
            }
        }
    }
}
