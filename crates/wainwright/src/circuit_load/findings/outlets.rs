//! Outlets, what is plugged in and what is fastened, room air conditioners, ground-fault protection.

use super::circuit_in_mode::{CircuitInMode, in_modes};
use super::*;
use crate::build::{LoadKind, SourceKind};
use crate::circuit_load::wiring::Index;
use crate::report::{exceeds, figure};
use crate::standards::receptacle;

/// Share of a circuit that an air conditioner may take alone, and beside other loads (NEC 440.62(B), (C)).
const ALONE: f64 = 0.8;
const SHARED: f64 = 0.5;
/// Share of a circuit that fastened appliances may take beside lights or plugged-in loads (NEC 210.23(A)(2)).
const FASTENED: f64 = 0.5;
/// Supplies up to this rating have one circuit, guarded as a whole (NEC 551.40(C), 551.42(A), (B)) [A].
pub(super) const SINGLE_CIRCUIT_A: f64 = 20.0;
/// Ratings that outlets are made in [A].
const OUTLETS_A: [f64; 5] = [15.0, 20.0, 30.0, 40.0, 50.0];

pub(super) fn judge(judged: &Judged, findings: &mut Findings) {
    for (m, circuit) in in_modes(judged).filter(|(_, circuit)| circuit.alternating) {
        let loads = Loads { judged, m, circuit: &circuit };
        loads.outlets(findings);
        loads.fastened(findings);
        loads.air_conditioners(findings);
        ground_fault(judged, &circuit, findings);
    }
}

struct Loads<'a> {
    judged: &'a Judged<'a>,
    m: usize,
    circuit: &'a CircuitInMode<'a>,
}

impl Loads<'_> {
    fn current_a(&self, load: Index) -> f64 {
        self.judged.numbers.modes[self.m].flow.loads[load].current_a
    }

    /// Current of one of a load.
    fn one_a(&self, load: Index) -> f64 {
        self.current_a(load) / self.judged.wiring.loads[load].quantity.max(1.0)
    }

    fn outlets(&self, findings: &mut Findings) {
        let circuit = self.circuit;
        let Some(receptacle_a) = circuit.line.circuit.receptacle_a else { return };
        let single = circuit.line.outlets() == 1;
        if let Some(breaker_a) = circuit.line.circuit.breaker_a
            && !receptacle::allowed(breaker_a, receptacle_a, single)
        {
            findings.add(OUTLET_RATING.finding(
                circuit.at("receptacle_a"),
                Some(receptacle_a),
                None,
                format!(
                    "Circuit {} has {} of {} A behind {} A.",
                    circuit.id,
                    if single { "a single outlet" } else { "outlets" },
                    figure(receptacle_a, 0),
                    figure(breaker_a, 0)
                ),
                outlet_remedy(breaker_a, receptacle_a, single),
            ));
        }
        let most_a = receptacle::largest_plugged_load_a(receptacle_a).unwrap_or(receptacle_a);
        for &load in &circuit.line.loads {
            let part = &self.judged.wiring.loads[load];
            let current_a = self.one_a(load);
            // A room air conditioner that takes too much of the whole circuit is told so once.
            if !part.fixed && exceeds(current_a, most_a) && self.over_share_a(load).is_none() {
                findings.add(OUTLET_OVERLOADED.finding(
                    format!("/parts/{}/electrical", part.id),
                    Some(current_a),
                    Some(most_a),
                    format!(
                        "{} draws {} A; an outlet of {} A takes {} A of one plugged-in load. It is over by {} A.",
                        part.id,
                        figure(current_a, 2),
                        figure(receptacle_a, 0),
                        figure(most_a, 0),
                        figure(current_a - most_a, 2)
                    ),
                    larger_outlet(current_a),
                ));
            }
        }
    }

    fn fastened(&self, findings: &mut Findings) {
        let circuit = self.circuit;
        let Some(breaker_a) = circuit.line.circuit.breaker_a else { return };
        let is_fastened = |load: &Index| {
            let part = &self.judged.wiring.loads[*load];
            part.fixed && part.kind != LoadKind::Lighting
        };
        let fastened_a: f64 = circuit
            .line
            .loads
            .iter()
            .filter(|load| is_fastened(load) && self.over_share_a(**load).is_none())
            .map(|&load| self.current_a(load))
            .sum();
        let feeds_others = circuit.line.circuit.receptacle_a.is_some()
            || circuit.line.loads.iter().any(|load| !is_fastened(load));
        let most_a = FASTENED * breaker_a;
        if feeds_others && exceeds(fastened_a, most_a) {
            findings.add(FIXED_LOADS_OVER_HALF.finding(
                circuit.at("breaker_a"),
                Some(fastened_a),
                Some(most_a),
                format!(
                    "Appliances fastened in place take {} A of circuit {}, which also feeds lights or outlets; half of its {} A is the limit.",
                    figure(fastened_a, 1),
                    circuit.id,
                    figure(breaker_a, 0)
                ),
                "Give them a circuit of their own.",
            ));
        }
    }

    fn air_conditioners(&self, findings: &mut Findings) {
        let circuit = self.circuit;
        let Some(breaker_a) = circuit.line.circuit.breaker_a else { return };
        for &load in &circuit.line.loads {
            let Some(most_a) = self.over_share_a(load) else { continue };
            let (part, current_a) = (&self.judged.wiring.loads[load], self.one_a(load));
            let alone = self.is_alone(load);
            findings.add(AIR_CONDITIONER_OVER_SHARE.finding(
                format!("/parts/{}/electrical", part.id),
                Some(current_a),
                Some(most_a),
                format!(
                    "{} draws {} A of circuit {}, {} A, {}; {} A is the limit.",
                    part.id,
                    figure(current_a, 2),
                    circuit.id,
                    figure(breaker_a, 0),
                    if alone { "which it has to itself" } else { "which feeds other loads too" },
                    figure(most_a, 1)
                ),
                if exceeds(current_a, ALONE * breaker_a) {
                    "Give it a larger circuit of its own."
                } else {
                    "Give it a circuit of its own."
                },
            ));
        }
    }

    /// Has a load the circuit to itself?
    fn is_alone(&self, load: Index) -> bool {
        let line = self.circuit.line;
        line.loads.len() == 1 && line.branches.is_empty() && self.judged.wiring.loads[load].quantity <= 1.0
    }

    /// The share of the circuit that a room air conditioner takes too much of [A].
    fn over_share_a(&self, load: Index) -> Option<f64> {
        let breaker_a = self.circuit.line.circuit.breaker_a?;
        let share = if self.is_alone(load) { ALONE } else { SHARED };
        let is_room_unit = self.judged.wiring.loads[load].kind == LoadKind::RoomAirConditioner;
        Some(share * breaker_a).filter(|most_a| is_room_unit && exceeds(self.one_a(load), *most_a))
    }
}

/// The outlet that takes a plugged-in load.
fn larger_outlet(current_a: f64) -> String {
    let takes = |outlet_a: f64| receptacle::largest_plugged_load_a(outlet_a).unwrap_or(outlet_a);
    let larger = [(20.0, "12"), (30.0, "10")].into_iter().find(|(a, _)| !exceeds(current_a, takes(*a)));
    match larger {
        Some((outlet_a, size)) => {
            let a = figure(outlet_a, 0);
            format!("Give it a {a} A outlet on a {a} A circuit with {size} AWG, or take a smaller appliance.")
        }
        None => "Wire it in on a circuit of its own, or take a smaller appliance.".to_owned(),
    }
}

/// What puts outlets right that do not go with their breaker.
fn outlet_remedy(breaker_a: f64, receptacle_a: f64, single: bool) -> String {
    // A smaller breaker needs no other wire.
    let smaller = OUTLETS_A.iter().rev().find(|smaller_a| {
        exceeds(breaker_a, **smaller_a) && receptacle::allowed(**smaller_a, receptacle_a, single)
    });
    let smaller = smaller.map_or(String::new(), |a| format!(", or a breaker of {} A", figure(*a, 0)));
    let fit = OUTLETS_A.iter().filter(|outlet_a| receptacle::allowed(breaker_a, **outlet_a, single));
    let fit: Vec<String> = fit.map(|outlet_a| figure(*outlet_a, 0)).collect();
    match fit.as_slice() {
        [] => "Change the breaker to 15, 20, 30, 40 or 50 A, with outlets and wire to match.".to_owned(),
        [least, ..] if single => format!("Fit an outlet of {least} A or more{smaller}."),
        fit => format!("Fit outlets of {} A{smaller}.", fit.join(" or ")),
    }
}

fn ground_fault(judged: &Judged, circuit: &CircuitInMode, findings: &mut Findings) {
    let feeder = circuit.line.feeder.map(|feeder| judged.wiring.circuits[feeder].circuit);
    if [Some(circuit.line.circuit), feeder].into_iter().flatten().any(|guarded| guarded.gfci == Some(true)) {
        return;
    }
    let supply = &judged.wiring.sources[circuit.carried.source];
    let single_circuit = supply.source.kind == SourceKind::Shore
        && supply.source.rating_a.is_some_and(|rating_a| rating_a <= SINGLE_CIRCUIT_A);
    let near_water = circuit.line.circuit.near_water == Some(true);
    let why = if near_water {
        "has an outlet near water or outdoors"
    } else if single_circuit {
        "is fed by a 15 or 20 A supply, whose wiring must be guarded as a whole"
    } else {
        return;
    };
    findings.add(GFCI_MISSING.finding(
        within(&circuit.here(), "gfci", circuit.line.circuit.gfci.is_some()),
        None,
        None,
        format!("Circuit {} {why}, and no ground-fault device is stated.", circuit.id),
        "Fit a ground-fault breaker or outlet, and test it at hand-over.",
    ));
}
