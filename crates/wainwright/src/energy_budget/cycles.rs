//! Cycles of a battery's state of charge, and the life they use up.

/// A cycle, or half of one, in a series.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cycle {
    /// From its lowest to its highest value; of a state of charge, the depth.
    pub range: f64,
    /// 1 for a whole cycle, 0.5 for half of one.
    pub count: f64,
}

/// Counts the cycles of a series by the rainflow method.
///
/// Of two neighboring ranges the earlier is counted when the later is no smaller: as a whole cycle where it lies within
/// the series, as half where it holds the start. What never closes counts as halves.
///
/// - `series`    values in order, finite; it is used up as the place to work in
/// - `on_cycle`  called with each cycle as it is found
///
/// Values between turns count for nothing. A series of fewer than two different values has no cycle.
///
/// Source: ASTM E1049-85, section 5.4.4, `from memory`; its example is reproduced.
pub fn rainflow(series: &mut [f64], mut on_cycle: impl FnMut(Cycle)) {
    // The turns still open stand at the front of the series, never beyond what has been read.
    let mut open = 0;
    for next in 0..series.len() {
        let value = series[next];
        if open > 0 && series[open - 1] == value {
            continue;
        }
        // A value that goes on the way the last one went takes its place.
        if open > 1 && (series[open - 1] > series[open - 2]) == (value > series[open - 1]) {
            open -= 1;
        }
        series[open] = value;
        open += 1;
        while open > 2 {
            let range = (series[open - 2] - series[open - 3]).abs();
            if (value - series[open - 2]).abs() < range {
                break;
            }
            if open == 3 {
                on_cycle(Cycle { range, count: 0.5 });
                series.copy_within(1..3, 0);
                open = 2;
            } else {
                on_cycle(Cycle { range, count: 1.0 });
                series[open - 3] = value;
                open -= 2;
            }
        }
    }
    for pair in series[..open].windows(2) {
        on_cycle(Cycle { range: (pair[1] - pair[0]).abs(), count: 0.5 });
    }
}

/// A point of a battery's cycle life: so many cycles of such a depth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LifePoint {
    /// Depth of discharge, above 0, to 1.
    pub depth: f64,
    /// Cycles until 80 percent of the capacity is left, above 0. Typical: flooded 500 to 700 at depth 0.5, absorbed 500
    /// to 600 at 0.5, lithium iron phosphate 2,000 to 4,000 at 0.8 (`common practice`).
    pub cycles: f64,
}

/// How steeply life falls with depth, from two points of a datasheet.
///
/// `b = ln(N_1 / N_2) / ln(D_2 / D_1)`
///
/// - `first`, `second`  points with different depths
///
/// Returns b, above 0 where deeper cycles are fewer.
///
/// Source: a straight line of log N over log D (Wöhler).
pub fn life_exponent(first: LifePoint, second: LifePoint) -> f64 {
    (first.cycles / second.cycles).ln() / (second.depth / first.depth).ln()
}

/// Cycles a battery lasts at a depth.
///
/// `N(D) = N_r (D / D_r)^(−b)`
///
/// - `point`     a known point D_r, N_r; with D_r = 1 the life at full depth
/// - `exponent`  b, 0 or more, from [`life_exponent`] of the two points around the depth
/// - `depth`     depth of discharge D, 0 to 1
///
/// Returns N, without bound at depth 0 where b is above 0. Age ends a battery too: lithium iron phosphate after 8 to 15
/// years, lead-acid after 3 to 7 (`common practice`).
///
/// Source: as [`life_exponent`].
pub fn life_cycles(point: LifePoint, exponent: f64, depth: f64) -> f64 {
    point.cycles * (depth / point.depth).powf(-exponent)
}

/// Share of a battery's life used up by a series of states of charge.
///
/// `d = Σ n_i / N(D_i)`
///
/// - `states_of_charge`   values in order, each 0 to 1; used up as the place to work in
/// - `point`, `exponent`  as in [`life_cycles`]
///
/// Returns d: 1 is a whole life; 0 of a series that never changes.
///
/// Source: Palmgren, 1924; Miner, Journal of Applied Mechanics 12, 1945.
pub fn life_used(states_of_charge: &mut [f64], point: LifePoint, exponent: f64) -> f64 {
    let mut used = 0.0;
    rainflow(states_of_charge, |cycle| used += cycle.count / life_cycles(point, exponent, cycle.range));
    used
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const HALF: LifePoint = LifePoint { depth: 0.5, cycles: 600.0 };

    /// Range times count, in all, and the greatest range.
    fn swept(series: &mut [f64]) -> (f64, f64) {
        let (mut sum, mut greatest) = (0.0, 0.0f64);
        rainflow(series, |cycle| {
            sum += cycle.range * cycle.count;
            greatest = greatest.max(cycle.range);
        });
        (sum, greatest)
    }

    #[test]
    fn a_series_that_never_changes_has_no_cycle() {
        for series in [&mut [][..], &mut [0.5], &mut [0.5, 0.5, 0.5]] {
            rainflow(series, |cycle| panic!("{cycle:?}"));
        }
        assert_eq!(life_used(&mut [0.5, 0.5], HALF, 1.0), 0.0);
    }

    #[test]
    fn one_way_is_half_a_cycle() {
        assert_eq!(swept(&mut [0.0, 0.25, 0.25, 1.0]), (0.5, 1.0));
    }

    #[test]
    fn a_known_cycle_uses_its_share_of_life() {
        assert!((life_used(&mut [1.0, 0.75, 0.5, 1.0], HALF, 1.3) - 1.0 / 600.0).abs() < 1e-15);
    }

    #[test]
    fn both_points_lie_on_the_line_they_make() {
        let deep = LifePoint { depth: 1.0, cycles: 250.0 };
        let b = life_exponent(HALF, deep);
        assert!((life_cycles(HALF, b, 1.0) - 250.0).abs() < 1e-9);
        assert!((life_cycles(deep, b, 0.5) - 600.0).abs() < 1e-9);
        assert_eq!(life_cycles(HALF, b, 0.0), f64::INFINITY);
    }

    proptest! {
        #[test]
        fn cycles_sweep_all_that_the_series_moves(series in prop::collection::vec(0.0..1.0f64, 0..60)) {
            let moved: f64 = series.windows(2).map(|pair| (pair[1] - pair[0]).abs()).sum();
            let span = series.iter().copied().fold(0.0, f64::max) - series.iter().copied().fold(1.0, f64::min);
            let (sum, greatest) = swept(&mut series.clone());
            prop_assert!((2.0 * sum - moved).abs() < 1e-12);
            prop_assert!((greatest - span.max(0.0)).abs() < 1e-12);
        }

        #[test]
        fn values_between_turns_count_for_nothing(series in prop::collection::vec(0.0..1.0f64, 2..40)) {
            let mut finer: Vec<f64> =
                series.windows(2).flat_map(|pair| [pair[0], (pair[0] + pair[1]) / 2.0]).collect();
            finer.extend(series.last());
            let (mut of_series, mut of_finer) = (Vec::new(), Vec::new());
            rainflow(&mut series.clone(), |cycle| of_series.push(cycle));
            rainflow(&mut finer, |cycle| of_finer.push(cycle));
            prop_assert_eq!(of_series.len(), of_finer.len());
            let key = |cycle: &Cycle| cycle.range;
            of_series.sort_by(|a, b| key(a).total_cmp(&key(b)));
            of_finer.sort_by(|a, b| key(a).total_cmp(&key(b)));
            prop_assert_eq!(of_series, of_finer);
        }
    }
}
