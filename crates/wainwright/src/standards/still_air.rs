//! Resistance of still air: at surfaces, and in layers shut in between two faces.

use std::sync::LazyLock;

use super::table::rows;

/// Which way heat flows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HeatFlow {
    /// Through a wall, either way.
    Horizontal,
    /// Up: out through a roof, in through a floor.
    Up,
    /// Down: in through a roof, out through a floor.
    Down,
}

/// Resistance between the air inside and a surface of high emittance.
///
/// - `flow`  which way heat flows
///
/// Returns R_si [m²·K/W].
///
/// Source: ISO 6946, surface resistances.
pub fn inside_m2_k_w(flow: HeatFlow) -> f64 {
    match flow {
        HeatFlow::Horizontal => 0.13,
        HeatFlow::Up => 0.10,
        HeatFlow::Down => 0.17,
    }
}

/// Resistance between a surface and the air outside, R_se [m²·K/W], in a wind of 4 m/s.
///
/// Source: ISO 6946, surface resistances.
pub const OUTSIDE_M2_K_W: f64 = 0.04;

/// Thickness [m], then the resistance [m²·K/W] in the order of [`HeatFlow`].
static LAYERS: LazyLock<Vec<(f64, [f64; 3])>> = LazyLock::new(|| {
    rows(include_str!("../../data/air_layers_iso_6946.csv"))
        .map(|row| {
            let number = |column| row.number(column).unwrap_or(f64::NAN);
            (number("thickness_mm") / 1000.0, ["horizontal", "up", "down"].map(number))
        })
        .collect()
});

/// Resistance of a layer of air shut in between two faces of high emittance. A foil that faces it adds to this; one that
/// touches both sides adds nothing.
///
/// - `thickness_m`  thickness of the layer [m], 0 or more; straight between the printed ones, above 0.3 m as of 0.3 m
/// - `flow`         which way heat flows
///
/// Returns the resistance [m²·K/W].
///
/// Source: ISO 6946, unventilated air layers, `from memory`.
pub fn layer_m2_k_w(thickness_m: f64, flow: HeatFlow) -> f64 {
    let column = flow as usize;
    for pair in LAYERS.windows(2) {
        let [(thin_m, thin), (thick_m, thick)] = [pair[0], pair[1]];
        if thickness_m <= thick_m {
            let part = ((thickness_m - thin_m) / (thick_m - thin_m)).max(0.0);
            return thin[column] + part * (thick[column] - thin[column]);
        }
    }
    LAYERS.last().map_or(0.0, |(_, thickest)| thickest[column])
}

#[cfg(test)]
mod tests {
    use super::*;

    const FLOWS: [HeatFlow; 3] = [HeatFlow::Horizontal, HeatFlow::Up, HeatFlow::Down];

    #[test]
    fn printed_layers_stand_as_printed() {
        assert_eq!(FLOWS.map(|flow| layer_m2_k_w(0.0, flow)), [0.0; 3]);
        assert_eq!(FLOWS.map(|flow| layer_m2_k_w(0.025, flow)), [0.18, 0.16, 0.19]);
        assert_eq!(FLOWS.map(|flow| layer_m2_k_w(0.3, flow)), [0.18, 0.16, 0.23]);
        assert_eq!(FLOWS.map(|flow| layer_m2_k_w(2.0, flow)), [0.18, 0.16, 0.23]);
    }

    #[test]
    fn between_two_printed_layers_it_runs_straight() {
        assert!((layer_m2_k_w(0.075, HeatFlow::Down) - 0.215).abs() < 1e-12);
        assert!((layer_m2_k_w(0.006, HeatFlow::Up) - 0.12).abs() < 1e-12);
    }

    #[test]
    fn a_thicker_layer_never_has_less() {
        for flow in FLOWS {
            let column: Vec<f64> = (0..400).map(|mm| layer_m2_k_w(f64::from(mm) / 1000.0, flow)).collect();
            assert!(column.is_sorted(), "{flow:?}");
        }
    }

    #[test]
    fn heat_has_it_hardest_downwards() {
        assert!(inside_m2_k_w(HeatFlow::Up) < inside_m2_k_w(HeatFlow::Horizontal));
        assert!(inside_m2_k_w(HeatFlow::Horizontal) < inside_m2_k_w(HeatFlow::Down));
    }
}
