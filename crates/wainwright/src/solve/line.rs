//! A slack that follows a line over the whole range: its root in closed form.

use super::bracket::Bracket;
use super::sample::{Sample, Tries};
use super::search::Search;
use crate::input::Range;

/// Between the ends of the range, where the line is held against: shares of the range that no pattern repeats in.
const CHECKED: [f64; 7] = [0.0703, 0.1931, 0.3559, 0.5147, 0.6373, 0.8219, 0.9413];
/// A slack is on the line where it is off by no more than this share of the greatest slack.
const OFF: f64 = 1e-9;

/// The search by a line through the ends of a range; none where the slack does not follow one.
pub fn search(range: &Range, present: Option<f64>, tries: &mut impl Tries) -> Option<Search> {
    let (Range::Real { .. }, (low, high)) = (range, range.ends()?) else { return None };
    if low == high {
        return None;
    }
    let first = tries.at(low);
    let second = tries.at(present.filter(|&x| range.has(x)).unwrap_or(low / 2.0 + high / 2.0));
    let last = tries.at(high);
    let (from, to) = (first.slack?, last.slack?);
    let slope = (to - from) / (high - low);
    let on_line = |sample: Sample| {
        let expected = from + slope * (sample.x - low);
        let scale = from.abs().max(to.abs());
        sample.slack.is_some_and(|slack| (slack - expected).abs() <= OFF * scale)
    };
    if !on_line(second) || !CHECKED.iter().all(|share| on_line(tries.at(low + share * (high - low)))) {
        return None;
    }
    let mut boundary = None;
    if first.passes != last.passes {
        let mut bracket = around(range, low - from / slope, first, last, tries);
        bracket.narrow(range, tries);
        boundary = Some(bracket);
    }
    let spans = match (first.passes, last.passes, boundary) {
        (true, _, Some(bracket)) => vec![(low, bracket.inside.x)],
        (_, true, Some(bracket)) => vec![(bracket.inside.x, high)],
        (true, true, _) => vec![(low, high)],
        _ => Vec::new(),
    };
    let points = CHECKED.len() as u32 + 3;
    let nearest = if from >= to { first } else { last };
    Some(Search {
        low,
        high,
        points,
        widest_gap: (high - low) * widest_share(),
        spans,
        boundary,
        is_linear: true,
        is_flat: from == to,
        nearest: (!first.passes && !last.passes).then_some(nearest),
    })
}

/// A bracket around the line's root as narrow as rounding allows, within the ends of the range.
fn around(range: &Range, root: f64, first: Sample, last: Sample, tries: &mut impl Tries) -> Bracket {
    let (inside, outside) = if first.passes { (first, last) } else { (last, first) };
    let mut bracket = Bracket { inside, outside };
    let mut away = f64::EPSILON * root.abs().max(f64::EPSILON * (last.x - first.x));
    let within = |x: &f64| range.has(*x) && *x > first.x && *x < last.x;
    while away < last.x - first.x {
        for x in [root - away, root + away].into_iter().filter(within) {
            let sample = tries.at(x);
            let end = if sample.passes { &mut bracket.inside } else { &mut bracket.outside };
            // An end moves toward the other alone.
            if (sample.x - root).abs() < (end.x - root).abs() {
                *end = sample;
            }
        }
        if bracket.width() <= 3.0 * away {
            break;
        }
        away *= 16.0;
    }
    bracket
}

/// The widest gap between two of the shares that are looked at, the ends among them.
fn widest_share() -> f64 {
    let after = CHECKED.iter().copied().chain([1.0]);
    let gaps = [0.0].into_iter().chain(CHECKED).zip(after).map(|(one, next)| next - one);
    gaps.fold(0.0, f64::max)
}

#[cfg(test)]
mod tests {
    use super::*;

    struct Function<F>(F);

    impl<F: Fn(f64) -> f64> Tries for Function<F> {
        fn at(&mut self, x: f64) -> Sample {
            let slack = (self.0)(x);
            Sample { x, answered: true, passes: slack >= 0.0, slack: Some(slack) }
        }
    }

    const RANGE: Range = Range::Real { low: 0.0, high: 1_000.0 };

    fn on_a_line(slack: impl Fn(f64) -> f64) -> Option<Search> {
        search(&RANGE, Some(300.0), &mut Function(slack))
    }

    #[test]
    fn the_root_of_a_line_is_found_to_the_last_digits() {
        for root in [0.1, 123.456, 999.99] {
            let down = on_a_line(|x| 7.3 * (root - x)).unwrap();
            let bracket = down.boundary.unwrap();
            assert!(bracket.width() <= 1e-11 * root && (bracket.inside.x - root).abs() <= 1e-11 * root);
            assert!(bracket.inside.passes && !bracket.outside.passes);
            assert_eq!(down.spans, [(0.0, bracket.inside.x)]);
            let up = on_a_line(|x| (x - root) / 3.0).unwrap();
            assert_eq!(up.spans, [(up.boundary.unwrap().inside.x, 1_000.0)]);
        }
    }

    #[test]
    fn a_line_without_a_root_in_the_range_has_no_boundary() {
        let above = on_a_line(|x| 5.0 + x).unwrap();
        assert_eq!(
            (above.spans.as_slice(), above.boundary, above.nearest),
            (&[(0.0, 1_000.0)][..], None, None)
        );
        let below = on_a_line(|x| -5.0 - x).unwrap();
        assert_eq!((below.spans.len(), below.nearest.unwrap().x), (0, 0.0));
        assert_eq!(on_a_line(|_| -1.0).unwrap().boundary, None);
    }

    #[test]
    fn a_bend_is_no_line() {
        assert_eq!(on_a_line(|x| (x - 500.0).min(400.0)), None);
        assert_eq!(on_a_line(|x| x * x - 4.0), None);
        let whole = Range::Whole { low: 0.0, high: 9.0 };
        assert_eq!(search(&whole, None, &mut Function(|x| x - 3.0)), None);
    }
}
