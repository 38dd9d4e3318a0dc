//! Exchange of heat at the inner faces, as the network has it.

/// Exchange with the air that the simple hourly method reckons with [W/(m² K)].
///
/// Source: ISO 13790:2008, annex C, of 2.5 and 6.6 the 3.45 and 9.1 that it prints.
pub const CONVECTIVE_W_M2_K: f64 = 2.5;
/// Exchange with all other faces that the simple hourly method reckons with [W/(m² K)]: 5.5, and a fifth more because a
/// face does not see itself.
///
/// Source: as [`CONVECTIVE_W_M2_K`].
pub const RADIATIVE_W_M2_K: f64 = 6.6;

/// Exchange at the inner faces, by their area.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InsideExchange {
    /// From the surface node to the air h_is [W/(m² K)], by the area of all faces.
    pub to_air_w_m2_k: f64,
    /// From a face to the surface node h_ms [W/(m² K)], by the area of the face.
    pub to_face_w_m2_k: f64,
}

/// Exchange at the inner faces.
///
/// Each face exchanges heat with the air, and by radiation with the mean of the others. Both meet in one node, which is
/// not the air, nor a surface, but what a face has before it:
/// `h_ms = h_c + h_r`, `h_is = h_c (h_c + h_r) / h_r`
///
/// - `convective_w_m2_k`  exchange with the air h_c [W/(m² K)], 0 or more: 1.5 to 2 in still air, [`CONVECTIVE_W_M2_K`]
///   by the standard, more where a fan stirs it
/// - `radiative_w_m2_k`   exchange with the other faces h_r [W/(m² K)], above 0, for instance [`RADIATIVE_W_M2_K`]
///
/// Source: triangle of conductances turned into a star.
pub fn inside_exchange(convective_w_m2_k: f64, radiative_w_m2_k: f64) -> InsideExchange {
    let to_face_w_m2_k = convective_w_m2_k + radiative_w_m2_k;
    InsideExchange { to_air_w_m2_k: convective_w_m2_k * to_face_w_m2_k / radiative_w_m2_k, to_face_w_m2_k }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cooling_load::network::hourly_13790::{MASS_TO_SURFACE_W_M2_K, SURFACE_TO_AIR_W_M2_K};

    /// Source: ISO 13790:2008, 7.2.2.2 and 12.2.2.
    #[test]
    fn the_standard_prints_what_its_exchange_comes_to() {
        let exchange = inside_exchange(CONVECTIVE_W_M2_K, RADIATIVE_W_M2_K);
        assert_eq!(format!("{:.2}", exchange.to_air_w_m2_k), format!("{SURFACE_TO_AIR_W_M2_K:.2}"));
        assert!((exchange.to_face_w_m2_k - MASS_TO_SURFACE_W_M2_K).abs() < 1e-12);
    }

    #[test]
    fn faces_that_are_all_alike_give_heat_to_the_air_by_convection_alone() {
        let exchange = inside_exchange(1.7, 6.6);
        let in_series = 1.0 / (1.0 / exchange.to_face_w_m2_k + 1.0 / exchange.to_air_w_m2_k);
        assert!((in_series - 1.7).abs() < 1e-12);
        assert_eq!(inside_exchange(0.0, 6.6).to_air_w_m2_k, 0.0);
    }
}
