//! Tanks whose contents hang together: fresh water becomes grey and black, so their sum has a limit.
//!
//! Taking every tank at any fill, whatever the others hold, is the safe side. This is the narrower range of
//! normal use.

/// One tank of a group with a limited total content.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Content {
    /// What each kilogram in it adds to the quantity in question `c`.
    pub coefficient: f64,
    /// Least content `l` [kg], 0 or more.
    pub least_kg: f64,
    /// Greatest content `u` [kg], no less than the least.
    pub most_kg: f64,
}

/// Least contribution of the group, `min Σ c q` over `l ≤ q ≤ u`, `Σ q ≤ Q`.
///
/// Every tank at its least; then those that lower the sum are filled in order of their coefficient until the
/// total is used up. Exact: a kilogram moved from a tank to one later in the order cannot lower the sum.
///
/// - `contents`    the tanks of the group
/// - `total_kg`    limit of their total content `Q` [kg]
/// - `amounts_kg`  filled with the contents that bring it about [kg], one for each tank, as many as `contents`
///
/// Returns the contribution, in the coefficient's unit times kg. None where the least contents alone exceed the
/// total; `amounts_kg` then holds the least contents. Of equal coefficients the earlier tank is filled first.
///
/// Source: fractional knapsack (Dantzig, Operations Research 5 (1957) 266), from memory.
pub fn least(contents: &[Content], total_kg: f64, amounts_kg: &mut [f64]) -> Option<f64> {
    fill_in_order(contents, total_kg, amounts_kg, |content| content.coefficient)
}

/// Greatest contribution of the group, `max Σ c q` over `l ≤ q ≤ u`, `Σ q ≤ Q`.
///
/// As [`least`], filling those that raise the sum, the greatest coefficient first.
///
/// - `contents`    the tanks of the group
/// - `total_kg`    limit of their total content `Q` [kg]
/// - `amounts_kg`  filled with the contents that bring it about [kg], one for each tank, as many as `contents`
///
/// Returns the contribution, in the coefficient's unit times kg. None where the least contents alone exceed the
/// total; `amounts_kg` then holds the least contents.
///
/// Source: fractional knapsack (Dantzig, Operations Research 5 (1957) 266), from memory.
pub fn greatest(contents: &[Content], total_kg: f64, amounts_kg: &mut [f64]) -> Option<f64> {
    fill_in_order(contents, total_kg, amounts_kg, |content| -content.coefficient)
}

/// Fills the tanks whose cost is below zero, the lowest first, and sums `c q`.
///
/// The next tank is searched for instead of sorted out beforehand: tanks are few, and nothing is allocated.
fn fill_in_order(
    contents: &[Content],
    total_kg: f64,
    amounts_kg: &mut [f64],
    cost: impl Fn(&Content) -> f64,
) -> Option<f64> {
    debug_assert_eq!(contents.len(), amounts_kg.len());
    let mut room_kg = total_kg;
    for (amount_kg, content) in amounts_kg.iter_mut().zip(contents) {
        *amount_kg = content.least_kg;
        room_kg -= content.least_kg;
    }
    if room_kg < 0.0 {
        return None;
    }
    let rank = |k: usize| (cost(&contents[k]), k);
    let mut filled = (f64::NEG_INFINITY, 0);
    while let Some(next) = (0..contents.len())
        .map(rank)
        .filter(|&rank| rank > filled && rank.0 < 0.0)
        .min_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)))
    {
        let k = next.1;
        let range_kg = contents[k].most_kg - contents[k].least_kg;
        // A tank that fills takes its greatest content to the bit.
        amounts_kg[k] =
            if range_kg <= room_kg { contents[k].most_kg } else { contents[k].least_kg + room_kg };
        room_kg = (room_kg - range_kg).max(0.0);
        filled = next;
    }
    Some(contents.iter().zip(&*amounts_kg).fold(0.0, |sum, (content, q_kg)| sum + content.coefficient * q_kg))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{kg, lb};
    use proptest::prelude::*;

    /// Fresh, grey and black water: greatest content [lb] at x [in], seen by the tongue with the axles at 190 in.
    fn water() -> [Content; 3] {
        [(250.2, 150.0), (208.5, 228.0), (100.08, 236.0)].map(|(most_lb, x_in)| Content {
            coefficient: 1.0 - x_in / 190.0,
            least_kg: 0.0,
            most_kg: kg(most_lb),
        })
    }

    #[test]
    fn water_carried_once_lightens_the_tongue_less_than_every_tank_full() {
        let mut amounts_kg = [0.0; 3];
        let coupled = least(&water(), kg(250.2), &mut amounts_kg).unwrap();
        assert_eq!(format!("{:.4}", lb(coupled)), "-54.2539");
        let [fresh, grey, black] = amounts_kg.map(|amount_kg| format!("{:.2}", lb(amount_kg)));
        assert_eq!([fresh, grey, black], ["0.00", "150.12", "100.08"]);

        let apart = least(&water(), f64::INFINITY, &mut amounts_kg).unwrap();
        assert_eq!(format!("{:.4}", lb(apart)), "-65.9299");
    }

    #[test]
    fn only_fresh_water_ahead_of_the_axles_loads_the_tongue() {
        let mut amounts_kg = [0.0; 3];
        let greatest = greatest(&water(), kg(250.2), &mut amounts_kg).unwrap();
        // 250.2 (1 − 150/190)
        assert_eq!(format!("{:.4}", lb(greatest)), "52.6737");
        assert_eq!(amounts_kg, [kg(250.2), 0.0, 0.0]);
    }

    #[test]
    fn least_contents_beyond_the_total_cannot_be() {
        let full = [Content { coefficient: 1.0, least_kg: 60.0, most_kg: 80.0 }; 2];
        assert_eq!(least(&full, 100.0, &mut [0.0; 2]), None);
        assert_eq!(greatest(&full, 100.0, &mut [0.0; 2]), None);
    }

    #[test]
    fn a_tank_that_changes_nothing_stays_at_its_least() {
        let neutral = [Content { coefficient: 0.0, least_kg: 5.0, most_kg: 80.0 }];
        let mut amounts_kg = [0.0];
        assert_eq!(least(&neutral, 100.0, &mut amounts_kg), Some(0.0));
        assert_eq!(amounts_kg, [5.0]);
    }

    #[test]
    fn no_tank_contributes_nothing() {
        assert_eq!(least(&[], 100.0, &mut []), Some(0.0));
    }

    /// Every vertex of `l ≤ q ≤ u`, `Σ q ≤ Q`: all tanks at a bound, or one between them that uses up the total.
    fn vertices(contents: &[Content], total_kg: f64) -> Vec<f64> {
        let mut values = Vec::new();
        for corner in 0..1_usize << contents.len() {
            let amount = |k: usize| {
                if corner >> k & 1 == 1 { contents[k].most_kg } else { contents[k].least_kg }
            };
            let sum = |of: &dyn Fn(usize) -> f64| (0..contents.len()).map(of).fold(0.0, |s, x| s + x);
            let used_kg = sum(&amount);
            let value = sum(&|k| contents[k].coefficient * amount(k));
            if used_kg <= total_kg {
                values.push(value);
            }
            for (k, content) in contents.iter().enumerate() {
                let between_kg = total_kg - (used_kg - amount(k));
                if (content.least_kg..=content.most_kg).contains(&between_kg) {
                    values.push(value + content.coefficient * (between_kg - amount(k)));
                }
            }
        }
        values
    }

    fn contents() -> impl Strategy<Value = Vec<Content>> {
        // Coefficients from a coarse grid, so that equal ones and zero occur.
        let content = (-5_i32..=5, 0.0..50.0, 0.0..200.0).prop_map(|(steps, least_kg, range_kg)| Content {
            coefficient: 0.125 * f64::from(steps),
            least_kg,
            most_kg: least_kg + range_kg,
        });
        prop::collection::vec(content, 1..6)
    }

    proptest! {
        #[test]
        fn no_vertex_goes_beyond_and_one_is_met(contents in contents(), total_kg in 0.0..900.0) {
            let mut low_kg = vec![0.0; contents.len()];
            let mut high_kg = low_kg.clone();
            let low = least(&contents, total_kg, &mut low_kg);
            let high = greatest(&contents, total_kg, &mut high_kg);
            let vertices = vertices(&contents, total_kg);
            prop_assert_eq!(low.is_none(), vertices.is_empty());
            prop_assert_eq!(high.is_none(), vertices.is_empty());
            if let (Some(low), Some(high)) = (low, high) {
                let lowest = vertices.iter().copied().fold(f64::INFINITY, f64::min);
                let highest = vertices.iter().copied().fold(f64::NEG_INFINITY, f64::max);
                prop_assert!((low - lowest).abs() < 1e-9, "{} against {}", low, lowest);
                prop_assert!((high - highest).abs() < 1e-9, "{} against {}", high, highest);
            }
        }

        #[test]
        fn the_amounts_respect_every_bound(contents in contents(), total_kg in 300.0..900.0) {
            for extreme in [least, greatest] {
                let mut amounts_kg = vec![0.0; contents.len()];
                let value = extreme(&contents, total_kg, &mut amounts_kg).unwrap();
                let sum: f64 = amounts_kg.iter().sum();
                prop_assert!(sum <= total_kg + 1e-9);
                let mut recounted = 0.0;
                for (content, amount_kg) in contents.iter().zip(&amounts_kg) {
                    prop_assert!(*amount_kg >= content.least_kg && *amount_kg <= content.most_kg);
                    recounted += content.coefficient * amount_kg;
                }
                prop_assert!((value - recounted).abs() < 1e-9);
            }
        }

        #[test]
        fn a_total_that_never_binds_leaves_every_tank_to_itself(contents in contents()) {
            let mut amounts_kg = vec![0.0; contents.len()];
            let low = least(&contents, f64::INFINITY, &mut amounts_kg).unwrap();
            let apart = contents
                .iter()
                .fold(0.0, |sum, c| sum + (c.coefficient * c.least_kg).min(c.coefficient * c.most_kg));
            prop_assert!((low - apart).abs() < 1e-9);
        }
    }
}
