//! An inverter's efficiency over its load: the reference curve, both ways. Source of all here: Dobos,
//! NREL/TP-6A20-62641, 2014.
//!
//! What an inverter that runs draws without a load is in the curve: 0.6 percent of its rated input. Count no other idle
//! draw beside it.

/// Efficiency at rated output of a usual inverter.
pub const NOMINAL_EFFICIENCY: f64 = 0.96;

/// Efficiency at rated output of the inverter the curve was fitted to.
const REFERENCE_EFFICIENCY: f64 = 0.9637;
/// Its loss that grows with the square of the load, as a share of rated input.
const SQUARE: f64 = 0.0162;
/// Its loss at any load, as a share of rated input.
const FIXED: f64 = 0.0059;
/// What every watt of input gives before these losses.
const SLOPE: f64 = 0.9858;

/// Output of an inverter at a given input.
///
/// `P_ac = P_r η_n / 0.9637 (−0.0162 ζ² + 0.9858 ζ − 0.0059)`, `ζ = P_dc / P_r`, at most `η_n P_r`
///
/// - `input_w`             power at the input P_dc [W], 0 or more
/// - `rated_input_w`       input at rated output P_r [W], above 0: rated output over η_n
/// - `nominal_efficiency`  efficiency at rated output η_n, above 0, to 0.99, for instance [`NOMINAL_EFFICIENCY`]; at
///   part load the curve is up to 0.3 percent higher
///
/// Returns P_ac [W]; 0 where the input does not cover the inverter's own draw.
pub fn output_w(input_w: f64, rated_input_w: f64, nominal_efficiency: f64) -> f64 {
    let load = input_w / rated_input_w;
    let reference = (SLOPE - SQUARE * load) * load - FIXED;
    let share = nominal_efficiency / REFERENCE_EFFICIENCY * reference;
    (rated_input_w * share.min(nominal_efficiency)).max(0.0)
}

/// Input an inverter needs for a given output.
///
/// `P_dc = P_r [0.9858 − √(0.9858² − 4 · 0.0162 (0.0059 + y))] / (2 · 0.0162)`, `y = 0.9637 P_ac / (η_n P_r)`
///
/// - `output_w`  power of the loads P_ac [W], 0 or more
/// - `rated_input_w`, `nominal_efficiency`  as in [`output_w`]
///
/// Returns P_dc [W], with no load what it draws itself; none above rated output `η_n P_r`: the inverter cuts out.
///
/// [`output_w`] solved for its input, a square in ζ.
pub fn input_w(output_w: f64, rated_input_w: f64, nominal_efficiency: f64) -> Option<f64> {
    let rated_output_w = nominal_efficiency * rated_input_w;
    if output_w > rated_output_w {
        return None;
    }
    let lost_and_given = FIXED + REFERENCE_EFFICIENCY * output_w.max(0.0) / rated_output_w;
    // The lesser root, written without the difference of two numbers that are nearly equal. Up to rated output what is
    // under the root is above 0.9.
    let root = (SLOPE * SLOPE - 4.0 * SQUARE * lost_and_given).sqrt();
    Some(rated_input_w * 2.0 * lost_and_given / (SLOPE + root))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn part_load_efficiency() {
        let efficiency = [0.05, 0.1, 0.5, 1.0]
            .map(|load| format!("{:.4}", output_w(load, 1.0, NOMINAL_EFFICIENCY) / load));
        assert_eq!(efficiency, ["0.8637", "0.9216", "0.9622", "0.9600"]);
    }

    #[test]
    fn without_a_load_the_inverter_still_draws() {
        let own_w = input_w(0.0, 2000.0, NOMINAL_EFFICIENCY).unwrap();
        assert_eq!(format!("{own_w:.2}"), "11.97");
        assert_eq!(input_w(-5.0, 2000.0, NOMINAL_EFFICIENCY), Some(own_w));
        assert_eq!(output_w(own_w / 2.0, 2000.0, NOMINAL_EFFICIENCY), 0.0);
        assert_eq!(output_w(0.0, 2000.0, NOMINAL_EFFICIENCY), 0.0);
    }

    #[test]
    fn nothing_comes_out_above_the_rating() {
        assert_eq!(output_w(2200.0, 2000.0, NOMINAL_EFFICIENCY), 1920.0);
        assert!((input_w(1920.0, 2000.0, NOMINAL_EFFICIENCY).unwrap() - 2000.0).abs() < 1e-9);
        assert_eq!(input_w(1920.1, 2000.0, NOMINAL_EFFICIENCY), None);
    }

    proptest! {
        #[test]
        fn the_input_for_an_output_gives_it_back(
            rated_input_w in 100.0..5000.0f64, nominal_efficiency in 0.80..=0.99f64, part in 0.0..=1.0f64,
        ) {
            let asked_w = part * nominal_efficiency * rated_input_w;
            let needed_w = input_w(asked_w, rated_input_w, nominal_efficiency).unwrap();
            prop_assert!(needed_w > 0.0 && needed_w >= asked_w);
            let given_w = output_w(needed_w, rated_input_w, nominal_efficiency);
            prop_assert!((given_w - asked_w).abs() <= 1e-12 * rated_input_w);
        }
    }
}
