//! What a lead-acid battery delivers at currents other than the one it is rated at.
//!
//! The equation holds for one unbroken discharge. What it misses is not lost: after a rest it can be drawn, which
//! [`super::kinetic_battery`] shows and this does not.

/// How long a battery carries a constant current.
///
/// `t = H [C / (I H)]^k`
///
/// - `rated_ah`   rated capacity C [Ah], above 0
/// - `rated_h`    hours of the rating H [h], above 0; 20 is usual
/// - `current_a`  current I [A], above 0
/// - `exponent`   k, 1 or more: flooded 1.20 to 1.35, absorbed 1.05 to 1.15, gel 1.10 to 1.20, lithium iron phosphate
///   1.00 to 1.05 (`common practice`)
///
/// Returns t [h], H at the rated current. Below the rated current the equation promises more than a battery has: hold
/// what it gives to 1.0 to 1.3 times C (`common practice`), as [`counted_ah`] does.
///
/// Source: Peukert, 1897, written for a capacity rated at any time. `C/I^k` is the same only for a C rated at 1 A.
pub fn run_h(rated_ah: f64, rated_h: f64, current_a: f64, exponent: f64) -> f64 {
    rated_h * (rated_ah / (current_a * rated_h)).powf(exponent)
}

/// What a battery delivers at a constant current.
///
/// `C_I = C [C / (I H)]^(k − 1)`
///
/// - `rated_ah`, `rated_h`, `current_a`, `exponent`  as in [`run_h`], with the same caution
///
/// Returns C_I [Ah], C at the rated current.
///
/// Source: [`run_h`] times the current.
pub fn delivered_ah(rated_ah: f64, rated_h: f64, current_a: f64, exponent: f64) -> f64 {
    rated_ah * (rated_ah / (current_a * rated_h)).powf(exponent - 1.0)
}

/// Capacity of a battery rated at other hours.
///
/// `C_2 = C_1 (H_1 / H_2)^(1/k − 1)`
///
/// - `rated_ah`  capacity C_1 [Ah] at the hours H_1
/// - `rated_h`   hours H_1 [h], above 0
/// - `exponent`  k, 1 or more
/// - `hours_h`   the other hours H_2 [h], above 0
///
/// Returns C_2 [Ah].
///
/// Source: [`run_h`] with `I = C_2 / H_2`, `t = H_2`.
pub fn rerated_ah(rated_ah: f64, rated_h: f64, exponent: f64, hours_h: f64) -> f64 {
    rated_ah * (rated_h / hours_h).powf(1.0 / exponent - 1.0)
}

/// The exponent, from two discharges of one battery.
///
/// `k = ln(t_2 / t_1) / ln(I_1 / I_2)`
///
/// - `first_a`, `first_h`    current I_1 [A] and time t_1 [h] of one discharge, above 0
/// - `second_a`, `second_h`  of the other; its current differs
///
/// Returns k: 1 where both deliver the same.
///
/// Source: [`run_h`] of both.
pub fn exponent(first_a: f64, first_h: f64, second_a: f64, second_h: f64) -> f64 {
    (second_h / first_h).ln() / (first_a / second_a).ln()
}

/// What a time at a current counts against the rated capacity, where the current changes from time to time.
///
/// `q = I Δt max{ (I H / C)^(k − 1), 1/m }`
///
/// - `rated_ah`, `rated_h`, `exponent`  as in [`run_h`]
/// - `current_a`  current I [A], 0 or more
/// - `hours_h`    time at it Δt [h], 0 or more
/// - `most`       most that a slow discharge gives, as a multiple of C m: 1.0 to 1.3 (`common practice`)
///
/// Returns q [Ah]; the battery is empty when the sum reaches C.
///
/// Source: C divided by [`delivered_ah`], `common practice`.
pub fn counted_ah(
    rated_ah: f64,
    rated_h: f64,
    current_a: f64,
    exponent: f64,
    hours_h: f64,
    most: f64,
) -> f64 {
    let weight = (current_a * rated_h / rated_ah).powf(exponent - 1.0);
    current_a * hours_h * weight.max(1.0 / most)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn ten_amperes_from_a_hundred_ampere_hours() {
        assert_eq!(format!("{:.4}", run_h(100.0, 20.0, 10.0, 1.2)), "8.7055");
        assert_eq!(format!("{:.2}", delivered_ah(100.0, 20.0, 10.0, 1.2)), "87.06");
    }

    #[test]
    fn the_rated_current_lasts_the_rated_hours() {
        assert_eq!(run_h(100.0, 20.0, 5.0, 1.2), 20.0);
        assert_eq!(counted_ah(100.0, 20.0, 5.0, 1.2, 20.0, 1.3), 100.0);
    }

    #[test]
    fn a_slow_discharge_gives_no_more_than_the_most() {
        assert!((counted_ah(100.0, 20.0, 0.01, 1.2, 13_000.0, 1.3) - 100.0).abs() < 1e-9);
        assert_eq!(counted_ah(100.0, 20.0, 0.0, 1.2, 1.0, 1.3), 0.0);
    }

    proptest! {
        #[test]
        fn two_discharges_give_the_exponent_back(k in 1.0..1.5f64, first_a in 1.0..50.0f64, times in 1.5..10.0f64) {
            let second_a = first_a * times;
            let hours = [first_a, second_a].map(|current_a| run_h(100.0, 20.0, current_a, k));
            prop_assert!((exponent(first_a, hours[0], second_a, hours[1]) - k).abs() < 1e-12);
        }

        #[test]
        fn a_battery_rerated_runs_as_long(k in 1.0..1.5f64, hours_h in 1.0..200.0f64, current_a in 1.0..100.0f64) {
            let rerated = run_h(rerated_ah(100.0, 20.0, k, hours_h), hours_h, current_a, k);
            prop_assert!((rerated / run_h(100.0, 20.0, current_a, k) - 1.0).abs() < 1e-12);
        }

        #[test]
        fn a_whole_discharge_counts_as_the_rated_capacity(k in 1.0..1.5f64, current_a in 5.0..100.0f64) {
            let hours_h = run_h(100.0, 20.0, current_a, k);
            prop_assert!((counted_ah(100.0, 20.0, current_a, k, hours_h, 1.0) - 100.0).abs() < 1e-9);
        }
    }
}
