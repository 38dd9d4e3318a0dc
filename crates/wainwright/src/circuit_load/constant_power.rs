//! A load that takes the same power at any voltage, behind the resistance of its supply.
//!
//! Inverters, converters and electronics are such loads: as the voltage falls they draw more current, which drops
//! more voltage. Beyond a certain power no voltage holds, and the load cuts out.

/// What arrives at the far end of a resistance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Arrival {
    /// Voltage at the load [V].
    pub voltage_v: f64,
    /// Current through the resistance and the load [A].
    pub current_a: f64,
}

/// Most power a supply can pass to a load.
///
/// `P_max = V_s² / (4 R)`
///
/// - `source_v`        voltage behind the resistance V_s [V], > 0
/// - `resistance_ohm`  R, source and loop together [Ω], 0 or more
///
/// Returns the power [W]; without bound where the resistance is 0.
///
/// Source: largest value of V (V_s − V) / R, at half the voltage.
pub fn most_w(source_v: f64, resistance_ohm: f64) -> f64 {
    source_v * source_v / (4.0 * resistance_ohm)
}

/// Voltage and current of a constant-power load behind a resistance.
///
/// `V = [V_s + √(V_s² − 4 P R)] / 2`, `I = P / V`
///
/// - `source_v`        voltage behind the resistance V_s [V], > 0
/// - `resistance_ohm`  R, source and loop together [Ω], 0 or more
/// - `power_w`         power at the load's terminals P [W]; below 0 it feeds the source
///
/// Returns the upper root, to which the voltage settles; none where P is above [`most_w`]: the load cuts out.
///
/// Source: `V_s = V + R P / V` solved for V.
pub fn behind(source_v: f64, resistance_ohm: f64, power_w: f64) -> Option<Arrival> {
    if power_w > most_w(source_v, resistance_ohm) {
        return None;
    }
    // At the very limit rounding may leave the root's argument a hair below 0.
    let root_v = (source_v * source_v - 4.0 * power_w * resistance_ohm).max(0.0).sqrt();
    let voltage_v = (source_v + root_v) / 2.0;
    Some(Arrival { voltage_v, current_a: power_w / voltage_v })
}

/// Voltage and current of an AC load of constant power behind an impedance.
///
/// `V² = [b + √(b² − 4 c)] / 2`, `b = V_s² − 2 (P R + Q X)`, `c = (P² + Q²)(R² + X²)`, `I = √(P² + Q²) / V`
///
/// - `source_v`        voltage behind the impedance V_s [V], > 0
/// - `resistance_ohm`  R of source and loop [Ω], 0 or more
/// - `reactance_ohm`   X of source and loop [Ω]
/// - `power_w`         real power at the load P [W]
/// - `reactive_var`    reactive power at the load Q, lagging positive [var]
///
/// Returns the upper root, to which the voltage settles; none where no voltage holds the load.
///
/// Source: `V_s = V + (R + j X)(P − j Q) / V`, squared and solved for V². With `b² − 4 c` written as
/// `V_s² [V_s² − 4 (P R + Q X)] − 4 (P X − Q R)²` nothing is lost to rounding.
pub fn ac_behind(
    source_v: f64,
    resistance_ohm: f64,
    reactance_ohm: f64,
    power_w: f64,
    reactive_var: f64,
) -> Option<Arrival> {
    let square_v2 = source_v * source_v;
    let along_v2 = power_w * resistance_ohm + reactive_var * reactance_ohm;
    let across_v2 = power_w * reactance_ohm - reactive_var * resistance_ohm;
    let b = square_v2 - 2.0 * along_v2;
    let radicand = square_v2 * (square_v2 - 4.0 * along_v2) - 4.0 * across_v2 * across_v2;
    // The roots' product c is never negative: with b at or below 0 neither root is a voltage.
    if b <= 0.0 || radicand < 0.0 {
        return None;
    }
    let voltage_v = ((b + radicand.sqrt()) / 2.0).sqrt();
    Some(Arrival { voltage_v, current_a: power_w.hypot(reactive_var) / voltage_v })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn voltage_falls_as_worked_by_hand() {
        let arrival = behind(12.8, 0.010, 1383.6).unwrap();
        assert_eq!(format!("{:.4} {:.3}", arrival.voltage_v, arrival.current_a), "11.6081 119.193");
    }

    #[test]
    fn nothing_holds_above_the_most_a_supply_can_pass() {
        assert_eq!(most_w(12.0, 0.02), 1800.0);
        let limit = behind(12.0, 0.02, 1800.0).unwrap();
        assert_eq!((limit.voltage_v, limit.current_a), (6.0, 300.0));
        assert_eq!(behind(12.0, 0.02, 1801.0), None);
    }

    #[test]
    fn without_resistance_the_source_voltage_arrives() {
        let arrival = Arrival { voltage_v: 12.5, current_a: 80.0 };
        assert_eq!(behind(12.5, 0.0, 1000.0), Some(arrival));
        assert_eq!(ac_behind(12.5, 0.0, 0.0, 1000.0, 0.0), Some(arrival));
        assert_eq!(behind(12.5, 0.01, 0.0), Some(Arrival { voltage_v: 12.5, current_a: 0.0 }));
        assert_eq!(ac_behind(12.5, 0.01, 0.01, 0.0, 0.0), Some(Arrival { voltage_v: 12.5, current_a: 0.0 }));
    }

    #[test]
    fn a_load_that_feeds_back_lifts_its_voltage() {
        let arrival = behind(12.8, 0.01, -500.0).unwrap();
        assert!(arrival.voltage_v > 12.8 && arrival.current_a < 0.0);
    }

    /// The same nine digits come from a power flow by Newton's method.
    #[test]
    fn ac_receiving_end_is_as_a_power_flow_has_it() {
        let arrival = ac_behind(120.0, 0.2, 0.01, 1500.0, 0.0).unwrap();
        assert_eq!(format!("{:.6} {:.6}", arrival.voltage_v, arrival.current_a), "117.445557 12.771875");
        // Worked out with 40 digits: 117.445556987252909, 12.771875228645765.
        assert!((arrival.voltage_v / 117.445_556_987_252_91 - 1.0).abs() < 1e-15);
        assert!((arrival.current_a / 12.771_875_228_645_765 - 1.0).abs() < 1e-15);
    }

    #[test]
    fn ac_has_a_limit_too() {
        // Matched in phase, the limit is that of DC.
        assert!(ac_behind(120.0, 0.2, 0.0, 17_999.0, 0.0).is_some());
        assert_eq!(ac_behind(120.0, 0.2, 0.0, 18_001.0, 0.0), None);
        assert_eq!(ac_behind(120.0, 0.2, 0.0, 100_000.0, 0.0), None);
    }

    proptest! {
        #[test]
        fn the_drop_makes_up_the_source_voltage(
            source_v in 10.0..60.0f64, resistance_ohm in 0.0..0.2f64, part in 0.0..1.0f64,
        ) {
            let power_w = part * most_w(source_v, resistance_ohm).min(1e5);
            let arrival = behind(source_v, resistance_ohm, power_w).unwrap();
            let sum_v = arrival.voltage_v + resistance_ohm * arrival.current_a;
            prop_assert!((sum_v / source_v - 1.0).abs() < 1e-12);
            prop_assert!(arrival.voltage_v >= source_v / 2.0);
        }

        #[test]
        fn more_power_never_arrives_at_a_higher_voltage(
            source_v in 10.0..60.0f64, resistance_ohm in 0.0..0.2f64,
            power_w in 0.0..3000.0f64, more_w in 0.0..500.0f64,
        ) {
            if let Some(heavy) = behind(source_v, resistance_ohm, power_w + more_w) {
                let light = behind(source_v, resistance_ohm, power_w).unwrap();
                prop_assert!(heavy.voltage_v <= light.voltage_v);
                prop_assert!(heavy.current_a >= light.current_a);
            }
        }

        #[test]
        fn ac_arrival_satisfies_the_phasor_equation(
            resistance_ohm in 0.0..0.5f64, reactance_ohm in 0.0..0.1f64,
            power_w in 0.0..3000.0f64, reactive_var in -1000.0..1500.0f64,
        ) {
            let arrival = ac_behind(120.0, resistance_ohm, reactance_ohm, power_w, reactive_var).unwrap();
            let v = arrival.voltage_v;
            let along_v = v + (resistance_ohm * power_w + reactance_ohm * reactive_var) / v;
            let across_v = (reactance_ohm * power_w - resistance_ohm * reactive_var) / v;
            prop_assert!((along_v.hypot(across_v) / 120.0 - 1.0).abs() < 1e-13);
        }

        #[test]
        fn ac_without_reactance_is_the_same_as_dc(power_w in 0.0..15_000.0f64) {
            let ac = ac_behind(120.0, 0.2, 0.0, power_w, 0.0).unwrap();
            let dc = behind(120.0, 0.2, power_w).unwrap();
            prop_assert!((ac.voltage_v / dc.voltage_v - 1.0).abs() < 1e-13);
        }
    }
}
