//! Which receptacle a circuit may have, and what may be plugged into it.

use std::sync::LazyLock;

use super::table::rows;
use crate::report::exceeds;

/// A permitted pair.
struct Pair {
    circuit_a: f64,
    receptacle_a: f64,
    largest_plugged_load_a: Option<f64>,
}

static PAIRS: LazyLock<Vec<Pair>> = LazyLock::new(|| {
    rows(include_str!("../../data/receptacles_210_21.csv"))
        .filter_map(|row| {
            Some(Pair {
                circuit_a: row.number("circuit_a")?,
                receptacle_a: row.number("receptacle_a")?,
                largest_plugged_load_a: row.number("max_cord_plug_load_a"),
            })
        })
        .collect()
});

/// Largest load with cord and plug on one receptacle: 80 % of its rating.
///
/// - `receptacle_a`  rating of the receptacle [A]
///
/// Returns the current [A], or none but for receptacles of 15, 20 and 30 A: the code names no others.
///
/// Source: NEC Table 210.21(B)(2); 16 and 24 A `from memory`.
pub fn largest_plugged_load_a(receptacle_a: f64) -> Option<f64> {
    PAIRS.iter().find(|pair| pair.receptacle_a == receptacle_a)?.largest_plugged_load_a
}

/// True where a receptacle may be on a circuit.
///
/// - `circuit_a`     rating of the branch circuit [A]
/// - `receptacle_a`  rating of the receptacle [A]
/// - `single`        the only one of the circuit, for one plug: it must be rated for the circuit at least
///
/// Source: NEC 210.21(B)(1) and Table 210.21(B)(3); all but 15 A on a circuit of 20 A `from memory`.
pub fn allowed(circuit_a: f64, receptacle_a: f64, single: bool) -> bool {
    if single {
        !exceeds(circuit_a, receptacle_a)
    } else {
        PAIRS.iter().any(|pair| pair.circuit_a == circuit_a && pair.receptacle_a == receptacle_a)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn eighty_percent_may_be_plugged_in() {
        assert_eq!(PAIRS.len(), 7);
        for receptacle_a in [15.0, 20.0, 30.0] {
            assert_eq!(largest_plugged_load_a(receptacle_a), Some(0.8 * receptacle_a));
        }
        assert_eq!(largest_plugged_load_a(50.0), None);
    }

    #[test]
    fn several_receptacles_match_their_circuit() {
        let allowed_on = |circuit_a| {
            [15.0, 20.0, 30.0, 40.0, 50.0]
                .map(|receptacle_a| u8::from(allowed(circuit_a, receptacle_a, false)))
        };
        assert_eq!(allowed_on(15.0), [1, 0, 0, 0, 0]);
        assert_eq!(allowed_on(20.0), [1, 1, 0, 0, 0]);
        assert_eq!(allowed_on(30.0), [0, 0, 1, 0, 0]);
        assert_eq!(allowed_on(40.0), [0, 0, 0, 1, 1]);
        assert_eq!(allowed_on(50.0), [0, 0, 0, 0, 1]);
    }

    #[test]
    fn a_single_receptacle_is_not_rated_below_its_circuit() {
        assert!(!allowed(20.0, 15.0, true));
        assert!(allowed(20.0, 20.0, true));
        assert!(allowed(15.0, 20.0, true));
    }
}
