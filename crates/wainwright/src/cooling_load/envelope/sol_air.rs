//! Sun and sky on opaque faces, as one temperature of the air outside.

use super::films::STEFAN_BOLTZMANN_W_M2_K4;
use crate::air::ICE_K;

/// Temperature of air that would heat a dark face as the air, the sun and the sky together do: sol-air temperature.
///
/// `T_sa = T_o + (α I − ΔR) / h_o`
///
/// - `air_c`           air temperature T_o [°C]
/// - `sun_w_m2`        all of the sun's light that falls on the face I [W/m²], 0 or more
/// - `absorptance`     share of it that the face takes up α, 0 to 1
/// - `sky_loss_w_m2`   heat it gives off to a sky colder than the air ΔR [W/m²]: [`HORIZONTAL_SKY_LOSS_W_M2`],
///   [`sky_loss_w_m2`] or [`usual_sky_loss_w_m2`]; below 0 under a sky warmer than the air
/// - `film_w_m2_k`     film outside h_o [W/(m²·K)], above 0
///
/// Returns T_sa [°C]. Glass has none: it lets the sun pass, and the air is what it feels.
///
/// Source: ASHRAE Handbook Fundamentals, nonresidential load chapter, sol-air temperature.
pub fn sol_air_c(air_c: f64, sun_w_m2: f64, absorptance: f64, sky_loss_w_m2: f64, film_w_m2_k: f64) -> f64 {
    air_c + (absorptance * sun_w_m2 - sky_loss_w_m2) / film_w_m2_k
}

/// Heat that a roof gives off to a clear sky, by rule [W/m²]: with a film of 17 W/(m²·K) it lowers the sol-air temperature by
/// 3.9 K (7 °F). Upright faces give off none: what the sky takes, the warm ground brings.
///
/// Source: ASHRAE Handbook Fundamentals, nonresidential load chapter: 20 BTU/(h·ft²), or 63 W/m², whose 6.67 °F it rounds
/// to 7.
pub const HORIZONTAL_SKY_LOSS_W_M2: f64 = 3.9 * 17.0;

/// Share of what a face sees that is sky.
///
/// `F = (1 + cos β) / 2`
///
/// - `cos_tilt`  cosine of its tilt β, −1 to 1: 1 of a roof, 0 of a wall, −1 of a floor
///
/// Returns F, 0 to 1.
///
/// Source: view factor of a tilted plane in open country.
pub fn sky_share(cos_tilt: f64) -> f64 {
    (1.0 + cos_tilt) / 2.0
}

/// Heat that a face gives off to the sky, from what the sky sends down.
///
/// `ΔR = F ε (σ T_o⁴ − IR)`
///
/// - `sky_share`      share of what it sees that is sky F, 0 to 1, from [`sky_share`]; the rest is as warm as the air
/// - `emittance`      its emittance ε, 0 to 1
/// - `air_c`          air temperature T_o [°C], above −273.15
/// - `infrared_w_m2`  long-wave irradiance of level ground IR [W/m²], as weather files give it, or
///   [`clear_infrared_w_m2`]
///
/// Returns ΔR [W/m²].
///
/// Source: Stefan-Boltzmann law.
pub fn sky_loss_w_m2(sky_share: f64, emittance: f64, air_c: f64, infrared_w_m2: f64) -> f64 {
    sky_share * emittance * (black_body_w_m2(air_c) - infrared_w_m2)
}

/// What a black face gives off.
///
/// `σ T⁴`
///
/// - `surface_c`  its temperature T [°C], above −273.15
///
/// Returns the exitance [W/m²].
///
/// Source: Stefan-Boltzmann law.
pub fn black_body_w_m2(surface_c: f64) -> f64 {
    STEFAN_BOLTZMANN_W_M2_K4 * (surface_c + ICE_K).powi(4)
}

/// How much colder than the air the sky is, where nothing is measured [K].
///
/// Source: ISO 13790, temperate climates.
pub const SKY_DROP_K: f64 = 11.0;

/// Heat that a face gives off to the sky, where nothing is measured.
///
/// `ΔR = F_r h_r Δθ_er`, `h_r = 5 ε`
///
/// - `sky_share`   form factor F_r: 1 of a roof, 0.5 of a wall, from [`sky_share`]
/// - `emittance`   its emittance ε, 0 to 1
/// - `sky_drop_k`  how much colder than the air the sky is Δθ_er [K], for instance [`SKY_DROP_K`]
///
/// Returns ΔR [W/m²].
///
/// Source: ISO 13790, thermal radiation to the sky.
pub fn usual_sky_loss_w_m2(sky_share: f64, emittance: f64, sky_drop_k: f64) -> f64 {
    sky_share * 5.0 * emittance * sky_drop_k
}

/// What a clear sky sends down.
///
/// `IR = ε_s σ T_o⁴`, `ε_s = 0.711 + 0.56 (t_d / 100) + 0.73 (t_d / 100)²`
///
/// - `air_c`        air temperature T_o [°C], −40 to 60
/// - `dew_point_c`  dew point t_d [°C], −20 to 30
///
/// Returns the long-wave irradiance of level ground [W/m²].
///
/// Source: Berdahl and Martin 1984, Solar Energy 32, 663–664, monthly mean, `from memory`.
pub fn clear_infrared_w_m2(air_c: f64, dew_point_c: f64) -> f64 {
    let hundredths = dew_point_c / 100.0;
    (0.711 + 0.56 * hundredths + 0.73 * hundredths * hundredths) * black_body_w_m2(air_c)
}

/// Share of the light falling on level ground that reaches the underside of a body in its own shade. Chosen here.
pub const UNDERSIDE_SHARE: f64 = 0.05;
/// Share of the sun's heat that an underside takes up. Chosen here.
pub const UNDERSIDE_ABSORPTANCE: f64 = 0.6;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{M2_PER_FT2, W_PER_BTU_H, difference_f, kelvin};
    use proptest::prelude::*;

    #[test]
    fn without_sun_and_sky_it_is_the_air() {
        assert_eq!(sol_air_c(30.0, 0.0, 0.9, 0.0, 17.0), 30.0);
    }

    /// Source: ASHRAE Handbook Fundamentals, nonresidential load chapter: a roof under a clear sky at night is 7 °F (3.9 K)
    /// colder than the air, from 20 BTU/(h·ft²) over 3.0 BTU/(h·ft²·°F).
    #[test]
    fn a_roof_at_night_is_seven_degrees_fahrenheit_below_the_air() {
        let night_c = sol_air_c(25.0, 0.0, 0.3, HORIZONTAL_SKY_LOSS_W_M2, 17.0);
        assert_eq!(format!("{:.1}", night_c), "21.1");
        assert_eq!(format!("{:.0}", difference_f(25.0 - night_c)), "7");
        let by_rule_w_m2 = 20.0 * W_PER_BTU_H / M2_PER_FT2;
        assert_eq!(format!("{by_rule_w_m2:.0}"), "63");
        assert!(HORIZONTAL_SKY_LOSS_W_M2 > by_rule_w_m2 && HORIZONTAL_SKY_LOSS_W_M2 < kelvin(7.5) * 17.0);
    }

    #[test]
    fn roof_wall_and_floor_see_all_half_and_none_of_the_sky() {
        assert_eq!([1.0, 0.0, -1.0].map(sky_share), [1.0, 0.5, 0.0]);
        // ISO 13790: 5 × 0.9 × 11 K on a roof, half of it on a wall.
        assert!((usual_sky_loss_w_m2(1.0, 0.9, SKY_DROP_K) - 49.5).abs() < 1e-12);
        assert!((usual_sky_loss_w_m2(0.5, 0.9, SKY_DROP_K) - 24.75).abs() < 1e-12);
    }

    #[test]
    fn a_sky_as_warm_as_the_air_takes_nothing() {
        assert_eq!(sky_loss_w_m2(1.0, 0.9, 20.0, black_body_w_m2(20.0)), 0.0);
        assert_eq!(format!("{:.1}", black_body_w_m2(20.0)), "418.8");
    }

    #[test]
    fn a_dry_sky_takes_more_than_a_damp_one() {
        let loss_w_m2 = |dew_point_c| sky_loss_w_m2(1.0, 0.9, 25.0, clear_infrared_w_m2(25.0, dew_point_c));
        let (desert_w_m2, coast_w_m2) = (loss_w_m2(-5.0), loss_w_m2(22.0));
        assert!(desert_w_m2 > 1.5 * coast_w_m2, "{desert_w_m2} {coast_w_m2}");
        // The rule lies between them.
        assert!(coast_w_m2 < HORIZONTAL_SKY_LOSS_W_M2 && HORIZONTAL_SKY_LOSS_W_M2 < desert_w_m2);
    }

    proptest! {
        #[test]
        fn it_rises_with_absorptance_sun_and_air_and_falls_with_wind(
            air_c in -30.0..50.0f64,
            sun_w_m2 in 1.0..1200.0f64,
            absorptance in 0.0..0.9f64,
            film_w_m2_k in 9.0..60.0f64,
            more in 0.001..0.1f64,
        ) {
            let base_c = sol_air_c(air_c, sun_w_m2, absorptance, 0.0, film_w_m2_k);
            prop_assert!(base_c >= air_c);
            prop_assert!(sol_air_c(air_c, sun_w_m2, absorptance + more, 0.0, film_w_m2_k) > base_c);
            prop_assert!(sol_air_c(air_c, sun_w_m2 + more, absorptance, 0.0, film_w_m2_k) >= base_c);
            prop_assert!(sol_air_c(air_c + more, sun_w_m2, absorptance, 0.0, film_w_m2_k) > base_c);
            prop_assert!(sol_air_c(air_c, sun_w_m2, absorptance, 0.0, film_w_m2_k + more) <= base_c);
            prop_assert!(sol_air_c(air_c, sun_w_m2, absorptance, more, film_w_m2_k) < base_c);
        }
    }
}
