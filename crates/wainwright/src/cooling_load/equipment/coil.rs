//! A coil that cools air and takes water from it.
//!
//! Some air passes the coil by, the rest leaves it saturated, at the apparatus dew point. How much passes by follows
//! from the flow and from one number of the coil, its transfer A0.

use crate::air::properties::{DRY_AIR_J_KG_K, enthalpy_j_kg, specific_heat_j_kg_k, vapor_enthalpy_j_kg};
use crate::air::saturation::{saturated_ratio, saturated_ratio_and_growth};

/// Steps after which a search ends; two to five are usual.
const MOST_STEPS: usize = 30;
/// A step so small ends the search [K]: each has twice the digits of the one before.
const LAST_STEP_K: f64 = 1e-5;
/// The range in which an apparatus dew point is searched [°C].
const RANGE_C: (f64, f64) = (-100.0, 60.0);

/// Air that enters a coil.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Inlet {
    /// Its temperature [°C], −20 to 70.
    pub air_c: f64,
    /// Its humidity ratio [kg/kg], 0 to that of saturated air.
    pub ratio: f64,
    /// Its pressure [Pa], 60 000 to 105 000.
    pub pressure_pa: f64,
}

/// What a coil takes from the air, and its state.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Split {
    /// Heat that cools the air [W].
    pub sensible_w: f64,
    /// Heat in the water that it takes [W]; below 0 the coil is dry, and this split does not hold.
    pub latent_w: f64,
    /// Apparatus dew point [°C].
    pub apparatus_c: f64,
}

/// Share of the air that passes a coil by: the bypass factor.
///
/// `BF = exp(−A0 / ṁ)`
///
/// - `transfer_kg_s`  the coil's transfer A0 [kg/s], 0 or more
/// - `flow_kg_s`      dry air that enters ṁ [kg/s], above 0
///
/// Returns BF, 0 to 1.
///
/// Source: heat exchange with a surface of one temperature; ASHRAE Handbook HVAC Systems and Equipment, air-cooling
/// coils (`from memory`).
pub fn bypass_factor(transfer_kg_s: f64, flow_kg_s: f64) -> f64 {
    (-transfer_kg_s / flow_kg_s).exp()
}

/// Dry air that touches a coil: it leaves at the apparatus dew point.
///
/// `ṁ_c = ṁ (1 − BF)`
///
/// - `transfer_kg_s`  the coil's transfer A0 [kg/s], 0 or more
/// - `flow_kg_s`      dry air that enters ṁ [kg/s], above 0
///
/// Returns ṁ_c [kg/s].
///
/// Source: as for [`bypass_factor`].
pub fn contact_kg_s(transfer_kg_s: f64, flow_kg_s: f64) -> f64 {
    flow_kg_s * (1.0 - bypass_factor(transfer_kg_s, flow_kg_s))
}

/// Temperature of saturated air by its enthalpy.
///
/// Newton's method on `h = 1006 t + W_s(t) (2501000 + 1860 t)`.
///
/// - `enthalpy_j_kg`  enthalpy h [J/kg dry air]
/// - `pressure_pa`    pressure [Pa], 60 000 to 105 000
///
/// Returns t [°C], held to −100 to 60.
///
/// Source: ASHRAE Handbook Fundamentals 2017, chapter 1, eq. 30, the other way round.
pub fn saturated_c(enthalpy_j_kg: f64, pressure_pa: f64) -> f64 {
    let (low_c, mut at_c) = RANGE_C;
    for _ in 0..MOST_STEPS {
        let (ratio, growth) = saturated_ratio_and_growth(at_c, pressure_pa);
        let vapor = vapor_enthalpy_j_kg(at_c);
        let excess = DRY_AIR_J_KG_K * at_c + ratio * vapor - enthalpy_j_kg;
        let slope = specific_heat_j_kg_k(ratio) + growth * vapor;
        let next_c = (at_c - excess / slope).clamp(low_c, RANGE_C.1);
        let moved_k = (next_c - at_c).abs();
        at_c = next_c;
        if moved_k < LAST_STEP_K {
            break;
        }
    }
    at_c
}

/// Heat in the water that a coil takes from the air.
///
/// `Q_l = ṁ_c (W − W_a)(2501000 + 1860 t)`
///
/// - `inlet`            the air that enters, of temperature t and humidity ratio W
/// - `contact_kg_s`     dry air that touches the coil ṁ_c [kg/s], 0 or more, from [`contact_kg_s`]
/// - `apparatus_ratio`  humidity ratio of the air that leaves it saturated W_a [kg/kg]
///
/// Returns Q_l [W]; below 0 the air is too dry for the coil: it takes none.
///
/// Source: balance of water; ASHRAE Handbook Fundamentals 2017, chapter 1, eq. 29.
pub fn latent_w(inlet: &Inlet, contact_kg_s: f64, apparatus_ratio: f64) -> f64 {
    contact_kg_s * (inlet.ratio - apparatus_ratio) * vapor_enthalpy_j_kg(inlet.air_c)
}

/// What a wet coil takes from the air.
///
/// ```text
/// h_a = h − Q / ṁ_c    saturated at t_a: W_a
/// Q_s = Q − Q_l = ṁ_c (1006 + 1860 W_a)(t − t_a)
/// ```
///
/// - `inlet`         the air that enters, of temperature t, humidity ratio W and enthalpy h
/// - `total_w`       heat that the coil takes Q [W], 0 or more
/// - `contact_kg_s`  dry air that touches it ṁ_c [kg/s], above 0, from [`contact_kg_s`]
///
/// In air near saturation the line from inlet to apparatus may cross mist; the balance holds all the same.
///
/// Source: balance of enthalpy and water; the bypass model as for [`bypass_factor`].
pub fn split(inlet: &Inlet, total_w: f64, contact_kg_s: f64) -> Split {
    let at_coil = enthalpy_j_kg(inlet.air_c, inlet.ratio) - total_w / contact_kg_s;
    let apparatus_c = saturated_c(at_coil, inlet.pressure_pa);
    let latent_w = latent_w(inlet, contact_kg_s, saturated_ratio(apparatus_c, inlet.pressure_pa));
    Split { sensible_w: total_w - latent_w, latent_w, apparatus_c }
}

/// Air that leaves a unit: what passed the coil by and what touched it, mixed.
///
/// `W_o = W − Q_l / (ṁ (2501000 + 1860 t))`, `t_o = t − Q_s / (ṁ (1006 + 1860 W_o))`
///
/// - `inlet`       the air that enters, of temperature t and humidity ratio W
/// - `sensible_w`  heat that cools it Q_s [W]
/// - `latent_w`    heat in the water taken from it Q_l [W]
/// - `flow_kg_s`   dry air that enters ṁ [kg/s], above 0
///
/// Returns its temperature t_o [°C] and humidity ratio W_o [kg/kg].
///
/// Source: balance of enthalpy and water.
pub fn outlet(inlet: &Inlet, sensible_w: f64, latent_w: f64, flow_kg_s: f64) -> (f64, f64) {
    let ratio = inlet.ratio - latent_w / (flow_kg_s * vapor_enthalpy_j_kg(inlet.air_c));
    (inlet.air_c - sensible_w / (flow_kg_s * specific_heat_j_kg_k(ratio)), ratio)
}

#[cfg(test)]
mod tests {
    use super::super::coil_rating::passes_mist;
    use super::*;
    use crate::air::properties::air_c;
    use crate::air::saturation::TRIPLE_POINT_C;
    use proptest::prelude::*;

    #[test]
    fn all_air_or_none_passes_a_coil_by() {
        assert_eq!((bypass_factor(0.0, 0.1), contact_kg_s(0.0, 0.1)), (1.0, 0.0));
        assert_eq!((bypass_factor(f64::INFINITY, 0.1), contact_kg_s(f64::INFINITY, 0.1)), (0.0, 0.1));
    }

    #[test]
    fn saturated_air_is_found_by_its_enthalpy() {
        for at_c in [-30.0, -1.0, 0.5, 12.0, 31.0, 55.0] {
            let enthalpy = enthalpy_j_kg(at_c, saturated_ratio(at_c, 84_000.0));
            assert!((saturated_c(enthalpy, 84_000.0) - at_c).abs() < 1e-9, "{at_c}");
        }
        assert_eq!((saturated_c(-1e9, 1e5), saturated_c(1e9, 1e5)), RANGE_C);
    }

    fn inlets() -> impl Strategy<Value = Inlet> {
        (15.0..50.0f64, 0.1..0.9f64, 65_000.0..102_000.0f64).prop_map(|(air_c, relative, pressure_pa)| {
            Inlet { air_c, ratio: relative * saturated_ratio(air_c, pressure_pa), pressure_pa }
        })
    }

    proptest! {
        #[test]
        fn what_leaves_lies_between_inlet_and_apparatus(
            inlet in inlets(), total_w in 500.0..1500.0f64, flow_kg_s in 0.06..0.12f64, transfer in 0.05..0.3f64,
        ) {
            let contact = contact_kg_s(transfer, flow_kg_s);
            let Split { sensible_w, latent_w, apparatus_c } = split(&inlet, total_w, contact);
            let at_coil = saturated_ratio(apparatus_c, inlet.pressure_pa);
            let (out_c, out_ratio) = outlet(&inlet, sensible_w, latent_w, flow_kg_s);
            let bypass = bypass_factor(transfer, flow_kg_s);
            // Mixing keeps water and enthalpy.
            let mixed = |inlet, coil| bypass * inlet + (1.0 - bypass) * coil;
            prop_assert!((out_ratio - mixed(inlet.ratio, at_coil)).abs() < 1e-10);
            let enthalpy = mixed(enthalpy_j_kg(inlet.air_c, inlet.ratio), enthalpy_j_kg(apparatus_c, at_coil));
            prop_assert!((air_c(enthalpy, out_ratio) - out_c).abs() < 1e-6);
            prop_assert!((sensible_w + latent_w - total_w).abs() < 1e-9);
        }

        #[test]
        fn more_air_dries_less(
            inlet in inlets(), total_w in 500.0..1500.0f64, flow_kg_s in 0.06..0.12f64, transfer in 0.05..0.3f64,
            more in 1.01..2.0f64,
        ) {
            let at = |flow| split(&inlet, total_w, contact_kg_s(transfer, flow));
            let apparatus_c = at(flow_kg_s).apparatus_c;
            let sound = apparatus_c > TRIPLE_POINT_C && !passes_mist(&inlet, apparatus_c);
            prop_assert!(!sound || at(flow_kg_s * more).sensible_w > at(flow_kg_s).sensible_w);
        }
    }
}
