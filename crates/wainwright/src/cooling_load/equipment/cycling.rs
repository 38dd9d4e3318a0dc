//! A unit that runs now and then.

/// What each start costs: the share of efficiency that is left where a unit runs for next to no time.
///
/// Source: NREL/TP-5500-57617, quoted at second hand.
const LEAST_FACTOR: f64 = 0.78;

/// Share of its steady efficiency that a unit of one speed reaches at part load.
///
/// `PLF = 0.78 + 0.22 PLR`
///
/// - `part_load`  heat asked for by the heat it takes running PLR, held to 0 to 1
///
/// Returns PLF, 0.78 to 1.
///
/// Source: NREL/TP-5500-57617, quoted at second hand.
pub fn part_load_factor(part_load: f64) -> f64 {
    LEAST_FACTOR + (1.0 - LEAST_FACTOR) * part_load.clamp(0.0, 1.0)
}

/// Share of the time that a unit runs.
///
/// `RTF = PLR / PLF`
///
/// - `part_load`  heat asked for by the heat it takes running PLR, held to 0 to 1
///
/// Returns RTF, 0 to 1.
///
/// Source: as for [`part_load_factor`].
pub fn run_time_fraction(part_load: f64) -> f64 {
    part_load.clamp(0.0, 1.0) / part_load_factor(part_load)
}

/// Mean power of a unit that runs now and then: over an hour as many watt-hours.
///
/// `P̄ = RTF P + (1 − RTF) P_f`
///
/// - `part_load`    heat asked for by the heat it takes running, held to 0 to 1
/// - `running_w`    power while it runs P [W], 0 or more
/// - `between_w`    power while it stands P_f [W], 0 or more: standby, or the fan where that stays on
///
/// Returns P̄ [W].
///
/// Source: energy balance over many cycles.
pub fn mean_power_w(part_load: f64, running_w: f64, between_w: f64) -> f64 {
    let run_time = run_time_fraction(part_load);
    run_time * running_w + (1.0 - run_time) * between_w
}

/// Share of its latent heat that a coil keeps out of the room while the fan stays on between runs: the fan dries the
/// coil into the room.
///
/// `2 RTF − 1`, 0 or more
///
/// - `run_time_fraction`  share of the time that it runs RTF, 0 to 1
///
/// Returns the share, 0 to 1. With a fan that stops it is 1.
///
/// Source: `common practice`, nothing below one half; the line above that is chosen here.
pub fn latent_kept(run_time_fraction: f64) -> f64 {
    (2.0 * run_time_fraction - 1.0).clamp(0.0, 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn at_half_load_it_runs_for_more_than_half_the_time() {
        // 0.5 / (0.78 + 0.11)
        assert_eq!(format!("{:.4} {:.4}", part_load_factor(0.5), run_time_fraction(0.5)), "0.8900 0.5618");
        assert_eq!(format!("{:.2}", mean_power_w(0.5, 450.0, 0.0)), "252.81");
    }

    #[test]
    fn idle_and_full_load_are_the_ends() {
        assert_eq!((run_time_fraction(0.0), run_time_fraction(1.0), run_time_fraction(1.7)), (0.0, 1.0, 1.0));
        assert_eq!((mean_power_w(0.0, 450.0, 3.0), mean_power_w(1.0, 450.0, 3.0)), (3.0, 450.0));
        assert_eq!(
            (latent_kept(0.3), latent_kept(0.5), latent_kept(0.75), latent_kept(1.0)),
            (0.0, 0.0, 0.5, 1.0)
        );
    }

    proptest! {
        #[test]
        fn more_load_runs_longer_and_at_better_efficiency(load in 0.0..0.99f64, more in 0.001..0.01f64) {
            prop_assert!(run_time_fraction(load + more) > run_time_fraction(load));
            prop_assert!(run_time_fraction(load) >= load);
            prop_assert!(part_load_factor(load + more) > part_load_factor(load));
        }
    }
}
