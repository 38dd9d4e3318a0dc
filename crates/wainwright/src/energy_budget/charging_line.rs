//! Charge from the tow vehicle over a long line, and from shore power.

/// Most power a line can bring to its end.
///
/// `P_max = V² / (4 R)`
///
/// - `source_v`  voltage of the alternator V [V], above 0
/// - `line_ohm`  resistance of the line, out and back R [Ω], 0 or more
///
/// Returns P_max [W]; without bound where the resistance is 0.
///
/// Source: largest value of `I (V − I R)`, at half the voltage.
pub fn most_line_w(source_v: f64, line_ohm: f64) -> f64 {
    source_v * source_v / (4.0 * line_ohm)
}

/// Current a DC-DC charger draws at the end of a line.
///
/// `I = [V − √(V² − 4 R P)] / (2 R)`
///
/// - `source_v`, `line_ohm`  as in [`most_line_w`]
/// - `input_w`               power at the charger's input P [W], 0 or more: what it delivers over its efficiency
///
/// Returns I [A]; none where P is above [`most_line_w`]: the voltage breaks down and the charger cuts out.
///
/// Source: `P = I (V − I R)` solved for I, the lesser root, to which a charger that starts up settles.
pub fn converter_input_a(source_v: f64, line_ohm: f64, input_w: f64) -> Option<f64> {
    let root_squared = source_v * source_v - 4.0 * line_ohm * input_w;
    // The same root as above, written so that it holds without resistance too.
    (root_squared >= 0.0).then(|| 2.0 * input_w / (source_v + root_squared.sqrt()))
}

/// Current a plain charge wire brings from the tow vehicle.
///
/// `I = (V − V_b) / R`
///
/// - `source_v`, `line_ohm`  as in [`most_line_w`]; the resistance above 0
/// - `battery_v`             voltage of the trailer's battery V_b [V]
///
/// Returns I [A], often 3 to 10; 0 where the battery stands higher, a charge relay being open then.
///
/// Source: Ohm's law.
pub fn direct_charge_a(source_v: f64, battery_v: f64, line_ohm: f64) -> f64 {
    ((source_v - battery_v) / line_ohm).max(0.0)
}

/// Power a shore converter brings to the battery's bus.
///
/// `P = min(V_b I_r, η P_ac)`
///
/// - `battery_v`       voltage of the bus V_b [V]
/// - `rated_a`         rated output current I_r [A], 0 or more
/// - `supply_limit_w`  AC power it may draw P_ac [W], 0 or more
/// - `efficiency`      η, above 0, to 1: 0.85 to 0.92 (`common practice`)
///
/// Returns P [W]. What the battery accepts may be less.
///
/// Source: energy balance.
pub fn shore_converter_w(battery_v: f64, rated_a: f64, supply_limit_w: f64, efficiency: f64) -> f64 {
    (battery_v * rated_a).min(efficiency * supply_limit_w)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn three_hundred_watts_over_fifty_milliohms() {
        let current_a = converter_input_a(14.0, 0.050, 300.0).unwrap();
        assert_eq!(format!("{current_a:.3}"), "23.381");
    }

    #[test]
    fn a_thin_line_brings_no_more_than_its_limit() {
        assert_eq!(format!("{:.0}", most_line_w(13.8, 0.1)), "476");
        assert_eq!(format!("{:.0}", most_line_w(13.8, 0.2)), "238");
        assert_eq!(converter_input_a(13.8, 0.1, 500.0), None);
        assert_eq!(converter_input_a(13.8, 0.2, 250.0), None);
        // At the limit half the voltage is left.
        assert_eq!(converter_input_a(12.0, 0.02, 1800.0), Some(300.0));
    }

    #[test]
    fn without_resistance_nothing_is_lost() {
        assert_eq!(most_line_w(14.0, 0.0), f64::INFINITY);
        assert_eq!(converter_input_a(14.0, 0.0, 280.0), Some(20.0));
        assert_eq!(converter_input_a(14.0, 0.1, 0.0), Some(0.0));
    }

    #[test]
    fn a_plain_wire_brings_little_and_takes_nothing_back() {
        assert!((direct_charge_a(13.8, 13.2, 0.1) - 6.0).abs() < 1e-12);
        assert_eq!(direct_charge_a(12.6, 13.2, 0.1), 0.0);
    }

    #[test]
    fn a_converter_is_held_by_its_rating_or_by_its_supply() {
        assert_eq!(shore_converter_w(13.5, 40.0, 1800.0, 0.9), 540.0);
        assert_eq!(shore_converter_w(13.5, 40.0, 500.0, 0.9), 450.0);
    }

    proptest! {
        #[test]
        fn what_arrives_is_what_was_asked(
            source_v in 11.0..30.0f64, line_ohm in 0.0..0.5f64, part in 0.0..=1.0f64,
        ) {
            let input_w = part * most_line_w(source_v, line_ohm).min(1e4) * (1.0 - 1e-12);
            let current_a = converter_input_a(source_v, line_ohm, input_w).unwrap();
            let arrived_w = current_a * (source_v - current_a * line_ohm);
            prop_assert!((arrived_w - input_w).abs() <= 1e-9 * input_w.max(1.0));
            prop_assert!(current_a * line_ohm <= source_v / 2.0 * (1.0 + 1e-12));
        }
    }
}
