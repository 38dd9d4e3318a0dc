//! Air pressure by height.

/// Pressure at sea level in the standard atmosphere [Pa].
pub const SEA_LEVEL_PA: f64 = 101_325.0;

/// Air pressure at a height in the standard atmosphere.
///
/// `p = 101325 (1 − 2.25577e−5 z)^5.2559`
///
/// - `altitude_m`  height above sea level z [m], −5000 to 11 000; 0 Pa above 44 331 m, where the formula ends
///
/// Returns the pressure p [Pa].
///
/// Source: ASHRAE Handbook Fundamentals 2017, chapter 1, eq. 3.
pub fn standard_pa(altitude_m: f64) -> f64 {
    SEA_LEVEL_PA * (1.0 - 2.255_77e-5 * altitude_m).max(0.0).powf(5.2559)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_sea_has_the_standard_pressure_and_space_none() {
        assert_eq!((standard_pa(0.0), standard_pa(50_000.0)), (SEA_LEVEL_PA, 0.0));
    }
}
