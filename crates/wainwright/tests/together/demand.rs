//! The risk of passing a limit against every way to be on and off.

use proptest::prelude::*;
use wainwright::circuit_load::demand::{Demand, certain_peak_a, expected_a, risk};

use super::loads::cases;

/// Currents on the grid of 0.1 A; never, always and sometimes on.
fn loads() -> impl Strategy<Value = Vec<Demand>> {
    let on = prop_oneof![1 => Just(0.0), 1 => Just(1.0), 6 => 0.0..=1.0];
    let load = (0..=200_u32, on).prop_map(|(tenths, on)| Demand { current_a: f64::from(tenths) / 10.0, on });
    prop::collection::vec(load, 0..=10)
}

/// The probability and the current of every way to be on and off.
fn ways(loads: &[Demand]) -> impl Iterator<Item = (f64, f64)> {
    (0..1_usize << loads.len()).map(|set| {
        loads.iter().enumerate().fold((1.0, 0.0), |(probability, sum), (load, demand)| {
            if set >> load & 1 == 1 {
                (probability * demand.on, sum + demand.current_a)
            } else {
                (probability * (1.0 - demand.on), sum)
            }
        })
    })
}

proptest! {
    #![proptest_config(cases(400))]

    #[test]
    fn the_risk_is_that_of_every_way_that_passes(loads in loads(), tenths in 0..=1500_u32) {
        let limit_a = f64::from(tenths) / 10.0;
        let passes = ways(&loads).filter(|(_, sum)| *sum > limit_a + 1e-6).map(|(probability, _)| probability);
        let expected = passes.sum::<f64>();
        let risk = risk(&loads, limit_a, &mut Vec::new());
        prop_assert!((risk - expected).abs() <= 1e-12, "{risk} for {expected}");
    }

    #[test]
    fn expected_current_is_the_mean_of_every_way(loads in loads()) {
        let mean = ways(&loads).map(|(probability, sum)| probability * sum).sum::<f64>();
        prop_assert!((expected_a(&loads) - mean).abs() <= 1e-10);
    }

    #[test]
    fn a_higher_limit_is_never_passed_more(loads in loads(), limit_a in 0.0..150.0, more_a in 0.0..20.0) {
        let mut cells = vec![1.0; 7];
        let low = risk(&loads, limit_a, &mut cells);
        let high = risk(&loads, limit_a + more_a, &mut cells);
        prop_assert!((0.0..=1.0).contains(&low) && high <= low + 1e-12);
        prop_assert_eq!(risk(&loads, certain_peak_a(&loads), &mut cells), 0.0);
    }
}
