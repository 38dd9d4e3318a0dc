//! The temperature at which air begins to lose water.

use super::saturation::{LEAST_C, MOST_C, Saturation, TRIPLE_POINT_C, saturation, saturation_pa};

/// Pressures of vapor below and above all that are known [Pa].
const BEYOND_PA: (f64, f64) = (1e-4, 1e7);
/// Steps after which the search ends; three to five are usual.
const MOST_STEPS: usize = 30;

/// Dew point, or frost point below 0.01 °C: the temperature at which vapor of a pressure is saturated.
///
/// Newton's method on the logarithm of the saturation pressure.
///
/// - `vapor_pa`  pressure of the vapor [Pa], 0 or more
///
/// Returns the temperature [°C], held to −100 to 200; −100 of air without water.
///
/// Source: ASHRAE Handbook Fundamentals 2017, chapter 1, eq. 5 and 6 the other way round.
pub fn dew_point_c(vapor_pa: f64) -> f64 {
    // Over ice and over water the curves do not quite meet: keep to one of them.
    let least_pa = saturation_pa(TRIPLE_POINT_C);
    let (low_c, high_c) =
        if vapor_pa <= least_pa { (LEAST_C, TRIPLE_POINT_C) } else { (TRIPLE_POINT_C, MOST_C) };
    let vapor_pa = vapor_pa.clamp(BEYOND_PA.0, BEYOND_PA.1);
    let target = vapor_pa.ln();
    // Magnus' form is within a degree where people live.
    let mut dew_c =
        (243.5 * (vapor_pa / 611.2).ln() / (17.67 - (vapor_pa / 611.2).ln())).clamp(low_c, high_c);
    for _ in 0..MOST_STEPS {
        let Saturation { vapor_pa, growth_per_k } = saturation(dew_c);
        let next_c = (dew_c + (target - vapor_pa.ln()) / growth_per_k).clamp(low_c, high_c);
        let moved_k = (next_c - dew_c).abs();
        dew_c = next_c;
        if moved_k < 1e-10 {
            break;
        }
    }
    dew_c
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_is_where_vapor_is_saturated() {
        for dew_c in [-60.0, -10.0, -0.5, 0.0, 0.01, 0.011, 4.0, 23.0, 90.0] {
            assert!((dew_point_c(saturation_pa(dew_c)) - dew_c).abs() < 1e-8, "{dew_c}");
        }
    }

    #[test]
    fn beyond_its_range_it_stays_at_the_end() {
        for (vapor_pa, dew_c) in [(0.0, LEAST_C), (1e-9, LEAST_C), (1e9, MOST_C), (f64::INFINITY, MOST_C)] {
            assert_eq!(dew_point_c(vapor_pa), dew_c);
        }
    }
}
