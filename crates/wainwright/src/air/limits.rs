//! What moist air can be, and how it is told that it cannot.

use std::fmt::{self, Display, Formatter};

use super::dew_point::dew_point_c;
use super::humidity;
use super::moist_air::Humidity;
use super::saturation::{LEAST_C, saturation_pa};
use super::wet_bulb::{ratio_of_wet_bulb, wet_bulb_c};
use crate::report::figure;

/// Least and greatest pressure of the air [Pa]: wider than the heights below give, narrow enough that no other unit of
/// pressure slips in. Chosen here.
pub const PRESSURE_PA: (f64, f64) = (10_000.0, 200_000.0);
/// Heights for which the standard pressure holds [m]. Source: ASHRAE Handbook Fundamentals 2017, chapter 1, eq. 3.
pub const ALTITUDE_M: (f64, f64) = (-5_000.0, 11_000.0);
/// The greatest share of vapor in the pressure. Beyond it stands steam with a little air in it. Chosen here.
pub const MOST_VAPOR_SHARE: f64 = 0.9;
/// How far a value may be past a bound by rounding, by the size of the bound.
const ROUNDING: f64 = 1e-9;

/// Air with all the water it can hold at a temperature and a pressure.
pub(super) struct Wettest {
    air_c: f64,
    pressure_pa: f64,
    vapor_pa: f64,
    /// Is it saturated? Else there would be next to no air in it.
    saturated: bool,
}

impl Wettest {
    pub fn of(air_c: f64, pressure_pa: f64) -> Self {
        let (saturated_pa, most_pa) = (saturation_pa(air_c), MOST_VAPOR_SHARE * pressure_pa);
        Self { air_c, pressure_pa, vapor_pa: saturated_pa.min(most_pa), saturated: saturated_pa <= most_pa }
    }

    /// Humidity ratio of air as damp as this, if it can be.
    pub fn ratio(&self, humidity: Humidity) -> Result<f64, OutOfRange> {
        let Self { air_c, pressure_pa, .. } = *self;
        let bound =
            if self.saturated { ", where this air is saturated" } else { ", where it is nine tenths steam" };
        let most = humidity::of_vapor(self.vapor_pa, pressure_pa);
        match humidity {
            Humidity::Relative(relative) => {
                let saturated_pa = saturation_pa(air_c);
                let most = self.vapor_pa / saturated_pa;
                let relative = within("relative_humidity", relative, (0.0, most), bound)?;
                Ok(humidity::of_vapor(relative * saturated_pa, pressure_pa))
            }
            Humidity::Ratio(ratio) => within("humidity_ratio", ratio, (0.0, most), bound),
            Humidity::DewPoint(dew_c) => {
                let most_c = if self.saturated { air_c } else { dew_point_c(self.vapor_pa) };
                let dew_c = within("dew_point_c", dew_c, (LEAST_C, most_c), bound)?;
                Ok(humidity::of_vapor(saturation_pa(dew_c), pressure_pa))
            }
            Humidity::WetBulb(wet_c) => {
                let most_c = if self.saturated { air_c } else { wet_bulb_c(air_c, most, pressure_pa) };
                let ratio = ratio_of_wet_bulb(air_c, wet_c.min(most_c), pressure_pa);
                let dry_c = wet_bulb_c(air_c, 0.0, pressure_pa);
                // Ice on the wick may be colder than water on it is in dry air.
                let least_c = if ratio >= 0.0 { dry_c.min(wet_c) } else { dry_c };
                within("wet_bulb_c", wet_c, (least_c, most_c), bound)?;
                Ok(ratio.clamp(0.0, most))
            }
        }
    }
}

/// The value, if it is within its range; what is past it by rounding is put at its end.
pub(super) fn within(
    name: &'static str,
    value: f64,
    range: (f64, f64),
    bound: &'static str,
) -> Result<f64, OutOfRange> {
    let (least, most) = range;
    let slack = ROUNDING * least.abs().max(most.abs());
    if value >= least - slack && value <= most + slack {
        return Ok(value.max(least).min(most));
    }
    Err(OutOfRange { name, value, range, bound })
}

/// Why there is no such air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OutOfRange {
    /// What is wrong.
    pub name: &'static str,
    /// What it was.
    pub value: f64,
    /// The least and the greatest that it may be.
    pub range: (f64, f64),
    /// What the greatest means.
    bound: &'static str,
}

impl Display for OutOfRange {
    fn fmt(&self, f: &mut Formatter) -> fmt::Result {
        // Rounded inward: who takes one of these figures is not refused again.
        let (least, most) = ((self.range.0 * 1e5).ceil() / 1e5, (self.range.1 * 1e5).floor() / 1e5);
        let (name, value, bound) = (self.name, self.value, self.bound);
        write!(f, "{name} must be from {} to {}{bound}; got {value}", figure(least, 5), figure(most, 5))
    }
}

impl std::error::Error for OutOfRange {}

#[cfg(test)]
mod tests {
    use super::super::moist_air::{MoistAir, pressure_at};
    use super::Humidity::{DewPoint, Ratio, Relative, WetBulb};
    use super::*;

    fn refused(dry_bulb_c: f64, pressure_pa: f64, humidity: Humidity) -> String {
        MoistAir::new(dry_bulb_c, pressure_pa, humidity).unwrap_err().to_string()
    }

    #[test]
    fn what_cannot_be_is_told_with_what_could() {
        for (message, dry_bulb_c, pressure_pa, humidity) in [
            ("dry_bulb_c must be from -100 to 200; got 300", 300.0, 1e5, Relative(0.5)),
            ("dry_bulb_c must be from -100 to 200; got NaN", f64::NAN, 1e5, Relative(0.5)),
            (
                "pressure_pa must be from 10,000 to 200,000, 101,325 at sea level; got 1013.25",
                25.0,
                1013.25,
                Relative(0.5),
            ),
            (
                "pressure_pa must be from 10,000 to 200,000, 101,325 at sea level; got 0",
                25.0,
                0.0,
                Relative(0.5),
            ),
            (
                "relative_humidity must be from 0 to 1, where this air is saturated; got 55",
                25.0,
                1e5,
                Relative(55.0),
            ),
            (
                "relative_humidity must be from 0 to 0.1915, where it is nine tenths steam; got 0.5",
                150.0,
                101_325.0,
                Relative(0.5),
            ),
            (
                "dew_point_c must be from -100 to 25, where this air is saturated; got 26",
                25.0,
                1e5,
                DewPoint(26.0),
            ),
            (
                "wet_bulb_c must be from 8.27144 to 25, where this air is saturated; got 3",
                25.0,
                101_325.0,
                WetBulb(3.0),
            ),
            (
                "wet_bulb_c must be from 8.27144 to 25, where this air is saturated; got 26",
                25.0,
                101_325.0,
                WetBulb(26.0),
            ),
            (
                "humidity_ratio must be from 0 to 0.02008, where this air is saturated; got 9.9",
                25.0,
                101_325.0,
                Ratio(9.9),
            ),
        ] {
            assert_eq!(refused(dry_bulb_c, pressure_pa, humidity), message);
        }
        assert_eq!(
            pressure_at(11_001.0).unwrap_err().to_string(),
            "altitude_m must be from -5,000 to 11,000 above sea level; got 11001"
        );
    }
}
