//! How much air the sun's light comes through, and how strong it is before it does.

use std::f64::consts::{FRAC_PI_2, TAU};

/// Irradiance outside the atmosphere at the mean distance of the sun [W/m²].
///
/// Source: Gueymard 2004, Solar Energy 76, 423–453 (`from memory`).
pub const SOLAR_CONSTANT_W_M2: f64 = 1366.1;

/// Pressure at sea level in the standard atmosphere [Pa].
pub const SEA_LEVEL_PA: f64 = 101_325.0;

/// Relative air mass: the length of the light's way through the air, the sun overhead being 1.
///
/// `m = 1 / [cos z + 0.50572 (6.07995 + 90 − z)^−1.6364]`, z in degrees
///
/// - `apparent_zenith_rad`  zenith angle of the sun with refraction z [rad], 0 to π/2; beyond counts as π/2, where
///   m is 37.9
///
/// Source: Kasten and Young 1989, Applied Optics 28, 4735–4738.
pub fn relative(apparent_zenith_rad: f64) -> f64 {
    let zenith_rad = apparent_zenith_rad.min(FRAC_PI_2);
    let above_deg = 6.079_95 + 90.0 - zenith_rad.to_degrees();
    1.0 / (zenith_rad.cos() + 0.505_72 * above_deg.powf(-1.6364))
}

/// Absolute air mass: the relative one by the mass of air that stands over the place.
///
/// `m p / 101325`
///
/// - `relative`     relative air mass m, 1 or more
/// - `pressure_pa`  air pressure at the place p [Pa], 0 or more
///
/// Source: Kasten and Young 1989, Applied Optics 28, 4735–4738.
pub fn absolute(relative: f64, pressure_pa: f64) -> f64 {
    relative * pressure_pa / SEA_LEVEL_PA
}

/// Air pressure at an altitude in the standard atmosphere.
///
/// `p = 100 [(44331.514 − h) / 11880.516]^(1/0.1902632)`
///
/// - `altitude_m`  height above sea level h [m], −400 to 11 000; NaN above 44 331 m, where the formula ends
///
/// Returns the pressure [Pa].
///
/// Source: the lowest layer of the standard atmosphere with its constants collected, Portland State Aerospace Society
/// 2004. It reckons with geopotential altitude; the difference is below 0.02 % of the pressure to 3000 m.
pub fn pressure_pa(altitude_m: f64) -> f64 {
    100.0 * ((44_331.514 - altitude_m) / 11_880.516).powf(1.0 / 0.190_263_2)
}

/// Square of the sun's mean distance by that of a day: what the solar constant is multiplied by.
///
/// `1.00011 + 0.034221 cos x + 0.00128 sin x + 0.000719 cos 2x + 0.000077 sin 2x`, `x = 2π (d − 1) / 365`
///
/// - `day_of_year`  d, 1 to 366
///
/// Source: Spencer 1971, Search 2, 172.
pub fn distance_factor(day_of_year: u16) -> f64 {
    let angle_rad = TAU * (f64::from(day_of_year) - 1.0) / 365.0;
    let (sin, cos) = angle_rad.sin_cos();
    let (sin_twice, cos_twice) = (2.0 * angle_rad).sin_cos();
    1.000_11 + 0.034_221 * cos + 0.001_28 * sin + 0.000_719 * cos_twice + 0.000_077 * sin_twice
}

/// Irradiance outside the atmosphere, on a plane that faces the sun.
///
/// [`SOLAR_CONSTANT_W_M2`] × [`distance_factor`]
///
/// - `day_of_year`  1 to 366
///
/// Returns the irradiance [W/m²].
///
/// Source: Spencer 1971, Search 2, 172.
pub fn extraterrestrial_w_m2(day_of_year: u16) -> f64 {
    SOLAR_CONSTANT_W_M2 * distance_factor(day_of_year)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn air_mass_is_one_overhead_and_never_falls_toward_the_horizon() {
        assert!((relative(0.0) - 1.0).abs() < 1e-3);
        let by_degree: Vec<f64> = (0..=100).map(|z| relative(f64::from(z).to_radians())).collect();
        assert!(by_degree.windows(2).all(|pair| pair[0] <= pair[1]));
    }

    #[test]
    fn air_mass_below_the_horizon_is_that_at_it() {
        assert_eq!(relative(2.0), relative(FRAC_PI_2));
        assert_eq!(format!("{:.1}", relative(FRAC_PI_2)), "37.9");
    }

    #[test]
    fn pressure_is_that_of_the_standard_atmosphere() {
        // ICAO Doc 7488, by geopotential altitude, from memory.
        for (altitude_m, printed_pa) in [(0.0, 101_325.0), (1000.0, 89_874.0), (3000.0, 70_108.0)] {
            let computed_pa = pressure_pa(altitude_m);
            assert!((computed_pa / printed_pa - 1.0).abs() < 5e-5, "{computed_pa}");
        }
    }

    #[test]
    fn the_sun_is_strongest_at_the_start_of_january() {
        let strongest = (1..=365).max_by(|a, b| distance_factor(*a).total_cmp(&distance_factor(*b)));
        assert!(strongest.is_some_and(|day| day <= 6), "{strongest:?}");
        let mean = (1..=365).map(extraterrestrial_w_m2).sum::<f64>() / 365.0;
        assert!((mean / SOLAR_CONSTANT_W_M2 - 1.0).abs() < 2e-4, "{mean}");
    }
}
