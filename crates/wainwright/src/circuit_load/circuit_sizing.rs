//! The conductors of the circuits and of the sources' cords and cables.

use super::defaults;
use super::drawn::{CircuitFlow, Flow};
use super::numbers::ModeNumbers;
use super::ratings::Rating;
use super::sizing::{Duty, Sizing, sizing};
use super::wiring::{Index, Wiring};
use crate::build::{Leg, LoadKind, SourceKind};

/// Share of its voltage that a circuit may lose where the build does not say.
pub fn usual_drop(wiring: &Wiring, circuit: Index, alternating: bool) -> f64 {
    let line = &wiring.circuits[circuit];
    let is_light = |&load: &Index| wiring.loads[load].kind == LoadKind::Lighting;
    let is_inverter = |&source: &Index| wiring.sources[source].source.kind == SourceKind::Inverter;
    let feeds_inverter = line.feeds.iter().any(is_inverter);
    if feeds_inverter {
        defaults::INVERTER_DROP
    } else if !alternating
        && !line.loads.is_empty()
        && line.branches.is_empty()
        && line.loads.iter().all(is_light)
    {
        defaults::LIGHTING_DROP
    } else {
        defaults::DROP
    }
}

/// The conductors of all circuits: feeders first, since on low voltage what they lose is lost to their branches.
pub fn circuit_sizings(wiring: &Wiring, flow: &Flow, leads: &[Option<Sizing>]) -> Vec<Option<Sizing>> {
    let mut sizings = vec![None; wiring.circuits.len()];
    for branches in [false, true] {
        for (circuit, line) in wiring.circuits.iter().enumerate() {
            let Some(carried) = flow.circuits[circuit].filter(|_| line.feeder.is_some() == branches) else {
                continue;
            };
            let lost_v = |sizing: Option<Sizing>| sizing.and_then(|sizing| sizing.drop_v).unwrap_or(0.0);
            let feeder: Option<Sizing> = line.feeder.and_then(|feeder| sizings[feeder]);
            let ahead_v = lost_v(leads[carried.source]) + lost_v(feeder);
            sizings[circuit] = Some(circuit_sizing(wiring, circuit, &carried, ahead_v));
        }
    }
    sizings
}

/// The conductor of a circuit; `ahead_v` is lost on the way to it.
fn circuit_sizing(wiring: &Wiring, circuit: Index, carried: &CircuitFlow, ahead_v: f64) -> Sizing {
    let line = &wiring.circuits[circuit];
    let alternating = wiring.sources[carried.source].is_ac();
    let most_drop = line.circuit.max_drop_fraction.unwrap_or(usual_drop(wiring, circuit, alternating));
    let duty = Duty {
        voltage_v: carried.voltage_v,
        by_code: alternating,
        current_a: carried.drawn.current_a,
        required_a: carried.drawn.required_a(),
        // The code's 3 % are those of the branch; on low voltage they are counted from the battery (ABYC E-11).
        most_drop: if alternating { most_drop } else { (most_drop - ahead_v / carried.voltage_v).max(0.0) },
        device_a: line.circuit.breaker_a,
        family: line.circuit.device,
        may_round_up: line.outlets() <= 1,
    };
    sizing(line.wire.as_ref(), &duty)
}

/// The cord or cable of a source, which must carry what the source may give.
pub fn lead_sizing(wiring: &Wiring, flow: &Flow, rating: &Rating, source: Index) -> Option<Sizing> {
    let gives = flow.sources[source]?;
    let supply = &wiring.sources[source];
    let lead = supply.lead?;
    // Without a rating the source's power says how much it may give.
    let most_a = rating.rating_a.or(rating.limit_a);
    let current_a = most_a.map_or(gives.drawn.current_a, |most_a| most_a.min(gives.drawn.current_a));
    let duty = Duty {
        voltage_v: supply.source.voltage_v,
        by_code: supply.is_ac(),
        current_a,
        required_a: most_a.unwrap_or(current_a),
        most_drop: defaults::DROP,
        device_a: most_a,
        family: None,
        may_round_up: true,
    };
    Some(sizing(Some(&lead), &duty))
}

/// Share of the voltage lost from the source to the end of a circuit: cord or cable, feeder, and the circuit itself.
pub fn total_drop(wiring: &Wiring, mode: &ModeNumbers, circuit: Index) -> Option<f64> {
    let carried = mode.flow.circuits[circuit]?;
    let own = mode.sizings[circuit]?.drop_v? / carried.voltage_v;
    let feeder = wiring.circuits[circuit].feeder.and_then(|feeder| {
        let drop_v = mode.sizings[feeder]?.drop_v?;
        Some(drop_v / mode.flow.circuits[feeder]?.voltage_v)
    });
    let source_v = wiring.sources[carried.source].source.voltage_v;
    let lead = match mode.voltages.legs[carried.source] {
        // Of a supply in opposite phase each leg has its own: balanced legs lose nothing in the neutral.
        Some(legs) => match wiring.leg(circuit) {
            Some(Leg::Both) => 1.0 - (legs.a_v - legs.b_v) / (2.0 * source_v),
            Some(Leg::B) => 1.0 + legs.b_v / source_v,
            _ => 1.0 - legs.a_v / source_v,
        },
        None => mode.leads[carried.source].and_then(|lead| lead.drop_v).unwrap_or(0.0) / source_v,
    };
    Some(own + feeder.unwrap_or(0.0) + lead)
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::super::fixture::{sources, wired};
    use super::*;

    #[test]
    fn lights_may_lose_more_and_an_inverters_cable_less() {
        let circuits = json!({"lights": {}, "mixed": {}, "cable": {}, "outlets": {}});
        let modes = json!({"on": {"feeds": {"lights": "battery", "mixed": "battery", "cable": "battery", "outlets": "shore"}}});
        let loads = json!({
            "lamp": {"circuit": "lights", "power_w": 5, "kind": "lighting"},
            "lamp_too": {"circuit": "mixed", "power_w": 5, "kind": "lighting"},
            "pump": {"circuit": "mixed", "power_w": 60, "kind": "motor"},
        });
        let build = wired(sources(), circuits, modes, loads);
        let wiring = Wiring::of(&build).unwrap();
        assert_eq!([0, 1, 2].map(|circuit| usual_drop(&wiring, circuit, false)), [0.10, 0.03, 0.02]);
        assert_eq!(usual_drop(&wiring, 3, true), 0.03);
    }
}
