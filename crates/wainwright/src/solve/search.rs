//! Where what is asked for begins and ceases to hold, over a range of an input.

use super::bracket::Bracket;
use super::line;
use super::peak;
use super::sample::{Sample, Tries};
use crate::input::Range;

/// At most so many places where passing begins or ends are narrowed; any more are known as far as the grid goes.
const MOST_EDGES: usize = 24;
/// Places other than the one asked for are narrowed by so many halvings.
const HALVINGS: u32 = 10;

/// How finely a range is looked at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fineness {
    /// Even steps over the range.
    pub cells: u32,
    /// So many times the step is halved around the present value.
    pub halvings: u32,
}

/// What was found.
#[derive(Debug, Clone, PartialEq)]
pub struct Search {
    /// The least value that was answered.
    pub low: f64,
    /// The greatest value that was answered.
    pub high: f64,
    /// Values that were looked at one after another.
    pub points: u32,
    /// The widest gap between two of them.
    pub widest_gap: f64,
    /// Every span in which it holds, in ascending order, both ends within it.
    pub spans: Vec<(f64, f64)>,
    /// Where it begins or ceases to hold nearest to the present value; none where it does neither.
    pub boundary: Option<Bracket>,
    /// Does the slack follow a line?
    pub is_linear: bool,
    /// Is the slack the same wherever it was looked at?
    pub is_flat: bool,
    /// The sample that comes nearest to passing, where none does.
    pub nearest: Option<Sample>,
}

/// Looks for it.
///
/// - `present`  the present value of the input, or the middle of interest
///
/// None where no value of the range is answered.
pub fn search(
    range: &Range,
    present: Option<f64>,
    fineness: Fineness,
    tries: &mut impl Tries,
) -> Option<Search> {
    if let Some(search) = line::search(range, present, tries) {
        return Some(search);
    }
    let grid = range.grid(present, fineness.cells, fineness.halvings);
    let mut samples: Vec<Sample> = grid.into_iter().map(|x| tries.at(x)).collect();
    cut(range, &mut samples, tries);
    let (low, high) = (samples.first()?.x, samples.last()?.x);
    peak::add(range, &mut samples, tries);
    let widest_gap = samples.windows(2).map(|pair| pair[1].x - pair[0].x).fold(0.0, f64::max);
    let mut edges = edges(&samples);
    let nearest = nearest_edge(range, present.unwrap_or(low), &mut edges, tries);
    if let Some(nearest) = nearest {
        edges[nearest].narrow(range, tries);
    }
    Some(Search {
        low,
        high,
        points: samples.len() as u32,
        widest_gap,
        spans: spans(&samples, &edges),
        boundary: nearest.map(|nearest| edges[nearest]),
        is_linear: false,
        is_flat: low < high
            && samples[0].slack.is_some()
            && samples.iter().all(|sample| sample.slack == samples[0].slack),
        nearest: nearest_to_passing(&samples),
    })
}

/// Takes off both ends what is not answered, up to the last value that is.
fn cut(range: &Range, samples: &mut Vec<Sample>, tries: &mut impl Tries) {
    let Some(first) = samples.iter().position(|sample| sample.answered) else { return samples.clear() };
    // There is one that is answered.
    let last = samples.iter().rposition(|sample| sample.answered).unwrap_or(first);
    let at_start = (first > 0).then(|| last_answered(range, samples[first], samples[first - 1], tries));
    let at_end =
        samples.get(last + 1).copied().map(|beyond| last_answered(range, samples[last], beyond, tries));
    samples.truncate(last + 1);
    samples.drain(..first);
    if let Some(sample) = at_start.filter(|sample| sample.x != samples[0].x) {
        samples.insert(0, sample);
    }
    if let Some(sample) = at_end.filter(|sample| samples.last().is_none_or(|last| sample.x != last.x)) {
        samples.push(sample);
    }
}

/// The last value that is answered, between one that is and one that is not.
fn last_answered(range: &Range, answered: Sample, beyond: Sample, tries: &mut impl Tries) -> Sample {
    struct Answered<'a, T>(&'a mut T);
    impl<T: Tries> Tries for Answered<'_, T> {
        fn at(&mut self, x: f64) -> Sample {
            let sample = self.0.at(x);
            Sample { passes: sample.answered, slack: None, ..sample }
        }
    }
    let mut bracket = Bracket { inside: answered, outside: beyond };
    bracket.narrow(range, &mut Answered(tries));
    tries.at(bracket.inside.x)
}

/// Every pair of neighbors of which one passes.
fn edges(samples: &[Sample]) -> Vec<Bracket> {
    let pairs = samples.windows(2).filter(|pair| pair[0].passes != pair[1].passes);
    pairs
        .map(|pair| match pair[0].passes {
            true => Bracket { inside: pair[0], outside: pair[1] },
            false => Bracket { inside: pair[1], outside: pair[0] },
        })
        .collect()
}

/// The index of the edge nearest to a value, all having been narrowed so far that the nearest can be told.
fn nearest_edge(range: &Range, to: f64, edges: &mut [Bracket], tries: &mut impl Tries) -> Option<usize> {
    if edges.len() > 1 {
        edges.iter_mut().take(MOST_EDGES).for_each(|edge| edge.halve(range, HALVINGS, tries));
    }
    let distance = |edge: &Bracket| (edge.inside.x - to).abs().max((edge.outside.x - to).abs());
    let by_distance = edges.iter().map(distance).enumerate();
    by_distance.min_by(|(_, one), (_, other)| one.total_cmp(other)).map(|(index, _)| index)
}

/// The spans in which it holds, by the samples and their edges.
fn spans(samples: &[Sample], edges: &[Bracket]) -> Vec<(f64, f64)> {
    let mut ends = edges.iter().map(|edge| edge.inside.x);
    let mut spans = Vec::new();
    let mut from = samples.first().filter(|first| first.passes).map(|first| first.x);
    for pair in samples.windows(2).filter(|pair| pair[0].passes != pair[1].passes) {
        // One edge for each such pair.
        let end = ends.next().unwrap_or(pair[0].x);
        match from.take() {
            Some(from) => spans.push((from, end)),
            None => from = Some(end),
        }
    }
    if let (Some(from), Some(last)) = (from, samples.last()) {
        spans.push((from, last.x));
    }
    spans
}

fn nearest_to_passing(samples: &[Sample]) -> Option<Sample> {
    if samples.iter().any(|sample| sample.passes) {
        return None;
    }
    let slack = |sample: &Sample| sample.slack.unwrap_or(f64::NEG_INFINITY);
    let known = samples.iter().filter(|sample| sample.slack.is_some());
    known.max_by(|one, other| slack(one).total_cmp(&slack(other))).copied()
}

#[cfg(test)]
mod tests {
    use super::*;

    struct Function<F, A>(F, A, u32);

    impl<F: Fn(f64) -> f64, A: Fn(f64) -> bool> Tries for Function<F, A> {
        fn at(&mut self, x: f64) -> Sample {
            self.2 += 1;
            if !(self.1)(x) {
                return Sample { x, answered: false, passes: false, slack: None };
            }
            let slack = (self.0)(x);
            Sample { x, answered: true, passes: slack >= 0.0, slack: Some(slack) }
        }
    }

    const FINE: Fineness = Fineness { cells: 32, halvings: 4 };

    fn searched(
        range: &Range,
        present: Option<f64>,
        slack: impl Fn(f64) -> f64,
        answered: impl Fn(f64) -> bool,
    ) -> Option<Search> {
        search(range, present, FINE, &mut Function(slack, answered, 0))
    }

    fn near(one: f64, other: f64) -> bool {
        (one - other).abs() <= 1e-8 * other.abs().max(1.0)
    }

    #[test]
    fn of_several_boundaries_the_one_nearest_to_the_present_value_is_given() {
        let range = Range::Real { low: 0.0, high: 10.0 };
        let wave = |x: f64| (x - 2.0) * (x - 5.0) * (9.0 - x);
        for (present, boundary) in [(2.4, 2.0), (4.5, 5.0), (8.0, 9.0), (0.0, 2.0), (9.6, 9.0)] {
            let search = searched(&range, Some(present), wave, |_| true).unwrap();
            let found = search.boundary.unwrap();
            assert!(near(found.inside.x, boundary), "{present}: {found:?}");
            assert!(found.inside.passes && !found.outside.passes && found.width() < 1.1e-8);
            assert_eq!(search.spans.len(), 2);
            assert!(search.spans[0].0 == 0.0 && (search.spans[0].1 - 2.0).abs() < 1e-3);
            assert!((search.spans[1].0 - 5.0).abs() < 1e-3 && (search.spans[1].1 - 9.0).abs() < 1e-3);
        }
        assert!(near(searched(&range, None, wave, |_| true).unwrap().boundary.unwrap().inside.x, 2.0));
    }

    #[test]
    fn everywhere_and_nowhere_have_no_boundary() {
        let range = Range::Real { low: -1.0, high: 1.0 };
        let everywhere = searched(&range, Some(0.0), |x| 1.0 + x * x, |_| true).unwrap();
        assert_eq!((everywhere.boundary, everywhere.spans.as_slice()), (None, &[(-1.0, 1.0)][..]));
        assert_eq!(everywhere.nearest, None);
        let nowhere = searched(&range, Some(0.5), |x| -1.0 - x * x, |_| true).unwrap();
        assert!(nowhere.boundary.is_none() && nowhere.spans.is_empty());
        assert!(nowhere.nearest.unwrap().x.abs() < 0.01, "{nowhere:?}");
    }

    #[test]
    fn a_narrow_span_between_two_points_is_found_where_the_slack_points_at_it() {
        let range = Range::Real { low: 0.0, high: 100.0 };
        let narrow = |x: f64| 0.01 - (x - 33.9_f64).abs();
        let search = searched(&range, Some(80.0), narrow, |_| true).unwrap();
        assert!(near(search.boundary.unwrap().inside.x, 33.91), "{search:?}");
        assert_eq!(search.spans.len(), 1);
        let dip = searched(&range, Some(20.0), |x| -narrow(x), |_| true).unwrap();
        assert!(near(dip.boundary.unwrap().inside.x, 33.89) && dip.spans.len() == 2, "{dip:?}");
    }

    #[test]
    fn a_range_is_cut_to_what_is_answered() {
        let range = Range::Real { low: 0.0, high: 100.0 };
        let search = searched(&range, Some(50.0), |x| 60.5 - x, |x| (12.25..=81.5).contains(&x)).unwrap();
        assert!(near(search.low, 12.25) && near(search.high, 81.5), "{search:?}");
        assert!(search.low >= 12.25 && search.high <= 81.5);
        assert!(near(search.boundary.unwrap().inside.x, 60.5));
        assert!(near(search.spans[0].0, 12.25));
        assert!(searched(&range, Some(50.0), |x| x, |_| false).is_none());
        let hole = searched(&range, Some(50.0), |x| 60.5 + x * x, |x| !(70.0..80.0).contains(&x)).unwrap();
        assert_eq!(hole.spans.len(), 2);
        assert!(near(hole.boundary.unwrap().inside.x, 70.0));
    }

    #[test]
    fn whole_numbers_are_found_exactly() {
        let range = Range::Whole { low: 0.0, high: 10_000.0 };
        let search = searched(&range, Some(3.0), |x| (777.5 - x).powi(3), |x| x < 5_000.0).unwrap();
        let found = search.boundary.unwrap();
        assert_eq!((found.inside.x, found.outside.x, search.high), (777.0, 778.0, 4_999.0));
        let listed = Range::Listed(vec![60.0, 75.0, 90.0]);
        let search = searched(&listed, Some(60.0), |x| x - 70.0, |_| true).unwrap();
        assert_eq!(search.spans, [(75.0, 90.0)]);
        assert_eq!(search.boundary.unwrap().outside.x, 60.0);
    }

    #[test]
    fn an_empty_range_and_a_range_of_one_value_are_looked_at_all_the_same() {
        assert!(searched(&Range::Whole { low: 1.0, high: 0.0 }, None, |x| x, |_| true).is_none());
        let one = searched(&Range::Real { low: 2.0, high: 2.0 }, Some(2.0), |x| x, |_| true).unwrap();
        assert_eq!((one.spans.as_slice(), one.boundary), (&[(2.0, 2.0)][..], None));
    }
}
