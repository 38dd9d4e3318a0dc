//! What voltage arrives where, with everything on.

use super::constant_power::ac_behind;
use super::dc_network::{Branch, Feeder, branch_at, feeder_at, solve_feeders};
use super::drawn::{Flow, SourceFlow};
use super::split_phase;
use super::wiring::{Index, Switching, Wiring};
use crate::build::{Leg, LoadKind};

/// Voltages of one mode; `None` where the supply cannot hold the load.
#[derive(Debug, Clone)]
pub struct Voltages {
    /// At the panel or bus bar of each source; of two legs the first.
    pub bus_v: Vec<Option<f64>>,
    /// The legs of each source in opposite phase.
    pub legs: Vec<Option<split_phase::Legs>>,
    /// At the far end of each circuit.
    pub arriving_v: Vec<Option<f64>>,
}

/// Resistance and reactance of a loop [Ω].
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Loop {
    /// Resistance, out and back.
    pub ohm: f64,
    /// Reactance, out and back.
    pub reactance_ohm: f64,
}

/// The voltages of a mode. `loops` are those of the circuits, `leads` those of the sources' cords and cables.
pub fn voltages(wiring: &Wiring, mode: &Switching, flow: &Flow, loops: &[Loop], leads: &[Loop]) -> Voltages {
    let mut voltages = Voltages {
        bus_v: vec![None; wiring.sources.len()],
        legs: vec![None; wiring.sources.len()],
        arriving_v: vec![None; wiring.circuits.len()],
    };
    for (source, supply) in wiring.sources.iter().enumerate() {
        if flow.sources[source].is_none() {
            continue;
        }
        if supply.is_ac() {
            voltages.alternating(wiring, mode, flow, source, loops, leads[source]);
        } else {
            voltages.direct(wiring, mode, flow, source, loops, leads[source].ohm);
        }
    }
    voltages
}

impl Voltages {
    /// Alternating current: every load keeps its power, on which voltage is lost the most.
    fn alternating(
        &mut self,
        wiring: &Wiring,
        mode: &Switching,
        flow: &Flow,
        source: Index,
        loops: &[Loop],
        lead: Loop,
    ) {
        let (supply, Some(gives)) = (&wiring.sources[source], &flow.sources[source]) else { return };
        let volts = supply.source.voltage_v;
        let reactive = |drawn: &super::drawn::Drawn| drawn.phasor.lagging_a * volts;
        let legs_v = if supply.split {
            let one_way_ohm = lead.ohm / 2.0;
            let load = |leg: usize| {
                Some(gives.legs[leg].current_a).filter(|current_a| *current_a > 0.0).map(|a| volts / a)
            };
            let legs = split_phase::solve(volts, -volts, load(0), load(1), one_way_ohm, Some(one_way_ohm));
            self.legs[source] = Some(legs);
            [Some(legs.a_v), Some(-legs.b_v)]
        } else {
            let drawn = &gives.legs[0];
            let arrival = ac_behind(volts, lead.ohm, lead.reactance_ohm, drawn.power_w, reactive(drawn));
            [arrival.map(|arrival| arrival.voltage_v); 2]
        };
        self.bus_v[source] = legs_v[0];
        let at_bus = |leg: Option<Leg>| match leg.filter(|_| supply.split) {
            Some(Leg::B) => legs_v[1],
            Some(Leg::Both) => Some(legs_v[0]? + legs_v[1]?),
            _ => legs_v[0],
        };
        // Feeders come before what branches off them.
        for branches in [false, true] {
            for (index, line) in wiring.circuits.iter().enumerate() {
                let Some(carried) = flow.circuits[index].filter(|_| mode.feeds[index] == Some(source)) else {
                    continue;
                };
                // A branch on one leg of a feeder across both has half its voltage.
                let part = |feeder: Index| Some(carried.voltage_v / flow.circuits[feeder]?.voltage_v);
                let from_v = match line.feeder {
                    Some(feeder) if branches => {
                        self.arriving_v[feeder].zip(part(feeder)).map(|(v, part)| v * part)
                    }
                    None if !branches => at_bus(line.circuit.leg),
                    _ => continue,
                };
                let (way, drawn) = (loops[index], &carried.drawn);
                let reactive_var = drawn.phasor.lagging_a * carried.voltage_v;
                let arrival = from_v
                    .and_then(|v| ac_behind(v, way.ohm, way.reactance_ohm, drawn.power_w, reactive_var));
                self.arriving_v[index] = arrival.map(|arrival| arrival.voltage_v);
            }
        }
    }

    /// Direct current: battery, bus bar, feeders and branches settle together.
    fn direct(
        &mut self,
        wiring: &Wiring,
        mode: &Switching,
        flow: &Flow,
        source: Index,
        loops: &[Loop],
        lead_ohm: f64,
    ) {
        let supply = &wiring.sources[source];
        let battery_ohm = wiring.battery.map_or(0.0, |battery| battery.ohm);
        let fed = |&index: &Index| mode.feeds[index] == Some(source) && flow.circuits[index].is_some();
        let volts = supply.source.voltage_v;
        let branch = |index: Index| lumped(wiring, flow, index, volts, loops[index].ohm);
        let below = |index: Index| wiring.circuits[index].branches.iter().copied().filter(fed);
        let first =
            || (0..wiring.circuits.len()).filter(fed).filter(|&i| wiring.circuits[i].feeder.is_none());
        let mut feeders: Vec<Feeder> = first()
            .map(|index| Feeder { cable: branch(index), branches: below(index).map(branch).collect() })
            .collect();
        // Inverters whose cable is not among the circuits hang on the bus itself.
        let on_bus =
            wiring.sources.iter().zip(&flow.sources).filter(|(other, _)| other.battery == Some(source));
        let constant_power_w = on_bus.filter_map(|(_, taken)| taken.as_ref()).map(SourceFlow::taken_w).sum();
        feeders
            .push(Feeder { cable: Branch { constant_power_w, ..Branch::default() }, branches: Vec::new() });
        let Some(bus) = solve_feeders(volts, battery_ohm + lead_ohm, &feeders) else { return };
        self.bus_v[source] = Some(bus.voltage_v);
        for (index, feeder) in first().zip(&feeders) {
            let Some(end) = feeder_at(bus.voltage_v, feeder) else { continue };
            self.arriving_v[index] = Some(end.voltage_v);
            for (below, branch) in below(index).zip(&feeder.branches) {
                self.arriving_v[below] = branch_at(end.voltage_v, branch).map(|arrival| arrival.voltage_v);
            }
        }
    }
}

/// A circuit with its loads at the far end, by how they answer to a lower voltage.
fn lumped(wiring: &Wiring, flow: &Flow, circuit: Index, source_v: f64, resistance_ohm: f64) -> Branch {
    let mut branch = Branch { resistance_ohm, ..Branch::default() };
    let line = &wiring.circuits[circuit];
    for &index in &line.loads {
        let drawn = &flow.loads[index];
        match wiring.loads[index].kind {
            LoadKind::Resistive => branch.conductance_s += drawn.current_a / source_v,
            _ => branch.constant_power_w += drawn.power_w,
        }
    }
    let fed = line.feeds.iter().filter_map(|&below| flow.sources[below].as_ref());
    branch.constant_power_w += fed.map(SourceFlow::taken_w).sum::<f64>();
    branch
}
