//! The temperature of a wetted thermometer in moving air.

use super::saturation::{LEAST_C, saturated_ratio_and_growth};

/// Steps after which the search ends, enough to halve its way; three to five are usual.
const MOST_STEPS: usize = 40;
/// A step so small ends the search [K]: each has twice the digits of the one before.
const LAST_STEP_K: f64 = 1e-5;
/// A wick found above this holds water for sure [°C].
const SURELY_WATER_C: f64 = 0.01;
/// The last temperature at which the wick holds ice [°C].
const BELOW_FREEZING_C: f64 = -1e-12;

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
/// Newton's method, held to an interval that halves where a step would leave it.
///
/// At 0 °C the two equations do not meet: some air of 0 to 18 °C has two wet bulbs, up to 1 K apart, one with water on the
/// wick and one with ice. The one with water counts: water that need not freeze stays water. So the wet bulb never falls
/// as air gets damper or warmer; where water first has one it leaps to 0 °C. Bisection over both equations at once, as in
/// psychrolib, ends at the one or the other as its halves happen to fall; everywhere else it ends where this does.
///
/// - `air_c`        temperature [°C], −100 to 200
/// - `ratio`        humidity ratio [kg/kg], 0 to that of saturation; above it the air's own temperature is returned
/// - `pressure_pa`  pressure [Pa], > 0
///
/// Returns the wet bulb [°C], −100 to the air's temperature.
///
/// Source: ASHRAE Handbook Fundamentals 2017, chapter 1, eq. 33 and 35. The choice between them is made here.
pub fn wet_bulb_c(air_c: f64, ratio: f64, pressure_pa: f64) -> f64 {
    wet_bulb_near_c(air_c, ratio, pressure_pa, air_c)
}

/// [`wet_bulb_c`] with a guess to start from: from step to step the last one saves most of the work.
///
/// - `guess_c`  a temperature near the wet bulb [°C]
pub fn wet_bulb_near_c(air_c: f64, ratio: f64, pressure_pa: f64, guess_c: f64) -> f64 {
    let search = |mut low_c: f64, mut high_c: f64| {
        let mut wet_c = guess_c.clamp(low_c, high_c);
        for _ in 0..MOST_STEPS {
            let (at_wet, growth) = ratio_of_wet_bulb_and_growth(air_c, wet_c, pressure_pa);
            // Infinite where water boils.
            if at_wet < ratio {
                low_c = wet_c;
            } else {
                high_c = wet_c;
            }
            let newton_c = wet_c + (ratio - at_wet) / growth;
            let next_c =
                if (low_c..=high_c).contains(&newton_c) { newton_c } else { f64::midpoint(low_c, high_c) };
            let moved_k = (next_c - wet_c).abs();
            wet_c = next_c;
            if moved_k < LAST_STEP_K {
                break;
            }
        }
        wet_c
    };
    // What is no number goes the same way as frost, and harms nothing.
    let is_above_freezing = air_c > 0.0;
    if !is_above_freezing {
        return search(air_c.min(LEAST_C), air_c.min(0.0));
    }
    let holds_water = || ratio_of_wet_bulb(air_c, 0.0, pressure_pa) <= ratio;
    // Of a wick that is found well above freezing nothing has to be looked up at it.
    let wet_c = search(0.0, air_c);
    if wet_c > SURELY_WATER_C || holds_water() { wet_c } else { search(air_c.min(LEAST_C), BELOW_FREEZING_C) }
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
    fn of_two_wet_bulbs_the_one_of_water_counts() {
        let (air_c, pressure_pa) = (5.0, 101_325.0);
        let water = ratio_of_wet_bulb(air_c, 0.0, pressure_pa);
        let ice = ratio_of_wet_bulb(air_c, BELOW_FREEZING_C, pressure_pa);
        assert!(water < ice);
        let below_c = wet_bulb_c(air_c, water - 1e-9, pressure_pa);
        assert!((-0.4..-0.3).contains(&below_c), "{below_c}");
        for ratio in [water, f64::midpoint(water, ice), ice] {
            let wet_c = wet_bulb_c(air_c, ratio, pressure_pa);
            assert!((0.0..0.4).contains(&wet_c), "{wet_c}");
        }
    }

    #[test]
    fn air_hotter_than_boiling_water_has_one_too() {
        for (air_c, ratio, pressure_pa) in
            [(150.0, 0.0, 101_325.0), (200.0, 5.0, 101_325.0), (200.0, 5.0, 10_000.0), (60.0, 0.02, 10_000.0)]
        {
            let wet_c = wet_bulb_c(air_c, ratio, pressure_pa);
            assert!((ratio_of_wet_bulb(air_c, wet_c, pressure_pa) - ratio).abs() < 1e-7, "{air_c} {wet_c}");
        }
    }

    #[test]
    fn beyond_all_bounds_it_stays_a_number() {
        for air_c in [-1e9, -150.0, 1e9] {
            for ratio in [0.0, f64::INFINITY] {
                assert!(!wet_bulb_c(air_c, ratio, 101_325.0).is_nan(), "{air_c}");
            }
        }
        assert!(wet_bulb_c(f64::NAN, 0.01, 101_325.0).is_nan());
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
