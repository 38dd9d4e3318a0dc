//! Ratings of cooling units: the state they are taken at, and the ratios that are printed.

use crate::air::pressure::SEA_LEVEL_PA;
use crate::units::{M3_S_PER_CFM, W_PER_BTU_H, btu_h};

/// Temperature of the room at which cooling is rated [°C]: 80 °F.
///
/// Source: 10 CFR 430, Appendix F to Subpart B (`from memory`).
pub const ROOM_C: f64 = (80.0 - 32.0) / 1.8;
/// Wet bulb of the room at which cooling is rated [°C]: 67 °F. Source: as for [`ROOM_C`].
pub const ROOM_WET_BULB_C: f64 = (67.0 - 32.0) / 1.8;
/// Temperature outdoors at which cooling is rated [°C]: 95 °F. Source: as for [`ROOM_C`].
pub const OUTDOOR_C: f64 = 35.0;
/// Temperature outdoors of test B, by which a seasonal ratio is found [°C]: 82 °F.
///
/// Source: 10 CFR 430, Appendix M to Subpart B.
pub const TEST_B_OUTDOOR_C: f64 = (82.0 - 32.0) / 1.8;

/// Air that a room unit moves for each watt of rated cooling [m³/(s·W)]: 312 cfm a ton.
///
/// Source: NREL/TP-5500-57617, a window unit at medium speed, quoted at second hand.
pub const FLOW_M3_S_PER_W: f64 = 312.0 * M3_S_PER_CFM / (12_000.0 * W_PER_BTU_H);
/// Share of rated cooling that is sensible where the maker does not say. Chosen here: with [`FLOW_M3_S_PER_W`] the
/// bypass factor is 0.115, that of a usual coil; more than 0.715 no coil can reach at that flow.
pub const SENSIBLE_FRACTION: f64 = 0.68;
/// Energy efficiency ratio of a rooftop unit of a recreational vehicle, of which only capacity and amperes are printed
/// [BTU/Wh]: the middle of 8 to 9.5. Source: `common practice`.
pub const ROOFTOP_EER: f64 = 8.75;
/// Share of efficiency that cycling costs in a seasonal ratio where it was not measured.
///
/// Source: 10 CFR 430, Appendix M to Subpart B.
pub const CYCLING_DEGRADATION: f64 = 0.25;

/// Hours of cooling in a year by which a combined ratio is found. Source: as for [`ceer`].
const COOLING_H: f64 = 750.0;
/// Hours of standby in a year by which a combined ratio is found. Source: as for [`ceer`].
const STANDBY_H: f64 = 5115.0;

/// Energy efficiency ratio.
///
/// `EER = Q / P`, Q in BTU/h
///
/// - `capacity_w`  cooling at the rating point Q [W], 0 or more
/// - `power_w`     power drawn there P [W], above 0
///
/// Returns EER [BTU/Wh].
///
/// Source: definition of the ratio, 10 CFR 430, Appendix F to Subpart B (`from memory`).
pub fn eer(capacity_w: f64, power_w: f64) -> f64 {
    btu_h(capacity_w) / power_w
}

/// Power that a unit draws at the rating point: [`eer`] the other way round.
///
/// - `capacity_w`  cooling at the rating point [W], 0 or more
/// - `eer`         energy efficiency ratio [BTU/Wh], above 0
///
/// Returns the power [W].
pub fn power_w(capacity_w: f64, eer: f64) -> f64 {
    btu_h(capacity_w) / eer
}

/// Coefficient of performance by the energy efficiency ratio.
///
/// `COP = EER / 3.412`
///
/// - `eer`  energy efficiency ratio [BTU/Wh], 0 or more
///
/// Returns COP, heat by work.
///
/// Source: unit conversion.
pub fn cop(eer: f64) -> f64 {
    eer * W_PER_BTU_H
}

/// Combined energy efficiency ratio of a room unit: standby counts.
///
/// `CEER = 750 Q / (750 P + 5115 P_sb)`, Q in BTU/h
///
/// - `capacity_w`  cooling at the rating point Q [W], 0 or more
/// - `power_w`     power drawn there P [W], above 0
/// - `standby_w`   power on standby P_sb [W], 0 or more
///
/// Returns CEER [BTU/Wh].
///
/// Source: 10 CFR 430, Appendix F to Subpart B (`from memory`).
pub fn ceer(capacity_w: f64, power_w: f64, standby_w: f64) -> f64 {
    COOLING_H * btu_h(capacity_w) / (COOLING_H * power_w + STANDBY_H * standby_w)
}

/// Energy efficiency ratio by the combined one: [`ceer`] the other way round.
///
/// `1/EER = 1/CEER − 5115 P_sb / (750 Q)`, Q in BTU/h
///
/// - `capacity_w`  cooling at the rating point Q [W], above 0
/// - `ceer`        combined energy efficiency ratio [BTU/Wh], above 0
/// - `standby_w`   power on standby P_sb [W], 0 or more
///
/// Returns EER [BTU/Wh]; none where standby alone would draw more than the ratio allows.
pub fn eer_of_ceer(capacity_w: f64, ceer: f64, standby_w: f64) -> Option<f64> {
    let inverse = 1.0 / ceer - STANDBY_H * standby_w / (COOLING_H * btu_h(capacity_w));
    (inverse > 0.0).then(|| 1.0 / inverse)
}

/// Energy efficiency ratio in test B, at [`TEST_B_OUTDOOR_C`], by the seasonal ratio of a unit of one speed.
///
/// `EER_B = SEER / (1 − 0.5 C_d)`
///
/// - `seer`         seasonal energy efficiency ratio [BTU/Wh], 0 or more
/// - `degradation`  share of efficiency that cycling costs C_d, 0 to 1: [`CYCLING_DEGRADATION`] where not measured
///
/// Returns EER_B [BTU/Wh]. That at the rating point is less, see
/// [`Curves::rated_eer`](super::curves::Curves::rated_eer).
///
/// Source: 10 CFR 430, Appendix M to Subpart B, as quoted.
pub fn eer_b(seer: f64, degradation: f64) -> f64 {
    seer / (1.0 - 0.5 * degradation)
}

/// Share of rated cooling that is left in thin air.
///
/// `1 − 0.18 (1 − p/101325)`: −2 % at 1,000 m
///
/// - `pressure_pa`  pressure of the air p [Pa], 60 000 to 105 000
///
/// Source: `common practice`, −1 to −3 % for each 1,000 m; the form is chosen here.
pub fn thin_air_fraction(pressure_pa: f64) -> f64 {
    1.0 - 0.18 * (1.0 - pressure_pa / SEA_LEVEL_PA)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::air::pressure::standard_pa;
    use crate::units::w_from_btu_h;
    use proptest::prelude::*;

    #[test]
    fn the_rating_point_is_that_of_the_tables() {
        assert_eq!(format!("{ROOM_C:.3} {ROOM_WET_BULB_C:.3} {TEST_B_OUTDOOR_C:.1}"), "26.667 19.444 27.8");
    }

    #[test]
    fn ratios_of_a_window_unit() {
        let capacity_w = w_from_btu_h(5000.0);
        assert!((power_w(capacity_w, 10.0) - 500.0).abs() < 1e-9);
        assert_eq!(format!("{:.3}", cop(10.0)), "2.931");
        // A watt of standby takes a seventieth off a small unit's ratio: 5000·0.75/(0.75·454.5 + 5.115).
        assert_eq!(format!("{:.3}", ceer(capacity_w, power_w(capacity_w, 11.0), 1.0)), "10.837");
        assert_eq!(ceer(capacity_w, 500.0, 0.0), eer(capacity_w, 500.0));
    }

    #[test]
    fn standby_may_draw_more_than_the_ratio_allows() {
        assert_eq!(eer_of_ceer(w_from_btu_h(5000.0), 11.0, 70.0), None);
        assert!(eer_of_ceer(w_from_btu_h(5000.0), 11.0, 60.0).is_some());
    }

    #[test]
    fn thin_air_costs_what_the_trade_says() {
        // `common practice`: 1 to 3 % for each 1,000 m.
        for thousand_m in [1.0, 2.0, 3.0] {
            let lost = 1.0 - thin_air_fraction(standard_pa(1000.0 * thousand_m));
            assert!((0.01 * thousand_m..=0.03 * thousand_m).contains(&lost), "{lost}");
        }
        assert_eq!(thin_air_fraction(SEA_LEVEL_PA), 1.0);
    }

    proptest! {
        #[test]
        fn both_ratios_lead_back_to_each_other(
            capacity_w in 1000.0..6000.0f64, eer in 8.0..15.0f64, standby_w in 0.0..5.0f64,
        ) {
            let combined = ceer(capacity_w, power_w(capacity_w, eer), standby_w);
            prop_assert!(combined <= eer * (1.0 + 1e-12));
            let back = eer_of_ceer(capacity_w, combined, standby_w).unwrap();
            prop_assert!((back / eer - 1.0).abs() < 1e-12);
        }
    }
}
