//! The smallest array and the smallest bank that meet a target through a series.
//!
//! A battery without wells, disconnection or sources that start by its charge moves on without ever falling behind one
//! that has more in it or is given more. So what goes unmet never grows with the array, and halving finds the smallest.
//! With the bank it never grows either, unless temperature takes part of it away: then, and wherever the first does not
//! hold, sizes are tried from the largest down, and the answer is the smallest from which every larger one tried does.

use super::ledger::{Bank, Flows, Ledger};
use super::setup::Setup;

/// Arrays are found to this [W].
const TO_W: f64 = 0.1;
/// Banks are found to this share of themselves.
const TO_SHARE: f64 = 0.005;
/// From one size tried to the next, first coarsely, then more and more finely.
const FACTORS: [f64; 6] = [16.0, 4.0, 2.0, 1.25, 1.08, 1.03];
/// The search begins no further below the largest size than so many halvings.
const MOST_HALVINGS: f64 = 40.0;
/// The largest bank tried carries the mean load for so many days without sun: more is no camper's.
pub const MOST_BANK_DAYS: f64 = 30.0;
/// The largest array tried gives its rated power so many times over what is asked for.
const MOST_ARRAY_LOADS: f64 = 1000.0;

/// A size that was looked for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Smallest {
    /// It is this.
    Size(f64),
    /// No size can do it.
    Impossible,
}

impl Smallest {
    /// The size, where there is one.
    pub fn size(self) -> Option<f64> {
        match self {
            Self::Size(size) => Some(size),
            Self::Impossible => None,
        }
    }
}

/// A trial of sizes against a target.
#[derive(Debug)]
pub struct Trial<'s> {
    setup: &'s Setup<'s>,
    flows: Flows<'s>,
    /// What may go unmet [Wh].
    most_unmet_wh: f64,
}

impl<'s> Trial<'s> {
    /// A trial through the whole series, the battery full at its start, the controller's limit lifted.
    ///
    /// - `setup`                the build
    /// - `flows`                what flows in it; its `sun_w` may be that of a stand-in array
    /// - `most_unmet_fraction`  share of the load that may go unmet, 0 to 1
    pub fn new(setup: &'s Setup<'s>, flows: Flows<'s>, most_unmet_fraction: f64) -> Self {
        let load_wh = setup.load_w.iter().sum::<f64>() * setup.step_h;
        // What rounding leaves of nothing is nothing.
        Self { setup, flows, most_unmet_wh: load_wh * (most_unmet_fraction + 1e-12) }
    }

    /// Does a size meet the target, from a step on at which the battery is full?
    ///
    /// - `bank`       the bank
    /// - `sun_scale`  what the arrays are multiplied by
    /// - `most_w`     the controller's limit [W]
    /// - `from`       the step
    ///
    /// Returns where it does not the last step before the first need at which the battery is full.
    fn passes(&self, bank: Bank, sun_scale: f64, most_w: f64, from: usize) -> Result<(), usize> {
        let ledger = Ledger::new(bank, self.setup.step_h);
        let flows = Flows { sun_scale, most_sun_w: most_w, ..self.flows };
        let (mut unmet_wh, mut last_full) = (0.0, from);
        ledger.walk(&mut ledger.at_rest(1.0), &flows, from..self.setup.count(), |index, step| {
            unmet_wh += step.unmet_wh;
            if step.is_full && unmet_wh == 0.0 {
                last_full = index + 1;
            }
            unmet_wh <= self.most_unmet_wh
        });
        if unmet_wh <= self.most_unmet_wh { Ok(()) } else { Err(last_full) }
    }

    /// Does what goes unmet never grow with the array?
    fn is_monotone(&self) -> bool {
        let bank = &self.setup.house.bank;
        bank.wells.is_none()
            && bank.reconnect_soc.is_none()
            && self.flows.others.iter().all(|other| other.start_soc.is_none())
    }

    /// Does it never grow with the bank?
    fn is_monotone_in_bank(&self) -> bool {
        let usable = self.flows.conditions.usable;
        self.is_monotone() && usable.windows(2).all(|pair| pair[0] == pair[1])
    }

    /// The smallest rated power of arrays like those there are, the controller's limit lifted [W].
    ///
    /// - `rated_w`  rated power of those whose harvest the trial has [W], > 0
    pub fn array_w(&self, rated_w: f64) -> Smallest {
        let passes =
            |watts: f64, from| self.passes(self.setup.house.bank, watts / rated_w, f64::INFINITY, from);
        let greatest_w = self.setup.load_w.iter().copied().fold(0.0, f64::max);
        let most_w = MOST_ARRAY_LOADS * greatest_w;
        if self.is_monotone() {
            // What fails from a full battery in between fails all the more from what is left in it by then: few sizes
            // need the whole series.
            let mut full_at = 0;
            let passes = |watts| {
                let tried =
                    passes(watts, full_at).and_then(|()| if full_at > 0 { passes(watts, 0) } else { Ok(()) });
                tried.map_err(|last_full| full_at = last_full).is_ok()
            };
            halved(most_w, rated_w, |tol| tol <= TO_W, passes)
        } else {
            scanned(most_w, TO_W, |watts| passes(watts, 0).is_ok())
        }
    }

    /// The smallest bank of the kind there is, by how many times that one.
    pub fn bank_scale(&self) -> Smallest {
        let bank = self.setup.house.bank;
        // No bank carries nothing, and its state of charge is none.
        let passes = |scale: f64| {
            scale > 0.0 && self.passes(bank.scaled(scale), 1.0, self.setup.harvester.most_w, 0).is_ok()
                || scale == 0.0 && self.flows.load_w.iter().all(|load_w| *load_w == 0.0)
        };
        let mean_w = self.setup.load_w.iter().sum::<f64>() / self.setup.count().max(1) as f64;
        let most_wh = MOST_BANK_DAYS * 24.0 * mean_w
            / (self.setup.house.temper.usable * bank.discharge_efficiency).max(0.01);
        let most = (most_wh / bank.rated_wh).max(1.0);
        let least = 1e-4 * most;
        if self.is_monotone_in_bank() {
            halved(most, 1.0, |tol| tol <= TO_SHARE * least.max(1e-3), passes)
        } else {
            scanned(most, least, passes)
        }
    }
}

/// The smallest size that passes, where every larger one does too: by halving.
///
/// - `most`   the largest tried
/// - `start`  the size there is, above 0: the search begins near it
fn halved(
    most: f64,
    start: f64,
    is_near: impl Fn(f64) -> bool,
    mut passes: impl FnMut(f64) -> bool,
) -> Smallest {
    if passes(0.0) {
        return Smallest::Size(0.0);
    }
    // Doubling or halving from near the size there is: what is looked for is seldom far from it. Sizes tried are the largest
    // halved so many times, so that the same is found from wherever the search starts.
    let halvings = (most / start).log2().ceil().clamp(0.0, MOST_HALVINGS);
    let (mut low, mut high) = (0.0, most / halvings.exp2());
    while !passes(high) {
        if high >= most {
            return Smallest::Impossible;
        }
        low = high;
        high = (2.0 * high).min(most);
    }
    while low == 0.0 {
        if is_near(high) {
            return Smallest::Size(high);
        }
        match high / 2.0 {
            half if passes(half) => high = half,
            half => low = half,
        }
    }
    while !is_near(high - low) {
        let middle = 0.5 * (low + high);
        if passes(middle) {
            high = middle;
        } else {
            low = middle;
        }
    }
    Smallest::Size(high)
}

/// The smallest size tried from which every larger one tried passes: from the largest down. Nothing at all, where that
/// and every size passes.
fn scanned(most: f64, least: f64, passes: impl Fn(f64) -> bool) -> Smallest {
    if most < least || !passes(most) {
        return if most < least && passes(0.0) { Smallest::Size(0.0) } else { Smallest::Impossible };
    }
    let (mut found, mut failed) = (most, 0.0);
    for factor in FACTORS {
        let mut size = found / factor;
        // What was tried with a coarser factor is known.
        while size >= least && size > failed * (1.0 + 1e-9) {
            if !passes(size) {
                failed = size;
                break;
            }
            found = size;
            size /= factor;
        }
    }
    if found / FACTORS[FACTORS.len() - 1] < least && passes(0.0) {
        Smallest::Size(0.0)
    } else {
        Smallest::Size(found)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn halving_finds_the_edge() {
        for start in [0.01, 1.0, 123.4, 123.45, 123.5, 200.0, 1000.0, 1e9] {
            let found = halved(1000.0, start, |tol| tol <= 0.1, |size| size >= 123.45).size().unwrap();
            assert!((123.45..123.55).contains(&found), "{found} from {start}");
            assert_eq!(halved(1000.0, start, |tol| tol <= 0.1, |_| true), Smallest::Size(0.0));
            assert_eq!(halved(1000.0, start, |tol| tol <= 0.1, |_| false), Smallest::Impossible);
            assert_eq!(
                found,
                halved(1000.0, 1000.0, |tol| tol <= 0.1, |size| size >= 123.45).size().unwrap()
            );
        }
    }

    #[test]
    fn a_scan_stops_at_the_first_size_that_fails_on_its_way_down() {
        // It would pass again below 50, which does not help whoever has 80.
        let found = scanned(1000.0, 1.0, |size| !(50.0..100.0).contains(&size)).size().unwrap();
        assert!((100.0..=103.0).contains(&found), "{found}");
        assert_eq!(scanned(1000.0, 1.0, |_| false), Smallest::Impossible);
        assert_eq!(scanned(1000.0, 1.0, |_| true), Smallest::Size(0.0));
        assert_eq!(scanned(0.0, 1.0, |_| true), Smallest::Size(0.0));
    }
}
