//! Circuits: what flows in them against their devices, and what they lose.

use super::ampacity;
use super::circuit_in_mode::{CircuitInMode, in_modes};
use super::*;
use crate::build::LoadKind;
use crate::circuit_load::circuit_sizing::{total_drop, usual_drop};
use crate::circuit_load::drawn::Drawn;
use crate::circuit_load::wiring::Index;
use crate::report::{exceeds, figure, percent};

/// Voltage that a 115 V motor needs: 90 % of it (NEMA MG 1, from memory) [V].
const LEAST_MOTOR_V: f64 = 103.5;
/// Share of the voltage that cord, feeder and circuit may lose together.
const TOTAL_DROP: f64 = 0.05;

pub(super) fn judge(judged: &Judged, findings: &mut Findings) {
    for (m, circuit) in in_modes(judged) {
        match circuit.line.circuit.breaker_a {
            Some(breaker_a) => device(&circuit, breaker_a, findings),
            None => unprotected(&circuit, findings),
        }
        ampacity::judge(&circuit, findings);
        drop(judged, m, &circuit, findings);
        motor_voltage(judged, m, &circuit, findings);
    }
}

/// A circuit without a device of its own. A branch whose wire its feeder's device guards needs none.
fn unprotected(circuit: &CircuitInMode, findings: &mut Findings) {
    if circuit.current_a() == 0.0 || circuit.is_guarded() {
        return;
    }
    let rating = circuit.sizing.device_a.map_or(String::new(), |a| format!(" of {} A", figure(a, 1)));
    findings.add(CIRCUIT_UNPROTECTED.finding(
        circuit.here(),
        None,
        None,
        format!(
            "Circuit {} carries {} A and has no breaker or fuse.",
            circuit.id,
            figure(circuit.current_a(), 1)
        ),
        format!("Protect it at its source with a breaker or fuse{rating}."),
    ));
}

/// What a circuit carries, and must be made for, against its breaker or fuse.
fn device(circuit: &CircuitInMode, breaker_a: f64, findings: &mut Findings) {
    let (current_a, required_a) = (circuit.current_a(), circuit.required_a());
    let at = circuit.at("breaker_a");
    let words = |what: &str, a: f64| {
        format!(
            "In mode {} circuit {} {what} {} A; its {} is {} A.",
            circuit.mode,
            circuit.id,
            figure(a, 1),
            if circuit.alternating { "breaker" } else { "fuse or breaker" },
            figure(breaker_a, 1)
        )
    };
    let needs = needs(&circuit.carried.drawn);
    let split = match circuit.sizing.device_a {
        Some(device_a) => {
            format!("Move a load to another circuit, or fit {} A with wire to match.", figure(device_a, 1))
        }
        None => "Move a load to another circuit.".to_owned(),
    };
    if circuit.alternating {
        if exceeds(required_a, breaker_a) {
            let message = words(needs, required_a);
            findings.add(BREAKER_OVERLOADED.finding(at, Some(required_a), Some(breaker_a), message, split));
        } else if exceeds(required_a, breaker_a * (1.0 - TIGHT)) {
            let left = 1.0 - required_a / breaker_a;
            let remedy = "It holds as listed; leave room for what is plugged in later.";
            findings.add(LIMIT_TIGHT.finding(at, Some(left), Some(TIGHT), words(needs, required_a), remedy));
        }
    } else if exceeds(current_a, breaker_a) {
        let message = words("carries", current_a);
        findings.add(DC_DEVICE_OVERLOADED.finding(at, Some(current_a), Some(breaker_a), message, split));
    } else if exceeds(required_a, breaker_a) {
        let message = words(needs, required_a);
        findings.add(DC_DEVICE_NEAR_LIMIT.finding(at, Some(required_a), Some(breaker_a), message, split));
    }
}

/// How it is said what a circuit must be made for, with what the quarter more is for.
fn needs(drawn: &Drawn) -> &'static str {
    match (drawn.continuous_a > 0.0, drawn.motor_a > 0.0) {
        (true, true) => "needs, with a quarter more for what runs for hours and for its greatest motor,",
        (true, false) => "needs, with a quarter more for what runs for hours,",
        (false, true) => "needs, with a quarter more for its greatest motor,",
        (false, false) => "needs",
    }
}

/// Voltage lost on the way.
fn drop(judged: &Judged, m: usize, circuit: &CircuitInMode, findings: &mut Findings) {
    let Some(drop_v) =
        circuit.sizing.drop_v.filter(|_| circuit.line.wire.is_some_and(|wire| wire.size.is_some()))
    else {
        return;
    };
    // Where the supply collapses no voltage arrives that a share could be lost of.
    if judged.numbers.modes[m].voltages.arriving_v[circuit.index].is_none() {
        return;
    }
    let usual = usual_drop(judged.wiring, circuit.index, circuit.alternating);
    let most = circuit.line.circuit.max_drop_fraction.unwrap_or(usual);
    // The code's 3 % are those of the branch; on low voltage they are counted from the battery (ABYC E-11).
    let (rule, lost, way) = if circuit.alternating {
        (&AC_DROP, drop_v / circuit.carried.voltage_v, "circuit")
    } else {
        let total = total_drop(judged.wiring, &judged.numbers.modes[m], circuit.index)
            .unwrap_or(drop_v / circuit.carried.voltage_v);
        let ahead = exceeds(total, drop_v / circuit.carried.voltage_v);
        (&DC_DROP, total, if ahead { "what leads to it and circuit" } else { "circuit" })
    };
    if exceeds(lost, most) {
        let remedy = match circuit.wire_sizes().and_then(|sizes| sizes.by_drop()) {
            Some(size) => format!("Take {} AWG, or come nearer to the source.", size.name()),
            None => "Come nearer to the source, or put less on the circuit.".to_owned(),
        };
        findings.add(rule.finding(
            circuit.at("wire/run_ft"),
            Some(lost),
            Some(most),
            format!(
                "In mode {} {way} {} lose{} {} V, {} of its {} V; {} is the aim.",
                circuit.mode,
                circuit.id,
                if way == "circuit" { "s" } else { " together" },
                figure(lost * circuit.carried.voltage_v, 2),
                percent(lost),
                figure(circuit.carried.voltage_v, 1),
                percent(most)
            ),
            remedy,
        ));
        return;
    }
    if circuit.alternating
        && let Some(total) = total_drop(judged.wiring, &judged.numbers.modes[m], circuit.index)
        && exceeds(total, TOTAL_DROP)
    {
        findings.add(AC_TOTAL_DROP.finding(
            circuit.at("wire/run_ft"),
            Some(total),
            Some(TOTAL_DROP),
            format!(
                "In mode {} cord, feeder and circuit {} together lose {} of the voltage with everything on; {} is the aim.",
                circuit.mode,
                circuit.id,
                percent(total),
                percent(TOTAL_DROP)
            ),
            "Take a heavier or shorter cord, or run less at a time.",
        ));
    }
}

/// What line-voltage motors get.
fn motor_voltage(judged: &Judged, m: usize, circuit: &CircuitInMode, findings: &mut Findings) {
    let is_motor = |&load: &Index| {
        matches!(judged.wiring.loads[load].kind, LoadKind::Motor | LoadKind::RoomAirConditioner)
    };
    let nominal_v = judged.wiring.sources[circuit.carried.source].source.voltage_v;
    let Some(motor) = circuit.line.loads.iter().copied().find(is_motor).filter(|_| circuit.alternating)
    else {
        return;
    };
    let legs = circuit.carried.voltage_v / nominal_v;
    let Some(arriving_v) = judged.numbers.modes[m].voltages.arriving_v[circuit.index] else { return };
    if exceeds(LEAST_MOTOR_V * legs, arriving_v) {
        findings.add(MOTOR_VOLTAGE_LOW.finding(
            format!("/parts/{}/electrical", judged.wiring.loads[motor].id),
            Some(arriving_v),
            Some(LEAST_MOTOR_V * legs),
            format!(
                "In mode {} with everything on, {} V arrive at {}; its motor needs {} V.",
                circuit.mode,
                figure(arriving_v, 1),
                judged.wiring.loads[motor].id,
                figure(LEAST_MOTOR_V * legs, 1)
            ),
            "Take a heavier cord or wire, or run less beside it.",
        ));
    }
}
