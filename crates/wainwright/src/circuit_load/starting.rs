//! Starting: a motor draws several times its running current for a moment, an electronic supply fills its capacitors.
//!
//! Volt-amperes or amperes alike, all of one kind.

/// What a load draws as it starts.
///
/// `S_start = k S_run`
///
/// - `running`   S_run [VA or A], 0 or more
/// - `multiple`  k, 1 or more: 5 to 6 for an AC induction compressor or pump (6 in the code's motor tables), 3 to 4
///   for a DC brushed motor, 1 to 1.5 where electronics drive the motor, 1 for a heater, and 10 to 15 for the first
///   10 ms of a transformer or a capacitor (`common practice`)
///
/// Returns the draw, in the unit of `running`.
///
/// Source: definition of the multiple.
pub fn starting_a(running: f64, multiple: f64) -> f64 {
    multiple * running
}

/// Worst moment of a source whose loads start one at a time.
///
/// `S_peak = max_k (S_start,k + Σ_{j≠k} S_run,j) = Σ S_run + max_k (k_k − 1) S_run,k`
///
/// - `loads`  running draw, 0 or more [VA or A], and starting multiple, 1 or more, of each load that may be on
///
/// Returns the draw and the place in `loads` of the one whose start is the worst, the first of equals; 0 and none
/// without loads.
///
/// Source: sum of the draws; one start at a time, `common practice`.
pub fn worst_start(loads: impl Iterator<Item = (f64, f64)>) -> (f64, Option<usize>) {
    let mut all_running = 0.0;
    let mut worst_rise = 0.0;
    let mut worst = None;
    for (index, (running, multiple)) in loads.enumerate() {
        all_running += running;
        let rise = starting_a(running, multiple) - running;
        if worst.is_none() || rise > worst_rise {
            worst_rise = rise;
            worst = Some(index);
        }
    }
    (all_running + worst_rise, worst)
}

#[cfg(test)]
mod tests {
    use super::super::constant_power;
    use super::super::current::margin;
    use super::*;
    use proptest::prelude::*;

    const LOADS_VA: [(f64, f64); 4] = [(80.0, 1.0), (504.0, 5.0), (60.0, 1.0), (20.0, 1.0)];

    #[test]
    fn one_starts_while_the_others_run() {
        assert_eq!(worst_start(LOADS_VA.into_iter()), (2680.0, Some(1)));
        assert_eq!(margin(2680.0, 4000.0), 0.33);
    }

    #[test]
    fn the_start_may_pull_the_battery_down() {
        let arrival = constant_power::behind(12.8, 0.006, 2680.0 / 0.85).unwrap();
        assert_eq!(format!("{:.3} {:.0}", arrival.voltage_v, arrival.current_a), "11.095 284");
    }

    #[test]
    fn nothing_starts_where_nothing_is() {
        assert_eq!(worst_start(std::iter::empty()), (0.0, None));
        assert_eq!(worst_start([(5.0, 1.0), (7.0, 1.0)].into_iter()), (12.0, Some(0)));
    }

    proptest! {
        #[test]
        fn the_worst_start_is_the_largest_tried_one_by_one(
            loads in prop::collection::vec((0.0..2000.0f64, 1.0..15.0f64), 1..9),
        ) {
            let (total, index) = worst_start(loads.iter().copied());
            let starts_with = |first: usize| -> f64 {
                loads.iter().enumerate().map(|(k, &(run, n))| if k == first { run * n } else { run }).sum()
            };
            for first in 0..loads.len() {
                prop_assert!(starts_with(first) <= total + 1e-9);
            }
            prop_assert!((starts_with(index.unwrap()) - total).abs() < 1e-9);
        }
    }
}
