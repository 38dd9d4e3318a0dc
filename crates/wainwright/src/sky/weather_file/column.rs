//! The six columns of figures that are read, and what each may hold.

use std::fmt::{self, Display, Formatter};

/// A column of figures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Column {
    /// Air temperature [°C].
    Air,
    /// Dew point [°C].
    DewPoint,
    /// Global irradiance on a horizontal plane [W/m²].
    Ghi,
    /// Beam irradiance on a plane that faces the sun [W/m²].
    Dni,
    /// Diffuse irradiance on a horizontal plane [W/m²].
    Dhi,
    /// Wind [m/s].
    Wind,
}

impl Column {
    /// All of them, in their order.
    pub const ALL: [Self; 6] = [Self::Air, Self::DewPoint, Self::Ghi, Self::Dni, Self::Dhi, Self::Wind];

    /// Is it one of the three irradiances?
    pub fn is_irradiance(self) -> bool {
        matches!(self, Self::Ghi | Self::Dni | Self::Dhi)
    }

    /// Least and greatest value, in the unit of the column.
    ///
    /// Temperatures and wind reach a little beyond the extremes on record. Irradiances end where the limits of
    /// physically possible measurement do, 1.5 and 0.95 times what comes from outside the atmosphere and a little
    /// more, and the beam beyond what comes from there. A pyranometer that radiates to the sky at night reads a
    /// little below 0.
    ///
    /// Source: Long and Dutton 2002, quality control tests of the Baseline Surface Radiation Network, rounded
    /// up (`from memory`); temperatures, wind and 10 W/m² below 0 `common practice`.
    pub(super) fn limits(self) -> (f64, f64) {
        match self {
            Self::Air => (-90.0, 60.0),
            Self::DewPoint => (-110.0, 40.0),
            Self::Ghi => (-10.0, 2200.0),
            Self::Dni => (-10.0, 1500.0),
            Self::Dhi => (-10.0, 1400.0),
            Self::Wind => (0.0, 75.0),
        }
    }
}

impl Display for Column {
    fn fmt(&self, f: &mut Formatter) -> fmt::Result {
        f.write_str(match self {
            Self::Air => "air temperature",
            Self::DewPoint => "dew point",
            Self::Ghi => "global irradiance",
            Self::Dni => "direct normal irradiance",
            Self::Dhi => "diffuse irradiance",
            Self::Wind => "wind",
        })
    }
}

/// How a column of figures is written in a file.
#[derive(Debug, Clone, Copy)]
pub(super) struct Written {
    /// Which it is.
    pub(super) column: Column,
    /// Its unit in the file.
    pub(super) unit: &'static str,
    /// The mark of a missing figure, in the unit of the file.
    pub(super) missing: f64,
    /// What a figure of the file is multiplied by.
    pub(super) scale: f64,
}

/// What a field holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Figure {
    /// A figure, in the unit of the column.
    Known(f64),
    /// An irradiance a little below 0.
    BelowZero,
    /// The mark of a missing figure, or nothing.
    Missing,
}

impl Written {
    /// Reads a field. None where it holds something else.
    pub(super) fn read(&self, field: &str) -> Option<Figure> {
        if field.is_empty() {
            return Some(Figure::Missing);
        }
        let figure: f64 = field.parse().ok()?;
        if figure == self.missing {
            return Some(Figure::Missing);
        }
        let value = figure * self.scale;
        let (least, most) = self.column.limits();
        match value {
            _ if !(least..=most).contains(&value) => None,
            _ if value < 0.0 && self.column.is_irradiance() => Some(Figure::BelowZero),
            // The sum turns -0 into 0.
            _ => Some(Figure::Known(value + 0.0)),
        }
    }

    /// What a field may hold.
    pub(super) fn allowed(&self) -> String {
        let (least, most) = self.column.limits();
        let (least, most) = (least / self.scale, most / self.scale);
        let Self { unit, missing, .. } = self;
        format!("must be a number, {least} to {most} {unit}, or {missing} where it is missing")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const GHI: Written = Written { column: Column::Ghi, unit: "Wh/m²", missing: 9999.0, scale: 2.0 };
    const AIR: Written = Written { column: Column::Air, unit: "°C", missing: 99.9, scale: 1.0 };

    #[test]
    fn a_field_is_a_figure_or_a_mark() {
        assert_eq!(AIR.read("-12.5"), Some(Figure::Known(-12.5)));
        assert_eq!(AIR.read("99.90"), Some(Figure::Missing));
        assert_eq!(AIR.read(""), Some(Figure::Missing));
        for wrong in ["200", "x", "nan", "inf", "-inf", "1,5", "1 2", "99.8", "--", "1e400"] {
            assert_eq!(AIR.read(wrong), None, "{wrong}");
        }
    }

    #[test]
    fn energy_of_a_shorter_record_is_irradiance_times_its_length() {
        assert_eq!(GHI.read("400"), Some(Figure::Known(800.0)));
        assert_eq!(GHI.read("1101"), None);
        assert_eq!(GHI.read("-5"), Some(Figure::BelowZero));
        assert_eq!(GHI.read("-5.1"), None);
        assert!(matches!(GHI.read("-0.0"), Some(Figure::Known(zero)) if zero.is_sign_positive()));
        assert_eq!(GHI.allowed(), "must be a number, -5 to 1100 Wh/m², or 9999 where it is missing");
    }
}
