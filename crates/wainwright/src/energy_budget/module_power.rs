//! Power of a solar module in the light and at the temperature of its cells.

/// Irradiance at which modules are rated [W/m²].
///
/// Source: IEC 61215, standard test conditions.
pub const RATED_W_M2: f64 = 1000.0;
/// Cell temperature at which modules are rated [°C].
///
/// Source: as [`RATED_W_M2`].
pub const RATED_CELL_C: f64 = 25.0;

/// Usual losses of a fixed array, fractions: soiling, shading, mismatch, wiring, connections, light-induced
/// degradation, nameplate, availability. A camper's array has no grid to wait for and its shade is worked out, so
/// 0.06 to 0.09 in all is usual there (`common practice`).
///
/// Source: Dobos, NREL/TP-6A20-62641, 2014.
pub const USUAL_LOSSES: [f64; 8] = [0.02, 0.03, 0.02, 0.02, 0.005, 0.015, 0.01, 0.03];

/// Power of a module at its maximum power point.
///
/// `P = G/1000 P_stc [1 + γ (T_c − 25)]`
///
/// - `effective_w_m2`  irradiance that reaches the cells G [W/m²], 0 or more
/// - `cell_c`          cell temperature T_c [°C]
/// - `rated_w`         power at standard test conditions P_stc [W], 0 or more
/// - `gamma_per_c`     change of power with temperature γ [1/°C], below 0: −0.0035 to −0.0045 for silicon
///
/// Returns P [W], before losses; 0 where the cells are so hot that nothing is left.
///
/// Source: Dobos, NREL/TP-6A20-62641, 2014.
pub fn module_w(effective_w_m2: f64, cell_c: f64, rated_w: f64, gamma_per_c: f64) -> f64 {
    let kept = 1.0 + gamma_per_c * (cell_c - RATED_CELL_C);
    (effective_w_m2 / RATED_W_M2 * rated_w * kept).max(0.0)
}

/// Power of a module at its maximum power point, with what its efficiency loses in low light.
///
/// `P = P_0 − P_stc k e`, P_0 of [`module_w`], `e = (1000 − G)/800` above 200 W/m², `e = 1 − (1 − G/200)⁴` at or below
///
/// - `effective_w_m2`, `cell_c`, `rated_w`, `gamma_per_c`  as in [`module_w`]
/// - `low_light`  share of the rated power lost at 200 W/m² k, 0 to 0.05; 0.01 is typical
///
/// Returns P [W], never below 0. Above 1000 W/m² the correction adds.
///
/// Source: Marion, Photovoltaic Specialists Conference, 2008, `from memory`.
pub fn low_light_module_w(
    effective_w_m2: f64,
    cell_c: f64,
    rated_w: f64,
    gamma_per_c: f64,
    low_light: f64,
) -> f64 {
    let part = if effective_w_m2 > 200.0 {
        (RATED_W_M2 - effective_w_m2) / 800.0
    } else {
        1.0 - (1.0 - effective_w_m2 / 200.0).powi(4)
    };
    (module_w(effective_w_m2, cell_c, rated_w, gamma_per_c) - rated_w * low_light * part).max(0.0)
}

/// One loss that stands for several in a row.
///
/// `L = 1 − (1 − L_1)(1 − L_2)…`
///
/// - `losses`  fractions lost, each 0 to 1
///
/// Returns L, 0 to 1; 0 of no losses.
///
/// Source: Dobos, NREL/TP-6A20-62641, 2014.
pub fn combined_loss(losses: &[f64]) -> f64 {
    1.0 - losses.iter().map(|loss| 1.0 - loss).product::<f64>()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn usual_losses_make_fourteen_percent() {
        assert_eq!(format!("{:.6}", 100.0 * combined_loss(&USUAL_LOSSES)), "14.075661");
        assert_eq!(combined_loss(&[]), 0.0);
    }

    #[test]
    fn power_is_never_negative() {
        assert_eq!(module_w(1000.0, 400.0, 400.0, -0.0035), 0.0);
        assert_eq!(low_light_module_w(1.0, 300.0, 400.0, -0.0035, 0.01), 0.0);
    }

    #[test]
    fn low_light_takes_its_share_at_200_watts() {
        let lost_w =
            module_w(200.0, 25.0, 400.0, -0.0035) - low_light_module_w(200.0, 25.0, 400.0, -0.0035, 0.01);
        assert!((lost_w - 4.0).abs() < 1e-12);
    }
}
