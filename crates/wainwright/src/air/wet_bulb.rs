//! The temperature of a wetted thermometer in moving air.

use super::saturation::saturated_ratio_and_growth;

/// Steps after which the search ends; three to five are usual.
const MOST_STEPS: usize = 40;
/// A step so small ends the search [K]: each has twice the digits of the one before.
const LAST_STEP_K: f64 = 1e-5;

/// Humidity ratio of air by its wet bulb [kg/kg], as for [`ratio_of_wet_bulb`], and its change with the wet bulb [1/K].
pub fn ratio_of_wet_bulb_and_growth(air_c: f64, wet_bulb_c: f64, pressure_pa: f64) -> (f64, f64) {
    let (saturated, saturated_growth) = saturated_ratio_and_growth(wet_bulb_c, pressure_pa);
    let (heat, heat_growth, below, below_growth) = if wet_bulb_c >= 0.0 {
        (2501.0 - 2.326 * wet_bulb_c, -2.326, 2501.0 + 1.86 * air_c - 4.186 * wet_bulb_c, -4.186)
    } else {
        (2830.0 - 0.24 * wet_bulb_c, -0.24, 2830.0 + 1.86 * air_c - 2.1 * wet_bulb_c, -2.1)
    };
    let per_below = 1.0 / below;
    let ratio = (heat * saturated - 1.006 * (air_c - wet_bulb_c)) * per_below;
    let growth =
        (heat_growth * saturated + heat * saturated_growth + 1.006 - ratio * below_growth) * per_below;
    (ratio, growth)
}

/// Humidity ratio of air by its wet bulb.
///
/// ```text
/// t* ≥ 0:  W = [(2501 − 2.326 t*) W_s − 1.006 (t − t*)] / (2501 + 1.86 t − 4.186 t*)
/// t* < 0:  W = [(2830 − 0.24 t*) W_s − 1.006 (t − t*)] / (2830 + 1.86 t − 2.1 t*)
/// ```
///
/// - `air_c`        temperature t [°C]
/// - `wet_bulb_c`   wet bulb t* [°C], t or less; W_s is the ratio of air saturated at it
/// - `pressure_pa`  pressure [Pa]
///
/// Returns W [kg/kg]; below 0 no air is dry enough for such a wet bulb.
///
/// Source: ASHRAE Handbook Fundamentals 2017, chapter 1, eq. 33 and 35.
pub fn ratio_of_wet_bulb(air_c: f64, wet_bulb_c: f64, pressure_pa: f64) -> f64 {
    ratio_of_wet_bulb_and_growth(air_c, wet_bulb_c, pressure_pa).0
}

/// Wet bulb of air by its humidity ratio: [`ratio_of_wet_bulb`] the other way round.
///
/// Newton's method. At 0 °C the two equations do not meet: where both have a wet bulb, that above freezing counts.
///
/// - `air_c`        temperature [°C]
/// - `ratio`        humidity ratio [kg/kg], 0 to that of saturation; above it the air's own temperature is returned
/// - `pressure_pa`  pressure [Pa]
///
/// Returns the wet bulb [°C].
///
/// Source: ASHRAE Handbook Fundamentals 2017, chapter 1, eq. 33 and 35.
pub fn wet_bulb_c(air_c: f64, ratio: f64, pressure_pa: f64) -> f64 {
    wet_bulb_near_c(air_c, ratio, pressure_pa, air_c)
}

/// [`wet_bulb_c`] with a guess to start from: from step to step the last one saves most of the work.
///
/// - `guess_c`  a temperature near the wet bulb [°C]
pub fn wet_bulb_near_c(air_c: f64, ratio: f64, pressure_pa: f64, guess_c: f64) -> f64 {
    let search = |low_c: f64, high_c: f64| {
        let mut wet_c = guess_c.clamp(low_c, high_c);
        for _ in 0..MOST_STEPS {
            let (at_wet, growth) = ratio_of_wet_bulb_and_growth(air_c, wet_c, pressure_pa);
            let next_c = (wet_c + (ratio - at_wet) / growth).clamp(low_c, high_c);
            let moved_k = (next_c - wet_c).abs();
            wet_c = next_c;
            if moved_k < LAST_STEP_K {
                break;
            }
        }
        wet_c
    };
    if air_c > 0.0 {
        let wet_c = search(0.0, air_c);
        // At 0 °C it is either there, or the search would have gone on below.
        if wet_c > 0.0 || ratio_of_wet_bulb(air_c, 0.0, pressure_pa) <= ratio {
            return wet_c;
        }
    }
    search(air_c.min(0.0) - 100.0, air_c.min(-1e-12))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::air::saturation::saturated_ratio;

    #[test]
    fn it_is_that_of_the_tables() {
        // psychrolib 2.5.0 prints these.
        for (air_c, ratio, wet_c) in
            [(25.0, 0.009_881_04, "17.889"), (35.0, 0.017_765_48, "26.141"), (-10.0, 0.001_439_11, "-10.323")]
        {
            assert_eq!(format!("{:.3}", wet_bulb_c(air_c, ratio, 101_325.0)), wet_c);
        }
    }

    #[test]
    fn it_leads_back_to_the_humidity_and_needs_no_good_guess() {
        for (air_c, ratio) in [(45.0, 0.002), (30.0, 0.02), (4.0, 0.001), (-20.0, 0.0004), (1.0, 0.004)] {
            let wet_c = wet_bulb_c(air_c, ratio, 90_000.0);
            assert!((ratio_of_wet_bulb(air_c, wet_c, 90_000.0) - ratio).abs() < 1e-12, "{air_c} {wet_c}");
            for guess_c in [-80.0, 0.0, 12.0, 99.0] {
                assert!((wet_bulb_near_c(air_c, ratio, 90_000.0, guess_c) - wet_c).abs() < 1e-7);
            }
        }
    }

    #[test]
    fn saturated_air_is_as_warm_as_its_wet_bulb() {
        for air_c in [-15.0, 10.0, 35.0] {
            let ratio = saturated_ratio(air_c, 101_325.0);
            assert!((wet_bulb_c(air_c, ratio, 101_325.0) - air_c).abs() < 1e-3, "{air_c}");
            assert!((wet_bulb_c(air_c, 2.0 * ratio, 101_325.0) - air_c).abs() < 1e-9);
        }
    }
}
