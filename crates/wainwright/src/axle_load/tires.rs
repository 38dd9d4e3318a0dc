//! Tires: load a tire carries at a pressure, and what the tires of an axle may carry.
//!
//! The load and pressure moulded on the fitted tire count; a pressure above them adds no load.

use crate::build::TireType;

/// Exponent of load against pressure where no table is at hand: light-truck radial, the more cautious choice for
/// trailer tires (Tire and Rim Association practice, `from memory`).
pub const DEFAULT_LOAD_EXPONENT: f64 = 0.7;

/// What a passenger-car tire's rating is divided by on a trailer, truck or multipurpose vehicle.
///
/// Source: 49 CFR 571.120 S5.1.2, as quoted in NHTSA's interpretation letter of 1976-11-17; 571.110 S4.2.2.2 has the
/// same for vehicles of 10,000 lb or less (`from memory`).
pub const PASSENGER_TIRE_DIVISOR: f64 = 1.10;

/// A row of a tire's load table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TireRating {
    /// Cold inflation pressure, gauge [Pa], > 0.
    pub pressure_pa: f64,
    /// Load the tire carries at it [kg], > 0.
    pub load_kg: f64,
}

/// Load a tire carries at less than its rated pressure.
///
/// `L = L₀ (P/P₀)ⁿ`
///
/// - `rated`        the marked load L₀ and its pressure P₀
/// - `pressure_pa`  cold pressure P [Pa], 0 or more
/// - `exponent`     n, 0.5 to 1; a larger one is more cautious. [`DEFAULT_LOAD_EXPONENT`] where nothing is known
///
/// Returns the load [kg]; above the rated pressure it stays at the rated load.
///
/// Source: form of the Tire and Rim Association's and ETRTO's load formulas, `from memory`.
pub fn load_at_pressure_kg(rated: TireRating, pressure_pa: f64, exponent: f64) -> f64 {
    rated.load_kg * (pressure_pa / rated.pressure_pa).min(1.0).powf(exponent)
}

/// Pressure a tire needs for a load.
///
/// `P = P₀ (L/L₀)^(1/n)`
///
/// - `rated`     the marked load L₀ and its pressure P₀
/// - `load_kg`   load on the tire L [kg], 0 or more
/// - `exponent`  n, as in [`load_at_pressure_kg`]
///
/// Returns the pressure [Pa], or none for a load above the rated one: no pressure carries it.
///
/// Source: inverse of [`load_at_pressure_kg`].
pub fn pressure_for_load_pa(rated: TireRating, load_kg: f64, exponent: f64) -> Option<f64> {
    (load_kg <= rated.load_kg).then(|| rated.pressure_pa * (load_kg / rated.load_kg).powf(1.0 / exponent))
}

/// Load a tire carries at a pressure, between the rows of its table.
///
/// - `table`        rows with rising pressure, at least one
/// - `pressure_pa`  cold pressure [Pa]
///
/// Returns the load [kg]: linear between rows, the last row's above it, none below the first.
///
/// Source: linear interpolation, `common practice`.
pub fn load_from_table_kg(table: &[TireRating], pressure_pa: f64) -> Option<f64> {
    let above = table.partition_point(|row| row.pressure_pa <= pressure_pa);
    let low = table.get(above.checked_sub(1)?)?;
    let Some(high) = table.get(above) else {
        return Some(low.load_kg);
    };
    let part = (pressure_pa - low.pressure_pa) / (high.pressure_pa - low.pressure_pa);
    Some(low.load_kg + part * (high.load_kg - low.load_kg))
}

/// Load a tire may be counted for on a trailer.
///
/// - `max_load_kg`  load marked on the tire, single fitment [kg]
/// - `tire_type`    a passenger tire counts for 1/1.10 of it
///
/// Returns the load [kg].
///
/// Source: see [`PASSENGER_TIRE_DIVISOR`].
pub fn load_on_trailer_kg(max_load_kg: f64, tire_type: TireType) -> f64 {
    match tire_type {
        TireType::Trailer | TireType::LightTruck => max_load_kg,
        TireType::Passenger => max_load_kg / PASSENGER_TIRE_DIVISOR,
    }
}

/// What an axle's tires carry together: to be no less than the axle's GAWR and its load.
///
/// - `tire_count`  tires on the axle, both sides
/// - `tire_kg`     load each is counted for [kg], see [`load_on_trailer_kg`]
///
/// Returns the load [kg].
///
/// Source: 49 CFR 571.120 S5.1.2, as stated in NHTSA's interpretation letters of 1976-12-01 and 1977-07-15; 571.110
/// S4.2.2.1 has the same for vehicles of 10,000 lb or less (`from memory`).
pub fn axle_capacity_kg(tire_count: u32, tire_kg: f64) -> f64 {
    f64::from(tire_count) * tire_kg
}

#[cfg(test)]
mod tests {
    use super::super::fixture::assert_printed;
    use super::*;
    use crate::units::{PA_PER_PSI, kg, lb};

    fn rating(psi: f64, load_lb: f64) -> TireRating {
        TireRating { pressure_pa: psi * PA_PER_PSI, load_kg: kg(load_lb) }
    }

    #[test]
    fn load_at_part_pressure_falls_with_the_exponent() {
        for (exponent, printed) in
            [(0.5, "1628"), (0.585, "1597"), (0.65, "1574"), (0.7, "1557"), (0.8, "1522"), (1.0, "1456")]
        {
            let load = load_at_pressure_kg(rating(50.0, 1820.0), 40.0 * PA_PER_PSI, exponent);
            assert_printed(lb(load), printed);
        }
    }

    #[test]
    fn pressure_for_a_part_load_rises_with_the_exponent() {
        for (exponent, printed) in [(0.585, "35.93"), (0.7, "37.93"), (1.0, "41.21")] {
            let pressure = pressure_for_load_pa(rating(50.0, 1820.0), kg(1500.0), exponent);
            assert_printed(pressure.unwrap() / PA_PER_PSI, printed);
        }
    }

    #[test]
    fn no_pressure_carries_more_than_the_rated_load() {
        let rated = rating(50.0, 1820.0);
        assert_eq!(load_at_pressure_kg(rated, 60.0 * PA_PER_PSI, 0.7), rated.load_kg);
        assert_eq!(pressure_for_load_pa(rated, kg(1821.0), 0.7), None);
        assert_eq!(pressure_for_load_pa(rated, rated.load_kg, 0.7), Some(rated.pressure_pa));
    }

    #[test]
    fn table_is_read_between_its_rows_and_never_beyond() {
        let table = [rating(35.0, 1450.0), rating(45.0, 1690.0), rating(50.0, 1820.0)];
        let load_lb = |psi: f64| load_from_table_kg(&table, psi * PA_PER_PSI).map(lb);
        assert_printed(load_lb(40.0).unwrap(), "1570.000");
        assert_printed(load_lb(45.0).unwrap(), "1690.000");
        assert_printed(load_lb(50.0).unwrap(), "1820.000");
        assert_printed(load_lb(65.0).unwrap(), "1820.000");
        assert_eq!(load_lb(34.9), None);
        assert_eq!(load_from_table_kg(&[], 1.0), None);
    }

    #[test]
    fn passenger_tires_may_not_carry_the_axle_their_marking_would() {
        let axle = |tire_type| lb(axle_capacity_kg(2, load_on_trailer_kg(kg(1819.0), tire_type)));
        assert_printed(axle(TireType::Passenger), "3307");
        assert!(axle(TireType::Passenger) < 3500.0);
        assert!(axle(TireType::Trailer) > 3500.0);
    }
}
