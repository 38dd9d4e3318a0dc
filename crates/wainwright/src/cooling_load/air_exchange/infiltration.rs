//! Air that comes in through gaps.

use crate::build::Shelter;
use crate::units::{M_PER_FT, W_PER_BTU_H, difference_f};

/// Air changes an hour of a sealed conversion, parked. Chosen here.
pub const SEALED_PER_H: f64 = 0.5;
/// Air changes an hour of an ordinary body, parked. Chosen here.
pub const ORDINARY_PER_H: f64 = 1.0;
/// Air changes an hour with a ramp door whose seals are worn, parked: the middle of 2 to 3. Chosen here.
pub const WORN_SEALS_PER_H: f64 = 2.5;
/// Air changes an hour that towing adds, by the pressure on the seams in front: the middle of 1 to 3. Chosen here.
pub const TOWED_MORE_PER_H: f64 = 2.0;

/// Stream of air, from how often it is changed.
///
/// `q = n V / 3600`
///
/// - `changes_per_h`  air changes an hour n [1/h], 0 or more
/// - `volume_m3`      volume of the room V [m³], 0 or more
///
/// Returns q [m³/s].
///
/// Source: definition of the air change.
pub fn changed_m3_s(changes_per_h: f64, volume_m3: f64) -> f64 {
    changes_per_h * volume_m3 / 3600.0
}

/// Stack coefficient of a house of one story [(L/s)²/(cm⁴·K)]. It stands for a height of 2.4 m: a body 2 m high has a tenth
/// less air by stack.
///
/// Source: ASHRAE Handbook Fundamentals, basic infiltration model, `from memory`.
pub const ONE_STORY_STACK: f64 = 0.000_145;

/// Wind coefficient of a house of one story.
///
/// - `shelter`  what breaks the wind
///
/// Returns the coefficient [(L/s)²/(cm⁴·(m/s)²)].
///
/// Source: ASHRAE Handbook Fundamentals, basic infiltration model, `from memory`.
pub fn wind_coefficient(shelter: Shelter) -> f64 {
    match shelter {
        Shelter::None => 0.000_319,
        Shelter::Light => 0.000_246,
        Shelter::Moderate => 0.000_174,
        Shelter::Heavy => 0.000_104,
        Shelter::VeryHeavy => 0.000_032,
    }
}

/// Stream of air through gaps, from the area they amount to.
///
/// `q = A_L √(C_s |ΔT| + C_w u²)`, A_L in cm², q in L/s
///
/// - `leakage_m2`    area of an opening that leaks as much at 4 Pa A_L [m²], 0 or more
/// - `difference_k`  between the air inside and outside ΔT [K], of either sign
/// - `wind_m_s`      wind as a weather station measures it u [m/s], 0 or more
/// - `shelter`       what breaks the wind, for C_w; C_s is [`ONE_STORY_STACK`]
///
/// Returns q [m³/s].
///
/// Source: Sherman and Grimsrud 1980, as the basic model of the ASHRAE Handbook Fundamentals.
pub fn leakage_m3_s(leakage_m2: f64, difference_k: f64, wind_m_s: f64, shelter: Shelter) -> f64 {
    let driven = ONE_STORY_STACK * difference_k.abs() + wind_coefficient(shelter) * wind_m_s * wind_m_s;
    // cm² in a square meter, over litres in a cubic meter.
    leakage_m2 * 1e4 / 1e3 * driven.sqrt()
}

/// Heat that air through gaps takes out of a manufactured home: an upper check for a trailer.
///
/// `Q = 0.7 ΔT P` in BTU/h, °F and ft
///
/// - `difference_k`  room over outdoor air ΔT [K], 0 or more
/// - `perimeter_m`   perimeter of the floor P [m], 0 or more
///
/// Returns Q [W].
///
/// Source: 24 CFR 3280.509(a).
pub fn manufactured_home_w(difference_k: f64, perimeter_m: f64) -> f64 {
    0.7 * W_PER_BTU_H * difference_f(difference_k) * (perimeter_m / M_PER_FT)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{cfm, m3};
    use proptest::prelude::*;

    const SHELTERS: [Shelter; 5] =
        [Shelter::None, Shelter::Light, Shelter::Moderate, Shelter::Heavy, Shelter::VeryHeavy];

    #[test]
    fn one_air_change_of_a_small_body_is_ten_cubic_feet_a_minute() {
        let flow_m3_s = changed_m3_s(1.0, m3(7.0 * 14.0 * 6.5));
        assert_eq!(format!("{:.1}", cfm(flow_m3_s)), "10.6");
        assert_eq!(changed_m3_s(0.0, 18.0), 0.0);
    }

    #[test]
    fn fifty_square_centimeters_let_in_eight_cubic_feet_a_minute() {
        let flow_m3_s = leakage_m3_s(0.005, 15.0, 4.0, Shelter::Light);
        assert_eq!(format!("{flow_m3_s:.6} {:.2}", cfm(flow_m3_s)), "0.003909 8.28");
    }

    #[test]
    fn without_wind_and_difference_nothing_comes_in() {
        assert_eq!(leakage_m3_s(0.005, 0.0, 0.0, Shelter::None), 0.0);
    }

    proptest! {
        #[test]
        fn more_wind_and_difference_bring_more_and_shelter_less(
            difference_k in 0.0..40.0f64,
            wind_m_s in 0.1..15.0f64,
            more in 0.01..5.0f64,
        ) {
            let flow = |difference_k, wind_m_s, shelter| leakage_m3_s(0.005, difference_k, wind_m_s, shelter);
            for shelter in SHELTERS {
                let base = flow(difference_k, wind_m_s, shelter);
                prop_assert!(flow(difference_k + more, wind_m_s, shelter) > base);
                prop_assert!(flow(difference_k, wind_m_s + more, shelter) > base);
                prop_assert_eq!(flow(-difference_k, wind_m_s, shelter), base);
            }
            let sheltered = SHELTERS.map(|shelter| flow(difference_k, wind_m_s, shelter));
            prop_assert!(sheltered.windows(2).all(|pair| pair[0] > pair[1]));
        }
    }
}
