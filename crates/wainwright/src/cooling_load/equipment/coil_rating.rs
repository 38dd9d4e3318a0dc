//! What a rating says of the coil, and which ratings no coil can have.

use super::coil::{Inlet, saturated_c};
use super::rating::{ROOM_C, ROOM_WET_BULB_C};
use crate::air::dew_point::dew_point_c;
use crate::air::humidity::vapor_pa;
use crate::air::pressure::SEA_LEVEL_PA;
use crate::air::properties::{VAPOR_J_KG_K, enthalpy_j_kg, specific_heat_j_kg_k, vapor_enthalpy_j_kg};
use crate::air::saturation::{saturated_ratio, saturated_ratio_and_growth};
use crate::air::wet_bulb::ratio_of_wet_bulb;

/// Steps after which a search ends.
const MOST_STEPS: usize = 60;
/// The coldest apparatus dew point of a rating [°C]: a colder coil ices up.
const COLDEST_C: f64 = 0.02;

/// Air at the rating point, at sea level.
pub fn rated_inlet() -> Inlet {
    Inlet {
        air_c: ROOM_C,
        ratio: ratio_of_wet_bulb(ROOM_C, ROOM_WET_BULB_C, SEA_LEVEL_PA),
        pressure_pa: SEA_LEVEL_PA,
    }
}

/// Heat that a kilogram of dry air leaves on a coil, and how it changes with the apparatus dew point.
struct Left {
    sensible_j_kg: f64,
    sensible_slope: f64,
    latent_j_kg: f64,
    latent_slope: f64,
}

impl Left {
    fn at(inlet: &Inlet, apparatus_c: f64) -> Self {
        let (ratio, growth) = saturated_ratio_and_growth(apparatus_c, inlet.pressure_pa);
        let (drop_k, heat) = (inlet.air_c - apparatus_c, specific_heat_j_kg_k(ratio));
        let vapor = vapor_enthalpy_j_kg(inlet.air_c);
        Self {
            sensible_j_kg: heat * drop_k,
            sensible_slope: VAPOR_J_KG_K * growth * drop_k - heat,
            latent_j_kg: vapor * (inlet.ratio - ratio),
            latent_slope: -vapor * growth,
        }
    }

    fn sensible_fraction(&self) -> f64 {
        self.sensible_j_kg / (self.sensible_j_kg + self.latent_j_kg)
    }

    /// Whether the sensible fraction grows with the apparatus dew point.
    fn fraction_grows(&self) -> bool {
        self.sensible_slope * self.latent_j_kg > self.sensible_j_kg * self.latent_slope
    }
}

/// Apparatus dew point of a coil that takes a given share of its heat as sensible heat.
///
/// ```text
/// s = c_a (t − t_a) / (h − h_a)
/// ```
///
/// It does not depend on the flow. Of two solutions the warmer counts: to reach the colder, air would pass through mist.
///
/// - `inlet`              the air that enters, of temperature t and enthalpy h, not saturated
/// - `sensible_fraction`  sensible heat by total heat s, above 0, to 1
///
/// Returns t_a [°C]; none where the share is below [`least_sensible_fraction`]: no coil leaves so much, or not without ice.
///
/// Source: balance of enthalpy and water over the air that touches the coil.
pub fn apparatus_c(inlet: &Inlet, sensible_fraction: f64) -> Option<f64> {
    // From the dew point down the difference is convex: no step passes the first solution.
    let mut at_c = dew_point_c(vapor_pa(inlet.ratio, inlet.pressure_pa));
    for _ in 0..MOST_STEPS {
        let left = Left::at(inlet, at_c);
        let (sensible, latent) = (1.0 - sensible_fraction, sensible_fraction);
        let difference = sensible * left.sensible_j_kg - latent * left.latent_j_kg;
        let slope = sensible * left.sensible_slope - latent * left.latent_slope;
        if slope <= 0.0 || at_c < COLDEST_C {
            return None;
        }
        let moved_k = difference / slope;
        at_c -= moved_k;
        if moved_k.abs() < 1e-9 {
            break;
        }
    }
    Some(at_c)
}

/// Whether air passes through mist between a coil's inlet and its apparatus dew point: in humid air, with a cold coil.
///
/// The line between them is then steeper than saturation where it meets it.
///
/// - `inlet`        the air that enters, not saturated
/// - `apparatus_c`  apparatus dew point [°C], below the inlet's dew point
///
/// Source: as for [`apparatus_c`](fn@apparatus_c).
pub fn passes_mist(inlet: &Inlet, apparatus_c: f64) -> bool {
    !Left::at(inlet, apparatus_c).fraction_grows()
}

/// Least share of sensible heat that any coil can have: it is about to ice up, or its line is the tangent to saturation.
///
/// - `inlet`  the air that enters, not saturated, its dew point above 0.02 °C
///
/// Returns the share, 0 to 1.
///
/// Source: as for [`apparatus_c`].
pub fn least_sensible_fraction(inlet: &Inlet) -> f64 {
    let (mut low_c, mut high_c) = (COLDEST_C, dew_point_c(vapor_pa(inlet.ratio, inlet.pressure_pa)));
    for _ in 0..MOST_STEPS {
        let middle_c = 0.5 * (low_c + high_c);
        let left = Left::at(inlet, middle_c);
        if left.fraction_grows() {
            high_c = middle_c;
        } else {
            low_c = middle_c;
        }
    }
    Left::at(inlet, high_c).sensible_fraction()
}

/// Greatest share of sensible heat that a coil can have at a flow: all air touches it and leaves saturated. A greater
/// share would leave it colder and wetter than air can be.
///
/// - `inlet`      the air that enters, not saturated
/// - `total_w`    heat that the coil takes [W], above 0
/// - `flow_kg_s`  dry air that enters [kg/s], above 0
///
/// Returns the share, to 1; none where so little air would ice up the coil, or reach its state through mist.
///
/// Source: as for [`apparatus_c`].
pub fn greatest_sensible_fraction(inlet: &Inlet, total_w: f64, flow_kg_s: f64) -> Option<f64> {
    let out = enthalpy_j_kg(inlet.air_c, inlet.ratio) - total_w / flow_kg_s;
    let out_c = saturated_c(out, inlet.pressure_pa);
    let left = Left::at(inlet, out_c);
    if left.latent_j_kg <= 0.0 {
        Some(1.0)
    } else if out_c < COLDEST_C || !left.fraction_grows() {
        None
    } else {
        Some(left.sensible_fraction())
    }
}

/// Transfer of a coil from its rating.
///
/// ```text
/// ṁ_c = Q / (h − h_a)    BF = 1 − ṁ_c / ṁ    A0 = −ṁ ln BF
/// ```
///
/// - `inlet`              the air that enters at the rating, of enthalpy h: [`rated_inlet`]
/// - `total_w`            rated cooling Q [W], above 0
/// - `sensible_fraction`  share of it that is sensible, above 0, to 1
/// - `flow_kg_s`          dry air that enters ṁ [kg/s], above 0
///
/// Returns A0 [kg/s]; none where no coil can have such a rating: the share is below [`least_sensible_fraction`] or
/// not below [`greatest_sensible_fraction`].
///
/// Source: as for [`apparatus_c`] and [`bypass_factor`](super::coil::bypass_factor).
pub fn transfer_kg_s(inlet: &Inlet, total_w: f64, sensible_fraction: f64, flow_kg_s: f64) -> Option<f64> {
    let apparatus_c = apparatus_c(inlet, sensible_fraction)?;
    let at_coil = enthalpy_j_kg(apparatus_c, saturated_ratio(apparatus_c, inlet.pressure_pa));
    let contact_kg_s = total_w / (enthalpy_j_kg(inlet.air_c, inlet.ratio) - at_coil);
    let bypass = 1.0 - contact_kg_s / flow_kg_s;
    (bypass > 0.0).then(|| -flow_kg_s * bypass.ln())
}

#[cfg(test)]
mod tests {
    use super::super::coil::{bypass_factor, contact_kg_s, split};
    use super::super::rating::{FLOW_M3_S_PER_W, SENSIBLE_FRACTION};
    use super::*;
    use crate::air::properties::volume_m3_kg;
    use crate::units::{m3_s, w_from_btu_h};
    use proptest::prelude::*;

    fn flow_kg_s(cfm_per_ton: f64) -> f64 {
        let inlet = rated_inlet();
        m3_s(cfm_per_ton) / volume_m3_kg(inlet.air_c, inlet.ratio, inlet.pressure_pa)
    }

    fn ton_w() -> f64 {
        w_from_btu_h(12_000.0)
    }

    // Values printed here were found by a general-purpose root finder and minimizer with psychrolib 2.5.0.

    #[test]
    fn little_air_cannot_leave_most_of_the_heat_dry() {
        // 312 cfm a ton at three quarters: 11.53 °C with 0.00914 kg/kg, while saturated air there holds 0.00846.
        for sensible_fraction in [0.72, 0.75, 0.8, 0.85] {
            assert_eq!(transfer_kg_s(&rated_inlet(), ton_w(), sensible_fraction, flow_kg_s(312.0)), None);
        }
        let greatest = greatest_sensible_fraction(&rated_inlet(), ton_w(), flow_kg_s(312.0)).unwrap();
        assert_eq!(format!("{greatest:.3}"), "0.715");
        let with_more = greatest_sensible_fraction(&rated_inlet(), ton_w(), flow_kg_s(400.0)).unwrap();
        assert_eq!(format!("{with_more:.3}"), "0.808");
    }

    #[test]
    fn no_coil_leaves_less_than_the_tangent_says() {
        let least = least_sensible_fraction(&rated_inlet());
        assert_eq!(format!("{least:.3}"), "0.589");
        assert_eq!(apparatus_c(&rated_inlet(), least - 1e-6), None);
        assert!(apparatus_c(&rated_inlet(), least + 1e-6).is_some());
    }

    #[test]
    fn what_is_taken_where_the_maker_is_silent() {
        let flow = flow_kg_s(312.0);
        let inlet = rated_inlet();
        let transfer = transfer_kg_s(&inlet, ton_w(), SENSIBLE_FRACTION, flow).unwrap();
        assert_eq!(format!("{:.3}", bypass_factor(transfer, flow)), "0.115");
        assert_eq!(format!("{:.1}", apparatus_c(&inlet, SENSIBLE_FRACTION).unwrap()), "11.1");
        assert!((FLOW_M3_S_PER_W * ton_w() / m3_s(312.0) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn a_dry_rating_has_its_apparatus_at_the_dew_point() {
        let inlet = rated_inlet();
        let dew_c = dew_point_c(vapor_pa(inlet.ratio, inlet.pressure_pa));
        assert!((apparatus_c(&inlet, 1.0).unwrap() - dew_c).abs() < 1e-9);
        assert_eq!(greatest_sensible_fraction(&inlet, ton_w(), flow_kg_s(700.0)), Some(1.0));
    }

    #[test]
    fn hardly_any_air_has_no_rating() {
        assert_eq!(greatest_sensible_fraction(&rated_inlet(), ton_w(), flow_kg_s(100.0)), None);
        assert_eq!(greatest_sensible_fraction(&rated_inlet(), ton_w(), flow_kg_s(1.0)), None);
    }

    proptest! {
        #[test]
        fn a_rating_leads_back_to_itself_or_is_refused(
            cfm_per_ton in 200.0..600.0f64, sensible_fraction in 0.5..1.0f64,
        ) {
            let (inlet, flow) = (rated_inlet(), flow_kg_s(cfm_per_ton));
            let least = least_sensible_fraction(&inlet);
            let greatest = greatest_sensible_fraction(&inlet, ton_w(), flow).unwrap();
            match transfer_kg_s(&inlet, ton_w(), sensible_fraction, flow) {
                Some(transfer) => {
                    prop_assert!((least..=greatest).contains(&sensible_fraction));
                    let split = split(&inlet, ton_w(), contact_kg_s(transfer, flow));
                    prop_assert!((split.sensible_w / ton_w() - sensible_fraction).abs() < 1e-9);
                }
                None => prop_assert!(sensible_fraction < least || sensible_fraction >= greatest),
            }
        }
    }
}
