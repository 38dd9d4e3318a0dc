//! A state of moist air with all its properties, from any measure of its humidity.

use serde::Serialize;

use super::dew_point::dew_point_c;
use super::humidity;
use super::limits::{ALTITUDE_M, OutOfRange, PRESSURE_PA, Wettest, within};
use super::pressure::standard_pa;
use super::properties::{density_kg_m3, enthalpy_j_kg, volume_m3_kg};
use super::saturation::{LEAST_C, MOST_C, saturation_pa};
use super::wet_bulb::wet_bulb_c;

/// How damp air is, in one of the ways in which it is measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Humidity {
    /// Relative humidity, 0 to 1.
    Relative(f64),
    /// Dew point [°C], frost point below freezing.
    DewPoint(f64),
    /// Wet bulb [°C].
    WetBulb(f64),
    /// Humidity ratio [kg/kg].
    Ratio(f64),
}

/// Moist air and its properties.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct MoistAir {
    /// Temperature [°C].
    pub dry_bulb_c: f64,
    /// Pressure [Pa].
    pub pressure_pa: f64,
    /// Relative humidity, 0 to 1.
    pub relative_humidity: f64,
    /// Water for each kilogram of dry air [kg/kg].
    pub humidity_ratio: f64,
    /// Dew point [°C], frost point below freezing; −100 or more.
    pub dew_point_c: f64,
    /// Wet bulb [°C].
    pub wet_bulb_c: f64,
    /// Enthalpy for each kilogram of dry air [J/kg], from dry air and water at 0 °C.
    pub enthalpy_j_kg: f64,
    /// Volume for each kilogram of dry air [m³/kg].
    pub volume_m3_kg: f64,
    /// Density, its water counted [kg/m³].
    pub density_kg_m3: f64,
}

impl MoistAir {
    /// Air of a temperature, a pressure and a humidity. The measure that is given comes back as it is.
    ///
    /// - `dry_bulb_c`   temperature [°C], −100 to 200
    /// - `pressure_pa`  pressure [Pa], 10 000 to 200 000
    /// - `humidity`     how damp it is, from dry to saturated
    ///
    /// Source: ASHRAE Handbook Fundamentals 2017, chapter 1, as the functions of this floor name it.
    pub fn new(dry_bulb_c: f64, pressure_pa: f64, humidity: Humidity) -> Result<Self, OutOfRange> {
        let dry_bulb_c = within("dry_bulb_c", dry_bulb_c, (LEAST_C, MOST_C), "")?;
        let pressure_pa = within("pressure_pa", pressure_pa, PRESSURE_PA, ", 101,325 at sea level")?;
        let wettest = Wettest::of(dry_bulb_c, pressure_pa);
        let ratio = wettest.ratio(humidity)?;
        let vapor_pa = humidity::vapor_pa(ratio, pressure_pa);
        let dew_point_c = match humidity {
            Humidity::DewPoint(given_c) => given_c,
            _ => dew_point_c(vapor_pa).min(dry_bulb_c),
        };
        Ok(Self {
            dry_bulb_c,
            pressure_pa,
            relative_humidity: match humidity {
                Humidity::Relative(given) => given,
                _ => (vapor_pa / saturation_pa(dry_bulb_c)).min(1.0),
            },
            humidity_ratio: ratio,
            dew_point_c,
            wet_bulb_c: match humidity {
                // Ice on the wick, where water could be too, stays ice.
                Humidity::WetBulb(given_c) => given_c,
                _ => wet_bulb_c(dry_bulb_c, ratio, pressure_pa).max(dew_point_c),
            },
            enthalpy_j_kg: enthalpy_j_kg(dry_bulb_c, ratio),
            volume_m3_kg: volume_m3_kg(dry_bulb_c, ratio, pressure_pa),
            density_kg_m3: density_kg_m3(dry_bulb_c, ratio, pressure_pa),
        })
    }
}

/// Standard pressure at a height [Pa], as [`standard_pa`].
///
/// - `altitude_m`  height above sea level [m], −5000 to 11 000
pub fn pressure_at(altitude_m: f64) -> Result<f64, OutOfRange> {
    Ok(standard_pa(within("altitude_m", altitude_m, ALTITUDE_M, " above sea level")?))
}

#[cfg(test)]
mod tests {
    use super::Humidity::{DewPoint, Ratio, Relative, WetBulb};
    use super::*;

    #[test]
    fn every_measure_leads_to_the_same_air() {
        for (air_c, pressure_pa, relative) in
            [(35.0, 101_325.0, 0.5), (-12.0, 84_000.0, 0.7), (5.0, 9e4, 0.2), (150.0, 101_325.0, 0.1)]
        {
            let air = MoistAir::new(air_c, pressure_pa, Relative(relative)).unwrap();
            for humidity in [Ratio(air.humidity_ratio), DewPoint(air.dew_point_c), WetBulb(air.wet_bulb_c)] {
                let again = MoistAir::new(air_c, pressure_pa, humidity).unwrap();
                assert!((again.relative_humidity - relative).abs() < 1e-8, "{humidity:?}");
                assert!((again.enthalpy_j_kg - air.enthalpy_j_kg).abs() < 0.01, "{humidity:?}");
                assert!((again.dew_point_c - air.dew_point_c).abs() < 1e-6, "{humidity:?}");
                assert!((again.wet_bulb_c - air.wet_bulb_c).abs() < 1e-6, "{humidity:?}");
            }
        }
    }

    #[test]
    fn saturated_air_is_at_the_end_of_every_measure() {
        for air_c in [-100.0, -30.0, 0.0, 0.01, 22.0, 96.0] {
            for humidity in [Relative(1.0), DewPoint(air_c), WetBulb(air_c)] {
                let air = MoistAir::new(air_c, 101_325.0, humidity).unwrap();
                assert!((air.relative_humidity - 1.0).abs() < 1e-9, "{air_c} {humidity:?}");
                assert!(air.dew_point_c <= air.wet_bulb_c && air.wet_bulb_c <= air_c, "{air_c} {humidity:?}");
                assert!(air_c - air.dew_point_c < 1e-7, "{air_c} {humidity:?}");
            }
        }
    }

    #[test]
    fn dry_air_is_air() {
        let air = MoistAir::new(25.0, 101_325.0, Relative(0.0)).unwrap();
        assert_eq!((air.humidity_ratio, air.dew_point_c), (0.0, LEAST_C));
        assert_eq!(air, MoistAir::new(25.0, 101_325.0, Ratio(0.0)).unwrap());
        let by_wet_bulb = MoistAir::new(25.0, 101_325.0, WetBulb(air.wet_bulb_c)).unwrap();
        assert!(by_wet_bulb.humidity_ratio < 1e-9);
    }

    #[test]
    fn ice_on_the_wick_stays_ice() {
        // Water could be at 0.1 °C in the same air.
        let air = MoistAir::new(5.0, 101_325.0, WetBulb(-0.2)).unwrap();
        assert_eq!(air.wet_bulb_c, -0.2);
        assert!(wet_bulb_c(5.0, air.humidity_ratio, 101_325.0) > 0.1);
    }

    #[test]
    fn no_number_makes_it_fail() {
        let numbers = [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 0.0, -1e300, 1e300, 1e-300, 50.0];
        for dry_bulb_c in numbers.into_iter().chain([-100.0, 0.0, 99.97, 200.0]) {
            for pressure_pa in numbers.into_iter().chain([10_000.0, 200_000.0]) {
                for value in numbers {
                    for humidity in [Relative(value), Ratio(value), DewPoint(value), WetBulb(value)] {
                        if let Ok(air) = MoistAir::new(dry_bulb_c, pressure_pa, humidity) {
                            assert!(air.enthalpy_j_kg.is_finite() && air.wet_bulb_c.is_finite(), "{air:?}");
                        }
                    }
                }
            }
        }
    }
}
