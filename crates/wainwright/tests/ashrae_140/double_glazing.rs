//! The window of the standard from its panes: two of clear glass, 12 mm of air between.

use wainwright::cooling_load::envelope::films::radiative_w_m2_k;
use wainwright::cooling_load::envelope::layers::resistance_m2_k_w;

/// Share of the sun that a pane lets through, and that it throws back.
///
/// Source: ASHRAE Standard 140-2020, as is all that follows without another.
const PANE_TRANSMITTANCE: f64 = 0.834;
const PANE_REFLECTANCE: f64 = 0.075;
const PANE_M: f64 = 0.003_048;
const GLASS_W_M_K: f64 = 1.0;
const GAP_M: f64 = 0.012;
pub const EMITTANCE: f64 = 0.84;

/// Air between the panes at 10 °C [W/(m K)].
///
/// Source: EN 673, table 1.
const STILL_AIR_W_M_K: f64 = 0.024_96;

/// Resistance from the outer to the inner surface.
///
/// `1/Λ = 2 d/λ + 1/(λ_a/s + h_r)`, `h_r = 4 σ T³ / (2/ε − 1)` at 10 °C. So narrow a gap does not let its air turn over:
/// with a difference of 15 K EN 673 has Nu = 0.75, for which it takes 1.
///
/// Source: EN 673.
pub fn glass_m2_k_w() -> f64 {
    let exchange_w_m2_k = radiative_w_m2_k(1.0 / (2.0 / EMITTANCE - 1.0), 10.0);
    2.0 * resistance_m2_k_w(PANE_M, GLASS_W_M_K) + 1.0 / (STILL_AIR_W_M_K / GAP_M + exchange_w_m2_k)
}

/// Share of the sun's heat that comes in, struck squarely: what passes, and what of the heat in the panes goes inward.
///
/// ```text
/// τ_e = τ² / (1 − ρ²)    α_1 = α + α τ ρ / (1 − ρ²)    α_2 = α τ / (1 − ρ²)
/// g = τ_e + [(α_1 + α_2) R_se + α_2 / Λ] / (R_si + R_se + 1/Λ)
/// ```
///
/// Source: EN 410.
pub fn shgc(inside_m2_k_w: f64, outside_m2_k_w: f64) -> f64 {
    let between = 1.0 / (1.0 - PANE_REFLECTANCE * PANE_REFLECTANCE);
    let absorbed = 1.0 - PANE_TRANSMITTANCE - PANE_REFLECTANCE;
    let passes = PANE_TRANSMITTANCE * PANE_TRANSMITTANCE * between;
    let inner = absorbed * PANE_TRANSMITTANCE * between;
    let outer = absorbed + inner * PANE_REFLECTANCE;
    let total_m2_k_w = inside_m2_k_w + outside_m2_k_w + glass_m2_k_w();
    passes + ((outer + inner) * outside_m2_k_w + inner * glass_m2_k_w()) / total_m2_k_w
}

/// Source: EN 673 and EN 410 with their own films, 8 and 23 W/(m² K), for two panes of 3 mm of clear float glass and 12 mm
/// of air: U 2.9 W/(m² K), g 0.76 to 0.78 (`common practice`).
#[test]
fn the_window_is_one_of_plain_double_glazing() {
    let u_w_m2_k = 1.0 / (1.0 / 8.0 + 1.0 / 23.0 + glass_m2_k_w());
    assert_eq!(format!("{u_w_m2_k:.1}"), "2.9");
    let shgc = shgc(1.0 / 8.0, 1.0 / 23.0);
    assert!((0.755..0.785).contains(&shgc), "{shgc}");
}
