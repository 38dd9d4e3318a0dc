//! Two legs and a neutral: 120/240 V service, and the same panel with both legs on one 120 V source.
//!
//! On opposite legs the neutral carries the difference. Behind a 30-to-50 A adapter, a 120 V inverter or a 120 V
//! generator the legs are in phase, and the neutral carries the sum.

use super::current::Phasor;

/// Current in the neutral.
///
/// `I_N = |I_A − I_B|` on opposite legs, `|I_A + I_B|` on legs in phase
///
/// - `a`, `b`    current of each leg, its phase counted from that leg's own voltage
/// - `in_phase`  true where both legs hang on one 120 V source
///
/// Returns the current [A].
///
/// Source: Kirchhoff's current law; the voltages of opposite legs are half a cycle apart.
pub fn neutral_a(a: Phasor, b: Phasor, in_phase: bool) -> f64 {
    if in_phase { (a + b).magnitude_a() } else { (a - b).magnitude_a() }
}

/// Imbalance of two legs: how far each is from their mean.
///
/// `|I_A − Ī| / Ī = |I_A − I_B| / (I_A + I_B)`
///
/// - `a_a`, `b_a`  current of each leg [A], 0 or more
///
/// Returns the fraction, 0 to 1: 0 where both carry the same or nothing, 1 where one carries everything.
///
/// Source: definition.
pub fn imbalance(a_a: f64, b_a: f64) -> f64 {
    let sum_a = a_a + b_a;
    if sum_a > 0.0 { (a_a - b_a).abs() / sum_a } else { 0.0 }
}

/// Voltages and currents at the loads of two legs. Opposite legs have opposite signs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Legs {
    /// Voltage across the load of leg A [V].
    pub a_v: f64,
    /// Voltage across the load of leg B [V].
    pub b_v: f64,
    /// Current of leg A, from the source [A].
    pub a_a: f64,
    /// Current of leg B, from the source [A].
    pub b_a: f64,
    /// Current of the neutral, back to the source [A].
    pub neutral_a: f64,
}

/// Two resistive loads, each on its leg, with a common neutral.
///
/// `I = (E − V_n) g`, `g = 1 / (R_l + R)`, `V_n = R_n (E_A g_A + E_B g_B) / [1 + R_n (g_A + g_B)]`
///
/// - `source_a_v`, `source_b_v`  E, each leg to the source's neutral [V]: 120 and −120 for opposite legs, 120 and 120
///   for legs in phase
/// - `load_a_ohm`, `load_b_ohm`  R [Ω], > 0; none with nothing on
/// - `line_ohm`                  R_l of each leg's conductor, one way [Ω], 0 or more
/// - `neutral_ohm`               R_n of the neutral conductor, one way [Ω], 0 or more; none where it is open
///
/// Returns voltages and currents. An open neutral leaves the two loads in series across both legs: the lighter load
/// gets the higher voltage, and a leg with nothing on shows what stands across its outlet; with nothing on at all the
/// loads' neutral is taken to lie at the source's.
///
/// Source: Kirchhoff's current law at the neutral of the loads.
pub fn solve(
    source_a_v: f64,
    source_b_v: f64,
    load_a_ohm: Option<f64>,
    load_b_ohm: Option<f64>,
    line_ohm: f64,
    neutral_ohm: Option<f64>,
) -> Legs {
    let conductance_s = |load_ohm: Option<f64>| load_ohm.map_or(0.0, |r| 1.0 / (line_ohm + r));
    let (a_s, b_s) = (conductance_s(load_a_ohm), conductance_s(load_b_ohm));
    let driven_a = source_a_v * a_s + source_b_v * b_s;
    // The neutral of the loads above that of the source, and what flows between them.
    let (neutral_v, neutral_a) = match neutral_ohm {
        Some(ohm) => {
            let current_a = driven_a / (1.0 + ohm * (a_s + b_s));
            (ohm * current_a, current_a)
        }
        None if a_s + b_s > 0.0 => (driven_a / (a_s + b_s), 0.0),
        None => (0.0, 0.0),
    };
    // Across a load's own resistance; the whole leg where nothing is on.
    let leg = |source_v: f64, load_ohm: Option<f64>, leg_s: f64| {
        let across_v = source_v - neutral_v;
        load_ohm.map_or((across_v, 0.0), |r| (across_v * leg_s * r, across_v * leg_s))
    };
    let (a_v, a_a) = leg(source_a_v, load_a_ohm, a_s);
    let (b_v, b_a) = leg(source_b_v, load_b_ohm, b_s);
    Legs { a_v, b_v, a_a, b_a, neutral_a }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn printed(legs: Legs) -> String {
        let Legs { a_v, b_v, a_a, b_a, neutral_a } = legs;
        format!("{a_v:.4} {b_v:.4} {a_a:.4} {b_a:.4} {neutral_a:.4}")
    }

    /// Gauss elimination of the three nodes' currents, with conductors above 0 Ω.
    fn nodal(source_v: [f64; 2], load_ohm: [f64; 2], line_ohm: f64, neutral_ohm: f64) -> Legs {
        let [a_s, b_s] = load_ohm.map(f64::recip);
        let (line_s, neutral_s) = (1.0 / line_ohm, 1.0 / neutral_ohm);
        let mut rows = [
            [line_s + a_s, 0.0, -a_s, source_v[0] * line_s],
            [0.0, line_s + b_s, -b_s, source_v[1] * line_s],
            [-a_s, -b_s, a_s + b_s + neutral_s, 0.0],
        ];
        for pivot in 0..3 {
            let from = rows[pivot];
            for (_, row) in rows.iter_mut().enumerate().filter(|(k, _)| *k != pivot) {
                let factor = row[pivot] / from[pivot];
                row.iter_mut().zip(from).for_each(|(cell, taken)| *cell -= factor * taken);
            }
        }
        let [a, b, n] = [0, 1, 2].map(|k| rows[k][3] / rows[k][k]);
        Legs { a_v: a - n, b_v: b - n, a_a: (a - n) * a_s, b_a: (b - n) * b_s, neutral_a: n * neutral_s }
    }

    #[test]
    fn opposite_legs_share_the_neutral() {
        let legs = solve(120.0, -120.0, Some(7.5), Some(12.0), 0.05, Some(0.05));
        assert_eq!(printed(legs), "118.9136 -119.7945 15.8552 -9.9829 5.8723");
    }

    #[test]
    fn legs_in_phase_add_in_the_neutral() {
        let legs = solve(120.0, 120.0, Some(7.5), Some(12.0), 0.05, Some(0.05));
        assert_eq!(printed(legs), "117.9349 118.2285 15.7247 9.8524 25.5770");
    }

    #[test]
    fn an_open_neutral_overvolts_the_lighter_load() {
        let legs = solve(120.0, -120.0, Some(7.5), Some(12.0), 0.05, None);
        assert_eq!(printed(legs), "91.8367 -146.9388 12.2449 -12.2449 0.0000");
    }

    #[test]
    fn conductors_without_resistance_drop_nothing() {
        let legs = solve(120.0, -120.0, Some(7.5), Some(12.0), 0.0, Some(0.0));
        assert_eq!(printed(legs), "120.0000 -120.0000 16.0000 -10.0000 6.0000");
    }

    #[test]
    fn a_leg_with_nothing_on_carries_nothing() {
        let legs = solve(120.0, -120.0, Some(10.0), None, 0.1, Some(0.1));
        assert_eq!(legs.b_a, 0.0);
        assert!((legs.a_a / legs.neutral_a - 1.0).abs() < 1e-14);
        assert_eq!(legs.b_v, -120.0 - 0.1 * legs.neutral_a);
        // Through the load that is on, the other leg's outlet sees both legs.
        let open = solve(120.0, -120.0, Some(10.0), None, 0.1, None);
        assert_eq!((open.a_v, open.a_a, open.b_v), (0.0, 0.0, -240.0));
        let off = solve(120.0, -120.0, None, None, 0.1, None);
        assert_eq!((off.a_v, off.b_v, off.neutral_a), (120.0, -120.0, 0.0));
    }

    #[test]
    fn neutral_current_minds_the_power_factor() {
        let (a, b) = (Phasor::of(16.0, 1.0), Phasor::of(10.0, 0.7));
        assert_eq!(format!("{:.3}", neutral_a(a, b, false)), "11.489");
        let like = |a, b, in_phase| neutral_a(Phasor::of(a, 1.0), Phasor::of(b, 1.0), in_phase);
        assert_eq!(
            (like(5.0, 8.0, false), like(16.0, 10.0, false), like(10.0, 10.0, true)),
            (3.0, 6.0, 20.0)
        );
    }

    #[test]
    fn imbalance_is_told_from_the_mean() {
        assert_eq!(format!("{:.4}", imbalance(31.5, 18.0)), "0.2727");
        assert_eq!((imbalance(0.0, 0.0), imbalance(12.0, 12.0), imbalance(0.0, 9.0)), (0.0, 0.0, 1.0));
    }

    proptest! {
        #[test]
        fn elimination_of_the_nodes_gives_the_same(
            source_b_v in prop::sample::select(vec![-120.0, 120.0]),
            load_a_ohm in 4.0..200.0f64, load_b_ohm in 4.0..200.0f64,
            line_ohm in 0.01..1.0f64, neutral_ohm in 0.01..1.0f64,
        ) {
            let ours = solve(120.0, source_b_v, Some(load_a_ohm), Some(load_b_ohm), line_ohm, Some(neutral_ohm));
            let other = nodal([120.0, source_b_v], [load_a_ohm, load_b_ohm], line_ohm, neutral_ohm);
            let near = |x: f64, y: f64, size: f64| (x - y).abs() < 1e-10 * size;
            prop_assert!(near(ours.a_v, other.a_v, 120.0) && near(ours.b_v, other.b_v, 120.0));
            prop_assert!(near(ours.a_a, other.a_a, ours.a_a.abs()) && near(ours.b_a, other.b_a, ours.b_a.abs()));
            prop_assert!(near(ours.neutral_a, other.neutral_a, ours.a_a.abs() + ours.b_a.abs()));
            prop_assert!(near(ours.neutral_a, ours.a_a + ours.b_a, ours.a_a.abs() + ours.b_a.abs()));
        }
    }
}
