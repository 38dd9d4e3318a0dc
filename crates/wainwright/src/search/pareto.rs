//! Choices that no other beats: better in one figure only by being worse in another.
//!
//! Few pairs of autonomy and cooling margin occur, since few options touch them; many prices, payloads and tongue margins
//! do. So choices are taken pair by pair, and within a pair by price, past a staircase of payload and tongue margin.

use std::collections::BTreeMap;

use super::figures::Figures;

/// Indices of the choices that no other dominates, in ascending order. Equals all stay.
pub fn front(choices: &[Figures]) -> Vec<u32> {
    let mut pairs: BTreeMap<(i64, i64), Vec<u32>> = BTreeMap::new();
    for (index, figures) in choices.iter().enumerate() {
        pairs.entry((figures.autonomy, figures.cooling)).or_default().push(index as u32);
    }
    let pairs: Vec<((i64, i64), Vec<u32>)> =
        pairs.into_iter().map(|(pair, own)| (pair, undominated(choices, own, &[]))).collect();
    let mut front = Vec::new();
    for (pair, own) in &pairs {
        let better =
            pairs.iter().filter(|(other, _)| other != pair && other.0 >= pair.0 && other.1 >= pair.1);
        let others: Vec<u32> = better.flat_map(|(_, of_other)| of_other).copied().collect();
        front.extend(undominated(choices, own.clone(), &others));
    }
    front.sort_unstable();
    front
}

/// Those of `own`, all with one pair of autonomy and cooling margin, that none of them and none of `others`, with better
/// pairs, beats in price, payload and tongue margin.
fn undominated(choices: &[Figures], own: Vec<u32>, others: &[u32]) -> Vec<u32> {
    let figures = |index: u32| &choices[index as usize];
    // By price, then best first; at a draw those with a better pair go before.
    let mut line: Vec<(u32, bool)> = others.iter().map(|index| (*index, false)).collect();
    line.extend(own.into_iter().map(|index| (index, true)));
    line.sort_unstable_by_key(|(index, is_own)| {
        let of = figures(*index);
        (of.price, -i128::from(of.payload), -i128::from(of.tongue), *is_own, *index)
    });
    let mut stairs = Stairs::default();
    let mut kept = Vec::new();
    let mut last: Option<(&Figures, bool)> = None;
    for (index, is_own) in line {
        let of = figures(index);
        if is_own {
            // An equal of its own pair does not beat it: it is kept as that one was.
            let beaten = match last {
                Some((before, was_kept)) if before == of => !was_kept,
                _ => stairs.reach(of),
            };
            if !beaten {
                kept.push(index);
            }
            last = Some((of, !beaten));
        }
        stairs.add(of);
    }
    kept
}

/// Payloads, each with the greatest tongue margin at it or above; the margin falls as the payload rises.
#[derive(Default)]
struct Stairs(BTreeMap<i64, i64>);

impl Stairs {
    /// Is there something with no less payload and no less tongue margin?
    fn reach(&self, of: &Figures) -> bool {
        self.0.range(of.payload..).next().is_some_and(|(_, tongue)| *tongue >= of.tongue)
    }

    fn add(&mut self, of: &Figures) {
        if self.reach(of) {
            return;
        }
        while let Some((payload, _)) =
            self.0.range(..=of.payload).next_back().filter(|(_, tongue)| **tongue <= of.tongue)
        {
            let payload = *payload;
            self.0.remove(&payload);
        }
        self.0.insert(of.payload, of.tongue);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every choice against every other.
    fn by_comparison(choices: &[Figures]) -> Vec<u32> {
        let beaten = |of: &Figures| choices.iter().any(|other| other.dominates(of));
        (0..choices.len() as u32).filter(|index| !beaten(&choices[*index as usize])).collect()
    }

    #[test]
    fn it_is_what_comparing_all_with_all_gives() {
        let mut lots = oorandom::Rand32::new(7);
        // Few values make many equals, many make few.
        for values in [2, 3, 5, 40, 1_000] {
            for count in [0, 1, 2, 30, 400] {
                let mut figure = || i64::from(lots.rand_range(0..values));
                let choices: Vec<Figures> = (0..count)
                    .map(|_| Figures {
                        price: figure(),
                        payload: figure(),
                        tongue: figure(),
                        autonomy: figure() % 4,
                        cooling: figure() % 3,
                    })
                    .collect();
                assert_eq!(front(&choices), by_comparison(&choices), "{count} of {values} values");
            }
        }
    }

    #[test]
    fn what_is_not_there_and_what_never_runs_out_are_the_ends() {
        let of = |autonomy| Figures { price: 1, payload: i64::MIN, tongue: i64::MIN, autonomy, cooling: 0 };
        let choices = [of(i64::MIN), of(5), of(i64::MAX), of(i64::MAX)];
        assert_eq!(front(&choices), [2, 3]);
    }
}
