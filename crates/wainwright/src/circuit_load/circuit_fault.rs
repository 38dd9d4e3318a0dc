//! Short circuits behind the devices of a battery's circuits.

use super::drawn::Flow;
use super::fault::battery_fault_a;
use super::numbers::ModeNumbers;
use super::sizing::{Sizing, fault_ohm, withstand_s};
use super::wiring::{Conductors, Index, Wiring};

/// Current of a short circuit at the device of a circuit: battery, its cable, and the feeder.
pub fn fault_a(
    wiring: &Wiring,
    flow: &Flow,
    sizings: &[Option<Sizing>],
    leads: &[Option<Sizing>],
    circuit: Index,
) -> Option<f64> {
    let source = flow.circuits[circuit]?.source;
    let battery = wiring.battery.filter(|_| !wiring.sources[source].is_ac())?;
    let way_ohm = |wire: Option<Conductors>, sizing: Option<Sizing>| fault_ohm(&wire?, sizing?.size?);
    let lead_ohm = way_ohm(wiring.sources[source].lead, leads[source]).unwrap_or(0.0);
    let feeder = wiring.circuits[circuit].feeder;
    let feeder_ohm =
        feeder.and_then(|feeder| way_ohm(wiring.circuits[feeder].wire, sizings[feeder])).unwrap_or(0.0);
    Some(battery_fault_a(battery.open_v, battery.open_v / battery.fault_a, lead_ohm + feeder_ohm))
}

/// How long the wire of a circuit bears a fault at its device [s].
pub fn circuit_withstand_s(wiring: &Wiring, numbers: &ModeNumbers, circuit: Index) -> Option<f64> {
    let wire = wiring.circuits[circuit].wire.as_ref()?;
    withstand_s(wire, numbers.sizings[circuit]?.size?, numbers.faults_a[circuit]?)
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::super::fixture::read;
    use super::super::numbers::numbers;
    use super::*;

    /// 12.7 V behind 3 mΩ: 4,233 A at the terminals; with 8 ft of 6 AWG cable to the block, cold, less.
    #[test]
    fn a_fault_behind_a_feeder_is_held_back_by_its_cable() {
        let build = read(&json!({
            "parts": {"lamp": {"mass_lb": 1, "electrical": {"circuit": "lamp", "power_w": 5}}},
            "electrical": {
                "sources": {"battery": {"kind": "battery", "voltage_v": 12.8}},
                "circuits": {
                    "block": {"breaker_a": 60, "wire": {"awg": "6", "run_ft": 4}},
                    "lamp": {"breaker_a": 10, "feeder": "block", "wire": {"awg": "14", "run_ft": 10}},
                },
                "modes": {"on": {"feeds": {"block": "battery"}}},
            },
            "battery": {"chemistry": "agm", "capacity_ah": 100, "nominal_v": 12, "open_circuit_v": 12.7, "resistance_mohm": 3},
        }));
        let wiring = Wiring::of(&build).unwrap();
        let numbers = numbers(&build, &wiring);
        let faults = &numbers.modes[0].faults_a;
        assert_eq!(faults[0].map(|a| a.round()), Some(4233.0));
        // 0.491 Ω a thousand feet at 75 °C is 0.40378 Ω at 20 °C (NEC Chapter 9, Table 8).
        let behind = 12.7 / (0.003 + 8.0 * 0.491e-3 * (1.0 - 0.00323 * 55.0));
        assert!((faults[1].unwrap() / behind - 1.0).abs() < 1e-12);
        assert!(circuit_withstand_s(&wiring, &numbers.modes[0], 1).unwrap() < 0.1);
    }
}
