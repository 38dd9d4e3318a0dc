//! Air that can hold no more water.

use super::ICE_K;
use super::humidity::{MOLAR_MASS_RATIO, of_vapor};

/// Where ice, water and vapor stand together [°C]. Below it the vapor stands over ice.
pub const TRIPLE_POINT_C: f64 = 0.01;

/// The least temperature for which the vapor pressure is known [°C].
pub const LEAST_C: f64 = -100.0;
/// The greatest [°C].
pub const MOST_C: f64 = 200.0;

/// Pressure of water vapor over ice or water, and how it changes with temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Saturation {
    /// The pressure [Pa].
    pub vapor_pa: f64,
    /// Change of its logarithm with temperature [1/K].
    pub growth_per_k: f64,
}

/// Pressure of saturated vapor, with its derivative.
///
/// ```text
/// ice:    ln p = −5674.5359/T + 6.3925247 − 9.677843e−3 T + 6.2215701e−7 T² + 2.0747825e−9 T³
///                − 9.484024e−13 T⁴ + 4.1635019 ln T
/// water:  ln p = −5800.2206/T + 1.3914993 − 4.8640239e−2 T + 4.1764768e−5 T² − 1.4452093e−8 T³ + 6.5459673 ln T
/// ```
///
/// - `air_c`  temperature T [°C, in kelvin above], −100 to 200
///
/// Source: ASHRAE Handbook Fundamentals 2017, chapter 1, eq. 5 (ice, to 0.01 °C) and 6 (water).
pub fn saturation(air_c: f64) -> Saturation {
    let k = air_c + ICE_K;
    let per_k = 1.0 / k;
    let (logarithm, growth_per_k) = if air_c <= TRIPLE_POINT_C {
        (
            -5.674_535_9e3 * per_k
                + 6.392_524_7
                + k * (-9.677_843e-3 + k * (6.221_570_1e-7 + k * (2.074_782_5e-9 - 9.484_024e-13 * k)))
                + 4.163_501_9 * k.ln(),
            per_k * (5.674_535_9e3 * per_k + 4.163_501_9) - 9.677_843e-3
                + k * (1.244_314_02e-6 + k * (6.224_347_5e-9 - 3.793_609_6e-12 * k)),
        )
    } else {
        (
            -5.800_220_6e3 * per_k
                + 1.391_499_3
                + k * (-4.864_023_9e-2 + k * (4.176_476_8e-5 - 1.445_209_3e-8 * k))
                + 6.545_967_3 * k.ln(),
            per_k * (5.800_220_6e3 * per_k + 6.545_967_3) - 4.864_023_9e-2
                + k * (8.352_953_6e-5 - 4.335_627_9e-8 * k),
        )
    };
    Saturation { vapor_pa: logarithm.exp(), growth_per_k }
}

/// Pressure of saturated vapor [Pa], see [`saturation`].
pub fn saturation_pa(air_c: f64) -> f64 {
    saturation(air_c).vapor_pa
}

/// Humidity ratio of saturated air [kg/kg].
///
/// - `air_c`        its temperature [°C], −100 to 200
/// - `pressure_pa`  its pressure [Pa], above that of the vapor; otherwise without bound
pub fn saturated_ratio(air_c: f64, pressure_pa: f64) -> f64 {
    of_vapor(saturation_pa(air_c), pressure_pa)
}

/// Humidity ratio of saturated air [kg/kg] and its change with temperature [1/K], as for [`saturated_ratio`].
///
/// `dW/dT = W (1 + W / 0.621945) d ln p_w/dT`, in which `1 + W / 0.621945 = p / (p − p_w)`
pub fn saturated_ratio_and_growth(air_c: f64, pressure_pa: f64) -> (f64, f64) {
    let Saturation { vapor_pa, growth_per_k } = saturation(air_c);
    let ratio = of_vapor(vapor_pa, pressure_pa);
    (ratio, ratio * (1.0 + ratio * (1.0 / MOLAR_MASS_RATIO)) * growth_per_k)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_is_that_of_the_tables() {
        // psychrolib 2.5.0 prints these.
        for (air_c, pa) in [(25.0, "3169.216"), (35.0, "5627.819"), (30.0, "4246.030"), (-10.0, "259.903")] {
            assert_eq!(format!("{:.3}", saturation_pa(air_c)), pa);
        }
    }

    #[test]
    fn its_growth_is_its_slope() {
        for air_c in [-30.0, -5.0, 5.0, 24.0, 60.0] {
            let slope = (saturation_pa(air_c + 1e-4).ln() - saturation_pa(air_c - 1e-4).ln()) / 2e-4;
            assert!((saturation(air_c).growth_per_k - slope).abs() < 1e-8, "{air_c}");
            let (ratio, growth) = saturated_ratio_and_growth(air_c, 101_325.0);
            let of = |air_c| saturated_ratio(air_c, 101_325.0);
            assert!((growth - (of(air_c + 1e-4) - of(air_c - 1e-4)) / 2e-4).abs() < 1e-7 * growth);
            assert_eq!(ratio, of(air_c));
        }
    }
}
