//! Temperature of the cells of a solar module, by the published models.
//!
//! The mount decides: a module glued to a roof runs 23 to 28 K hotter in full sun than one with air behind it. In the
//! dark every model gives the ambient temperature.

/// Heat loss of a module with air free to move behind it [W/(m²·K)], for [`heat_loss_c`].
///
/// Source: `common practice`.
pub const FREE_LOSS_W_PER_M2_K: f64 = 29.0;
/// Heat loss of a framed module 3 to 5 cm above a roof [W/(m²·K)], for [`heat_loss_c`].
///
/// Source: `common practice`.
pub const SEMI_LOSS_W_PER_M2_K: f64 = 20.0;
/// Heat loss of a module glued to a roof, or less than 1 cm above it [W/(m²·K)], for [`heat_loss_c`].
///
/// Source: `common practice`.
pub const INSULATED_LOSS_W_PER_M2_K: f64 = 15.0;

/// How a module and its mount heat up, for [`sandia_c`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SandiaMount {
    /// Logarithm of the rise of the back per irradiance without wind a [ln(K·m²/W)].
    pub still: f64,
    /// What each m/s of wind adds to it b [s/m], below 0.
    pub per_wind_s_per_m: f64,
    /// How much hotter the cell is than the back at 1000 W/m² ΔT [K].
    pub cell_rise_k: f64,
}

/// Glass and polymer back on an open rack. Source: King, Boyson and Kratochvil, SAND2004-3535, 2004.
pub const OPEN_GLASS_POLYMER: SandiaMount =
    SandiaMount { still: -3.56, per_wind_s_per_m: -0.0750, cell_rise_k: 3.0 };
/// Glass on both sides, mounted close to a roof. Source: as [`OPEN_GLASS_POLYMER`].
pub const CLOSE_GLASS_GLASS: SandiaMount =
    SandiaMount { still: -2.98, per_wind_s_per_m: -0.0471, cell_rise_k: 1.0 };
/// Glass and polymer with an insulated back. Source: as [`OPEN_GLASS_POLYMER`].
pub const INSULATED_GLASS_POLYMER: SandiaMount =
    SandiaMount { still: -2.81, per_wind_s_per_m: -0.0455, cell_rise_k: 0.0 };

/// Rise of the cell per irradiance, from the module's nominal operating cell temperature.
///
/// `k = (NOCT − 20) / 800`
///
/// - `noct_c`  cell temperature at 800 W/m², 20 °C and 1 m/s NOCT [°C], above 20; 45 is typical
///
/// Returns k [K·m²/W]. By mount it is 0.0200 on a sloped roof well ventilated, 0.0208 free-standing, 0.0260 on a flat
/// roof, 0.0342 on a sloped roof poorly ventilated and 0.0563 not ventilated.
///
/// Source: Ross, 14th IEEE Photovoltaic Specialists Conference, 1980.
pub fn ross_k_m2_per_w(noct_c: f64) -> f64 {
    (noct_c - 20.0) / 800.0
}

/// Cell temperature in proportion to irradiance.
///
/// `T_c = T_a + k G`
///
/// - `plane_w_m2`  irradiance on the module G [W/m²], 0 or more
/// - `ambient_c`   air temperature T_a [°C]
/// - `k_m2_per_w`  rise per irradiance k [K·m²/W], from [`ross_k_m2_per_w`] or by mount
///
/// Returns T_c [°C].
///
/// Source: as [`ross_k_m2_per_w`].
pub fn ross_c(plane_w_m2: f64, ambient_c: f64, k_m2_per_w: f64) -> f64 {
    ambient_c + k_m2_per_w * plane_w_m2
}

/// Cell temperature with heat loss that grows with the wind.
///
/// `T_c = T_a + G / (u_0 + u_1 v)`
///
/// - `plane_w_m2`, `ambient_c`  as in [`ross_c`]
/// - `wind_m_s`                 wind at the module's height v [m/s], 0 or more
/// - `still_w_per_m2_k`         heat loss without wind u_0 [W/(m²·K)], above 0; 25 on an open rack
/// - `per_wind_w_s_per_m3_k`    heat loss per wind u_1 [W·s/(m³·K)], 0 or more; 6.84 on an open rack
///
/// Returns T_c [°C].
///
/// Source: Faiman, Progress in Photovoltaics 16, 2008.
pub fn faiman_c(
    plane_w_m2: f64,
    ambient_c: f64,
    wind_m_s: f64,
    still_w_per_m2_k: f64,
    per_wind_w_s_per_m3_k: f64,
) -> f64 {
    ambient_c + plane_w_m2 / (still_w_per_m2_k + per_wind_w_s_per_m3_k * wind_m_s)
}

/// Cell temperature from the heat a module takes in and loses.
///
/// `T_c = T_a + G α (1 − η) / U`
///
/// - `plane_w_m2`, `ambient_c`  as in [`ross_c`]
/// - `loss_w_per_m2_k`          heat loss U [W/(m²·K)], above 0: [`FREE_LOSS_W_PER_M2_K`], [`SEMI_LOSS_W_PER_M2_K`] or
///   [`INSULATED_LOSS_W_PER_M2_K`]
/// - `absorbed`                 share of the light taken in α, 0 to 1; 0.9 is typical
/// - `efficiency`               share of that turned to electricity η, 0 to 1; 0.1 goes with the losses named above
///
/// Returns T_c [°C].
///
/// Source: heat balance of a module that loses heat in proportion to its rise.
pub fn heat_loss_c(
    plane_w_m2: f64,
    ambient_c: f64,
    loss_w_per_m2_k: f64,
    absorbed: f64,
    efficiency: f64,
) -> f64 {
    ambient_c + plane_w_m2 * absorbed * (1.0 - efficiency) / loss_w_per_m2_k
}

/// Cell temperature by the Sandia model.
///
/// `T_m = T_a + G e^(a + b v)`, `T_c = T_m + ΔT G / 1000`
///
/// - `plane_w_m2`, `ambient_c`  as in [`ross_c`]
/// - `wind_m_s`                 wind 10 m above the ground v [m/s], 0 or more
/// - `mount`                    a, b and ΔT
///
/// Returns T_c [°C].
///
/// Source: King, Boyson and Kratochvil, SAND2004-3535, 2004.
pub fn sandia_c(plane_w_m2: f64, ambient_c: f64, wind_m_s: f64, mount: SandiaMount) -> f64 {
    let back_c = ambient_c + plane_w_m2 * (mount.still + mount.per_wind_s_per_m * wind_m_s).exp();
    back_c + plane_w_m2 / 1000.0 * mount.cell_rise_k
}

/// What a small gap behind a module adds to its nominal operating cell temperature.
///
/// - `gap_in`  gap between module and roof [in], 0 or more
///
/// Returns the addition [K]: 18 below 0.5 in and where there is no gap, 11 below 1.5 in, 6 below 2.5 in, 2 to 3.5 in
/// with that gap among them, 0 beyond.
///
/// Source: Neises, thesis, University of Wisconsin-Madison, 2011, `from memory`.
pub fn standoff_k(gap_in: f64) -> f64 {
    match gap_in {
        gap if gap < 0.5 => 18.0,
        gap if gap < 1.5 => 11.0,
        gap if gap < 2.5 => 6.0,
        gap if gap <= 3.5 => 2.0,
        _ => 0.0,
    }
}

/// Cell temperature from the nominal operating cell temperature and the wind.
///
/// `T_c = T_a + G/800 (NOCT − 20) (1 − η/0.9) 9.5 / (5.7 + 3.8 · 0.51 v)`
///
/// - `plane_w_m2`, `ambient_c`  as in [`ross_c`]
/// - `wind_m_s`                 wind 10 m above the ground v [m/s], 0 or more; 0.51 of it reaches a module one story up
/// - `noct_c`                   as in [`ross_k_m2_per_w`], with [`standoff_k`] added where the gap is small
/// - `efficiency`               efficiency of the module η, 0 to 0.9
///
/// Returns T_c [°C].
///
/// Source: De Soto, Klein and Beckman, Solar Energy 80, 2006, and Neises, 2011, `from memory`.
pub fn noct_wind_c(plane_w_m2: f64, ambient_c: f64, wind_m_s: f64, noct_c: f64, efficiency: f64) -> f64 {
    let rise_k = plane_w_m2 / 800.0 * (noct_c - 20.0);
    ambient_c + rise_k * (1.0 - efficiency / 0.9) * 9.5 / (5.7 + 3.8 * 0.51 * wind_m_s)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn full_sun_at_twenty_degrees() {
        let (sun, air, wind) = (1000.0, 20.0, 1.0);
        assert_eq!(ross_c(sun, air, ross_k_m2_per_w(45.0)), 51.25);
        let shown = [
            faiman_c(sun, air, wind, 25.0, 6.84),
            heat_loss_c(sun, air, FREE_LOSS_W_PER_M2_K, 0.9, 0.1),
            heat_loss_c(sun, air, INSULATED_LOSS_W_PER_M2_K, 0.9, 0.1),
            sandia_c(sun, air, wind, OPEN_GLASS_POLYMER),
            sandia_c(sun, air, wind, CLOSE_GLASS_GLASS),
            sandia_c(sun, air, wind, INSULATED_GLASS_POLYMER),
        ]
        .map(|cell_c| format!("{cell_c:.1}"));
        assert_eq!(shown, ["51.4", "47.9", "74.0", "49.4", "69.5", "77.5"]);
    }

    #[test]
    fn a_hotter_rated_module_in_warm_air() {
        assert!((ross_c(1000.0, 30.0, ross_k_m2_per_w(46.0)) - 62.5).abs() < 1e-12);
    }

    #[test]
    fn a_flush_module_runs_as_hot_as_one_with_the_smallest_gap() {
        assert_eq!(
            [0.0, 0.49, 0.5, 1.5, 2.5, 3.5, 3.51].map(standoff_k),
            [18.0, 18.0, 11.0, 6.0, 2.0, 2.0, 0.0]
        );
    }
}
