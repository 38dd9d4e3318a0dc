//! Films of air on the surfaces: how well heat passes between a surface and the air and space about it.
//!
//! Printed resistances stand in [`crate::standards::still_air`]. Where U is below 2 W/(m²·K) the film outside hardly matters.

use crate::air::ICE_K;
use crate::standards::still_air::HeatFlow;

/// Stefan-Boltzmann constant [W/(m²·K⁴)], exact (CODATA 2018).
pub const STEFAN_BOLTZMANN_W_M2_K4: f64 = 5.670_374_419e-8;

/// Film outside on a parked trailer on a hot day [W/(m²·K)]: 3.0 BTU/(h·ft²·°F). Less wind makes sunny faces hotter.
///
/// Source: ASHRAE Handbook Fundamentals, sol-air temperatures of the nonresidential load chapter.
pub const HOT_DAY_W_M2_K: f64 = 17.0;
/// Film outside on a winter night [W/(m²·K)]: 6.0 BTU/(h·ft²·°F), a wind of 15 mph.
///
/// Source: ASHRAE Handbook Fundamentals, surface films, `from memory`.
pub const WINTER_W_M2_K: f64 = 34.0;

/// Exchange of heat by radiation between a surface and surroundings about as warm.
///
/// `h_r = 4 ε σ T_m³`
///
/// - `emittance`  emittance ε, 0 to 1, 0.9 of all but bare metal
/// - `mean_c`     mean temperature of both T_m [°C], above −273.15
///
/// Returns h_r [W/(m²·K)].
///
/// Source: ISO 6946, annex on surface resistances.
pub fn radiative_w_m2_k(emittance: f64, mean_c: f64) -> f64 {
    4.0 * emittance * STEFAN_BOLTZMANN_W_M2_K4 * (mean_c + ICE_K).powi(3)
}

/// Resistance of a surface.
///
/// `R_s = 1 / (h_c + h_r)`
///
/// - `convective_w_m2_k`  exchange with the air h_c [W/(m²·K)], 0 or more
/// - `radiative_w_m2_k`   exchange by radiation h_r [W/(m²·K)], 0 or more, from [`radiative_w_m2_k`]
///
/// Returns R_s [m²·K/W]; without bound where there is no exchange.
///
/// Source: ISO 6946, annex on surface resistances.
pub fn resistance_m2_k_w(convective_w_m2_k: f64, radiative_w_m2_k: f64) -> f64 {
    1.0 / (convective_w_m2_k + radiative_w_m2_k)
}

/// Exchange of heat between an inside surface and still air.
///
/// - `flow`  which way heat flows
///
/// Returns h_c [W/(m²·K)].
///
/// Source: ISO 6946, annex on surface resistances, `from memory`.
pub fn inside_convective_w_m2_k(flow: HeatFlow) -> f64 {
    match flow {
        HeatFlow::Horizontal => 2.5,
        HeatFlow::Up => 5.0,
        HeatFlow::Down => 0.7,
    }
}

/// Exchange of heat between an outside surface and the wind.
///
/// `h_c = 4 + 4 v`
///
/// - `wind_m_s`  wind v [m/s], 0 or more
///
/// Returns h_c [W/(m²·K)].
///
/// Source: ISO 6946, annex on surface resistances, `from memory`.
pub fn outside_convective_w_m2_k(wind_m_s: f64) -> f64 {
    4.0 + 4.0 * wind_m_s
}

/// Film outside in a wind, radiation included.
///
/// `h_o = 4 + 4 v + h_r`
///
/// - `wind_m_s`          wind v [m/s], 0 or more
/// - `radiative_w_m2_k`  exchange by radiation h_r [W/(m²·K)], from [`radiative_w_m2_k`]
///
/// Returns h_o [W/(m²·K)].
///
/// Source: ISO 6946, annex on surface resistances, `from memory`.
pub fn outside_w_m2_k(wind_m_s: f64, radiative_w_m2_k: f64) -> f64 {
    outside_convective_w_m2_k(wind_m_s) + radiative_w_m2_k
}

/// Exchange of heat between an outside surface and the wind, as measured in a wind tunnel.
///
/// `h_c = 5.7 + 3.8 v` below 5 m/s, `6.47 v^0.78` from there
///
/// - `wind_m_s`  wind v [m/s], 0 or more. At 5 m/s the second form begins 8 % below the first
///
/// Returns h_c [W/(m²·K)].
///
/// Source: Jürges 1924, after McAdams, Heat Transmission, `from memory`.
pub fn jurges_convective_w_m2_k(wind_m_s: f64) -> f64 {
    if wind_m_s < 5.0 { 5.7 + 3.8 * wind_m_s } else { 6.47 * wind_m_s.powf(0.78) }
}

/// Density of air [kg/m³], viscosity [Pa·s], conductivity [W/(m·K)] and Prandtl number at 20 °C and sea level.
const AIR_20C: (f64, f64, f64, f64) = (1.204, 1.82e-5, 0.0257, 0.71);

/// Exchange of heat between a smooth face and air that streams along it, on average over its length.
///
/// ```text
/// Nu = (0.037 Re^0.8 − 871) Pr^⅓    turbulent, Re above 500 000
/// Nu = 0.664 Re^½ Pr^⅓              laminar
/// h_c = Nu k / L    Re = ρ v L / μ
/// ```
///
/// - `speed_m_s`  speed of the stream v [m/s], 0 or more
/// - `length_m`   length of the face along the stream L [m], above 0
///
/// Returns h_c [W/(m²·K)] in air of 20 °C at sea level; 0 in still air.
///
/// Source: flat plate of the textbooks of heat transfer, transition at Re 500 000, `from memory`.
pub fn flat_plate_w_m2_k(speed_m_s: f64, length_m: f64) -> f64 {
    let (density, viscosity, conductivity, prandtl) = AIR_20C;
    let reynolds = density * speed_m_s * length_m / viscosity;
    let nusselt =
        if reynolds > 5e5 { 0.037 * reynolds.powf(0.8) - 871.0 } else { 0.664 * reynolds.max(0.0).sqrt() };
    nusselt * prandtl.cbrt() * conductivity / length_m
}

/// Film outside while the trailer is towed: no less than parked on a hot day.
///
/// `h_o = max(h_c + h_r, 17)`
///
/// - `speed_m_s`         speed of the air along the body [m/s], 0 or more
/// - `length_m`          length of the body [m], above 0
/// - `radiative_w_m2_k`  exchange by radiation h_r [W/(m²·K)], from [`radiative_w_m2_k`]
///
/// Returns h_o [W/(m²·K)].
///
/// Source: [`flat_plate_w_m2_k`]; the least is chosen here.
pub fn towed_w_m2_k(speed_m_s: f64, length_m: f64, radiative_w_m2_k: f64) -> f64 {
    (flat_plate_w_m2_k(speed_m_s, length_m) + radiative_w_m2_k).max(HOT_DAY_W_M2_K)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::standards::still_air::{OUTSIDE_M2_K_W, inside_m2_k_w};
    use crate::units::{M2_K_W_PER_R, m_s, r_value};

    /// Source: ISO 6946: the resistances it prints are those of these films at 20 °C inside and 4 m/s outside.
    #[test]
    fn films_give_the_printed_resistances() {
        let radiative = radiative_w_m2_k(0.9, 20.0);
        assert_eq!(format!("{radiative:.2}"), "5.14");
        for flow in [HeatFlow::Horizontal, HeatFlow::Up, HeatFlow::Down] {
            let r = resistance_m2_k_w(inside_convective_w_m2_k(flow), radiative);
            assert_eq!(format!("{r:.2}"), format!("{:.2}", inside_m2_k_w(flow)));
        }
        let r = 1.0 / outside_w_m2_k(4.0, radiative_w_m2_k(0.9, 10.0));
        assert_eq!(format!("{r:.2}"), format!("{OUTSIDE_M2_K_W:.2}"));
    }

    /// Source: ASHRAE Handbook Fundamentals, surface films, `from memory`: 3.0 BTU/(h·ft²·°F) for sol-air temperatures,
    /// 6.0 at 15 mph, R 0.25 at 7.5 mph.
    #[test]
    fn films_of_the_handbook() {
        assert_eq!(format!("{:.0}", 3.0 / M2_K_W_PER_R), format!("{HOT_DAY_W_M2_K:.0}"));
        assert_eq!(format!("{:.0}", 6.0 / M2_K_W_PER_R), format!("{WINTER_W_M2_K:.0}"));
        let summer = outside_w_m2_k(m_s(7.5), radiative_w_m2_k(0.9, 20.0));
        assert_eq!(format!("{:.2}", r_value(1.0 / summer)), "0.25");
    }

    #[test]
    fn laminar_and_turbulent_streams_meet() {
        let (density, viscosity, ..) = AIR_20C;
        let at = |reynolds: f64| flat_plate_w_m2_k(reynolds * viscosity / (density * 5.0), 5.0);
        assert!((at(5.001e5) / at(4.999e5) - 1.0).abs() < 0.01);
        assert_eq!(flat_plate_w_m2_k(0.0, 5.0), 0.0);
    }

    #[test]
    fn towing_cools_the_skin_and_standing_is_no_worse_than_parked() {
        assert_eq!(towed_w_m2_k(0.0, 5.0, 5.14), HOT_DAY_W_M2_K);
        assert_eq!(format!("{:.0}", flat_plate_w_m2_k(m_s(55.0), 5.0)), "53");
    }

    #[test]
    fn the_wind_tunnel_steps_down_by_a_twelfth_at_five_meters_a_second() {
        let step = jurges_convective_w_m2_k(5.0) / jurges_convective_w_m2_k(5.0 - 1e-9);
        assert_eq!(format!("{step:.2}"), "0.92");
    }
}
