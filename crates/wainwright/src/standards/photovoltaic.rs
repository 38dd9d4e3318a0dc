//! Voltage of silicon solar modules in the cold.

use std::sync::LazyLock;

use super::table::rows;

/// Lower end of each band [°C], falling, and its factor.
static FACTORS: LazyLock<Vec<(f64, f64)>> = LazyLock::new(|| {
    rows(include_str!("../../data/cold_voltage_690_7.csv"))
        .filter_map(|row| row.number("t_low_c").zip(row.number("factor")))
        .collect()
});

/// Factor on open-circuit voltage for cold, where the module's own coefficient is not known.
///
/// - `lowest_c`  lowest expected ambient temperature [°C]; between two printed bands it belongs to the colder one
///
/// Returns the factor, that of 20 to 24 °C in warmer places too, or none below −40 °C.
///
/// Source: NEC Table 690.7(A), crystalline and multicrystalline silicon, `from memory`, found again in two retellings.
pub fn cold_voltage_factor(lowest_c: f64) -> Option<f64> {
    FACTORS.iter().find(|(low_c, _)| *low_c <= lowest_c).map(|(_, factor)| *factor)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn colder_places_have_greater_factors() {
        assert_eq!(FACTORS.len(), 13);
        assert!(FACTORS.is_sorted_by(|warm, cold| warm.0 > cold.0 && warm.1 < cold.1));
        assert_eq!(cold_voltage_factor(-7.0), Some(1.14));
    }

    #[test]
    fn a_temperature_between_bands_belongs_to_the_colder_one() {
        let factors = [30.0, 0.0, -0.5, -5.0, -5.5, -40.0, -40.1].map(cold_voltage_factor);
        assert_eq!(factors, [Some(1.02), Some(1.10), Some(1.12), Some(1.12), Some(1.14), Some(1.25), None]);
    }
}
