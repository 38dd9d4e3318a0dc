//! Converters, battery chargers and solar controllers: the rating a converter needs, what one puts out, and a charger
//! that feeds on its own battery.

/// Rating the code asks of a converter.
///
/// `min(L, 20) + 0.5 clamp(L − 20, 0, 20) + 0.25 max(L − 40, 0)`
///
/// - `connected_a`  connected 12 V load with the average charge of the battery L [A], 0 or more; loads behind
///   momentary switches and a refrigerator that also runs on 120 V may be left out
///
/// Returns the demand [A].
///
/// Source: NFPA 70, 551.20(B), `from memory`.
pub fn demand_a(connected_a: f64) -> f64 {
    connected_a.min(20.0) + 0.5 * (connected_a - 20.0).clamp(0.0, 20.0) + 0.25 * (connected_a - 40.0).max(0.0)
}

/// Current a charger, converter or solar controller puts out.
///
/// `I = min(I_r, P η / V)`
///
/// - `power_w`     power that reaches it P [W], 0 or more
/// - `efficiency`  η, 0 to 1
/// - `battery_v`   voltage at its output V [V], > 0
/// - `rating_a`    rated output I_r [A], 0 or more; infinite where there is none
///
/// Returns the current [A].
///
/// Source: power balance, and the limit of the rating.
pub fn output_a(power_w: f64, efficiency: f64, battery_v: f64, rating_a: f64) -> f64 {
    rating_a.min(power_w * efficiency / battery_v)
}

/// Net power into a battery whose charger runs from an inverter on that same battery.
///
/// `P (η_c − 1/η_i)`
///
/// - `charger_input_w`      AC power of the charger P [W], 0 or more
/// - `charger_efficiency`   η_c, 0 to 1
/// - `inverter_efficiency`  η_i, above 0 to 1
///
/// Returns the power [W]: below 0, for the battery empties with nothing else on; 0 only if nothing were ever lost.
///
/// Source: power balance of the battery.
pub fn loop_net_w(charger_input_w: f64, charger_efficiency: f64, inverter_efficiency: f64) -> f64 {
    charger_input_w * (charger_efficiency - 1.0 / inverter_efficiency)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn demand_counts_half_above_20_a_and_a_quarter_above_40_a() {
        for (connected_a, expected_a) in
            [(0.0, 0.0), (15.0, 15.0), (20.0, 20.0), (30.0, 25.0), (40.0, 30.0), (60.0, 35.0)]
        {
            assert_eq!(demand_a(connected_a), expected_a);
        }
    }

    #[test]
    fn output_stops_at_the_rating() {
        assert_eq!(output_a(600.0, 0.97, 12.0, 40.0), 40.0);
        assert_eq!(output_a(600.0, 0.97, 12.0, f64::INFINITY), 48.5);
        assert_eq!(output_a(0.0, 0.97, 12.0, 40.0), 0.0);
    }

    #[test]
    fn a_charger_on_its_own_inverter_empties_the_battery() {
        assert_eq!(format!("{:.2}", loop_net_w(600.0, 0.90, 0.88)), "-141.82");
        assert_eq!(loop_net_w(600.0, 1.0, 1.0), 0.0);
    }
}
