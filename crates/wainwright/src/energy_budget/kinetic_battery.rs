//! A battery as two wells: charge at hand, and charge that must first flow to where it can be drawn.
//!
//! A high current empties the first well while much is left in the second; a rest fills it again. Current is positive
//! in discharge and negative in charge. Source of all here: Manwell and McGowan, Solar Energy 50, 1993,
//! `from memory`; the steps agree with the two differential equations solved numerically.

use super::peukert::rerated_ah;

/// Greatest exponent of Peukert's law for [`KineticBattery::from_exponent`].
pub const MOST_EXPONENT: f64 = 1.4;
/// Most that a slow discharge gives, as a multiple of the capacity rated at 20 h, for the same.
///
/// Source: `common practice`.
const MOST_OF_RATED: f64 = 1.3;

/// A battery that follows the kinetic model.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KineticBattery {
    /// Charge of both wells when full q_max [Ah], above 0: what an endlessly slow discharge delivers.
    pub capacity_ah: f64,
    /// Share of it in the well at hand c, above 0, to 1.
    pub available_share: f64,
    /// Rate at which the wells even out k [1/h], above 0. Papers that print the conductance k_0 between the wells
    /// mean `k = k_0 / [c (1 − c)]`.
    pub rate_per_h: f64,
}

/// Charge in the two wells of a [`KineticBattery`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wells {
    /// Charge at hand q_1 [Ah], 0 to c q_max.
    pub available_ah: f64,
    /// Charge that must first flow q_2 [Ah], 0 to (1 − c) q_max.
    pub bound_ah: f64,
}

impl Wells {
    /// Charge in both wells.
    ///
    /// `q_0 = q_1 + q_2`
    ///
    /// Returns q_0 [Ah].
    #[inline]
    pub fn total_ah(self) -> f64 {
        self.available_ah + self.bound_ah
    }
}

/// How far the wells have evened out after a time.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Settling {
    /// `e^(−k Δ)`
    left: f64,
    /// `1 − e^(−k Δ)`
    done: f64,
    /// `k Δ − 1 + e^(−k Δ)`
    lag: f64,
}

impl Settling {
    /// - `elapsed`  k Δ, 0 or more
    fn after(elapsed: f64) -> Settling {
        let done = -(-elapsed).exp_m1();
        Settling { left: 1.0 - done, done, lag: elapsed - done }
    }

    /// `1 − e^(−kΔ) + c (kΔ − 1 + e^(−kΔ))`: k times what a current of one takes from the well at hand.
    ///
    /// - `available_share`  c
    fn spread(&self, available_share: f64) -> f64 {
        self.done + available_share * self.lag
    }
}

impl KineticBattery {
    /// The battery that delivers in 1 h, 20 h and 100 h what Peukert's law says.
    ///
    /// c and k of `q(1)/q(20) = (1/20)^(1 − 1/p)` and `q(100)/q(20) = min[5^(1 − 1/p), 1.3]`, q of
    /// [`delivered_ah`](Self::delivered_ah); q_max of `q(20) = C`
    ///
    /// - `twenty_hour_ah`  capacity rated at 20 h C [Ah], above 0
    /// - `exponent`        exponent of Peukert's law p, 1 to [`MOST_EXPONENT`]; see [`peukert`](super::peukert)
    ///
    /// Returns none of another exponent. There is one pair c, k for each p: c falls from 1 to 0.27, k rises from 0.117 to
    /// 0.334 1/h. q_max is at most 1.411 C, which only discharges of weeks come near. Between 1 h and 100 h it delivers up
    /// to 11 percent less than Peukert's law says, in shorter times more. At p = 1 all charge is at hand, and k has no
    /// effect.
    ///
    /// Source: fit of the model to discharges of several hours, as Manwell and McGowan propose, `from memory`.
    pub fn from_exponent(twenty_hour_ah: f64, exponent: f64) -> Option<KineticBattery> {
        if !(1.0..=MOST_EXPONENT).contains(&exponent) {
            return None;
        }
        let one = rerated_ah(1.0, 20.0, exponent, 1.0);
        let hundred = rerated_ah(1.0, 20.0, exponent, 100.0).min(MOST_OF_RATED);
        // The first ratio is linear in c once k is given.
        let share = |one_h: &Settling, twenty_h: &Settling| {
            (20.0 * one * one_h.done - twenty_h.done) / (twenty_h.lag - 20.0 * one * one_h.lag)
        };
        // With that c the second ratio falls as k rises, and these ends hold its root for every exponent.
        let (mut low_per_h, mut high_per_h) = (0.1, 0.4);
        // 50 halvings leave nothing of 0.3 that a number of this size can show.
        for _ in 0..50 {
            let rate_per_h = 0.5 * (low_per_h + high_per_h);
            let [one_h, twenty_h, hundred_h] =
                [1.0, 20.0, 100.0].map(|hours_h| Settling::after(rate_per_h * hours_h));
            let c = share(&one_h, &twenty_h);
            if 5.0 * twenty_h.spread(c) > hundred * hundred_h.spread(c) {
                low_per_h = rate_per_h;
            } else {
                high_per_h = rate_per_h;
            }
        }
        let rate_per_h = 0.5 * (low_per_h + high_per_h);
        let twenty_h = Settling::after(20.0 * rate_per_h);
        // Near p = 1 rounding may carry it a hair beyond 1.
        let available_share = share(&Settling::after(rate_per_h), &twenty_h).min(1.0);
        let unit = KineticBattery { capacity_ah: 1.0, available_share, rate_per_h };
        Some(KineticBattery { capacity_ah: twenty_hour_ah / unit.delivered_ah(20.0), ..unit })
    }

    /// The wells at rest, at a state of charge.
    ///
    /// `q_1 = c s q_max`, `q_2 = (1 − c) s q_max`
    ///
    /// - `state_of_charge`  s, 0 to 1
    pub fn at_rest(&self, state_of_charge: f64) -> Wells {
        let total_ah = state_of_charge * self.capacity_ah;
        Wells {
            available_ah: self.available_share * total_ah,
            bound_ah: (1.0 - self.available_share) * total_ah,
        }
    }

    /// It over a time, made ready for many steps of that length.
    ///
    /// - `hours_h`  the time Δ [h], 0 or more
    pub fn over(&self, hours_h: f64) -> KineticStep {
        let c = self.available_share;
        let settling = self.settling(hours_h);
        let elapsed = self.rate_per_h * hours_h;
        // In no time nothing flows between the wells.
        let drawn = if elapsed > 0.0 { settling.spread(c) / elapsed } else { 1.0 };
        KineticStep {
            left: settling.left,
            flowed: c * settling.done,
            drawn,
            per_drawn: 1.0 / drawn,
            available_share: c,
        }
    }

    /// The wells after a time at a constant current: exact, however long the time.
    ///
    /// q_1 of [`KineticStep::available_after`], and charge is conserved: `q_1' + q_2' = q_0 − I Δ`
    ///
    /// - `wells`      charge at the start
    /// - `current_a`  current I [A], between [`most_charge_a`](Self::most_charge_a) and
    ///   [`most_discharge_a`](Self::most_discharge_a); outside, a well ends below 0 or above full
    /// - `hours_h`    time Δ [h], 0 or more
    ///
    /// Multiply a charging current by the charge efficiency before it enters here.
    pub fn after(&self, wells: Wells, current_a: f64, hours_h: f64) -> Wells {
        let (total_ah, drawn_ah) = (wells.total_ah(), current_a * hours_h);
        let available_ah = self.over(hours_h).available_after(wells.available_ah, total_ah, drawn_ah);
        Wells { available_ah, bound_ah: total_ah - drawn_ah - available_ah }
    }

    /// Greatest current a time can be carried at: the well at hand is empty at its end.
    ///
    /// `I = Q / Δ`, Q of [`KineticStep::most_drawn`]
    ///
    /// - `wells`    charge at the start
    /// - `hours_h`  time Δ [h], above 0
    ///
    /// Returns I [A], 0 or more; 0 of an empty battery.
    pub fn most_discharge_a(&self, wells: Wells, hours_h: f64) -> f64 {
        self.over(hours_h).most_drawn(wells.available_ah, wells.total_ah()) / hours_h
    }

    /// Greatest charging current a time can be carried at: the well at hand is full at its end.
    ///
    /// `I = −Q / Δ`, Q of [`KineticStep::most_stored`]
    ///
    /// - `wells`    charge at the start
    /// - `hours_h`  time Δ [h], above 0
    ///
    /// Returns I [A], 0 or below as charge; 0 of a full battery. What the battery accepts may be less:
    /// [`acceptance_a`](Self::acceptance_a), and the rate its maker allows.
    pub fn most_charge_a(&self, wells: Wells, hours_h: f64) -> f64 {
        -self.over(hours_h).most_stored(wells.available_ah, wells.total_ah(), self.capacity_ah) / hours_h
    }

    /// Charging current a battery accepts, as it falls off toward full.
    ///
    /// `I = −(1 − e^(−aΔ)) (q_max − q_0) / Δ`
    ///
    /// - `wells`                 charge at the start
    /// - `hours_h`               time Δ [h], above 0
    /// - `acceptance_a_per_ah`   current per charge missing a [A/Ah], above 0; 1 is typical (`from memory`)
    ///
    /// Returns the mean I over the time [A], 0 or below as charge; 0 of a full battery.
    pub fn acceptance_a(&self, wells: Wells, hours_h: f64, acceptance_a_per_ah: f64) -> f64 {
        let missing_ah = (self.capacity_ah - wells.total_ah()).max(0.0);
        (-acceptance_a_per_ah * hours_h).exp_m1() * missing_ah / hours_h
    }

    /// What a full battery delivers at the constant current that empties the well at hand in a given time.
    ///
    /// `q(T) = q_max k c T / [1 − e^(−kT) + c (kT − 1 + e^(−kT))]`
    ///
    /// - `hours_h`  time T [h], above 0
    ///
    /// Returns q(T) [Ah]: near c q_max at once, toward q_max over days.
    pub fn delivered_ah(&self, hours_h: f64) -> f64 {
        let full_a = self.rate_per_h * self.available_share * self.capacity_ah;
        full_a * hours_h / self.settling(hours_h).spread(self.available_share)
    }

    fn settling(&self, hours_h: f64) -> Settling {
        Settling::after(self.rate_per_h * hours_h)
    }
}

/// A [`KineticBattery`] over a time of a given length, as shares of charge.
///
/// The model is linear, so that charge may be counted here in Ah, or as energy at one voltage in Wh: all of it alike.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KineticStep {
    /// `e^(−kΔ)`
    left: f64,
    /// `c (1 − e^(−kΔ))`
    flowed: f64,
    /// `[1 − e^(−kΔ) + c (kΔ − 1 + e^(−kΔ))] / (kΔ)`: share of what is drawn that the well at hand gives for good.
    drawn: f64,
    /// One by that.
    per_drawn: f64,
    /// c
    available_share: f64,
}

impl KineticStep {
    /// Charge at hand after a steady draw.
    ///
    /// `q_1' = q_1 e^(−kΔ) + q_0 c (1 − e^(−kΔ)) − Q [1 − e^(−kΔ) + c (kΔ − 1 + e^(−kΔ))] / (kΔ)`
    ///
    /// - `available`  charge at hand at the start q_1
    /// - `total`      charge in both wells at the start q_0
    /// - `drawn`      charge drawn over the time Q, below 0 where it is stored
    ///
    /// Returns q_1', in the unit of these. Both wells together lose Q.
    #[inline]
    pub fn available_after(&self, available: f64, total: f64, drawn: f64) -> f64 {
        self.held(available, total) - drawn * self.drawn
    }

    /// Most that a steady draw can take: the well at hand is empty at its end.
    ///
    /// `Q = [q_1 e^(−kΔ) + q_0 c (1 − e^(−kΔ))] kΔ / [1 − e^(−kΔ) + c (kΔ − 1 + e^(−kΔ))]`
    ///
    /// - `available`, `total`  as in [`available_after`](Self::available_after)
    ///
    /// Returns Q, 0 or more, in the unit of these; 0 of an empty battery.
    #[inline]
    pub fn most_drawn(&self, available: f64, total: f64) -> f64 {
        (self.held(available, total) * self.per_drawn).max(0.0)
    }

    /// Most that a steady charge can store: the well at hand is full at its end.
    ///
    /// `Q = [c q_max − q_1 e^(−kΔ) − q_0 c (1 − e^(−kΔ))] kΔ / [1 − e^(−kΔ) + c (kΔ − 1 + e^(−kΔ))]`
    ///
    /// - `available`, `total`  as in [`available_after`](Self::available_after)
    /// - `full`                charge of both wells when full q_max
    ///
    /// Returns Q, 0 or more, in the unit of these; 0 of a full battery.
    #[inline]
    pub fn most_stored(&self, available: f64, total: f64, full: f64) -> f64 {
        ((self.available_share * full - self.held(available, total)) * self.per_drawn).max(0.0)
    }

    /// `q_1 e^(−kΔ) + q_0 c (1 − e^(−kΔ))`: what the well at hand holds at the end without a draw.
    #[inline]
    fn held(&self, available: f64, total: f64) -> f64 {
        available * self.left + total * self.flowed
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const FULL: KineticBattery =
        KineticBattery { capacity_ah: 120.0, available_share: 0.315, rate_per_h: 1.24 };

    #[test]
    fn a_full_battery_takes_no_charge_and_an_empty_one_gives_none() {
        assert!(FULL.most_charge_a(FULL.at_rest(1.0), 1.0).abs() < 1e-12);
        assert_eq!(FULL.acceptance_a(FULL.at_rest(1.0), 1.0, 1.0), 0.0);
        assert_eq!(FULL.most_discharge_a(FULL.at_rest(0.0), 1.0), 0.0);
    }

    #[test]
    fn a_fast_discharge_delivers_less() {
        let delivered = [1.0, 20.0].map(|hours_h| format!("{:.1}", FULL.delivered_ah(hours_h)));
        assert_eq!(delivered, ["53.4", "110.3"]);
    }

    #[test]
    fn no_time_changes_nothing() {
        assert_eq!(FULL.after(FULL.at_rest(0.5), 10.0, 0.0), FULL.at_rest(0.5));
    }

    #[test]
    fn a_rest_brings_charge_back_to_hand() {
        let emptied = FULL.after(FULL.at_rest(1.0), FULL.most_discharge_a(FULL.at_rest(1.0), 1.0), 1.0);
        let rested = FULL.after(emptied, 0.0, 1.0);
        assert!(emptied.available_ah.abs() < 1e-9 && rested.available_ah > 10.0);
    }

    /// Worked out apart from this code, with 30 digits.
    #[test]
    fn batteries_of_known_exponents() {
        for (exponent, available_share, rate_per_h, capacity_ah) in [
            (1.05, 0.774_438_570_088_63, 0.129_685_485_805_319, 110.390_088_002_097),
            (1.2, 0.409_994_419_342_538, 0.169_379_471_777_285, 141.044_873_170_504),
            (1.4, 0.269_149_458_193_127, 0.334_335_775_935_423, 140.558_338_089_449),
        ] {
            let battery = KineticBattery::from_exponent(100.0, exponent).unwrap();
            assert!(
                (battery.available_share / available_share - 1.0).abs() < 1e-12,
                "{exponent} {battery:?}"
            );
            assert!((battery.rate_per_h / rate_per_h - 1.0).abs() < 1e-12, "{exponent} {battery:?}");
            assert!((battery.capacity_ah / capacity_ah - 1.0).abs() < 1e-12, "{exponent} {battery:?}");
        }
    }

    #[test]
    fn without_an_effect_of_the_rate_all_charge_is_at_hand() {
        let battery = KineticBattery::from_exponent(100.0, 1.0).unwrap();
        assert!((battery.available_share - 1.0).abs() < 1e-14);
        for hours_h in [0.1, 1.0, 20.0, 100.0] {
            assert!((battery.delivered_ah(hours_h) - 100.0).abs() < 1e-9);
        }
        let half = battery.after(battery.at_rest(1.0), 50.0, 1.0);
        assert!((half.total_ah() - 50.0).abs() < 1e-9 && half.bound_ah.abs() < 1e-9);
    }

    #[test]
    fn an_exponent_that_is_no_battery_has_none() {
        for exponent in [0.99, 1.41, f64::NAN, f64::INFINITY] {
            assert_eq!(KineticBattery::from_exponent(100.0, exponent), None);
        }
    }

    /// A battery, its wells, and a current within the limits of the time [h] that follows it.
    fn cases() -> impl Strategy<Value = (KineticBattery, Wells, f64, f64)> {
        let battery = (10.0..500.0f64, 0.05..0.95f64, 0.01..10.0f64);
        (battery, 0.0..=1.0f64, 0.0..=1.0f64, 0.0..=1.0f64, 0.01..24.0f64).prop_map(
            |((capacity_ah, available_share, rate_per_h), available, bound, part, hours_h)| {
                let battery = KineticBattery { capacity_ah, available_share, rate_per_h };
                let full = battery.at_rest(1.0);
                let wells =
                    Wells { available_ah: available * full.available_ah, bound_ah: bound * full.bound_ah };
                let charge_a = battery.most_charge_a(wells, hours_h);
                let current_a = charge_a + part * (battery.most_discharge_a(wells, hours_h) - charge_a);
                (battery, wells, current_a, hours_h)
            },
        )
    }

    proptest! {
        #[test]
        fn charge_is_conserved((battery, wells, current_a, hours_h) in cases()) {
            let total_ah = battery.after(wells, current_a, hours_h).total_ah();
            let expected_ah = wells.total_ah() - current_a * hours_h;
            prop_assert!((total_ah - expected_ah).abs() < 1e-12 * battery.capacity_ah);
        }

        #[test]
        fn two_half_steps_equal_one_whole((battery, wells, current_a, hours_h) in cases()) {
            let whole = battery.after(wells, current_a, hours_h);
            let half = battery.after(wells, current_a, hours_h / 2.0);
            let halves = battery.after(half, current_a, hours_h / 2.0);
            prop_assert!((whole.available_ah - halves.available_ah).abs() < 1e-12 * battery.capacity_ah);
            prop_assert!((whole.bound_ah - halves.bound_ah).abs() < 1e-12 * battery.capacity_ah);
        }

        #[test]
        fn within_the_limits_no_well_runs_dry_or_over(
            (battery, wells, current_a, hours_h) in cases(), part in 0.0..=1.0f64,
        ) {
            let full = battery.at_rest(1.0);
            let rounding_ah = 1e-12 * battery.capacity_ah;
            let during = battery.after(wells, current_a, part * hours_h);
            prop_assert!(during.available_ah >= -rounding_ah && during.bound_ah >= -rounding_ah);
            prop_assert!(during.available_ah <= full.available_ah + rounding_ah);
            prop_assert!(during.bound_ah <= full.bound_ah + rounding_ah);
        }

        #[test]
        fn at_the_limits_the_well_at_hand_is_empty_or_full((battery, wells, _, hours_h) in cases()) {
            let emptied = battery.after(wells, battery.most_discharge_a(wells, hours_h), hours_h);
            let filled = battery.after(wells, battery.most_charge_a(wells, hours_h), hours_h);
            let full_ah = battery.at_rest(1.0).available_ah;
            prop_assert!(emptied.available_ah.abs() < 1e-12 * battery.capacity_ah);
            prop_assert!((filled.available_ah - full_ah).abs() < 1e-12 * battery.capacity_ah);
        }

        #[test]
        fn a_slower_discharge_never_delivers_less(
            (battery, _, _, hours_h) in cases(), times in 1.0..10.0f64,
        ) {
            let slower_ah = battery.delivered_ah(times * hours_h);
            prop_assert!(slower_ah >= battery.delivered_ah(hours_h) * (1.0 - 1e-12));
            prop_assert!(slower_ah <= battery.capacity_ah * (1.0 + 1e-12));
        }

        #[test]
        fn a_battery_of_an_exponent_delivers_as_peukert_says(rated_ah in 10.0..500.0f64, p in 1.0..=1.4f64) {
            let battery = KineticBattery::from_exponent(rated_ah, p).unwrap();
            let at = |hours_h| battery.delivered_ah(hours_h) / rated_ah;
            prop_assert!((at(20.0) - 1.0).abs() < 1e-12);
            prop_assert!((at(1.0) / rerated_ah(1.0, 20.0, p, 1.0) - 1.0).abs() < 1e-12);
            prop_assert!((at(100.0) / rerated_ah(1.0, 20.0, p, 100.0).min(1.3) - 1.0).abs() < 1e-12);
            prop_assert!((0.269..=1.0).contains(&battery.available_share), "{battery:?}");
            prop_assert!((0.1..0.335).contains(&battery.rate_per_h), "{battery:?}");
            prop_assert!((1.0 - 1e-12..1.411).contains(&(battery.capacity_ah / rated_ah)), "{battery:?}");
        }

        #[test]
        fn a_greater_exponent_leaves_less_at_hand_and_evens_out_faster(p in 1.001..1.399f64, more in 0.0001..0.4f64) {
            let greater = (p + more).min(1.4);
            let [low, high] = [p, greater].map(|p| KineticBattery::from_exponent(100.0, p).unwrap());
            prop_assert!(high.available_share < low.available_share);
            prop_assert!(high.rate_per_h > low.rate_per_h);
        }
    }
}
