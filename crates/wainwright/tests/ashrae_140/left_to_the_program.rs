//! What the standard leaves to a program: how heat passes at the surfaces.

use crate::cell::{FACES_M2, WALLS_M2};

/// Exchange of the inner faces with the air, which nothing stirs [W/(m² K)]: with it h_is is 2.1 W/(m² K), which the authors
/// of the published model by ISO 13790 took for this box. [`still_air_w_m2_k`] has it between 1.6, on the mean over all
/// hours, and 2.3, by the heat that passes.
///
/// Much hangs on it: 0.1 more of it is 0.07 MWh more heating and 0.1 MWh more cooling in case 600. `light.rs` has what comes
/// of an exchange that follows the difference, and of the 2.5 that ISO 13790 has for every room.
pub const INSIDE_CONVECTIVE_W_M2_K: f64 = 1.68;

/// The same whatever the difference.
pub fn still(_difference_k: f64) -> f64 {
    INSIDE_CONVECTIVE_W_M2_K
}

/// Exchange of the inner faces with still air, on the mean over their area.
///
/// `1.31 ΔT^⅓` upright; of roof and floor the mean of `1.51 ΔT^⅓`, where the air is moved, and `0.76 ΔT^⅓`, where it lies
///
/// - `difference_k`  between faces and air ΔT [K]
///
/// Source: Walton 1983, NBSSR 83-2655, and ASHRAE Handbook Fundamentals (`from memory`).
pub fn still_air_w_m2_k(difference_k: f64) -> f64 {
    let upright_m2: f64 = WALLS_M2.iter().sum();
    let level_m2 = FACES_M2 - upright_m2;
    (1.31 * upright_m2 + 0.5 * (1.51 + 0.76) * level_m2) / FACES_M2 * difference_k.cbrt()
}

/// Wind at half the height of the walls by that at the station's 10 m, over open country: the film of ISO 6946 asks for the
/// wind beside the surface.
///
/// `(z / 10 m)^0.14`
///
/// Source: ASHRAE Handbook Fundamentals, airflow around buildings (`from memory`).
pub fn beside_the_walls_m_s(wind_m_s: f64) -> f64 {
    wind_m_s * (0.5 * 2.7 / 10.0_f64).powf(0.14)
}

/// What of the cold of the sky an upright face feels, by what a level one does: of its half of the sky the lower part, which
/// it faces, is near as warm as the air.
///
/// `F √F`, `F = (1 + cos β) / 2`
///
/// Source: Walton 1983, NBSSR 83-2655 (`from memory`).
pub const WALL_SKY_SHARE: f64 = 0.5 * std::f64::consts::FRAC_1_SQRT_2;
