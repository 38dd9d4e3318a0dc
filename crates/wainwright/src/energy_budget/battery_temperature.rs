//! What temperature does to a battery: capacity, charge, frost; and how a battery follows the air around it.

/// Temperatures [°F] and size multipliers of a lead-acid battery, coldest first.
const LEAD_ACID_MULTIPLIERS: [(f64, f64); 7] =
    [(20.0, 1.59), (30.0, 1.40), (40.0, 1.30), (50.0, 1.19), (60.0, 1.11), (70.0, 1.04), (80.0, 1.00)];

/// Temperatures [°C] and capacities of lithium iron phosphate as shares of that at 25 °C, coldest first: middles of the
/// usual 0.6 to 0.7, 0.75 to 0.8 and 0.85 to 0.9.
const LITHIUM_IRON_PHOSPHATE_CAPACITIES: [(f64, f64); 4] =
    [(-20.0, 0.65), (-10.0, 0.775), (0.0, 0.875), (25.0, 1.0)];

/// States of charge and freezing points of lead-acid [°C], empty first.
const FREEZING_POINTS: [(f64, f64); 5] =
    [(0.0, -10.0), (0.25, -16.0), (0.5, -24.0), (0.75, -37.0), (1.0, -57.0)];

/// Linear between the points of a table; outside it, the nearest end.
fn between(points: &[(f64, f64)], at: f64) -> f64 {
    let (mut low_at, mut low) = (f64::NEG_INFINITY, f64::NAN);
    for &(high_at, high) in points {
        if at <= high_at {
            return if low_at.is_finite() {
                low + (at - low_at) / (high_at - low_at) * (high - low)
            } else {
                high
            };
        }
        (low_at, low) = (high_at, high);
    }
    low
}

/// How much larger a lead-acid battery must be for a temperature.
///
/// - `battery_c`  coldest temperature of the battery [°C]
///
/// Returns the multiplier of its capacity: 1.00 at 80 °F, 1.04 at 70, 1.11 at 60, 1.19 at 50, 1.30 at 40, 1.40 at 30
/// and 1.59 at 20; linear between, the ends held. What the battery has left is 1 over it.
///
/// Source: table of public battery sizing worksheets, there called the simplified IEEE method; it agrees with IEEE 485,
/// table 1, `from memory`, but at 30 °F, where that has 1.43.
pub fn lead_acid_multiplier(battery_c: f64) -> f64 {
    between(&LEAD_ACID_MULTIPLIERS, 32.0 + 1.8 * battery_c)
}

/// What lithium iron phosphate holds at a temperature.
///
/// - `battery_c`  temperature of the battery [°C]
///
/// Returns the share of its capacity at 25 °C: 0.65 at −20 °C, 0.775 at −10, 0.875 at 0, 1 at 25; linear between, the
/// ends held.
///
/// Source: `common practice`.
pub fn lithium_iron_phosphate_capacity(battery_c: f64) -> f64 {
    between(&LITHIUM_IRON_PHOSPHATE_CAPACITIES, battery_c)
}

/// What charging current lithium iron phosphate may take at a temperature.
///
/// `T/10`, 0 to 1
///
/// - `battery_c`  temperature of the battery T [°C]
///
/// Returns the share of its greatest charging current: 0 at 0 °C and below, whole at 10 °C and above.
///
/// Source: `common practice`.
pub fn lithium_iron_phosphate_acceptance(battery_c: f64) -> f64 {
    (battery_c / 10.0).clamp(0.0, 1.0)
}

/// Temperature at which a lead-acid battery freezes.
///
/// - `state_of_charge`  0 to 1
///
/// Returns the freezing point [°C]: −57 when full, −37 at 0.75, −24 at 0.5, −16 at 0.25 and −10 when empty; linear
/// between.
///
/// Source: handbooks of lead-acid batteries, `from memory`.
pub fn lead_acid_freezing_c(state_of_charge: f64) -> f64 {
    between(&FREEZING_POINTS, state_of_charge)
}

/// Temperature of a battery after a time in air of a constant temperature: exact, however long the time.
///
/// `T' = T_a + (T − T_a) e^(−Δ/τ)`
///
/// - `battery_c`  temperature at the start T [°C]
/// - `air_c`      temperature of the air around it, inside T_a [°C]
/// - `lag_h`      time constant τ [h], above 0: 4 to 10 (`common practice`)
/// - `step_h`     time Δ [h], 0 or more
///
/// Returns T' [°C], between T and T_a.
///
/// Source: Newton's law of cooling.
pub fn following_c(battery_c: f64, air_c: f64, lag_h: f64, step_h: f64) -> f64 {
    air_c + (battery_c - air_c) * (-step_h / lag_h).exp()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn multipliers_follow_their_table_and_hold_its_ends() {
        for (fahrenheit, multiplier) in LEAD_ACID_MULTIPLIERS {
            assert!((lead_acid_multiplier((fahrenheit - 32.0) / 1.8) - multiplier).abs() < 1e-12);
        }
        assert!((lead_acid_multiplier((45.0 - 32.0) / 1.8) - 1.245).abs() < 1e-12);
        assert_eq!([-40.0, 50.0].map(lead_acid_multiplier), [1.59, 1.0]);
    }

    #[test]
    fn lithium_in_the_cold_holds_less_and_takes_no_charge() {
        let held = [-40.0, -20.0, -15.0, -10.0, 0.0, 10.0, 25.0, 40.0].map(lithium_iron_phosphate_capacity);
        for (held, expected) in held.into_iter().zip([0.65, 0.65, 0.7125, 0.775, 0.875, 0.925, 1.0, 1.0]) {
            assert!((held - expected).abs() < 1e-12, "{held} instead of {expected}");
        }
        let taken = [-20.0, 0.0, 2.5, 10.0, 40.0].map(lithium_iron_phosphate_acceptance);
        assert_eq!(taken, [0.0, 0.0, 0.25, 1.0, 1.0]);
    }

    #[test]
    fn an_empty_lead_acid_battery_freezes_first() {
        let points = [-0.1, 0.0, 0.25, 0.5, 0.625, 0.75, 1.0, 1.1].map(lead_acid_freezing_c);
        assert_eq!(points, [-10.0, -10.0, -16.0, -24.0, -30.5, -37.0, -57.0, -57.0]);
    }

    #[test]
    fn after_one_time_constant_63_percent_of_the_way_is_done() {
        assert_eq!(format!("{:.3}", following_c(0.0, 10.0, 6.0, 6.0)), "6.321");
        assert_eq!(following_c(5.0, 10.0, 6.0, 0.0), 5.0);
        assert_eq!(following_c(5.0, 10.0, 6.0, f64::INFINITY), 10.0);
    }

    proptest! {
        #[test]
        fn a_battery_never_overshoots_the_air(
            battery_c in -40.0..60.0f64, air_c in -40.0..60.0f64, lag_h in 0.1..20.0f64, step_h in 0.0..100.0f64,
        ) {
            let after_c = following_c(battery_c, air_c, lag_h, step_h);
            let (low_c, high_c) = (battery_c.min(air_c), battery_c.max(air_c));
            prop_assert!(after_c >= low_c - 1e-12 && after_c <= high_c + 1e-12);
            prop_assert!((after_c - air_c) * (battery_c - air_c) >= 0.0);
        }

        #[test]
        fn two_half_steps_equal_one_whole(
            battery_c in -40.0..60.0f64, air_c in -40.0..60.0f64, lag_h in 0.1..20.0f64, step_h in 0.0..100.0f64,
        ) {
            let half_c = following_c(battery_c, air_c, lag_h, step_h / 2.0);
            let halves_c = following_c(half_c, air_c, lag_h, step_h / 2.0);
            prop_assert!((halves_c - following_c(battery_c, air_c, lag_h, step_h)).abs() < 1e-12);
        }

        #[test]
        fn colder_is_never_better(battery_c in -60.0..60.0f64, colder_k in 0.0..40.0f64) {
            let colder_c = battery_c - colder_k;
            prop_assert!(lead_acid_multiplier(colder_c) >= lead_acid_multiplier(battery_c));
            prop_assert!(lithium_iron_phosphate_capacity(colder_c) <= lithium_iron_phosphate_capacity(battery_c));
            prop_assert!(
                lithium_iron_phosphate_acceptance(colder_c) <= lithium_iron_phosphate_acceptance(battery_c)
            );
        }
    }
}
