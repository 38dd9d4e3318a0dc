//! Narrow spans between two points of a grid, where the slack points at them.

use super::sample::{Sample, Tries};
use crate::input::Range;

/// At most so many peaks are looked into.
const MOST_PEAKS: usize = 4;
/// A peak is narrowed by so many steps; each leaves 0.62 of its width.
const STEPS: u32 = 16;
/// The golden section.
const GOLDEN: f64 = 0.618_033_988_749_894_9;

/// Adds to samples, which are in ascending order, one in each span that is narrower than their gaps and that the slack
/// around it points at: where three that do not pass have the best in the middle, or three that pass the worst.
pub fn add(range: &Range, samples: &mut Vec<Sample>, tries: &mut impl Tries) {
    if !matches!(range, Range::Real { .. }) {
        return;
    }
    let peaks: Vec<(f64, f64, bool)> = samples.windows(3).filter_map(peak).take(MOST_PEAKS).collect();
    for (low, high, wanted) in peaks {
        if let Some(sample) = climb(low, high, wanted, tries) {
            let place = samples.partition_point(|other| other.x < sample.x);
            samples.insert(place, sample);
        }
    }
}

/// The ends of a peak, and whether its top would pass.
fn peak(three: &[Sample]) -> Option<(f64, f64, bool)> {
    let [one, middle, other] = three else { return None };
    let wanted = !middle.passes;
    if one.passes == wanted || other.passes == wanted {
        return None;
    }
    let height = |sample: &Sample| sample.slack.map(|slack| if wanted { slack } else { -slack });
    let (left, top, right) = (height(one)?, height(middle)?, height(other)?);
    (top >= left && top >= right && top > left.min(right)).then_some((one.x, other.x, wanted))
}

/// Climbs by golden section until a sample is on the other side.
fn climb(mut low: f64, mut high: f64, wanted: bool, tries: &mut impl Tries) -> Option<Sample> {
    let height = |sample: Sample| sample.slack.map(|slack| if wanted { slack } else { -slack });
    let mut left = tries.at(high - GOLDEN * (high - low));
    let mut right = tries.at(low + GOLDEN * (high - low));
    for _ in 0..STEPS {
        for sample in [left, right] {
            if sample.answered && sample.passes == wanted {
                return Some(sample);
            }
        }
        if height(left)? >= height(right)? {
            (high, right) = (right.x, left);
            left = tries.at(high - GOLDEN * (high - low));
        } else {
            (low, left) = (left.x, right);
            right = tries.at(low + GOLDEN * (high - low));
        }
    }
    None
}
