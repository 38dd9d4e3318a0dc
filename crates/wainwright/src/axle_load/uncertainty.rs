//! How sure the tongue load is, when masses and places are known only within tolerances.
//!
//! The worst case is for limits that must hold; the root of the sum of squares is the scatter to expect when the
//! errors are small and independent.

/// A mass at a place, both within tolerances.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UncertainMass {
    /// Mass w [kg], 0 or more.
    pub mass_kg: f64,
    /// Its tolerance δw, plus or minus [kg]; no mass falls below 0 by it.
    pub mass_tolerance_kg: f64,
    /// Distance behind the ball x [m].
    pub x_m: f64,
    /// Its tolerance δx, plus or minus [m].
    pub x_tolerance_m: f64,
}

impl UncertainMass {
    fn masses_kg(&self) -> [f64; 2] {
        [(self.mass_kg - self.mass_tolerance_kg).max(0.0), self.mass_kg + self.mass_tolerance_kg]
    }

    fn stations_m(&self) -> [f64; 2] {
        [self.x_m - self.x_tolerance_m, self.x_m + self.x_tolerance_m]
    }
}

/// The axle group's place within a tolerance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UncertainGroup {
    /// Station of the axle group L [m], > 0.
    pub x_m: f64,
    /// Its tolerance δL, plus or minus [m], below L.
    pub x_tolerance_m: f64,
}

impl UncertainGroup {
    fn ends_m(&self) -> [f64; 2] {
        [self.x_m - self.x_tolerance_m, self.x_m + self.x_tolerance_m]
    }
}

/// Least and greatest value.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Extremes {
    /// Least.
    pub min: f64,
    /// Greatest.
    pub max: f64,
}

/// Nothing yet: any value widens it.
const NONE: Extremes = Extremes { min: f64::INFINITY, max: f64::NEG_INFINITY };

impl Extremes {
    fn widened(self, value: f64) -> Self {
        Self { min: self.min.min(value), max: self.max.max(value) }
    }
}

/// Least and greatest tongue load over all tolerances at once.
///
/// `T_hi = max_L Σ max over the corners of (w ± δw)(1 − (x ± δx)/L)`, `T_lo` likewise
///
/// - `items`  everything aboard
/// - `group`  the axle group
///
/// Returns the extremes [kg], exact: each item's term is linear in its mass and in its place, and for the best
/// choice of those the sum is convex in 1/L, so every extreme is at ends of the tolerances.
///
/// Source: extremes of a function linear in each variable.
pub fn tongue_extremes_kg(items: &[UncertainMass], group: UncertainGroup) -> Extremes {
    group.ends_m().into_iter().fold(NONE, |worst, group_x_m| {
        let sum = items.iter().fold((0.0, 0.0), |(least, greatest), item| {
            let term = item.masses_kg().into_iter().fold(NONE, |term, mass_kg| {
                let [near, far] = item.stations_m().map(|x_m| mass_kg * (1.0 - x_m / group_x_m));
                term.widened(near).widened(far)
            });
            (least + term.min, greatest + term.max)
        });
        worst.widened(sum.0).widened(sum.1)
    })
}

/// First-order changes of the tongue load: by each item's mass and place, then by the group's place.
fn tongue_changes_kg(items: &[UncertainMass], group: UncertainGroup) -> impl Iterator<Item = f64> + '_ {
    let moment_kg_m: f64 = items.iter().map(|i| i.mass_kg * i.x_m).sum();
    let by_group = moment_kg_m * group.x_tolerance_m / (group.x_m * group.x_m);
    items
        .iter()
        .flat_map(move |i| {
            [(1.0 - i.x_m / group.x_m) * i.mass_tolerance_kg, i.mass_kg * i.x_tolerance_m / group.x_m]
        })
        .chain([by_group])
}

/// Worst error of the tongue load to first order.
///
/// `δT = Σ (|1 − x/L| δw + w δx/L) + W X δL/L²`
///
/// - `items`  everything aboard
/// - `group`  the axle group
///
/// Returns the error, plus or minus [kg].
///
/// Source: first-order propagation, all errors at their worst.
pub fn tongue_worst_error_kg(items: &[UncertainMass], group: UncertainGroup) -> f64 {
    tongue_changes_kg(items, group).map(f64::abs).sum()
}

/// Expected error of the tongue load, errors small and independent.
///
/// `u_T² = Σ [((1 − x/L) δw)² + (w δx/L)²] + (W X δL/L²)²`
///
/// - `items`  everything aboard
/// - `group`  the axle group
///
/// Returns the error [kg], of the same coverage as the tolerances.
///
/// Source: JCGM 100 (propagation of uncertainty), `from memory`.
pub fn tongue_scatter_kg(items: &[UncertainMass], group: UncertainGroup) -> f64 {
    let squares: f64 = tongue_changes_kg(items, group).map(|c| c * c).sum();
    squares.sqrt()
}

/// Expected error of the tongue fraction, errors small and independent.
///
/// `u_f² = Σ [((g − f) δw/W)² + (w δx/(W L))²] + (X δL/L²)²`, `g = 1 − x/L`
///
/// - `items`  everything aboard, mass above 0
/// - `group`  the axle group
///
/// Returns the error, of the same coverage as the tolerances.
///
/// Source: JCGM 100 (propagation of uncertainty), `from memory`.
pub fn fraction_scatter(items: &[UncertainMass], group: UncertainGroup) -> f64 {
    let (gross_kg, moment_kg_m) =
        items.iter().fold((0.0, 0.0), |(mass, moment), i| (mass + i.mass_kg, moment + i.mass_kg * i.x_m));
    let center_x_m = moment_kg_m / gross_kg;
    let squares: f64 = items
        .iter()
        .map(|i| {
            let by_mass = (center_x_m - i.x_m) * i.mass_tolerance_kg;
            let by_place = i.mass_kg * i.x_tolerance_m;
            by_mass * by_mass + by_place * by_place
        })
        .sum();
    let by_group = center_x_m * group.x_tolerance_m / group.x_m;
    (squares / (gross_kg * gross_kg) + by_group * by_group).sqrt() / group.x_m
}

/// Centre of gravity furthest one way: places at that end, masses by threshold.
///
/// `end` picks the places (0 nearer the ball, 1 farther); a mass counts in full on that side of the centre and at its
/// least on the other. Each pass moves the centre strictly that way until it settles.
fn extreme_center_m(items: &[UncertainMass], end: usize) -> f64 {
    let beyond = |x_m: f64, center_m: f64| if end == 0 { x_m < center_m } else { x_m > center_m };
    let center_with = |center_m: f64| {
        let (mass, moment) = items.iter().fold((0.0, 0.0), |(mass, moment), item| {
            let x_m = item.stations_m()[end];
            let w = item.masses_kg()[usize::from(beyond(x_m, center_m))];
            (mass + w, moment + w * x_m)
        });
        moment / mass
    };
    // From the far side every mass is at its least: the first pass finds a plain mean.
    let mut center_m = center_with(if end == 0 { f64::NEG_INFINITY } else { f64::INFINITY });
    loop {
        let next_m = center_with(center_m);
        if !beyond(next_m, center_m) {
            return center_m;
        }
        center_m = next_m;
    }
}

/// Centre of gravity nearest to and farthest from the ball over all tolerances.
///
/// - `items`  everything aboard; the least masses sum to more than 0
///
/// Returns the extremes [m], exact: `X` is a weighted mean of the places, so the masses beyond the extreme itself are
/// at their greatest and the others at their least (the threshold is found by repetition, in a few passes).
///
/// Source: extremes of a weighted mean by parametric iteration.
pub fn center_extremes_m(items: &[UncertainMass]) -> Extremes {
    Extremes { min: extreme_center_m(items, 0), max: extreme_center_m(items, 1) }
}

/// Least and greatest tongue fraction over all tolerances at once.
///
/// `f = 1 − X/L` at the extremes of X and the ends of L
///
/// - `items`  everything aboard; the least masses sum to more than 0
/// - `group`  the axle group
///
/// Returns the extremes, exact.
///
/// Source: [`center_extremes_m`]; f falls with X and is monotone in L.
pub fn fraction_extremes(items: &[UncertainMass], group: UncertainGroup) -> Extremes {
    let center = center_extremes_m(items);
    group.ends_m().into_iter().fold(NONE, |worst, group_x_m| {
        worst.widened(1.0 - center.max / group_x_m).widened(1.0 - center.min / group_x_m)
    })
}

#[cfg(test)]
mod tests {
    use super::super::fixture::*;
    use super::*;
    use crate::units::{kg, lb, m};

    /// Tolerances of the trailer's items, mass [lb] and place [in].
    const TOLERANCES_LB_IN: [[f64; 2]; 9] = [
        [40.0, 1.0],
        [5.0, 0.25],
        [5.0, 0.25],
        [41.0, 1.0],
        [25.0, 2.0],
        [20.0, 2.0],
        [1.0, 0.5],
        [1.0, 0.5],
        [1.0, 0.5],
    ];

    fn trailer() -> [UncertainMass; 9] {
        std::array::from_fn(|i| UncertainMass {
            mass_kg: items()[i].mass_kg,
            mass_tolerance_kg: kg(TOLERANCES_LB_IN[i][0]),
            x_m: items()[i].x_m,
            x_tolerance_m: m(TOLERANCES_LB_IN[i][1]),
        })
    }

    fn group(tolerance_in: f64) -> UncertainGroup {
        UncertainGroup { x_m: m(GROUP_X_IN), x_tolerance_m: m(tolerance_in) }
    }

    #[test]
    fn scatter_and_worst_error_of_the_tongue_are_as_printed() {
        assert_printed(lb(tongue_scatter_kg(&trailer(), group(0.0))), "16.45699");
        assert_printed(lb(tongue_worst_error_kg(&trailer(), group(0.0))), "45.26842");
        let nominal = totals().mass_kg - totals().x_kg_m / m(GROUP_X_IN);
        let exact = tongue_extremes_kg(&trailer(), group(0.0));
        assert_printed(lb(exact.min - nominal), "-44.36053");
        assert_printed(lb(exact.max - nominal), "46.17632");
    }

    #[test]
    fn scatter_and_extremes_of_the_fraction_are_as_printed() {
        assert_printed(fraction_scatter(&trailer(), group(0.0)), "0.003255567");
        let exact = fraction_extremes(&trailer(), group(0.0));
        assert_printed(exact.min, "0.1209026");
        assert_printed(exact.max, "0.1380308");
    }

    #[test]
    fn axle_tolerance_alone_shifts_the_tongue_by_its_slope() {
        let exact_items =
            trailer().map(|i| UncertainMass { mass_tolerance_kg: 0.0, x_tolerance_m: 0.0, ..i });
        let one_in = group(1.0);
        let slope = totals().x_kg_m / (m(GROUP_X_IN) * m(GROUP_X_IN)) * m(1.0);
        assert!((tongue_worst_error_kg(&exact_items, one_in) - slope).abs() < 1e-12);
        assert!((tongue_scatter_kg(&exact_items, one_in) - slope).abs() < 1e-12);
        let scatter = fraction_scatter(&exact_items, one_in);
        assert!((scatter - slope / totals().mass_kg).abs() < 1e-15);
        let at = |x_in| totals().mass_kg - totals().x_kg_m / m(x_in);
        let exact = tongue_extremes_kg(&exact_items, one_in);
        assert!((exact.min - at(189.0)).abs() < 1e-9 && (exact.max - at(191.0)).abs() < 1e-9);
    }

    #[test]
    fn extremes_are_those_of_all_corners() {
        let items = trailer();
        let one_in = group(1.0);
        let (mut tongue, mut fraction) = (NONE, NONE);
        // Places at the end that hurts, every choice of masses, both axle places.
        for end in 0..2 {
            for choice in 0..1_usize << items.len() {
                let (mut mass, mut moment) = (0.0, 0.0);
                for (i, item) in items.iter().enumerate() {
                    let w = item.masses_kg()[choice >> i & 1];
                    mass += w;
                    moment += w * item.stations_m()[end];
                }
                for group_x_m in one_in.ends_m() {
                    tongue = tongue.widened(mass - moment / group_x_m);
                    fraction = fraction.widened(1.0 - moment / mass / group_x_m);
                }
            }
        }
        let exact = tongue_extremes_kg(&items, one_in);
        assert!((exact.min - tongue.min).abs() < 1e-9 && (exact.max - tongue.max).abs() < 1e-9);
        let exact = fraction_extremes(&items, one_in);
        assert!((exact.min - fraction.min).abs() < 1e-13);
        assert!((exact.max - fraction.max).abs() < 1e-13);
    }
}
