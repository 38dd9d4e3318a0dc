//! The limits that loads share in a mode, as the search for what may run together takes them.

use super::current::CONTINUOUS_FACTOR;
use super::defaults;
use super::drawn::{Flow, inrush_multiple};
use super::energized::{efficiency_from, entry};
use super::ratings::Rating;
use super::together::Limit;
use super::wiring::{Index, Switching, Wiring, is_on};
use crate::build::{Leg, SourceKind};
use crate::report::exceeds;

/// One limit: what each load weighs on it while it runs, what it weighs beyond that at its worst moment, and the most
/// that all may come to.
#[derive(Debug)]
pub struct SharedLimit {
    running: Vec<f64>,
    extra: Option<Vec<f64>>,
    bound: f64,
}

impl SharedLimit {
    /// The limit as the search takes it.
    pub fn limit(&self) -> Limit<'_> {
        match &self.extra {
            None => Limit::Sum { weights: &self.running, bound: self.bound },
            Some(extra) => Limit::Start { running: &self.running, extra, bound: self.bound },
        }
    }

    /// Can it be passed at all?
    fn binds(&self) -> bool {
        let worst = self.extra.iter().flatten().copied().fold(0.0, f64::max);
        exceeds(self.running.iter().sum::<f64>() + worst, self.bound)
    }
}

/// Every limit of a mode that everything together would pass.
pub fn shared_limits(
    wiring: &Wiring,
    mode: &Switching,
    flow: &Flow,
    ratings: &[Rating],
    ampacities_a: &[Option<f64>],
) -> Vec<SharedLimit> {
    let all = Limits { wiring, mode, flow };
    let of_sources =
        (0..wiring.sources.len()).flat_map(|source| all.of_source(source, ratings[source].limit_a));
    let of_circuits =
        (0..wiring.circuits.len()).flat_map(|circuit| all.of_circuit(circuit, ampacities_a[circuit]));
    of_sources.chain(of_circuits).filter(SharedLimit::binds).collect()
}

struct Limits<'a> {
    wiring: &'a Wiring<'a>,
    mode: &'a Switching<'a>,
    flow: &'a Flow,
}

impl Limits<'_> {
    /// What a source may give for hours, leg by leg, and while something starts.
    fn of_source(&self, source: Index, limit_a: Option<f64>) -> Vec<SharedLimit> {
        let supply = &self.wiring.sources[source];
        let Some(gives) = &self.flow.sources[source] else { return Vec::new() };
        let mut limits = Vec::new();
        for &side in sides(supply.split) {
            let Some(bound) = limit_a else { break };
            let own = |load| self.source_of(load) == Some(source) && self.is_on(load, supply.split, side);
            let mut limit = SharedLimit { running: self.weights(own, current_a), extra: None, bound };
            self.add_behind(&mut limit, source, 1.0, |entry| self.enters(entry, supply.split, side));
            limits.push(limit);
        }
        if let Some(bound) = supply.source.surge_w
            && exceeds(gives.start_va, bound)
        {
            let own = |load| self.source_of(load) == Some(source);
            let va = |flow: &Flow, load: Index| {
                let circuit = self.wiring.loads[load].circuit;
                current_a(flow, load) * flow.circuits[circuit].map_or(0.0, |circuit| circuit.voltage_v)
            };
            let extra = |flow: &Flow, load: Index| {
                va(flow, load) * (inrush_multiple(&self.wiring.loads[load], supply.is_ac()) - 1.0)
            };
            let extra = Some(self.weights(own, extra));
            limits.push(SharedLimit { running: self.weights(own, va), extra, bound });
        }
        limits
    }

    /// What the device of a circuit lets through and what its wire may carry, leg by leg.
    fn of_circuit(&self, circuit: Index, ampacity_a: Option<f64>) -> Vec<SharedLimit> {
        let line = &self.wiring.circuits[circuit];
        let Some(carried) = &self.flow.circuits[circuit] else { return Vec::new() };
        let both = line.circuit.leg == Some(Leg::Both) && self.wiring.sources[carried.source].split;
        let mut limits = Vec::new();
        for (&side, drawn) in sides(both).iter().zip(&carried.legs) {
            let drawn = if both { drawn } else { &carried.drawn };
            let on_it = |load: Index| {
                let own = self.wiring.loads[load].circuit;
                let here = own == circuit || self.wiring.circuits[own].feeder == Some(circuit);
                here && self.flow.powered[load] && self.is_on(load, both, side)
            };
            let below = |entry: Index| {
                let of = self.wiring.sources[entry].circuit;
                let here = of == Some(circuit)
                    || of.is_some_and(|of| self.wiring.circuits[of].feeder == Some(circuit));
                here && self.enters(entry, both, side)
            };
            if let Some(bound) =
                line.circuit.breaker_a.filter(|breaker_a| exceeds(drawn.required_a(), *breaker_a))
            {
                let running = |flow: &Flow, load: Index| {
                    current_a(flow, load) + (CONTINUOUS_FACTOR - 1.0) * flow.loads[load].continuous_a
                };
                let extra = |flow: &Flow, load: Index| (CONTINUOUS_FACTOR - 1.0) * flow.loads[load].motor_a;
                let extra = Some(self.weights(on_it, extra));
                let mut limit = SharedLimit { running: self.weights(on_it, running), extra, bound };
                self.add_behind(&mut limit, carried.source, CONTINUOUS_FACTOR, below);
                limits.push(limit);
            }
            if let Some(bound) = ampacity_a.filter(|ampacity_a| exceeds(drawn.current_a, *ampacity_a)) {
                let mut limit = SharedLimit { running: self.weights(on_it, current_a), extra: None, bound };
                self.add_behind(&mut limit, carried.source, 1.0, below);
                limits.push(limit);
            }
        }
        limits
    }

    /// The source that feeds a load.
    fn source_of(&self, load: Index) -> Option<Index> {
        self.mode.feeds[self.wiring.loads[load].circuit].filter(|_| self.flow.powered[load])
    }

    fn is_on(&self, load: Index, split: bool, side: Leg) -> bool {
        is_on(self.wiring.leg(self.wiring.loads[load].circuit).filter(|_| split), side)
    }

    /// Does a source take its power from this side?
    fn enters(&self, source: Index, split: bool, side: Leg) -> bool {
        let leg = self.wiring.sources[source].circuit.and_then(|circuit| self.wiring.leg(circuit));
        is_on(leg.filter(|_| split), side)
    }

    /// What each load that counts weighs.
    fn weights(&self, counts: impl Fn(Index) -> bool, weight: impl Fn(&Flow, Index) -> f64) -> Vec<f64> {
        let loads = 0..self.wiring.loads.len();
        loads.map(|load| if counts(load) { weight(self.flow, load) } else { 0.0 }).collect()
    }

    /// What loads behind inverters weigh on the source `above`: their power and what the inverters lose, at the voltage
    /// at which they shut off. `counts` says which of the inverters that feed directly on it are meant.
    fn add_behind(&self, limit: &mut SharedLimit, above: Index, factor: f64, counts: impl Fn(Index) -> bool) {
        for source in 0..self.wiring.sources.len() {
            if self.flow.sources[source].is_none() {
                continue;
            }
            let Some(entry) = entry(self.wiring, self.mode, source, above).filter(|&entry| counts(entry))
            else {
                continue;
            };
            let supply = &self.wiring.sources[entry];
            let inverts = supply.source.kind == SourceKind::Inverter;
            if entry == source && inverts {
                limit.bound -= factor * defaults::inverter_losses(supply.source).0 / supply.cutoff_v;
            }
            let efficiency = efficiency_from(self.wiring, self.mode, source, above);
            for (load, weight) in limit.running.iter_mut().enumerate() {
                if self.source_of(load) == Some(source) {
                    let drawn = &self.flow.loads[load];
                    let taken_a =
                        if inverts { drawn.power_w / efficiency / supply.cutoff_v } else { drawn.current_a };
                    *weight += factor * taken_a;
                }
            }
        }
    }
}

fn current_a(flow: &Flow, load: Index) -> f64 {
    flow.loads[load].current_a
}

fn sides(both: bool) -> &'static [Leg] {
    if both { &[Leg::A, Leg::B] } else { &[Leg::A] }
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::super::fixture::{sources, wired};
    use super::super::numbers::numbers;
    use super::*;
    use crate::build::Build;

    fn conflicts(build: &Build) -> Vec<Vec<Index>> {
        let wiring = Wiring::of(build).unwrap();
        numbers(build, &wiring).modes[0].together.conflicts.clone()
    }

    #[test]
    fn what_runs_behind_an_inverter_counts_on_the_feeder_of_its_cable() {
        let block = |breaker_a: f64| {
            let circuits =
                json!({"block": {"breaker_a": breaker_a}, "cable": {"feeder": "block"}, "outlets": {}});
            let modes = json!({"off_grid": {"feeds": {"block": "battery", "outlets": "inverter"}}});
            let loads = json!({
                "kettle": {"circuit": "outlets", "power_w": 990, "power_factor": 1},
                "pump": {"circuit": "block", "current_a": 8},
            });
            conflicts(&wired(sources(), circuits, modes, loads))
        };
        // 1.25 · (990 W / 0.9 + 20 W) / 11 V = 127.3 A, and 8 A beside it.
        assert_eq!(block(135.2), [vec![0, 1]]);
        assert_eq!(block(135.3), Vec::<Vec<Index>>::new());
        assert_eq!(block(127.2), [vec![0]]);
    }

    #[test]
    fn legs_are_held_to_their_limit_one_by_one() {
        let loads = json!({
            "left": {"circuit": "a", "current_a": 25, "power_factor": 1},
            "right": {"circuit": "b", "current_a": 25, "power_factor": 1},
        });
        let on = |feeder: Value| {
            let sources = json!({"shore": {"kind": "shore", "voltage_v": 120, "rating_a": 50, "legs": 2}});
            let circuits = json!({"panel": {"leg": "both", "breaker_a": 40}, "a": {"leg": "a", "feeder": feeder},
                "b": {"leg": "b", "feeder": feeder}});
            let modes = json!({"on": {"feeds": {"panel": "shore", "a": "shore", "b": "shore"}}});
            conflicts(&wired(sources, circuits, modes, loads.clone()))
        };
        assert_eq!(on(json!(null)), Vec::<Vec<Index>>::new());
        assert_eq!(on(json!("panel")), Vec::<Vec<Index>>::new());
    }

    #[test]
    fn two_inverters_on_one_cable_both_count() {
        let mut sources = sources();
        sources["second"] = sources["inverter"].clone();
        let circuits = json!({"cable": {"breaker_a": 400}, "left": {}, "right": {}});
        let modes =
            json!({"off_grid": {"feeds": {"cable": "battery", "left": "inverter", "right": "second"}}});
        let loads = json!({
            "left": {"circuit": "left", "power_w": 100, "power_factor": 1},
            "right": {"circuit": "right", "power_w": 100, "power_factor": 1},
        });
        let build = wired(sources, circuits, modes, loads);
        let wiring = Wiring::of(&build).unwrap();
        let cable_a = numbers(&build, &wiring).modes[0].flow.circuits[0].unwrap().drawn.current_a;
        assert!((cable_a - 2.0 * 2020.0 / 11.0).abs() < 1e-9);
    }

    #[test]
    fn an_inverter_whose_cable_is_not_given_loads_the_battery_all_the_same() {
        let mut sources = sources();
        sources["inverter"].as_object_mut().unwrap().remove("circuit");
        sources["battery"]["rating_a"] = json!(100);
        let modes = json!({"off_grid": {"feeds": {"outlets": "inverter"}}});
        let loads = json!({"kettle": {"circuit": "outlets", "power_w": 990, "power_factor": 1}});
        let build = wired(sources, json!({"outlets": {}}), modes, loads);
        let wiring = Wiring::of(&build).unwrap();
        let mode = &numbers(&build, &wiring).modes[0];
        assert!((mode.flow.sources[2].unwrap().drawn.current_a - 2020.0 / 11.0).abs() < 1e-9);
        assert_eq!(mode.together.conflicts, [vec![0]]);
        assert!(mode.voltages.bus_v[2].is_some());
    }
}
