//! Voltage at a battery's terminals under a current.
//!
//! Current is positive in discharge and negative in charge. A load of constant power behind a battery's resistance is
//! [`crate::circuit_load::constant_power::behind`].

/// A point of a battery's voltage at rest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RestPoint {
    /// State of charge, 0 to 1.
    pub state_of_charge: f64,
    /// Voltage at rest and 25 °C [V].
    pub voltage_v: f64,
}

const fn at(state_of_charge: f64, voltage_v: f64) -> RestPoint {
    RestPoint { state_of_charge, voltage_v }
}

/// Lead-acid of 12 V at rest, empty to full. Source: `common practice`.
pub const LEAD_ACID_12_V: [RestPoint; 5] =
    [at(0.0, 11.8), at(0.25, 12.05), at(0.5, 12.25), at(0.75, 12.45), at(1.0, 12.65)];

/// Lithium iron phosphate, four cells in series, at rest, empty to full: too flat to read the state of charge from.
/// Source: `common practice`.
pub const LITHIUM_IRON_PHOSPHATE_12_V: [RestPoint; 8] = [
    at(0.0, 10.0),
    at(0.03, 12.0),
    at(0.1, 12.8),
    at(0.2, 13.0),
    at(0.35, 13.1),
    at(0.6, 13.2),
    at(0.9, 13.3),
    at(1.0, 13.4),
];

/// Voltage at rest, between the points of a table.
///
/// `V = V_1 + (s − s_1)(V_2 − V_1)/(s_2 − s_1)`
///
/// - `state_of_charge`  s, 0 to 1
/// - `points`           in order of rising charge, for instance [`LEAD_ACID_12_V`]
///
/// Returns V [V]; outside the table that of its nearest end, none of an empty table.
///
/// Source: linear interpolation, `common practice`.
pub fn rest_v(state_of_charge: f64, points: &[RestPoint]) -> Option<f64> {
    let above = points.partition_point(|point| point.state_of_charge < state_of_charge);
    let Some(high) = points.get(above) else { return points.last().map(|point| point.voltage_v) };
    let Some(low) = above.checked_sub(1).and_then(|below| points.get(below)) else {
        return Some(high.voltage_v);
    };
    let part = (state_of_charge - low.state_of_charge) / (high.state_of_charge - low.state_of_charge);
    Some(low.voltage_v + part * (high.voltage_v - low.voltage_v))
}

/// Voltage at the terminals, from that at rest.
///
/// `V = V_0 − I R`
///
/// - `rest_v`          voltage at rest V_0 [V], from [`rest_v`]
/// - `current_a`       current I [A]
/// - `resistance_ohm`  R [Ω], 0 or more: of 100 Ah at 12 V 0.005 to 0.010 in lead-acid, 0.005 to 0.015 in lithium iron
///   phosphate with its battery management (`common practice`)
///
/// Returns V [V].
///
/// Source: Ohm's law.
pub fn loaded_v(rest_v: f64, current_a: f64, resistance_ohm: f64) -> f64 {
    rest_v - current_a * resistance_ohm
}

/// Voltage of one lead-acid cell in discharge.
///
/// `V = 2.085 − 0.12 (1 − s) − I/C (4/(1 + I^1.3) + 0.27/s^1.5 + 0.02)(1 − 0.007 ΔT)`
///
/// - `state_of_charge`  s, above 0, to 1
/// - `current_a`        current I [A], 0 or more
/// - `ten_hour_ah`      capacity rated at 10 h C [Ah], above 0
/// - `cell_c`           temperature of the battery, ΔT above 25 °C [°C], −20 to 50
///
/// Returns V [V] of a cell; a 12 V battery has six. Near s = 0 it falls without bound: the battery is empty sooner.
///
/// Source: Copetti, Lorenzo and Chenlo, Progress in Photovoltaics 1, 1993, `from memory`.
pub fn lead_acid_discharge_v(state_of_charge: f64, current_a: f64, ten_hour_ah: f64, cell_c: f64) -> f64 {
    let resistive = 4.0 / (1.0 + current_a.powf(1.3)) + 0.27 / state_of_charge.powf(1.5) + 0.02;
    let warmth = 1.0 - 0.007 * (cell_c - 25.0);
    2.085 - 0.12 * (1.0 - state_of_charge) - current_a / ten_hour_ah * resistive * warmth
}

/// Voltage of one lead-acid cell in charge, held to that at which it gasses.
///
/// `V = 2 + 0.16 s + I/C (6/(1 + I^0.86) + 0.48/(1 − s)^1.2 + 0.036)(1 − 0.025 ΔT)`, at most [`gassing_v`]
///
/// - `charge_a`  charging current I as a positive number [A], 0 or more
/// - `state_of_charge`, `ten_hour_ah`, `cell_c`  as in [`lead_acid_discharge_v`]; s from 0; at 1 the cell is at its
///   gassing voltage whatever the current
///
/// Returns V [V] of a cell.
///
/// Source: as [`lead_acid_discharge_v`].
pub fn lead_acid_charge_v(state_of_charge: f64, charge_a: f64, ten_hour_ah: f64, cell_c: f64) -> f64 {
    let resistive = 6.0 / (1.0 + charge_a.powf(0.86)) + 0.48 / (1.0 - state_of_charge).powf(1.2) + 0.036;
    let warmth = 1.0 - 0.025 * (cell_c - 25.0);
    let charging_v = 2.0 + 0.16 * state_of_charge + charge_a / ten_hour_ah * resistive * warmth;
    // Full and without current the term is 0 times infinity, not a number, and `min` takes the other.
    charging_v.min(gassing_v(charge_a, ten_hour_ah, cell_c))
}

/// Voltage at which a lead-acid cell in charge begins to gas.
///
/// `V = [2.24 + 1.97 ln(1 + I/C)](1 − 0.002 ΔT)`
///
/// - `charge_a`, `ten_hour_ah`, `cell_c`  as in [`lead_acid_charge_v`]
///
/// Returns V [V] of a cell.
///
/// Source: as [`lead_acid_discharge_v`].
pub fn gassing_v(charge_a: f64, ten_hour_ah: f64, cell_c: f64) -> f64 {
    (2.24 + 1.97 * (charge_a / ten_hour_ah).ln_1p()) * (1.0 - 0.002 * (cell_c - 25.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn six_cells_at_ten_amperes() {
        let shown = |cell_v: f64| format!("{:.3}", 6.0 * cell_v);
        let discharge = [0.9, 0.5, 0.2].map(|s| shown(lead_acid_discharge_v(s, 10.0, 100.0, 25.0)));
        assert_eq!(discharge, ["12.122", "11.565", "9.996"]);
        let charge = [0.2, 0.5].map(|s| shown(lead_acid_charge_v(s, 10.0, 100.0, 25.0)));
        assert_eq!(charge, ["13.027", "13.600"]);
    }

    #[test]
    fn a_cell_nearly_full_is_held_where_it_gasses() {
        for (state_of_charge, charge_a) in [(0.9, 10.0), (1.0, 10.0), (1.0, 0.0)] {
            let gassing = gassing_v(charge_a, 100.0, 25.0);
            assert_eq!(lead_acid_charge_v(state_of_charge, charge_a, 100.0, 25.0), gassing);
        }
    }

    #[test]
    fn voltage_at_rest_follows_the_table_and_holds_its_ends() {
        for points in [&LEAD_ACID_12_V[..], &LITHIUM_IRON_PHOSPHATE_12_V] {
            for point in points {
                let found_v = rest_v(point.state_of_charge, points).unwrap();
                assert!((found_v - point.voltage_v).abs() < 1e-12);
            }
        }
        assert!((rest_v(0.475, &LITHIUM_IRON_PHOSPHATE_12_V).unwrap() - 13.15).abs() < 1e-12);
        assert_eq!(rest_v(-0.1, &LEAD_ACID_12_V), Some(11.8));
        assert_eq!(rest_v(1.1, &LEAD_ACID_12_V), Some(12.65));
        assert_eq!(rest_v(0.5, &[]), None);
    }

    #[test]
    fn a_current_lowers_the_voltage_and_a_charge_raises_it() {
        assert!((loaded_v(12.5, 50.0, 0.01) - 12.0).abs() < 1e-12);
        assert!((loaded_v(12.5, -50.0, 0.01) - 13.0).abs() < 1e-12);
    }
}
