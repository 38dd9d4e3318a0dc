//! What a scale shows beyond the listed masses, and where it sits.

use crate::masses::Totals;

/// Scale readings of one state.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Readings {
    /// Tongue and axles together [kg].
    pub total_kg: Option<f64>,
    /// Tongue [kg].
    pub tongue_kg: Option<f64>,
    /// Station [m] and reading [kg] of every axle; empty unless each was read.
    pub axles: Vec<(f64, f64)>,
    /// Station that the axles' common load acts at [m], where their shares are fixed.
    pub group: Option<Group>,
    /// How far a reading may be off [kg].
    pub tolerance_kg: f64,
}

/// An equalized axle group: springs that share, and axles that bear on themselves.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Group {
    /// Station that the springs' common load acts at [m].
    pub x_m: f64,
    /// The axles' own masses Σ u [kg]; 0 where they are counted with the trailer's.
    pub unsprung_kg: f64,
    /// Their moment about the ball Σ u x [kg·m].
    pub unsprung_kg_m: f64,
}

impl Group {
    /// Moment about the ball of axles that carry so much together [kg·m].
    fn moment_kg_m(&self, axles_kg: f64) -> f64 {
        (axles_kg - self.unsprung_kg) * self.x_m + self.unsprung_kg_m
    }
}

/// What the readings show beyond the listed masses.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unaccounted {
    /// Measured less listed mass [kg]; below 0 the list is too heavy.
    pub mass_kg: f64,
    /// How far that may be off for the scale alone [kg].
    pub tolerance_kg: f64,
    /// Measured less listed moment about the ball [kg·m], where the readings tell.
    pub moment_kg_m: Option<f64>,
    /// Where along the trailer the unaccounted mass must sit [m], where it is more than the scale's tolerance.
    pub x_m: Option<f64>,
    /// How far that may be off for the scale alone [m].
    pub x_tolerance_m: Option<f64>,
    /// Total less tongue and axles [kg], where all were read.
    pub disagreement_kg: Option<f64>,
}

/// Mass and place that the readings show beyond the listed masses.
///
/// ```text
/// u   = W_scale - W_list
/// x_u = (M_scale - M_list) / u,    M_scale = Σ A_j x_j   or   (W_scale - T - Σ u) L + Σ u x
/// ```
///
/// - `listed`    everything listed as aboard when it was weighed; `x_kg_m` may be NaN where places are unknown
/// - `readings`  what the scale showed
///
/// Returns nothing where the readings do not make up a total. The tolerance of `x_u` takes every reading off
/// by its tolerance in the worst direction. Within the scale's tolerance no place is given: it would be noise.
///
/// Source: equilibrium of forces and of moments about the ball.
pub fn unaccounted(listed: Totals, readings: &Readings) -> Option<Unaccounted> {
    let axles_kg =
        (!readings.axles.is_empty()).then(|| readings.axles.iter().fold(0.0, |sum, (_, load)| sum + load));
    let summed = readings.tongue_kg.zip(axles_kg).map(|(tongue, axles)| tongue + axles);
    let total = readings.total_kg.or(summed)?;
    let read_count = if readings.total_kg.is_some() { 1 } else { 1 + readings.axles.len() };
    let mass_kg = total - listed.mass_kg;
    let tolerance_kg = readings.tolerance_kg * read_count as f64;

    let by_axles = axles_kg.map(|_| readings.axles.iter().fold(0.0, |sum, (x, load)| sum + x * load));
    let by_tongue =
        readings.tongue_kg.zip(readings.group).map(|(tongue, group)| group.moment_kg_m(total - tongue));
    let moment_kg_m =
        by_axles.or(by_tongue).map(|moment| moment - listed.x_kg_m).filter(|moment| moment.is_finite());
    let sits = moment_kg_m.filter(|_| mass_kg.abs() > tolerance_kg);
    let x_m = sits.map(|moment| moment / mass_kg);
    let x_tolerance_m = x_m.map(|x| {
        let arms = if by_axles.is_some() {
            let axles = readings.axles.iter().fold(0.0, |sum, (axle, _)| sum + (axle - x).abs());
            // A total read by itself moves the mass and not the moment; a tongue moves both.
            if readings.total_kg.is_some() {
                readings.axles.iter().fold(0.0, |s, (a, _)| s + a) + x.abs()
            } else {
                axles + x.abs()
            }
        } else {
            let group = readings.group.map_or(x, |group| group.x_m);
            (group - x).abs() + group
        };
        readings.tolerance_kg * arms / mass_kg.abs()
    });
    Some(Unaccounted {
        mass_kg,
        tolerance_kg,
        moment_kg_m,
        x_m,
        x_tolerance_m,
        disagreement_kg: readings.total_kg.zip(summed).map(|(total, summed)| total - summed),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::masses::PointMass;
    use proptest::prelude::*;

    const GROUP: Group = Group { x_m: 4.45, unsprung_kg: 0.0, unsprung_kg_m: 0.0 };

    /// Unequal arms, and axles that bear on themselves: the tongue alone still tells the moment.
    #[test]
    fn axles_that_bear_on_themselves_do_not_mislead_the_tongue() {
        let (front, rear, own) = (4.0, 4.9, 150.0);
        let shares = crate::equalized::tandem_shares(0.14, 0.17);
        let x_m = shares[0] * front + shares[1] * rear;
        let (list, missing) = (at(1500.0, 3.8), at(90.0, 2.0));
        let truth = list + missing;
        let sprung = truth.x_kg_m - own * (front + rear);
        let load = |share| crate::equalized::axle_load_kg(share, sprung, x_m, own);
        let readings = Readings {
            total_kg: Some(truth.mass_kg),
            tongue_kg: Some(truth.mass_kg - load(shares[0]) - load(shares[1])),
            group: Some(Group { x_m, unsprung_kg: 2.0 * own, unsprung_kg_m: own * (front + rear) }),
            ..Readings::default()
        };
        assert!((unaccounted(list, &readings).unwrap().x_m.unwrap() - 2.0).abs() < 1e-9);
    }

    fn at(mass_kg: f64, x_m: f64) -> Totals {
        PointMass { mass_kg, x_m, y_m: 0.0, z_m: 0.0 }.into()
    }

    proptest! {
        /// A mass left off the list is found again, at its place, whichever readings were taken.
        #[test]
        fn a_mass_left_off_the_list_is_found_at_its_place(
            mass in 20.0..800.0f64, x in -1.0..8.0f64, listed in 500.0..4000.0f64, center in 2.0..5.0f64,
        ) {
            let list = at(listed, center);
            let truth = list + at(mass, x);
            let (front, rear) = (4.0, 4.9);
            let axles = truth.x_kg_m / 4.45;
            let tongue = truth.mass_kg - axles;
            let each = vec![(front, axles / 2.0), (rear, axles / 2.0)];
            let ways = [
                Readings { total_kg: Some(truth.mass_kg), axles: each.clone(), ..Readings::default() },
                Readings { tongue_kg: Some(tongue), axles: each, ..Readings::default() },
                Readings { total_kg: Some(truth.mass_kg), tongue_kg: Some(tongue), group: Some(GROUP), ..Readings::default() },
            ];
            for readings in ways {
                let found = unaccounted(list, &readings).unwrap();
                prop_assert!((found.mass_kg - mass).abs() < 1e-8);
                prop_assert!((found.x_m.unwrap() - x).abs() < 1e-6);
            }
        }

        /// No error of the readings within their tolerance moves the place by more than its stated tolerance
        /// (to first order: small tolerances).
        #[test]
        fn errors_of_the_scale_stay_within_the_stated_tolerance(
            x in 0.0..6.0f64, errors in prop::array::uniform3(-1.0..1.0f64), by_total in any::<bool>(),
        ) {
            let (list, tolerance) = (at(1500.0, 3.8), 1e-4);
            let truth = list + at(100.0, x);
            let axles = truth.x_kg_m / 4.45 / 2.0;
            let off = |value: f64, i: usize| value + tolerance * errors[i];
            let each = vec![(4.0, off(axles, 0)), (4.9, off(axles, 1))];
            let mut readings = Readings { axles: each, tolerance_kg: tolerance, ..Readings::default() };
            if by_total {
                readings.total_kg = Some(off(truth.mass_kg, 2));
            } else {
                readings.tongue_kg = Some(off(truth.mass_kg - 2.0 * axles, 2));
            }
            let found = unaccounted(list, &readings).unwrap();
            prop_assert!((found.x_m.unwrap() - x).abs() <= found.x_tolerance_m.unwrap() * 1.001);
        }
    }

    #[test]
    fn within_the_scales_tolerance_no_place_is_given() {
        let readings = Readings {
            total_kg: Some(1008.0),
            tongue_kg: Some(110.0),
            group: Some(Group { x_m: 4.0, ..Group::default() }),
            tolerance_kg: 9.0,
            ..Readings::default()
        };
        let found = unaccounted(at(1000.0, 3.5), &readings).unwrap();
        assert_eq!(found.mass_kg, 8.0);
        assert_eq!(found.x_m, None);
    }

    #[test]
    fn a_tongue_alone_makes_up_no_total() {
        let readings = Readings { tongue_kg: Some(110.0), ..Readings::default() };
        assert_eq!(unaccounted(at(1000.0, 3.5), &readings), None);
    }
}
