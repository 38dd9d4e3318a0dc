//! A condenser that breathes its own exhaust, or too little air: a window unit in a cabinet, or behind a louver.

/// How much warmer air leaves a condenser than it entered [K]. Source: `common practice`.
pub const CONDENSER_RISE_K: f64 = 10.0;
/// Cooling that is left of a unit built into a cabinet, where nothing better is known: 10 to 20 % are lost. For a unit
/// whose [`inlet_c`] is reckoned it would count twice.
///
/// Source: `common practice`, no measurement is known.
pub const CABINET_CAPACITY_FACTOR: f64 = 0.85;
/// Power of a unit built into a cabinet by that in the open: 10 to 15 % more. Source: as for
/// [`CABINET_CAPACITY_FACTOR`].
pub const CABINET_POWER_FACTOR: f64 = 1.125;

/// Rise through a condenser whose air is restricted.
///
/// `ΔT = ΔT_0 / f`
///
/// - `rise_k`         rise with all its air ΔT_0 [K], 0 or more, for instance [`CONDENSER_RISE_K`]
/// - `flow_fraction`  air that is left f, above 0, to 1
///
/// Returns ΔT [K].
///
/// Source: heat balance, the heat given off being the same.
pub fn restricted_rise_k(rise_k: f64, flow_fraction: f64) -> f64 {
    rise_k / flow_fraction
}

/// Temperature of the air that a condenser breathes, part of it its own exhaust.
///
/// `T_c = T_o + r/(1 − r) ΔT`
///
/// - `outdoor_c`     temperature outdoors T_o [°C]
/// - `recirculated`  share of the inlet that is exhaust r, 0 or more, below 1
/// - `rise_k`        rise through the condenser ΔT [K], 0 or more
///
/// Returns T_c [°C]; without bound where all is exhaust.
///
/// Source: heat balance of the mixture, `T_c = (1 − r) T_o + r (T_c + ΔT)`.
pub fn inlet_c(outdoor_c: f64, recirculated: f64, rise_k: f64) -> f64 {
    if recirculated < 1.0 { outdoor_c + recirculated / (1.0 - recirculated) * rise_k } else { f64::INFINITY }
}

/// Temperature outdoors at which a unit in the open would be as badly off as one that breathes its exhaust and too
/// little air: what the curves are to be read at.
///
/// `T = T_c + ΔT − ΔT_0`, the air leaving the condenser being equally hot
///
/// - `outdoor_c`      temperature outdoors [°C]
/// - `recirculated`   share of the inlet that is exhaust, 0 or more, below 1
/// - `rise_k`         rise through the condenser with all its air ΔT_0 [K], 0 or more
/// - `flow_fraction`  air that is left, above 0, to 1
///
/// Returns T [°C].
///
/// Source: [`inlet_c`] and [`restricted_rise_k`].
pub fn equivalent_outdoor_c(outdoor_c: f64, recirculated: f64, rise_k: f64, flow_fraction: f64) -> f64 {
    let restricted_k = restricted_rise_k(rise_k, flow_fraction);
    inlet_c(outdoor_c, recirculated, restricted_k) + restricted_k - rise_k
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_share_of_exhaust_warms_the_inlet() {
        let added =
            [0.1, 0.2, 0.3].map(|share| format!("{:.1}", inlet_c(35.0, share, CONDENSER_RISE_K) - 35.0));
        assert_eq!(added, ["1.1", "2.5", "4.3"]);
        assert_eq!((inlet_c(35.0, 0.0, 10.0), inlet_c(35.0, 1.0, 10.0)), (35.0, f64::INFINITY));
    }

    #[test]
    fn a_restriction_is_worth_what_the_trade_says() {
        // `common practice`: a fifth to two fifths less air are worth 3 to 6 K.
        let added = |flow| equivalent_outdoor_c(35.0, 0.0, CONDENSER_RISE_K, flow) - 35.0;
        assert_eq!(format!("{:.1} {:.1}", added(0.8), added(0.6)), "2.5 6.7");
        assert_eq!(added(1.0), 0.0);
    }

    proptest! {
        #[test]
        fn the_mixture_balances(outdoor_c in 20.0..45.0f64, share in 0.0..0.9f64, rise_k in 0.0..25.0f64) {
            let inlet_c = inlet_c(outdoor_c, share, rise_k);
            let mixed_c = (1.0 - share) * outdoor_c + share * (inlet_c + rise_k);
            prop_assert!((mixed_c - inlet_c).abs() < 1e-9);
        }
    }
}
